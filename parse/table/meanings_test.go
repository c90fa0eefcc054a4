package table

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"fairtape/parse"
)

// meantSurvey is a sheet in plain words; each test puts a label of its own in
// place of the one of its meaning.
const meantSurvey = `Units|in
length|15 ft 9 in
bow|18 1/2 in
stern|17 in
carry|19 1/2 in
no length|
another length|
greatest heading|
greatest at|8 ft 1 in
greatest hull|52 1/2 in
greatest full|83 in
opening|30 1/2 in

station|hull|full
1 ft|35 1/2 in|42 in
2 ft|38 in|52 in
3 ft|40 in|56 in
8 ft|52 in|82 in
14 ft|36 in|42 in
transom heading|
transom hull|38 in
transom full|49 in
`

// plainWords are the labels that the survey has otherwise.
var plainWords = map[string]string{
	"length": "Length overall", "bow": "Bow height", "stern": "Stern height", "carry": "Carry point", "no length": "", "another length": "",
	"greatest heading": "Greatest girth", "greatest at": "Distance from bow", "greatest hull": "Hull girth", "greatest full": "Full girth", "opening": "Opening",
	"station": "Station", "hull": "Hull girth", "full": "Full girth",
	"transom heading": "Transom", "transom hull": "Hull girth", "transom full": "Full girth",
}

// aloneWords are labels that name their place themselves.
var aloneWords = map[string]string{
	"greatest at": "Greatest girth at", "greatest hull": "Greatest hull girth", "greatest full": "Greatest full girth",
	"transom hull": "Transom hull girth", "transom full": "Transom full girth",
}

// meantWith is the survey with a label in place of the plain one.
func meantWith(meaning, label string) Grid {
	var g Grid
	for _, line := range strings.Split(meantSurvey, "\n") {
		var row []Cell
		for _, text := range strings.Split(line, "|") {
			words, known := plainWords[text]
			if group, _, ok := strings.Cut(text, " "); ok && strings.HasPrefix(meaning, group+" ") && meaning != group+" heading" {
				words = aloneWords[text] // the heading is left out
			}
			switch {
			case text == meaning:
				text = label
			case known:
				text = words
			}
			row = append(row, Cell{Text: text, Place: fmt.Sprintf("%c%d", 'A'+len(row), len(g.Rows)+1)})
		}
		if row[0].Text == label && strings.HasSuffix(meaning, "length") && meaning != "length" {
			row[1].Text = "37"
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// labels reads the list of labels by their meaning.
func labels(t *testing.T) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/labels/labels.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	found := map[string][]string{}
	meaning := ""
	for lines := bufio.NewScanner(f); lines.Scan(); {
		switch line := strings.TrimSpace(lines.Text()); {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			meaning = strings.Trim(line, "[]")
		default:
			found[meaning] = append(found[meaning], line)
		}
	}
	return found
}

// said is what a survey says, number by number.
func said(doc parse.Document) map[string]string {
	all := map[string]string{}
	for _, s := range doc.Surveys {
		for _, m := range parse.OnceMeasures() {
			if r := s.Once(m); !r.Absent() {
				all[string(m)] = numberSaid(*r)
			}
		}
		for _, st := range s.Stations {
			at := st.At.In(parse.Inch)
			all[fmt.Sprintf("hull@%g", at)] = numberSaid(st.HullGirth)
			all[fmt.Sprintf("full@%g", at)] = numberSaid(st.FullGirth)
		}
	}
	return all
}

func numberSaid(r parse.Reading) string {
	if !r.Certain() {
		return "?"
	}
	return fmt.Sprint(r.Value.In(parse.Inch))
}

func TestMeanings(t *testing.T) {
	plain := said(Read("plain", []Grid{meantWith("", "")}))
	if len(plain) != 20 {
		t.Fatalf("%d numbers in the survey in plain words: %v", len(plain), plain)
	}
	for meaning, texts := range labels(t) {
		t.Run(meaning, func(t *testing.T) {
			t.Parallel()
			for _, label := range texts {
				doc := Read("labels", []Grid{meantWith(meaning, label)})
				got := said(doc)
				for key, want := range plain {
					if got[key] != want {
						t.Errorf("%q: %s is %q, want %s", label, key, got[key], want)
					}
				}
				for key := range got {
					if _, ok := plain[key]; !ok {
						t.Errorf("%q: %s is %s, and stands nowhere", label, key, got[key])
					}
				}
				if meaning != "another length" && len(doc.Problems) > 0 {
					t.Errorf("%q: problem %s: %s", label, doc.Problems[0].Code, doc.Problems[0].Message)
				}
			}
		})
	}
}

// togetherRight is how many of a hundred surveys with labels drawn by chance are
// read wholly.
const togetherRight = 97

// TestMeaningsTogether draws all labels of a survey: no number is taken for
// another, and hardly one is left.
func TestMeaningsTogether(t *testing.T) {
	const surveys = 300
	all := labels(t)
	r := rand.New(rand.NewPCG(1, 2))
	draw := func(meaning string) string { return pick(r, all[meaning]...) }
	plain := said(Read("plain", []Grid{meantWith("", "")}))
	right := 0
	for range surveys {
		text := drawnSurvey(r, draw)
		got, wrong, left := said(Read("labels", []Grid{grid(text)})), 0, 0
		for key, value := range got {
			if value != "?" && value != plain[key] {
				wrong++
				t.Errorf("%s is %s, want %s, in\n%s", key, value, plain[key], text)
			}
		}
		for key, value := range plain {
			if got[key] != value {
				left++
			}
		}
		if wrong+left == 0 {
			right++
		}
	}
	if 100*right < togetherRight*surveys {
		t.Errorf("%d of %d surveys are wholly right", right, surveys)
	}
}

// drawnSurvey writes the survey in plain words down with other labels.
func drawnSurvey(r *rand.Rand, draw func(meaning string) string) string {
	once := [][2]string{{draw("length"), "15 ft 9 in"}, {draw("bow"), "18 1/2 in"}, {draw("stern"), "17 in"}, {draw("carry"), "19 1/2 in"}}
	if r.IntN(2) == 0 {
		once = append(once, [2]string{draw("no length"), "37"})
	}
	if r.IntN(3) == 0 {
		once = append(once, [2]string{draw("another length"), "37 in"})
	}
	r.Shuffle(len(once), func(i, j int) { once[i], once[j] = once[j], once[i] })
	var b strings.Builder
	b.WriteString("Units|in\n")
	switch r.IntN(3) {
	case 0:
		for _, o := range once {
			fmt.Fprintf(&b, "%s|%s\n", o[0], o[1])
		}
	case 1:
		for _, o := range once {
			fmt.Fprintf(&b, "%s|%s\n", o[1], o[0])
		}
	default:
		var names, values []string
		for _, o := range once {
			names, values = append(names, o[0]), append(values, o[1])
		}
		b.WriteString(strings.Join(names, "|") + "\n" + strings.Join(values, "|") + "\n")
	}
	fmt.Fprintf(&b, "\n%s\n%s|8 ft 1 in\n%s|52 1/2 in\n%s|83 in\n%s|30 1/2 in\n", draw("greatest heading"), pick(r, "At", "Where", "Distance from bow", "Place", "À"), draw("hull"), draw("full"), draw("opening"))
	fmt.Fprintf(&b, "\n%s|%s|%s\n1 ft|35 1/2 in|42 in\n2 ft|38 in|52 in\n3 ft|40 in|56 in\n8 ft|52 in|82 in\n14 ft|36 in|42 in\n", draw("station"), draw("hull"), draw("full"))
	fmt.Fprintf(&b, "%s|38 in|49 in\n", pick(r, "Transom", "At transom", "Tableau", "Tableau arrière", "Transom (square)"))
	return b.String()
}
