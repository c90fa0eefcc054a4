package known

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"fairtape/parse"
)

// Numbers whose slips can be told by hand, in inches.
func TestMiswrite(t *testing.T) {
	inch := Sheet{Tape: Tape{Unit: parse.Inch}}
	metric := Sheet{Tape: Tape{Unit: parse.Centimetre}}
	tests := []struct {
		sheet       Sheet
		slip        Slip
		truth, want float64
		name        string
		ok          bool
	}{
		{inch, Transposed, 44, 0, "", false},
		{inch, Transposed, 40, 0, "", false}, // 04
		{inch, DecimalLost, 51, 0, "", false},
		{inch, HalfLost, 44, 0, "", false},
		{inch, TapeShort, 55, 0, "", false},
		{inch, Joined, 11, 0, "", false},
		{metric, Foot, 100, 0, "", false},
		{metric, Joined, 100, 0, "", false},
		{metric, DecimalLost, 129.5, 0, "", false},
		{inch, Transposed, 35, 53, "transposed", true},
		{inch, Transposed, 35.5, 53.5, "transposed", true},
		{inch, MetricEdge, 51, 129.5, "metric-edge", true},
		{metric, MetricEdge, 130, 51, "metric-edge", true},
		{inch, DecimalLost, 51.5, 515, "decimal-lost", true},
		{inch, Joined, 47, 311, "feet-inches-joined", true},
		{inch, HalfLost, 44.5, 44, "", true},
		{inch, TapeShort, 83, 23, "tape-length", true},
		{metric, TapeShort, 210, 60, "tape-length", true},
	}
	for _, tt := range tests {
		got, name, ok := tt.sheet.miswrite(source(1), tt.slip, tt.truth)
		if ok != tt.ok || ok && (got != tt.want || name != tt.name) {
			t.Errorf("%s of %v: %v, %q, %v; want %v, %q, %v", tt.slip, tt.truth, got, name, ok, tt.want, tt.name, tt.ok)
		}
	}
}

// Where two names fit, the first of off-by-ten, transposed, off-by-foot, digit.
func TestNameOf(t *testing.T) {
	tests := []struct {
		truth, wrote float64
		metric       bool
		want         string
	}{
		{43, 48, false, "digit"}, {35, 53, false, "transposed"}, {41, 51, false, "off-by-ten"},
		{51, 39, false, "off-by-foot"}, {51, 39, true, "other"}, {51.5, 48, false, "other"}, {63, 53, false, "off-by-ten"}, {49, 41, false, "digit"}, {8, 18, false, "off-by-ten"}, {8, 28, false, "other"}, {45, 54, false, "transposed"},
		{41, 61, false, "digit"}, {132, 123, true, "transposed"},
	}
	for _, tt := range tests {
		if got := nameOf(tt.truth, tt.wrote, tt.metric, "other"); got != tt.want {
			t.Errorf("%v for %v: %s, want %s", tt.wrote, tt.truth, got, tt.want)
		}
	}
}

// bounds is how far from the truth the slip leaves a number, in inches or, for
// metric surveys, centimetres.
func bounds(slip Slip, unit parse.Unit) (least, most float64) {
	inch := 1.0
	if unit == parse.Centimetre {
		inch = centimetresPerInch
	}
	switch slip {
	case Ten:
		return 10, 10
	case Foot:
		return 12, 12
	case Digit:
		return 1.5 * inch, 900
	case Transposed:
		return 9, 900
	case Tape2to3:
		return 2*inch - 0.5, 3*inch + 0.5
	case Tape4to6:
		return 4*inch - 0.5, 6*inch + 0.5
	case HalfLost:
		return 0.5, 0.5
	case TapeShort:
		return 59, 150
	}
	return 0.5, 5000
}

func TestSpoilOneNumber(t *testing.T) {
	for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
		for _, slip := range append(SingleSlips(), HalfLost) {
			t.Run(fmt.Sprintf("%s %s", slip, unit), func(t *testing.T) {
				spoiled := 0
				rng := source(2)
				for range 100 {
					sheet := Draw(rng, Ordinary, HomeTape(unit))
					got, done, ok := sheet.Spoil(rng, slip)
					if !ok {
						continue
					}
					spoiled++
					changed := differing(sheet.Survey, got)
					if len(changed) != len(done.Wrong) {
						t.Fatalf("changed %v, said %v", changed, done.Wrong)
					}
					least, most := bounds(slip, unit)
					for _, w := range done.Wrong {
						wrote, known := changed[w.Cell]
						off := math.Abs(wrote.In(unit) - w.Truth.In(unit))
						if !known || off < least || off > most {
							t.Errorf("%v: %v for %v", w.Cell, wrote.In(unit), w.Truth.In(unit))
						}
					}
				}
				never := unit == parse.Centimetre && (slip == Foot || slip == Joined || slip == DecimalLost || slip == HalfLost)
				if never != (spoiled == 0) {
					t.Errorf("%d of 100 surveys spoiled", spoiled)
				}
			})
		}
	}
}

// differing returns the girths whose values differ, with the new value.
func differing(was, is parse.Survey) map[parse.Cell]parse.Length {
	cells := map[parse.Cell]parse.Length{}
	before := placesOf(&was)
	for i, now := range placesOf(&is) {
		if now.pair.HullGirth.Value != before[i].pair.HullGirth.Value {
			cells[now.hull] = now.pair.HullGirth.Value
		}
		if now.pair.FullGirth.Value != before[i].pair.FullGirth.Value {
			cells[now.full] = now.pair.FullGirth.Value
		}
	}
	return cells
}

func TestTwoSlipsLieInTwoPairs(t *testing.T) {
	rng := source(3)
	for range 100 {
		sheet := Draw(rng, Ordinary, HomeTape(parse.Inch))
		got, done, ok := sheet.Spoil(rng, TwoSlips)
		if !ok {
			continue
		}
		if len(done.Wrong) != 2 || done.Wrong[0].Cell == done.Wrong[1].Cell {
			t.Errorf("two slips at %v", done.Wrong)
		}
		if n := len(differing(sheet.Survey, got)); n != 2 {
			t.Errorf("%d numbers changed, want 2", n)
		}
	}
}

func TestRowRepeated(t *testing.T) {
	rng := source(4)
	sheet := Draw(rng, Ordinary, HomeTape(parse.Inch))
	for range 50 {
		got, done, ok := sheet.Spoil(rng, RowRepeated)
		if !ok {
			t.Fatal("no row to repeat")
		}
		for i, row := range got.Stations {
			if row.At == done.Rows[0] {
				if !reflect.DeepEqual(row.Pair, got.Stations[i-1].Pair) {
					t.Errorf("row %d differs from the one before it", i+1)
				}
			} else if !reflect.DeepEqual(row, sheet.Survey.Stations[i]) {
				t.Errorf("row %d changed too", i+1)
			}
		}
	}
}

func TestRowSkipped(t *testing.T) {
	rng := source(5)
	sheet := Draw(rng, Ordinary, HomeTape(parse.Inch))
	was := sheet.Survey.Stations
	for range 50 {
		got, done, ok := sheet.Spoil(rng, RowSkipped)
		if !ok || len(got.Stations) != len(was)-1 {
			t.Fatalf("%d rows of %d left", len(got.Stations), len(was))
		}
		moved := 0
		for i, row := range got.Stations {
			from := i
			if moved < len(done.Rows) && row.At == done.Rows[moved] {
				moved, from = moved+1, i+1
			}
			if row.At != was[i].At || !reflect.DeepEqual(row.Pair, was[from].Pair) {
				t.Errorf("row %d does not hold the girths of row %d", i+1, from+1)
			}
		}
		if moved != len(done.Rows) || moved < 3 {
			t.Errorf("%d rows moved, said %d", moved, len(done.Rows))
		}
	}
}

// Counted from the stern, the k-th row lies at the length overall less k feet.
func TestFromStern(t *testing.T) {
	rng := source(6)
	told := 0
	for range 50 {
		sheet := Draw(rng, FullForward, HomeTape(parse.Inch))
		got, _, ok := sheet.Spoil(rng, FromStern)
		if !ok {
			continue
		}
		told++
		for _, row := range got.Stations {
			x := sheet.Boat.Length - row.At.In(parse.Inch)
			hull, _ := sheet.Boat.Girths(x)
			if off := row.HullGirth.Value.In(parse.Inch) - hull; math.Abs(off) > tolerance(sheet.Boat, x) {
				t.Errorf("row at %v: hull girth %v in off", row.At.In(parse.Inch), off)
			}
		}
		if got.BowHeight.Value != sheet.Survey.BowHeight.Value && math.Abs(got.BowHeight.Value.In(parse.Inch)-sheet.Boat.BowHeight) > 1.5 {
			t.Error("the bow height moved to the stern")
		}
	}
	if told == 0 {
		t.Error("no boat tells its ends apart")
	}
}

func TestColumnCauses(t *testing.T) {
	for _, unit := range []parse.Unit{parse.Inch, parse.Centimetre} {
		other := centimetresPerInch
		mark := 1.0
		if unit == parse.Centimetre {
			other, mark = 1/centimetresPerInch, 3
		}
		tests := []struct {
			cause Slip
			name  string
			want  func(hull, full float64) (float64, float64)
		}{
			{AllSwapped, "swapped-pair", func(h, f float64) (float64, float64) { return f, h }},
			{AllOpenings, "opening-for-full", func(h, f float64) (float64, float64) { return h, f - h }},
			{AllToKeel, "half-girth", func(h, f float64) (float64, float64) { return h / 2, f }},
			{AllOtherUnit, "metric-edge", func(h, f float64) (float64, float64) { return h * other, f * other }},
			{AllFromFirstMark, "tape-offset", func(h, f float64) (float64, float64) { return h + mark, f + mark }},
		}
		for _, tt := range tests {
			rng := source(7)
			tape := HomeTape(unit)
			tape.Omit = 0
			sheet := Draw(rng, Ordinary, tape)
			got, done, ok := sheet.Spoil(rng, tt.cause)
			if !ok || done.Name != tt.name || len(done.Rows) != len(got.Stations) {
				t.Errorf("%s: %q on %d of %d rows", tt.cause, done.Name, len(done.Rows), len(got.Stations))
			}
			for i, row := range got.Stations {
				was := sheet.Survey.Stations[i]
				hull, full := tt.want(was.HullGirth.Value.In(unit), was.FullGirth.Value.In(unit))
				if math.Abs(row.HullGirth.Value.In(unit)-hull) > 0.5 || math.Abs(row.FullGirth.Value.In(unit)-full) > 0.5 {
					t.Errorf("%s, row %d: %v, %v; want %v, %v", tt.cause, i+1, row.HullGirth.Value.In(unit), row.FullGirth.Value.In(unit), hull, full)
				}
			}
		}
	}
}

// A girth shorter than the tape cannot lose its length, and a survey too short
// to judge is not spoiled.
func TestSpoilRefuses(t *testing.T) {
	sheet := Sheet{Boat: Wigley(), Tape: Tape{Unit: parse.Inch}, Survey: TrippingCanoe()}
	for _, slip := range []Slip{Ten, RowRepeated, RowSkipped, TwoSlips, AllSwapped} {
		if _, _, ok := sheet.Spoil(source(8), slip); ok {
			t.Errorf("%s befell a survey of four rows", slip)
		}
	}
}

// The slips of the trade's examples, named by the first that fits.
func TestNames(t *testing.T) {
	for _, tt := range []struct {
		truth, wrote float64
		unit         parse.Unit
		want         []string
	}{
		{51, 41, parse.Inch, []string{"off-by-ten"}},
		{35, 53, parse.Inch, []string{"transposed"}},
		{51, 39, parse.Inch, []string{"off-by-foot"}},
		{43, 48, parse.Inch, []string{"digit"}},
		{51, 129.5, parse.Inch, []string{"metric-edge"}},
		{51.5, 515, parse.Inch, []string{"decimal-lost"}},
		{47, 311, parse.Inch, []string{"feet-inches-joined"}},
		{83, 23, parse.Inch, []string{"digit", "tape-length"}},
		{63, 53, parse.Inch, []string{"off-by-ten"}}, // also 5 ft 3 in run together
		{44, 44.5, parse.Inch, nil},
		{51, 39, parse.Centimetre, nil}, // no foot marks
		{129, 51, parse.Centimetre, []string{"metric-edge"}},
	} {
		if got := Names(tt.truth, tt.wrote, tt.unit); !slices.Equal(got, tt.want) {
			t.Errorf("%v for %v %s: %q, want %q", tt.wrote, tt.truth, tt.unit, got, tt.want)
		}
	}
}
