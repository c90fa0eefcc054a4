package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// asked is a question of an earlier mail, without its number in a list.
var asked = regexp.MustCompile(`^(?:\d{1,2}[.)]\s*)?([^\d?]+?)\s*\??\s*$`)

// underQuestions puts before each answer the words of the question in an earlier
// mail that it stands under: "> Bow height?", "21 1/2 in". A letter of ours is
// read otherwise.
func underQuestions(lines, own, quoted []line) []line {
	if slices.ContainsFunc(quoted, func(l line) bool { return letterWords.MatchString(parse.Fold(l.text)) }) {
		return own
	}
	question, questions := "", map[int]string{}
	for _, l := range lines {
		switch {
		case l.blank():
		case marked(l):
			question = questionIn(l)
		default:
			if question != "" && opensWithNumber.MatchString(l.text) {
				questions[l.number] = question
			}
			question = ""
		}
	}
	var out []line
	for _, l := range own {
		q := questions[l.number]
		switch {
		case q == "" || l.cells != nil:
		case labelOf(parse.Fold(q)) == label{role: bothRoles}:
			out = append(out, line{number: l.number, text: q}) // it heads the rows
		default:
			l.text = answering(q, strings.TrimSpace(l.text))
		}
		out = append(out, l)
	}
	return out
}

// questionIn is the question, or the name of a measure, that a line of an earlier
// mail is; "" where it is neither.
func questionIn(l line) string {
	m := asked.FindStringSubmatch(strings.TrimSpace(l.text[len(quoteMarks.FindString(l.text)):]))
	if m == nil || !labelOf(parse.Fold(m[1])).some() || !strings.Contains(l.text, "?") && len(strings.Fields(m[1])) > askWords {
		return ""
	}
	return strings.TrimRight(m[1], " :")
}

// askedOf is what a question about the greatest girth asks for, by its words.
var askedOf = []struct {
	name  string
	words *parse.Pattern
}{
	{"at ", parse.NewPattern(`\b(?:where|how far|distance|place|ou|endroit)\b`)},
	{"hull girth ", hullWords},
	{"full girth ", fullWords},
	{"opening ", openingWords},
}

// answering is a question with its answer. Numbers alone that answer a question
// about the greatest girth stand in the order in which it asks for them.
func answering(question, answer string) string {
	s := strings.ReplaceAll(parse.Fold(question), "plus grand tour", "plus grand")
	words, nums, _ := weave(scan(answer))
	if l := labelOf(s); l.place == greatest && onlyJoined.MatchString(strings.Join(words, "")) {
		type part struct {
			name string
			at   int
		}
		var parts []part
		for _, of := range askedOf {
			if at := of.words.FindStringIndex(s); at != nil {
				parts = append(parts, part{of.name, at[0]})
			}
		}
		slices.SortFunc(parts, func(a, b part) int { return a.at - b.at })
		if len(parts) == len(nums) && len(parts) > 1 {
			text := "greatest girth: "
			for i, p := range parts {
				text += p.name + strings.TrimSpace(nums[i].text) + ", "
			}
			return strings.TrimRight(text, ", ")
		}
	}
	return question + ": " + answer
}

// opensWithNumber is an answer that is a number, or a place, and no sentence.
var opensWithNumber = regexp.MustCompile(`(?i)^\s*(?:(?:(?:it is|it's|c'est) )?(?:at|à) )?[\d½¼¾]`)

// inside are words that say that the answers stand in the mail below, which the
// program marked as the other's.
var inside = regexp.MustCompile(`\b(?:(?:filled|answer(?:s|ed)?|numbers?|typed|wrote|written|put|entered|measurements?|reply|replies)\b[^.]{0,40}\b(?:below|in (?:blue|red|green|colou?r)|in(?:to)? your (?:list|mail|email|letter|form|table)|inline|between (?:the|your) lines)|(?:see|look|read) below|rempli\b[^.]{0,40}\b(?:ci-dessous|liste)|reponses?\b[^.]{0,40}\b(?:ci-dessous|en (?:bleu|rouge)))\b`)

// answeredInside reports an earlier mail with a survey in it that the customer's
// own words, without a number, say is filled in. A letter of ours, which has
// numbers from before in it, never is.
func answeredInside(own, quoted []line) bool {
	points := false
	for _, l := range own {
		if l.cells != nil || measuredNumbers(l.text) {
			return false
		}
		points = points || inside.MatchString(parse.Fold(l.text))
	}
	rows := 0
	for _, l := range quoted {
		s := parse.Fold(strings.Trim(l.text, "> "))
		if letterWords.MatchString(s) || echoOpens.MatchString(s) || blankMarks.MatchString(l.text) {
			return false
		}
		if measuredNumbers(strings.Trim(l.text, "> ")) {
			rows++
		}
	}
	return points && rows >= fewStationRows
}

// fewStationRows is how many lines with numbers a survey has at least.
const fewStationRows = 6

// unquoted takes the marks off an earlier mail, and leaves out what it quotes.
func unquoted(quoted []line) []line {
	var out []line
	for _, l := range quoted {
		mark := quoteMarks.FindString(l.text)
		if l.depth > 1 || strings.Count(mark, ">") > 1 || !l.quote && mark == "" {
			continue
		}
		l.text, l.quote = l.text[len(mark):], false
		out = append(out, l)
	}
	return out
}

// withoutHeader leaves out the lines that say who wrote an earlier mail, and when.
func withoutHeader(lines []line) []line {
	for len(lines) > 0 && (lines[0].blank() || headerLine.MatchString(parse.Fold(lines[0].text)+" ") || originalLine.MatchString(parse.Fold(lines[0].text))) {
		lines = lines[1:]
	}
	return lines
}

// below are words that point at a mail that follows.
var below = regexp.MustCompile(`\b(?:(?:see|as|read|are|is) below|below (?:is|are)|forward(?:ing|ed)?|fwd|pass(?:ing|ed)? (?:this|it|these) on|asked me to (?:send|pass|mail)|ci-dessous|je (?:vous )?(?:transmets|transfere|fais suivre))\b`)

// passedOn reports an earlier mail that the customer's own words, without a
// number, point at: it is theirs to pass on. A letter of ours never is.
func passedOn(own, earlier []line) bool {
	points := false
	for _, l := range own {
		if measuredNumbers(l.text) {
			return false
		}
		points = points || below.MatchString(parse.Fold(l.text))
	}
	for _, l := range earlier {
		if letterWords.MatchString(parse.Fold(l.text)) {
			return false
		}
	}
	return points
}
