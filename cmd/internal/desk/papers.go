package desk

import (
	"fmt"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/reply"
)

// Papers makes what goes with letters. A nil function attaches nothing.
type Papers struct {
	// Form is a blank form for a boat of this length overall, 0 when it is not
	// known.
	Form func(job int, length parse.Length, unit parse.Unit, language string) (*reply.File, error)
	// Slip is a page on which these places are measured again, 1 to
	// form.MostPlaces of them.
	Slip func(job int, places []parse.Cell, unit parse.Unit, language string) (*reply.File, error)
}

// form makes a blank form for a job's boat; named is its length as said in
// passing, 0 when nothing is said.
func (d *Desk) form(job ledger.Job, survey parse.Survey, named parse.Length) (*reply.File, error) {
	if d.Papers.Form == nil {
		return nil, nil
	}
	unit := survey.Unit
	if unit == parse.UnknownUnit {
		unit = parse.Inch
	}
	length := named
	if survey.LengthOverall.Certain() {
		length = survey.LengthOverall.Value
	}
	file, err := d.Papers.Form(job.ID, length, unit, job.Language)
	if err != nil {
		return nil, fmt.Errorf("make the form for job %d: %w", job.ID, err)
	}
	return file, nil
}

func (d *Desk) slip(job ledger.Job, plan reply.Plan) (*reply.File, error) {
	places := slipPlaces(plan)
	if d.Papers.Slip == nil || plan.AllAgain || len(places) == 0 || len(places) > form.MostPlaces {
		return nil, nil
	}
	file, err := d.Papers.Slip(job.ID, places, plan.Unit, job.Language)
	if err != nil {
		return nil, fmt.Errorf("make the slip for job %d: %w", job.ID, err)
	}
	return file, nil
}

// slipPlaces lists what a letter asks to be measured again, both girths of one
// place as one.
func slipPlaces(plan reply.Plan) (places []parse.Cell) {
	pairs := map[parse.Measure]parse.Measure{
		parse.HullGirth: parse.MeasurePair, parse.GreatestHullGirth: parse.GreatestPair, parse.TransomHullGirth: parse.TransomPair,
		parse.FullGirth: parse.MeasurePair, parse.GreatestFullGirth: parse.GreatestPair, parse.TransomFullGirth: parse.TransomPair,
	}
	for _, cell := range plan.Ringed() {
		last := len(places) - 1
		if pair := pairs[cell.Measure]; pair != "" && last >= 0 && places[last].At == cell.At &&
			places[last].Measure != cell.Measure && pairs[places[last].Measure] == pair {
			places[last].Measure = pair
			continue
		}
		places = append(places, cell)
	}
	return places
}
