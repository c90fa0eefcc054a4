package desk

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/cover"
	"fairtape/validate"
)

// planCover plans to tell the shop what has become of a job's cut sheet.
func (d *Desk) planCover(tx *ledger.Tx, number int) error {
	job, err := tx.Job(d.Account, number)
	if err != nil {
		return err
	}
	words, sheet, err := d.followCover(tx, job)
	if err == nil && words != "" {
		err = d.planSay(tx, job.ID, words)
	}
	if err != nil || sheet == 0 {
		return err
	}
	return d.planHand(tx, job.ID, ledger.HandSheet, sheet)
}

// followCover keeps a job's cut sheet in step with its survey and cloth: makes
// one when both are settled, voids one that no longer holds, and alarms when
// the cloth has been cut. It returns what the shop is to be told, "" when
// nothing has changed since it was told last, and the number of a sheet that is
// new.
func (d *Desk) followCover(tx *ledger.Tx, job ledger.Job) (words string, sheet int, err error) {
	c, err := tx.Cover(d.Account, job.ID)
	if err != nil || c.Cloth == "" || job.Joined != 0 {
		return "", 0, err
	}
	v, err := d.version(tx, job)
	if err != nil {
		return "", 0, err
	}
	cloth, known := d.Cloths[c.Cloth]
	if !known {
		return "", 0, nil // taken out of the settings since; the sheet that was made stands
	}
	cloth.Name, cloth.Colour = c.Cloth, c.Colour
	report := d.judge(v.Survey, v.Problems, job.Own)
	made, err := json.Marshal(cloth)
	if err != nil {
		return "", 0, fmt.Errorf("keep the cloth of job %d: %w", job.ID, err)
	}
	now := madeFrom(report, made)
	if now == c.Heeded {
		return "", 0, nil
	}
	c.Heeded = now
	if err := tx.SaveCover(d.Account, job.ID, c); err != nil {
		return "", 0, err
	}
	sheets, err := tx.Sheets(d.Account, job.ID)
	if err != nil {
		return "", 0, err
	}
	if c.Cut != 0 {
		words, err = d.alarm(tx, job, sheets[c.Cut-1], v, made)
		return words, 0, err
	}
	return d.renewSheet(tx, job, sheets, v, report, cloth, made)
}

// renewSheet makes the sheet of a job whose cloth is not cut yet.
func (d *Desk) renewSheet(tx *ledger.Tx, job ledger.Job, sheets []ledger.Sheet, v ledger.Version, report validate.Report, cloth cover.Cloth, made []byte) (words string, number int, err error) {
	sheet := ledger.Sheet{Survey: v.Version, Cloth: string(made), Made: tx.Now()}
	if n := len(sheets); n > 0 && sheets[n-1].Void == "" {
		old := sheets[n-1]
		changed, err := d.changes(tx, job, old, v, made)
		if err != nil {
			return "", 0, err
		}
		if changed == "" && report.Verdict == validate.Clean {
			return "", 0, nil // it came back to what the sheet was made from
		}
		if changed == "" {
			changed = "the survey is open again"
		}
		words = fmt.Sprintf("Cut sheet %d is void: destroy it (%s). ", old.Number, changed)
		sheet.Replaces = old.Number
		if err := tx.VoidSheet(d.Account, job.ID, old.Number, changed); err != nil {
			return "", 0, err
		}
	}
	if report.Verdict != validate.Clean {
		return words + fmt.Sprintf("The cut sheet follows when the survey is settled; it is now: %s.", report.Verdict), 0, nil
	}
	sheet.Number = len(sheets) + 1
	design, err := d.design(job, v, sheet, cloth)
	var refused *cover.Refusal
	switch {
	case errors.As(err, &refused):
		var why []string
		for _, r := range refused.Reasons {
			why = append(why, r.Key+": "+r.Why)
		}
		return words + "No cut sheet: " + strings.Join(why, "; ") + ".", 0, nil
	case err != nil:
		return "", 0, err
	}
	_, err = tx.AddSheet(d.Account, job.ID, sheet)
	return words + sheetWords(design), sheet.Number, err
}

func (d *Desk) planHand(tx *ledger.Tx, job int, act ledger.Act, sheet int) error {
	return tx.Plan(ledger.Intent{Account: d.Account, Draft: reply.DraftID{Job: job}, Act: act, Words: strconv.Itoa(sheet)})
}

// alarm tells that a boat's numbers changed after its cloth was cut. No new
// sheet is made: whether the cover is remade is a person's to say.
func (d *Desk) alarm(tx *ledger.Tx, job ledger.Job, cut ledger.Sheet, v ledger.Version, made []byte) (string, error) {
	changed, err := d.changes(tx, job, cut, v, made)
	if err != nil {
		return "", err
	}
	if changed == "" {
		return fmt.Sprintf("The survey is again as sheet %d, which was cut, has it.", cut.Number), nil
	}
	return fmt.Sprintf("ALARM: job %d was cut from sheet %d, and since then %s. The sheet is void; stop the sewing and look. For a new sheet say: %d cloth NAME COLOUR.",
		job.ID, cut.Number, changed, job.ID), tx.VoidSheet(d.Account, job.ID, cut.Number, changed)
}

// sheetWords sum up a cut sheet for the thread.
func sheetWords(s cover.CutSheet) string {
	lines := []string{
		fmt.Sprintf("Cut sheet %d is ready: %s, %s. Buy %s.", s.Sheet, s.Order.Cloth.Name, s.Order.Cloth.Colour, s.Running(s.Lay.Length)),
		s.GirthWords() + ".", s.LengthWords() + ".",
	}
	for _, n := range s.Notes {
		lines = append(lines, "Note: "+n)
	}
	return strings.Join(lines, "\n")
}

// design makes the cover of one state of a job's survey.
func (d *Desk) design(job ledger.Job, v ledger.Version, sheet ledger.Sheet, cloth cover.Cloth) (cover.CutSheet, error) {
	return cover.Make(d.judge(v.Survey, v.Problems, job.Own), cover.Order{
		Shop: d.Shop.Name, Job: strconv.Itoa(job.ID), Sheet: sheet.Number, Replaces: sheet.Replaces,
		Date: sheet.Made.In(d.Timezone), Cloth: cloth,
	})
}

// madeFrom is a hash of everything that a cut sheet is made from.
func madeFrom(report validate.Report, cloth []byte) string {
	h := sha256.New()
	fmt.Fprintln(h, report.Verdict == validate.Clean, report.Survey.Unit, report.Survey.Stern, report.Survey.Decked, string(cloth))
	for _, cell := range Cells(report.Survey) {
		r := readingAt(&report.Survey, cell)
		fmt.Fprintln(h, cellKey(cell), r.Certain(), float64(r.Value))
	}
	return hex.EncodeToString(h.Sum(nil))
}

// mostChanges is how many changed numbers are named.
const mostChanges = 4

// changes says in words what differs from what a sheet was made from, "" when
// nothing does.
func (d *Desk) changes(tx *ledger.Tx, job ledger.Job, sheet ledger.Sheet, v ledger.Version, made []byte) (string, error) {
	all, err := tx.Surveys(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	i := slices.IndexFunc(all, func(v ledger.Version) bool { return v.Version == sheet.Survey })
	if i < 0 {
		return "", fmt.Errorf("survey %d of job %d is not on the ledger", sheet.Survey, job.ID)
	}
	list := changed(all[i].Survey, v.Survey)
	if string(made) != sheet.Cloth {
		list = append(list, "the cloth or its settings have changed")
	}
	if more := len(list) - mostChanges; more > 0 {
		list = append(list[:mostChanges], fmt.Sprintf("%d more changes", more))
	}
	return strings.Join(list, ", "), nil
}

// changed lists the numbers of a survey that have become others.
func changed(before, now parse.Survey) (list []string) {
	for _, c := range Changes(before, now) {
		say := func(r parse.Reading) string {
			if !r.Certain() {
				return "not known"
			}
			return written(r.Value, now.Unit)
		}
		list = append(list, fmt.Sprintf("%s is %s, not %s", numberName(c.Cell, now.Unit), say(c.Is), say(c.Was)))
	}
	if before.Stern != now.Stern || before.Decked != now.Decked {
		list = append(list, "stern or deck is another")
	}
	return list
}

// clothNames lists the cloths of the settings.
func (d *Desk) clothNames() string {
	return strings.Join(slices.Sorted(maps.Keys(d.Cloths)), ", ")
}
