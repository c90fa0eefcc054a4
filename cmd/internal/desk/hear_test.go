package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/reply/chat"
	"fairtape/validate"
)

// room is the people of the channel and what they are shown.
type room struct {
	whispers []string
	doubts   []chat.Doubt
	letter   string
	missed   map[string][]chat.Event // by thread
	asked    []string
}

func (r *room) Whisper(_ context.Context, _ chat.Thread, user, text string) error {
	r.whispers = append(r.whispers, user+": "+text)
	return nil
}
func (r *room) OpenHold(context.Context, chat.Event) error { return nil }
func (r *room) OpenEdit(_ context.Context, _ chat.Event, letter string) error {
	r.letter = letter
	return nil
}
func (r *room) OpenCorrect(_ context.Context, _ chat.Event, doubts []chat.Doubt) error {
	r.doubts = doubts
	return nil
}
func (r *room) Member(_ context.Context, user string) (bool, error) { return user != "cleo", nil }
func (r *room) Missed(_ context.Context, at chat.Thread, _ time.Time) ([]chat.Event, error) {
	r.asked = append(r.asked, at.TS)
	return r.missed[at.TS], nil
}

// whispered reports that a person was told these words.
func (r *room) whispered(user, words string) bool {
	return slices.ContainsFunc(r.whispers, func(w string) bool { return strings.HasPrefix(w, user) && strings.Contains(w, words) })
}

// hears hands events to a desk, which then works.
func (w *world) hears(r *room, approvers []string, list ...chat.Event) {
	d := w.desk()
	for n, e := range list {
		if e.ID == "" {
			e.ID = fmt.Sprintf("event-%d-%d", len(w.said)+len(r.whispers)+len(w.threads), n)
		}
		e.At = w.now
		d.Hear(w.t.Context(), r, approvers, e)
	}
	w.work(d)
}

func by(user string, e chat.Event) chat.Event {
	e.User = chat.Person{ID: user, Name: strings.ToUpper(user[:1]) + user[1:]}
	if e.Thread.TS == "" {
		e.Thread = chat.Thread{Channel: "C1", TS: "ts-1"}
	}
	return e
}

func said(user, text string) chat.Event {
	return by(user, chat.Event{Kind: chat.Said, Text: text, InThread: true, ID: user + text})
}

// The first counts; the others are told who did what.
func TestFirstCounts(t *testing.T) {
	w, _ := oddWorld(t)
	r := &room{}
	press := func(user string, kind chat.Kind) chat.Event {
		return by(user, chat.Event{Kind: kind, Draft: "1-1", ID: user + string(kind)})
	}
	w.hears(r, nil, press("ann", chat.PressSend), press("ann", chat.PressSend), press("ben", chat.PressSend), press("ben", chat.PressHold),
		by("ben", chat.Event{Kind: chat.Held, Draft: "1-1", Reason: "no", ID: "x"}))
	if len(w.letters) != 1 {
		t.Fatalf("%d letters went out, want 1", len(w.letters))
	}
	if !r.whispered("ben", "Ann was faster") {
		t.Errorf("the second was not told who was first: %v", r.whispers)
	}
	w.hears(r, nil, by("ben", chat.Event{Kind: chat.PressSend, Draft: "1-1", ID: "late"}), by("ben", chat.Event{Kind: chat.PressEdit, Draft: "1-1", ID: "later"}))
	if !r.whispered("ben", "sent already (by Ann)") || r.letter != "" || len(w.letters) != 1 {
		t.Errorf("a press on an outdated post: %v", r.whispers)
	}
}

func TestWhoMayDecide(t *testing.T) {
	w, _ := oddWorld(t)
	r := &room{}
	w.hears(r, []string{"ann"}, by("cleo", chat.Event{Kind: chat.PressSend, Draft: "1-1"}), by("ben", chat.Event{Kind: chat.PressSend, Draft: "1-1"}),
		said("ben", "close"), said("cleo", "close"))
	if len(w.letters) != 0 || w.job(1).State == ledger.Closed || !r.whispered("cleo", "in this channel") || !r.whispered("ben", "approvers") {
		t.Errorf("somebody decided who may not: %v", r.whispers)
	}
}

func TestCorrectInChat(t *testing.T) {
	w, right := oddWorld(t)
	r := &room{}
	w.hears(r, nil, by("ann", chat.Event{Kind: chat.PressCorrect, Draft: "1-1"}))
	if len(r.doubts) != 1 || r.doubts[0].Label != "7 ft hull girth" {
		t.Fatalf("asked about %+v, want 7 ft hull girth", r.doubts)
	}
	value := written(right, parse.Inch)
	w.hears(r, nil, by("ann", chat.Event{Kind: chat.Corrected, Draft: "1-1", ID: "modal", Corrections: []chat.Correction{
		{Key: r.doubts[0].Key, Value: value}, {Place: "70 ft", Measure: "hull_girth", Value: "40"}}}))
	if hull7(w).Value != right || !r.whispered("ann", "no place") || w.surveyOf(1).Verdict != validate.Clean {
		t.Errorf("the number is %v, want %v; %v", hull7(w).Value, right, r.whispers)
	}
	if c := hull7(w).Source; c.Place != "by Ann" {
		t.Errorf("its source is %+v", c)
	}
}

func TestWordsInThread(t *testing.T) {
	w, right := oddWorld(t)
	r := &room{}
	w.hears(r, nil, said("ben", "that boat looks odd, no?"), said("ben", "close enough"), said("ben", "no"))
	if len(r.whispers) != 0 || w.job(1).State == ledger.Closed {
		t.Fatalf("talk was taken for orders: %v", r.whispers)
	}
	w.hears(r, nil, said("ann", "phone 7 ft hull "+written(right, parse.Inch)), said("ann", "note they called at noon"), said("ann", "Tracings are in"))
	if hull7(w).Value != right || !w.saidAnything("Both tracings are in") || !w.saidAnything("Ann: noted") {
		t.Errorf("orders in the thread: %v", w.said)
	}
	if w.job(1).State != ledger.Ready {
		t.Errorf("the job is %s", w.job(1).State)
	}
	elsewhere := chat.Thread{Channel: "C1", TS: "other"}
	w.hears(r, nil, by("ann", chat.Event{Kind: chat.Said, Text: "1 close", Mention: true, Thread: elsewhere, ID: "a"}),
		by("ann", chat.Event{Kind: chat.Said, Text: "99 close", Mention: true, Thread: elsewhere, ID: "b"}),
		by("ann", chat.Event{Kind: chat.Said, Text: "good morning", Mention: true, Thread: elsewhere, ID: "c"}))
	if w.job(1).State != ledger.Closed || !r.whispered("ann", "no job 99") || !r.whispered("ann", "Say it in the thread") {
		t.Errorf("mentions: %v", r.whispers)
	}
}

// A file dropped into a thread is read as part of the job, once.
func TestFileInThread(t *testing.T) {
	w, right := oddWorld(t)
	w.surveys["my boat"] = opener.Mail{Files: []parse.Document{{File: "chat/page.jpg", Surveys: []parse.Survey{survey(1)}}}}
	e := by("ann", chat.Event{Kind: chat.Said, ID: "drop", InThread: true, Files: []chat.File{{ID: "F1", Name: "page.jpg", URL: "bytes"}}})
	w.hears(&room{}, nil, e, e)
	if hull7(w).Value != right {
		t.Error("the file was not read into the job")
	}
	var versions []ledger.Version
	err := w.ledger.View(t.Context(), func(tx *ledger.Tx) (err error) {
		versions, err = tx.Surveys(account, 1)
		return err
	})
	if !w.saidAnything("File page.jpg, Ann: read as part of the job; 7 ft hull girth is now") {
		t.Errorf("nobody says what the file changed: %v", w.said)
	}
	if err != nil || len(versions) != 2 || versions[1].Cause != "file page.jpg, Ann" {
		t.Errorf("%d versions of the survey, %v", len(versions), err)
	}
	if got := w.draftIDs(); !slices.Equal(got, []string{"1-2"}) {
		t.Errorf("in Drafts lie %v", got)
	}
}

// What was said while the chat was out of reach is heard afterwards, once.
func TestCatchUp(t *testing.T) {
	w, _ := oddWorld(t)
	r := &room{missed: map[string][]chat.Event{"ts-1": {said("ann", "tracings in"), said("ben", "fine")}}}
	connected := chat.Event{Kind: chat.Connected}
	w.hears(r, nil, connected)
	if len(r.asked) != 0 {
		t.Errorf("the first start asked for %v", r.asked)
	}
	w.now = w.now.Add(time.Hour)
	w.hears(r, nil, connected, connected)
	if n := w.saidTimes("Both tracings are in"); n != 1 || !w.job(1).Tracings.Both() || !slices.Contains(r.asked, "") {
		t.Errorf("said %d times, asked %v", n, r.asked)
	}
}
