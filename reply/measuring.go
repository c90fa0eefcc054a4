package reply

import (
	"slices"
	"strings"

	"fairtape/parse"
)

// again lists what to measure, with blanks to type into, and how to do it.
func (w *writer) again() {
	switch {
	case w.plan.AllAgain:
		w.heading("all.heading")
		w.para("all.answer")
		w.items("lines", []item{{Lines: w.allLines()}})
		if len(w.plan.Again) > 0 {
			w.para("all.also")
			w.items("places", w.places(w.plan.Again))
		}
	case len(w.plan.Again) > 0:
		w.heading("again.heading")
		w.para("again.answer")
		w.items("places", w.places(w.plan.Again))
	default:
		return
	}
	if len(w.plan.Rest) > 0 {
		w.heading("rest.heading")
		w.para("rest.answer")
		w.items("places", w.places(w.plan.Rest))
	}
	w.heading("how.heading")
	if w.plan.AllAgain {
		w.sentences("steps", "how.mark", "how.all")
	} else {
		w.sentences("steps", "how.mark", "how.twice", "how.third", "how.same", "how.under", "how.boat")
	}
	w.figure()
}

const blank = "____"

// places writes the lines of each place: one for each number, and one for what
// lies under the tape there.
func (w *writer) places(places []Place) []item {
	var items []item
	for _, place := range places {
		var it item
		for _, asked := range place.Asked {
			it.Lines = append(it.Lines, line{Names: w.names(asked.Cell), Blanks: []string{
				w.say("line.first") + nbsp + blank, w.say("line.second") + nbsp + blank, w.say("line.third") + nbsp + blank}})
		}
		if slices.ContainsFunc(place.Asked, func(a Asked) bool { return girth(a.Cell.Measure) }) {
			under := line{Blanks: []string{w.say("line.under") + nbsp + blank}}
			if place.station() {
				under.Names = w.names(place.Asked[0].Cell)[:1]
			}
			it.Lines = append(it.Lines, under)
		}
		items = append(items, it)
	}
	return items
}

// allLines writes a line for each station of the boat.
func (w *writer) allLines() []line {
	var lines []line
	for _, at := range w.plan.At {
		lines = append(lines, line{
			Names:  []string{w.lang.place(at, w.plan.Unit)},
			Blanks: []string{w.say("measure.hull_girth") + nbsp + blank, w.say("measure.full_girth") + nbsp + blank},
		})
	}
	return lines
}

// girth reports a measure for which the tape goes around the boat.
func girth(m parse.Measure) bool {
	return strings.HasSuffix(string(m), string(parse.HullGirth)) || strings.HasSuffix(string(m), string(parse.FullGirth))
}

// names gives the station, if there is one, and the measure of a cell.
func (w *writer) names(cell parse.Cell) []string {
	measure := w.say("measure." + string(cell.Measure))
	if atStation(cell.Measure) {
		return []string{w.lang.place(cell.At, w.plan.Unit), measure}
	}
	return []string{measure}
}

func (w *writer) where(cell parse.Cell) string { return strings.Join(w.names(cell), ", ") }

// meanings explains the measures that the letter asks for, each once.
func (w *writer) meanings() {
	cells := w.plan.Ringed()
	for _, gap := range w.plan.Missing {
		cells = append(cells, single(parse.Cell{Measure: gap.Measure})...)
	}
	var names []string
	for _, cell := range cells {
		for _, name := range meaningsOf(cell.Measure) {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if len(names) > 0 {
		w.heading("means.heading")
		w.sentences("list", names...)
	}
}

// meaningsOf names the sentences that explain a measure: a girth of the
// greatest girth or the transom needs the girth and the place explained.
func meaningsOf(m parse.Measure) []string {
	switch place := part(m); {
	case place == string(m), m == parse.GreatestOpening:
		return []string{"means." + string(m)}
	case m == parse.GreatestAt:
		return []string{"means." + place}
	default:
		return []string{"means." + place, "means." + strings.TrimPrefix(string(m), place+".")}
	}
}

// figure shows the picture of the boat, when there is one.
func (w *writer) figure() {
	if w.job.Picture == nil {
		return
	}
	picture := *w.job.Picture
	picture.ContentID = "boat-" + w.job.ID.String() + "@fairtape"
	picture.Name = "boat-" + w.job.ID.String() + ".png"
	picture.Alt = Line(picture.Alt)
	if picture.Alt == "" || w.plan.AllAgain { // in words, all stations are not thirty numbers
		facts := w.facts
		facts.Ringed = w.ringed()
		picture.Alt = w.sayOf("picture.alt", facts)
	}
	w.picture = &picture
	w.blocks = append(w.blocks, block{Kind: "figure", Text: picture.Alt, Source: picture.ContentID})
}

// ringed names the places that the picture rings.
func (w *writer) ringed() string {
	var rings []string
	for _, place := range slices.Concat(w.plan.Again, w.plan.Rest) {
		rings = append(rings, w.names(place.Asked[0].Cell)[0])
	}
	return w.lang.list(rings)
}
