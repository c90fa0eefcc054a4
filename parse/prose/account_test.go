package prose

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"fairtape/parse"
)

var digitRun = regexp.MustCompile(`\d+`)

// placeAlone is a line that names a place and says nothing of it.
var placeAlone = regexp.MustCompile(`^[a-z .,:;/|-]*\d+(?: \d/\d)? ?(?:ft|feet|'|in|cm|pi)?[a-z .,:;/|-]*$`)

// placeInTalk is a place in feet, which is no number of the survey where nothing
// is said of it.
var placeInTalk = regexp.MustCompile(`(\d+)(?: ?(?:ft|feet|pi)\b|')`)

// unaccounted returns the runs of digits in a body that holds a survey which
// end in no value, no problem, no station and no span of a known kind.
func unaccounted(text string) []string {
	m := Read("m.eml", text, "")
	if len(m.Document.Surveys) == 0 {
		return nil
	}
	said := map[string]bool{}
	say := func(s string) {
		for _, d := range digitRun.FindAllString(parse.Plain(s), -1) {
			said[d] = true
		}
	}
	reading := func(r parse.Reading) { say(r.Source.Raw) }
	for _, s := range m.Document.Surveys {
		for _, r := range []parse.Reading{s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint, s.Greatest.At, s.Greatest.HullGirth,
			s.Greatest.FullGirth, s.Greatest.Opening, s.Transom.HullGirth, s.Transom.FullGirth} {
			reading(r)
		}
		for _, st := range s.Stations {
			reading(st.HullGirth)
			reading(st.FullGirth)
			for _, n := range []float64{st.At.In(parse.Inch), st.At.In(parse.Inch) / 12, st.At.In(parse.Centimetre), float64(st.At), st.At.In(parse.Centimetre) / 100} {
				say(strconv.FormatFloat(n, 'f', -1, 64))
			}
			say(fmt.Sprint(int(st.At.In(parse.Inch))/12, int(st.At.In(parse.Inch))%12))
		}
	}
	for _, c := range m.Corrections {
		say(c.Source.Raw)
		for _, v := range c.Values {
			reading(v)
		}
		if c.Was != nil {
			reading(*c.Was)
		}
	}
	for _, p := range m.Document.Problems {
		say(p.Source.Raw)
		say(p.Message)
	}
	for _, d := range placeInTalk.FindAllStringSubmatch(parse.Fold(text), -1) {
		say(d[1])
	}
	own, _ := ownWords(textLines(text))
	var lost []string
	for _, l := range own {
		if placeAlone.MatchString(parse.Fold(l.text)) {
			continue
		}
		for _, it := range scan(unbullet(l.text)) {
			if !it.number {
				continue
			}
			for _, d := range digitRun.FindAllString(parse.Plain(it.text), -1) {
				if !said[d] {
					lost = append(lost, fmt.Sprintf("%s in %q", d, l.text))
				}
			}
		}
	}
	return lost
}

// TestAccount holds that every number of a survey ends as a value or in a
// problem: over the samples, over the styles, and over bodies of which lines
// were moved, cut and strewn with other words.
func TestAccount(t *testing.T) {
	var bodies []string
	for _, pattern := range []string{"../../testdata/mail/prose/*.txt", "../../testdata/read/*.txt"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			bodies = append(bodies, string(data))
		}
	}
	r := rand.New(rand.NewPCG(3, 4))
	for _, s := range styles {
		bodies = append(bodies, s.body(madeBoat(r)))
	}
	if len(bodies) < 60 {
		t.Fatalf("%d bodies", len(bodies))
	}
	for _, body := range bodies {
		for _, lost := range unaccounted(body) {
			t.Errorf("%s is lost of\n%s", lost, body)
		}
	}
	strew := []string{"and", "hull", "full", "44", "at 3 ft", "the bow", "61 1/2 in", "about 12", "stern", "around", "(see photo)", "not 37", "17,5", "carry", "widest", "transom 33", "-", ":", "/"}
	failed := 0
	rounds := 250
	if testing.Short() {
		rounds = 25
	}
	for range rounds {
		body := bodies[r.IntN(len(bodies))]
		lines := strings.Split(body, "\n")
		for range 1 + r.IntN(4) {
			i := r.IntN(len(lines))
			words := strings.Fields(lines[i])
			at := 0
			if len(words) > 0 {
				at = r.IntN(len(words))
			}
			switch r.IntN(4) {
			case 0:
				lines = append(lines[:i:i], lines[min(i+1, len(lines)):]...)
			case 1:
				j := r.IntN(len(lines))
				lines[i], lines[j] = lines[j], lines[i]
			default:
				words = append(words[:at:at], append([]string{strew[r.IntN(len(strew))]}, words[at:]...)...)
				lines[i] = strings.Join(words, " ")
			}
			if len(lines) == 0 {
				lines = []string{""}
			}
		}
		text := strings.Join(lines, "\n")
		for _, lost := range unaccounted(text) {
			if failed++; failed < 12 {
				t.Errorf("%s is lost of\n%s", lost, text)
			}
		}
	}
}
