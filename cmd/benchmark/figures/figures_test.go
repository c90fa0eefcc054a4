package figures

import (
	"errors"
	"strings"
	"sync/atomic"
	"testing"
)

func TestPrinter(t *testing.T) {
	var out strings.Builder
	p := &Printer{Out: &out, Name: 6, Figure: 5}
	p.AtMost("over", 0.7, 0.6, "in")
	p.AtLeast("just", 0.6, 0.6, "in")
	p.Plain("bare", 2, "mm")
	const want = "over     0.7 in  at most 0.6    SHORT\n" +
		"just     0.6 in  at least 0.6    met\n" +
		"bare       2 mm\n"
	if out.String() != want || p.Met != 1 || p.Short != 1 || p.Err != nil {
		t.Errorf("%d met, %d short, %v:\n%s", p.Met, p.Short, p.Err, &out)
	}
}

type shut struct{}

var errShut = errors.New("shut")

func (shut) Write([]byte) (int, error) { return 0, errShut }

func TestPrinterStops(t *testing.T) {
	p := &Printer{Out: shut{}}
	p.Plain("one", 1, "")
	p.AtLeast("two", 2, 1, "")
	if !errors.Is(p.Err, errShut) {
		t.Errorf("the error is %v", p.Err)
	}
}

func TestEach(t *testing.T) {
	odd := errors.New("odd")
	for _, side := range []int{0, 1, 7} {
		var done atomic.Int64
		err := Each(20, side, func(i int) error {
			done.Add(1)
			if i == 13 {
				return odd
			}
			return nil
		})
		if done.Load() != 20 || !errors.Is(err, odd) {
			t.Errorf("side %d: %d done, %v", side, done.Load(), err)
		}
	}
	if err := Each(0, 0, nil); err != nil {
		t.Error(err)
	}
}
