package table

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// beside returns the cell of words that answers a label: to its right, else
// under it.
func (s *sheet) beside(t *tag) *item {
	if t.text != "" {
		cell := t.Cell
		cell.Text = t.text
		return newItem(cell, t.row, t.col)
	}
	v := view{s, false}
	for c := t.col + 1; c < v.cols() && c <= t.col+reachAcross; c++ {
		it := v.at(t.row, c)
		if it.empty() {
			continue
		}
		if it.used || otherLabel(t, it) || it.value() && t.wordsOnly() || t.namesThing() && it.measured() {
			break
		}
		return it
	}
	it := v.at(t.row+1, t.col)
	if it.empty() || it.used || otherLabel(t, it) || it.asRole().girth() && s.nextTo(it).value() || it.value() && t.wordsOnly() || t.namesThing() && it.measured() || t.meta == metaUnit && s.ofNumber(it) {
		return &item{}
	}
	return it
}

// ofNumber reports the unit of the number to its left: the label above it heads
// a column of units.
func (s *sheet) ofNumber(it *item) bool {
	return it.col > 0 && s.items[it.row][it.col-1].value()
}

// wordsOnly reports a label whose answer is never a number.
func (t *tag) wordsOnly() bool {
	switch t.meta {
	case metaUnit, metaDeck, metaStern, metaSquare:
		return true
	}
	return false
}

// namesThing reports a label whose answer is a name, in which a number has no
// unit: the model of a boat.
func (t *tag) namesThing() bool { return t.meta == metaBoat || t.meta == metaCustomer }

// measured reports a number with its unit and nothing else.
func (it *item) measured() bool {
	return it.numeric && !it.fault.Some() && it.amount.Scale != parse.Bare
}

var sternShapes = regexp.MustCompile(`^(?:square|pointed|sharp|transom|carree?|pointue?|tableau)\b`)

// otherLabel reports a cell that is a label of something else, and so no
// answer to this one.
func otherLabel(t *tag, it *item) bool {
	if !it.word() {
		return false
	}
	l := it.asLabel()
	switch l.meta {
	case metaCustomer, metaUnit, metaOther:
		return true
	case metaBoat, metaDeck, metaStern, metaSquare:
		return t.meta != metaDeck && t.meta != metaStern && t.meta != metaSquare && l.meta != t.meta
	}
	return l.measure != "" || l.group != ""
}

var (
	yesWords  = regexp.MustCompile(`^(?:y|yes|oui|o|x|true|vrai|1|✓|✔|☑|☒|\[x\]|\(x\))$`)
	noWords   = regexp.MustCompile(`^(?:n|no|non|false|faux|0|not|undecked|open|ouverte?|☐|\[ ?\]|-)\b`)
	tickMarks = strings.NewReplacer("☒", "[x]", "☑", "[x]", "✓", "[x]", "✔", "[x]", "☐", "[ ]", "□", "[ ]", "(x)", "[x]", "( )", "[ ]", "[✓]", "[x]", "[]", "[ ]")
	ticked    = regexp.MustCompile(`\[x\]\s*([\pL]+)`)
)

// answer resolves ticks: of "[x] decked [ ] open" it keeps "decked".
func answer(text string) string {
	s := tickMarks.Replace(parse.Fold(text))
	if strings.Contains(s, "[") {
		if m := ticked.FindStringSubmatch(s); m != nil {
			return m[1]
		}
		if strings.TrimSpace(s) != "[x]" {
			return ""
		}
	}
	return strings.TrimSpace(s)
}

// readMeta reads what is no measure: names, the shape of the boat, the unit.
func (s *sheet) readMeta(t *tag, value *item) {
	text := strings.Join(strings.Fields(value.Text), " ")
	said := answer(value.Text)
	t.item.used = true
	switch t.meta {
	case metaOther:
	case metaCustomer:
		s.setText(metaCustomer, text)
	case metaBoat:
		s.setText(metaBoat, text)
	case metaUnit:
		scale := wordsScale(said)
		if value.empty() {
			scale = wordsScale(t.folded)
		}
		if scale != parse.Bare {
			s.found.declared = append(s.found.declared, scale)
		}
	case metaDeck:
		label := answer(t.folded)
		switch {
		case strings.Contains(tickMarks.Replace(t.folded), "[x]"):
			s.found.decked = s.found.decked || strings.HasPrefix(label, "deck") || strings.HasPrefix(label, "pont")
		case noWords.MatchString(said):
		case yesWords.MatchString(said) && !strings.Contains(t.folded, "open"), strings.HasPrefix(said, "deck"), strings.HasPrefix(said, "pont"):
			s.found.decked = true
		}
	case metaSquare:
		if yesWords.MatchString(said) || strings.HasPrefix(said, "square") {
			s.found.square = true
		}
		if strings.Contains(tickMarks.Replace(t.folded), "[x] square") {
			s.found.square = true
		}
	case metaStern:
		if strings.Contains(said, "square") || strings.Contains(said, "transom") || strings.Contains(said, "carre") || strings.Contains(said, "tableau") {
			s.found.square = true
		}
	}
	value.used = !t.wordsOnly() || !s.reportable(value)
}

func (s *sheet) setText(m meta, text string) {
	if text == "" || blankWords.MatchString(parse.Fold(text)) {
		return
	}
	if before := s.found.texts[m]; before != "" && !strings.Contains(before, text) {
		text = before + " " + text
	}
	s.found.texts[m] = text
}

var unitInWords = []struct {
	pattern *regexp.Regexp
	scale   parse.Scale
}{
	{regexp.MustCompile(`\b(?:inch|inches|pouces?)\b|^(?:in|ins|")\.?$|\((?:in|po)\)`), parse.ScaleInch},
	{regexp.MustCompile(`\b(?:cm|cms|centimet(?:re|er)s?)\b`), parse.ScaleCM},
	{regexp.MustCompile(`\b(?:mm|millimet(?:re|er)s?)\b`), parse.ScaleMM},
	{regexp.MustCompile(`\b(?:met(?:re|er)s)\b|^m$`), parse.ScaleM},
}

// wordsScale returns the one unit that a text names; Bare when it names none,
// or leaves a choice. Feet beside inches are inches.
func wordsScale(s string) parse.Scale {
	scale := parse.Bare
	for _, u := range unitInWords {
		if u.pattern.MatchString(s) {
			if scale != parse.Bare {
				return parse.Bare
			}
			scale = u.scale
		}
	}
	return scale
}

var sheetUnit = regexp.MustCompile(`\b(?:measure(?:ments|d|s)?|dimensions|figures|numbers|units?|girths|values|mesures?|cotes|dimensions|unites?|survey|releve|everything|tout)\b|^\(?(?:all )?(?:in|en) `)

// unitFirst is a unit that stands before all else that is said: "Inches. Every
// foot, station 1 is 1 ft from the bow."
var unitFirst = regexp.MustCompile(`^(?:inches|centimet(?:re|er)s|cm|pouces)\s?[.,;:!(-]`)

// readWords looks for the unit in sentences: "All measurements in inches".
func (s *sheet) readWords() {
	for _, row := range s.withComments() {
		for _, it := range row {
			if it.used || !it.word() || s.unitOver(it) || (!sheetUnit.MatchString(it.folded) || instruction.MatchString(it.folded)) && !unitFirst.MatchString(it.folded) {
				continue
			}
			if scale := wordsScale(it.folded); scale != parse.Bare && newTag(it) == nil {
				s.found.declared = append(s.found.declared, scale)
				it.used = true
			}
		}
	}
}

// unitOver reports the unit of the one column that it stands over, "in cm".
func (s *sheet) unitOver(it *item) bool {
	unit := strings.TrimPrefix(strings.TrimPrefix(it.folded, "in "), "en ")
	return unitOnly.MatchString(unit) && view{s, false}.at(it.row+1, it.col).value()
}

// instruction marks the printed words of a form, whose numbers are not the
// customer's.
var instruction = regexp.MustCompile(`\b(?:nearest|every|please|example|e\.g|eg|for instance|mesurer|chaque|svp|exemple|arrondir|instructions?|write|fill|return|page|\d+ of \d+|rev|version)\b|\b(?:measure|take|round|hold|keep) (?:the|to|from|at|your|each|both|under)\b`)
