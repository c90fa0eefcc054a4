package desk

import (
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
)

// A survey of the same boat as one whose cover fits is told to the shop as
// such, with what differs; one of a boat whose fit nobody has told is not.
func TestLikeAFittedBoat(t *testing.T) {
	w := newWorld(t)
	first := survey(1)
	w.says("first", first)
	w.arrive(mail{uid: 1, from: ann, subject: "first", id: "1@tarn.example"})
	likes := func(job int) []string {
		return slices.DeleteFunc(slices.Clone(w.job(job).Summary.Facts), func(s string) bool { return !strings.HasPrefix(s, "like job") })
	}

	w.says("second", first)
	w.arrive(mail{uid: 2, from: "ben@larch.example", subject: "second", id: "2@larch.example"})
	if got := likes(2); len(got) != 0 {
		t.Errorf("nobody said that the cover of job 1 fits, but: %q", got)
	}

	err := w.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
		return tx.SaveCover(w.desk().Account, 1, ledger.Cover{Fit: ledger.GoodFit})
	})
	if err != nil {
		t.Fatal(err)
	}
	more := first
	more.Stations = slices.Clone(first.Stations)
	for i := range more.Stations {
		more.Stations[i].HullGirth.Value += parse.Inches(1)
		more.Stations[i].FullGirth.Value += parse.Inches(1)
	}
	w.says("third", more)
	w.arrive(mail{uid: 3, from: "cy@alder.example", subject: "third", id: "3@alder.example"})
	got := likes(3)
	if len(got) != 1 || !strings.Contains(got[0], "like job 1") || !strings.Contains(got[0], "all hull girths are 1 in more and all full girths 1 in more") {
		t.Errorf("the shop is told %q", got)
	}
	if letter := w.letterOf(3); strings.Contains(letter, "job 1,") || strings.Contains(letter, "whose cover fits") {
		t.Errorf("the customer is told of another's boat:\n%s", letter)
	}
}

// letterOf is the text of a job's newest letter.
func (w *world) letterOf(job int) (text string) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.LastDraft(w.desk().Account, job)
		text = d.Letter
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return text
}
