package prose

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fairtape/parse"
)

// boat is a made-up survey in inches; stations run at every foot.
type boat struct {
	length, bow, stern, carry float64
	hull, full                []float64
}

func madeBoat(r *rand.Rand) boat {
	half := func(x float64) float64 { return math.Round(x*2) / 2 }
	n := 11 + r.IntN(6)
	b := boat{length: float64(12*n+5+r.IntN(6)) + 0.5*float64(r.IntN(2)), bow: half(15 + 8*r.Float64()), stern: half(14 + 6*r.Float64()), carry: half(18 + 12*r.Float64())}
	for i := 1; i <= n; i++ {
		t := 12 * float64(i) / b.length
		k := math.Pow(4*t*(1-t), 0.6)
		h := half(16 + 36*k + r.Float64())
		b.hull = append(b.hull, h)
		b.full = append(b.full, half(h+4+26*k))
	}
	return b
}

func fraction(x float64) string {
	if whole := math.Trunc(x); x != whole {
		return fmt.Sprintf("%g 1/2", whole)
	}
	return fmt.Sprintf("%g", x)
}

func decimal(x float64) string { return fmt.Sprintf("%g", x) }
func glyphs(x float64) string  { return strings.Replace(fraction(x), " 1/2", "½", 1) }
func comma(x float64) string   { return strings.Replace(decimal(x), ".", ",", 1) }

func feet(x float64) string {
	return fmt.Sprintf("%d ft %s in", int(x)/12, fraction(x-12*float64(int(x)/12)))
}

// style is a way of typing a survey: the line of the head, of each station, and
// how a number looks.
type style struct {
	name   string
	head   func(b boat, f func(float64) string) string
	row    string // %[1]d is the station in feet, %[2]s the hull girth, %[3]s the full girth
	before string // the line over the rows
	number func(float64) string
}

func keyed(b boat, f func(float64) string) string {
	return fmt.Sprintf("Length overall: %s\nBow height: %s\nStern height: %s\nCarry point: %s\n\n", feet(b.length), f(b.bow), f(b.stern), f(b.carry))
}

func sentencesHead(b boat, f func(float64) string) string {
	return fmt.Sprintf("Hello, we measured her today, all in inches. The length overall is %s. The bow is %s high and the stern %s. The carry thwart is %s from the bow.\n\n",
		feet(b.length), f(b.bow), f(b.stern), f(b.carry))
}

func inline(b boat, f func(float64) string) string {
	return fmt.Sprintf("Hi, inches throughout: LOA %s, bow %s, stern %s, carry point %s.\n\n", feet(b.length), f(b.bow), f(b.stern), f(b.carry))
}

func suffixed(b boat, f func(float64) string) string {
	return fmt.Sprintf("She is %s long, %s\" high at the bow and %s\" at the stern.\nCarry point is at %s\"\n\n", feet(b.length), f(b.bow), f(b.stern), f(b.carry))
}

func frenchHead(b boat, f func(float64) string) string {
	return fmt.Sprintf("Bonjour, mesures en pouces.\nLongueur hors tout : %d pi %s po\nHauteur de l'étrave : %s\nHauteur de la poupe : %s\nPoint de portage : %s\n\n",
		int(b.length)/12, f(b.length-12*float64(int(b.length)/12)), f(b.bow), f(b.stern), f(b.carry))
}

var styles = []style{
	{"colon and slash", keyed, "%[1]d ft: %[2]s / %[3]s", "", fraction},
	{"colon and comma", keyed, "%[1]d ft: %[2]s, %[3]s", "", fraction},
	{"dashes", inline, "%[1]d ft - %[2]s - %[3]s", "", fraction},
	{"station words", sentencesHead, "Station %[1]d ft: hull %[2]s, full %[3]s", "", fraction},
	{"at feet", inline, "At %[1]d feet hull girth %[2]s and full girth %[3]s.", "", fraction},
	{"at feet, bare", keyed, "at %[1]d feet %[2]s and %[3]s", "", fraction},
	{"mark", keyed, "%[1]d ft mark: hull %[2]s full %[3]s", "", decimal},
	{"from the bow", keyed, "%[1]d ft from the bow: under the hull %[2]s, all the way around %[3]s", "", decimal},
	{"suffixes", keyed, "%[1]d ft: %[2]s hull, %[3]s full", "", glyphs},
	{"brackets", suffixed, "%[1]d ft: %[2]s (hull), %[3]s (full)", "", fraction},
	{"blanks", keyed, "%[1]d ft      %[2]s     %[3]s", "", fraction},
	{"blanks under a heading", inline, "%[1]d          %[2]s        %[3]s", "feet      hull      full", fraction},
	{"tabs", keyed, "%[1]d\t%[2]s\t%[3]s", "station\thull\tfull", decimal},
	{"pipes", keyed, "| %[1]d ft | %[2]s | %[3]s |", "| Station | Hull girth | Full girth |", fraction},
	{"signs", keyed, "%[1]d' - %[2]s\" / %[3]s\"", "", glyphs},
	{"full first", keyed, "%[1]d ft: %[3]s / %[2]s", "full girth first, then hull girth", fraction},
	{"full first in words", keyed, "%[1]d ft: full %[3]s, hull %[2]s", "", fraction},
	{"one number a line", keyed, "%[1]d ft\n%[2]s\n%[3]s", "", fraction},
	{"labelled lines", keyed, "Station %[1]d ft\nHull: %[2]s\nFull: %[3]s", "", decimal},
	{"french", frenchHead, "%[1]d pi : coque %[2]s, tour complet %[3]s", "", comma},
	{"french bare", frenchHead, "à %[1]d pieds : %[2]s et %[3]s", "", comma},
	{"bullets", keyed, "- %[1]d ft: %[2]s / %[3]s", "", fraction},
	{"numbered", keyed, "* %[1]d ft - hull girth = %[2]s; full girth = %[3]s", "", decimal},
	{"equals", inline, "%[1]d ft = %[2]s / %[3]s", "", decimal},
}

func (s style) body(b boat) string {
	var text strings.Builder
	text.WriteString(s.head(b, s.number))
	if s.before != "" {
		text.WriteString(s.before + "\n")
	}
	for i := range b.hull {
		fmt.Fprintf(&text, s.row+"\n", i+1, s.number(b.hull[i]), s.number(b.full[i]))
	}
	return text.String() + "\nThanks,\nAnn Tern\n12 Wharf Road\n902 555 0143\n"
}

// TestStyles types made-up boats in many styles: no number may be sure and
// wrong, and these styles are read whole.
func TestStyles(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, s := range styles {
		t.Run(s.name, func(t *testing.T) {
			for range 8 {
				b := madeBoat(r)
				body := s.body(b)
				if missed := compare(t, b, Read("m.eml", body, "")); len(missed) > 0 {
					t.Fatalf("not read: %v\n%s\n%s", missed, body, describe(Read("m.eml", body, "")))
				}
			}
		})
	}
}

// compare reports numbers that are sure and wrong as errors, and returns what
// was not read for sure.
func compare(t *testing.T, b boat, m Mail) (missed []string) {
	t.Helper()
	if len(m.Document.Surveys) != 1 {
		return []string{"survey"}
	}
	s := m.Document.Surveys[0]
	check := func(name string, r parse.Reading, want float64) {
		switch {
		case !r.Certain():
			missed = append(missed, name)
		case r.Value.In(parse.Inch) != want:
			t.Errorf("%s is %v for sure, and should be %v", name, r.Value.In(parse.Inch), want)
		}
	}
	check("length overall", s.LengthOverall, b.length)
	check("bow height", s.BowHeight, b.bow)
	check("stern height", s.SternHeight, b.stern)
	check("carry point", s.CarryPoint, b.carry)
	stations := map[float64]parse.Station{}
	for _, st := range s.Stations {
		stations[st.At.In(parse.Inch)] = st
		if at := st.At.In(parse.Inch); (st.HullGirth.Certain() || st.FullGirth.Certain()) && (math.Mod(at, 12) != 0 || at > float64(12*len(b.hull))) {
			t.Errorf("there is no station at %v", at)
		}
	}
	for i := range b.hull {
		at := float64(12 * (i + 1))
		check(fmt.Sprintf("hull %d", i+1), stations[at].HullGirth, b.hull[i])
		check(fmt.Sprintf("full %d", i+1), stations[at].FullGirth, b.full[i])
	}
	return missed
}
