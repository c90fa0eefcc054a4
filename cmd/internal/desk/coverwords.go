package desk

import (
	"fmt"
	"regexp"
	"strings"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// coverOrder reads what a person says about a job's cover: "cloth default
// green", "cut", "fit tight 7 ft".
func coverOrder(verb, rest string) (order, bool) {
	switch verb {
	case "cloth":
		return order{choice: ledger.ChooseCloth, words: rest}, rest != ""
	case "cut":
		return order{choice: ledger.ChooseCut}, rest == ""
	case "fit":
		fit, ok := ParseFit(rest)
		return order{choice: ledger.ChooseFit, words: fit}, ok
	}
	return order{}, false
}

// aboutCover reports that words in a thread without the job's number are about
// its cover, and not talk that begins alike: "cloth comes with the van".
func (d *Desk) aboutCover(o order) bool {
	if o.choice != ledger.ChooseCloth {
		return true
	}
	name, _, _ := strings.Cut(o.words, " ")
	_, known := d.Cloths[name]
	return known
}

var fitWords = regexp.MustCompile(`(?i)^(good|returned|(?:tight|loose)(?: at)? (.+))$`)

// ParseFit reads how a cover fitted: "good", "tight 7 ft", "loose 210 cm",
// "returned". It returns the words in one form.
func ParseFit(words string) (string, bool) {
	m := fitWords.FindStringSubmatch(strings.TrimRight(strings.Join(strings.Fields(words), " "), ".!"))
	if m == nil {
		return "", false
	}
	if m[2] == "" {
		return strings.ToLower(m[1]), true
	}
	_, fault := parse.ParseLength(m[2])
	how, _, _ := strings.Cut(strings.ToLower(m[1]), " ")
	return how + " " + m[2], !fault.Some()
}

// heedCloth records what a job's cover is made of. After the cloth was cut it
// orders a new sheet.
func (d *Desk) heedCloth(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
	name, colour, _ := strings.Cut(c.Words, " ")
	_, known := d.Cloths[name]
	switch {
	case !known:
		return fmt.Sprintf("not taken: there is no cloth %q; the settings have: %s", name, d.clothNames()), nil
	case strings.TrimSpace(colour) == "":
		return fmt.Sprintf("not taken: say the colour too, as in: %d cloth %s green", job.ID, name), nil
	}
	made, err := tx.Cover(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	words := fmt.Sprintf("The cover is made of %s, %s.", name, strings.TrimSpace(colour))
	if made.Cut != 0 {
		words += fmt.Sprintf(" Sheet %d was cut; a new one is made.", made.Cut)
	}
	made.Cloth, made.Colour, made.Cut, made.Heeded = name, strings.TrimSpace(colour), 0, ""
	return words, tx.SaveCover(d.Account, job.ID, made)
}

// heedCut freezes the newest sheet: the cloth has been cut by it.
func (d *Desk) heedCut(tx *ledger.Tx, job ledger.Job) (string, error) {
	made, err := tx.Cover(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	sheets, err := tx.Sheets(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	n := len(sheets)
	switch {
	case made.Cut != 0:
		return fmt.Sprintf("sheet %d is marked as cut already", made.Cut), nil
	case n == 0:
		return fmt.Sprintf("not taken: job %d has no cut sheet yet", job.ID), nil
	case sheets[n-1].Void != "":
		return fmt.Sprintf("not taken: sheet %d is void (%s). If the cloth was cut by it, stop the sewing and look", n, sheets[n-1].Void), nil
	}
	made.Cut = n
	return fmt.Sprintf("Sheet %d is marked as cut. A change of the survey is an alarm from now on.", n), tx.SaveCover(d.Account, job.ID, made)
}

// heedFit records how a cover fitted. For one that came back, the sheet as cut
// is posted beside blanks for the cover laid flat.
func (d *Desk) heedFit(tx *ledger.Tx, c ledger.Decision, job ledger.Job) (string, error) {
	fit, ok := ParseFit(c.Words)
	if !ok {
		return fmt.Sprintf("not taken: %q; say fit good, fit tight 7 ft, fit loose 7 ft or fit returned", c.Words), nil
	}
	made, err := tx.Cover(d.Account, job.ID)
	if err != nil {
		return "", err
	}
	made.Fit = fit
	if err := tx.SaveCover(d.Account, job.ID, made); err != nil {
		return "", err
	}
	words := "The fit is recorded: " + fit + "."
	if fit != "returned" {
		return words, nil
	}
	sheet := made.Cut
	if sheet == 0 {
		sheets, err := tx.Sheets(d.Account, job.ID)
		if err != nil {
			return "", err
		}
		sheet = len(sheets)
	}
	if sheet == 0 {
		return words + " No cut sheet was made here, so there is nothing to lay beside the cover.", nil
	}
	return words + fmt.Sprintf(" Sheet %d as it was cut follows, with blanks for the cover laid flat.", sheet),
		d.planHand(tx, job.ID, ledger.HandBlank, sheet)
}
