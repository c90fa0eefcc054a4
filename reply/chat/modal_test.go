package chat_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

func TestEditModal(t *testing.T) {
	l := listen(t)
	letter := "Dear Ida,\n\n" + strings.Repeat("A paragraph of the letter, long enough to fill it <1>.\n\n", 120) + "Yours"
	v := l.open("edit", func(e chat.Event) error { return l.poster.OpenEdit(context.Background(), e, letter) })
	if len(v.Shown()) < 3 {
		t.Fatalf("a letter of %d characters is shown in %d inputs", len(letter), len(v.Shown()))
	}
	if wrong, err := l.Submit(v, nil); err != nil || len(wrong) > 0 {
		t.Fatal(wrong, err)
	}
	if e := l.next(); e.Kind != chat.Edited || e.Text != letter || e.Draft != "14-1" || e.Thread != l.thread || e.User.Name != "Ann" {
		t.Errorf("an unchanged letter came back as %+v", e)
	}

	v = l.open("edit", func(e chat.Event) error { return l.poster.OpenEdit(context.Background(), e, "Dear Ida") })
	if wrong, err := l.Submit(v, map[string]string{"letter.0": " \n "}); err != nil || wrong["letter.0"] == "" {
		t.Errorf("an empty letter: %v, %v", wrong, err)
	}
	if wrong, err := l.Submit(v, map[string]string{"letter.0": "Dear Ida & all,\nplease"}); err != nil || len(wrong) > 0 {
		t.Fatal(wrong, err)
	}
	if e := l.next(); e.Text != "Dear Ida & all,\nplease" {
		t.Errorf("edited letter %q", e.Text)
	}
}

// open presses a button and opens its modal.
func (l *listening) open(action string, open func(chat.Event) error) *chattest.View {
	l.t.Helper()
	if _, err := l.Press(chattest.Ann, l.thread.TS, action); err != nil {
		l.t.Fatal(err)
	}
	if err := open(l.next()); err != nil {
		l.t.Fatal(err)
	}
	v, err := l.Modal(chattest.Ann, patience)
	if err != nil {
		l.t.Fatal(err)
	}
	return v
}

func TestCorrectModal(t *testing.T) {
	l := listen(t)
	doubts := []chat.Doubt{
		{Key: "84/hull_girth", Label: "7 ft, hull girth", Read: "47 1/2 or 41 1/2"},
		{Key: "/bow_height", Label: "bow height"},
	}
	v := l.open("correct", func(e chat.Event) error { return l.poster.OpenCorrect(context.Background(), e, doubts) })
	for name, test := range map[string]struct {
		typed map[string]string
		block string
	}{
		"nothing":          {nil, "other.value"},
		"no length":        {map[string]string{"doubt.84/hull_girth": "about so"}, "doubt.84/hull_girth"},
		"no measure":       {map[string]string{"other.value": "47"}, "other.measure"},
		"no value":         {map[string]string{"other.measure": "bow_height"}, "other.value"},
		"no station":       {map[string]string{"other.measure": "full_girth", "other.value": "80"}, "other.place"},
		"station too many": {map[string]string{"other.measure": "bow_height", "other.value": "18", "other.place": "3 ft"}, "other.place"},
	} {
		if wrong, err := l.Submit(v, test.typed); err != nil || wrong[test.block] == "" {
			t.Errorf("%s: %v, %v; want a word at %s", name, wrong, err, test.block)
		}
	}
	wrong, err := l.Submit(v, map[string]string{
		"doubt.84/hull_girth": "47 1/2", "other.measure": "full_girth", "other.place": "9 ft", "other.value": "83",
	})
	if err != nil || len(wrong) > 0 {
		t.Fatal(wrong, err)
	}
	want := []chat.Correction{{Key: "84/hull_girth", Value: "47 1/2"}, {Place: "9 ft", Measure: "full_girth", Value: "83"}}
	if e := l.next(); e.Kind != chat.Corrected || !slices.Equal(e.Corrections, want) || e.Draft != "14-1" {
		t.Errorf("%+v", e)
	}
}

func TestCorrectModalWithManyDoubts(t *testing.T) {
	l := listen(t)
	var doubts []chat.Doubt
	for i := range 200 {
		doubts = append(doubts, chat.Doubt{Key: fmt.Sprint(i % 40), Label: strings.Repeat("label ", 90), Read: strings.Repeat("<read> ", 90)})
	}
	l.open("correct", func(e chat.Event) error { return l.poster.OpenCorrect(context.Background(), e, doubts) })
}

func TestHoldModal(t *testing.T) {
	l := listen(t)
	v := l.open("hold", func(e chat.Event) error { return l.poster.OpenHold(context.Background(), e) })
	if wrong, err := l.Submit(v, nil); err != nil || wrong["reason"] == "" {
		t.Errorf("neither date nor reason: %v, %v", wrong, err)
	}
	if wrong, err := l.Submit(v, map[string]string{"until": "2026-12-01", "reason": "she telephones"}); err != nil || len(wrong) > 0 {
		t.Fatal(wrong, err)
	}
	if e := l.next(); e.Kind != chat.Held || e.Until != "2026-12-01" || e.Reason != "she telephones" {
		t.Errorf("%+v", e)
	}
}

func TestModalTooLate(t *testing.T) {
	l := listen(t)
	if _, err := l.Press(chattest.Ann, l.thread.TS, "edit"); err != nil {
		t.Fatal(err)
	}
	e := l.next()
	e.Trigger = "trigger-of-yesterday"
	if err := l.poster.OpenEdit(context.Background(), e, "x"); !errors.Is(err, chat.ErrRefused) {
		t.Errorf("error %v", err)
	}
}

// A modal that was opened in another channel's name decides nothing here.
func TestForgedModal(t *testing.T) {
	l := listen(t)
	v := l.open("hold", func(e chat.Event) error {
		e.Thread.Channel = "C0OTHER"
		return l.poster.OpenHold(context.Background(), e)
	})
	if _, err := l.Submit(v, map[string]string{"reason": "x"}); err != nil {
		t.Fatal(err)
	}
	l.quiet()
}
