package table

import (
	"math"
	"strings"

	"fairtape/parse"
)

// measured is what bare numbers of a file are counted in, and how that is
// known.
type measured struct {
	scale   parse.Scale
	guessed bool // from the size of the numbers
	unclear bool // and they fit more than one
	// measured is the unit of what stands in two of them, where that is known.
	measured parse.Unit
}

// unitOf says what the bare numbers of the sheets are counted in: what is
// declared, else what most headings and cells say, else the size of the
// girths.
func unitOf(sheets []*sheet) measured {
	declared := map[parse.Scale]bool{}
	said := map[parse.Scale]int{}
	var bare []float64
	overall := parse.Length(0)
	fractions := false
	stations := stationScale(sheets)
	written := map[parse.Unit]bool{} // of the measures that a boat has once
	for _, s := range sheets {
		for _, d := range s.found.declared {
			declared[d] = true
		}
		for _, e := range s.girths() {
			if e.fault.Some() {
				continue
			}
			switch scale := e.scale(); {
			case scale == parse.Bare:
				bare = append(bare, e.amount.Number)
				fractions = fractions || strings.Contains(parse.Plain(e.Text), "/")
			case scale == parse.ScaleFoot:
				said[parse.ScaleInch]++
			default:
				said[scale]++
			}
		}
		for _, list := range s.found.whole {
			for _, e := range list {
				if unit := e.scale().Unit(); !e.fault.Some() && unit != parse.UnknownUnit {
					written[unit] = true
				}
			}
		}
		for _, e := range s.found.whole[parse.LengthOverall] {
			if l, ok := e.amount.Length(e.scale()); ok && !e.fault.Some() {
				overall = l
			}
		}
	}
	if len(declared) == 1 {
		for d := range declared {
			return measured{scale: d}
		}
	}
	best := parse.Bare
	for _, scale := range []parse.Scale{parse.ScaleInch, parse.ScaleCM, parse.ScaleMM, parse.ScaleM} {
		if said[scale] > said[best] {
			best = scale
		}
	}
	mixed := said[parse.ScaleInch] > 0 && said[best] < len(bare) && said[parse.ScaleInch] < said[parse.ScaleInch]+said[parse.ScaleCM]+said[parse.ScaleMM]+said[parse.ScaleM]
	if best != parse.Bare && !mixed {
		return measured{scale: best}
	}
	if len(bare) == 0 && stations == parse.Bare && len(written) == 1 {
		for unit := range written {
			return measured{scale: parse.ScaleOf(unit)}
		}
	}
	m := bySize(bare, overall, stations, fractions)
	if m.unclear && stations == parse.Bare {
		return bySize(bare, overall, stepScale(sheets), fractions)
	}
	return m
}

// stepScale is what the steps of bare stations are surely counted in, if that is
// centimetres: 30, 60, 90. Feet and inches are common beside metric girths too.
func stepScale(sheets []*sheet) parse.Scale {
	for _, s := range sheets {
		for _, b := range s.found.blocks {
			var names []parse.Name
			for _, r := range b.rows {
				names = append(names, r.name)
			}
			at, unclear := parse.Stations(names, parse.StationHint{})
			for i, n := range names {
				if unclear.Some() || n.Ordinal || n.Special != "" || n.Amount.Scale != parse.Bare || at[i] != parse.Centimetres(n.Amount.Number) {
					return parse.Bare
				}
			}
			if len(names) >= fewRows {
				return parse.ScaleCM
			}
		}
	}
	return parse.Bare
}

// stationScale is what the stations of the sheets are written in, Bare where no
// unit is.
func stationScale(sheets []*sheet) parse.Scale {
	stations := parse.Bare
	for _, s := range sheets {
		for _, b := range s.found.blocks {
			if b.heading != parse.Bare {
				stations = b.heading
			}
			for _, r := range b.rows {
				if r.name.Amount.Scale != parse.Bare {
					stations = r.name.Amount.Scale
				}
			}
		}
	}
	return stations
}

// How large the largest girth of a boat is in each unit. Below and between the
// bands the size alone does not tell. Common practice, no source: canoes reach
// 80 to 100 in around, small open boats up to 13 ft.
const (
	leastInches, mostInches = 20, 115
	leastCM, mostCM         = 165, 420
	leastMM, mostMM         = 1100, 4200
)

// mostHalved is how large girths may be, in inches, that their halves tell from
// centimetres: those are written whole, and a boat of 55 in around hardly is
// an open one.
const mostHalved = 140

// halved reports numbers that go by halves: many end in .5, and none in
// anything else.
func halved(numbers []float64) bool {
	const fewest, share = 6, 0.25
	halves := 0
	for _, v := range numbers {
		switch 2 * v {
		case math.Trunc(2 * v):
			if v != math.Trunc(v) {
				halves++
			}
		default:
			return false
		}
	}
	return halves >= fewest && float64(halves) >= share*float64(len(numbers))
}

// A boat is between so many times as long as the largest girth.
const (
	stoutest = 0.7
	leanest  = 6.5
)

// bySize finds the unit from the largest girth; a length overall and stations
// whose units are written out may deny it, or decide between the bands.
func bySize(girths []float64, overall parse.Length, stations parse.Scale, fractions bool) measured {
	if len(girths) == 0 {
		return measured{scale: parse.ScaleOf(stations.Unit())}
	}
	greatest := 0.0
	for _, g := range girths {
		greatest = max(greatest, g)
	}
	fits := func(scale parse.Scale) bool {
		if overall == 0 {
			return true
		}
		l, _ := parse.Amount{Number: greatest, Scale: scale}.Length(scale)
		ratio := float64(overall / l)
		return ratio > stoutest && ratio < leanest
	}
	m := measured{guessed: true}
	switch {
	case greatest >= leastInches && greatest <= mostInches:
		m.scale = parse.ScaleInch
	case greatest >= leastCM && greatest <= mostCM:
		m.scale = parse.ScaleCM
	case greatest >= leastMM && greatest <= mostMM:
		m.scale = parse.ScaleMM
	case greatest > mostInches && greatest < leastCM:
		inch, cm := fits(parse.ScaleInch), fits(parse.ScaleCM)
		switch {
		case fractions, overall > 0 && inch && !cm:
			m.scale = parse.ScaleInch
		case overall > 0 && cm && !inch, stations.Unit() == parse.Centimetre:
			m.scale = parse.ScaleCM
		case greatest <= mostHalved && halved(girths):
			m.scale = parse.ScaleInch
		default:
			m.scale, m.unclear = parse.ScaleInch, true
		}
		return m
	default:
		m.scale, m.unclear = parse.ScaleInch, true
		return m
	}
	// Stations with their unit written, and girths that look like the other.
	foreign := stations.Unit() != parse.UnknownUnit && stations.Unit() != m.scale.Unit()
	m.unclear = foreign || !fits(m.scale) || fractions && m.scale != parse.ScaleInch
	return m
}

// girths returns every girth of the sheet.
func (s *sheet) girths() []entry {
	var all []entry
	for _, b := range s.found.blocks {
		for _, r := range b.rows {
			all = append(append(append(all, r.hull...), r.full...), r.opening...)
		}
	}
	for _, r := range s.found.singles {
		all = append(append(all, r.hull...), r.full...)
	}
	for _, m := range []parse.Measure{parse.GreatestHullGirth, parse.GreatestFullGirth, parse.TransomHullGirth, parse.TransomFullGirth} {
		all = append(all, s.found.whole[m]...)
	}
	return all
}

// scale is what the number is counted in by its own words, its format, or its
// heading; Bare when none of them says.
func (e entry) scale() parse.Scale {
	switch {
	case e.amount.Scale != parse.Bare:
		return e.amount.Scale
	case e.item.Scale != parse.Bare:
		return e.item.Scale
	}
	return e.heading
}
