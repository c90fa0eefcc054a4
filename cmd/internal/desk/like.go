package desk

import (
	"errors"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/validate/history"
)

// like finds the boat nearest to a job's survey among those whose covers proved
// to fit, nil for none.
func (d *Desk) like(tx *ledger.Tx, job int, survey parse.Survey) (*history.Likeness, error) {
	fitted, err := tx.Fitted(d.Account)
	if err != nil {
		return nil, err
	}
	var boats []history.Boat
	for _, other := range fitted {
		if other == job {
			continue
		}
		v, err := tx.Survey(d.Account, other)
		if errors.Is(err, ledger.ErrNone) { // forgotten
			continue
		}
		if err != nil {
			return nil, err
		}
		boats = append(boats, history.Boat{Job: other, Survey: v.Survey})
	}
	l, found := history.Nearest(survey, boats)
	if !found {
		return nil, nil
	}
	return &l, nil
}
