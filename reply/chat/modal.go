package chat

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/slack-go/slack"
)

// Limits of a modal. Source: docs.slack.dev, reference of views and of Block
// Kit; 3,000 for an input's text is its max_length's largest value.
const (
	maxInput    = 3000
	pieceRoom   = 2600 // a piece of a letter leaves room to add to
	maxDoubts   = 60   // of 100 blocks
	maxBlockID  = 255
	maxReason   = 500
	maxTypedLen = 60 // a length or a place as typed
)

// Block and action ids of the modals.
const (
	inputAction  = "input"
	letterBlock  = "letter."
	doubtBlock   = "doubt."
	placeBlock   = "other.place"
	measureBlock = "other.measure"
	valueBlock   = "other.value"
	untilBlock   = "until"
	reasonBlock  = "reason"
)

// Doubt is a reading that a person is asked about.
type Doubt struct {
	Key   string // comes back in the Correction; at most 240 bytes
	Label string // "7 ft, hull girth"
	Read  string // "47 1/2 or 41 1/2", "" for nothing read
}

// measures are what a person can give a value for, by their names in a survey.
var measures = []struct {
	name, label string
	atStation   bool
}{
	{"hull_girth", "hull girth at a station", true},
	{"full_girth", "full girth at a station", true},
	{"length_overall", "length overall", false},
	{"bow_height", "bow height", false},
	{"stern_height", "stern height", false},
	{"carry_point", "carry point", false},
	{"greatest.at", "greatest girth: its place", false},
	{"greatest.hull_girth", "greatest girth: hull girth", false},
	{"greatest.full_girth", "greatest girth: full girth", false},
	{"greatest.opening", "greatest girth: opening", false},
	{"transom.hull_girth", "transom: hull girth", false},
	{"transom.full_girth", "transom: full girth", false},
}

// memo travels in a modal and comes back with it.
type memo struct {
	Channel string   `json:"channel"`
	TS      string   `json:"ts"`
	Draft   string   `json:"draft"`
	After   []string `json:"after,omitempty"` // what stood between the pieces of the letter
}

// OpenEdit shows the whole letter for editing. Edited comes when it is handed
// in; closing the modal changes nothing.
func (p *Poster) OpenEdit(ctx context.Context, pressed Event, letter string) error {
	var after []string
	var blocks []slack.Block
	pieces := split(clean(letter), pieceRoom, utf8.RuneCountInString)
	for i, piece := range pieces {
		input := slack.NewPlainTextInputBlockElement(nil, inputAction)
		input.Multiline, input.InitialValue, input.MaxLength = true, piece.text, maxInput
		label := "The letter to the customer"
		if len(pieces) > 1 {
			label = fmt.Sprintf("The letter, part %d of %d", i+1, len(pieces))
		}
		block := slack.NewInputBlock(fmt.Sprintf("%s%d", letterBlock, i), plainText(label), nil, input)
		block.Optional = i > 0
		blocks = append(blocks, block)
		after = append(after, piece.after)
	}
	return p.open(ctx, pressed, PressEdit, "Edit the letter", "Keep changes", after, blocks)
}

// OpenCorrect asks for the readings in doubt, and any other.
func (p *Poster) OpenCorrect(ctx context.Context, pressed Event, doubts []Doubt) error {
	var blocks []slack.Block
	used := make(map[string]bool)
	for _, doubt := range doubts[:min(len(doubts), maxDoubts)] {
		id := doubtBlock + doubt.Key
		if used[id] || len(id) > maxBlockID {
			continue
		}
		used[id] = true
		hint := "Nothing was read."
		if doubt.Read != "" {
			hint = "Read: " + oneLine(doubt.Read)
		}
		blocks = append(blocks, textInput(id, doubt.Label, hint))
	}
	options := make([]*slack.OptionBlockObject, len(measures))
	for i, m := range measures {
		options[i] = slack.NewOptionBlockObject(m.name, plainText(m.label), nil)
	}
	measure := slack.NewInputBlock(measureBlock, plainText("Any other reading"), nil,
		slack.NewOptionsSelectBlockElement(slack.OptTypeStatic, plainText("Which measure"), inputAction, options...))
	measure.Optional = true
	blocks = append(blocks, measure,
		textInput(placeBlock, "At station", "Its distance from the bow, 7 ft; empty for a measure of the whole boat."),
		textInput(valueBlock, "Is", "As the customer would write it, 47 1/2."))
	return p.open(ctx, pressed, PressCorrect, "Correct readings", "Use these", nil, blocks)
}

// OpenHold asks until when, or why.
func (p *Poster) OpenHold(ctx context.Context, pressed Event) error {
	until := slack.NewInputBlock(untilBlock, plainText("Hold the letter until"), nil,
		slack.NewDatePickerBlockElement(inputAction))
	until.Optional = true
	reason := textInput(reasonBlock, "or because", "One of the two is enough.")
	reason.Element.(*slack.PlainTextInputBlockElement).MaxLength = maxReason
	return p.open(ctx, pressed, PressHold, "Hold the letter", "Hold", nil, []slack.Block{until, reason})
}

func textInput(id, label, hint string) *slack.InputBlock {
	input := slack.NewPlainTextInputBlockElement(nil, inputAction)
	input.MaxLength = maxTypedLen
	block := slack.NewInputBlock(id, plainText(shorten(oneLine(label), 200)), plainText(shorten(hint, 200)), input)
	block.Optional = true
	return block
}

func (p *Poster) open(ctx context.Context, pressed Event, kind Kind, title, submit string, after []string, blocks []slack.Block) error {
	private, err := json.Marshal(memo{pressed.Thread.Channel, pressed.Thread.TS, pressed.Draft, after})
	if err != nil {
		return fmt.Errorf("modal for draft %s: %w", pressed.Draft, err)
	}
	_, err = p.api.OpenViewContext(ctx, pressed.Trigger, slack.ModalViewRequest{
		Type:            slack.VTModal,
		CallbackID:      string(kind),
		Title:           plainText(title),
		Submit:          plainText(submit),
		Close:           plainText("Cancel"),
		PrivateMetadata: string(private),
		Blocks:          slack.Blocks{BlockSet: blocks},
	})
	if err != nil {
		return fmt.Errorf("modal for draft %s: %w", pressed.Draft, judge(err).wrap(err))
	}
	return nil
}

// submission reads a modal that was handed in. The second result says, by block
// id, what is wrong with it; the person sees that at once.
func submission(view slack.View, length func(string) string) (Event, map[string]string) {
	var m memo
	if err := json.Unmarshal([]byte(view.PrivateMetadata), &m); err != nil || view.State == nil {
		return Event{}, nil
	}
	event := Event{ID: "view/" + view.ID, Thread: Thread{m.Channel, m.TS}, Draft: m.Draft}
	typed := func(block string) string {
		return strings.TrimSpace(clean(view.State.Values[block][inputAction].Value))
	}
	switch Kind(view.CallbackID) {
	case PressEdit:
		event.Kind = Edited
		event.Text = editedLetter(view, m.After)
		if event.Text == "" {
			return event, map[string]string{letterBlock + "0": "The letter is empty. To send none, press Hold."}
		}
	case PressCorrect:
		event.Kind = Corrected
		var wrong map[string]string
		event.Corrections, wrong = corrections(view, typed, length)
		return event, wrong
	case PressHold:
		event.Kind, event.Reason = Held, typed(reasonBlock)
		event.Until = view.State.Values[untilBlock][inputAction].SelectedDate
		if event.Until == "" && event.Reason == "" {
			return event, map[string]string{reasonBlock: "Give a date or a reason."}
		}
	}
	return event, nil
}

func editedLetter(view slack.View, after []string) string {
	var b strings.Builder
	for i := range max(len(after), 1) {
		text := clean(view.State.Values[fmt.Sprintf("%s%d", letterBlock, i)][inputAction].Value)
		if strings.TrimSpace(text) == "" {
			continue
		}
		if b.Len() > 0 {
			b.WriteString(after[i-1])
		}
		b.WriteString(text)
	}
	return strings.TrimSpace(b.String())
}

func corrections(view slack.View, typed func(string) string, length func(string) string) ([]Correction, map[string]string) {
	var given []Correction
	wrong := make(map[string]string)
	check := func(block, value string) {
		if length == nil {
			return
		}
		if reason := length(value); reason != "" {
			wrong[block] = reason
		}
	}
	var doubts []string
	for block := range view.State.Values {
		if strings.HasPrefix(block, doubtBlock) && typed(block) != "" {
			doubts = append(doubts, block)
		}
	}
	slices.Sort(doubts)
	for _, block := range doubts {
		check(block, typed(block))
		given = append(given, Correction{Key: strings.TrimPrefix(block, doubtBlock), Value: typed(block)})
	}
	other := Correction{
		Measure: view.State.Values[measureBlock][inputAction].SelectedOption.Value,
		Place:   typed(placeBlock), Value: typed(valueBlock),
	}
	switch station := atStation(other.Measure); {
	case other == Correction{}:
		if len(given) == 0 {
			wrong[valueBlock] = "Give at least one value."
		}
		return given, wrong
	case other.Measure == "":
		wrong[measureBlock] = "Which measure is it?"
	case other.Value == "":
		wrong[valueBlock] = "What is its value?"
	case station && other.Place == "":
		wrong[placeBlock] = "At which station?"
	case !station && other.Place != "":
		wrong[placeBlock] = "This measure has no station: leave this empty."
	default:
		check(valueBlock, other.Value)
		if station {
			check(placeBlock, other.Place)
		}
	}
	return append(given, other), wrong
}

func atStation(measure string) bool {
	for _, m := range measures {
		if m.name == measure {
			return m.atStation
		}
	}
	return false
}
