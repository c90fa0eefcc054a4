package desk

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// What makes a survey from an unknown address look like a boat that is known.
const (
	// fewNumbers is from how many numbers in common two surveys can be told to
	// be of one boat: two boats of one builder share a few.
	fewNumbers = 8
	// mostEqual is the share of them that is equal: a second survey of one boat
	// by another person repeats few numbers, a copy nearly all.
	mostEqual = 0.7
	// equalNumber is what counts as the same number, as written down.
	equalNumber = 1.0 // mm
	// recently is how long a job can be the one that a stranger writes about: a
	// cover is made within a season.
	recently = 365 * 24 * time.Hour
)

var jobMention = regexp.MustCompile(`(?i)\b(?:job|commande|dossier)\s*(?:no\.?|n°|number|#)?\s*(\d{1,6})\b`)

// resembles returns a job that a mail from an unknown address may belong to,
// and why; a job with ID 0 when there is none. The mail is then held until a
// person has said yes or no.
func (d *Desk) resembles(tx *ledger.Tx, a arrival, survey parse.Survey) (ledger.Job, string, error) {
	jobs, err := tx.Jobs(d.Account)
	if err != nil {
		return ledger.Job{}, "", err
	}
	mentioned := map[int]bool{}
	for _, m := range jobMention.FindAllStringSubmatch(a.mail.Subject+"\n"+a.mail.Text, -1) {
		if n, err := strconv.Atoi(m[1]); err == nil {
			mentioned[n] = true
		}
	}
	name := folded(a.message.From.Name)
	for i := len(jobs) - 1; i >= 0; i-- {
		j := jobs[i]
		if j.Joined != 0 || j.State == ledger.SetAside || j.Perhaps != 0 || d.Now().Sub(j.Updated) > recently {
			continue
		}
		if mentioned[j.ID] {
			return j, fmt.Sprintf("it speaks of job %d", j.ID), nil
		}
		if a.onPaper(j.ID) {
			return j, fmt.Sprintf("it brings a paper of job %d", j.ID), nil
		}
		known, err := tx.Surveys(d.Account, j.ID)
		if err != nil {
			return ledger.Job{}, "", err
		}
		for _, v := range known {
			if sameNumbers(v.Survey, survey) {
				return j, fmt.Sprintf("it has the numbers of job %d", j.ID), nil
			}
		}
		// A name of one word is many people's.
		if strings.Contains(name, " ") && j.State != ledger.Closed && (name == folded(j.CustomerName) || folded(survey.Customer) == folded(j.CustomerName) && survey.Customer != "") {
			return j, fmt.Sprintf("the customer of job %d has the same name", j.ID), nil
		}
	}
	return ledger.Job{}, "", nil
}

func folded(s string) string { return strings.Join(strings.Fields(parse.Fold(s)), " ") }

// sameNumbers reports that two surveys hold the same numbers at the same
// places.
func sameNumbers(a, b parse.Survey) bool {
	both, equal := 0, 0
	for _, c := range Cells(b) {
		x, y := ReadingAt(a, c), ReadingAt(b, c)
		if !x.Known || !y.Known {
			continue
		}
		both++
		if math.Abs(float64(x.Value-y.Value)) < equalNumber {
			equal++
		}
	}
	return both >= fewNumbers && float64(equal) >= mostEqual*float64(both)
}
