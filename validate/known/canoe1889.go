package known

import (
	"bytes"
	_ "embed" // the printed tables
	"encoding/csv"
	"fmt"
	"strconv"

	"fairtape/parse"
)

//go:embed data/stephens1889_girths.csv
var girths1889 []byte

//go:embed data/stephens1889_american_cruising_canoe.csv
var offsets1889 []byte

// Variant is a reading of the table printed in 1889.
type Variant string

// The variants: as the table was printed and transcribed, and with four
// probable slips of the printer put right.
const (
	AsPrinted     Variant = "as_printed"
	SuspectsFixed Variant = "suspects_fixed"
)

// Canoe1889 returns the American Cruising Canoe of 14 ft (W. P. Stephens, Canoe
// and Boat Building, 1889, Plate XI) as a survey in inches, rounded to half
// inches, with the heights of its deck at stem and stern over the bottom
// amidships. The girths are those of polylines through the printed offsets. It
// is a decked boat, surveyed here without its deck. Neither a carry point nor a
// greatest girth between stations was printed.
func Canoe1889(variant Variant) (parse.Survey, error) {
	rows, err := table(girths1889)
	if err != nil {
		return parse.Survey{}, fmt.Errorf("girths of the 1889 canoe: %w", err)
	}
	ends, err := table(offsets1889)
	if err != nil {
		return parse.Survey{}, fmt.Errorf("offsets of the 1889 canoe: %w", err)
	}
	tape := Tape{Unit: parse.Inch}
	half := func(inches float64) parse.Reading { return typed(tape.grid(inches), parse.Inch) }
	first, last := ends[0], ends[len(ends)-1]
	length, err := number(last, "station_ft")
	if err != nil {
		return parse.Survey{}, err
	}
	bow, err := number(first, "deck_h_in")
	if err != nil {
		return parse.Survey{}, err
	}
	stern, err := number(last, "deck_h_in")
	if err != nil {
		return parse.Survey{}, err
	}
	s := parse.Survey{
		Unit: parse.Inch, Stern: parse.Pointed, Boat: "American Cruising Canoe, 1889",
		LengthOverall: half(length * inchesPerFoot), BowHeight: half(bow), SternHeight: half(stern),
	}
	for _, row := range rows {
		if row["variant"] != string(variant) {
			continue
		}
		var x, hull, full float64
		for name, into := range map[string]*float64{"x_in": &x, "U_polyline_in": &hull, "O_polyline_in": &full} {
			if *into, err = number(row, name); err != nil {
				return parse.Survey{}, err
			}
		}
		s.Stations = append(s.Stations, parse.Station{
			At:   parse.Inches(x),
			Pair: parse.Pair{HullGirth: half(hull), FullGirth: half(full)},
		})
	}
	if len(s.Stations) == 0 {
		return parse.Survey{}, fmt.Errorf("the 1889 canoe has no variant %q", variant)
	}
	return s, nil
}

// table reads a table with a heading as maps from column to text.
func table(text []byte) ([]map[string]string, error) {
	lines, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		return nil, err
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return rows, nil
}

func number(row map[string]string, column string) (float64, error) {
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		return 0, fmt.Errorf("column %s: %w", column, err)
	}
	return x, nil
}
