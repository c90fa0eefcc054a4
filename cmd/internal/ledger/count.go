package ledger

import (
	"database/sql"
	"fmt"
)

// Counts is how many records of each state there are, for a look from outside.
type Counts struct {
	Messages map[string]int // by where they ended
	Jobs     map[string]int // by state
	Drafts   map[string]int // by state
	Acts     map[string]int // by state: planned, trying, unsure, done, failed, dropped
}

// Counts counts what the ledger holds, of all accounts together.
func (t *Tx) Counts() (Counts, error) {
	var c Counts
	for table, into := range map[string]*map[string]int{"messages": &c.Messages, "jobs": &c.Jobs, "drafts": &c.Drafts, "intents": &c.Acts} {
		type count struct {
			state string
			n     int
		}
		rows, err := collect(t, func(row *sql.Rows) (count, error) {
			var one count
			err := row.Scan(&one.state, &one.n)
			return one, err
		}, `SELECT state, count(*) FROM `+table+` GROUP BY state`)
		if err != nil {
			return Counts{}, fmt.Errorf("count %s: %w", table, err)
		}
		*into = map[string]int{}
		for _, one := range rows {
			(*into)[one.state] = one.n
		}
	}
	return c, nil
}
