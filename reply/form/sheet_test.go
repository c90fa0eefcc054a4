package form

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/sheet"
)

// TestSheet types a survey into the empty sheet and reads it back.
func TestSheet(t *testing.T) {
	for _, language := range []string{"en", "fr"} {
		for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
			t.Run(language+" "+string(unit), func(t *testing.T) {
				file, err := XLSX(form.Spec{Paper: form.Letter, Unit: unit, Rows: 15}, Words{Language: language})
				if err != nil {
					t.Fatal(err)
				}
				x, err := excelize.OpenReader(bytes.NewReader(file))
				if err != nil {
					t.Fatal(err)
				}
				rows, err := x.GetRows(sheetName)
				if err != nil {
					t.Fatal(err)
				}
				words := phrases(language, unit, form.Spacing(unit))
				number := func(n int) string {
					if unit == parse.Inch && n%2 == 1 {
						return fmt.Sprintf("%d 1/2", n)
					}
					return fmt.Sprint(n)
				}
				value := func(n int) parse.Length {
					if unit == parse.Inch && n%2 == 1 {
						return parse.Inches(float64(n) + 0.5)
					}
					return parse.Measured(float64(n), unit)
				}
				typed := map[string]int{} // label: number, or that of the hull girth
				for i, row := range rows {
					if len(row) == 0 {
						continue
					}
					a, b, c := row[0], fmt.Sprintf("B%d", i+1), fmt.Sprintf("C%d", i+1)
					set := func(cell, text string) {
						if err := x.SetCellStr(sheetName, cell, text); err != nil {
							t.Fatal(err)
						}
					}
					station := strings.HasSuffix(a, "ft") || strings.HasSuffix(a, "pi") || strings.HasSuffix(a, "cm")
					switch {
					case a == words.customer:
						set(b, "Ruth Amberley")
					case a == words.boat:
						set(b, "Home-built")
					case a == words.deckedQuestion:
						set(b, words.yes)
					case a == words.sternQuestion:
						set(b, words.square)
					case a == words.sheetNames[parse.LengthOverall]:
						set(b, map[parse.Unit]string{parse.Inch: "15 ft 9 in", parse.Centimetre: "480"}[unit])
					case station || a == words.names[parse.TransomPair]:
						typed[a] = 30 + i
						set(b, number(30+i))
						set(c, number(45+i))
					case a == words.sheetNames[parse.GreatestAt]:
						typed[a] = int(form.Spacing(unit).In(unit)) * 15 // the largest station
						set(b, fmt.Sprint(typed[a]))
					default:
						for _, label := range words.sheetNames {
							if a == label {
								typed[a] = 20 + i
								set(b, number(20+i))
							}
						}
					}
				}
				var out bytes.Buffer
				if err := x.Write(&out); err != nil {
					t.Fatal(err)
				}
				doc, err := sheet.XLSX("form.xlsx", out.Bytes(), nil)
				if err != nil || len(doc.Surveys) != 1 {
					t.Fatalf("%d surveys, %v", len(doc.Surveys), err)
				}
				for _, p := range doc.Problems {
					t.Errorf("problem %s at %s: %s (%s)", p.Code, p.Source.Place, p.Message, p.Source.Raw)
				}
				s := doc.Surveys[0]
				if s.Unit != unit || !s.Decked || s.Stern != parse.Square || s.Customer != "Ruth Amberley" || s.Boat != "Home-built" {
					t.Errorf("read as %q, decked %v, %s, %q, %q", s.Unit, s.Decked, s.Stern, s.Customer, s.Boat)
				}
				check := func(label string, r parse.Reading, plus int) {
					t.Helper()
					if want := value(typed[label] + plus); !r.Certain() || r.Value != want || typed[label] == 0 {
						t.Errorf("%s: read %v (%q), typed %v", label, r.Value, r.Source.Raw, want)
					}
				}
				if want := map[parse.Unit]parse.Length{parse.Inch: parse.Inches(189), parse.Centimetre: parse.Centimetres(480)}[unit]; s.LengthOverall.Value != want {
					t.Errorf("length overall %v, want %v", s.LengthOverall.Value, want)
				}
				check(words.sheetNames[parse.BowHeight], s.BowHeight, 0)
				check(words.sheetNames[parse.SternHeight], s.SternHeight, 0)
				check(words.sheetNames[parse.CarryPoint], s.CarryPoint, 0)
				check(words.sheetNames[parse.GreatestAt], s.Greatest.At, 0)
				check(words.sheetNames[parse.GreatestHullGirth], s.Greatest.HullGirth, 0)
				check(words.sheetNames[parse.GreatestFullGirth], s.Greatest.FullGirth, 0)
				check(words.sheetNames[parse.GreatestOpening], s.Greatest.Opening, 0)
				check(words.names[parse.TransomPair], s.Transom.HullGirth, 0)
				check(words.names[parse.TransomPair], s.Transom.FullGirth, 15)
				if len(s.Stations) != 15 {
					t.Fatalf("%d stations", len(s.Stations))
				}
				for _, st := range s.Stations {
					check(words.place(st.At), st.HullGirth, 0)
					check(words.place(st.At), st.FullGirth, 15)
				}
			})
		}
	}
}

func TestSheetIsTheSameBytes(t *testing.T) {
	spec := form.Spec{Paper: form.A4, Unit: parse.Centimetre, Rows: 9}
	first, err := XLSX(spec, Words{})
	if err != nil {
		t.Fatal(err)
	}
	second, err := XLSX(spec, Words{})
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(first, second) {
		t.Error("two sheets of one kind differ")
	}
}
