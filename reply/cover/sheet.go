package cover

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"fairtape/parse"
	"fairtape/reply/cover/nest"
	"fairtape/validate"
)

// Order says what a sheet is made for.
type Order struct {
	Shop     string
	Job      string // "" for a survey that belongs to no job
	Sheet    int    // number of the sheet, from 1
	Replaces int    // number of the sheet that this one makes void, 0 for none
	Date     time.Time
	Cloth    Cloth
	Draft    bool // an unsettled survey is cut too, and the sheet says so
	// Profiles are the traced ends of the boat, bow and stern, where the shop lets
	// photographs of them stand in the place of paper.
	Profiles [2]*Profile
}

// CutSheet is everything that the cutter needs.
type CutSheet struct {
	Order
	Cover
	Unit     parse.Unit
	Customer string
	Boat     string
	Decked   bool
	Ends     [2]float64 // heights of bow and stern, inches, 0 where not known
	Carry    float64    // inches, 0 where not known
	Rows     []Row
	// How surely the curve knows what was not measured: between the stations that
	// panels are cut from, and beyond them to bow and stern.
	Stretches []Stretch
	Beyond    [2]Stretch
	Settled   bool
	Open      []string // what is not settled
	Pieces    []nest.Piece
	Lay       nest.Layout
	Boxes     nest.Layout // the same pieces as boxes
	Notions   []Notion
}

// Row is a station as it was measured and as the fair curve has it, in inches.
// A girth that was not read is 0.
type Row struct {
	At            float64
	Read, Curve   [2]float64 // hull girth and full girth
	Place         int        // of the hull
	Finished, Cut float64    // full girth of the finished cover; with the seam allowances of the panels
}

// ErrUnsettled is returned for a survey that waits for an answer, unless a
// draft was asked for.
var ErrUnsettled = errors.New("the survey is not settled")

// Make designs the cover of a judged survey. The error is ErrUnsettled or a
// *Refusal; any other is ours.
func Make(r validate.Report, o Order) (CutSheet, error) {
	settled := r.Verdict == validate.Clean
	if !settled && !o.Draft {
		return CutSheet{}, ErrUnsettled
	}
	if o.Job != "" && !o.Draft && (o.Cloth.Name == "" || o.Cloth.Colour == "") {
		return CutSheet{}, &Refusal{[]Reason{{"cloth", "say which cloth, and which colour, the cover of the job is made of"}}}
	}
	if r.Curve == nil {
		return CutSheet{}, &Refusal{[]Reason{{"boat", "there are too few girths for a fair curve"}}}
	}
	s := CutSheet{
		Order: o, Unit: r.Survey.Unit, Customer: r.Survey.Customer, Boat: r.Survey.Boat,
		Decked: r.Survey.Decked, Settled: settled, Open: open(r),
		Ends: [2]float64{value(r.Survey.BowHeight), value(r.Survey.SternHeight)}, Carry: value(r.Survey.CarryPoint),
	}
	_, length := r.Curve.Span()
	var astray string
	if s.Carry >= length/2 {
		astray = fmt.Sprintf("The carry point was given as %s, which is abaft midships: no slit is marked.", s.Say(s.Carry))
		s.Carry = 0
	}
	var stations []float64
	stations, s.Rows = rows(r.Survey, length)
	places := stations
	if s.Carry > 0 {
		places = append(slices.Clone(stations), s.Carry)
	}
	hull := Sketch(r.Curve, places, s.Ends[0], s.Ends[1])
	var err error
	s.Cover, err = Design(Request{Hull: hull, Stations: stations, Ends: s.Ends, Carry: s.Carry, Profiles: o.Profiles}, o.Cloth)
	if err != nil {
		return CutSheet{}, err
	}
	if hull, full, ok := transomOf(r, hull); ok {
		s.Transom = o.Cloth.transom(hull, full, s.Ends[1])
	}
	s.fill()
	s.reckon(r.Curve, stations)
	if s.Pieces, err = s.Cover.pieces(); err != nil {
		return CutSheet{}, err
	}
	usable := inches(o.Cloth.UsableWidth)
	if s.Lay, err = nest.Lay(s.Pieces, usable); err != nil {
		return CutSheet{}, fmt.Errorf("lay the panels on the roll: %w", err)
	}
	if s.Boxes, err = nest.Boxes(s.Pieces, usable); err != nil {
		return CutSheet{}, fmt.Errorf("lay the panels on the roll: %w", err)
	}
	if astray != "" {
		s.Notes = []string{astray}
	}
	s.Notes = append(s.notes(r.Survey), s.Notes...)
	s.Notions = notions(s.Cover)
	return s, nil
}

// value returns a reading in inches, 0 when it is not known.
func value(r parse.Reading) float64 {
	if !r.Certain() {
		return 0
	}
	return inches(r.Value)
}

// open lists what an unsettled survey waits for.
func open(r validate.Report) []string {
	var list []string
	for _, f := range r.Findings {
		if f.Kind != validate.Note {
			list = append(list, f.Message)
		}
	}
	for _, p := range r.Problems {
		list = append(list, p.Message)
	}
	return list
}

// rows returns the stations on the boat, each once, and their readings.
func rows(s parse.Survey, length float64) ([]float64, []Row) {
	var at []float64
	var rows []Row
	for _, st := range s.Stations {
		x := inches(st.At)
		if x <= step || x >= length-step || slices.ContainsFunc(at, func(a float64) bool { return math.Abs(a-x) < step }) {
			continue
		}
		at = append(at, x)
		rows = append(rows, Row{At: x, Read: [2]float64{value(st.HullGirth), value(st.FullGirth)}})
	}
	slices.Sort(at)
	slices.SortFunc(rows, func(a, b Row) int {
		if a.At < b.At {
			return -1
		}
		return 1
	})
	return at, rows
}

// fill gives the rows what the curve and the cover make of them.
func (s *CutSheet) fill() {
	h, c := s.Hull, s.Order.Cloth
	for i := range s.Rows {
		r := &s.Rows[i]
		r.Place = h.index(r.At)
		r.Curve = [2]float64{h.Girth[r.Place], h.Full(r.Place)}
		r.Finished = r.Curve[1] * (1 - c.GirthReduction*h.share(r.At))
		r.Cut = r.Finished
		for _, p := range s.Panels {
			r.Cut += p.Near.Allowance + p.Far.Allowance
		}
	}
}

// FairDiffers is the difference of reading and curve from which the sheet says
// so, in inches: what a reading is written to, so that rounding alone never does.
const FairDiffers = 0.5

// notes are what the cutter must know of the numbers.
func (s *CutSheet) notes(survey parse.Survey) []string {
	var list []string
	for _, r := range s.Rows {
		for k, name := range []string{"hull girth", "full girth"} {
			if read := r.Read[k]; read > 0 && math.Abs(read-r.Curve[k]) > FairDiffers {
				list = append(list, fmt.Sprintf("%s: %s was written %s, the fair curve has %s. The panels follow the curve.",
					s.Station(r.At), name, s.Say(read), s.Say(r.Curve[k])))
			}
		}
	}
	list = append(list, s.doubtNotes()...)
	for _, l := range s.Lines {
		if math.Abs(l.OffInside()) > LineNote {
			list = append(list, fmt.Sprintf("%s panel: from %s to %s the %s line is %s on the cloth and %s on the boat less the reduction. Take the difference up in tucks near the ends.",
				l.Panel, s.Station(l.From), s.Station(l.To), l.Line, s.Say(l.ClothInside), s.Say(l.MeantInside)))
		}
	}
	for _, p := range s.Panels {
		if m := p.steepest(); !p.Mirrored && m.Lean() > LeanNote {
			list = append(list, fmt.Sprintf("%s panel: the station at %s leans by %.0f degrees on the cloth. Woven cloth gives way to that; in a stiff or coated cloth try the seam with pins first.",
				p.Name, s.Station(m.At), m.Lean()))
		}
	}
	for _, j := range s.Seams {
		for _, span := range j.Spans {
			if span.Difference() > SpanNote {
				list = append(list, fmt.Sprintf("%s, %s to %s: the edges differ by %.1f %% (%s and %s). They will not go together by easing alone.",
					j.Name, s.Station(span.From), s.Station(span.To), 100*span.Difference(), s.Say(span.Edges[0]), s.Say(span.Edges[1])))
			}
		}
	}
	for _, p := range s.Panels {
		if len(p.Joins) > 0 {
			list = append(list, fmt.Sprintf("%s panel: wider than the roll, joined %s from the %s%s; the parts have an allowance of %s there.",
				p.Name, s.Say(p.Joins[len(p.Joins)-1]), p.Datum, both(p.Middle), s.Say(inches(s.Order.Cloth.SeamAllowance))))
		}
	}
	for k, end := range []string{"bow", "stern"} {
		if profile := s.Profiles[k]; profile != nil {
			list = append(list, fmt.Sprintf("The %s follows a photograph of its tracing, which may be off by %.1f mm. Lay the paper on the cloth before cutting if it has come.", end, profile.Error*millimetresPerInch))
			list = append(list, profile.against(end, s.Ends[k], s.Say)...)
		}
	}
	if survey.Stern == parse.Square {
		list = append(list, fmt.Sprintf("Square stern: the cover ends in a transom panel. Hull girth there %s, full girth %s as written; its depth is sketched and its rake is on the stern tracing.",
			s.written(survey.Transom.HullGirth), s.written(survey.Transom.FullGirth)))
	}
	if s.Decked {
		list = append(list, "Decked boat: the full girth runs over the crown, so the top panel lies over the deck.")
	}
	return list
}

func both(sides bool) string {
	if sides {
		return " on both sides"
	}
	return ""
}

// written is a reading as the sheet writes lengths.
func (s *CutSheet) written(r parse.Reading) string {
	if !r.Certain() {
		return "not given"
	}
	return s.Say(inches(r.Value))
}
