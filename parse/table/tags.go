package table

import (
	"regexp"
	"strings"
	"unicode"

	"fairtape/parse"
)

// tags finds the labels that no table has used.
func (s *sheet) tags() []*tag {
	var tags []*tag
	for _, row := range s.items {
		for _, it := range row {
			if it.used && it.word() {
				// A row of a table may be what the next labels speak of.
				if l := it.asLabel(); l.group != "" {
					tags = append(tags, &tag{item: it, label: label{group: l.group}})
				}
			}
			if it.used || it.note || it.empty() || it.numeric {
				continue
			}
			parts := s.parts(it)
			for _, part := range parts {
				if t := s.newTag(part); t != nil && !(t.group != "" && view{s, false}.recurs(it)) {
					tags = append(tags, t)
				}
			}
		}
	}
	return tags
}

// listEnd is where one measure of a sentence ends and the next begins: "Bow
// height 18 1/2, stern height 17", "Greatest girth at 8 ft 1 in: hull 52".
var listEnd = regexp.MustCompile(`(\d[^;,:]*)[;,:]\s+(\pL)`)

// nextLabel is where words follow a number, with or without a sign between, and
// may be the label of the next: "Bow height 21\" Stern height 18".
var nextLabel = regexp.MustCompile(`[\d"')\pL]\.?(?: -)? (\pL)`)

// numberGoesOn are words that belong to the number before them: "18 and a half
// inches. Carry point, 25". Half of a number is a wrong one.
var numberGoesOn = regexp.MustCompile(`(?i)^(?:(?:and|et) (?:an? |un |une |three )?(?:half|halves|demie?|quarts?|quarters?)|(?:a )?half|inch(?:es)?|ins?|feet|foot|ft|cm|mm|m|pouces?|po|pieds?|pi|cent\pL+|met(?:er|re)s?)\b`)

// parts divides a cell that lists several measures; the parts are items of
// their own, and what is not used of them is left over like any other.
func (s *sheet) parts(it *item) []*item {
	if stationLabel(it.folded).at != nil {
		return []*item{it} // "1 ft: hull girth"
	}
	texts := listed(parse.Plain(it.Text))
	if len(texts) < 2 {
		return []*item{it}
	}
	if l := labelOf(parse.Fold(texts[0])); l.meta == metaBoat || l.meta == metaCustomer {
		return []*item{it}
	}
	it.used = true
	var parts []*item
	for _, text := range texts {
		cell := it.Cell
		cell.Text = text
		part := newItem(cell, it.row, it.col)
		part.part = true
		parts = append(parts, part)
	}
	s.listed = append(s.listed, parts...)
	return parts
}

// listed cuts a text that lists several measures.
func listed(text string) []string {
	var out []string
	text = sentenceEnd.ReplaceAllString(listEnd.ReplaceAllString(text, "$1\t$2"), "$1\t$2")
	for _, t := range strings.Split(text, "\t") {
		start := 0
		for _, at := range nextLabel.FindAllStringSubmatchIndex(t, -1) {
			if numberGoesOn.MatchString(t[at[2]:]) {
				continue
			}
			if before := t[start:at[2]]; firstDigit(before) > 0 && (namesMeasure(before) || namesGirth(before)) && namesMeasure(t[at[2]:]) {
				out = append(out, strings.TrimRight(before, " -"))
				start = at[2]
			}
		}
		out = append(out, t[start:])
	}
	return withWords(out)
}

// withWords leaves the words after a number with it: "Bow height 18 1/2, on the
// floor, stern height 17" lists two measures.
func withWords(texts []string) []string {
	out := texts[:1]
	for _, t := range texts[1:] {
		if firstDigit(t) < 0 {
			out[len(out)-1] += ", " + t
		} else {
			out = append(out, t)
		}
	}
	return out
}

// namesMeasure reports a text that begins with the label of a number: of one
// that a boat has once, or of the greatest girth.
func namesMeasure(text string) bool {
	head := text[:max(firstDigit(text), 0)]
	l := labelOf(strings.TrimRight(parse.Fold(head), " :="))
	return l.measure != "" || l.group == groupGreatest
}

// namesGirth reports a text that begins with the label of a girth.
func namesGirth(text string) bool {
	return roleOf(strings.TrimRight(parse.Fold(text[:max(firstDigit(text), 0)]), " :=")).girth()
}

// closingNumber ends a part of a list: "hull girth 54 in" has its value there,
// and "hull girth at 54 in" its station.
var closingNumber = regexp.MustCompile(`(\pL+|[#@])\.? ?\d[^\pL]*(?:(?:in|cm|mm|ft|po|pi)\.?)?$`)

var placeBefore = regexp.MustCompile(`^(?:at|a|@|station|stn|st|#)$`)

// saysValue reports a part of a list that ends in its number.
func (it *item) saysValue() bool {
	m := closingNumber.FindStringSubmatch(it.folded)
	return it.part && m != nil && !placeBefore.MatchString(m[1])
}

var labelEnd = regexp.MustCompile(`[:=]`)

// newTag reads a cell as a label; a letter is one where the legend says so.
func (s *sheet) newTag(it *item) *tag {
	if m, ok := s.meaning(strings.Trim(it.folded, " :=.")); ok && it.word() {
		return &tag{item: it, role: m.role, scale: m.scale}
	}
	return newTag(it)
}

// newTag reads a cell as a label, alone or with its value: "Bow height",
// "Bow height: 18 1/2", "LOA 15' 9\"".
func newTag(it *item) *tag {
	if unitFirst.MatchString(it.folded) {
		return nil
	}
	text := parse.Plain(it.Text)
	head, tail := text, ""
	if m := labelEnd.FindStringIndex(text); m != nil {
		head, tail = text[:m[0]], strings.TrimSpace(text[m[1]:])
	} else if question, answer, ok := answered(text); ok {
		head, tail = question, answer
	} else if stationLabel(it.folded).at != nil && !it.saysValue() {
		head = text
	} else if i := firstDigit(text); i > 0 && (it.word() || it.part) && labelOf(parse.Fold(text[:i])).meta == "" {
		i = hedgeStart(text, i)
		head, tail = text[:i], trimTail(text[i:])
	}
	folded := strings.TrimSpace(strings.TrimRight(parse.Fold(head), " -.@"))
	if tail != "" && countEnd.MatchString(folded) {
		return nil // "thwart no. 2 sits 1 in below the edge"
	}
	t := &tag{item: it, label: labelOf(folded), scale: headingScale(folded), text: tail, distance: fromBow.MatchString(strings.TrimRight(text, " ,;."))}
	if l := stationLabel(folded); l.at != nil {
		t.label = l
		t.scale = headingScale(strings.TrimSpace(stationInLabel.ReplaceAllString(folded, "")))
	}
	if t.label.none() {
		t.role = roleOf(folded)
		if frenchAt.MatchString(strings.TrimSpace(head)) {
			t.role = roleStation
		}
		if !t.role.girth() && t.role != roleStation || len(folded) > longestLabel {
			return t.whole(text)
		}
	}
	if tail != "" && t.wantsNumber() {
		cell := it.Cell
		cell.Text = withoutBow(tail)
		if besideMeasure[t.measure] == fromBow {
			cell.Text = atPlace.ReplaceAllString(cell.Text, "")
		}
		t.inline = newItem(cell, it.row, it.col)
		if t.measure == parse.CarryPoint && ofThing.MatchString(t.inline.folded) {
			return nil // "rowing thwart, 8 in wide"
		}
		if !t.inline.value() {
			t.inline = nil
			if t.group == groupGreatest {
				if t.several = severalSaid(it, tail); len(t.several) > 0 {
					return t
				}
			}
			return t.whole(text)
		}
	}
	return t
}

// countEnd closes words of which one of several is told by its number.
var countEnd = regexp.MustCompile(`(?:\b(?:no|nr|num|numero|number)|n°|nº|#)$`)

// ofThing is a number that says how large the thing is, and not where.
var ofThing = regexp.MustCompile(`^[\d ./]+(?:["']|\pL+\.?)? (?:wide|thick|deep|high|long|de (?:large(?:ur)?|haut(?:eur)?|long(?:ueur)?)|d'epaisseur)\b`)

// frenchAt is the label of a place; without its accent it may be any letter.
var frenchAt = regexp.MustCompile(`^[àÀ]$`)

// answered parts "Hull girth at 3 ft? 44 in" at its question mark. One behind a
// number that is no place says that the number is not sure.
func answered(text string) (question, answer string, ok bool) {
	question, answer, ok = strings.Cut(text, "?")
	ok = ok && firstDigit(answer) >= 0 && (firstDigit(question) < 0 || stationLabel(parse.Fold(question)).at != nil)
	return question, strings.TrimSpace(answer), ok
}

// whole takes the entire text as a label when its head alone is none: "Girth
// at 3 ft, hull".
func (t *tag) whole(text string) *tag {
	folded := parse.Fold(text)
	if l := stationLabel(folded); l.at != nil {
		return &tag{item: t.item, label: l, scale: headingScale(strings.TrimSpace(stationInLabel.ReplaceAllString(folded, "")))}
	}
	if l := labelOf(folded); !l.none() {
		return &tag{item: t.item, label: l, scale: headingScale(folded)}
	}
	return nil
}

var stationInLabel = regexp.MustCompile(`(?:\b(?:at|a|@) \d+(?:[.,]\d+)?$|(?:station|stn|st\.|#)\s*#?\d+|\d+(?:[.,]\d+)?\s*(?:ft|feet|foot|'|in|inch(?:es)?|"|cm|mm|m|pi|pieds?)(?:[^a-z]|$))`)

// stationAt opens a place that has no unit: "at 300".
var stationAt = regexp.MustCompile(`^(?:at|a|@) `)

// stationLabel reads the label of one girth of one station: "Hull girth at
// 3 ft", "Station 4 full".
func stationLabel(s string) label {
	s = withoutBow(s)
	m := stationInLabel.FindString(s)
	if m == "" || strings.ContainsAny(strings.Replace(s, m, "", 1), "0123456789") {
		return label{}
	}
	rest := strings.TrimSpace(strings.Replace(s, m, " ", 1))
	measure := parse.Measure("")
	first, _, both := bothHeadings(rest)
	switch role := roleOf(rest); {
	case both && strings.HasPrefix(first, "hull"):
		measure = parse.MeasurePair // "Hull girth and full girth at 3 ft"
	case both:
		return label{}
	case role == roleHull:
		measure = parse.HullGirth
	case role == roleFull:
		measure = parse.FullGirth
	default:
		return label{}
	}
	name, f := parse.ParseStation(stationAt.ReplaceAllString(strings.Trim(m, " ,;:-()[]?"), ""))
	if f.Some() || greatestWords.MatchString(s) {
		return label{}
	}
	return label{measure: measure, at: &name}
}

var opensWithPlace = regexp.MustCompile(`^\d+(?:[.,]\d+)?\s*(?:ft|feet|foot|'|in|inch(?:es)?|"|cm|mm|m|pi|pieds?)\s*[:,;/-]\s*\pL`)

// placeFirst reports a label that begins with the place: "1 ft: hull girth".
func placeFirst(folded string) bool {
	return opensWithPlace.MatchString(folded) && stationLabel(folded).at != nil
}

func (t *tag) wantsNumber() bool {
	return t.measure != "" || t.group != "" || t.role != noRole || t.meta == metaSpacing || t.meta == metaTape
}

// hedgeStart moves the start of a number back over the words that make it rough,
// and belong to it and not to its label.
func hedgeStart(text string, i int) int {
	if at := parse.DoubtBefore(text[:i]); at > 0 {
		return at
	}
	return i
}

func firstDigit(text string) int {
	return strings.IndexFunc(text, unicode.IsDigit)
}

// fromBow closes a distance and says nothing more of it. The word "in" belongs
// to it after a unit only: "3 feet in from the bow", "22 in from the bow".
var fromBow = regexp.MustCompile(`(?i)(?:((?:feet|foot|ft|inches|inch|in|cm|mm|m|["'])\.?),? in\b)?[ ,]*\(?(?:\b(?:back|aft|measured) )?\b(?:(?:from|of|aft of|abaft) (?:the )?(?:tip of the )?(?:bow|stem|front|nose|prow|tip)|(?:du|de|depuis|[aà] partir (?:de|du)) ?(?:l'|la |le |du )?(?:pointe de (?:l'|la )|pointe |bout )?(?:[eé]trave|proue|avant|devant|nez))(?: end| tip| stem| point)?\)?$`)

// withoutBow leaves such words out.
func withoutBow(text string) string {
	return fromBow.ReplaceAllString(strings.TrimRight(text, " ,;."), "$1")
}

// trimTail drops what closes a label after its number.
func trimTail(text string) string {
	text = withoutBow(strings.TrimRight(text, " :;,."))
	text = strings.TrimRight(text, " :;,.")
	if strings.Count(text, ")") > strings.Count(text, "(") {
		text = strings.TrimRight(text, ")")
	}
	return text
}
