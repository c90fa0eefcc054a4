package validate

import (
	"slices"
	"testing"

	"fairtape/parse"
	"fairtape/validate/slip"
)

// TestRules puts one number of the Wigley hull on either side of each limit.
func TestRules(t *testing.T) {
	at := func(i int, hull, full float64) func(*parse.Survey) {
		return func(s *parse.Survey) {
			s.Stations[i].HullGirth, s.Stations[i].FullGirth = inch(hull), inch(full)
		}
	}
	decked := func(f func(*parse.Survey)) func(*parse.Survey) {
		return func(s *parse.Survey) { s.Decked = true; f(s) }
	}
	for _, test := range []struct {
		name   string
		change func(*parse.Survey)
		rule   Rule
		want   Kind // "" when the rule is kept
	}{
		{"full girth equal to hull girth", at(6, 42.5, 42.5), FullNotAboveHull, Recheck},
		{"full girth below hull girth", at(6, 74.5, 42.5), FullNotAboveHull, Confirm},
		{"full girth above hull girth", at(6, 42.5, 74.5), FullNotAboveHull, ""},
		{"opening of half an inch", at(6, 42.5, 43), OpeningTooSmall, Recheck},
		{"opening of an inch", at(6, 42.5, 43.5), OpeningTooSmall, ""},
		{"more than twice the hull girth", at(6, 42.5, 86.5), FullAboveTwiceHull, Recheck},
		{"twice the hull girth and rounding", at(6, 42.5, 86), FullAboveTwiceHull, ""},
		{"more than twice, on a decked boat", decked(at(6, 42.5, 86.5)), FullAboveTwiceHull, Note},

		{"bow lower than the first section", func(s *parse.Survey) { s.BowHeight = inch(5.5) }, HeightFitsStations, Recheck},
		{"bow as low as the first section", func(s *parse.Survey) { s.BowHeight = inch(6) }, HeightFitsStations, ""},
		{"stern far above the last section", func(s *parse.Survey) { s.SternHeight = inch(28.5) }, HeightFitsStations, Recheck},
		{"stern high above the last section", func(s *parse.Survey) { s.SternHeight = inch(28) }, HeightFitsStations, ""},
		{"stern far above, decked", func(s *parse.Survey) { s.Decked = true; s.SternHeight = inch(28.5) }, HeightFitsStations, ""},

		{"greatest below a station", func(s *parse.Survey) { s.Greatest.FullGirth = inch(73.5) }, GreatestBelow, Recheck},
		{"greatest below by the tape's slack", func(s *parse.Survey) { s.Greatest.FullGirth = inch(74) }, GreatestBelow, ""},
		{"greatest two stations off", func(s *parse.Survey) { s.Greatest.At = inch(121) }, GreatestPlace, Recheck},
		{"greatest one station off", func(s *parse.Survey) { s.Greatest.At = inch(120) }, GreatestPlace, ""},
		{"greatest outside the boat", func(s *parse.Survey) { s.Greatest.At = inch(193) }, GreatestPlace, Recheck},
		{"opening an inch over the difference", func(s *parse.Survey) { s.Greatest.Opening = inch(34) }, OpeningControl, Note},
		{"opening half an inch over", func(s *parse.Survey) { s.Greatest.Opening = inch(33.5) }, OpeningControl, ""},
		{"opening over the difference, decked", func(s *parse.Survey) { s.Decked = true; s.Greatest.Opening = inch(34) }, OpeningControl, ""},

		{"a station twice", func(s *parse.Survey) { s.Stations = slices.Insert(s.Stations, 7, station(84, 40, 70)) }, StationTwice, Recheck},
		{"a station twice with the same girths", func(s *parse.Survey) { s.Stations = slices.Insert(s.Stations, 7, s.Stations[6]) }, StationTwice, Note},
		{"a station beyond the stern", func(s *parse.Survey) { s.Stations = append(s.Stations, station(193.5, 25, 30)) }, StationBeyond, Recheck},
		{"a station at the stern", func(s *parse.Survey) { s.Stations = append(s.Stations, station(193, 25, 30)) }, StationBeyond, ""},
		{"the last station inside", func(*parse.Survey) {}, StationBeyond, ""},
		{"no boat so short", func(s *parse.Survey) { s.LengthOverall = inch(47) }, LengthOfBoat, Recheck},
		{"a boat as short as there are", func(s *parse.Survey) { s.LengthOverall = inch(48) }, LengthOfBoat, ""},
		{"no boat so long", func(s *parse.Survey) { s.LengthOverall = inch(481) }, LengthOfBoat, Recheck},
		{"a boat as long as there are", func(s *parse.Survey) { s.LengthOverall = inch(480) }, LengthOfBoat, ""},

		{"carry point at the middle", func(s *parse.Survey) { s.CarryPoint = inch(96) }, CarryPointPlace, Recheck},
		{"carry point from the stern", func(s *parse.Survey) { s.CarryPoint = inch(170) }, CarryPointPlace, Confirm},
		{"carry point farther than usual", func(s *parse.Survey) { s.CarryPoint = inch(60.5) }, CarryPointPlace, Note},
		{"carry point as far as usual", func(s *parse.Survey) { s.CarryPoint = inch(60) }, CarryPointPlace, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := wigley()
			s.Stations = slices.Clone(s.Stations)
			test.change(&s)
			found := hardRules(s, s)
			i := slices.IndexFunc(found, func(f Finding) bool { return f.Rule == test.rule })
			switch {
			case i < 0 && test.want != "":
				t.Errorf("the rule says nothing, want %s", test.want)
			case i >= 0 && found[i].Kind != test.want:
				t.Errorf("got %s, want %q: %s", found[i].Kind, test.want, found[i].Message)
			}
		})
	}
}

// TestTransomIsBoundToo holds the pair at a square stern to the rules of pairs.
func TestTransomIsBoundToo(t *testing.T) {
	s := wigley()
	s.Stern = parse.Square
	s.Transom = parse.Pair{HullGirth: inch(50), FullGirth: inch(40)}
	found := pairRules(s)
	if len(found) != 1 || found[0].Cell.Measure != parse.TransomPair {
		t.Errorf("got %v", messages(found))
	}
	s.Transom = parse.Pair{HullGirth: inch(40), FullGirth: inch(70)}
	if found := pairRules(s); len(found) != 0 {
		t.Errorf("got %v", messages(found))
	}
}

// TestOneFindingForOneNumber holds that a rule explained by a slip is not a
// second question.
func TestOneFindingForOneNumber(t *testing.T) {
	s := wigley()
	s.Stations = slices.Clone(s.Stations)
	s.Stations[6] = station(84, 74.5, 42.5)
	got := asked(Check(s, nil, usual))
	if len(got) != 1 || got[0].Rule != FullNotAboveHull || got[0].Slip != slip.SwappedPair {
		t.Errorf("got %v", messages(got))
	}
}

// TestSkippedRowsAreWhereTheyBelong holds that the greatest pair is looked for
// among the rows as they belong, not as a skipped station left them.
func TestSkippedRowsAreWhereTheyBelong(t *testing.T) {
	s := wigley()
	s.Greatest.At = inch(100)
	rows := slices.Clone(s.Stations)
	for i := 4; i+1 < len(rows); i++ {
		rows[i].Pair = rows[i+1].Pair
	}
	s.Stations = rows[:len(rows)-1]
	got := asked(Check(s, nil, usual))
	if len(got) != 1 || got[0].Slip != slip.RowSkipped {
		t.Errorf("got %v", messages(got))
	}
}

func TestMissing(t *testing.T) {
	cut := func(from, to int) func(*parse.Survey) {
		return func(s *parse.Survey) { s.Stations = slices.Delete(slices.Clone(s.Stations), from, to) }
	}
	for _, test := range []struct {
		name   string
		change func(*parse.Survey)
		want   int
	}{
		{"nothing", func(*parse.Survey) {}, 0},
		{"length", func(s *parse.Survey) { s.LengthOverall = parse.Reading{} }, 1},
		{"both heights", func(s *parse.Survey) { s.BowHeight, s.SternHeight = parse.Reading{}, parse.Reading{} }, 2},
		{"carry point", func(s *parse.Survey) { s.CarryPoint = parse.Reading{} }, 1},
		{"greatest pair", func(s *parse.Survey) { s.Greatest = parse.Greatest{} }, 1},
		{"one girth of the greatest", func(s *parse.Survey) { s.Greatest.HullGirth = parse.Reading{} }, 1},
		{"control of the opening is optional", func(s *parse.Survey) { s.Greatest.Opening = parse.Reading{} }, 0},
		{"one station", cut(4, 5), 1},
		{"a run of stations", cut(4, 8), 1},
		{"every other station", func(s *parse.Survey) {
			all := s.Stations
			s.Stations = nil
			for i := 1; i < len(all); i += 2 {
				s.Stations = append(s.Stations, all[i])
			}
		}, 1},
		{"last station, a foot from the stern", cut(14, 15), 1},
		{"last station, near the stern", func(s *parse.Survey) { s.LengthOverall = inch(184); cut(14, 15)(s) }, 0},
		{"a blank girth", func(s *parse.Survey) {
			s.Stations = slices.Clone(s.Stations)
			s.Stations[3].FullGirth = parse.Reading{}
		}, 1},
		{"a doubtful girth is not missing", func(s *parse.Survey) {
			s.Stations = slices.Clone(s.Stations)
			s.Stations[3].FullGirth = parse.Reading{Alternatives: []parse.Candidate{{Value: parse.Inches(60), Probability: 0.5}}}
		}, 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := wigley()
			test.change(&s)
			if got := missing(s); len(got) != test.want {
				t.Errorf("got %v, want %d", messages(got), test.want)
			}
		})
	}
}
