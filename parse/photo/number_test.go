package photo

import (
	"math"
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
)

// digit is a box that surely holds d; sure says how surely, the rest is spread
// over the other digits.
func digit(d int, sure float64) figure {
	var f figure
	for i := range f.Digit {
		f.Digit[i] = (1 - sure) / 9
	}
	f.Digit[d] = sure
	return f
}

var (
	blankBox  = figure{Blank: 1}
	struckOut = figure{Unreadable: 1}
)

func TestNumberOf(t *testing.T) {
	tests := []struct {
		name  string
		boxes []figure
		hand  habit
		value int
		least float64 // probability of the value; 0 when there is none
		most  float64
		text  string
	}{
		{"nothing", []figure{blankBox, blankBox, blankBox}, habit{}, 0, 0, 0, ""},
		{"crossed out", []figure{blankBox, struckOut, digit(3, 1)}, habit{}, 13, 0.1, 0.1, "?3"},
		{"a gap inside", []figure{digit(4, 1), blankBox, digit(3, 1)}, habit{}, 0, 0, 0, "43"},
		{"at the left", []figure{digit(4, 1), digit(3, 1), blankBox}, habit{}, 43, 0.6, 0.8, "43"},
		{"two digits", []figure{blankBox, digit(4, 1), digit(3, 1)}, habit{}, 43, 1, 1, "43"},
		{"three digits", []figure{digit(1, 1), digit(0, 1), digit(3, 1)}, habit{}, 103, 1, 1, "103"},
		{"unsure", []figure{blankBox, digit(4, 1), digit(3, 0.6)}, habit{}, 43, 0.6, 0.6, "43"},
		{"a zero before", []figure{blankBox, digit(0, 1), digit(3, 1)}, habit{}, 3, 0.05, 0.05, "03"},
		{"at the left, as always", []figure{digit(4, 1), digit(3, 1), blankBox}, habit{left: true}, 43, 0.995, 0.995, "43"},
		{"a zero before, as always", []figure{blankBox, digit(0, 1), digit(3, 1)}, habit{padded: true}, 3, 1, 1, "03"},
		{"a zero alone", []figure{blankBox, blankBox, digit(0, 1)}, habit{}, 0, 1, 1, "0"},
	}
	for _, test := range tests {
		n := numberOf(test.boxes, test.hand)
		best := outcome{}
		if len(n.outcomes) > 0 {
			best = n.outcomes[0]
		}
		if test.least == 0 && len(n.outcomes) > 0 || best.value != test.value || best.probability < test.least-1e-9 || best.probability > test.most+1e-9 || n.text != test.text {
			t.Errorf("%s: %+v, want %d with %v, %q", test.name, n, test.value, test.least, test.text)
		}
	}
}

// Whatever the boxes say, probabilities never add up to more than one.
func TestNumberOfAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		boxes := make([]figure, 1+rng.IntN(4))
		for i := range boxes {
			total := 0.0
			for d := range boxes[i].Digit {
				boxes[i].Digit[d] = math.Pow(rng.Float64(), 6)
				total += boxes[i].Digit[d]
			}
			boxes[i].Blank, boxes[i].Unreadable = math.Pow(rng.Float64(), 3), math.Pow(rng.Float64(), 3)
			total += boxes[i].Blank + boxes[i].Unreadable
			for d := range boxes[i].Digit {
				boxes[i].Digit[d] /= total
			}
			boxes[i].Blank /= total
			boxes[i].Unreadable /= total
		}
		n := numberOf(boxes, habit{})
		sum := n.absent
		for _, o := range n.outcomes {
			sum += o.probability
		}
		if sum > 1+1e-9 {
			t.Fatalf("%v add up to %v", boxes, sum)
		}
		e := entry{parts: map[form.Part]number{form.Whole: n}, half: rng.Float64(), ticks: true, sound: 1}
		r := e.reading(parse.Inch)
		sum = r.Confidence
		for _, c := range r.Alternatives {
			sum += c.Probability
		}
		if sum > 1+1e-9 {
			t.Fatalf("%+v adds up to %v", r, sum)
		}
	}
}

// What nobody can read in part names others, so that the curve can weigh them;
// what nobody can read at all names no guess.
func TestReadingNamesOthers(t *testing.T) {
	smeared := digit(3, 1)
	smeared.Digit[3], smeared.Unreadable = 0.95, 0.05
	for _, test := range []struct {
		name   string
		last   figure
		known  bool
		others int
	}{
		{"smeared", smeared, true, alternativesMost},
		{"struck out", struckOut, false, 0},
	} {
		e := entry{parts: map[form.Part]number{form.Whole: numberOf([]figure{digit(4, 1), test.last}, habit{})}, sound: 1}
		if r := e.reading(parse.Inch); r.Known != test.known || len(r.Alternatives) != test.others {
			t.Errorf("%s: %+v, want known %t and %d others", test.name, r, test.known, test.others)
		}
	}
}

func TestReading(t *testing.T) {
	const sure = 0.999
	whole := func(boxes ...figure) map[form.Part]number {
		return map[form.Part]number{form.Whole: numberOf(boxes, habit{})}
	}
	feet := func(feet, inches []figure) map[form.Part]number {
		return map[form.Part]number{form.Feet: numberOf(feet, habit{}), form.Inches: numberOf(inches, habit{})}
	}
	two := func(a, b int) []figure { return []figure{digit(a, sure), digit(b, sure)} }
	tests := []struct {
		name  string
		entry entry
		value float64 // 0 for no value
		sure  bool
		raw   string // "" for a number that nobody wrote
	}{
		{"nothing", entry{parts: whole(blankBox, blankBox), sound: 1}, 0, false, ""},
		{"half alone", entry{parts: whole(blankBox, blankBox), half: 1, ticks: true, sound: 1}, 0, false, "1/2"},
		{"struck out", entry{parts: whole(struckOut, digit(3, sure)), sound: 1}, 0, false, "?3"},
		{"fourteen inches beside feet", entry{parts: feet(two(1, 5), two(1, 4)), sound: 1}, 0, false, "15 ft 14 in"},
		{"feet without inches", entry{parts: feet(two(1, 5), []figure{blankBox, blankBox}), sound: 1}, 180, false, "15 ft"},
		{"a faint tick", entry{parts: whole(digit(4, sure), digit(3, sure)), half: 0.5, ticks: true, sound: 1}, 43, false, "43 1/2?"},
		{"a box that is not found", entry{parts: whole(digit(4, sure), digit(3, sure)), sound: 0.5}, 43, false, "43"},
		{"whole", entry{parts: whole(digit(4, sure), digit(3, sure)), ticks: true, sound: 1}, 43, true, "43"},
		{"half", entry{parts: whole(digit(4, sure), digit(3, sure)), half: 1, ticks: true, sound: 1}, 43.5, true, "43 1/2"},
		{"feet and inches", entry{parts: feet(two(1, 5), []figure{blankBox, digit(9, sure)}), sound: 1}, 189, true, "15 ft 9 in"},
	}
	for _, test := range tests {
		r := test.entry.reading(parse.Inch)
		if r.Value.In(parse.Inch) != test.value || r.Certain() != test.sure || r.Source.Raw != test.raw || r.Absent() != (test.raw == "") {
			t.Errorf("%s: %+v", test.name, r)
		}
	}
}

// There are no 17 inches beside feet, whatever a 1 looks like.
func TestWithinFoot(t *testing.T) {
	oneOrSeven := digit(1, 1)
	oneOrSeven.Digit[1], oneOrSeven.Digit[7] = 0.8, 0.2
	e := entry{sound: 1, parts: map[form.Part]number{
		form.Feet: numberOf([]figure{blankBox, digit(6, 1)}, habit{}), form.Inches: numberOf([]figure{digit(1, 1), oneOrSeven}, habit{}),
	}}
	if r := e.reading(parse.Inch); r.Value != parse.Inches(83) || !r.Certain() {
		t.Errorf("11 or 17 inches beside 6 feet: %+v", r)
	}
}

// A boat is not three times as long as its form goes, whatever a 1 looks like;
// but a length that is plainly written stands.
func TestWithinReach(t *testing.T) {
	oneOrSeven := digit(1, 1)
	oneOrSeven.Digit[1], oneOrSeven.Digit[7] = 0.7, 0.3
	zeroOrOne := figure{Blank: 0.3}
	zeroOrOne.Digit[1] = 0.7
	feet := func(tens figure) entry {
		return entry{sound: 1, reach: stretch{parse.Inches(17 * 12), parse.Inches(21 * 12)}, parts: map[form.Part]number{
			form.Feet: numberOf([]figure{tens, digit(8, 1)}, habit{}), form.Inches: numberOf([]figure{blankBox, digit(6, 1)}, habit{}),
		}}
	}
	for _, test := range []struct {
		name string
		tens figure
		feet float64
		sure bool
	}{
		{"1 or 7", oneOrSeven, 18.5, true},
		{"0 or 1", zeroOrOne, 18.5, true},
		{"plainly 7", digit(7, 1), 78.5, true},
		{"rather 7", digit(7, 0.9), 78.5, false},
	} {
		r := feet(test.tens).reading(parse.Inch)
		if r.Value != parse.Inches(12*test.feet) || r.Certain() != test.sure {
			t.Errorf("%s: %+v", test.name, r)
		}
	}
}

func TestHabitOf(t *testing.T) {
	asked := []figure{blankBox, digit(4, 1), digit(3, 1)}
	left := []figure{digit(4, 1), digit(3, 1), blankBox}
	padded := []figure{digit(0, 1), digit(4, 1), digit(3, 1)}
	full := []figure{digit(1, 1), digit(4, 1), digit(3, 1)}
	tests := []struct {
		name    string
		numbers [][]figure
		want    habit
	}{
		{"as the form asks", [][]figure{asked, asked, full, asked, asked}, habit{}},
		{"always at the left", [][]figure{left, left, full, left, left}, habit{left: true}},
		{"too few to tell", [][]figure{left, left, full, full}, habit{}},
		{"one otherwise", [][]figure{left, left, left, full, asked}, habit{}},
		{"all that are short", [][]figure{left, left, left, full}, habit{left: true}},
		{"now this, now that", [][]figure{left, left, left, left, left, asked, asked}, habit{}},
		{"always three digits", [][]figure{padded, full, padded, padded, full, padded}, habit{padded: true}},
		{"one bad six", [][]figure{asked, padded, asked, asked}, habit{}},
	}
	for _, test := range tests {
		numbers := map[int][]figure{}
		for i, n := range test.numbers {
			numbers[i] = n
		}
		if got := habitOf(numbers); got != test.want {
			t.Errorf("%s: %+v, want %+v", test.name, got, test.want)
		}
	}
}
