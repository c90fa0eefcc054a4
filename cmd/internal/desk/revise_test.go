package desk

import (
	"testing"

	"fairtape/parse"
	"fairtape/parse/prose"
)

// Numbers that a customer writes without a unit are in the survey's.
func TestBareAnswers(t *testing.T) {
	at := parse.Cell{At: parse.Centimetres(210), Measure: parse.HullGirth}
	survey := parse.Survey{Unit: parse.Centimetre, Stations: []parse.Station{{At: at.At}}}
	answer := func(cell parse.Cell) []prose.Correction {
		tries := []parse.Reading{{Value: parse.Inches(80), Known: true, Confidence: parse.Typed}}
		return []prose.Correction{{Cell: cell, Placed: true, Values: tries, Bare: true}}
	}

	got, problems := correct(survey, survey, nil, answer(at), []parse.Cell{at})
	if v := got.Stations[0].HullGirth.Value.In(parse.Centimetre); v != 80 || len(problems) != 0 {
		t.Errorf("a bare 80 in a metric survey is read as %g cm, with %v", v, problems)
	}

	// "at 7" was counted as 7 ft, and this survey has no feet.
	feet := parse.Cell{At: parse.Inches(84), Measure: parse.HullGirth}
	got, problems = correct(survey, survey, nil, answer(feet), []parse.Cell{at})
	if len(got.Stations) != 1 || got.Stations[0].HullGirth.Known || len(problems) != 1 {
		t.Errorf("a bare place in a metric survey gives %+v, with %v", got.Stations, problems)
	}

	survey.Unit = parse.Inch
	got, _ = correct(survey, survey, nil, answer(at), []parse.Cell{at})
	if v := got.Stations[0].HullGirth.Value.In(parse.Inch); v != 80 {
		t.Errorf("a bare 80 in a survey in inches is read as %g in", v)
	}
}
