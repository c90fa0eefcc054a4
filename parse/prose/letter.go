package prose

import (
	"regexp"
	"strings"
	"unicode"

	"fairtape/parse"
)

// Our letters have blanks to type into: "6 ft  hull girth  1st try ____  2nd
// try ____  3rd ____". Customers fill them above the quoted letter or inside
// it, so that a quoted line may be the customer's own: when its blanks are
// filled. What else a letter says, the numbers from before among it, is ours.
// The words stand in templates, in both languages; a test under cmd fills every
// letter and reads it back.

// letterLine is one line of a letter as it stands in a body, lines that were
// wrapped joined.
type letterLine struct {
	text  string
	lines []line
	own   bool // stands in the customer's own words
}

func (l letterLine) place() string { return l.lines[0].place() }

// blank is one blank with what was typed into it.
type blank struct {
	text string
	nums []item
}

func (b blank) empty() bool { return b.text == "" }

// field is a line with blanks for one or two numbers.
type field struct {
	name   placeName
	blanks map[parse.Measure][]blank
	order  []parse.Measure
}

func (f field) empty() bool {
	for _, list := range f.blanks {
		for _, b := range list {
			if !b.empty() {
				return false
			}
		}
	}
	return true
}

// placeName is what a line says of the place and the measure it is about.
type placeName struct {
	at      *item // the station
	measure parse.Measure
}

// letterNames are the names of the measures in letters; longer ones first.
var letterNames = []struct {
	name    string
	measure parse.Measure
}{
	{"greatest girth, hull girth and full girth", parse.GreatestPair},
	{"greatest girth, distance from bow", parse.GreatestAt},
	{"greatest girth, hull girth", parse.GreatestHullGirth},
	{"greatest girth, full girth", parse.GreatestFullGirth},
	{"greatest girth, opening", parse.GreatestOpening},
	{"transom, hull girth and full girth", parse.TransomPair},
	{"transom, hull girth", parse.TransomHullGirth},
	{"transom, full girth", parse.TransomFullGirth},
	{"hull girth and full girth", parse.MeasurePair},
	{"hull girth", parse.HullGirth},
	{"full girth", parse.FullGirth},
	{"length overall", parse.LengthOverall},
	{"bow height", parse.BowHeight},
	{"stern height", parse.SternHeight},
	{"carry point", parse.CarryPoint},
	{"plus grand tour, tour de coque et tour complet", parse.GreatestPair},
	{"plus grand tour, distance de l'avant", parse.GreatestAt},
	{"plus grand tour, tour de coque", parse.GreatestHullGirth},
	{"plus grand tour, tour complet", parse.GreatestFullGirth},
	{"plus grand tour, ouverture", parse.GreatestOpening},
	{"tableau arriere, tour de coque et tour complet", parse.TransomPair},
	{"tableau arriere, tour de coque", parse.TransomHullGirth},
	{"tableau arriere, tour complet", parse.TransomFullGirth},
	{"tour de coque et tour complet", parse.MeasurePair},
	{"tour de coque", parse.HullGirth},
	{"tour complet", parse.FullGirth},
	{"longueur hors tout", parse.LengthOverall},
	{"hauteur avant", parse.BowHeight},
	{"hauteur arriere", parse.SternHeight},
	{"point de portage", parse.CarryPoint},
}

// pairOf names the two girths of a pair.
func pairOf(m parse.Measure) (hull, full parse.Measure) {
	place := strings.TrimSuffix(string(m), string(parse.MeasurePair))
	return parse.Measure(place) + parse.HullGirth, parse.Measure(place) + parse.FullGirth
}

var (
	quoteMarks = regexp.MustCompile(`^(?:\s*>)+\s?|^\s*\|\s`)
	listMark   = regexp.MustCompile(`^\s*(?:[-*•·–]\s+)?`)
	tryMark    = regexp.MustCompile(`(?i)(?:^|[\s,;:/|(_-])(1st|1er|1re|1ère|2nd|2e|2ème|2de|3rd|3e|3ème)(?:\s+(?:try|essai))?(?:\s*[:=])?(?:\s|_|$)`)
	laterTry   = regexp.MustCompile(`(?i)^\s*(?:1st try|1er essai|2nd|2e|2ème|3rd|3e|3ème)(?:\s+(?:try|essai))?(?:\s*[:=])?(?:\s|_|$)`)
	underTape  = regexp.MustCompile(`(?i)^(.{0,24}?)\s*(?:under the tape|sous le ruban)\s*:\s*(.*)$`)
	blankMarks = regexp.MustCompile(`_{3,}`)
	letterEnds = regexp.MustCompile(`^(?:on .{3,40} you wrote|le .{3,40},? vous avez ecrit) ?:$`)
	// echoOpens heads the numbers of an earlier mail in a letter.
	echoOpens = regexp.MustCompile(`^(?:what your survey says now|ce que dit votre releve pour l'instant)$`)
	andWords  = regexp.MustCompile(`(?i)\s+(?:and|et)\s+`)
)

// letter reads what was filled into a letter of ours, and returns the customer's
// words without those lines.
func (r *reader) letter(own, quoted []line) []line {
	lines := letterLines(own, quoted)
	r.unitOfLetter(lines)
	taken := map[int]bool{}
	var open *field
	var openQuestion *Confirmation
	var openUnder *letterLine
	echo, ended := false, false
	for _, l := range lines {
		s := parse.Fold(l.text)
		take := func() {
			for _, one := range l.lines {
				taken[one.number] = true
			}
		}
		if !l.own {
			ended = ended || letterEnds.MatchString(s)
			echo = echo && !echoCloses.MatchString(s) || echoOpens.MatchString(s)
		}
		switch f, known := fieldOf(l.text, r.answering); {
		case s == "" || (echo || ended) && !l.own:
			continue
		case known:
			take()
			open, openQuestion, openUnder = nil, nil, nil
			if f.empty() {
				open = &f
			} else {
				r.filled(f, l)
			}
			continue
		case r.answering && asksUnder(l.text):
			take()
			open, openQuestion, openUnder = nil, nil, nil
			if !r.under(l, typed(underTape.FindStringSubmatch(l.text)[2])) {
				openUnder = &l
			}
			continue
		}
		if q, asked := questionOf(l.text, l.own); asked {
			take()
			open, openQuestion, openUnder = nil, nil, nil
			r.stand(&q, l)
			if q.Text == "" {
				openQuestion = &q
			} else {
				r.confirm(q)
			}
			continue
		}
		if !l.own {
			continue
		}
		// Typed on a line of its own under the blanks.
		switch {
		case open != nil && r.fillBelow(*open, l):
			take()
		case openQuestion != nil && (saysYes.MatchString(s) || saysNo.MatchString(s)):
			take()
			openQuestion.Text = l.text
			r.stand(openQuestion, l)
			r.confirm(*openQuestion)
		case openUnder != nil && !measuredNumbers(l.text):
			take()
			r.under(letterLine{openUnder.text, l.lines, true}, typed(l.text))
		}
		open, openQuestion, openUnder = nil, nil, nil
	}
	var rest []line
	for _, l := range own {
		if !taken[l.number] {
			rest = append(rest, l)
		}
	}
	return trim(rest)
}

// asksUnder reports the line of a letter that asks what is under the tape at a
// place.
func asksUnder(text string) bool {
	m := underTape.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	_, fault := stationNamed(strings.Trim(m[1], " :,-"))
	return strings.TrimSpace(m[1]) == "" || !fault
}

// stand says where an answer stands.
func (r *reader) stand(q *Confirmation, l letterLine) {
	q.lines = l.lines
	q.Source = parse.Source{File: r.file, Place: l.place(), Raw: q.Text}
}

// echoCloses is how the part of a letter after the numbers from before begins.
var echoCloses = regexp.MustCompile(`^(?:thank you|merci|questions|still|encore|a file|un fichier|before you|avant de)\b`)

// letterLines puts the lines of a body in order again, without the marks of
// quoting and of lists, and joins what was wrapped. What the letter itself
// quotes is left out.
func letterLines(own, quoted []line) []letterLine {
	var out []letterLine
	i, j := 0, 0
	for i < len(own) || j < len(quoted) {
		var l line
		mine := j >= len(quoted) || i < len(own) && own[i].number < quoted[j].number
		if mine {
			l, i = own[i], i+1
		} else {
			l, j = quoted[j], j+1
		}
		mark := quoteMarks.FindString(l.text)
		if l.depth > 1 || strings.Count(mark, ">") > 1 {
			continue
		}
		text := plainSpaces(l.text[len(mark):])
		item := listMark.FindString(text)
		text = strings.TrimSpace(text[len(item):])
		if n := len(out); n > 0 && text != "" && strings.TrimSpace(item) == "" && goesOn(out[n-1], l, text, mine) {
			out[n-1].text += " " + text
			out[n-1].lines = append(out[n-1].lines, l)
			continue
		}
		out = append(out, letterLine{text: text, lines: []line{l}, own: mine})
	}
	return out
}

// goesOn reports that a line continues the one before: the blanks of a number
// on the next line, or the rest of a question.
func goesOn(before letterLine, l line, text string, own bool) bool {
	last := before.lines[len(before.lines)-1]
	if before.text == "" || before.own != own || last.number+1 != l.number || l.cells != nil {
		return false
	}
	if laterTry.MatchString(text) {
		return tryMark.MatchString(before.text) || nameOf(before.text).measure != ""
	}
	if before.own || tryMark.MatchString(before.text) || blankMarks.MatchString(before.text) {
		return false
	}
	bulleted := strings.TrimSpace(listMark.FindString(strings.TrimPrefix(before.lines[0].text, quoteMarks.FindString(before.lines[0].text)))) != ""
	return bulleted && !underTape.MatchString(text)
}

func plainSpaces(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, s)
}

// letterWords are what our letters say about answering them.
var letterWords = regexp.MustCompile(`\banswer this mail\b|\btype into the blanks\b|\byour boat is our job\b|\brepondez (?:a|de preference a) ce message\b|\becrivez dans les blancs\b|\bvotre bateau porte chez nous\b`)

// letterUnit is the unit of the places and numbers in a letter.
var letterUnit = regexp.MustCompile(`(?i)\d\s*(cm|ft|in|pi|po)\b`)

// unitOfLetter finds what bare numbers in the blanks are counted in: the letter
// speaks the customer's own unit.
func (r *reader) unitOfLetter(lines []letterLine) {
	for _, l := range lines {
		f, known := fieldOf(l.text, false)
		if known && f.tried() || !l.own && (blankMarks.MatchString(l.text) || letterWords.MatchString(parse.Fold(l.text))) {
			r.answering = true
		}
	}
	if !r.answering {
		return
	}
	for _, l := range lines {
		if _, known := fieldOf(l.text, true); l.own && !known {
			continue
		}
		if m := letterUnit.FindStringSubmatch(l.text); m != nil {
			r.scale = parse.ScaleInch
			if strings.EqualFold(m[1], "cm") {
				r.scale = parse.ScaleCM
			}
			return
		}
	}
}

func (f field) tried() bool {
	for _, list := range f.blanks {
		if len(list) > 1 {
			return true
		}
	}
	return false
}
