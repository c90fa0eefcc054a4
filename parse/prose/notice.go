package prose

import (
	"slices"
	"strings"

	"fairtape/parse"
)

// Notice is a sentence about a number that stands somewhere else, above in the
// same mail or in a file that came with it: "the full girth at 7 ft should be
// 87, not 107", "I am not sure about the bow height". [Heed] finds the number.
type Notice struct {
	Sentence string
	Source   parse.Source
}

// told is a sentence of a body and the lines that it stands on.
type told struct {
	text     string
	first, n int // the first line, by its index, and how many are joined there
}

// notice is a Notice with the sentences that it is made of.
type notice struct {
	Notice
	parts []told
}

// What people say of a number that they put right, and of one that they want to
// take again, beside the words of doubt. All texts are folded.
var (
	putsRight = parse.NewPattern(`\b(?:should have said|correction|correct(?:ed|ing)?|slip of the (?:pen|finger)|was a slip|in place of|rather than|not \d+|(?:please )?(?:read|change|replace) (?:the |it )?\d+|make (?:that|it) \d+|(?:i|we) meant|meant to|actually|really is|is really|(?:i|we) (?:had )?(?:wrote|typed|put) (?:down )?\d+|(?:measured|took|taken|checked|did|done) .{0,40}\bagain|re-?(?:measured|checked|taken|did|done|took)|now (?:get|got|is|reads?)|` +
		`corrige[rz]?|corrigee?s?|et (?:non|pas) (?:pas )?(?:de )?\d+|doit (?:etre|se lire)|il faut (?:lire|mettre)|lire|voulais (?:ecrire|dire|mettre)|(?:j'ai|j'avais) (?:ecrit|mis|tape) \d+|remesuree?s?|reprise?s?)\b`)
	takesAgain = parse.NewPattern(`\b(?:scrap|too (?:much|many|long|large|big|high|low|short|small|little|tight|loose)|(?:be|is|was) (?:a (?:bit|little) |an inch |slightly )?(?:off|out)|might|may be|(?:will|must|have to|need to|going to|'ll) (?:take|measure|check|do|re-?measure|re-?check)|(?:measure|check|take|do) .{0,30}\bagain|` +
		`(?:vais|dois|faut) (?:le |la |les )?(?:remesurer|reprendre|verifier|refaire)|trop (?:grand|petit|long|court|haut|bas|serre|lache)\w*)\b`)
	// goesOnWith opens a sentence about what the one before speaks of.
	goesOnWith = parse.NewPattern(`^(?:it|that|this|the (?:right|correct|true|real|proper)(?: (?:one|number|figure|value|girth|height))?|should|please|correct(?:ed|ion)?|instead|read|make|il|elle|ce(?:la)?|c'est|ca|la (?:bonne|vraie)(?: (?:mesure|valeur))?|le (?:bon|vrai)(?: chiffre| nombre)?|lire)\b`)
	// wishes speak of no number in particular.
	wishes = parse.NewPattern(`\b(?:i hope|hopefully|let me know|in case|if (?:there|any|something|anything|you|it|they|the|one)|j'espere|dites-moi|au cas ou|si (?:vous|quelque|une?|le|la))\b`)
)

// mostOfNotice is how many numbers a sentence about one number has at most.
const mostOfNotice = 6

// notices finds the sentences of a body that may be notices.
func notices(file string, lines []line) []notice {
	var found []notice
	before := -1 // the index of the notice that the last sentence belongs to
	for _, t := range tellings(lines) {
		f := parse.Fold(t.text)
		switch {
		case before >= 0 && goesOnWith.MatchString(f) && len(numbersOf(t.text)) <= mostOfNotice:
			found[before].Sentence += "; " + t.text
			found[before].parts = append(found[before].parts, t)
			continue
		case (mends(f) || parse.Doubts(f) || takesAgain.MatchString(f)) && !wishes.MatchString(f) && len(numbersOf(t.text)) <= mostOfNotice:
			place := lines[t.first].place()
			found = append(found, notice{Notice{t.text, parse.Source{File: file, Place: place, Raw: t.text}}, []told{t}})
			before = len(found) - 1
		default:
			before = -1
		}
	}
	return found
}

// mends reports words that say that a number is another than the one written.
func mends(folded string) bool { return parse.SaysWrong(folded) || putsRight.MatchString(folded) }

// wavers reports words that leave open what it is.
func wavers(folded string) bool { return parse.Wavers(folded) || takesAgain.MatchString(folded) }

func numbersOf(text string) []item {
	_, nums, _ := weave(scan(figures(text)))
	return nums
}

// tellings cuts lines that are no rows of a table into sentences.
func tellings(lines []line) []told {
	var all []told
	for i := 0; i < len(lines); {
		if lines[i].blank() || split(lines[i]) != nil {
			i++
			continue
		}
		text, n := lines[i].text, 1
		for i+n < len(lines) && goesOnBelow(lines[i+n-1], lines[i+n]) && !alike(lines[i], lines[i+n]) {
			text += " " + strings.TrimSpace(lines[i+n].text)
			n++
		}
		for _, s := range cut(unbullet(text)) {
			all = append(all, told{s, i, n})
		}
		i += n
	}
	return all
}

// withoutNotices takes the sentences of notices out of the lines.
func withoutNotices(lines []line, found []notice) []line {
	gone := map[told]bool{}
	for _, n := range found {
		for _, t := range n.parts {
			gone[t] = true
		}
	}
	touched, kept := map[int]bool{}, map[int][]string{}
	skip := map[int]bool{}
	for _, t := range tellings(lines) {
		if gone[t] {
			touched[t.first] = true
			for i := range t.n {
				skip[t.first+i] = true
			}
			continue
		}
		kept[t.first] = append(kept[t.first], t.text)
	}
	var out []line
	for i, l := range lines {
		switch {
		case touched[i] && len(kept[i]) > 0:
			l.text = strings.Join(kept[i], " ")
			out = append(out, l)
		case !skip[i]:
			out = append(out, l)
		}
	}
	return out
}

// heed reads lines, and what notices among them say of the numbers on the others.
func (r *reader) heed(lines []line) (*reader, parse.Document, []Notice) {
	fresh := reader{file: r.file, scale: r.scale}
	with, doc := r.survey(lines)
	found := notices(r.file, lines)
	var all []Notice
	for _, n := range found {
		all = append(all, n.Notice)
	}
	if r.answering {
		return with, doc, all
	}
	about := slices.DeleteFunc(slices.Clone(found), func(n notice) bool { return !n.aboutOthers(doc) })
	if len(about) == 0 {
		// A sentence that says plainly what takes the place of what may have hidden
		// what the other lines say.
		about = slices.DeleteFunc(slices.Clone(found), func(n notice) bool { return !mends(parse.Fold(n.Sentence)) })
		if len(about) == 0 {
			return with, doc, all
		}
	}
	again := fresh
	without, rest := again.survey(withoutNotices(lines, about))
	about = slices.DeleteFunc(about, func(n notice) bool { return !n.aboutOthers(doc) && !n.plain(rest) })
	if len(about) == 0 {
		return with, doc, all
	}
	apart := stands(rest, doc, about)
	if apart {
		with, doc = without, rest
	}
	for _, n := range about {
		n.heed(&doc, apart)
	}
	return with, doc, all
}

// plain reports a notice that says plainly what takes the place of what.
func (n Notice) plain(doc parse.Document) bool {
	return len(doc.Surveys) == 1 && n.meant(&doc.Surveys[0]).value != nil
}

// survey reads lines into what they say.
func (r *reader) survey(lines []line) (*reader, parse.Document) {
	r.read(lines)
	return r.forced(lines, r.document())
}

// stands reports that a document keeps all that another says for sure outside
// the sentences of notices: none of those was part of a list.
func stands(doc, was parse.Document, about []notice) bool {
	if len(was.Surveys) != 1 || len(doc.Surveys) != 1 {
		return false
	}
	said := surely(doc)
	for _, p := range written(&was.Surveys[0]) {
		if !p.Certain() || slices.ContainsFunc(about, func(n notice) bool { return n.holds(p.Reading) }) {
			continue
		}
		if v, ok := said[p.cell]; !ok || v != p.Value {
			return false
		}
	}
	return true
}

// holds reports that a reading stands in the sentence of the notice.
func (n Notice) holds(r *parse.Reading) bool {
	return r.Source.File == n.Source.File && r.Source.Place == n.Source.Place
}

// aboutOthers reports a notice about numbers of other lines. A sentence that
// gives a number which no other line has is no notice, but a row, where it does
// not say plainly what takes the place of what.
func (n Notice) aboutOthers(doc parse.Document) bool {
	if len(doc.Surveys) != 1 {
		return false
	}
	s := &doc.Surveys[0]
	if n.plain(doc) {
		return true
	}
	elsewhere := map[parse.Cell]bool{}
	all := written(s)
	for _, p := range all {
		if !n.holds(p.Reading) {
			elsewhere[p.cell] = true
		}
	}
	for _, p := range all {
		if n.holds(p.Reading) && !elsewhere[p.cell] {
			return false
		}
	}
	return len(n.meant(s).cells) > 0
}

// numberOf is one number of a survey and what it is.
type numberOf struct {
	cell parse.Cell
	*parse.Reading
}

// written lists the numbers of a survey that somebody wrote.
func written(s *parse.Survey) []numberOf {
	var all []numberOf
	add := func(c parse.Cell, r *parse.Reading) {
		if !r.Absent() {
			all = append(all, numberOf{c, r})
		}
	}
	for _, m := range parse.OnceMeasures() {
		add(parse.Cell{Measure: m}, s.Once(m))
	}
	for i := range s.Stations {
		st := &s.Stations[i]
		add(parse.Cell{At: st.At, Measure: parse.HullGirth}, &st.HullGirth)
		add(parse.Cell{At: st.At, Measure: parse.FullGirth}, &st.FullGirth)
	}
	return all
}
