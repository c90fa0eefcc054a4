// Package tracings measures the reader of photographed tracing sheets: ends of
// boats are drawn on the shop's sheets, joined, photographed at a tilt with lens
// errors, blur and shadows, and read; and sheets printed at the wrong scale are
// offered as true ones.
package tracings

import (
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/parse/tracing"
	"fairtape/parse/tracing/tracingtest"
)

// ErrShort says that a figure falls short of its target.
var ErrShort = errors.New("a figure falls short of its target")

// Command is the subcommand. Nobody tunes on the default seed.
type Command struct {
	Seed   uint64  `default:"1889" help:"Seed of the ends and photos; 1 to 99 are for tuning."`
	Count  int     `default:"200" help:"Photos of ends; half as many of sheets printed at the wrong scale, and as many at the right one."`
	Tilt   float64 `default:"30" help:"Greatest tilt of the camera, degrees."`
	Each   bool    `help:"One line a photo."`
	Strict bool    `help:"End with status 1 when a target is missed."`
}

// The targets.
const (
	covered    = 0.95 // of the photos the line is within the stated error
	mostOff    = 2.0  // mm, at 24 in
	underMost  = 0.95 // of the photos of 24 in
	readable   = 0.90 // of the photos are read at all
	whole      = 0.80 // of the photos the line is read from end to end
	lostMost   = 10.0 // mm of a line that is read from end to end
	worthPaper = 0.90 // of true prints with both proofs count as true
)

// Run prints the figures, each beside its target.
func (c *Command) Run(out io.Writer) error {
	if c.Count < 2 {
		return fmt.Errorf("--count %d: at least 2", c.Count)
	}
	if c.Tilt < 0 || c.Tilt > 60 {
		return fmt.Errorf("--tilt %g: 0 to 60", c.Tilt)
	}
	printed, err := printSheets()
	if err != nil {
		return err
	}
	p := &figures.Printer{Out: out, Name: 62, Figure: 8}
	if err := c.lines(p, printed); err != nil {
		return err
	}
	if err := c.scales(p, printed); err != nil {
		return err
	}
	p.Printf("\n%d targets met, %d short\n", p.Met, p.Short)
	if p.Err == nil && c.Strict && p.Short > 0 {
		return ErrShort
	}
	return p.Err
}

// shot is a photo and what was read of it.
type shot struct {
	scene  tracingtest.Scene
	camera tracingtest.Camera
	high   float64 // of the end, mm
	read   parse.Tracing
	err    error
	off    float64 // of the farthest point of the line, mm
	lost   float64 // of the pencil's line, mm: how far the farthest part of it is from what was read
}

// lines holds the line that is read against the pencil's.
func (c *Command) lines(p *figures.Printer, printed sheets) error {
	shots, err := c.photograph(series{1, c.Count, false}, func(rng *rand.Rand, i int) (tracingtest.Scene, float64) {
		high := tallest
		if i%2 == 1 {
			high = lowest + (tallest-lowest)*rng.Float64()
		}
		return printed.scene(rng, high, 1+printSpread*rng.NormFloat64()), high
	})
	if err != nil {
		return err
	}
	p.Printf("Ends of boats, %d photos tilted up to %.0f degrees, half of the ends 24 in high\n", len(shots), c.Tilt)
	c.each(p, shots)
	var residual, stated, off, tall, ratio []float64
	read, within, trueScale, silent, cut := 0, 0, 0, 0, 0
	for _, s := range shots {
		if s.err != nil {
			continue
		}
		read++
		if s.read.Part {
			continue
		}
		if s.lost > lostMost {
			cut++
		}
		ratio = append(ratio, s.read.Error/s.off)
		residual, stated, off = append(residual, s.read.Residual), append(stated, s.read.Error), append(off, s.off)
		if s.off <= s.read.Error {
			within++
		}
		if s.high == tallest {
			tall = append(tall, s.off)
		}
		if s.read.Preview(tape(s.scene)) == "" {
			trueScale++
			if s.off > mostOff || s.lost > lostMost {
				silent++
			}
		}
	}
	p.AtLeast("photos that are read", share(read, len(shots)), readable, "")
	p.AtLeast("  of these the line from end to end", share(len(off), read), whole, "")
	p.AtMost("  and said to be when a part of it is missing", float64(cut), 0, "")
	spread(p, "residual of the marks, mm", residual)
	spread(p, "stated error, mm", stated)
	spread(p, "true error, mm", off)
	spread(p, "stated error over the true one", ratio)
	p.AtLeast("true error within the stated one", share(within, len(off)), covered, "")
	under := 0
	for _, o := range tall {
		if o < mostOff {
			under++
		}
	}
	p.AtLeast(fmt.Sprintf("%d ends 24 in high: true error under 2 mm", len(tall)), share(under, len(tall)), underMost, "")
	p.Plain("taken for true to scale, with an honest tape", share(trueScale, len(off)), "")
	p.AtMost("  of these off by more than 2 mm, or not whole", float64(silent), 0, "")
	return nil
}

// Sheets printed at the wrong scale are at least so far from 1, as a fraction.
const wrongScale = 0.01

// scales holds what is taken for true to scale against the scale of the print.
func (c *Command) scales(p *figures.Printer, printed sheets) error {
	wrong, err := c.photograph(series{2, c.Count / 2, true}, func(rng *rand.Rand, i int) (tracingtest.Scene, float64) {
		off := wrongScale + (0.10-wrongScale)*rng.Float64()
		if i%2 == 1 {
			off = -off
		}
		return printed.scene(rng, lowest*0.8, 1+off), 0
	})
	if err != nil {
		return err
	}
	right, err := c.photograph(series{3, c.Count / 2, true}, func(rng *rand.Rand, _ int) (tracingtest.Scene, float64) {
		return printed.scene(rng, lowest*0.8, 1+printSpread*rng.NormFloat64()), 0
	})
	if err != nil {
		return err
	}
	hidden, err := c.photograph(series{4, c.Count / 4, true}, func(rng *rand.Rand, _ int) (tracingtest.Scene, float64) {
		s := printed.scene(rng, lowest*0.8, 0.9+0.2*rng.Float64())
		s.Table = 0.9 // paper on paper
		return s, 0
	})
	if err != nil {
		return err
	}
	nominal := func(s tracingtest.Scene) parse.Length { return parse.Length(s.Grid.Line.Height()) }
	silent := func(tracingtest.Scene) parse.Length { return 0 }
	p.Printf("\nScale of the print, %d photos at 90 to 110 %%, none within 1 %%\n", len(wrong))
	c.each(p, wrong)
	var doubt []float64
	for _, s := range wrong {
		if s.err == nil && s.read.PrintScale != 0 {
			doubt = append(doubt, 100*max(s.read.PrintScale-s.scene.Print, s.scene.Print-s.read.PrintScale))
		}
	}
	p.Plain("scale told by the paper's edges", share(len(doubt), len(wrong)), "")
	spread(p, "  off by, %", doubt)
	p.AtMost("taken for true: nobody measured the line", accepted(wrong, silent), 0, "")
	p.AtMost("taken for true: the line measured", accepted(wrong, tape), 0, "")
	p.AtMost("taken for true: the printed length repeated, not measured", accepted(wrong, nominal), 0, "")
	p.Printf("\n%d photos on a table as white as the paper, at 90 to 110 %%\n", len(hidden))
	c.each(p, hidden)
	p.AtMost("taken for true: the printed length repeated, not measured", accepted(hidden, nominal), 0, "")
	p.Printf("\n%d photos at 100 %%\n", len(right))
	c.each(p, right)
	p.AtMost("taken for true: nobody measured the line", accepted(right, silent), 0, "")
	p.AtLeast("taken for true: the line measured, share", accepted(right, tape)/float64(len(right)), worthPaper, "")
	return nil
}

// accepted counts the photos that are taken for true to scale when this is said
// of the printed line.
func accepted(shots []shot, said func(tracingtest.Scene) parse.Length) (n float64) {
	for _, s := range shots {
		if s.err == nil && s.read.Preview(said(s.scene)) == "" {
			n++
		}
	}
	return n
}

// series is a number of photos. Small ones are as mail programs shrink them.
type series struct {
	part  uint64
	count int
	small bool
}

// photograph makes and reads photos on all processors. Each photo has random
// numbers of its own.
func (c *Command) photograph(of series, scene func(*rand.Rand, int) (tracingtest.Scene, float64)) ([]shot, error) {
	shots := make([]shot, of.count)
	return shots, figures.Each(of.count, 0, func(i int) error {
		rng := rand.New(rand.NewPCG(c.Seed, of.part<<32+uint64(i)))
		s := &shots[i]
		s.scene, s.high = scene(rng, i)
		s.camera = tracingtest.Ordinary(rng, c.Tilt, long(s.scene))
		if of.small {
			s.camera.Width, s.camera.Height = 2016, 1512
		}
		return s.shoot(rng)
	})
}

// shoot takes the photo and reads it.
func (s *shot) shoot(rng *rand.Rand) error {
	photo, err := s.scene.Photograph(s.camera, rng)
	if err != nil {
		return err
	}
	s.read, s.err = tracing.Read(photo)
	s.off, s.lost = astray(s.scene, s.read.Line), lost(s.scene, s.read.Line)
	return nil
}

// each prints one line a photo when that was asked for.
func (c *Command) each(p *figures.Printer, shots []shot) {
	if !c.Each {
		return
	}
	for i, s := range shots {
		p.Printf("%3d %-6s %2d of %2d sheets, tilt %4.1f, %4.2f mm off, %4.2f stated, %3.0f lost, part %t, residual %4.2f, print %.4f read %.4f, shadow %.2f, %v\n",
			i, s.scene.Paper, s.read.Sheets, len(s.scene.Sheets), s.camera.Tilt, s.off, s.read.Error, s.lost, s.read.Part, s.read.Residual,
			s.scene.Print, s.read.PrintScale, s.camera.Shadow.Deep, s.err)
	}
}

func share(n, of int) float64 {
	if of == 0 {
		return 0
	}
	return float64(n) / float64(of)
}

// spread writes the middle and the greatest of some figures.
func spread(p *figures.Printer, name string, all []float64) {
	if len(all) == 0 {
		return
	}
	slices.Sort(all)
	p.Printf("%-*s %*.3g in the median, %.3g in 19 of 20, %.3g at most\n", p.Name, name, p.Figure, all[len(all)/2], all[len(all)*19/20], all[len(all)-1])
}
