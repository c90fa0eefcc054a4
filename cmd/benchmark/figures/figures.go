// Package figures is what the benchmarks share: figures printed beside their
// targets, and work done on all processors.
package figures

import (
	"errors"
	"fmt"
	"io"
	"runtime"
	"sync"
)

// Printer writes figures beside their targets and counts those met.
type Printer struct {
	Out        io.Writer
	Name       int // columns of a figure's name
	Figure     int // columns of a figure
	Met, Short int
	Err        error // the first that writing met with
}

// Printf writes as fmt.Fprintf does, until that fails.
func (p *Printer) Printf(format string, args ...any) {
	if p.Err == nil {
		_, p.Err = fmt.Fprintf(p.Out, format, args...)
	}
}

// AtMost writes a figure that must not be greater than its target.
func (p *Printer) AtMost(name string, figure, target float64, unit string) {
	p.verdict(name, figure, target, figure <= target, "at most", unit)
}

// AtLeast writes a figure that must not be less than its target.
func (p *Printer) AtLeast(name string, figure, target float64, unit string) {
	p.verdict(name, figure, target, figure >= target, "at least", unit)
}

func (p *Printer) verdict(name string, figure, target float64, ok bool, bound, unit string) {
	word := "met"
	if ok {
		p.Met++
	} else {
		p.Short++
		word = "SHORT"
	}
	p.Printf("%-*s %*.3g %-3s %s %-6.3g %s\n", p.Name, name, p.Figure, figure, unit, bound, target, word)
}

// Plain writes a figure that has no target.
func (p *Printer) Plain(name string, figure float64, unit string) {
	p.Printf("%-*s %*.3g %s\n", p.Name, name, p.Figure, figure, unit)
}

// Each does n things, so many at a time; 0 for as many as there are processors.
// It returns all errors joined.
func Each(n, side int, do func(i int) error) error {
	if side < 1 {
		side = runtime.GOMAXPROCS(0)
	}
	var wait sync.WaitGroup
	next, errs := make(chan int), make([]error, n)
	for range side {
		wait.Go(func() {
			for i := range next {
				errs[i] = do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	return errors.Join(errs...)
}
