package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// placeLast reports a sentence whose only place stands behind its numbers: "35
// hull, 42 full at 1 ft".
func (w *weaver) placeLast() bool {
	last := len(w.nums) - 1
	if last < 1 || w.row != nil && w.row.count() == 0 || w.nums[last].fault.Some() || !atLast.MatchString(w.words[last]) || labelOf(w.words[last+1]).role != noRole {
		return false
	}
	for i := range w.nums[:last] {
		before, after := w.around(i)
		l := w.labelFor(i, before, after)
		if l.role == noRole || l.role == bothRoles || l.place != noPlace || w.placeAt(i, l, before, nil) {
			return false
		}
	}
	return true
}

var atLast = regexp.MustCompile(`(?:^|[ ,])(?:at|@)(?: (?:the )?(?:station|stn|sta|st))?\.? ?$`)

// samePlace reports the number of a station and its distance in feet.
func samePlace(number, feet item) bool {
	a, _ := number.amount.Length(parse.ScaleFoot)
	b, _ := feet.amount.Length(parse.ScaleFoot)
	return a == b
}

// firstLabelled reports that words before the first number that is no place
// name a measure, so that labels stand before their numbers.
func (w *weaver) firstLabelled() bool {
	if w.placeLeads() {
		return true
	}
	for i := range w.nums {
		l := labelOf(w.words[i])
		if i == 0 && l == (label{place: greatest}) && len(w.nums) > 2 && stationEnds.MatchString(w.words[0]) {
			continue // "the greatest girth is at 6 ft 9 in with 53 hull and 89 full"
		}
		if l.some() {
			return true
		}
		if i == 0 && w.placeAt(0, label{}, w.words[0], nil) || i == 1 && strings.TrimSpace(w.words[1]) == "" && w.nums[1].amount.Scale != parse.Bare {
			continue // a place, perhaps said twice: "station 3 (3 ft)"
		}
		return false
	}
	return false
}

// placeLeads reports a place before girths that each have their label before
// them: "30 cm - hull 92 - full 139".
func (w *weaver) placeLeads() bool {
	last := len(w.nums) - 1
	if last < 1 || labelOf(w.words[0]).some() || labelOf(w.words[last+1]).some() {
		return false
	}
	for i := 1; i <= last; i++ {
		if l := labelOf(w.words[i]); l.role == noRole || l.role == bothRoles || l.place != noPlace || stationEnds.MatchString(w.words[i]) {
			return false
		}
	}
	first := w.nums[0].amount.Scale
	if strings.IndexAny(strings.TrimSpace(w.words[1]), ":-–—=,;/|") == 0 {
		return last > 1 || first != parse.Bare
	}
	return last > 1 && (first == parse.ScaleFoot || labelOf(w.words[1]).role != labelOf(w.words[last]).role)
}

// placeAt reports that number i says a place and not a measure.
func (w *weaver) placeAt(i int, l label, before string, current *spot) bool {
	n, after := w.nums[i], w.words[i+1]
	if n.fault.Some() || l.measure != "" {
		return false
	}
	more := i+1 < len(w.nums)
	ends := stationEnds.MatchString(before) || stationEnds.MatchString(w.words[i])
	aft := stationAfter.MatchString(after) && !(more && stationEnds.MatchString(after)) // but "41 station 3"
	switch {
	case w.heads(current) && len(w.nums) == 1:
		return l.role == noRole && (ends || placeOfWords.MatchString(before))
	case l.place == greatest:
		return ends && placeOfWords.MatchString(w.words[i]) || aft
	case i == 0 && l.place == noPlace && w.placeLeads():
		return true
	case ends, aft:
		return true
	case current != nil && (current.place != station && !current.paired() || current.count() == 0):
		return false
	}
	text := parse.Fold(n.text)
	feet := strings.Contains(text, "ft") || strings.Contains(text, "feet") || strings.Contains(text, "foot") || strings.Contains(text, "pi") || strings.HasSuffix(text, "'") || strings.Contains(text, "'")
	lead := strings.Trim(w.words[i], " -*•·(,;.") == "" || w.afterTalk(i) ||
		l.role != noRole && n.amount.Scale == parse.ScaleFoot && more && linked[strings.TrimSpace(after)]
	switch {
	case feet && lead && more && !w.suffix, feet && lead && more && i == 0, feet && w.amends && more && current == nil:
		return true
	case lead && i == 0 && more && strings.HasPrefix(strings.TrimLeft(after, " "), ":"):
		return true
	case lead && !more && len(w.nums) == 1 && feet && strings.Trim(after, " :.,-") == "":
		return true // a place alone on its line
	}
	return false
}

// afterTalk reports a first number behind words that say nothing of the boat and
// are closed, with a girth named behind it, or a colon: "Bonjour, 9 ft hull girth
// is 70 1/2", "Next one, 3 feet: 43 under, 69 closed".
func (w *weaver) afterTalk(i int) bool {
	if i > 0 || !talkEnds.MatchString(w.words[0]) || labelOf(w.words[0]).some() {
		return false
	}
	return labelOf(w.words[1]).role != noRole || w.nums[0].amount.Scale != parse.Bare && strings.HasPrefix(strings.TrimLeft(w.words[1], " "), ":")
}

var talkEnds = regexp.MustCompile(`\pL\W*[,:;-]\s*$`)

// heads reports the greatest girth as a heading over lines of which none has
// said yet where it is.
func (w *weaver) heads(s *spot) bool {
	return s != nil && s == w.row && s.place == greatest && s.at == nil && !s.paired()
}

// goesOn reports a greatest girth of which the place is still to be told: in the
// sentence that gives its girths, under its heading, or alone on the next line.
func (w *weaver) goesOn(s *spot) bool {
	if s != w.row {
		return s.count() > 0
	}
	return s.count() == 0 && w.heads(s) || s.count() > 0 && len(w.nums) <= 2
}

// linked is what stands between a place and its number: "hull girths: 1 ft 35".
// After "hull 3 ft, full 4 ft" there is a comma, and 3 ft is no place.
var linked = map[string]bool{"": true, ":": true, "=": true, "-": true, "is": true, "was": true}

// continues reports a line that goes on with the place of the line before: it
// names no place of its own. A sentence of girths alone is about the place that
// was named just before, and has none of them yet.
func (w *weaver) continues() bool {
	if w.row.paired() && w.talk() {
		return false
	}
	girths := true
	for i := range w.nums {
		before, after := w.around(i)
		l := w.labelFor(i, before, after)
		if labelOf(w.words[i]).measure != "" {
			return false
		}
		girths = girths && l.place == noPlace && (l.role == hull || l.role == full || l.role == opening) && len(*w.row.list(l.role)) == 0
	}
	return girths || len(strings.Fields(strings.Join(w.words, " "))) <= 6
}
