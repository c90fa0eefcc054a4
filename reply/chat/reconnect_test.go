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

func TestConnectsAgain(t *testing.T) {
	l := listen(t)
	for name, broken := range map[string]func(){"asked": l.Disconnect, "cut": l.Cut} {
		broken()
		if e := l.next(); e.Kind != chat.Connected {
			t.Fatalf("%s: %+v", name, e)
		}
		if _, err := l.Press(chattest.Ann, l.thread.TS, "send"); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if e := l.next(); e.Kind != chat.PressSend {
			t.Errorf("%s: %+v", name, e)
		}
	}
}

// What was said while the socket was down is read afterwards, once.
func TestMissed(t *testing.T) {
	l := listen(t)
	heard, err := l.Say(chattest.Ann, l.thread.TS, "heard")
	if err != nil {
		t.Fatal(err)
	}
	before := l.next()
	l.Down(true)
	for _, words := range []string{"tracings in", "note wants it green"} {
		if _, err := l.Say(chattest.Ben, l.thread.TS, words); !errors.Is(err, chattest.ErrNoAck) {
			t.Fatal("the service is down, and yet: ", err)
		}
	}
	if _, err := l.Say(chattest.Ben, "", "<@"+chattest.BotUser+"> 14 close"); !errors.Is(err, chattest.ErrNoAck) {
		t.Fatal(err)
	}
	l.Down(false)
	if e := l.next(); e.Kind != chat.Connected {
		t.Fatalf("%+v", e)
	}
	ctx := context.Background()
	missed, err := l.poster.Missed(ctx, l.thread, before.At)
	if err != nil || len(missed) != 2 || missed[0].Text != "tracings in" || missed[1].User.Name != "Ben" {
		t.Fatalf("%+v, %v", missed, err)
	}
	all, err := l.poster.Missed(ctx, l.thread, time.Time{})
	if err != nil || len(all) != 3 || all[0].ID != before.ID || !strings.HasSuffix(all[0].ID, heard) {
		t.Errorf("%+v, %v", all, err)
	}
	channel, err := l.poster.Missed(ctx, chat.Thread{}, before.At)
	if err != nil || len(channel) != 1 || channel[0].Text != "14 close" {
		t.Errorf("%+v, %v", channel, err)
	}
}

func TestListenEndsWhenTheTokenIsRevoked(t *testing.T) {
	l := listen(t)
	l.Revoke(true)
	l.Cut()
	select {
	case err := <-l.ended:
		if !errors.Is(err, chat.ErrShut) {
			t.Errorf("error %v, want ErrShut", err)
		}
		l.ended <- nil
	case <-time.After(patience):
		t.Error("the listener goes on")
	}
}

// The chat service is down when we start: the listener waits for it.
func TestListenWaitsForTheService(t *testing.T) {
	server := chattest.New()
	defer server.Close()
	server.Down(true)
	tried := make(chan bool, 1)
	p := chat.New(chat.Config{
		Channel: chattest.Channel, BotToken: chattest.BotToken, AppToken: chattest.AppToken, APIURL: server.URL(),
		Sleep: func(ctx context.Context, d time.Duration) error {
			if d > 10*time.Second {
				select {
				case tried <- true:
				default:
				}
			}
			time.Sleep(time.Millisecond)
			return ctx.Err()
		},
	})
	ctx, cancel := context.WithCancel(context.Background())
	events, ended := make(chan chat.Event, 10), make(chan error, 1)
	go func() { ended <- p.Listen(ctx, func(_ context.Context, e chat.Event) { events <- e }, nil) }()
	<-tried
	server.Down(false)
	select {
	case e := <-events:
		if e.Kind != chat.Connected {
			t.Errorf("%+v", e)
		}
	case <-time.After(patience):
		t.Error("the listener did not come back")
	}
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
