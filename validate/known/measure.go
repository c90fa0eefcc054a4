package known

import (
	"math"
	"math/rand/v2"
	"strconv"

	"fairtape/parse"
)

// Tape says how a boat is measured. Lengths are inches.
type Tape struct {
	Unit    parse.Unit
	Noise   float64 // standard deviation of one girth
	Place   float64 // standard deviation of where the loop lies along the boat
	Drift   float64 // standard deviation of the stations' spacing, as a share of it
	Slack   float64 // standard deviation of an error common to all girths of one survey
	Omit    float64 // probability that an optional number is left blank
	Exactly bool    // round to the grid and add nothing else
}

// The errors of a careful first-time user. Girths taken twice by untrained
// people with a home-made tape differ by 0.08 to 0.76 in (Barrios 2016, BMC
// Medical Research Methodology 16:49); the others are common practice, no
// source.
const (
	tapeNoise  = 0.18
	placeNoise = 0.25
	drift      = 0.002
	slackNoise = 0.08
	omitted    = 0.1
)

// HomeTape returns the tape of a careful first-time user writing the unit.
func HomeTape(unit parse.Unit) Tape {
	return Tape{Unit: unit, Noise: tapeNoise, Place: placeNoise, Drift: drift, Slack: slackNoise, Omit: omitted}
}

// grid returns the nearest value a customer of the unit writes: half inches,
// whole centimetres.
func (t Tape) grid(inches float64) parse.Length {
	if t.Unit == parse.Centimetre {
		return parse.Centimetres(math.Round(inches * centimetresPerInch))
	}
	return parse.Inches(math.Round(inches*2) / 2)
}

const centimetresPerInch = 2.54

// spacing returns the distance between stations in inches.
func (t Tape) spacing() float64 {
	if t.Unit == parse.Centimetre {
		return 30 / centimetresPerInch
	}
	return inchesPerFoot
}

// How near the stern, in inches, a station may be left out, and how near it
// always is, since the loop would slip off.
const (
	lastMayLack = 4
	lastLacks   = 1
)

// lacks reports whether a station so near the stern is left out.
func (m measuring) lacks(fromStern float64) bool {
	return fromStern < lastLacks || fromStern <= lastMayLack && m.rng.IntN(2) == 0
}

// Measure returns the survey that somebody with the tape makes of the boat.
func (b Boat) Measure(rng *rand.Rand, t Tape) parse.Survey {
	return t.measure(rng, b, false)
}

// measure lays the loop over the boat; from the stern, stations and the place
// of the greatest girth are counted from the wrong end.
func (t Tape) measure(rng *rand.Rand, b Boat, fromStern bool) parse.Survey {
	m := measuring{tape: t, rng: rng, boat: b, fromStern: fromStern}
	if !t.Exactly {
		m.slack = t.Slack * rng.NormFloat64()
		m.drift = t.Drift * rng.NormFloat64()
	}
	s := parse.Survey{Unit: t.Unit, Decked: b.Decked, Stern: b.Stern}
	s.LengthOverall = m.read(b.Length, heightNoise)
	s.BowHeight = m.read(b.BowHeight, heightNoise)
	s.SternHeight = m.read(b.SternHeight, heightNoise)
	if !m.leftOut() {
		s.CarryPoint = m.read(b.CarryPoint, heightNoise)
	}
	largest, most := 0.0, 0.0
	for k := 1; float64(k)*t.spacing() < b.Length-1e-6; k++ {
		x := float64(k) * t.spacing()
		if !t.Exactly && m.lacks(b.Length-x) {
			break
		}
		at := parse.Measured(math.Round(float64(k)*t.step()), t.Unit)
		pair := m.pair(x)
		s.Stations = append(s.Stations, parse.Station{At: at, Pair: pair})
		if full := pair.FullGirth.Value.In(parse.Inch); full > most {
			largest, most = x, full
		}
	}
	if largest > 0 {
		s.Greatest = m.greatest(largest)
	}
	if b.Stern == parse.Square {
		s.Transom = m.pair(b.Length)
	}
	return s
}

// step returns the distance between stations in the survey's unit.
func (t Tape) step() float64 {
	if t.Unit == parse.Centimetre {
		return 30
	}
	return inchesPerFoot
}

// heightNoise is the standard deviation, in inches, of a length taken along a
// straight edge. Common practice, no source.
const heightNoise = 0.2

// measuring is one survey in the making.
type measuring struct {
	tape      Tape
	rng       *rand.Rand
	boat      Boat
	slack     float64 // inches on every girth
	drift     float64 // what the spacing of the stations is too large by, as a share
	fromStern bool
}

func (m measuring) leftOut() bool {
	return !m.tape.Exactly && m.rng.Float64() < m.tape.Omit
}

// read returns a length as it is written down.
func (m measuring) read(inches, noise float64) parse.Reading {
	if !m.tape.Exactly {
		inches += noise * m.rng.NormFloat64()
	}
	return typed(m.tape.grid(max(inches, 0.5)), m.tape.Unit)
}

// pair measures both girths at x from the end the customer began at; the loop
// stays where it is between the two.
func (m measuring) pair(x float64) parse.Pair {
	if x < m.boat.Length { // a transom's pair lies where the transom is
		x *= 1 + m.drift
	}
	if m.fromStern {
		x = m.boat.Length - x
	}
	if !m.tape.Exactly {
		x += m.tape.Place * m.rng.NormFloat64()
	}
	return m.loop(m.boat.Girths(min(max(x, 0), m.boat.Length)))
}

// loop reads the two girths of a loop in place.
func (m measuring) loop(hull, full float64) parse.Pair {
	var p parse.Pair
	for range retakes {
		p = parse.Pair{
			HullGirth: m.read(hull+m.slack, m.tape.Noise),
			FullGirth: m.read(full+m.slack, m.tape.Noise),
		}
		if p.FullGirth.Value > p.HullGirth.Value {
			break
		}
	}
	return p
}

// retakes bounds how often a pair is taken: a closed loop no longer than the
// open one is seen at once and taken again. It happens only where the opening
// is about an inch.
const retakes = 10

// greatest measures the greatest pair, sought about the largest station.
func (m measuring) greatest(largest float64) parse.Greatest {
	bow := largest
	if m.fromStern {
		bow = m.boat.Length - largest
	}
	at := m.boat.greatest(bow, m.tape.spacing())
	from := at
	if m.fromStern {
		from = m.boat.Length - at
	}
	// The loop was moved until it read most: where it lies is where it belongs.
	hull, full := m.boat.Girths(at)
	g := parse.Greatest{At: m.read(from, seekNoise), Pair: m.loop(hull, full)}
	if !m.leftOut() {
		g.Opening = m.read(full-hull, m.tape.Noise)
	}
	return g
}

// seekNoise is how surely the place of the greatest girth is found by hand, a
// standard deviation in inches. Common practice, no source.
const seekNoise = 1.0

// typed returns a reading of a length that was typed.
func typed(l parse.Length, unit parse.Unit) parse.Reading {
	return parse.Reading{
		Value: l, Known: true, Confidence: parse.Typed,
		Source: parse.Source{File: "simulated", Raw: strconv.FormatFloat(l.In(unit), 'f', -1, 64)},
	}
}
