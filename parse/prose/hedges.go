package prose

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// either stands between two numbers of which one is meant: "83 or 84", "83,
// maybe 84". between does where they lie close together: "46 to 47".
var (
	either  = regexp.MustCompile(`(?i)^\s*,?\s*(?:(?:or|ou)(?:,? (?:maybe|perhaps|possibly|even|more like|peut[- ][eê]tre|m[eê]me|plut[oô]t))?|maybe|perhaps|possibly|peut[- ][eê]tre|±|\+\s?/?\s?-),?\s*$`)
	between = regexp.MustCompile(`(?i)^\s*(?:to|up to|[aà]|jusqu['’][aà])\s*$`)
)

// closeBy is how far the second of two numbers of which one is meant lies above
// the first at most, as a share of it.
const closeBy = 0.15

// oneOfTwo reports two numbers of which one is meant.
func oneOfTwo(first item, words string, second item) bool {
	a, b := first.amount, second.amount
	return either.MatchString(words) || between.MatchString(words) && (a.Scale == b.Scale || a.Scale == parse.Bare) && b.Number > a.Number && b.Number <= (1+closeBy)*a.Number
}

// hedges gives a number the words and signs beside it that make it rough: "about
// 46", "46 or so", "~46".
func hedges(items []item) []item {
	for i := 0; i < len(items); i++ {
		if !items[i].number {
			continue
		}
		if i+2 < len(items) && items[i+2].number && !items[i+1].number && oneOfTwo(items[i], items[i+1].text, items[i+2]) {
			first, second := items[i], items[i+2]
			items[i].text += items[i+1].text + second.text
			items[i].fault = parse.Fault{
				Code: parse.CodeRange, Message: "Two numbers are given where one is expected.",
				May: []parse.Amount{first.amount, second.amount},
			}
			items = slices.Delete(items, i+1, i+3)
			continue
		}
		mark := func() {
			items[i].fault = parse.Fault{Code: parse.CodeApproximate, Message: "The number is given as a rough one."}
		}
		if i > 0 && !items[i-1].number {
			before := items[i-1].text
			if at := parse.DoubtBefore(before); at >= 0 && !roundWords(items, before) && !arrow.MatchString(before) {
				items[i].text = before[at:] + items[i].text
				items[i-1].text = before[:at]
				mark()
			}
		}
		if i+1 < len(items) && !items[i+1].number {
			if end := hedgeEnd(items, i+1); end > 0 {
				items[i].text += items[i+1].text[:end]
				items[i+1].text = items[i+1].text[end:]
				mark()
			}
		}
	}
	return items
}

// hedgeEnd is where the words end, after a number, that say that it is not sure;
// 0 where there are none. Words that run into the next number, or stand behind
// the name of another girth, belong to that.
func hedgeEnd(items []item, i int) int {
	text := items[i].text
	end := parse.DoubtAfter(text)
	if end == 0 || finalQuestion(items, i) {
		return 0
	}
	words := strings.TrimRight(text[:end], " .,;")
	if i+1 < len(items) && items[i+1].number && strings.Trim(text[end:], " :(") == "" && isLetter(lastRune(words)) || labelOf(parse.Fold(words)).role != noRole {
		return 0
	}
	return len(words)
}

func lastRune(s string) rune {
	runes := []rune(s)
	if len(runes) == 0 {
		return 0
	}
	return runes[len(runes)-1]
}

// arrow points from a label to its number; it is no "more than".
var arrow = regexp.MustCompile(`[-=]+>\s*$`)

// roundWords tells "all around 52" and "hull under 38", which name a girth,
// from "around 52" and "under 38", which are rough numbers.
func roundWords(items []item, before string) bool {
	s := strings.TrimSpace(parse.Fold(before))
	return girthRound.MatchString(s) || roundAlone.MatchString(s) && bothWays(items)
}

// bothWays reports a line that names one girth as under the boat and the other
// as around it: "under 47, all round 86". Where "hull" names the one, "under 47"
// is rough unless the other is around.
func bothWays(items []item) bool {
	under, hull, around, full := false, false, false, false
	for _, it := range items {
		s := parse.Fold(it.text)
		switch {
		case it.number:
			continue
		case strings.Contains(s, "under"):
			under = true
		case hullWords.MatchString(s):
			hull = true
		}
		around = around || strings.Contains(s, "around")
		full = full || fullWords.MatchString(s)
	}
	return (under || hull) && around || under && full && !hull
}

var (
	girthRound = regexp.MustCompile(`(?:all (?:the way )?around|right around|way around|underneath|hull under|girth under|\((?:under(?:neath)?|around)\)|(?:wrap|once|down and|over and|and) (?:around|under|over)|gunwale,? under|\b(?:should|to|must) say)$`)
	roundAlone = regexp.MustCompile(`(?:^|[,;:/=&|-]\s?|\b(?:and|then|plus) )(?:around|under|over)$`)
)

// opensQuestion is how a sentence begins that asks something; "83?" at the end
// of any other is a doubt.
var opensQuestion = regexp.MustCompile(`^\W*(?:(?:and|but|so|or|et|mais|alors|hi|hello|sorry|bonjour)\W+)*(?:is|are|was|were|do|does|did|can|could|would|should|shall|will|may|what|which|when|where|how|why|who|est-ce|faut-il|puis-je|peut-on|dois-je|avez|pouvez|quel(?:le)?s?|combien|comment|pourquoi|quand|ou)\b`)

// finalQuestion reports that the mark after a number closes a question.
func finalQuestion(items []item, i int) bool {
	return strings.TrimSpace(items[i].text) == "?" && !items[0].number && opensQuestion.MatchString(parse.Fold(items[0].text))
}
