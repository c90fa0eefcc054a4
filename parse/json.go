package parse

import "encoding/json"

// The JSON of a survey gives every length as a plain number in the survey's
// unit, and has all keys always: what is absent is null, or [] for lists.

type surveyJSON struct {
	Unit          *Unit          `json:"unit"`
	Customer      *string        `json:"customer"`
	Boat          *string        `json:"boat"`
	Decked        bool           `json:"decked"`
	Stern         Stern          `json:"stern"`
	LengthOverall *readingJSON   `json:"length_overall"`
	BowHeight     *readingJSON   `json:"bow_height"`
	SternHeight   *readingJSON   `json:"stern_height"`
	CarryPoint    *readingJSON   `json:"carry_point"`
	Greatest      greatestJSON   `json:"greatest"`
	Transom       pairJSON       `json:"transom"`
	Stations      []*stationJSON `json:"stations"`
}

type pairJSON struct {
	HullGirth *readingJSON `json:"hull_girth"`
	FullGirth *readingJSON `json:"full_girth"`
}

type greatestJSON struct {
	At *readingJSON `json:"at"`
	pairJSON
	Opening *readingJSON `json:"opening"`
}

type stationJSON struct {
	At float64 `json:"at"`
	pairJSON
}

type readingJSON struct {
	Value        *float64        `json:"value"`
	Raw          string          `json:"raw"`
	File         string          `json:"file"`
	Place        string          `json:"place"`
	Confidence   float64         `json:"confidence"`
	Alternatives []candidateJSON `json:"alternatives"`
}

type candidateJSON struct {
	Value       float64 `json:"value"`
	Probability float64 `json:"probability"`
}

// MarshalJSON writes the survey as the contract for scripts has it.
func (s Survey) MarshalJSON() ([]byte, error) {
	pair := func(p Pair) pairJSON {
		return pairJSON{encodeReading(p.HullGirth, s.Unit), encodeReading(p.FullGirth, s.Unit)}
	}
	out := surveyJSON{
		Customer:      optional(s.Customer),
		Boat:          optional(s.Boat),
		Unit:          optional(s.Unit),
		Decked:        s.Decked,
		Stern:         s.Stern,
		LengthOverall: encodeReading(s.LengthOverall, s.Unit),
		BowHeight:     encodeReading(s.BowHeight, s.Unit),
		SternHeight:   encodeReading(s.SternHeight, s.Unit),
		CarryPoint:    encodeReading(s.CarryPoint, s.Unit),
		Greatest: greatestJSON{
			At:       encodeReading(s.Greatest.At, s.Unit),
			pairJSON: pair(s.Greatest.Pair),
			Opening:  encodeReading(s.Greatest.Opening, s.Unit),
		},
		Transom:  pair(s.Transom),
		Stations: []*stationJSON{},
	}
	if out.Stern == "" {
		out.Stern = Pointed
	}
	for _, st := range s.Stations {
		out.Stations = append(out.Stations, &stationJSON{st.At.In(s.Unit), pair(st.Pair)})
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (s *Survey) UnmarshalJSON(data []byte) error {
	var in surveyJSON
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	unit := required(in.Unit)
	pair := func(p pairJSON) Pair {
		return Pair{decodeReading(p.HullGirth, unit), decodeReading(p.FullGirth, unit)}
	}
	*s = Survey{
		Unit:          unit,
		Customer:      required(in.Customer),
		Boat:          required(in.Boat),
		Decked:        in.Decked,
		Stern:         in.Stern,
		LengthOverall: decodeReading(in.LengthOverall, unit),
		BowHeight:     decodeReading(in.BowHeight, unit),
		SternHeight:   decodeReading(in.SternHeight, unit),
		CarryPoint:    decodeReading(in.CarryPoint, unit),
		Greatest: Greatest{
			At:      decodeReading(in.Greatest.At, unit),
			Pair:    pair(in.Greatest.pairJSON),
			Opening: decodeReading(in.Greatest.Opening, unit),
		},
		Transom: pair(in.Transom),
	}
	for _, st := range in.Stations {
		s.Stations = append(s.Stations, Station{Measured(st.At, unit), pair(st.pairJSON)})
	}
	return nil
}

func encodeReading(r Reading, unit Unit) *readingJSON {
	if r.Absent() {
		return nil
	}
	out := &readingJSON{
		Raw:          r.Source.Raw,
		File:         r.Source.File,
		Place:        r.Source.Place,
		Confidence:   r.Confidence,
		Alternatives: []candidateJSON{},
	}
	if r.Known {
		v := r.Value.In(unit)
		out.Value = &v
	}
	for _, c := range r.Alternatives {
		out.Alternatives = append(out.Alternatives, candidateJSON{c.Value.In(unit), c.Probability})
	}
	return out
}

func decodeReading(in *readingJSON, unit Unit) Reading {
	if in == nil {
		return Reading{}
	}
	r := Reading{
		Confidence: in.Confidence,
		Source:     Source{File: in.File, Place: in.Place, Raw: in.Raw},
	}
	if in.Value != nil {
		r.Value, r.Known = Measured(*in.Value, unit), true
	}
	for _, c := range in.Alternatives {
		r.Alternatives = append(r.Alternatives, Candidate{Measured(c.Value, unit), c.Probability})
	}
	return r
}

type problemJSON struct {
	Code    Code   `json:"code"`
	File    string `json:"file"`
	Place   string `json:"place"`
	Raw     string `json:"raw"`
	Message string `json:"message"`
	Shown   *Crop  `json:"shown,omitempty"`
}

// MarshalJSON writes the problem as the contract for scripts has it, and the
// raw text with it.
func (p Problem) MarshalJSON() ([]byte, error) {
	return json.Marshal(problemJSON{p.Code, p.Source.File, p.Source.Place, p.Source.Raw, p.Message, p.Shown})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (p *Problem) UnmarshalJSON(data []byte) error {
	var in problemJSON
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	*p = Problem{in.Code, Source{in.File, in.Place, in.Raw}, in.Message, in.Shown}
	return nil
}

// optional is nil for the zero value, which JSON writes as null.
func optional[T comparable](v T) *T {
	var zero T
	if v == zero {
		return nil
	}
	return &v
}

func required[T any](v *T) T {
	var zero T
	if v == nil {
		return zero
	}
	return *v
}
