package table

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// A table on its side of whose stations one was left out says nothing surely
// that is not so.
func TestStationLeftOut(t *testing.T) {
	for seed := range 60 {
		r := rand.New(rand.NewPCG(uint64(seed), 11))
		s := invent(r)
		names := []string{"Station"}
		hull, full := []string{"Hull girth (" + string(s.unit) + ")"}, []string{"Full girth (" + string(s.unit) + ")"}
		out := r.IntN(len(s.hull))
		for i := range s.hull {
			if i != out {
				names = append(names, fmt.Sprintf("%g %s", float64(i+1)*s.step, s.unit))
			}
			hull, full = append(hull, plain(s.hull[i])), append(full, plain(s.full[i]))
		}
		text := strings.Join(names, "|") + "\n" + strings.Join(hull, "|") + "\n" + strings.Join(full, "|")
		for _, got := range Read("short.csv", []Grid{grid(text)}).Surveys {
			if wrong, _ := s.sureAndWrong(got); len(wrong) > 0 {
				t.Errorf("%d: %s, of\n%s", seed, strings.Join(wrong, "; "), text)
			}
		}
	}
}
