package reply

import (
	"fmt"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/validate"
)

// Summarise puts a job at a glance for the shop, in English and in the
// customer's unit. It tells what the letter must not: the expected values and
// the likely slips. The draft is nil when there is no letter. State is set only
// where the plan gives it; it and the picture are the caller's.
func Summarise(report validate.Report, job Job, plan Plan, draft *Draft) Summary {
	s := Summary{
		Job:      job.ID.Job,
		Headline: headline(report, job, plan),
		Facts:    facts(report, job, plan),
		Asks:     asks(plan),
		Question: Text(job.Request.Question),
	}
	if job.Like != nil {
		s.Facts = append(s.Facts, likeLine(*job.Like, plan.Unit))
	}
	if job.Request.Answer != "" {
		s.Question = ""
	}
	for _, f := range report.Findings {
		line := findingLine(f, plan.Unit)
		switch f.Kind {
		case validate.Missing:
			s.Missing = append(s.Missing, line)
		case validate.Note:
			s.Findings = append(s.Findings, "note: "+line)
		default:
			s.Findings = append(s.Findings, line)
		}
	}
	for _, p := range report.Problems {
		s.Problems = append(s.Problems, problemLine(p))
	}
	if draft != nil {
		s.Draft, s.Letter = draft.ID.String(), draft.Text
	}
	switch plan.Action {
	case Telephone:
		s.Telephone = true
		s.State = fmt.Sprintf("no letter: this is round %d, please telephone", job.Round)
	case Leave:
		s.State = "no letter: a person has to look"
	}
	return s
}

// headline is one line: job, boat, customer, verdict, count.
func headline(report validate.Report, job Job, plan Plan) string {
	boat, name := cut(Line(plan.Boat), mostName), cut(customerName(plan, job), mostName)
	switch {
	case boat == "" && name == "":
		boat = "boat not named"
	case boat == "":
		boat = "boat of " + name
	case name != "":
		boat += " (" + name + ")"
	}
	return fmt.Sprintf("Job %d: %s, %s", job.ID.Job, boat, verdictLine(report))
}

func verdictLine(report validate.Report) string {
	count := make(map[validate.Kind]int)
	for _, f := range report.Findings {
		count[f.Kind]++
	}
	var parts []string
	add := func(n int, one, several string) {
		if n > 0 {
			parts = append(parts, counted(n, one, several))
		}
	}
	add(count[validate.Recheck], "to measure again", "to measure again")
	add(count[validate.Confirm], "question", "questions")
	add(count[validate.Missing], "missing", "missing")
	add(doubts(report.Survey), "for you to settle", "for you to settle")
	words := map[validate.Verdict]string{
		validate.Unreadable:  "no girth could be read",
		validate.NeedRecheck: "to re-check",
		validate.Incomplete:  "incomplete",
		validate.Clean:       "clean",
	}
	if len(parts) == 0 {
		return words[report.Verdict]
	}
	return words[report.Verdict] + ": " + strings.Join(parts, ", ")
}

// counted is a number of things, in English.
func counted(n int, one, several string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, several)
}

// readings lists every number of a survey.
func readings(s parse.Survey) []parse.Reading {
	list := []parse.Reading{
		s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint,
		s.Greatest.At, s.Greatest.HullGirth, s.Greatest.FullGirth, s.Greatest.Opening,
		s.Transom.HullGirth, s.Transom.FullGirth,
	}
	for _, station := range s.Stations {
		list = append(list, station.HullGirth, station.FullGirth)
	}
	return list
}

// doubts counts the readings that a person of the shop has to settle.
func doubts(s parse.Survey) int {
	n := 0
	for _, r := range readings(s) {
		if r.Doubtful() {
			n++
		}
	}
	return n
}

// facts says who, how long, and how much was read.
func facts(report validate.Report, job Job, plan Plan) []string {
	who := Line(job.Customer.Name + " <" + job.Customer.Address + ">")
	if name := customerName(plan, job); name != "" && name != Line(job.Customer.Name) {
		who = name + ", from " + who
	}
	lang := languages[English]
	length := "length overall not known"
	if r := report.Survey.LengthOverall; r.Known {
		length = lang.place(r.Value, plan.Unit) + " long"
	}
	known := 0
	for _, r := range readings(report.Survey) {
		if r.Certain() {
			known++
		}
	}
	rows := "no stations read"
	if n := len(plan.At); n > 0 {
		rows = fmt.Sprintf("%d of %s read", plan.Done, counted(n, "station", "stations"))
	}
	rows += ", " + counted(known, "number", "numbers") + " in all"
	return plainSpaces([]string{who, length + ", " + rows, tracingFact(job)})
}

func tracingFact(job Job) string {
	switch {
	case job.Bow.In && job.Stern.In:
		return "both tracings are in"
	case job.Bow.In:
		return "tracing of the bow is in, of the stern not yet"
	case job.Stern.In:
		return "tracing of the stern is in, of the bow not yet"
	}
	return "no tracing in yet"
}

// findingLine is what the check says, or the bare facts when it says nothing.
func findingLine(f validate.Finding, unit parse.Unit) string {
	if f.Message != "" {
		return Line(f.Message)
	}
	lang := languages[English]
	line := cellName(f.Cell, unit)
	if line == "" && len(f.Rows) > 0 {
		line = "rows from " + lang.place(f.Rows[0], unit)
	}
	if f.Read != nil {
		line += ": reads " + lang.length(*f.Read, unit)
	}
	if f.Expected != nil {
		line += ", expected about " + lang.length(*f.Expected, unit)
	}
	if f.Slip != "" {
		line += ", likely " + strings.ReplaceAll(string(f.Slip), "-", " ")
	}
	return plainSpaces([]string{line})[0]
}

// problemLine names the file, the place and the words that could not be read.
func problemLine(p parse.Problem) string {
	where := fileName(p.Source)
	if p.Source.Place != "" {
		where += ", " + Line(p.Source.Place)
	}
	if raw := cut(Line(p.Source.Raw), mostWrote); raw != "" {
		where += fmt.Sprintf(" (%q)", raw)
	}
	return where + ": " + Line(p.Message)
}

// asks lists what the letter asks, or what to ask on the telephone.
func asks(plan Plan) []string {
	var list []string
	if plan.AllAgain {
		list = append(list, "measure all stations again")
	}
	for i, place := range slices.Concat(plan.Again, plan.Rest) {
		names := make([]string, len(place.Asked))
		for j, asked := range place.Asked {
			names[j] = cellName(asked.Cell, plan.Unit)
		}
		line := "measure again: " + languages[English].list(names)
		if i >= len(plan.Again) {
			line += ", while the tape is out"
		}
		list = append(list, line)
	}
	for _, q := range plan.Questions {
		list = append(list, "answer: "+questionFact(q, plan.Unit))
	}
	for _, gap := range plan.Missing {
		list = append(list, "add: "+gapFact(gap, plan.Unit))
	}
	for _, file := range plan.Files {
		list = append(list, "send in another form: "+fileName(file.Source))
	}
	return plainSpaces(list)
}

func questionFact(q Question, unit parse.Unit) string {
	what := "is the boat special there"
	if q.Slip != "" {
		what = strings.ReplaceAll(string(q.Slip), "-", " ")
	}
	if len(q.Rows) > 0 {
		return fmt.Sprintf("%s, from %s on (%s)", what, languages[English].place(q.Rows[0], unit), counted(len(q.Rows), "station", "stations"))
	}
	return what + ", " + cellName(q.Cell, unit)
}

func gapFact(gap Gap, unit parse.Unit) string {
	lang := languages[English]
	switch gap.Stations {
	case 0:
		return measureName(gap.Measure)
	case 1:
		return cellName(parse.Cell{At: gap.From, Measure: gap.Measure}, unit)
	}
	return fmt.Sprintf("%s, %s to %s", measureName(gap.Measure), lang.place(gap.From, unit), lang.place(gap.To, unit))
}

// cellName names a number for the shop: "7 ft hull girth".
func cellName(c parse.Cell, unit parse.Unit) string {
	if atStation(c.Measure) {
		return languages[English].place(c.At, unit) + " " + measureName(c.Measure)
	}
	return measureName(c.Measure)
}

func measureName(m parse.Measure) string {
	if m == parse.MeasurePair {
		return "hull girth and full girth"
	}
	return strings.NewReplacer("_", " ", ".", " ").Replace(string(m))
}

func plainSpaces(list []string) []string {
	for i := range list {
		list[i] = strings.ReplaceAll(list[i], nbsp, " ")
	}
	return list
}
