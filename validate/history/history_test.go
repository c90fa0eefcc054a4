package history

import (
	"math"
	"slices"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

// surveyed is a boat whose bow and stern differ, measured without error, so that
// whatever a test changes is all that differs.
func surveyed(t *testing.T) parse.Survey {
	t.Helper()
	s, err := known.Canoe1889(known.SuspectsFixed)
	if err != nil {
		t.Fatal(err)
	}
	s.Boat = "Heron 15, cedar"
	return s
}

func changed(s parse.Survey, change func(i int, st *parse.Station)) parse.Survey {
	s.Stations = slices.Clone(s.Stations)
	for i := range s.Stations {
		change(i, &s.Stations[i])
	}
	return s
}

func TestNearest(t *testing.T) {
	boat := surveyed(t)
	past := []Boat{{Job: 9, Survey: boat}}
	more := func(r *parse.Reading, inches float64) { r.Value += parse.Inches(inches) }
	moved := func(by int) parse.Survey {
		return changed(boat, func(i int, st *parse.Station) {
			st.Pair = boat.Stations[min(max(i-by, 0), len(boat.Stations)-1)].Pair
		})
	}
	n := len(boat.Stations)
	for _, test := range []struct {
		name   string
		survey parse.Survey
		found  bool
		rows   Shift
		hull   float64 // inches
		full   float64
		differ []parse.Cell
	}{
		{name: "another length", survey: func() parse.Survey { s := boat; more(&s.LengthOverall, 6); return s }()},
		{name: "no length", survey: func() parse.Survey { s := boat; s.LengthOverall = parse.Reading{}; return s }()},
		{name: "too few rows", survey: func() parse.Survey { s := boat; s.Stations = s.Stations[:3]; return s }()},
		{name: "another boat of that length", survey: changed(boat, func(i int, st *parse.Station) {
			more(&st.HullGirth, 3*float64(i%3))
			more(&st.FullGirth, 4*float64(i%4))
		})},
		{name: "the same", survey: boat, found: true},
		{name: "by another name, but the same", survey: func() parse.Survey { s := boat; s.Boat = "our canoe"; return s }(), found: true},
		{name: "one number", survey: changed(boat, func(i int, st *parse.Station) {
			if i == 6 {
				more(&st.FullGirth, -10)
			}
		}), found: true, differ: []parse.Cell{{At: boat.Stations[6].At, Measure: parse.FullGirth}}},
		{name: "a column", survey: changed(boat, func(_ int, st *parse.Station) { more(&st.FullGirth, 1) }), found: true, full: 1},
		{name: "both columns", survey: changed(boat, func(_ int, st *parse.Station) { more(&st.HullGirth, 1); more(&st.FullGirth, 1) }), found: true, hull: 1, full: 1},
		{name: "a row too far aft", survey: func() parse.Survey { s := moved(1); s.Stations = s.Stations[1:]; return s }(), found: true, rows: TowardsStern},
		{name: "a row too far forward", survey: func() parse.Survey { s := moved(-1); s.Stations = s.Stations[:n-1]; return s }(), found: true, rows: TowardsBow},
		{name: "from the stern", survey: fromStern(boat), found: true, rows: FromStern},
	} {
		t.Run(test.name, func(t *testing.T) {
			got, found := Nearest(test.survey, past)
			if found != test.found {
				t.Fatalf("found: %v, %+v", found, got)
			}
			if !found {
				return
			}
			near := func(l parse.Length, inches float64) bool {
				return math.Abs(float64(l-parse.Inches(inches))) < 0.2*perInch
			}
			if got.Rows != test.rows || !near(got.OffHull, test.hull) || !near(got.OffFull, test.full) {
				t.Errorf("rows %q, hull %v mm, full %v mm off", got.Rows, got.OffHull, got.OffFull)
			}
			var differ []parse.Cell
			for _, d := range got.Differ {
				differ = append(differ, d.Cell)
			}
			if !slices.Equal(differ, test.differ) {
				t.Errorf("%v differ, want %v", differ, test.differ)
			}
		})
	}
}

// fromStern writes the rows in the order in which one measures who begins at
// the stern.
func fromStern(boat parse.Survey) parse.Survey {
	s := boat
	s.Stations = nil
	for _, st := range slices.Backward(boat.Stations) {
		st.At = boat.LengthOverall.Value - st.At
		s.Stations = append(s.Stations, st)
	}
	return s
}

func TestNearestIsTheNearest(t *testing.T) {
	boat := surveyed(t)
	worse := changed(boat, func(i int, st *parse.Station) { st.HullGirth.Value += parse.Inches(0.4 * float64(i%2)) })
	got, found := Nearest(boat, []Boat{{Job: 3, Survey: worse}, {Job: 9, Survey: boat}, {Job: 12, Survey: worse}})
	if !found || got.Boat.Job != 9 {
		t.Errorf("job %d, found %v", got.Boat.Job, found)
	}
}

func TestSameMake(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want bool
	}{
		{"", "", false},
		{"Heron 15", "", false},
		{"Heron 15", "Heron 17", false},
		{"Heron 15", "Otter 15", false},
		{"Heron 15", "heron 15", true},
		{"Heron 15, cedar", "Cedar HERON 15", true},
	} {
		if got := sameMake(test.a, test.b); got != test.want {
			t.Errorf("%q and %q: %v", test.a, test.b, got)
		}
	}
}
