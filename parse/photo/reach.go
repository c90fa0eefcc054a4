package photo

import (
	"maps"
	"slices"

	"fairtape/parse"
	"fairtape/parse/form"
)

const (
	inchesPerFoot = 12
	// beyondForm is how often, against what its digits say, a distance is written
	// that does not fit its form, such as one made for a much shorter boat, or 12
	// inches and more beside feet.
	beyondForm = 0.05
)

// withinFoot holds what inches beside feet may be against there being no more
// than 11; the chances of all together stay as they were.
func withinFoot(list []outcome) []outcome {
	before, after := 0.0, 0.0
	var out []outcome
	for _, o := range list {
		before += o.probability
		if o.value < inchesPerFoot {
			after += o.probability
			out = append(out, o)
		} else {
			after += o.probability * beyondForm
		}
	}
	for i := range out {
		out[i].probability *= before / after
	}
	return out
}

// stretch is part of the boat's length; no stretch says nothing.
type stretch struct{ from, to parse.Length }

// withinReach holds what a distance along the boat may be against how far the
// form goes and is filled; the chances of all together stay as they were.
func withinReach(weights map[parse.Length]float64, reach stretch) {
	if reach == (stretch{}) {
		return
	}
	before, after := 0.0, 0.0
	for _, l := range slices.Sorted(maps.Keys(weights)) { // sums differ in their last bits by order
		before += weights[l]
		if l < reach.from || l > reach.to {
			weights[l] *= beyondForm
		}
		after += weights[l]
	}
	for l := range weights {
		weights[l] *= before / after
	}
}

// reachOf is where a distance along the boat can be on a page: up to where the
// form goes, with two stations to spare, and a boat's length beyond the last
// station that something is written for, or little more than one farther.
func (page *Page) reachOf(m parse.Measure, boxes []figure) stretch {
	along := m == parse.LengthOverall || m == parse.GreatestAt || m == parse.CarryPoint
	if !along || page.Code.Slip {
		return stretch{}
	}
	reach := stretch{to: parse.Length(page.Code.Rows+3) * page.Code.Spacing}
	if last := page.lastStation(boxes); m == parse.LengthOverall && last > 0 {
		const row = 1.5 // a row may be left empty close to the stern
		reach = stretch{last, min(reach.to, last+parse.Length(row*float64(page.Code.Spacing)))}
	}
	return reach
}

// lastStation is the station farthest from the bow that something is written for.
func (page *Page) lastStation(boxes []figure) parse.Length {
	last := parse.Length(0)
	for i, b := range page.boxes {
		f := page.view.layout.Fields[b.field]
		if f.Kind == form.Digits && f.Cell.At > 0 && boxes[i].Blank < 0.5 {
			last = max(last, f.Cell.At)
		}
	}
	return last
}
