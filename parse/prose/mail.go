// Package prose reads what a customer typed into the body of a mail: numbers in
// sentences, lists and columns, corrections to an earlier survey, and the other
// things that people write beside numbers. Nothing is fetched, and what a mail
// program would not show is not read.
package prose

import (
	"fmt"
	"slices"
	"strings"

	"fairtape/parse"
)

// Mail is what the body of one mail says.
type Mail struct {
	Document    parse.Document // the numbers that can be placed by the mail alone
	Corrections []Correction   // what answers an earlier question, in the order written
	Language    string         // "en" or "fr"; "" when the words do not tell

	Questions []string // sentences that ask the shop something, as written
	WantsForm bool     // asks for a blank form
	// BoatLength is how long the boat is said to be in passing, as good as a form
	// has to know it: "a form for our 16 ft canoe". 0 when nothing is said.
	BoatLength parse.Length
	Sold       bool     // the boat is sold, or the cover is no longer wanted
	Tracings   Tracings // paper tracings that are said to be on their way
	UnderTape  string   // the sentence that says what was, or was not, under the tape
	Unchanged  bool     // says that something is the same as before, with no number beside it

	Notices       []Notice       // of numbers that stand elsewhere; heeded already for those of this body
	Confirmations []Confirmation // answers to yes-or-no questions of a letter, in the order written
}

// Tracings tells which paper tracings the customer says have been sent.
type Tracings struct {
	Bow, Stern bool
}

// Correction is one answer to a question about one number: "hull at 9 ft should
// be 41, not 51". What the sentence leaves out stays zero, and whoever asked the
// question knows the rest.
type Correction struct {
	Cell     parse.Cell      // Measure "" when the sentence names none
	Placed   bool            // the sentence names a station, so Cell.At counts
	Values   []parse.Reading // every try in the order written; usually one
	Was      *parse.Reading  // the number that is said to be wrong, when it is repeated
	Same     bool            // "still 37"
	Bare     bool            // no unit is written, and no letter or place tells: the values are counted in inches
	Sentence string
	Source   parse.Source
}

// Problems of mail bodies.
const (
	CodeWhichGirth parse.Code = "which-girth"      // a station with one number, hull or full not said
	CodeSentence   parse.Code = "unclear-sentence" // numbers whose places the words do not settle
	CodeQuoted     parse.Code = "only-quoted"      // nothing but an earlier mail, and numbers in it
	CodeTooMany    parse.Code = "too-many-numbers" // more than a survey has; none was read
)

// The time that a text takes is bounded by its numbers, and that of a line grows
// with their square. A survey has some forty measurements of up to eight runs of
// digits, which somebody may type in one line; a long conversation quotes a few
// hundred numbers again and again.
const (
	mostNumbers       = 2000
	mostNumbersOfLine = 600
)

// Read says what a mail's body holds. Either text may be "". Where both are
// given they say the same, and the one that keeps its columns is read. Places
// are lines of that text: "line 12".
func Read(file, text, html string) Mail {
	lines := textLines(text)
	if html != "" {
		// Some programs write only a few words for those who see no web pages.
		if web := htmlLines(html); text == "" || hasTable(html) || numbersIn(web) > webOnly*numbersIn(lines) {
			lines = web
		}
	}
	if tooMany(lines) {
		return Mail{Document: parse.Document{Problems: []parse.Problem{{
			Code: CodeTooMany, Source: parse.Source{File: file},
			Message: fmt.Sprintf("More than %d lines or %d numbers stand here, or far longer lines than any survey has, so no number was read.", linesMost, mostNumbers),
		}}}}
	}
	own, quoted := ownWords(lines)
	mail := Mail{}
	r := &reader{file: file}
	rest := r.letter(own, quoted)
	answered := r.answers()
	mail.says(rest)
	if mail.UnderTape == "" {
		mail.UnderTape = strings.Join(r.tape, "; ")
	}
	if !r.answering && len(quoted) > 0 {
		rest = askedAbove(rest, quoted)
	}
	r, mail.Document, mail.Notices = r.heed(rest)
	if !r.answering {
		mail.Document = parse.OtherMatter(file, mail.Document)
	}
	mail.Confirmations = r.confirmations
	mail.Corrections = r.corrections
	if len(own) == 0 && !answered && anyNumber(quoted) {
		mail.Document.Problems = append(mail.Document.Problems, parse.Problem{
			Code: CodeQuoted, Source: parse.Source{File: file},
			Message: "The mail holds nothing but an earlier mail. If it was passed on, a person must say whose numbers these are.",
		})
	}
	return mail
}

// Printed says what the text of a file holds. It may be a mail that was printed
// or saved, whose own header stands above it.
func Printed(file, text string) parse.Document {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		s := parse.Fold(l) + " "
		if strings.TrimSpace(s) != "" && !headerLine.MatchString(s) {
			break
		}
		lines[i] = ""
	}
	return Read(file, strings.Join(lines, "\n"), "").Document
}

// askedAbove puts the question of an earlier mail before the number that was
// typed under it: "> What is the bow height?", "20 inches".
func askedAbove(own, quoted []line) []line {
	out := slices.Clone(own)
	before := 0 // the line of the customer's own before
	for i, l := range own {
		if l.blank() {
			continue
		}
		var asked string
		for _, q := range quoted {
			if q.number > before && q.number < l.number && strings.Trim(q.text, "> \t") != "" {
				asked = strings.Trim(q.text, "> \t?:")
			}
		}
		before = l.number
		if labelOf(parse.Fold(asked)).measure == "" || measuredNumbers(asked) {
			continue
		}
		if words, nums, _ := weave(scan(l.text)); len(nums) == 1 && betweenRow.MatchString(strings.Join(words, "")) {
			out[i].text = asked + ": " + l.text
		}
	}
	return out
}

// answers reports that something was filled into a letter.
func (r *reader) answers() bool {
	return len(r.corrections)+len(r.confirmations)+len(r.tape)+len(r.problems)+len(r.pairs)+len(r.keyed) > 0
}

// webOnly is how many times the numbers of its text the web page of a mail holds
// where the text is not the whole mail.
const webOnly = 2

func numbersIn(lines []line) int {
	count := 0
	for _, l := range lines {
		count += runsOfDigits(l.text)
	}
	return count
}

// tooMany reports more than a text or one of its lines may have.
func tooMany(lines []line) bool {
	size := 0
	for _, l := range lines {
		if size += len(l.text); size > linesMost*lineUsual {
			return true
		}
		if l.lost || runsOfDigits(l.text) > mostNumbersOfLine {
			return true
		}
	}
	return len(lines) > linesMost || numbersIn(lines) > mostNumbers
}

func runsOfDigits(text string) int {
	count, before := 0, false
	for _, r := range text {
		digit := r >= '0' && r <= '9'
		if digit && !before {
			count++
		}
		before = digit
	}
	return count
}

func anyNumber(lines []line) bool {
	for _, l := range lines {
		for _, it := range scan(l.text) {
			if it.number {
				return true
			}
		}
	}
	return false
}
