package chattest

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// triggerLife is how long a modal may be opened after a press.
const triggerLife = 3 * time.Second

// View is a modal that a person has before them.
type View struct {
	ID   string
	User string
	JSON json.RawMessage // as it was opened
	view view
}

// CallbackID and PrivateMetadata return what the bot put into the modal.
func (v *View) CallbackID() string      { return v.view.CallbackID }
func (v *View) PrivateMetadata() string { return v.view.PrivateMetadata }

// Shown returns the texts that stand in the modal's inputs, by block id.
func (v *View) Shown() map[string]string {
	shown := make(map[string]string)
	for _, b := range v.view.Blocks {
		if b.Element != nil {
			shown[b.BlockID] = b.Element.InitialValue
		}
	}
	return shown
}

// ErrNoButton: the post has no such button.
var ErrNoButton = errors.New("the post has no such button")

// Button is a button of a post.
type Button struct {
	ActionID, Value, Label, Style string
	Confirm                       string // the question asked first, "" for none
}

// Buttons returns the buttons of a post.
func (m Message) Buttons() []Button {
	blocks, _ := parseBlocks(string(m.Blocks))
	var buttons []Button
	for _, b := range blocks {
		var elements []element
		if b.Type != "actions" || json.Unmarshal(b.Elements, &elements) != nil {
			continue
		}
		for _, e := range elements {
			button := Button{e.ActionID, e.Value, e.Text.Text, e.Style, ""}
			if e.Confirm != nil {
				button.Confirm = e.Confirm.Text.Text
			}
			buttons = append(buttons, button)
		}
	}
	return buttons
}

// Press presses a button that the post has now; a question before it is
// answered with yes.
func (s *Server) Press(user, ts, action string) (Ack, error) {
	s.mu.Lock()
	m := s.message(ts)
	s.mu.Unlock()
	if m == nil {
		return Ack{}, ErrNoButton
	}
	for _, b := range m.Buttons() {
		if b.ActionID == action {
			return s.PressStale(user, ts, action, b.Value)
		}
	}
	return Ack{}, ErrNoButton
}

// PressStale presses a button on a post as a person still sees it who has not
// been shown its latest state.
func (s *Server) PressStale(user, ts, action, value string) (Ack, error) {
	return s.Deliver(Envelope{Type: "interactive", Payload: s.Pressed(user, ts, action, value)})
}

// Pressed is the payload of a pressed button.
func (s *Server) Pressed(user, ts, action, value string) map[string]any {
	s.mu.Lock()
	defer s.mu.Unlock()
	trig := s.id("trigger-")
	s.triggers[trig] = trigger{user, time.Now()}
	payload := s.interaction("block_actions", user)
	payload["trigger_id"] = trig
	payload["channel"] = answer{"id": s.Channel, "name": "surveys"}
	payload["container"] = answer{"type": "message", "message_ts": ts, "channel_id": s.Channel, "is_ephemeral": false}
	payload["response_url"] = s.base() + "/api/response"
	payload["actions"] = []answer{{"type": "button", "action_id": action, "block_id": "decide", "value": value,
		"text": answer{"type": "plain_text", "text": action}, "action_ts": s.stamp()}}
	if m := s.message(ts); m != nil {
		payload["message"] = s.tell(m, false)
	} else {
		payload["message"] = answer{"type": "message", "ts": ts, "user": BotUser, "bot_id": BotID}
	}
	return payload
}

// interaction is what all interactive payloads share. The caller holds mu.
func (s *Server) interaction(kind, user string) map[string]any {
	name := s.names[user]
	return map[string]any{
		"type": kind, "api_app_id": AppID, "token": "loopback",
		"team": answer{"id": TeamID, "domain": "pinfold"},
		"user": answer{"id": user, "username": name, "name": name, "team_id": TeamID},
	}
}

func (s *Server) viewsOpen(args map[string]string) answer {
	t, ok := s.triggers[args["trigger_id"]]
	switch {
	case !ok:
		return refusal("invalid_trigger_id")
	case time.Since(t.at) > triggerLife:
		return refusal("expired_trigger_id")
	}
	v := &View{User: t.user, JSON: json.RawMessage(args["view"])}
	if json.Unmarshal(v.JSON, &v.view) != nil || !v.view.valid(len(v.JSON)) {
		return refusal("invalid_arguments")
	}
	delete(s.triggers, args["trigger_id"])
	v.ID = s.id("V")
	s.views = append(s.views, v)
	return answer{"ok": true, "view": s.viewJSON(v, nil)}
}

func (s *Server) viewJSON(v *View, state any) map[string]any {
	var shown map[string]any
	_ = json.Unmarshal(v.JSON, &shown) // it was read before
	shown["id"], shown["team_id"], shown["app_id"], shown["bot_id"] = v.ID, TeamID, AppID, BotID
	shown["hash"], shown["root_view_id"] = "1.1", v.ID
	if state != nil {
		shown["state"] = answer{"values": state}
	}
	return shown
}

// Modal waits for the modal that a user has before them.
func (s *Server) Modal(user string, patience time.Duration) (*View, error) {
	for end := time.Now().Add(patience); ; time.Sleep(5 * time.Millisecond) {
		s.mu.Lock()
		for _, v := range slices.Backward(s.views) {
			if v.User == user {
				s.mu.Unlock()
				return v, nil
			}
		}
		s.mu.Unlock()
		if time.Now().After(end) {
			return nil, fmt.Errorf("no modal for %s", user)
		}
	}
}

// Submit hands a modal in, with what the person typed or chose by block id;
// what is not named stays as it was shown. A modal that was handed in is gone,
// one with errors stays. The errors are those shown to the person, by block id.
func (s *Server) Submit(v *View, typed map[string]string) (map[string]string, error) {
	payload, err := s.Submitted(v, typed)
	if err != nil {
		return nil, err
	}
	ack, err := s.Deliver(Envelope{Type: "interactive", Payload: payload})
	if err != nil {
		return nil, err
	}
	var reply struct {
		Action string            `json:"response_action"`
		Errors map[string]string `json:"errors"`
	}
	if len(ack.Payload) > 0 {
		if err := json.Unmarshal(ack.Payload, &reply); err != nil {
			return nil, fmt.Errorf("acknowledgement of a modal: %w", err)
		}
	}
	if reply.Action == "errors" {
		return reply.Errors, nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.views = slices.DeleteFunc(s.views, func(other *View) bool { return other == v })
	return nil, nil
}

// Submitted is the payload of a modal that is handed in.
func (s *Server) Submitted(v *View, typed map[string]string) (map[string]any, error) {
	for id := range typed {
		if !slices.ContainsFunc(v.view.Blocks, func(b block) bool { return b.BlockID == id }) {
			return nil, fmt.Errorf("the modal has no block %q", id)
		}
	}
	values := make(map[string]any)
	for _, b := range v.view.Blocks {
		if b.Element == nil {
			continue
		}
		value, ok := typed[b.BlockID]
		if !ok {
			value = b.Element.InitialValue
		}
		state, err := b.state(value)
		if err != nil {
			return nil, err
		}
		values[b.BlockID] = map[string]any{b.Element.ActionID: state}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	payload := s.interaction("view_submission", v.User)
	payload["trigger_id"] = s.id("trigger-")
	payload["view"] = s.viewJSON(v, values)
	return payload, nil
}

// state is an input's state as a submission tells it. The program of a person
// does not hand in what is too long or, where it is wanted, empty.
func (b block) state(value string) (answer, error) {
	e := b.Element
	state := answer{"type": e.Type}
	switch {
	case value == "" && !b.Optional:
		return nil, fmt.Errorf("%s: wanted, but empty", b.BlockID)
	case e.Type == "plain_text_input" && utf8.RuneCountInString(value) > e.limit():
		return nil, fmt.Errorf("%s: more than %d characters", b.BlockID, e.limit())
	case e.Type == "plain_text_input" && value == "":
		state["value"] = nil
	case e.Type == "plain_text_input":
		state["value"] = value
	case e.Type == "datepicker" && value == "":
		state["selected_date"] = nil
	case e.Type == "datepicker":
		state["selected_date"] = value
	case value == "":
		state["selected_option"] = nil
	default:
		i := slices.IndexFunc(e.Options, func(o option) bool { return o.Value == value })
		if i < 0 {
			return nil, fmt.Errorf("%s: no choice %q", b.BlockID, value)
		}
		state["selected_option"] = answer{"text": answer{"type": "plain_text", "text": e.Options[i].Text.Text}, "value": value}
	}
	return state, nil
}

// Say writes a message as a person, in a thread or, with an empty ts, in the
// channel; files are dropped with it. The bot is told, twice when it is
// mentioned ("<@U0FAIR> ..."), as the service does. It returns the message's
// timestamp; the error is ErrNoAck when the bot did not take it in.
func (s *Server) Say(user, threadTS, words string, files ...File) (string, error) {
	s.mu.Lock()
	m := &Message{TS: s.stamp(), ThreadTS: threadTS, User: user, Text: words}
	for _, f := range files {
		f.ID = s.id("F")
		if f.MediaType == "" {
			f.MediaType = mediaType(f.Name)
		}
		s.files[f.ID] = &f
		m.Files = append(m.Files, &f)
	}
	s.messages = append(s.messages, m)
	s.mu.Unlock()
	var failed error
	for _, e := range s.Said(*m) {
		if _, err := s.Deliver(e); err != nil {
			failed = err
		}
	}
	return m.TS, failed
}

// Said returns the envelopes by which the bot hears of a message.
func (s *Server) Said(m Message) []Envelope {
	s.mu.Lock()
	defer s.mu.Unlock()
	kinds := []string{"message"}
	if mentions(m.Text) {
		kinds = []string{"app_mention", "message"}
	}
	var envelopes []Envelope
	for _, kind := range kinds {
		event := s.tell(&m, false)
		event["type"], event["channel"], event["event_ts"] = kind, s.Channel, m.TS
		if kind == "message" {
			event["channel_type"] = "channel"
			if len(m.Files) > 0 {
				event["subtype"] = "file_share"
			}
		}
		envelopes = append(envelopes, Envelope{ID: s.id("envelope-"), Type: "events_api", Payload: map[string]any{
			"type": "event_callback", "token": "loopback", "team_id": TeamID, "api_app_id": AppID,
			"event_id": s.id("Ev"), "event_time": time.Now().Unix(), "event": map[string]any(event),
			"is_ext_shared_channel": false,
		}})
	}
	return envelopes
}

func mentions(words string) bool { return strings.Contains(words, "<@"+BotUser+">") }
