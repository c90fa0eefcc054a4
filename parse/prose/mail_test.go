package prose

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/parse"
)

var update = flag.Bool("update", false, "write the goldens anew")

// TestMails reads every body under testdata/mail/prose and compares what it
// says with the text beside it.
func TestMails(t *testing.T) {
	files, err := filepath.Glob("../../testdata/mail/prose/*")
	if err != nil {
		t.Fatal(err)
	}
	tested := 0
	for _, f := range files {
		if strings.HasSuffix(f, ".want") || filepath.Base(f) == "README.md" {
			continue
		}
		tested++
		t.Run(filepath.Base(f), func(t *testing.T) {
			body, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			text, html := string(body), ""
			if filepath.Ext(f) == ".html" {
				text, html = "", text
			}
			got := describe(Read(filepath.Base(f), text, html))
			want := f + ".want"
			if *update {
				if err := os.WriteFile(want, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			golden, err := os.ReadFile(want)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(golden) {
				t.Errorf("%s says\n%s\nwant\n%s", f, got, golden)
			}
		})
	}
	if tested < 40 {
		t.Errorf("%d bodies were read, want 40 or more", tested)
	}
}

// describe writes a mail one thing a line, for a person to check.
func describe(m Mail) string {
	var b strings.Builder
	for _, s := range m.Document.Surveys {
		fmt.Fprintf(&b, "survey in %q, stern %s\n", s.Unit, s.Stern)
		show := func(name string, r parse.Reading) {
			if r.Absent() {
				return
			}
			value := "null"
			if r.Known {
				value = fmt.Sprint(r.Value.In(s.Unit))
			}
			fmt.Fprintf(&b, "  %s %s (%.2g) %q %s\n", name, value, r.Confidence, r.Source.Raw, r.Source.Place)
		}
		show("length overall", s.LengthOverall)
		show("bow height", s.BowHeight)
		show("stern height", s.SternHeight)
		show("carry point", s.CarryPoint)
		show("greatest at", s.Greatest.At)
		show("greatest hull", s.Greatest.HullGirth)
		show("greatest full", s.Greatest.FullGirth)
		show("greatest opening", s.Greatest.Opening)
		show("transom hull", s.Transom.HullGirth)
		show("transom full", s.Transom.FullGirth)
		for _, st := range s.Stations {
			show(fmt.Sprintf("%v hull", st.At.In(s.Unit)), st.HullGirth)
			show(fmt.Sprintf("%v full", st.At.In(s.Unit)), st.FullGirth)
		}
	}
	for _, p := range m.Document.Problems {
		fmt.Fprintf(&b, "problem %s %q %s\n", p.Code, p.Source.Raw, p.Source.Place)
	}
	for _, c := range m.Corrections {
		fmt.Fprintf(&b, "correction %v %q", c.Cell.At.In(parse.Inch), c.Cell.Measure)
		for _, v := range c.Values {
			fmt.Fprintf(&b, " %v", v.Value.In(parse.Inch))
		}
		if c.Was != nil {
			fmt.Fprintf(&b, ", was %v", c.Was.Value.In(parse.Inch))
		}
		fmt.Fprintf(&b, ", placed %t, same %t\n", c.Placed, c.Same)
	}
	fmt.Fprintf(&b, "language %q", m.Language)
	if m.WantsForm {
		b.WriteString(", wants a form")
	}
	if m.Sold {
		b.WriteString(", sold")
	}
	if m.Unchanged {
		b.WriteString(", unchanged")
	}
	if m.Tracings != (Tracings{}) {
		fmt.Fprintf(&b, ", tracings bow %t stern %t", m.Tracings.Bow, m.Tracings.Stern)
	}
	b.WriteByte('\n')
	if m.UnderTape != "" {
		fmt.Fprintf(&b, "under the tape: %s\n", m.UnderTape)
	}
	for _, q := range m.Questions {
		fmt.Fprintf(&b, "question: %s\n", q)
	}
	return b.String()
}
