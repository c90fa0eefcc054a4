package desk

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// Post is what came of the paper tracings: one end of the boat, or both.
type Post struct {
	Bow, Stern bool
	Refused    string // why the paper cannot be used, "" when it can
	SentBack   bool   // the refused paper has been sent back
	Height     string // the end's height on the paper, as measured there; "" when not
}

// String is the post as a decision carries it.
func (p Post) String() string {
	words := "tracings"
	switch {
	case p.Bow && !p.Stern:
		words = "bow"
	case p.Stern && !p.Bow:
		words = "stern"
	}
	switch {
	case p.Refused != "":
		words += " refused " + p.Refused
	case p.SentBack:
		words += " sent back"
	case p.Height != "":
		words += " height " + p.Height
	}
	return words
}

var postWords = regexp.MustCompile(`(?i)^(?:(bow|stern)(?: tracing)?|tracings?(?: (?:of the )?(bow|stern))?)(?: (?:are |is )?(in|here|refused|sent back|height))?[ :.]*(.*)$`)

// ParsePost reads "tracings in", "bow in", "stern refused the top is not
// marked", "bow sent back", "bow height 18 1/2".
func ParsePost(words string) (Post, bool) {
	m := postWords.FindStringSubmatch(strings.Join(strings.Fields(words), " "))
	if m == nil {
		return Post{}, false
	}
	end, what, rest := strings.ToLower(m[1]+m[2]), strings.ToLower(m[3]), strings.TrimSpace(m[4])
	p := Post{Bow: end != "stern", Stern: end != "bow"}
	switch what {
	case "refused":
		p.Refused = rest
		return p, rest != ""
	case "height":
		p.Height = rest
		return p, rest != "" && end != ""
	case "sent back":
		p.SentBack = true
	}
	return p, rest == ""
}

// heedReceived records what came by post.
func (d *Desk) heedReceived(tx *ledger.Tx, c ledger.Decision, job ledger.Job, touched bool) (string, error) {
	p, ok := ParsePost(c.Words)
	if !ok {
		return fmt.Sprintf("not taken: %q says nothing about tracings", c.Words), nil
	}
	for _, end := range []struct {
		meant   bool
		tracing *ledger.Tracing
	}{{p.Bow, &job.Tracings.Bow}, {p.Stern, &job.Tracings.Stern}} {
		switch {
		case !end.meant:
		case p.Refused != "":
			*end.tracing = ledger.Tracing{Refused: p.Refused}
		case p.SentBack:
			end.tracing.In, end.tracing.SentBack = false, true
		default:
			*end.tracing = ledger.Tracing{In: true}
		}
	}
	words, err := d.heights(tx, c, &job, p)
	if err != nil {
		return "", err
	}
	when := inPlace
	if p.Refused != "" {
		when = always // the customer has to know
	}
	more, err := d.remake(tx, &job, "tracings, "+c.Person, touched, when)
	return strings.TrimSpace(tracingWords(job.Tracings) + words + " " + more), err
}

func tracingWords(t ledger.Tracings) string {
	word := func(end string, t ledger.Tracing) string {
		switch {
		case t.In:
			return "tracing of the " + end + " is in"
		case t.SentBack:
			return "tracing of the " + end + " was sent back"
		case t.Refused != "":
			return "tracing of the " + end + " is refused: " + t.Refused
		}
		return "tracing of the " + end + " is not in"
	}
	if t.Both() {
		return "Both tracings are in."
	}
	return upper(word("bow", t.Bow)) + ", " + word("stern", t.Stern) + "."
}

// paperNear is how far the height on the paper and the one in the mail may lie
// apart: each is taken to half an inch (common practice, no source).
const paperNear = 12.7 + 1e-3 // mm, and room for the roundings of arithmetic

// heights holds the height on a tracing against the one in the mail. Two that
// differ leave the number open, for a person to settle.
func (d *Desk) heights(tx *ledger.Tx, c ledger.Decision, job *ledger.Job, p Post) (string, error) {
	if p.Height == "" {
		return "", nil
	}
	v, err := d.version(tx, *job)
	if err != nil {
		return "", err
	}
	measure := parse.BowHeight
	if p.Stern {
		measure = parse.SternHeight
	}
	cell, paper, err := Value{Measure: string(measure), Value: p.Height}.In(v.Survey)
	if err != nil {
		return " The height was not taken: " + err.Error() + ".", nil
	}
	r := readingAt(&v.Survey, cell)
	if !r.Certain() || math.Abs(float64(r.Value-paper)) <= paperNear {
		return "", nil
	}
	mailed := r.Value
	words := fmt.Sprintf(" But its height is %s on the paper and %s in the mail: please say which counts.",
		written(paper, v.Survey.Unit), written(mailed, v.Survey.Unit))
	source := parse.Source{File: "tracing", Place: string(measure), Raw: p.Height}
	*r = parse.Reading{Source: source, Alternatives: []parse.Candidate{{Value: paper, Probability: 0.5}, {Value: mailed, Probability: 0.5}}}
	v.Problems = append(slices.Clone(v.Problems), parse.Problem{Code: parse.CodeSourcesDiffer, Source: source,
		Message: "The tracing and the mail say different heights."})
	report := d.judge(v.Survey, v.Problems, job.Own)
	return words, tx.AddSurvey(d.Account, job.ID, ledger.Version{Cause: "height on the tracing, " + c.Person, Survey: v.Survey,
		Problems: v.Problems, Verdict: report.Verdict})
}
