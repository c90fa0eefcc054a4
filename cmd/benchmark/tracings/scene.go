package tracings

import (
	"image"
	"math"
	"math/rand/v2"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/tracing/tracingtest"
)

// sheets are the printed tracing sheets.
type sheets map[form.Paper]printedSheet

type printedSheet struct {
	grid    form.Grid
	picture *image.Gray
}

func printSheets() (sheets, error) {
	all := sheets{}
	for paper, unit := range map[form.Paper]parse.Unit{form.Letter: parse.Inch, form.A4: parse.Centimetre} {
		g, err := form.NewGrid(paper, unit)
		if err != nil {
			return nil, err
		}
		m, err := tracingtest.Printed(g)
		if err != nil {
			return nil, err
		}
		all[paper] = printedSheet{g, m}
	}
	return all, nil
}

// How an end is traced at home; common practice, no source. Paper is cut and
// printed to a few tenths of a millimetre, joined by eye, and buckles a little.
const (
	inch        = 25.4
	tallest     = 24 * inch
	lowest      = 10 * inch
	margin      = 32.0   // of bare paper about the line at least, mm: marks and words
	printSpread = 0.0015 // of an honest print's scale
	gapSpread   = 0.3    // between two sheets, mm
	turnSpread  = 0.1    // degrees
	mostLift    = 1.0    // mm
)

// scene is an end of a boat of this height on as many sheets as it takes, printed
// at this scale.
func (s sheets) scene(rng *rand.Rand, high, print float64) tracingtest.Scene {
	u := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	paper := form.Letter
	if rng.IntN(2) == 0 {
		paper = form.A4
	}
	p := s[paper]
	scene := tracingtest.Scene{
		Grid: p.grid, Paper: paper, Print: print, Picture: p.picture,
		Pencil: u(0.4, 0.9), Dark: u(0.3, 0.7), Table: u(0.15, 0.6),
		Lift: tracingtest.Waves{High: u(0, mostLift), Long: u(150, 400), Towards: u(0, math.Pi), Begin: u(0, 2*math.Pi)},
	}
	w, h := paper.Size()
	wide := u(0.45, 0.75) * high
	across, down := int(math.Ceil((wide+2*margin)/w)), int(math.Ceil((high+2*margin)/h))
	for row := range down { // the lower left sheet first
		for column := range across {
			sheet := tracingtest.Sheet{At: tracingtest.Point{X: float64(column) * w, Y: float64(down-1-row) * h}}
			if row > 0 || column > 0 {
				sheet.At.X += math.Abs(gapSpread*rng.NormFloat64()) * float64(column)
				sheet.At.Y -= math.Abs(gapSpread*rng.NormFloat64()) * float64(row)
				sheet.Turn = turnSpread * rng.NormFloat64()
			}
			scene.Sheets = append(scene.Sheets, sheet)
		}
	}
	left := margin + u(0, float64(across)*w-2*margin-wide)
	foot := float64(down)*h - margin - u(0, float64(down)*h-2*margin-high)
	scene.Line = tracingtest.Turn(left, foot, wide, high, u(1.7, 3))
	return scene
}

// long is the longer side of the sheets, mm.
func long(s tracingtest.Scene) float64 {
	w, h := s.Paper.Size()
	most := 0.0
	for _, sheet := range s.Sheets {
		most = max(most, sheet.At.X+w, sheet.At.Y+h)
	}
	return most
}

// tape is what a tape reads along the printed line, to a sixteenth of an inch or
// a millimetre.
func tape(s tracingtest.Scene) parse.Length {
	step := 1.0
	if s.Grid.Unit == parse.Inch {
		step = inch / 16
	}
	return parse.Length(math.Round(s.Grid.Line.Height()*s.Print/step) * step)
}

// astray is how far the farthest point of a line is from the pencil's, mm.
func astray(s tracingtest.Scene, line []parse.TracedPoint) (worst float64) {
	for _, q := range line {
		worst = max(worst, s.Off(tracingtest.Point{X: q.X, Y: s.Grid.Height*s.Print - q.Y}))
	}
	return worst
}

// lost is how far the farthest point of the pencil's line is from the line that
// was read, mm.
func lost(s tracingtest.Scene, line []parse.TracedPoint) (worst float64) {
	zero := s.Place(0, 0, 0)
	for _, drawn := range s.Line {
		x, y := drawn.X-zero.X, s.Grid.Height*s.Print-(drawn.Y-zero.Y)
		nearest := math.Inf(1)
		for _, q := range line {
			nearest = min(nearest, math.Hypot(q.X-x, q.Y-y))
		}
		worst = max(worst, nearest)
	}
	return worst
}
