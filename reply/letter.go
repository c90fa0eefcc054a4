package reply

import (
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// letter puts the blocks in their order: what is asked comes first, what the
// customer wrote only below it.
func (w *writer) letter() {
	w.add("para", w.say("greeting"))
	w.opening()
	w.answer()
	w.again()
	w.questions()
	w.missing()
	w.meanings()
	w.unreadable()
	w.attachments()
	w.cautions()
	w.wrote()
	w.para("closing")
	w.add("para", w.say("regards"))
	w.add("para", w.facts.Shop)
	w.quote()
	w.signature()
}

func (w *writer) opening() {
	switch {
	case !w.plan.Asks() && w.plan.Thanks:
		w.add("first", w.say("first.clean"))
		w.para("thanks.clean")
		w.next()
	case !w.plan.Asks():
		w.add("first", w.say("first.form"))
	case w.job.Reminder > 0:
		w.add("first", w.say("first.reminder"))
		w.para("thanks.reminder")
	default:
		w.add("first", w.say("first.ask"))
		switch {
		case w.job.Round > 1:
			w.para("thanks.again")
		case w.plan.Done == 0 && len(w.plan.Files) > 0:
			w.para("thanks.files")
		default:
			w.para("thanks.survey")
		}
	}
}

// next tells what happens to a clean survey.
func (w *writer) next() {
	w.heading("next.heading")
	var steps []item
	add := func(texts ...string) {
		for _, text := range texts {
			if text != "" {
				steps = append(steps, item{Text: text})
			}
		}
	}
	if w.facts.TracingCount > 0 {
		add(w.say("next.tracings"))
		add(w.refusals()...)
	}
	add(w.say("next.draw"), w.say("next.sew"))
	w.items("steps", steps)
}

// answer gives what a person of the shop answered to the customer's question.
func (w *writer) answer() {
	if text := strings.TrimSpace(Text(w.job.Request.Answer)); text != "" {
		w.heading("answer.heading")
		for part := range strings.SplitSeq(text, "\n\n") {
			w.add("para", Line(strings.ReplaceAll(part, "\n", " ")))
		}
	}
}

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

// questions asks what needs no tape.
func (w *writer) questions() {
	if len(w.plan.Questions) == 0 {
		return
	}
	w.heading("questions.heading")
	w.para("questions.answer")
	var list []item
	for _, q := range w.plan.Questions {
		list = append(list, item{Text: w.question(q)})
	}
	w.items("list", list)
}

func (w *writer) question(q Question) string {
	facts := w.facts
	switch {
	case len(q.Rows) > 0:
		facts.From = w.lang.place(q.Rows[0], w.plan.Unit)
		facts.To = w.lang.place(q.Rows[len(q.Rows)-1], w.plan.Unit)
		facts.Where = facts.From
		if len(q.Rows) >= len(w.plan.At) {
			facts.Where = w.say("rows.all")
		} else if len(q.Rows) > 1 {
			facts.Where = w.sayOf("rows.run", facts)
		}
	default:
		facts.Where = w.where(q.Cell)
		if q.Cell.Measure == parse.MeasurePair || q.Slip == slip.None && atStation(q.Cell.Measure) {
			facts.Where = w.lang.place(q.Cell.At, w.plan.Unit)
		}
		facts.Measure = w.say("measure." + string(q.Cell.Measure))
		facts.From = w.lang.place(q.Cell.At, w.plan.Unit)
		for i, reading := range q.Read {
			if i == 0 {
				facts.Wrote = w.written(reading)
			} else {
				facts.Other = w.written(reading)
			}
		}
	}
	return w.sayOf(questionName(q), facts)
}

func questionName(q Question) string {
	switch {
	case q.Slip != slip.None:
		return "question." + string(q.Slip)
	case q.Cell.Measure == "" || atStation(q.Cell.Measure):
		return "question.boat.station"
	}
	return "question.boat.measure"
}

// written is a number as the customer wrote it, or in their unit when the text
// is not at hand.
func (w *writer) written(reading parse.Reading) string {
	raw := cut(Line(reading.Source.Raw), mostWrote)
	if strings.ContainsAny(raw, "0123456789") {
		return raw
	}
	return w.lang.length(reading.Value, w.plan.Unit)
}

// missing lists what is not here yet, one line each: of the numbers, and of
// the tracings once there is a survey that they belong to.
func (w *writer) missing() {
	if w.plan.Thanks || !w.plan.Asks() {
		return
	}
	var list []item
	for _, gap := range w.plan.Missing {
		list = append(list, item{Text: w.gap(gap)})
	}
	if w.facts.TracingCount > 0 && w.plan.Done > 0 {
		list = append(list, item{Text: w.say("tracings.post")})
		for _, text := range w.refusals() {
			list = append(list, item{Text: text})
		}
	}
	if len(list) > 0 {
		w.heading("missing.heading")
		w.items("list", list)
	}
}

func (w *writer) gap(gap Gap) string {
	facts := w.facts
	facts.Measure = w.say("measure." + string(gap.Measure))
	facts.From, facts.To, facts.Count = w.lang.place(gap.From, w.plan.Unit), w.lang.place(gap.To, w.plan.Unit), gap.Stations
	if gap.Stations > 1 {
		return w.sayOf("missing.run", facts)
	}
	if gap.Stations == 1 {
		facts.Measure = facts.From + ", " + facts.Measure
	}
	if gap.numbers() == 2 {
		return w.sayOf("missing.pair", facts)
	}
	return w.sayOf("missing.measure", facts)
}

// refusals says why a tracing had to be sent back.
func (w *writer) refusals() []string {
	var lines []string
	facts := w.facts
	if facts.Reason = Line(w.job.Bow.Refused); facts.Reason != "" && !w.job.Bow.In {
		lines = append(lines, w.sayOf("tracings.refused.bow", facts))
	}
	if facts.Reason = Line(w.job.Stern.Refused); facts.Reason != "" && !w.job.Stern.In {
		lines = append(lines, w.sayOf("tracings.refused.stern", facts))
	}
	return lines
}

// unreadable says for each file that we could not open what to send instead.
func (w *writer) unreadable() {
	if len(w.plan.Files) == 0 {
		return
	}
	w.heading("files.heading")
	var list []item
	for _, problem := range w.plan.Files {
		facts := w.facts
		facts.File = cut(fileName(problem.Source), mostName)
		facts.Sort = fileSort(facts.File)
		list = append(list, item{Text: w.sayOf(troubles[problem.Code], facts)})
	}
	w.items("list", list)
}

func (w *writer) attachments() {
	attach := func(file *File, fact *string, name string) {
		if file == nil {
			return
		}
		*fact = Line(file.Name)
		w.files = append(w.files, *file)
		w.para(name)
	}
	if w.facts.Measuring {
		attach(w.job.Slip, &w.facts.SlipFile, "slip.attached")
	}
	if w.job.Request.Form || w.plan.AllAgain {
		attach(w.job.Form, &w.facts.FormFile, "form.attached")
	}
}

// cautions stand in every letter that sends somebody to the boat.
func (w *writer) cautions() {
	form := w.job.Request.Form && w.job.Form != nil
	if !w.facts.Measuring && w.facts.Missing == 0 && !form {
		return
	}
	w.heading("cautions.heading")
	w.sentences("list", "cautions.lift", "cautions.stand", "cautions.alone", "cautions.under",
		"cautions.gloves", "cautions.tired", "cautions.local")
}

// wrote repeats what the customer wrote at the places of the list above.
func (w *writer) wrote() {
	var list []item
	for _, place := range slices.Concat(w.plan.Again, w.plan.Rest) {
		for _, asked := range place.Asked {
			if asked.Read != nil {
				facts := w.facts
				facts.Where, facts.Wrote = w.where(asked.Cell), w.written(*asked.Read)
				list = append(list, item{Text: w.sayOf("wrote.line", facts)})
			}
		}
	}
	if len(list) == 0 {
		return
	}
	w.heading("wrote.heading")
	w.para("wrote.note")
	w.items("list", list)
}

// quote gives the top of the customer's mail, without what it quotes itself.
func (w *writer) quote() {
	lines := quoted(w.job.Answers.Text)
	if len(lines) == 0 || w.facts.Sent == "" {
		return
	}
	w.add("para", w.say("quote.heading"))
	w.items("quote", lines)
}

func (w *writer) signature() {
	list := []item{{Text: w.facts.Shop}}
	if w.facts.Telephone != "" {
		list = append(list, item{Text: w.facts.Telephone})
	}
	if w.facts.Job > 0 {
		list = append(list, item{Text: w.say("signature.job")})
	}
	w.items("signature", list)
}
