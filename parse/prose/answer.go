package prose

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Confirmation is the answer to a yes-or-no question of a letter of ours.
type Confirmation struct {
	Slip     string     // the kind of slip that was asked about, as findings name it; "" for a question about the boat
	Boat     bool       // whether the boat has something special there
	Cell     parse.Cell // the place and measure, as far as the question names them
	Placed   bool       // the question names a station, so Cell.At counts
	Yes, No  bool       // neither when the words leave it open
	Text     string     // what was answered, as written
	Question string     // what was asked, as it stands in the mail
	Source   parse.Source

	lines []line
}

// The questions of our letters, by words that each has alone.
var letterQuestions = []struct {
	slip  string
	words *parse.Pattern
}{
	{"decimal-lost", parse.NewPattern(`is a decimal point missing ?\?|manque-t-il une virgule ?\?`)},
	{"feet-inches-joined", parse.NewPattern(`feet and inches written together ?\?|pieds et des pouces ecrits ensemble ?\?`)},
	{"swapped-pair", parse.NewPattern(`have the two changed places ?\?|les deux ont-ils change de place ?\?`)},
	{"row-repeated", parse.NewPattern(`was the line written twice ?\?|la ligne est-elle ecrite deux fois ?\?`)},
	{"row-skipped", parse.NewPattern(`was a station passed over.*\?|une station a-t-elle ete sautee.*\?`)},
	{"metric-edge", parse.NewPattern(`from the other edge of the tape ?\?|sur l'autre bord du ruban ?\?`)},
	{"from-stern", parse.NewPattern(`counted from the stern ?\?|comptees depuis l'arriere ?\?`)},
	{"opening-for-full", parse.NewPattern(`only the way straight across the opening ?\?|seulement la traversee de l'ouverture ?\?`)},
	{"half-girth", parse.NewPattern(`only as far as the keel ?\?|seulement jusqu'a la quille ?\?`)},
	{"tape-offset", parse.NewPattern(`begin at another number than 0.*\?|a un autre nombre que 0.*\?`)},
	{"tape-length", parse.NewPattern(`the tape shorter than the girth.*\?|plus court que le tour.*\?`)},
	{"", parse.NewPattern(`anything special about the boat.*\?|quelque chose de particulier.*\?`)},
}

var (
	saysYes = parse.NewPattern(`^(?:yes|y|yep|yeah|oui|o|si|right|correct|exact(?:ement|ly)?|indeed|true|vrai|d'accord|ok)\b`)
	saysNo  = parse.NewPattern(`^(?:no|n|nope|non|not|nothing|rien|none|aucun|pas)\b`)
)

// questionOf reads a question of a letter with what was typed after it.
func questionOf(text string, own bool) (Confirmation, bool) {
	folded := foldSame(text)
	for _, q := range letterQuestions {
		at := q.words.FindStringIndex(folded)
		if at == nil || own && !strings.Contains(text[:runesToBytes(text, folded, at[1])], ":") && q.slip != "from-stern" && q.slip != "row-skipped" {
			continue
		}
		// The question ends at its own mark; an answer may ask something too.
		end := at[0] + strings.Index(folded[at[0]:at[1]], "?") + 1
		cut := runesToBytes(text, folded, end)
		c := Confirmation{Slip: q.slip, Boat: q.slip == "", Question: strings.TrimSpace(text[:cut]), Text: typed(text[cut:]).text}
		head, _, _ := strings.Cut(folded[:at[0]], ":")
		c.Cell, c.Placed = cellNamed(head)
		if q.slip == "swapped-pair" {
			c.Cell.Measure = parse.MeasurePair
		}
		return c, true
	}
	return Confirmation{}, false
}

var headPlace = parse.NewPattern(`\d+(?:[.,]\d+)?\s*(?:ft|in|cm|pi|po)(?:\s*\d+(?:\s\d/\d)?\s*(?:in|po))?\b`)

func cellNamed(head string) (parse.Cell, bool) {
	var cell parse.Cell
	placed := false
	if m := headPlace.FindString(head); m != "" {
		if at, fault := stationNamed(m); !fault {
			cell.At, placed = at.amount.Length(parse.ScaleInch)
		}
	}
	for _, n := range letterNames {
		if strings.HasSuffix(strings.Trim(head, " ,"), n.name) {
			cell.Measure = n.measure
			break
		}
	}
	return cell, placed
}

// confirm notes the answer to a question. A number in it is an answer too:
// "yes, 46".
func (r *reader) confirm(c Confirmation) {
	s := parse.Fold(c.Text)
	c.Yes, c.No = saysYes.MatchString(s), saysNo.MatchString(s)
	r.confirmations = append(r.confirmations, c)
	b := typed(c.Text)
	if len(b.nums) == 0 {
		return
	}
	station := c.Cell.Measure == parse.HullGirth || c.Cell.Measure == parse.FullGirth
	whole := c.Cell.Measure != "" && !station && c.Cell.Measure != parse.MeasurePair
	if len(b.nums) == 1 && !b.nums[0].fault.Some() && !c.Boat && (whole || station && c.Placed) {
		f := field{name: placeName{measure: c.Cell.Measure}, order: []parse.Measure{c.Cell.Measure}}
		if station {
			at := headPlace.FindString(foldSame(c.Question))
			f.name.at, _ = stationNamed(at)
		}
		f.blanks = map[parse.Measure][]blank{c.Cell.Measure: {{text: b.nums[0].text, nums: b.nums}}}
		r.filled(f, letterLine{text: c.Question + " " + c.Text, lines: c.lines, own: true})
		return
	}
	for _, n := range b.nums {
		r.problem(parse.CodeUnplaced, c.Source.Place, strings.TrimSpace(n.text), "A number is written beside the answer to a question.")
	}
}

// under notes what was under the tape, and reports whether anything is said.
func (r *reader) under(l letterLine, b blank) bool {
	if b.empty() {
		return false
	}
	said := b.text
	if m := underTape.FindStringSubmatch(l.text); m != nil && strings.TrimSpace(m[1]) != "" {
		said = strings.TrimSpace(m[1]) + ": " + said
	}
	r.tape = append(r.tape, said)
	return true
}

// fillBelow takes the numbers on a line of its own for the blanks above it.
func (r *reader) fillBelow(f field, l letterLine) bool {
	words, nums, ok := weave(scan(tryMark.ReplaceAllString(l.text, " ")))
	if !ok || !onlyJoined.MatchString(parse.Fold(strings.Join(words, " "))) {
		return false
	}
	switch {
	case len(f.order) == 1:
		var list []blank
		for _, n := range nums {
			list = append(list, blank{n.text, []item{n}})
		}
		f.blanks = map[parse.Measure][]blank{f.order[0]: list}
	case len(f.order) == len(nums):
		f.blanks = map[parse.Measure][]blank{}
		for i, m := range f.order {
			f.blanks[m] = []blank{{nums[i].text, nums[i : i+1]}}
		}
	default:
		return false
	}
	if len(nums) > triesMost {
		return false
	}
	r.filled(f, l)
	return true
}

// triesMost is how many tries a letter has blanks for.
const triesMost = 3

var onlyJoined = parse.NewPattern(`^(?:[\s,;:/|=\-().>]|and|et|then|puis|both times|twice|both|each time|les deux fois)*$`)

// sameTry is how far two tries of one number may lie apart, in millimetres: half
// an inch, as the letters say (common practice), and a hair for the arithmetic.
const sameTry = 12.7 + 1e-3

// filled hands over the numbers typed into the blanks of one line: each measure
// as an answer with every try, and for the survey as one number where the tries
// agree.
func (r *reader) filled(f field, l letterLine) {
	sentence := strings.Join(strings.Fields(l.text), " ")
	where := l.place()
	var row []table.Cell
	for _, m := range f.order {
		tries, same, clear := r.triesIn(f.blanks[m], where)
		if !clear || len(tries) == 0 && !same {
			continue
		}
		c := Correction{Cell: parse.Cell{Measure: m}, Same: same, Sentence: sentence, Source: parse.Source{File: r.file, Place: where}}
		if f.name.at != nil {
			c.Cell.At, c.Placed = f.name.at.amount.Length(parse.ScaleInch)
		}
		raw := rawOf(tries)
		c.Source.Raw = raw
		for _, t := range tries {
			v := r.reading(t)
			v.Source = parse.Source{File: r.file, Place: where, Raw: raw}
			c.Values = append(c.Values, v)
		}
		r.corrections = append(r.corrections, c)
		if len(tries) == 0 {
			continue
		}
		cell := r.settled(tries, where)
		switch m {
		case parse.HullGirth:
			row = []table.Cell{{Text: f.name.at.text, Place: where}, cell, {Place: where}}
		case parse.FullGirth:
			if row == nil {
				row = []table.Cell{{Text: f.name.at.text, Place: where}, {Place: where}, cell}
			} else {
				row[2] = cell
			}
		default:
			r.keyed = append(r.keyed, []table.Cell{{Text: gridNames[m], Place: where}, cell})
		}
	}
	if row != nil {
		r.pair(row)
	}
}

// gridNames are the labels by which a grid knows the measures.
var gridNames = map[parse.Measure]string{
	parse.LengthOverall:     "length overall",
	parse.BowHeight:         "bow height",
	parse.SternHeight:       "stern height",
	parse.CarryPoint:        "carry point",
	parse.GreatestAt:        "greatest girth at",
	parse.GreatestHullGirth: "greatest hull girth",
	parse.GreatestFullGirth: "greatest full girth",
	parse.GreatestOpening:   "greatest opening there",
	parse.TransomHullGirth:  "transom hull girth",
	parse.TransomFullGirth:  "transom full girth",
}

// triesIn are the numbers in the blanks of one measure. A blank that cannot be
// read is a problem, and then none of them counts.
func (r *reader) triesIn(blanks []blank, where string) (tries []item, same, clear bool) {
	clear = true
	for _, b := range blanks {
		switch {
		case b.empty():
		case len(b.nums) == 1 && !b.nums[0].fault.Some():
			tries = append(tries, b.nums[0])
		case len(b.nums) == 0 && sameWords.MatchString(parse.Fold(b.text)), len(b.nums) == 0 && stillWords.MatchString(parse.Fold(b.text)):
			same = true
		case len(b.nums) == 0:
			r.problem(parse.CodeNotALength, where, b.text, "Words stand in a blank where a number was asked for.")
		case len(b.nums) == 1:
			r.problem(b.nums[0].fault.Code, where, b.text, b.nums[0].fault.Message)
			clear = false
		default:
			r.problem(parse.CodeSeveralNumbers, where, b.text, "Several numbers stand in one blank.")
			clear = false
		}
	}
	if !clear {
		for _, t := range tries {
			r.problem(parse.CodeSecondTry, where, strings.TrimSpace(t.text), "Another try of this number could not be read.")
		}
	}
	return tries, same, clear
}

// settled is the cell of several tries: the middle one where they agree, else
// all of them, which no reader takes for a length.
func (r *reader) settled(tries []item, where string) table.Cell {
	sorted := slices.Clone(tries)
	length := func(n item) float64 {
		l, _ := n.amount.Length(r.bareScale())
		return float64(l)
	}
	slices.SortFunc(sorted, func(a, b item) int { return cmp.Compare(length(a), length(b)) })
	c := table.Cell{Text: strings.TrimSpace(sorted[(len(sorted)-1)/2].text), Place: where, Scale: r.bareScale(), Raw: rawOf(tries)}
	if math.Abs(length(sorted[len(sorted)-1])-length(sorted[0])) > sameTry {
		c.Text, c.Code = rawOf(tries), parse.CodeSecondTry
	}
	return c
}

func rawOf(tries []item) string {
	var texts []string
	for _, t := range tries {
		texts = append(texts, strings.TrimSpace(t.text))
	}
	return strings.Join(texts, " / ")
}

// bareScale is what a number without a unit is counted in by itself: what the
// letter that it answers is in, else inches.
func (r *reader) bareScale() parse.Scale {
	if r.scale == parse.Bare {
		return parse.ScaleInch
	}
	return r.scale
}
