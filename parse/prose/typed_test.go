package prose

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fairtape/parse"
)

// typed is what stands in a text, by the measures of the JSON; a station's have
// "@" and the distance behind. A number of which nobody can be sure has no value.
type typedWant struct {
	unit   parse.Unit
	values map[string]float64
}

// wantOf reads what is written below the rule that ends a text: a measure a
// line, the girths of all stations from the first on one, "?" for one that
// nobody can be sure of, "-" for one that is not given.
func wantOf(t *testing.T, below string) typedWant {
	t.Helper()
	lines := strings.Split(strings.TrimSpace(below), "\n")
	w := typedWant{unit: parse.Unit(lines[0]), values: map[string]float64{}}
	step := map[parse.Unit]int{parse.Inch: 12, parse.Centimetre: 30}[w.unit]
	for _, l := range lines[1:] {
		fields := strings.Fields(l)
		for i, text := range fields[1:] {
			key := fields[0]
			if strings.HasSuffix(key, "_girth") && !strings.Contains(key, ".") {
				key += "@" + strconv.Itoa((i+1)*step)
			}
			if text == "?" || text == "-" {
				continue
			}
			value, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatalf("%s: %v", l, err)
			}
			w.values[key] = value
		}
	}
	return w
}

// TestTyped reads every text under testdata/mail/typed. None of its numbers is
// sure and wrong, and all are read.
func TestTyped(t *testing.T) {
	files, err := filepath.Glob("../../testdata/mail/typed/*.*")
	if err != nil || len(files) < 80 {
		t.Fatalf("%d texts: %v", len(files), err)
	}
	for _, file := range files {
		if filepath.Ext(file) == ".md" {
			continue
		}
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			text, below, ok := strings.Cut(string(data), "\n==== ")
			if !ok {
				t.Fatal("there is no want")
			}
			want := wantOf(t, below)
			body, html := text, ""
			if filepath.Ext(file) == ".html" {
				body, html = "", text
			}
			doc := Read("m.eml", body, html).Document
			given := map[string]float64{}
			for i := range doc.Surveys {
				for _, n := range written(&doc.Surveys[i]) {
					if !n.Certain() {
						continue
					}
					key := string(n.cell.Measure)
					if n.cell.At > 0 {
						key += "@" + strconv.FormatFloat(n.cell.At.In(want.unit), 'g', -1, 64)
					}
					value := n.Value.In(want.unit)
					if v, ok := want.values[key]; !ok || math.Abs(v-value) > 1e-6 {
						t.Errorf("%s is %g for sure", key, value)
					}
					given[key] = value
				}
			}
			for key, v := range want.values {
				if _, ok := given[key]; !ok {
					t.Errorf("%s %g is not read", key, v)
				}
			}
			if t.Failed() {
				for _, p := range doc.Problems {
					t.Logf("%s %q: %s", p.Code, p.Source.Raw, p.Message)
				}
			}
		})
	}
}
