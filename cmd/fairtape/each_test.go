package main

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

// BenchmarkCheckEach judges a thousand simulated surveys in CSV, as "check
// --each" does: at most 10 s on one core.
//
//	go test -run xxx -bench CheckEach -benchtime 1x -cpu 1 ./cmd/fairtape
func BenchmarkCheckEach(b *testing.B) {
	count := 1000
	if testing.Short() {
		count = 10
	}
	rng := rand.New(rand.NewPCG(7, 7))
	dir := b.TempDir()
	args := []string{"check", "--each"}
	for i := range count {
		s := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch)).Survey
		file := filepath.Join(dir, fmt.Sprintf("%d.csv", i))
		if err := os.WriteFile(file, []byte(asCSV(s)), 0o600); err != nil {
			b.Fatal(err)
		}
		args = append(args, file)
	}
	for b.Loop() {
		if status := run(args, strings.NewReader(""), io.Discard, io.Discard, nil); status != statusClean && status != statusOpen {
			b.Fatalf("status %d", status)
		}
	}
}

// asCSV writes a survey in inches in the shop's own layout.
func asCSV(s parse.Survey) string {
	var t strings.Builder
	in := func(r parse.Reading) float64 { return r.Value.In(parse.Inch) }
	fmt.Fprintf(&t, "unit,in\nlength overall,%g in\nbow height,%g\nstern height,%g\ncarry point,%g\n",
		in(s.LengthOverall), in(s.BowHeight), in(s.SternHeight), in(s.CarryPoint))
	fmt.Fprintf(&t, "greatest girth at,%g in,%g,%g\nopening there,%g\n",
		in(s.Greatest.At), in(s.Greatest.HullGirth), in(s.Greatest.FullGirth), in(s.Greatest.Opening))
	t.WriteString("station,hull girth,full girth\n")
	for _, st := range s.Stations {
		fmt.Fprintf(&t, "%g in,%g,%g\n", st.At.In(parse.Inch), in(st.HullGirth), in(st.FullGirth))
	}
	return t.String()
}
