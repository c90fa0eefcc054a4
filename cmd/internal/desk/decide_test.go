package desk

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/validate"
)

// orders records what Ann decides about a job and works it off.
func (w *world) orders(job int, choice ledger.Choice, words string) {
	w.t.Helper()
	err := w.ledger.Update(w.t.Context(), func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: account, Draft: reply.DraftID{Job: job}, Choice: choice, Person: "Ann", Words: words})
	})
	if err != nil {
		w.t.Fatal(err)
	}
	w.work(w.desk())
}

func (w *world) surveyOf(job int) (v ledger.Version) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) (err error) {
		v, err = tx.Survey(account, job)
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	return v
}

// openLetter is the text of the letter that waits, "" for none.
func (w *world) openLetter(job int) (letter string) {
	w.t.Helper()
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.OpenDraft(account, job)
		letter = d.Letter
		return err
	})
	if err != nil {
		return ""
	}
	return letter
}

func (w *world) send(job int) {
	w.t.Helper()
	var id reply.DraftID
	err := w.ledger.View(w.t.Context(), func(tx *ledger.Tx) error {
		d, err := tx.OpenDraft(account, job)
		id = d.ID
		return err
	})
	if err != nil {
		w.t.Fatal(err)
	}
	w.decide(ledger.ChooseSend, id, "Ann")
	w.work(w.desk())
}

// oddWorld has a job with one odd number, at 7 ft.
func oddWorld(t *testing.T) (w *world, right parse.Length) {
	t.Helper()
	w = newWorld(t)
	s, right := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 1, from: "Ann Tarn <" + ann + ">", subject: "my boat", id: "1@tarn.example"})
	return w, right
}

func hull7(w *world) parse.Reading {
	return ReadingAt(w.surveyOf(1).Survey, parse.Cell{At: parse.Inches(84), Measure: parse.HullGirth})
}

func TestPersonCorrects(t *testing.T) {
	w, right := oddWorld(t)
	before := len(w.surveyOf(1).Survey.Stations)
	w.orders(1, ledger.ChooseCorrect, "7 ft; hull_girth; about 40")
	if r := hull7(w); r.Value == right || !w.saidAnything("not taken") {
		t.Errorf("an unclear number was taken: %+v", r)
	}
	w.orders(1, ledger.ChooseCorrect, Value{"7 ft", "hull_girth", written(right, parse.Inch)}.String())
	r := hull7(w)
	if r.Value != right || r.Confidence != 1 || r.Source.Place != "by Ann" {
		t.Errorf("the number is %+v, want %v by Ann", r, right)
	}
	if v := w.surveyOf(1); v.Verdict != validate.Clean || len(v.Survey.Stations) != before {
		t.Errorf("the survey is %s with %d stations", v.Verdict, len(v.Survey.Stations))
	}
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) || !strings.Contains(w.openLetter(1), "post") {
		t.Errorf("in Drafts lie %v:\n%s", got, w.openLetter(1))
	}
	// A correction that makes things worse is taken, and said.
	w.orders(1, ledger.ChooseCorrect, "7 ft; hull_girth; 20")
	if v := w.surveyOf(1); v.Verdict != validate.NeedRecheck || !w.saidAnything("less well") {
		t.Errorf("a number that does not fit made the survey %s", v.Verdict)
	}
}

// A person's edited letter is not thrown away by a correction.
func TestEditedLetterStays(t *testing.T) {
	w, right := oddWorld(t)
	err := w.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
		return tx.Decide(ledger.Decision{Account: account, Draft: first, Choice: ledger.ChooseEdit, Person: "Ann", Words: "Dear Ann, my own words."})
	})
	if err != nil {
		t.Fatal(err)
	}
	w.work(w.desk())
	w.orders(1, ledger.ChooseCorrect, Value{"7 ft", "hull_girth", written(right, parse.Inch)}.String())
	if !strings.Contains(w.openLetter(1), "my own words") || !w.saidAnything("left as it is") {
		t.Errorf("the letter is now:\n%s", w.openLetter(1))
	}
	w.says("again", survey(1))
	w.arrive(mail{uid: 2, from: ann, subject: "again", id: "2@tarn.example", answers: "1@tarn.example"})
	if !strings.Contains(w.openLetter(1), "my own words") {
		t.Errorf("new mail threw the edited letter away")
	}
}

// A number that the customer stands by is the boat's own only after a person's
// yes, and once it is known what lay under the tape.
func TestOwnShape(t *testing.T) {
	w, _ := oddWorld(t)
	w.send(1)
	odd := hull7(w)
	w.surveys["Re: my boat"] = opener.Mail{Body: prose.Mail{Corrections: []prose.Correction{{
		Cell: parse.Cell{At: parse.Inches(84), Measure: parse.HullGirth}, Placed: true, Sentence: "it really is that",
		Values: []parse.Reading{{Value: odd.Value, Known: true, Confidence: 1, Source: parse.Source{File: "mail", Place: "line 1"}}}}}}}
	w.arrive(mail{uid: 2, from: ann, subject: "Re: my boat", id: "2@tarn.example", answers: "letter-1@pinfold.example"})
	if len(w.draftIDs()) != 0 {
		t.Fatalf("a letter was written although the customer stands by the number: %v", w.draftIDs())
	}
	w.orders(1, ledger.ChooseOwn, "7 ft; hull_girth")
	if !w.saidAnything("what lay under the tape") || w.surveyOf(1).Verdict == validate.Clean {
		t.Error("accepted without knowing what lay under the tape")
	}
	w.orders(1, ledger.ChooseTape, "nothing")
	w.orders(1, ledger.ChooseOwn, "7 ft; hull_girth")
	if v := w.surveyOf(1); v.Verdict != validate.Clean || w.openLetter(1) == "" {
		t.Errorf("accepted, yet %s; letter %q", v.Verdict, w.openLetter(1))
	}
	// Another number at the place is not accepted with it.
	w.orders(1, ledger.ChooseCorrect, "7 ft; hull_girth; 20")
	if v := w.surveyOf(1); v.Verdict != validate.NeedRecheck {
		t.Errorf("another odd number passed as accepted: %s", v.Verdict)
	}
}

// A yes never becomes our number.
func TestYesIsNoNumber(t *testing.T) {
	w := newWorld(t)
	s := survey(1)
	s.Stations = slices.Clone(s.Stations)
	wrote := s.Stations[6].HullGirth.Value * 10
	s.Stations[6].HullGirth.Value = wrote
	w.says("my boat", s)
	w.surveys["Re: my boat"] = opener.Mail{Body: prose.Mail{Confirmations: []prose.Confirmation{{
		Slip: "decimal-lost", Cell: parse.Cell{At: s.Stations[6].At, Measure: parse.HullGirth}, Placed: true, Yes: true,
		Question: "is a decimal point missing?", Text: "yes", Source: parse.Source{File: "mail", Place: "line 3"}}}}}
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"},
		mail{uid: 2, from: ann, subject: "Re: my boat", id: "2@tarn.example", answers: "1@tarn.example"})
	r := hull7(w)
	if r.Known || !slices.ContainsFunc(r.Alternatives, func(c parse.Candidate) bool { return c.Value == wrote }) {
		t.Errorf("after a yes the number is %+v", r)
	}
	if len(w.draftIDs()) != 0 || w.job(1).State != ledger.WaitingUs {
		t.Errorf("%v in Drafts, the job is %s: a person has to give the number", w.draftIDs(), w.job(1).State)
	}
	w.orders(1, ledger.ChooseCorrect, Value{"7 ft", "hull_girth", written(wrote/10, parse.Inch)}.String())
	if v := w.surveyOf(1); v.Verdict != validate.Clean {
		t.Errorf("after the person's number the survey is %s: %v", v.Verdict, v.Problems)
	}
}

// Nothing is ready before everything is in.
func TestTracings(t *testing.T) {
	w := newWorld(t)
	w.says("my boat", survey(1))
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
	w.send(1)
	if s := w.job(1).State; s != ledger.WaitingCustomer {
		t.Fatalf("clean and without tracings the job is %s", s)
	}
	w.orders(1, ledger.ChooseReceived, "bow")
	if s := w.job(1).State; s != ledger.WaitingCustomer || len(w.letters) != 1 || len(w.drafts) != 0 {
		t.Errorf("with one tracing the job is %s; %d drafts", s, len(w.drafts))
	}
	w.orders(1, ledger.ChooseReceived, "stern refused the top is not marked")
	if l := w.openLetter(1); !strings.Contains(l, "The top is not marked.") {
		t.Errorf("the letter does not say why the tracing was refused:\n%s", l)
	}
	w.send(1)
	w.orders(1, ledger.ChooseReceived, "stern sent back")
	if tr := w.job(1).Tracings.Stern; !tr.SentBack || tr.In || w.job(1).State == ledger.Ready {
		t.Errorf("sent back, the tracing is %+v", tr)
	}
	height := w.surveyOf(1).Survey.SternHeight.Value
	w.orders(1, ledger.ChooseReceived, "stern height "+written(height+parse.Inches(2), parse.Inch))
	if w.job(1).State == ledger.Ready || !w.surveyOf(1).Survey.SternHeight.Doubtful() || !w.saidAnything("which counts") {
		t.Errorf("paper and mail differ, yet the job is %s", w.job(1).State)
	}
	w.orders(1, ledger.ChooseCorrect, Value{"", "stern_height", written(height, parse.Inch)}.String())
	if s := w.job(1).State; s != ledger.Ready || !w.saidAnything("ready to cut") && w.openLetter(1) == "" {
		t.Errorf("with everything in the job is %s", s)
	}
}

func TestJoinAndSplit(t *testing.T) {
	w, right := oddWorld(t)
	better := survey(1)
	w.says("from a friend", better)
	w.arrive(mail{uid: 2, from: "bo@fenn.example", subject: "from a friend", id: "2@fenn.example"})
	if j := w.job(2); j.Perhaps != 1 || j.State != ledger.HeldJob || len(w.draftIDs()) != 1 {
		t.Fatalf("the mail of a stranger with the same numbers: %+v", j.State)
	}
	w.orders(2, ledger.ChooseJoin, "1")
	if hull7(w).Value != right || w.surveyOf(1).Verdict != validate.Clean {
		t.Errorf("joined, the survey is %s", w.surveyOf(1).Verdict)
	}
	if j := w.job(2); j.State != ledger.Closed || j.Joined != 1 || w.message(2).Job != 1 || w.message(2).End != ledger.Answered {
		t.Errorf("the joined job is %s; its mail %s in job %d", j.State, w.message(2).End, w.message(2).Job)
	}
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) {
		t.Errorf("in Drafts lie %v", got)
	}
	// The friend counts as the customer from now on.
	w.surveys["thanks"] = opener.Mail{Body: prose.Mail{Questions: []string{"When is it done?"}}}
	w.arrive(mail{uid: 3, from: "bo@fenn.example", subject: "thanks", id: "3@fenn.example"})
	if m := w.message(3); m.Job != 1 {
		t.Errorf("the friend's next mail went to job %d", m.Job)
	}
	w.orders(1, ledger.ChooseSplit, "")
	w.orders(1, ledger.ChooseSplit, "")
	if hull7(w).Value == right || w.surveyOf(1).Verdict != validate.NeedRecheck {
		t.Errorf("split again, the survey is %s", w.surveyOf(1).Verdict)
	}
	if m := w.message(2); m.Job != 4 || w.surveyOf(4).Verdict != validate.Clean {
		t.Errorf("the friend's survey is in job %d", m.Job)
	}
}

func TestNotThatJob(t *testing.T) {
	w, _ := oddWorld(t)
	w.says("mine", survey(1))
	w.arrive(mail{uid: 2, from: "bo@fenn.example", subject: "mine", id: "2@fenn.example"})
	w.orders(2, ledger.ChooseCorrect, "7 ft; hull_girth; 50")
	if !w.saidAnything("No letter is written before") {
		t.Error("a letter was written for a mail that may belong to another job")
	}
	w.orders(2, ledger.ChooseNo, "")
	if j := w.job(2); j.Perhaps != 0 || j.State != ledger.WaitingUs || w.openLetter(2) == "" {
		t.Errorf("told no, job 2 is %s, letter %q", j.State, w.openLetter(2))
	}
}

func TestCloseAndLateAnswer(t *testing.T) {
	w, right := oddWorld(t)
	w.orders(1, ledger.ChooseClose, "")
	w.orders(1, ledger.ChooseReopen, "")
	if j := w.job(1); j.State != ledger.WaitingUs || w.openLetter(1) == "" {
		t.Errorf("opened again the job is %s", j.State)
	}
	w.orders(1, ledger.ChooseClose, "")
	w.says("late", survey(1))
	w.arrive(mail{uid: 2, from: ann, subject: "late", id: "2@tarn.example"})
	if j := w.job(1); j.State != ledger.WaitingUs || hull7(w).Value != right || !w.saidAnything("open again") {
		t.Errorf("after a late answer the job is %s", j.State)
	}
}

// The letter gives a person's answer to the customer's question.
func TestAnswerInLetter(t *testing.T) {
	w := newWorld(t)
	w.surveys["my boat"] = opener.Mail{Files: []parse.Document{{File: "mail/a.csv", Surveys: []parse.Survey{survey(1)}}},
		Body: prose.Mail{Questions: []string{"Does it come in green?"}}}
	w.arrive(mail{uid: 1, from: ann, subject: "my boat", id: "1@tarn.example"})
	w.orders(1, ledger.ChooseAnswered, "Yes, dark green at the same price.")
	if l := w.openLetter(1); !strings.Contains(l, "dark green at the same price") {
		t.Fatalf("the letter does not give the answer:\n%s", l)
	}
	w.send(1)
	if len(w.letters) != 1 || w.job(1).Question != "" {
		t.Errorf("%d letters went out", len(w.letters))
	}
}

// The third round is a list to telephone with.
func TestThirdRound(t *testing.T) {
	w, _ := oddWorld(t)
	s, _ := odd(1)
	for round := range 2 {
		w.send(1)
		s.Stations[6].HullGirth.Value -= parse.Inches(float64(3 + round))
		subject := []string{"second", "third"}[round]
		w.says(subject, s)
		w.arrive(mail{uid: uint32(round + 2), from: ann, subject: subject, id: subject + "@tarn.example"})
	}
	if l := w.openLetter(1); l != "" {
		t.Errorf("a third letter was drafted:\n%s", l)
	}
	if post := strings.Join(w.threads[1], "\n"); !strings.Contains(post, "telephone") || !strings.Contains(post, "7 ft hull girth") {
		t.Errorf("the post has no list to telephone with:\n%s", post)
	}
	if w.job(1).State != ledger.WaitingUs {
		t.Errorf("the job is %s", w.job(1).State)
	}
}

func TestForms(t *testing.T) {
	paper := func(name string) Papers {
		return Papers{
			Form: func(job int, length parse.Length, unit parse.Unit, _ string) (*reply.File, error) {
				return &reply.File{Name: name, MediaType: "application/pdf", Data: []byte(written(length, unit))}, nil
			},
			Slip: func(_ int, places []parse.Cell, _ parse.Unit, _ string) (*reply.File, error) {
				return &reply.File{Name: "again.pdf", MediaType: "application/pdf", Data: []byte(places[0].Measure)}, nil
			},
		}
	}
	w := newWorld(t)
	w.papers = paper("form.pdf")
	w.surveys["form"] = opener.Mail{Body: prose.Mail{WantsForm: true}}
	w.surveys["long"] = opener.Mail{Body: prose.Mail{WantsForm: true, Document: parse.Document{File: "mail", Surveys: []parse.Survey{{
		Unit: parse.Inch, Stern: parse.Pointed, LengthOverall: parse.Reading{Value: parse.Inches(189), Known: true, Confidence: 1}}}}}}
	w.surveys["said"] = opener.Mail{Body: prose.Mail{WantsForm: true, BoatLength: parse.Inches(189)}}
	s, _ := odd(1)
	w.says("odd", s)
	w.arrive(mail{uid: 1, from: ann, subject: "form", id: "1@tarn.example"},
		mail{uid: 2, from: "bo@fenn.example", subject: "long", id: "2@fenn.example"},
		mail{uid: 3, from: "cy@mere.example", subject: "odd", id: "3@mere.example"},
		mail{uid: 4, from: "di@mere.example", subject: "said", id: "4@mere.example"})
	for i, want := range []string{"MCBpbg==", "MTg5IGlu", "aHVsbF9naXJ0aA==", "MTg5IGlu"} { // "0 in", "189 in", "hull_girth", "189 in"
		if !bytes.Contains(w.drafts[i].raw, []byte(want)) {
			t.Errorf("letter %d does not carry the paper that was made for it (%s)", i+1, want)
		}
	}
	w.send(1)
	if j := w.job(1); j.WantsForm || j.State != ledger.WaitingCustomer || j.Rounds != 0 {
		t.Errorf("after the form went out: %+v", j)
	}
}
