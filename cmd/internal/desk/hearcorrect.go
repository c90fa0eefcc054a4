package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/chat"
)

// openCorrect shows a person the readings in doubt, and those that are odd.
func (d *Desk) openCorrect(ctx context.Context, people People, e chat.Event) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	var doubts []chat.Doubt
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, id.Job)
		if err != nil {
			return err
		}
		v, err := tx.Survey(d.Account, id.Job)
		if err == nil {
			doubts = d.doubts(v, job.Own)
		}
		if errors.Is(err, ledger.ErrNone) {
			err = nil
		}
		return err
	})
	if err != nil {
		return err
	}
	return people.OpenCorrect(ctx, e, doubts)
}

// doubts lists the readings that a person is asked about: first those in doubt,
// then those that the customer is asked to measure again.
func (d *Desk) doubts(v ledger.Version, own []ledger.Own) []chat.Doubt {
	var list []chat.Doubt
	add := func(cell parse.Cell) {
		r := *readingAt(&v.Survey, cell)
		var read []string
		if r.Known {
			read = append(read, written(r.Value, v.Survey.Unit))
		}
		for _, c := range r.Alternatives {
			read = append(read, written(c.Value, v.Survey.Unit))
		}
		list = append(list, chat.Doubt{Key: cellKey(cell), Label: numberName(cell, v.Survey.Unit), Read: strings.Join(read, " or ")})
	}
	for _, cell := range Cells(v.Survey) {
		if readingAt(&v.Survey, cell).Doubtful() {
			add(cell)
		}
	}
	report := d.judge(v.Survey, v.Problems, own)
	for _, cell := range Cells(v.Survey) {
		if asksAbout(report, cell) && !readingAt(&v.Survey, cell).Doubtful() {
			add(cell)
		}
	}
	return list
}

// ReadingAt returns one number of a survey.
func ReadingAt(s parse.Survey, c parse.Cell) parse.Reading {
	s.Stations = slices.Clone(s.Stations)
	return *readingAt(&s, c)
}

// Cells names every number that a survey has room for.
func Cells(s parse.Survey) []parse.Cell {
	var all []parse.Cell
	for _, m := range parse.OnceMeasures() {
		all = append(all, parse.Cell{Measure: m})
	}
	for _, st := range s.Stations {
		all = append(all, parse.Cell{At: st.At, Measure: parse.HullGirth}, parse.Cell{At: st.At, Measure: parse.FullGirth})
	}
	return all
}

// cellKey names a number in a modal: "2133.6 hull_girth", the place in
// millimetres.
func cellKey(c parse.Cell) string {
	if !atStation(c.Measure) {
		return string(c.Measure)
	}
	return strconv.FormatFloat(float64(c.At), 'g', -1, 64) + " " + string(c.Measure)
}

// valueFor turns what a modal gave into a value as typed.
func valueFor(c chat.Correction) Value {
	if c.Key == "" {
		return Value{c.Place, c.Measure, c.Value}
	}
	at, measure, ok := strings.Cut(c.Key, " ")
	if !ok {
		return Value{"", c.Key, c.Value}
	}
	return Value{at + " mm", measure, c.Value}
}

// corrected records the numbers that a person typed into the modal. What
// cannot be taken is whispered; the rest counts.
func (d *Desk) corrected(ctx context.Context, people People, e chat.Event) error {
	id, err := ParseDraftID(e.Draft)
	if err != nil {
		return err
	}
	var refused []string
	err = d.Ledger.Update(ctx, func(tx *ledger.Tx) error {
		job, err := tx.Job(d.Account, id.Job)
		if err != nil {
			return err
		}
		v, err := d.version(tx, job)
		if err != nil {
			return err
		}
		for n, c := range e.Corrections {
			value := valueFor(c)
			if _, _, err := value.In(v.Survey); err != nil {
				refused = append(refused, err.Error())
				continue
			}
			err := tx.Decide(ledger.Decision{Account: d.Account, Draft: reply.DraftID{Job: job.ID}, Choice: ledger.ChooseCorrect,
				Person: e.User.Name, Words: value.String(), Event: fmt.Sprintf("%s/%d", e.ID, n)})
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	d.nudge()
	if len(refused) > 0 {
		return people.Whisper(ctx, e.Thread, e.User.ID, "Not taken: "+strings.Join(refused, "; ")+".")
	}
	return d.heard(ctx, e.At)
}

// LengthFault says what is wrong with a length that a person types in chat, ""
// when nothing.
func LengthFault(text string) string {
	if _, fault := parse.ParseLength(text); fault.Some() {
		return fault.Message + " Write it as in 47 1/2 or 7 ft."
	}
	return ""
}
