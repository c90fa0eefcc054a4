package reply

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"fairtape/parse"
	"fairtape/validate/slip"
)

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

// howToSupply says how to take the missing girths, where nothing above has
// said how to measure.
func (w *writer) howToSupply() {
	stations := slices.ContainsFunc(w.plan.Missing, func(g Gap) bool { return g.Stations > 0 })
	if !stations || w.facts.Measuring {
		return
	}
	w.heading("how.heading")
	w.sentences("steps", "how.lay", "how.all")
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

// asSentence makes a person's few words a sentence of a letter.
func asSentence(words string) string {
	s := Line(words)
	if s == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(first)) + s[size:]
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// refusals says why a tracing had to be sent back.
func (w *writer) refusals() []string {
	var lines []string
	facts := w.facts
	if facts.Reason = asSentence(w.job.Bow.Refused); facts.Reason != "" && !w.job.Bow.In {
		lines = append(lines, w.sayOf("tracings.refused.bow", facts))
	}
	if facts.Reason = asSentence(w.job.Stern.Refused); facts.Reason != "" && !w.job.Stern.In {
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
