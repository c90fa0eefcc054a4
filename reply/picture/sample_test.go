package picture

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/fair"
	"fairtape/validate/slip"
)

var pictures = flag.String("pictures", "", "folder to write the drawn samples to, for looking at")

// hull is an invented fair boat: girths in inches at x inches.
type hull struct{ length float64 }

func (h hull) At(x float64) (hull, full fair.Estimate) {
	t := x / h.length
	swell := math.Pow(math.Max(0, math.Sin(math.Pi*math.Pow(t, 0.95))), 0.6)
	u := 30 + 21*swell
	w := 2 + 29*swell
	return fair.Estimate{Mean: u, SD: 0.35}, fair.Estimate{Mean: u + w, SD: 0.5}
}

func (h hull) Span() (from, to float64) { return 0, h.length }

func read(l parse.Length) parse.Reading {
	return parse.Reading{Value: l, Known: true, Confidence: 1}
}

// boat is a sound survey of a boat so many feet long.
func boat(feet float64, unit parse.Unit) parse.Survey {
	h := hull{feet * 12}
	spacing := 12.0
	if unit == parse.Centimetre {
		spacing = 30 / 2.54
	}
	s := parse.Survey{
		Unit: unit, Stern: parse.Pointed,
		LengthOverall: read(parse.Inches(feet * 12)), BowHeight: read(parse.Inches(20)),
		SternHeight: read(parse.Inches(18)), CarryPoint: read(parse.Inches(20)),
	}
	for x := spacing; x < feet*12-2; x += spacing {
		u, f := h.At(x)
		s.Stations = append(s.Stations, parse.Station{At: parse.Inches(x), Pair: parse.Pair{
			HullGirth: read(nearest(parse.Inches(u.Mean), unit)), FullGirth: read(nearest(parse.Inches(f.Mean), unit)),
		}})
	}
	at := feet * 12 * 0.51
	u, f := h.At(at)
	s.Greatest = parse.Greatest{At: read(parse.Inches(at)), Pair: parse.Pair{
		HullGirth: read(nearest(parse.Inches(u.Mean), unit)), FullGirth: read(nearest(parse.Inches(f.Mean), unit)),
	}}
	return s
}

func reading(s *parse.Survey, i int, m parse.Measure) *parse.Reading {
	if m == parse.FullGirth {
		return &s.Stations[i].FullGirth
	}
	return &s.Stations[i].HullGirth
}

// spoil puts a wrong value into a report and the finding that belongs to it.
func spoil(r *validate.Report, i int, m parse.Measure, value float64, kind slip.Kind) {
	cell := reading(&r.Survey, i, m)
	right := cell.Value
	cell.Value = parse.Measured(value, r.Survey.Unit)
	wrong := cell.Value
	r.Findings = append(r.Findings, validate.Finding{
		Kind: validate.Recheck, Rule: "fair-curve", Cell: parse.Cell{At: r.Survey.Stations[i].At, Measure: m},
		Slip: kind, Read: &wrong, Expected: &right, Probability: 0.98,
	})
	r.Verdict = validate.NeedRecheck
}

// reports are the surveys that are drawn in tests, by name.
func reports() map[string]validate.Report {
	fresh := func(feet float64, unit parse.Unit) validate.Report {
		return validate.Report{Survey: boat(feet, unit), Curve: hull{feet * 12}, Verdict: validate.Clean}
	}
	all := map[string]validate.Report{
		"clean-16":  fresh(15.75, parse.Inch),
		"clean-8":   fresh(8, parse.Inch),
		"clean-24":  fresh(24, parse.Inch),
		"clean-cm":  fresh(15, parse.Centimetre),
		"empty":     {Survey: parse.Survey{Unit: parse.Inch}, Verdict: validate.Unreadable},
		"no-length": fresh(14, parse.Inch),
	}
	one := fresh(15.75, parse.Inch)
	spoil(&one, 6, parse.HullGirth, 41, slip.OffByTen)
	all["one-ten"] = one

	lost := fresh(15.75, parse.Inch)
	spoil(&lost, 7, parse.HullGirth, 515, slip.DecimalLost)
	all["decimal-lost"] = lost

	pair := fresh(17, parse.Inch)
	i := 8
	pair.Survey.Stations[i].HullGirth, pair.Survey.Stations[i].FullGirth = pair.Survey.Stations[i].FullGirth, pair.Survey.Stations[i].HullGirth
	pair.Findings = []validate.Finding{{Kind: validate.Confirm, Slip: slip.SwappedPair,
		Cell: parse.Cell{At: pair.Survey.Stations[i].At, Measure: parse.MeasurePair}}}
	pair.Verdict = validate.NeedRecheck
	all["swapped"] = pair

	eight := fresh(24, parse.Inch)
	for k, i := range []int{1, 3, 5, 8, 11, 14, 17, 20} {
		m, v := parse.HullGirth, 0.0
		if k%2 == 1 {
			m = parse.FullGirth
		}
		v = reading(&eight.Survey, i, m).Value.In(parse.Inch) + []float64{-10, 12, -12, 4, -5, 10, 9, -6}[k]
		spoil(&eight, i, m, v, []slip.Kind{slip.OffByTen, slip.OffByFoot, slip.OffByFoot, slip.MisreadTape}[k%4])
	}
	all["eight"] = eight

	metric := fresh(15, parse.Centimetre)
	spoil(&metric, 5, parse.FullGirth, 107, slip.OffByTen)
	spoil(&metric, 9, parse.HullGirth, 1285, slip.DecimalLost)
	all["metric-two"] = metric

	plain := fresh(12, parse.Inch)
	plain.Curve = nil
	spoil(&plain, 4, parse.FullGirth, 815, slip.DecimalLost)
	all["no-curve"] = plain

	tiny := fresh(8, parse.Inch)
	tiny.Curve, tiny.Survey.Stations, tiny.Survey.Greatest = nil, tiny.Survey.Stations[:2], parse.Greatest{}
	tiny.Verdict = validate.Incomplete
	all["tiny"] = tiny

	skipped := fresh(16, parse.Inch)
	skipped.Findings = []validate.Finding{{Kind: validate.Recheck, Slip: slip.RowSkipped,
		Rows: []parse.Length{parse.Inches(72), parse.Inches(84), parse.Inches(96)}}}
	skipped.Verdict = validate.NeedRecheck
	all["row-skipped"] = skipped
	return all
}

// show writes a picture where somebody wants to look at it.
func show(t *testing.T, name string, p Picture) {
	t.Helper()
	if *pictures == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*pictures, name+".png"), p.PNG, 0o644); err != nil {
		t.Fatal(err)
	}
}
