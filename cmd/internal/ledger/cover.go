package ledger

import (
	"database/sql"
	"errors"
	"time"
)

// Cover is what a person decided about a job's cover, and what came of it.
type Cover struct {
	Cloth, Colour string // "" when not set
	Cut           int    // number of the sheet that was cut, 0 for none
	Fit           string // how the cover fitted, as said
	// Heeded is a hash of what the cover would be made from when the shop was
	// last told about it: a sheet, why there is none, or an alarm.
	Heeded string
}

// Cover returns what is known of a job's cover; nothing is known of most.
func (t *Tx) Cover(account string, job int) (c Cover, err error) {
	err = t.tx.QueryRowContext(t.ctx, `SELECT cloth, colour, cut, fit, heeded FROM covers WHERE account = ? AND job = ?`,
		account, job).Scan(&c.Cloth, &c.Colour, &c.Cut, &c.Fit, &c.Heeded)
	if errors.Is(err, sql.ErrNoRows) {
		return Cover{}, nil
	}
	return c, err
}

// SaveCover records what is known of a job's cover.
func (t *Tx) SaveCover(account string, job int, c Cover) error {
	return t.exec("cover", `INSERT INTO covers (account, job, cloth, colour, cut, fit, heeded) VALUES (?,?,?,?,?,?,?)
		ON CONFLICT DO UPDATE SET cloth = excluded.cloth, colour = excluded.colour, cut = excluded.cut, fit = excluded.fit, heeded = excluded.heeded`,
		account, job, c.Cloth, c.Colour, c.Cut, c.Fit, c.Heeded)
}

// GoodFit is how a cover fitted that fitted.
const GoodFit = "good"

// Fitted returns the jobs whose covers proved to fit, in order.
func (t *Tx) Fitted(account string) ([]int, error) {
	return collect(t, func(row *sql.Rows) (job int, err error) {
		err = row.Scan(&job)
		return job, err
	}, `SELECT job FROM covers WHERE account = ? AND fit = ? ORDER BY job`, account, GoodFit)
}

// Sheet is a cut sheet of a job.
type Sheet struct {
	Number   int // from 1
	Replaces int // number of the sheet that it made void, 0 for none
	Survey   int // version of the survey that it was made from
	Cloth    string
	Void     string // why it does not hold, "" when it does
	Made     time.Time
}

// AddSheet records a cut sheet. Number and Made are given to it.
func (t *Tx) AddSheet(account string, job int, s Sheet) (Sheet, error) {
	all, err := t.Sheets(account, job)
	if err != nil {
		return s, err
	}
	s.Number, s.Made = len(all)+1, t.now
	return s, t.exec("sheet", `INSERT INTO sheets (account, job, number, replaces, survey, cloth, void, made) VALUES (?,?,?,?,?,?,'',?)`,
		account, job, s.Number, s.Replaces, s.Survey, s.Cloth, millis(s.Made))
}

// VoidSheet records why a sheet does not hold any more.
func (t *Tx) VoidSheet(account string, job, number int, why string) error {
	return t.exec("sheet", `UPDATE sheets SET void = ? WHERE account = ? AND job = ? AND number = ?`, why, account, job, number)
}

// Sheets returns a job's cut sheets, oldest first.
func (t *Tx) Sheets(account string, job int) ([]Sheet, error) {
	return collect(t, func(row *sql.Rows) (s Sheet, err error) {
		var made int64
		err = row.Scan(&s.Number, &s.Replaces, &s.Survey, &s.Cloth, &s.Void, &made)
		s.Made = moment(made)
		return s, err
	}, `SELECT number, replaces, survey, cloth, void, made FROM sheets WHERE account = ? AND job = ? ORDER BY number`, account, job)
}
