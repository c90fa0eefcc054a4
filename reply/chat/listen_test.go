package chat_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

// patience is how long a test waits for what must come.
const patience = 5 * time.Second

// listening is a server with a posted job and a listener on it.
type listening struct {
	*chattest.Server
	t      *testing.T
	poster *chat.Poster
	thread chat.Thread
	events chan chat.Event
	ended  chan error
}

// listen listens to a channel, and to others of the same app.
func listen(t *testing.T, others ...string) *listening {
	t.Helper()
	server, p, _ := begin(t, others...)
	thread, err := p.Show(context.Background(), sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	l := &listening{Server: server, t: t, poster: p, thread: thread,
		events: make(chan chat.Event, 100), ended: make(chan error, 1)}
	ctx, cancel := context.WithCancel(context.Background())
	length := func(text string) string {
		if strings.ContainsAny(text, "0123456789") {
			return ""
		}
		return "That is no length."
	}
	go func() {
		l.ended <- p.Listen(ctx, func(_ context.Context, e chat.Event) { l.events <- e }, length)
	}()
	t.Cleanup(func() {
		cancel()
		select {
		case <-l.ended:
		case <-time.After(patience):
			t.Error("the listener did not end")
		}
	})
	if !server.WaitConnected(patience) {
		t.Fatal("nobody connected")
	}
	if e := l.next(); e.Kind != chat.Connected {
		t.Fatalf("first event is %+v", e)
	}
	return l
}

// next waits for an event.
func (l *listening) next() chat.Event {
	l.t.Helper()
	select {
	case e := <-l.events:
		return e
	case <-time.After(patience):
		l.t.Fatal("no event came")
		return chat.Event{}
	}
}

// quiet makes sure that no event came: a later one is the next.
func (l *listening) quiet() {
	l.t.Helper()
	if _, err := l.Say(chattest.Ann, l.thread.TS, "marker"); err != nil {
		l.t.Fatal(err)
	}
	if e := l.next(); e.Text != "marker" {
		l.t.Errorf("unexpected event %+v", e)
	}
}

func TestButtons(t *testing.T) {
	l := listen(t)
	for _, action := range []string{"send", "edit", "correct", "hold"} {
		ack, err := l.Press(chattest.Ann, l.thread.TS, action)
		if err != nil || ack.After > time.Second {
			t.Fatalf("%s: acknowledged after %v, %v", action, ack.After, err)
		}
		e := l.next()
		if e.Kind != chat.Kind(action) || e.Draft != "14-1" || e.Thread != l.thread || e.User.ID != chattest.Ann || e.User.Name != "Ann" || e.Trigger == "" || e.ID == "" {
			t.Errorf("%s: %+v", action, e)
		}
	}
}

// A handler that takes its time holds up neither acknowledgements nor modals.
func TestSlowHandler(t *testing.T) {
	server, p, _ := begin(t)
	thread, err := p.Show(context.Background(), sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	busy, opened, ended := make(chan bool), make(chan chat.Event, 1), make(chan error)
	go func() {
		ended <- p.Listen(ctx, func(ctx context.Context, e chat.Event) {
			switch e.Kind {
			case chat.Said:
				busy <- true
				<-ctx.Done()
			case chat.PressEdit:
				opened <- e
			}
		}, nil)
	}()
	server.WaitConnected(patience)
	if _, err := server.Say(chattest.Ann, thread.TS, "tracings in"); err != nil {
		t.Fatal(err)
	}
	<-busy
	for range 20 {
		if ack, err := server.Press(chattest.Ben, thread.TS, "send"); err != nil || ack.After > time.Second {
			t.Fatalf("acknowledged after %v, %v", ack.After, err)
		}
	}
	if _, err := server.Press(chattest.Ben, thread.TS, "edit"); err != nil {
		t.Fatal(err)
	}
	select {
	case <-opened:
	case <-time.After(patience):
		t.Error("the modal waits behind a slow handler")
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}

func TestSaid(t *testing.T) {
	l := listen(t)
	ts, err := l.Say(chattest.Ben, l.thread.TS, "tracings in &amp; fine", chattest.File{Name: "slip.jpg", Data: []byte("jpeg bytes")})
	if err != nil {
		t.Fatal(err)
	}
	e := l.next()
	if e.Kind != chat.Said || e.Text != "tracings in & fine" || e.Mention || !e.InThread || e.Thread != l.thread || e.User.Name != "Ben" || !strings.HasSuffix(e.ID, ts) {
		t.Errorf("%+v", e)
	}
	if len(e.Files) != 1 || e.Files[0].Name != "slip.jpg" || e.Files[0].MediaType != "image/jpeg" {
		t.Fatalf("files %+v", e.Files)
	}
	if data, err := l.poster.Download(context.Background(), e.Files[0], 100); err != nil || string(data) != "jpeg bytes" {
		t.Errorf("download: %q, %v", data, err)
	}
	if _, err := l.poster.Download(context.Background(), e.Files[0], 5); !errors.Is(err, chat.ErrTooLarge) {
		t.Errorf("download over its limit: %v", err)
	}
	lying := e.Files[0]
	lying.Size = 1
	if _, err := l.poster.Download(context.Background(), lying, 5); !errors.Is(err, chat.ErrTooLarge) {
		t.Errorf("download of a file that lies about its size: %v", err)
	}
	lying.URL = "https://elsewhere.example/file"
	if _, err := l.poster.Download(context.Background(), lying, 5); err == nil {
		t.Error("the token went to another host")
	}
}

// A mention comes as two events of the service and is one of ours.
func TestMention(t *testing.T) {
	l := listen(t)
	ts, err := l.Say(chattest.Ann, "", "<@"+chattest.BotUser+"> 14 close")
	if err != nil {
		t.Fatal(err)
	}
	if e := l.next(); e.Text != "14 close" || !e.Mention || e.InThread || e.Thread.TS != ts {
		t.Errorf("%+v", e)
	}
	l.quiet()
	if _, err := l.Say(chattest.Ann, "", "lunch?"); err != nil {
		t.Fatal(err)
	}
	l.quiet()
}

// The same envelope, the same event in another envelope, and a press that is
// delivered again: once each.
func TestDeliveredTwice(t *testing.T) {
	l := listen(t)
	press := chattest.Envelope{ID: "envelope-x", Type: "interactive", Payload: l.Pressed(chattest.Ann, l.thread.TS, "send", "14-1")}
	said := l.Said(chattest.Message{TS: "1700000000.000001", ThreadTS: l.thread.TS, User: chattest.Ben, Text: "close"})[0]
	for i := range 3 {
		if i == 2 {
			press.ID, said.ID = "envelope-y", "envelope-z"
		}
		said.Retry = i
		for _, e := range []chattest.Envelope{press, said} {
			if _, err := l.Deliver(e); err != nil {
				t.Fatal(err)
			}
		}
	}
	if e := l.next(); e.Kind != chat.PressSend {
		t.Errorf("%+v", e)
	}
	if e := l.next(); e.Text != "close" {
		t.Errorf("%+v", e)
	}
	l.quiet()
}

// Two people press, or one twice: the service sends both, and both are handed
// on, each with who and when; the ledger says who was first.
func TestTwoPeoplePress(t *testing.T) {
	l := listen(t)
	for _, user := range []string{chattest.Ann, chattest.Ben, chattest.Ann} {
		if _, err := l.PressStale(user, l.thread.TS, "send", "14-0"); err != nil {
			t.Fatal(err)
		}
	}
	ids := make(map[string]bool)
	for _, user := range []string{chattest.Ann, chattest.Ben, chattest.Ann} {
		e := l.next()
		if e.User.ID != user || e.Draft != "14-0" {
			t.Errorf("%+v", e)
		}
		ids[e.ID] = true
	}
	if len(ids) != 3 {
		t.Errorf("ids %v", ids)
	}
}

// One connection hears every channel that it was told of: the service hands an
// event to one of an app's connections.
func TestOtherChannelsAreHeard(t *testing.T) {
	l := listen(t, "C0OTHER")
	press := l.Pressed(chattest.Ann, l.thread.TS, "send", "14-1")
	press["channel"] = map[string]any{"id": "C0OTHER"}
	if _, err := l.Deliver(chattest.Envelope{Type: "interactive", Payload: press}); err != nil {
		t.Fatal(err)
	}
	if e := l.next(); e.Kind != chat.PressSend || e.Thread.Channel != "C0OTHER" {
		t.Errorf("%+v", e)
	}
	said := l.Said(chattest.Message{TS: "1700000004.000001", ThreadTS: l.thread.TS, User: chattest.Ben, Text: "close"})[0]
	said.Payload.(map[string]any)["event"].(map[string]any)["channel"] = "C0OTHER"
	if _, err := l.Deliver(said); err != nil {
		t.Fatal(err)
	}
	if e := l.next(); e.Text != "close" || e.Thread.Channel != "C0OTHER" {
		t.Errorf("%+v", e)
	}
	l.quiet()
}

func TestForeignersAreRefused(t *testing.T) {
	l := listen(t)
	foreign := func(key string, value any) {
		t.Helper()
		payload := l.Pressed(chattest.Ann, l.thread.TS, "send", "14-1")
		payload[key] = value
		if _, err := l.Deliver(chattest.Envelope{Type: "interactive", Payload: payload}); err != nil {
			t.Errorf("%s: not acknowledged", key)
		}
	}
	foreign("team", map[string]any{"id": "T0OTHER"})
	foreign("api_app_id", "A0OTHER")
	foreign("channel", map[string]any{"id": "C0OTHER"})
	foreign("user", map[string]any{"id": "U0STRANGER", "team_id": "T0OTHER", "name": "Eve"})
	foreign("actions", []map[string]any{{"action_id": "launch", "value": "14-1", "type": "button", "block_id": "x"}})
	foreign("type", "message_action")
	for key, value := range map[string]string{"team_id": "T0OTHER", "api_app_id": "A0OTHER"} {
		e := l.Said(chattest.Message{TS: "1700000001.000001", ThreadTS: l.thread.TS, User: chattest.Ben, Text: key})[0]
		e.Payload.(map[string]any)[key] = value
		if _, err := l.Deliver(e); err != nil {
			t.Error(err)
		}
	}
	elsewhere := l.Said(chattest.Message{TS: "1700000004.000001", ThreadTS: l.thread.TS, User: chattest.Ben, Text: "elsewhere"})[0]
	elsewhere.Payload.(map[string]any)["event"].(map[string]any)["channel"] = "C0OTHER"
	if _, err := l.Deliver(elsewhere); err != nil {
		t.Error(err)
	}
	// Our own words and those of another app are nobody's orders.
	for _, m := range []chattest.Message{
		{TS: "1700000002.000001", ThreadTS: l.thread.TS, User: chattest.BotUser, Text: "own"},
		{TS: "1700000003.000001", ThreadTS: l.thread.TS, User: "U0APP", BotID: "B0APP", Text: "app"},
	} {
		if _, err := l.Deliver(l.Said(m)[0]); err != nil {
			t.Error(err)
		}
	}
	l.quiet()
}

// Whatever the socket brings, the listener lives.
func TestRubbishOnTheSocket(t *testing.T) {
	l := listen(t)
	for _, e := range []chattest.Envelope{
		{Type: "slash_commands", Payload: map[string]any{"command": "/x"}},
		{Type: "interactive", Payload: map[string]any{"type": "view_submission"}},
		{Type: "interactive", Payload: map[string]any{"type": "block_actions", "team": map[string]any{"id": chattest.TeamID}, "api_app_id": chattest.AppID}},
		{Type: "events_api", Payload: map[string]any{"type": "event_callback", "team_id": chattest.TeamID, "api_app_id": chattest.AppID,
			"event": map[string]any{"type": "reaction_added"}}},
	} {
		if _, err := l.Deliver(e); err != nil {
			t.Errorf("%s %v: not acknowledged", e.Type, e.Payload)
		}
	}
	l.quiet()
}
