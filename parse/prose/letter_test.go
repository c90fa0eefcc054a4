package prose

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
)

// filler types into the blanks of a letter, and keeps what it typed.
type filler struct {
	unit    parse.Unit
	next    float64
	tried   map[string][]float64 // "7 ft hull_girth": the tries
	answers []bool               // yes or no, in the order asked
	under   int
}

var (
	fieldLine    = regexp.MustCompile(`^(?:(\d+) (?:ft|cm)[,]?\s+)?(.*?)\s*(?:1st try|1er essai)`)
	allLine      = regexp.MustCompile(`^(\d+) (?:ft|cm)\s+(?:hull girth|tour de coque)\s____`)
	testMeasures = map[string]parse.Measure{
		"hull girth": parse.HullGirth, "full girth": parse.FullGirth, "tour de coque": parse.HullGirth, "tour complet": parse.FullGirth,
		"stern height": parse.SternHeight, "hauteur arrière": parse.SternHeight,
	}
)

// fill types into one line of a letter, lines of a question joined.
func (f *filler) fill(t *testing.T, text string) string {
	blank := func(s string) string { return strings.Replace(text, "____", s, 1) }
	number := func() string {
		f.next += 1.5
		if f.unit == parse.Centimetre {
			return strings.Replace(fmt.Sprintf("%.1f", f.next), ".", ",", 1)
		}
		return fraction(f.next)
	}
	plain := strings.Join(strings.Fields(text), " ")
	switch m := fieldLine.FindStringSubmatch(plain); {
	case !strings.Contains(text, "____"):
		return text
	case m != nil:
		measure, known := testMeasures[m[2]]
		if !known {
			t.Fatalf("what is %q in %q?", m[2], plain)
		}
		first := number()
		a := f.next
		text = blank(first)
		f.next -= 1
		text = blank(number())
		f.tried[strings.TrimSpace(m[1]+" "+string(measure))] = []float64{a, f.next}
		return text
	case allLine.MatchString(plain):
		at := allLine.FindStringSubmatch(plain)[1]
		text = blank(number())
		f.tried[at+" hull_girth"] = []float64{f.next}
		f.next += 20
		text = blank(number())
		f.tried[at+" full_girth"] = []float64{f.next}
		f.next -= 20
		return text
	case strings.Contains(plain, "under the tape") || strings.Contains(plain, "sous le ruban"):
		f.under++
		return blank("nothing there")
	case strings.Contains(plain, "?"):
		f.answers = append(f.answers, len(f.answers)%2 == 0)
		if f.answers[len(f.answers)-1] {
			return blank(map[parse.Unit]string{parse.Inch: "Yes, sorry", parse.Centimetre: "oui"}[f.unit])
		}
		return blank(map[parse.Unit]string{parse.Inch: "no", parse.Centimetre: "Non."}[f.unit])
	case strings.Contains(plain, "greatest girth") || strings.Contains(plain, "plus grand tour"):
		text = blank(number())
		f.tried["greatest.hull_girth"] = []float64{f.next}
		f.next += 20
		text = blank(number())
		f.tried["greatest.full_girth"] = []float64{f.next}
		f.next -= 20
		return text
	}
	for name, measure := range testMeasures {
		if strings.Contains(plain, name) {
			text = blank(number())
			f.tried[string(measure)] = []float64{f.next}
			return text
		}
	}
	t.Fatalf("what is asked for in %q?", plain)
	return ""
}

// ways are how a letter in plain text is answered.
var ways = map[string]func(letter, filled []string) string{
	"inside the quoted letter": func(_, filled []string) string {
		return "Hi,\n\nmy answers are below.\n\nOn Tue, Nov 24, 2026 at 9:12 AM Pinfold Cover Loft <orders@pinfold.example>\nwrote:\n\n> " + strings.Join(filled, "\n> ") + "\n"
	},
	"above the quoted letter": func(letter, filled []string) string {
		var above []string
		for i, l := range filled {
			if l != letter[i] {
				above = append(above, l)
			}
		}
		return strings.Join(above, "\n") + "\n\nOn Tue, Nov 24, 2026 at 9:12 AM Pinfold Cover Loft <orders@pinfold.example> wrote:\n> " + strings.Join(letter, "\n> ") + "\n"
	},
	"inside an unmarked letter": func(_, filled []string) string {
		return "See below.\n\nFrom: Pinfold Cover Loft <orders@pinfold.example>\nSent: Tuesday, November 24, 2026 9:12 AM\nTo: Ann Hollis\nSubject: Re: Survey of our canoe\n\n" + strings.Join(filled, "\n") + "\n"
	},
	"inside the quoted letter in French": func(_, filled []string) string {
		return "Bonjour,\n\nLe mar. 24 nov. 2026 à 09:12, Pinfold Cover Loft <orders@pinfold.example> a écrit :\n> " + strings.Join(filled, "\n> ") + "\n"
	},
}

// joinedLines are the lines of a letter, questions on one line each.
func joinedLines(letter string) []string {
	var out []string
	for _, l := range strings.Split(strings.TrimRight(letter, "\n"), "\n") {
		if n := len(out); n > 0 && strings.HasPrefix(l, "  ") && strings.HasPrefix(out[n-1], "- ") {
			out[n-1] += "\n" + l
			continue
		}
		out = append(out, l)
	}
	return out
}

// TestLetters fills every letter and reads the answers back.
func TestLetters(t *testing.T) {
	files, err := filepath.Glob("../../testdata/letter/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("there are no letters: ", err)
	}
	filledIn := 0
	for _, file := range files {
		letter, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := joinedLines(string(letter))
		for name, way := range ways {
			t.Run(filepath.Base(file)+" "+name, func(t *testing.T) {
				f := fillerFor(file)
				var filled, asked []string
				for _, l := range lines {
					filled = append(filled, strings.Split(f.fill(t, l), "\n")...)
					asked = append(asked, strings.Split(l, "\n")...)
				}
				filledIn += len(f.tried)
				if name == "above the quoted letter" { // a question is copied whole
					filled, asked = nil, nil
					f = fillerFor(file)
					for _, l := range lines {
						filled = append(filled, strings.ReplaceAll(f.fill(t, l), "\n  ", " "))
						asked = append(asked, strings.ReplaceAll(l, "\n  ", " "))
					}
				}
				f.check(t, Read("m.eml", way(asked, filled), ""))
				untouched := Read("m.eml", way(asked, asked), "")
				if len(untouched.Corrections)+len(untouched.Confirmations)+len(untouched.Document.Surveys) > 0 || untouched.UnderTape != "" {
					t.Errorf("nothing was filled in, and this was read:\n%s", describe(untouched))
				}
			})
		}
	}
	if filledIn < 100 {
		t.Errorf("%d numbers were filled in, want 100 or more", filledIn)
	}
}

var (
	htmlBlank = regexp.MustCompile(`(?s)<(?:p|li)[^>]*>(?:[^<]|<(?:strong|span|/strong|/span)[^>]*>)*____.*?</(?:p|li)>`)
	htmlTag   = regexp.MustCompile(`<[^>]*>`)
)

// TestLettersInHTML fills the HTML part, inside the quoted letter.
func TestLettersInHTML(t *testing.T) {
	files, err := filepath.Glob("../../testdata/letter/*.html")
	if err != nil || len(files) == 0 {
		t.Fatal("there are no letters: ", err)
	}
	frames := map[string]string{
		"block quote":  `<div dir="ltr">Filled in below.</div><br><div class="gmail_quote"><div dir="ltr" class="gmail_attr">On Tue, Nov 24, 2026 Pinfold wrote:<br></div><blockquote class="gmail_quote" style="margin:0 0 0 .8ex">%s</blockquote></div>`,
		"below a rule": `<div>Filled in below.</div><div id="appendonsend"></div><hr><div id="divRplyFwdMsg"><b>From:</b> Pinfold</div>%s`,
	}
	for _, file := range files {
		letter, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for name, frame := range frames {
			t.Run(filepath.Base(file)+" "+name, func(t *testing.T) {
				f := fillerFor(file)
				filled := htmlBlank.ReplaceAllStringFunc(string(letter), func(s string) string {
					text := htmlTag.ReplaceAllString(strings.ReplaceAll(s, "&#8194;", " "), "")
					done := strings.Fields(f.fill(t, text))
					return "<p>" + strings.Join(done, " ") + "</p>"
				})
				f.check(t, Read("m.eml", "", fmt.Sprintf(frame, filled)))
				if untouched := Read("m.eml", "", fmt.Sprintf(frame, letter)); len(untouched.Corrections)+len(untouched.Confirmations)+len(untouched.Document.Surveys) > 0 {
					t.Errorf("nothing was filled in, and this was read:\n%s", describe(untouched))
				}
			})
		}
	}
}

func fillerFor(file string) *filler {
	f := &filler{unit: parse.Inch, next: 30, tried: map[string][]float64{}}
	if strings.Contains(file, "-fr.") {
		f.unit, f.next = parse.Centimetre, 80
	}
	return f
}

func (f *filler) check(t *testing.T, m Mail) {
	t.Helper()
	got := map[string][]float64{}
	for _, c := range m.Corrections {
		key := string(c.Cell.Measure)
		if c.Placed {
			at := c.Cell.At.In(f.unit)
			if f.unit == parse.Inch {
				at /= 12
			}
			key = fmt.Sprintf("%g %s", at, c.Cell.Measure)
		}
		for _, v := range c.Values {
			got[key] = append(got[key], v.Value.In(f.unit))
		}
	}
	for key, want := range f.tried {
		if !slices.Equal(got[key], want) {
			t.Errorf("%s: the tries are %v, want %v", key, got[key], want)
		}
		delete(got, key)
	}
	for key, values := range got {
		t.Errorf("%s: %v was never typed", key, values)
	}
	var yes []bool
	for _, c := range m.Confirmations {
		if c.Yes == c.No {
			t.Errorf("%q is neither yes nor no", c.Text)
		}
		yes = append(yes, c.Yes)
	}
	if !slices.Equal(yes, f.answers) {
		t.Errorf("the answers are %v, want %v", yes, f.answers)
	}
	if n := strings.Count(m.UnderTape, "nothing there"); n != f.under {
		t.Errorf("%d of %d answers about what is under the tape: %q", n, f.under, m.UnderTape)
	}
	readings := 0
	for _, s := range m.Document.Surveys {
		readings += s.Readings()
		if s.Unit != f.unit {
			t.Errorf("the survey is in %q", s.Unit)
		}
	}
	if readings != len(f.tried) {
		t.Errorf("%d numbers in the survey, want %d", readings, len(f.tried))
	}
	for _, p := range m.Document.Problems {
		if p.Code == CodeQuoted && len(f.tried) == 0 {
			continue // there is nothing to type into this letter
		}
		t.Errorf("problem %s %q: %s", p.Code, p.Source.Raw, p.Message)
	}
}
