package chat_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

func TestPostsKeepTheirPaceAndOrder(t *testing.T) {
	server, p, c := begin(t)
	start := c.Now()
	for i := range 5 {
		if _, err := p.Say(context.Background(), chat.Thread{}, fmt.Sprintf("n%d", i), fmt.Sprintf("saying %d", i), false); err != nil {
			t.Fatal(err)
		}
	}
	if passed := c.Now().Sub(start); passed < 4*time.Second {
		t.Errorf("5 posts in %v, want at least 4 s", passed)
	}
	for i, m := range server.Messages() {
		if m.Text != fmt.Sprintf("saying %d", i) {
			t.Errorf("post %d is %q", i, m.Text)
		}
	}
}

func TestRetryAfterIsObeyedAndOrderKept(t *testing.T) {
	server, p, c := begin(t)
	server.Fail(chattest.Fault{Method: "chat.postMessage", Status: 429, RetryAfter: "17", Times: 2})
	var wg sync.WaitGroup
	for i := range 3 {
		wg.Go(func() {
			time.Sleep(time.Duration(i) * 60 * time.Millisecond) // one after the other
			if _, err := p.Say(context.Background(), chat.Thread{}, fmt.Sprint(i), fmt.Sprint("saying ", i), false); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	if !c.waited(17 * time.Second) {
		t.Errorf("waits %v, none of 17 s", c.slept)
	}
	posts := server.Messages()
	if len(posts) != 3 || posts[0].Text != "saying 0" || posts[2].Text != "saying 2" {
		t.Errorf("posts: %+v", posts)
	}
}

// Whatever goes wrong on the way, nothing is said twice and nothing is lost.
func TestUnknownOutcomes(t *testing.T) {
	for _, method := range []string{"chat.postMessage", "files.completeUploadExternal", "files.getUploadURLExternal", "chat.update"} {
		for _, fault := range []chattest.Fault{
			{Status: 500}, {Status: 502, Done: true}, {Status: 503, Done: true, Times: 2},
			{Code: "internal_error"}, {Code: "fatal_error", Done: true},
			{Hang: 2 * time.Second}, {Hang: time.Millisecond, Done: true},
		} {
			t.Run(fmt.Sprintf("%s/%d%s/done=%v/hang=%v", method, fault.Status, fault.Code, fault.Done, fault.Hang), func(t *testing.T) {
				t.Parallel()
				server, p, _ := begin(t)
				fault.Method = method
				server.Fail(fault)
				ctx := context.Background()
				thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
				if err == nil {
					thread, err = p.Show(ctx, sample(), thread, false)
				}
				if err != nil {
					t.Fatal(err)
				}
				if posts := server.Messages(); len(posts) != 4 || len(server.Thread(thread.TS)) != 4 {
					t.Errorf("%d posts, want 4: %+v", len(posts), posts)
				}
			})
		}
	}
}

// The program ends between a post and the note that it was made; another run
// finds the post.
func TestUnsureShowFindsItsThread(t *testing.T) {
	server, p, c := begin(t)
	ctx := context.Background()
	for i := range 250 { // more than a page of other talk
		if _, err := server.Say(chattest.Ann, "", fmt.Sprint("talk ", i)); !errors.Is(err, chattest.ErrNoAck) {
			t.Fatal(err)
		}
	}
	first, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	for range 250 {
		_, _ = server.Say(chattest.Ann, "", "more talk") // nobody listens
	}
	second, err := poster(server, c, chattest.Channel).Show(ctx, sample(), chat.Thread{}, true)
	if err != nil || second != first {
		t.Errorf("second run found %v, want %v (error %v)", second, first, err)
	}
	if n := len(server.Thread(first.TS)); n != 4 {
		t.Errorf("%d posts in the thread, want 4", n)
	}
	other := sample()
	other.Job = 1
	third, err := p.Show(ctx, other, chat.Thread{}, true)
	if err != nil || third == first {
		t.Errorf("another job was put into the thread of job 14 (error %v)", err)
	}
}

func TestSayOnce(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	root, err := p.Say(ctx, chat.Thread{}, "alarm-1", "the mailbox cannot be reached", false)
	if err != nil || root.TS == "" {
		t.Fatal(root, err)
	}
	for range 2 {
		if _, err := p.Say(ctx, root, "answer-1", "tracings noted", true); err != nil {
			t.Fatal(err)
		}
	}
	if again, err := p.Say(ctx, chat.Thread{}, "alarm-1", "the mailbox cannot be reached", true); err != nil || again != root {
		t.Errorf("alarm said again: %v, %v", again, err)
	}
	if n := len(server.Messages()); n != 2 {
		t.Errorf("%d posts, want 2", n)
	}
}

// Somebody else's post with our tag in it proves nothing.
func TestForgedTagIsNotBelieved(t *testing.T) {
	server, p, _ := begin(t)
	_, _ = server.Say(chattest.Ann, "", "see this", chattest.File{Name: "job-14-abcdef.png", Data: []byte("x")})
	thread, err := p.Show(context.Background(), sample(), chat.Thread{}, true)
	if err != nil || len(server.Thread(thread.TS)) != 4 {
		t.Errorf("thread %v, error %v", thread, err)
	}
}

func TestErrorsAreToldApart(t *testing.T) {
	tests := []struct {
		name    string
		prepare func(*chattest.Server)
		channel string
		want    error
	}{
		{"token revoked", func(s *chattest.Server) { s.Revoke(true) }, chattest.Channel, chat.ErrShut},
		{"channel archived", func(s *chattest.Server) { s.Archive(true) }, chattest.Channel, chat.ErrShut},
		{"no such channel", func(*chattest.Server) {}, "C0OTHER", chat.ErrShut},
		{"refused", func(s *chattest.Server) {
			s.Fail(chattest.Fault{Method: "chat.postMessage", Code: "invalid_blocks"})
		}, chattest.Channel, chat.ErrRefused},
		{"limited for long", func(s *chattest.Server) {
			s.Fail(chattest.Fault{Method: "chat.postMessage", Status: 429, RetryAfter: "60", Times: 99})
		}, chattest.Channel, chat.ErrTemporary},
		{"never an answer", func(s *chattest.Server) {
			s.Fail(chattest.Fault{Method: "chat.postMessage", Status: 500, Times: 99})
		}, chattest.Channel, chat.ErrUnsure},
		{"nobody there", func(s *chattest.Server) { s.Close() }, chattest.Channel, chat.ErrTemporary},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			server, _, c := begin(t)
			p := poster(server, c, test.channel)
			test.prepare(server)
			_, err := p.Show(context.Background(), sample(), chat.Thread{}, false)
			if !errors.Is(err, test.want) {
				t.Errorf("error %v, want %v", err, test.want)
			}
			for _, other := range []error{chat.ErrShut, chat.ErrRefused, chat.ErrTemporary, chat.ErrUnsure} {
				if other != test.want && errors.Is(err, other) {
					t.Errorf("error %v is %v as well", err, other)
				}
			}
		})
	}
}

// The service stops while a post's outcome is unknown: that is what is said.
func TestStoppedWhileUnsure(t *testing.T) {
	server, _, c := begin(t)
	ctx, stop := context.WithCancel(context.Background())
	p := chat.New(chat.Config{
		Channel: chattest.Channel, BotToken: chattest.BotToken, APIURL: server.URL(), Now: c.Now,
		Sleep: func(ctx context.Context, _ time.Duration) error { stop(); return ctx.Err() },
	})
	server.Fail(chattest.Fault{Method: "chat.postMessage", Status: 500, Done: true})
	if _, err := p.Say(ctx, chat.Thread{}, "alarm", "the mailbox is full", false); !errors.Is(err, chat.ErrUnsure) {
		t.Fatalf("error %v, want ErrUnsure", err)
	}
	if n := len(server.Calls("chat.postMessage")); n != 1 {
		t.Errorf("tried %d times", n)
	}
	again := poster(server, c, chattest.Channel)
	if _, err := again.Say(context.Background(), chat.Thread{}, "alarm", "the mailbox is full", true); err != nil || len(server.Messages()) != 1 {
		t.Errorf("%d posts, %v", len(server.Messages()), err)
	}
}
