package reply

import (
	"fmt"
	"strings"
	"text/template"

	"fairtape/parse"
)

// block is one part of a letter, whichever way it is set.
type block struct {
	Kind   string // "first", "heading", "para", "list", "steps", "places", "lines", "figure", "signature", "quote"
	Text   string
	Items  []item
	Source string // content id of a figure
}

// item is one item of a list, or one place with lines to type into.
type item struct {
	Text  string
	Lines []line
}

// line is one to be filled in: what is asked, and the blanks for it.
type line struct {
	Names, Blanks []string
}

// writer puts a letter together, block by block. The first failure stays in
// err and stops nothing, so that letters read from top to bottom.
type writer struct {
	set     *template.Template
	lang    language
	plan    Plan
	job     Job
	facts   Facts
	blocks  []block
	files   []File
	picture *Picture
	err     error
}

const (
	mostName  = 60 // characters of a name, a boat, a file name
	mostWrote = 40 // characters of a number as it was written
)

func newWriter(t *Texts, plan Plan, job Job) *writer {
	w := &writer{lang: languageOf(job.Language), plan: plan, job: job}
	w.set = t.sentences[w.lang.code]
	unit := ""
	if plan.Unit == parse.Centimetre {
		unit = ".cm"
	}
	w.facts = Facts{
		Name:      customerName(plan, job),
		Boat:      cut(Line(plan.Boat), mostName),
		Shop:      Line(job.Shop.Name),
		Telephone: Line(job.Shop.Telephone),
		Post:      Line(job.Shop.Post),
		Job:       job.ID.Job,
		Round:     job.Round,
		By:        w.lang.day(job.Now.AddDate(0, 0, job.AnswerDays)),
		Asks:      plan.Asks(),
		Measuring: len(plan.Again) > 0 || plan.AllAgain,
		AllAgain:  plan.AllAgain,
		Places:    len(plan.Again),
		Rest:      len(plan.Rest),
		Questions: len(plan.Questions),
		Files:     len(plan.Files),
		Minutes:   plan.Minutes,
		Done:      plan.Done,
		Stations:  len(plan.At),
		Near:      w.say("unit.half" + unit),
		Grain:     w.say("unit.grain" + unit),
	}
	if !job.Answers.Date.IsZero() {
		w.facts.Sent = w.lang.date(job.Answers.Date.In(job.Now.Location()))
	}
	for _, gap := range plan.Missing {
		w.facts.Missing += gap.numbers()
	}
	w.tracings()
	w.facts.Tasks = w.tasks()
	return w
}

// customerName is how the letter addresses the customer; "" when all there is
// is an address.
func customerName(plan Plan, job Job) string {
	for _, name := range []string{plan.Customer, job.Customer.Name} {
		name = cut(Line(name), mostName)
		if name != "" && !strings.ContainsAny(name, "@/<>") {
			return name
		}
	}
	return ""
}

// tracings names the ends whose tracing is still to come.
func (w *writer) tracings() {
	bow, stern := !w.job.Bow.In, !w.job.Stern.In
	switch {
	case bow && stern:
		w.facts.Tracings, w.facts.TracingCount = w.say("tracings.both"), 2
	case bow:
		w.facts.Tracings, w.facts.TracingCount = w.say("tracings.bow"), 1
	case stern:
		w.facts.Tracings, w.facts.TracingCount = w.say("tracings.stern"), 1
	}
}

// tasks joins what is asked into one list for the first sentence.
func (w *writer) tasks() string {
	var tasks []string
	add := func(wanted bool, name string) {
		if wanted {
			tasks = append(tasks, w.say(name))
		}
	}
	add(w.plan.AllAgain, "task.all")
	add(len(w.plan.Again) > 0, "task.again")
	add(len(w.plan.Questions) > 0, "task.questions")
	add(len(w.plan.Missing) > 0, "task.missing")
	add(len(w.plan.Files) > 0, "task.files")
	return w.lang.list(tasks)
}

// say returns a sentence filled with the facts of the letter.
func (w *writer) say(name string) string { return w.sayOf(name, w.facts) }

// sayOf returns a sentence filled with the facts of one item.
func (w *writer) sayOf(name string, facts Facts) string {
	if w.err != nil {
		return ""
	}
	var b strings.Builder
	if err := w.set.ExecuteTemplate(&b, name, facts); err != nil {
		w.err = fmt.Errorf("letter texts: %w", err)
		return ""
	}
	return w.lang.typeset(Line(b.String()))
}

func (w *writer) add(kind, text string) {
	if text != "" {
		w.blocks = append(w.blocks, block{Kind: kind, Text: text})
	}
}

func (w *writer) para(name string)    { w.add("para", w.say(name)) }
func (w *writer) heading(name string) { w.add("heading", w.say(name)) }

// items adds a list; nothing when there is nothing to list.
func (w *writer) items(kind string, list []item) {
	if len(list) > 0 {
		w.blocks = append(w.blocks, block{Kind: kind, Items: list})
	}
}

// sentences adds a list of sentences by name.
func (w *writer) sentences(kind string, names ...string) {
	var list []item
	for _, name := range names {
		if text := w.say(name); text != "" {
			list = append(list, item{Text: text})
		}
	}
	w.items(kind, list)
}
