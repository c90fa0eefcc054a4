package form

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	ledongthuc "github.com/ledongthuc/pdf"
	"github.com/pdfcpu/pdfcpu/pkg/api"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/pdf"
)

// filled types into a form, as a viewer does: words and figures by the name of
// the field, "x" for a tick.
func filled(t *testing.T, file []byte, values map[string]string) []byte {
	t.Helper()
	type entry map[string]any
	var texts, ticks []entry
	for name, value := range values {
		if value == "x" {
			ticks = append(ticks, entry{"name": name, "value": true})
		} else {
			texts = append(texts, entry{"name": name, "value": value})
		}
	}
	data, err := json.Marshal(entry{"forms": []entry{{"textfield": texts, "checkbox": ticks}}})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := api.FillForm(bytes.NewReader(file), bytes.NewReader(data), &out, configuration()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestTypedForm types a survey into a form and reads it back.
func TestTypedForm(t *testing.T) {
	cache := t.TempDir()
	for _, tt := range []struct {
		unit     parse.Unit
		spacing  parse.Length
		language string
	}{{parse.Inch, 0, "en"}, {parse.Inch, parse.Inches(6), "fr"}, {parse.Centimetre, 0, "fr"}} {
		unit := tt.unit
		t.Run(fmt.Sprint(unit, tt.spacing, tt.language), func(t *testing.T) {
			file, l, err := PDF(form.Spec{Paper: form.Letter, Unit: unit, Spacing: tt.spacing, Rows: 25, Job: 14}, Words{Language: tt.language})
			if err != nil {
				t.Fatal(err)
			}
			values := map[string]string{"customer": "Ruth Amberley", "boat": "Home-built 15 footer", "under_cover": "two seats", "decked": "x", "stern.square": "x", "tape_checked": "x"}
			want := map[parse.Cell]map[form.Part]int{}
			for i, f := range l.Fields {
				if f.Part == "" {
					continue
				}
				if want[f.Cell] == nil {
					want[f.Cell] = map[form.Part]int{}
				}
				n := i % 12
				if f.Part == form.Whole {
					n += 30
				}
				if f.Part == form.Half {
					if n = i / 2 % 2; n == 1 {
						values[fieldName(f)] = "x"
					}
				} else {
					values[fieldName(f)] = fmt.Sprint(n)
				}
				want[f.Cell][f.Part] = n
			}
			reader := pdf.Reader{Cache: cache}
			doc, err := reader.Read(context.Background(), "form.pdf", filled(t, file, values))
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range doc.Problems {
				t.Errorf("problem %s at %s: %s (%s)", p.Code, p.Source.Place, p.Message, p.Source.Raw)
			}
			if len(doc.Surveys) != 1 {
				t.Fatalf("there are %d surveys", len(doc.Surveys))
			}
			s := doc.Surveys[0]
			if s.Unit != unit || !s.Decked || s.Stern != parse.Square || s.Customer != "Ruth Amberley" || s.Boat != "Home-built 15 footer" {
				t.Errorf("the form is read as %q, decked %v, %s, %q, %q", s.Unit, s.Decked, s.Stern, s.Customer, s.Boat)
			}
			got := map[parse.Cell]parse.Reading{}
			for m, r := range map[parse.Measure]parse.Reading{
				parse.LengthOverall: s.LengthOverall, parse.BowHeight: s.BowHeight, parse.SternHeight: s.SternHeight, parse.CarryPoint: s.CarryPoint,
				parse.GreatestAt: s.Greatest.At, parse.GreatestHullGirth: s.Greatest.HullGirth, parse.GreatestFullGirth: s.Greatest.FullGirth,
				parse.GreatestOpening: s.Greatest.Opening, parse.TransomHullGirth: s.Transom.HullGirth, parse.TransomFullGirth: s.Transom.FullGirth,
			} {
				got[parse.Cell{Measure: m}] = r
			}
			for _, st := range s.Stations {
				got[parse.Cell{At: st.At, Measure: parse.HullGirth}] = st.HullGirth
				got[parse.Cell{At: st.At, Measure: parse.FullGirth}] = st.FullGirth
			}
			if len(got) != len(want) {
				t.Errorf("%d numbers are read, %d were typed", len(got), len(want))
			}
			for cell, parts := range want {
				r := got[cell]
				if length := form.Compose(unit, parts); !r.Certain() || r.Value != length {
					t.Errorf("%v: read %v (%v, confidence %v), typed %v", cell, r.Value, r.Source.Raw, r.Confidence, length)
				}
			}
		})
	}
}

func TestTheSameFormIsTheSameBytes(t *testing.T) {
	spec := form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 15, Job: 14}
	first, _, err := PDF(spec, Words{Language: "fr"})
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		again, _, err := PDF(spec, Words{Language: "fr"})
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first, again) {
			t.Fatal("two forms of one kind differ")
		}
	}
	if bytes.Contains(first, []byte("(D:")) {
		t.Error("the form says when it was made")
	}
}

// TestType reads the size of what is printed with another library: no words
// under 12 points.
func TestType(t *testing.T) {
	for _, language := range []string{"en", "fr"} {
		file, l, err := PDF(form.Spec{Paper: form.Letter, Unit: parse.Inch, Rows: 15, Job: 14}, Words{Language: language})
		if err != nil {
			t.Fatal(err)
		}
		reader, err := ledongthuc.NewReader(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			t.Fatal(err)
		}
		for i := range l.Pages {
			content := reader.Page(i + 1).Content()
			if len(content.Text) < 100 {
				t.Errorf("page %d: only %d characters are found", i+1, len(content.Text))
			}
			for _, c := range content.Text {
				if c.FontSize < bodySize-1e-6 {
					t.Errorf("page %d: %q is in %v points", i+1, c.S, c.FontSize)
				}
			}
		}
	}
}

// TestWordsThatDoNotFit: what a shop writes into its settings may be too long
// for the page; then it says so instead of printing over a mark.
func TestWordsThatDoNotFit(t *testing.T) {
	spec := form.Spec{Paper: form.Letter, Unit: parse.Inch, Rows: 15}
	long := strings.Repeat("Pinfold Cover Loft, 12 Harbour Lane, Halifax ", 6)
	if _, _, err := PDF(spec, Words{Post: long}); !errors.Is(err, ErrNoRoom) {
		t.Errorf("an address of %d characters: %v, want %v", len(long), err, ErrNoRoom)
	}
	for _, post := range []string{"Loft 😀", "日本", "a\x00b", "a\xffb"} {
		if _, _, err := PDF(spec, Words{Post: post}); !errors.Is(err, ErrLetter) {
			t.Errorf("address %q: %v, want %v", post, err, ErrLetter)
		}
	}
	for _, post := range []string{"", "*Loft*\n12\tHarbour Lane", "Žižkov 3, Łódź"} {
		if _, _, err := PDF(spec, Words{Post: post}); err != nil {
			t.Errorf("address %q: %v", post, err)
		}
	}
	if _, err := Tracing("legal", parse.Inch, Words{}); !errors.Is(err, form.ErrPaper) {
		t.Errorf("a tracing sheet on legal: %v, want %v", err, form.ErrPaper)
	}
}

// TestEveryPaper draws all that can be asked for.
func TestEveryPaper(t *testing.T) {
	for _, language := range []string{"en", "fr-CA"} {
		for _, paper := range []form.Paper{form.Letter, form.A4} {
			if _, err := Tracing(paper, parse.Inch, Words{Language: language, Post: "Pinfold Cover Loft, 12 Harbour Lane, Halifax"}); err != nil {
				t.Errorf("tracing sheet on %s in %s: %v", paper, language, err)
			}
			for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
				for _, rows := range []int{1, 40} {
					for _, spacing := range []parse.Length{0, form.Spacing(unit) / 2} {
						spec := form.Spec{Paper: paper, Unit: unit, Spacing: spacing, Rows: rows, Job: 99999}
						if _, _, err := PDF(spec, Words{Language: language, Post: "Pinfold Cover Loft, 12 Harbour Lane, Halifax"}); err != nil {
							t.Errorf("%v in %s: %v", spec, language, err)
						}
					}
				}
				at := 3 * form.Spacing(unit)
				for _, places := range [][]parse.Cell{
					{{At: at, Measure: parse.HullGirth}, {At: at, Measure: parse.FullGirth}, {At: at, Measure: parse.MeasurePair}, {Measure: parse.LengthOverall},
						{Measure: parse.BowHeight}, {Measure: parse.SternHeight}, {Measure: parse.CarryPoint}, {Measure: parse.GreatestAt}},
					{{Measure: parse.GreatestHullGirth}, {Measure: parse.GreatestFullGirth}, {Measure: parse.GreatestPair}, {Measure: parse.GreatestOpening},
						{Measure: parse.TransomHullGirth}, {Measure: parse.TransomFullGirth}, {Measure: parse.TransomPair}},
					{{Measure: parse.CarryPoint}},
				} {
					spec := form.SlipSpec{Paper: paper, Unit: unit, Job: 99999, Places: places}
					if _, _, err := Slip(spec, Words{Language: language}); err != nil {
						t.Errorf("slip for %v in %s: %v", places, language, err)
					}
				}
			}
		}
	}
}
