package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
	"sync"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

func TestForShop(t *testing.T) {
	for name, report := range reports() {
		p, err := ForShop(report)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		show(t, "shop-"+name, p)
		if c, err := png.DecodeConfig(bytes.NewReader(p.PNG)); err != nil || c.Width != shopWidth || c.Height != shopHeight {
			t.Errorf("%s: %+v, %v", name, c, err)
		}
		if len(p.PNG) > 400<<10 {
			t.Errorf("%s: %d bytes, want at most 400 kB", name, len(p.PNG))
		}
		if p.Alt == "" || strings.Contains(p.Alt, "\n") {
			t.Errorf("%s: alternative text %q", name, p.Alt)
		}
	}
}

func TestShopAltSaysWhatIsOdd(t *testing.T) {
	p, err := ForShop(reports()["one-ten"])
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"hull girth at 7 ft", "read 41", "expected 51", "a ten off", "fair curve", "15 stations"} {
		if !strings.Contains(p.Alt, want) {
			t.Errorf("alternative text lacks %q: %s", want, p.Alt)
		}
	}
}

func TestTitles(t *testing.T) {
	for name, want := range map[string]string{
		"empty":       "No girth was read",
		"tiny":        "Nothing odd, but something is missing",
		"clean-16":    "Nothing odd: the girths run fair",
		"one-ten":     "Hull girth at 7 ft: a ten off?",
		"swapped":     "Girths at 9 ft: pair swapped?",
		"eight":       "8 things look odd",
		"metric-two":  "2 things look odd, at 180 cm and 300 cm",
		"row-skipped": "A station is skipped before 6 ft",
	} {
		if got := title(reports()[name]); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// Every slip at every kind of place keeps the title short.
func TestTitlesAreShort(t *testing.T) {
	kinds := []slip.Kind{slip.None, slip.OffByTen, slip.Transposed, slip.OffByFoot, slip.Digit, slip.MisreadTape, slip.SwappedPair,
		slip.RowRepeated, slip.RowSkipped, slip.MetricEdge, slip.DecimalLost, slip.FeetInchesJoined, slip.FromStern,
		slip.OpeningForFull, slip.HalfGirth, slip.TapeOffset, slip.TapeLength, slip.Unknown}
	for _, kind := range kinds {
		for _, f := range []validate.Finding{
			{Cell: parse.Cell{At: parse.Inches(90.5), Measure: parse.HullGirth}},
			{Cell: parse.Cell{Measure: parse.TransomPair}},
			{Cell: parse.Cell{Measure: parse.GreatestFullGirth}},
			{Rows: []parse.Length{parse.Inches(90.5)}},
			{Rows: []parse.Length{parse.Inches(90.5), parse.Inches(100)}},
		} {
			f.Slip, f.Kind = kind, validate.Recheck
			r := validate.Report{Survey: boat(15, parse.Inch), Findings: []validate.Finding{f}, Verdict: validate.NeedRecheck}
			if got := title(r); len(strings.Fields(got)) > maxTitleWords {
				t.Errorf("%q has more than %d words", got, maxTitleWords)
			}
			if kind != slip.RowSkipped {
				continue // drawn like the others
			}
			if _, err := ForShop(r); err != nil {
				t.Errorf("%q: %v", title(r), err)
			}
		}
	}
}

// One wild number leaves the others as much of the panel as they had.
func TestWildNumberDoesNotSquashTheRest(t *testing.T) {
	for _, name := range []string{"decimal-lost", "no-curve", "metric-two"} {
		report := reports()[name]
		for _, full := range []bool{false, true} {
			p := &panel{report: report, axis: newAxis(report), full: full, top: 130, bottom: 640}
			p.marks = marks(report, full)
			p.scale()
			least, most := math.Inf(1), math.Inf(-1)
			for _, m := range p.marks {
				if m.odd == nil {
					y := p.y(m.value.In(p.axis.unit))
					least, most = min(least, y), max(most, y)
				}
			}
			if share := (most - least) / (p.bottom - p.top); share < 0.35 {
				t.Errorf("%s: sound girths take %.0f %% of the panel", name, 100*share)
			}
		}
	}
}

// A survey that nothing flagged, with a number that would be the scale's end.
func TestUnflaggedWildNumber(t *testing.T) {
	r := validate.Report{Survey: boat(15, parse.Inch), Verdict: validate.Clean}
	r.Survey.Stations[4].HullGirth.Value = parse.Inches(4950)
	p := &panel{report: r, axis: newAxis(r), top: 0, bottom: 500}
	p.marks = marks(r, false)
	if p.scale(); p.high > 100 {
		t.Errorf("the scale ends at %v", p.high)
	}
}

func TestNumbersWithoutMeaning(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), -40, 0, 1e12} {
		r := validate.Report{Survey: boat(15, parse.Inch), Curve: hull{180}, Verdict: validate.Clean}
		r.Survey.Stations[3].HullGirth.Value = parse.Inches(bad)
		r.Survey.LengthOverall.Value = parse.Inches(bad)
		r.Survey.Greatest.At.Value = parse.Inches(bad)
		if _, err := ForShop(r); err != nil {
			t.Errorf("%v: %v", bad, err)
		}
		if _, err := ForCustomer(r.Survey, []parse.Cell{{At: parse.Inches(bad), Measure: parse.HullGirth}}, "en"); err != nil {
			t.Errorf("%v: %v", bad, err)
		}
	}
}

func TestSameInputSameBytes(t *testing.T) {
	report := reports()["eight"]
	want, err := ForShop(report)
	if err != nil {
		t.Fatal(err)
	}
	q := questions()["eight"]
	wantMail, err := ForCustomer(q.survey, q.asked, "en")
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			got, err := ForShop(report)
			if err != nil || !bytes.Equal(got.PNG, want.PNG) || got.Alt != want.Alt {
				t.Errorf("another drawing, or %v", err)
			}
			mail, err := ForCustomer(q.survey, q.asked, "en")
			if err != nil || !bytes.Equal(mail.PNG, wantMail.PNG) {
				t.Errorf("another drawing, or %v", err)
			}
		})
	}
	wg.Wait()
}

// luminance is the relative luminance of WCAG 2.2, section 8.
func luminance(c color.RGBA) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func contrast(a, b color.RGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrast(t *testing.T) {
	// Check values: black on white is 21 by definition; the others were worked
	// out apart from this code, by the same formula in another language.
	for c, want := range map[color.RGBA]float64{{0, 0, 0, 255}: 21, blue: 5.19, vermilion: 3.87} {
		if got := contrast(c, white); math.Abs(got-want) > 0.01 {
			t.Errorf("contrast of %v is %.3f, want %v", c, got, want)
		}
	}
	for name, c := range map[string]color.RGBA{"ink": ink, "grey": grey, "light": light, "blue": blue, "vermilion": vermilion} {
		if got := contrast(c, white); got < 3 {
			t.Errorf("%s: %.2f on white, want at least 3", name, got)
		}
	}
	for name, c := range map[string]color.RGBA{"ink": ink, "grey": grey, "blue": blue} { // colours of words
		if got := contrast(c, white); got < 4.5 {
			t.Errorf("%s: %.2f on white, words want 4.5", name, got)
		}
	}
}

// The picture is opaque: a dark ground behind it would swallow the lines.
func TestOpaqueWhiteGround(t *testing.T) {
	q := questions()["one"]
	p, err := ForCustomer(q.survey, q.asked, "en")
	if err != nil {
		t.Fatal(err)
	}
	decoded, err := png.Decode(bytes.NewReader(p.PNG))
	if err != nil {
		t.Fatal(err)
	}
	if o, ok := decoded.(interface{ Opaque() bool }); !ok || !o.Opaque() {
		t.Error("the picture is not opaque")
	}
	if got := color.RGBAModel.Convert(decoded.At(2, 2)); got != color.Color(white) {
		t.Errorf("ground is %v", got)
	}
	if decoded.Bounds().Min != (image.Point{}) {
		t.Error("bounds")
	}
}

func BenchmarkForShop(b *testing.B) {
	report := reports()["eight"]
	for b.Loop() {
		if _, err := ForShop(report); err != nil {
			b.Fatal(err)
		}
	}
}
