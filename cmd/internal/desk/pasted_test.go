package desk

import (
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/parse/prose"
)

func TestMarkLetter(t *testing.T) {
	const letter = "Dear Ann,\n\nPlease measure 1 place again. It takes about 7 minutes; an\nanswer by Monday lets us go on.\n\n7 ft  hull girth  1st try ____  2nd try ____\n\n" +
		"What your survey says now\n-------------------------\n\n- 7 ft, hull girth: 37\n\nKind regards,\n\nPinfold Cover Loft\n"
	rewrapped := strings.ReplaceAll(letter, "minutes; an\nanswer", "minutes;\nan answer")
	tests := []struct {
		name, text string
		own        string // the lines that stay the customer's; "" when nothing is marked
	}{
		{"nothing of it", "7 ft is 47, thank you.", ""},
		{"one sentence of it", "You wrote: Please measure 1 place again. It is 47.", ""},
		{"marked already", "47 it is.\n> " + strings.ReplaceAll(letter, "\n", "\n> "), ""},
		{"below the answer", "7 ft hull girth is 47.\n\n" + letter, "7 ft hull girth is 47."},
		{"broken anew, above the answer", rewrapped + "\n7 ft hull girth is 47.", "7 ft hull girth is 47."},
		{"filled in", strings.Replace(letter, "____", "47", 1), "7 ft  hull girth  1st try 47  2nd try ____"},
		{"the same number above it", "7 ft, hull girth: 37\n\n" + letter, "7 ft, hull girth: 37"},
	}
	for _, tt := range tests {
		got, ok := markLetter(tt.text, letter)
		var own []string
		for line := range strings.SplitSeq(got, "\n") {
			if !strings.HasPrefix(line, ">") && strings.TrimSpace(line) != "" {
				own = append(own, line)
			}
		}
		if ok != (tt.own != "") || ok && strings.Join(own, "|") != tt.own {
			t.Errorf("%s: %v, own words %q, want %q", tt.name, ok, own, tt.own)
		}
	}
}

// Our letter pasted back without marks says nothing in the customer's name: not
// that the odd number is right, nor anything about the others.
func TestLetterPastedBack(t *testing.T) {
	for _, words := range []string{"", "Thanks, will do on Sunday."} {
		w, _ := oddWorld(t)
		w.send(1)
		before := w.surveyOf(1)
		w.reader = bodies{}
		w.arrive(mail{uid: 2, from: ann, subject: "Re: my boat", id: "2@tarn.example", answers: "letter-1@pinfold.example",
			body: words + "\r\n\r\n" + strings.ReplaceAll(w.letterText(1), "\n", "\r\n")})
		after := w.surveyOf(1)
		for _, c := range Cells(before.Survey) {
			if was, is := ReadingAt(before.Survey, c), ReadingAt(after.Survey, c); was.Value != is.Value || was.Source != is.Source {
				t.Errorf("%s became %+v", numberName(c, parse.Inch), is)
			}
		}
		stray := slices.DeleteFunc(slices.Clone(after.Problems), func(p parse.Problem) bool { return p.Code == prose.CodeQuoted })
		if len(stray) > 0 || w.message(2).End != ledger.Held {
			t.Errorf("%q: ended as %s with %v", words, w.message(2).End, stray)
		}
	}
}

// letterText is the last letter of a job as it was drafted.
func (w *world) letterText(job int) (text string) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.LastDraft(account, job)
		text = d.Letter
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return text
}
