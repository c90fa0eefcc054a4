package cover

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/interp"

	"fairtape/cmd/benchmark/figures"
	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/reply/cover/sheet"
	"fairtape/validate"
	"fairtape/validate/fair"
	"fairtape/validate/known"
)

// between holds the fair curve against the boats' own girths at every inch from
// a foot aft of the bow to a foot ahead of the stern. Nearer to the ends panels
// follow the tracings.
func between(p *figures.Printer, boats []boat) {
	p.Printf("\nGirths at unmeasured places, %d ordinary boats\n", len(boats))
	for _, readings := range []struct {
		name   string
		report func(boat) validate.Report
		rated  bool
	}{
		{"readings rounded to 1/2 in", func(b boat) validate.Report { return b.exact }, true},
		{"readings of a home-made tape", func(b boat) validate.Report { return b.report }, false},
	} {
		var all, cut misses
		for _, b := range boats {
			r := readings.report(b)
			if r.Curve == nil {
				continue
			}
			from, to := cutFrom(b)
			all.add(b.known, r.Curve, 12, b.known.Length-12)
			cut.add(b.known, r.Curve, from, to)
		}
		if readings.rated {
			p.AtMost(readings.name+": rms", all.rms(), girthRMS, "in")
			p.AtMost(readings.name+": most", all.most, girthMost, "in")
		} else {
			p.Plain(readings.name+": rms", all.rms(), "in")
			p.Plain(readings.name+": most", all.most, "in")
		}
		p.Plain(readings.name+": boats with more than 0.6", float64(all.boats), "")
		p.Plain("  of these where panels are cut from the curve, not from tracings", float64(cut.boats), "")
		p.Plain("  most, where panels are cut from the curve", cut.most, "in")
		p.Plain("  share of places within two of the spreads that the curve states", all.within(), "")
	}
	betweenTrue(p, boats)
}

// cutFrom returns between which places, in inches, the panels of a boat are cut
// from the curve.
func cutFrom(b boat) (from, to float64) {
	var at []float64
	for _, s := range b.exact.Survey.Stations {
		at = append(at, s.At.In(parse.Inch))
	}
	first, last := cover.FromCurve(at, b.known.Length)
	return at[first], at[last]
}

// misses is by how much curves miss the girths of boats.
type misses struct {
	square, most   float64
	places, stated int // stated: within two of the spreads that the curve states
	boats          int // that are missed by more than the target somewhere
}

// add holds a curve against a boat at every inch.
func (m *misses) add(b known.Boat, curve fair.Curve, from, to float64) {
	worst := 0.0
	for x := from; x <= to; x++ {
		hull, full := b.Girths(x)
		h, f := curve.At(x)
		for k, e := range []fair.Estimate{h, f} {
			off := math.Abs(e.Mean - [2]float64{hull, full}[k])
			m.square += off * off
			m.places++
			if off <= 2*e.SD {
				m.stated++
			}
			worst = math.Max(worst, off)
		}
	}
	m.most = math.Max(m.most, worst)
	if worst > girthMost {
		m.boats++
	}
}

func (m *misses) rms() float64 { return math.Sqrt(m.square / float64(m.places)) }

func (m *misses) within() float64 { return float64(m.stated) / float64(m.places) }

// betweenTrue is what stations a foot apart leave open even where nothing was
// rounded: a cubic (not-a-knot, gonum's) through the boats' own girths there.
func betweenTrue(p *figures.Printer, boats []boat) {
	most, over := 0.0, 0
	for _, b := range boats {
		var at []float64
		var girths [2][]float64
		for _, s := range b.exact.Survey.Stations {
			x := s.At.In(parse.Inch)
			hull, full := b.known.Girths(x)
			at, girths[0], girths[1] = append(at, x), append(girths[0], hull), append(girths[1], full)
		}
		worst := 0.0
		for k, list := range girths {
			var cubic interp.NotAKnotCubic
			if cubic.Fit(at, list) != nil {
				continue // too few stations
			}
			for x := 12.0; x <= b.known.Length-12; x++ {
				var want [2]float64
				want[0], want[1] = b.known.Girths(x)
				worst = math.Max(worst, math.Abs(cubic.Predict(x)-want[k]))
			}
		}
		most = math.Max(most, worst)
		if worst > girthMost {
			over++
		}
	}
	p.Plain("a cubic through the true girths, not rounded: most", most, "in")
	p.Plain("a cubic through the true girths, not rounded: boats with more than 0.6", float64(over), "")
}

// roll holds the length of cloth that is used up against that of boxes.
func roll(p *figures.Printer, boats []boat, construction cover.Construction) error {
	var saved, lean []float64
	abreast, wide := 0, 0
	for _, b := range boats {
		s, err := cover.Make(b.report, order(construction))
		var refused *cover.Refusal
		if errors.As(err, &refused) {
			wide++
			continue
		}
		if err != nil {
			return fmt.Errorf("cut %s: %w", b.known.Name, err)
		}
		lean = append(lean, steepest(s))
		_, first := height(s.Pieces[0].Outline)
		_, second := height(s.Pieces[1].Outline)
		if first+second <= s.Lay.Width {
			abreast++
			continue
		}
		saved = append(saved, 1-s.Lay.Length/s.Boxes.Length)
	}
	p.Printf("\nOn a 60 in roll, %s: %d boats; panels of %d fit abreast, %d are refused (too wide for the roll, or no room for an entry)\n",
		construction, len(boats), abreast, wide)
	if len(saved) == 0 {
		return nil
	}
	slices.Sort(saved)
	name := "less cloth than boxes end to end, median"
	if construction == cover.Sides {
		p.AtLeast(name, 100*saved[len(saved)/2], 100*lessCloth, "%")
	} else {
		p.Plain(name+" (no target)", 100*saved[len(saved)/2], "%")
	}
	p.Plain("  a tenth of the boats save at most", 100*saved[len(saved)/10], "%")
	p.Plain("  a tenth of the boats save at least", 100*saved[len(saved)*9/10], "%")
	slices.Sort(lean)
	p.Plain("steepest station on the flat cloth, median of the boats", lean[len(lean)/2], "degrees")
	p.Plain("  a tenth of the boats more than", lean[len(lean)*9/10], "degrees")
	return nil
}

// steepest returns by how much the station that leans most does, in degrees.
func steepest(s cover.CutSheet) float64 {
	worst := 0.0
	for _, panel := range s.Panels {
		for _, m := range panel.Chalk() {
			worst = math.Max(worst, m.Lean())
		}
	}
	return worst
}

func height(outline []cover.Point) (long, wide float64) {
	least, most := outline[0], outline[0]
	for _, q := range outline {
		least = cover.Point{X: min(least.X, q.X), Y: min(least.Y, q.Y)}
		most = cover.Point{X: max(most.X, q.X), Y: max(most.Y, q.Y)}
	}
	return most.X - least.X, most.Y - least.Y
}

func order(construction cover.Construction) cover.Order {
	return cover.Order{
		Shop: "Pinfold Cover Loft", Job: "14", Sheet: 1, Draft: true, Cloth: cloth(construction),
		Date: time.Date(2026, time.April, 2, 9, 0, 0, 0, time.UTC),
	}
}

// timed is how many boats are timed.
const timed = 20

// duration measures a cut sheet in all its forms.
func duration(p *figures.Printer, boats []boat) error {
	var worst, all time.Duration
	n := 0
	for _, b := range boats[:min(len(boats), timed)] {
		begin := time.Now()
		s, err := cover.Make(b.report, order(cover.Sides))
		var refused *cover.Refusal
		if errors.As(err, &refused) {
			continue
		}
		if err != nil {
			return err
		}
		if _, err := sheet.Files(&s, sheet.Options{Paper: sheet.Letter}); err != nil {
			return err
		}
		took := time.Since(begin)
		worst, all, n = max(worst, took), all+took, n+1
	}
	p.Printf("\nTime of a cut sheet: design, layout, PDF, xlsx, SVG and DXF\n")
	if n > 0 {
		p.Plain("mean", float64(all.Milliseconds())/float64(n), "ms")
	}
	p.AtMost("longest", float64(worst.Milliseconds()), millisecondsA, "ms")
	return nil
}
