package reply

import (
	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

// Rounds is the round from which the shop telephones: what two letters did not
// settle a third will not (common practice, no source).
const Rounds = 3

const (
	// mostPlaces is how many places one letter asks for: short forms come back
	// more often (BMJ 2002;324:1183, odds 1.86; the number is common practice).
	mostPlaces = 5
	// mostWithRest is up to how many places the ones beyond mostPlaces are asked
	// for while the tape is out; with more, all stations are measured again.
	mostWithRest = 8
)

// Decide says what to ask the customer. It is the one place where findings
// become questions: which of them do, how they are merged into places, and how
// many fit into a letter.
//
// A recheck becomes a place. A confirm becomes a question when it names a slip
// of the pen or none at all; a slip of the tape, or of a digit, is settled by
// the tape alone, and to ask "were two digits exchanged?" would tell the
// number. Notes, and numbers whose reading is in doubt, are the shop's.
func Decide(report validate.Report, job Job) Plan {
	survey := report.Survey
	plan := Plan{Action: Leave, Unit: unitOf(survey), Customer: survey.Customer, Boat: survey.Boat}
	plan.At, plan.Done = stations(survey)

	var places []Place
	var lacking []parse.Cell
	for _, f := range report.Findings {
		switch {
		case f.Kind == validate.Missing:
			lacking = append(lacking, absent(survey, cellsOf(f))...)
		case f.Kind == validate.Recheck, f.Kind == validate.Confirm && !askable(f.Slip):
			if spreads(f) {
				plan.Questions = append(plan.Questions, Question{Slip: f.Slip, Rows: f.Rows})
				f.Rows = []parse.Length{f.Rows[0], f.Rows[len(f.Rows)/2]}
			}
			places = addPlaces(places, survey, f)
		case f.Kind == validate.Confirm:
			if q, ok := question(survey, f); ok {
				plan.Questions = append(plan.Questions, q)
			}
		}
	}
	plan.share(places)
	plan.Missing = gaps(lacking, survey.Spacing())
	plan.dropSettled()
	if report.Verdict != validate.Clean {
		plan.Files = unreadable(report.Problems)
	}
	if report.Verdict == validate.Unreadable && len(plan.Files) > 0 {
		plan.Missing = nil // the numbers are in the files that could not be read
	}
	plan.Minutes = plan.minutes()

	plan.Thanks = report.Verdict == validate.Clean
	switch {
	case plan.Asks() && job.Round >= Rounds:
		plan.Action = Telephone
	case plan.Asks(), plan.Thanks, job.Request.Form && job.Form != nil:
		plan.Action = Write
	}
	return plan
}

// askable reports a slip that a yes-or-no question can name without telling
// the number, or no slip: a question about the boat.
func askable(kind slip.Kind) bool {
	switch kind {
	case slip.None, slip.Unknown, slip.SwappedPair, slip.RowRepeated, slip.RowSkipped, slip.MetricEdge,
		slip.DecimalLost, slip.FeetInchesJoined, slip.FromStern, slip.OpeningForFull, slip.HalfGirth,
		slip.TapeOffset, slip.TapeLength:
		return true
	}
	return false
}

// spreads reports one cause behind many rows. To measure every row again would
// be a boat's work for one slip: the question names it, and two of the places
// with the tape tell it from a boat that is so.
func spreads(f validate.Finding) bool {
	const few = 2
	return len(f.Rows) > few && f.Slip != slip.RowRepeated && f.Slip != slip.None && f.Slip != slip.Unknown && askable(f.Slip)
}

// share fits the places into a letter.
func (p *Plan) share(places []Place) {
	switch {
	case len(places) > mostWithRest:
		p.AllAgain = true
		for _, place := range places {
			if !place.station() && len(p.Again) < mostPlaces {
				p.Again = append(p.Again, place)
			}
		}
	case len(places) > mostPlaces:
		p.Again, p.Rest = places[:mostPlaces], places[mostPlaces:]
	default:
		p.Again = places
	}
}

// dropSettled leaves out questions and gaps that the measuring settles anyway.
func (p *Plan) dropSettled() {
	asked := make(map[parse.Cell]bool)
	for _, cell := range p.Ringed() {
		asked[cell] = true
	}
	var questions []Question
	for _, q := range p.Questions {
		settled := p.AllAgain && (q.Cell.Measure == "" || atStation(q.Cell.Measure))
		if q.Cell.Measure != "" {
			all := true
			for _, cell := range single(q.Cell) {
				all = all && asked[cell]
			}
			settled = settled || all
		}
		if !settled {
			questions = append(questions, q)
		}
	}
	p.Questions = questions
	if !p.AllAgain {
		return
	}
	var missing []Gap
	for _, gap := range p.Missing {
		if gap.Stations == 0 {
			missing = append(missing, gap)
		}
	}
	p.Missing = missing
}

// addPlaces adds what the finding wants measured, one place for each station
// or part of the boat, to the places that stand already.
func addPlaces(places []Place, survey parse.Survey, f validate.Finding) []Place {
	for _, cell := range cellsOf(f) {
		reading := find(survey, cell)
		if reading.Doubtful() {
			continue
		}
		asked := Asked{Cell: cell}
		switch {
		case reading.Known:
			asked.Read = &reading
		case f.Read != nil:
			asked.Read = &parse.Reading{Value: *f.Read, Known: true, Confidence: parse.Typed}
		}
		places = addAsked(places, asked)
	}
	return places
}

func addAsked(places []Place, asked Asked) []Place {
	for i, place := range places {
		if !samePlace(place.Asked[0].Cell, asked.Cell) {
			continue
		}
		for _, other := range place.Asked {
			if other.Cell == asked.Cell {
				return places
			}
		}
		places[i].Asked = append(place.Asked, asked)
		return places
	}
	return append(places, Place{Asked: []Asked{asked}})
}

// question turns a finding into a question; there is none when the numbers it
// is about are still in doubt.
func question(survey parse.Survey, f validate.Finding) (Question, bool) {
	q := Question{Slip: f.Slip, Cell: f.Cell, Rows: f.Rows}
	if q.Slip == slip.Unknown {
		q.Slip = slip.None
	}
	if len(f.Rows) > 0 {
		q.Cell.Measure = ""
		return q, true
	}
	for _, cell := range single(f.Cell) {
		reading := find(survey, cell)
		if reading.Doubtful() {
			return Question{}, false
		}
		if !reading.Known && f.Read != nil {
			reading = parse.Reading{Value: *f.Read, Known: true, Confidence: parse.Typed}
		}
		if reading.Known {
			q.Read = append(q.Read, reading)
		}
	}
	return q, f.Cell.Measure != "" && len(q.Read) == len(single(f.Cell))
}

// cellsOf names the single numbers that a finding is about.
func cellsOf(f validate.Finding) []parse.Cell {
	if len(f.Rows) == 0 {
		return single(f.Cell)
	}
	var cells []parse.Cell
	for _, at := range f.Rows {
		cells = append(cells, single(parse.Cell{At: at, Measure: parse.MeasurePair})...)
	}
	return cells
}

// absent keeps the cells that nobody wrote anything for.
func absent(survey parse.Survey, cells []parse.Cell) []parse.Cell {
	var left []parse.Cell
	for _, cell := range cells {
		if find(survey, cell).Absent() {
			left = append(left, cell)
		}
	}
	return left
}
