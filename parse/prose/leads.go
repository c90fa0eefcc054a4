package prose

import (
	"strings"

	"fairtape/parse"
)

// A sentence may lead to the greatest girth that the next one gives: "Where is
// the greatest girth?", "at 7 ft 5 in, hull girth 50, full girth 84".

// greatestNamed names the place of the greatest girth, and not something else
// that is large.
var greatestNamed = parse.NewPattern(`\b(?:` + parse.GreatestTerms + `)\b.{0,20}\b(?:girths?|points?|spot|place|section|station|part|loop|circumference|pair|tours?|circonferences?|contours?|endroit)\b|\b(?:girths?|loop|circumference|boat|it|she) (?:is|was) (?:the )?(?:greatest|widest|biggest|largest|fullest|fattest)\b|\b(?:tour|section|contour|circonference) (?:maximale?|le plus grand|la plus grande)\b`)

// leadMost is how many words a sentence that leads to another has at most.
const leadMost = 24

// leads reports a sentence without a number that leads to the greatest girth.
func leads(sentence string) bool {
	s := parse.Fold(sentence)
	closed := strings.HasSuffix(s, ":") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, ".") || placeHeading.MatchString(s)
	return closed && !measuredNumbers(sentence) && len(strings.Fields(s)) <= leadMost &&
		(greatestNamed.MatchString(s) || placeHeading.MatchString(s) && labelOf(s).place == greatest)
}

// ledTo is how a sentence begins that says where what was led to is.
var ledTo = parse.NewPattern(`(?i)^\s*(?:[-–—*•·]\s+)?(?:(?:it|this|that|c['’]est|il|elle|celui-ci|which)?\s*(?:is|was|comes|lies|sits|'s|est|se trouve|tombe)?\s*(?:right |just )?(?:at|@|à)\s+)?(?:the |station )?\d`)

// Numbers of the greatest girth at least and at most: its place and its pair, and
// the opening; the place may be told twice.
const (
	ledLeast = 3
	ledMost  = 5
)

func isLed(text string) bool {
	_, nums, _ := weave(scan(figures(text)))
	return ledTo.MatchString(text) && len(nums) >= ledLeast && len(nums) <= ledMost
}

// underLeads puts before the greatest girth the sentence that leads to it. Where
// more such lines follow, they are rows of a list, and none of them is meant.
func underLeads(lines []line) []line {
	out := append([]line(nil), lines...)
	for i := range out {
		if out[i].blank() || out[i].cells != nil {
			continue
		}
		parts := cut(unbullet(out[i].text))
		last := len(parts) - 1
		for k := 0; k < last; k++ {
			if leads(parts[k]) && isLed(parts[k+1]) && (k+2 > last || !isLed(parts[k+2])) {
				parts[k+1] = lead(parts[k]) + parts[k+1]
				parts[k] = ""
				out[i].text = strings.TrimSpace(strings.Join(parts, " "))
			}
		}
		next := filledLine(out, i+1)
		if !leads(parts[last]) || next == len(out) || out[next].cells != nil || !isLed(out[next].text) {
			continue
		}
		if after := filledLine(out, next+1); after < len(out) && isLed(out[after].text) {
			continue
		}
		out[next].text = lead(parts[last]) + columnGap.ReplaceAllString(strings.TrimSpace(out[next].text), ", ")
		out[i].text = strings.Join(parts[:last], " ")
	}
	return out
}

func lead(sentence string) string { return strings.TrimRight(sentence, " .:?") + ": " }

// filledLine is the first line from i on that is not blank.
func filledLine(lines []line, i int) int {
	for i < len(lines) && lines[i].blank() {
		i++
	}
	return i
}
