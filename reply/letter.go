package reply

import (
	"slices"
	"strings"
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
	w.howToSupply()
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
	case w.plan.Thanks && w.job.Reminder > 0:
		w.add("first", w.say("first.reminder.tracings"))
		w.para("thanks.reminder.tracings")
		w.next()
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
