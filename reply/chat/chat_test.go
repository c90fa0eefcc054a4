package chat_test

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

// clock is a time that passes only when somebody waits.
type clock struct {
	mu    sync.Mutex
	now   time.Time
	slept []time.Duration
}

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *clock) Sleep(ctx context.Context, d time.Duration) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
	c.slept = append(c.slept, d)
	return ctx.Err()
}

// waited reports whether somebody waited at least so long at once.
func (c *clock) waited(d time.Duration) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, s := range c.slept {
		if s >= d {
			return true
		}
	}
	return false
}

// begin starts a server and a poster whose time is a clock's.
func begin(t *testing.T) (*chattest.Server, *chat.Poster, *clock) {
	t.Helper()
	server := chattest.New()
	t.Cleanup(server.Close)
	c := &clock{now: time.Now()}
	return server, poster(server, c, chattest.Channel), c
}

func poster(server *chattest.Server, c *clock, channel string) *chat.Poster {
	return chat.New(chat.Config{
		Channel: channel, BotToken: chattest.BotToken, AppToken: chattest.AppToken,
		APIURL: server.URL(), Now: c.Now, Sleep: c.Sleep,
		Client: &http.Client{Timeout: 500 * time.Millisecond},
	})
}

// sample is a job as the service would tell it.
func sample() reply.Summary {
	return reply.Summary{
		Job: 14, Draft: "14-1",
		Headline: "Job 14: Ida Brandt, cedar canoe, 15 ft 9 in: 1 number to measure again",
		Facts:    []string{"From ida@brandt.example", "15 ft 9 in, pointed stern", "15 of 15 stations read"},
		Findings: []string{"7 ft, hull girth: read 41, expected 51 (50 to 51 1/2), probably a ten dropped, 98 %"},
		Missing:  []string{"stern height"},
		Problems: []string{"page 2 of scan.pdf could not be read"},
		Asks:     []string{"measure hull girth at 7 ft again", "send the stern height"},
		Letter:   "Dear Ida,\n\nThank you for measuring.\n\n- 7 ft: hull girth\n\nPinfold Cover Loft",
		Picture:  &reply.Picture{Name: "curve.png", Alt: "Girths along the boat; 7 ft is ringed.", PNG: []byte("\x89PNG sample")},
	}
}

func TestShowBeginsOneThread(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	posts := server.Thread(thread.TS)
	if len(posts) != 4 || len(server.Messages()) != 4 {
		t.Fatalf("%d posts in the thread of %d, want 4 of 4", len(posts), len(server.Messages()))
	}
	first := posts[0]
	for _, want := range []string{"Job 14", "expected 51", "stern height", "page 2", "Send mails the letter", "Hold keeps"} {
		if !strings.Contains(first.Text, want) {
			t.Errorf("fallback text lacks %q:\n%s", want, first.Text)
		}
	}
	if lines := strings.Count(glanceOf(t, first), "\n") + 1; lines > 3 {
		t.Errorf("the glance has %d lines, want at most 3", lines)
	}
	buttons := first.Buttons()
	if len(buttons) != 4 {
		t.Fatalf("%d buttons, want 4", len(buttons))
	}
	for i, action := range []string{"send", "edit", "correct", "hold"} {
		b := buttons[i]
		if b.ActionID != action || b.Value != "14-1" || (b.Style == "primary") != (i == 0) || b.Confirm != "" {
			t.Errorf("button %d is %+v", i, b)
		}
	}
	picture := posts[2]
	if len(picture.Files) != 1 || picture.Files[0].Alt != sample().Picture.Alt || string(picture.Files[0].Data) != "\x89PNG sample" {
		t.Errorf("picture post: %+v", picture.Files)
	}
	if want := sample().Letter; !strings.Contains(posts[3].Text, want) {
		t.Errorf("letter post %q lacks the letter", posts[3].Text)
	}
}

func TestShowWithoutDraftHasNoButtons(t *testing.T) {
	server, p, _ := begin(t)
	s := sample()
	s.Draft, s.Letter, s.State = "", "", "left to a person: it is a question"
	thread, err := p.Show(context.Background(), s, chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	first := server.Thread(thread.TS)[0]
	if len(first.Buttons()) != 0 || strings.Contains(first.Text, "Buttons:") {
		t.Errorf("a post without a draft has buttons: %s", first.Text)
	}
	if !strings.Contains(string(first.Blocks), s.State) || !strings.Contains(first.Text, s.State) {
		t.Errorf("the state is not shown")
	}
}

func TestSendAsksWhetherQuestionIsAnswered(t *testing.T) {
	server, p, _ := begin(t)
	s := sample()
	s.Question = "Can you make it in green? " + strings.Repeat("And soon? ", 60)
	thread, err := p.Show(context.Background(), s, chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	first := server.Thread(thread.TS)[0]
	for _, b := range first.Buttons() {
		if asks := strings.Contains(b.Confirm, "Can you make it in green?"); asks != (b.ActionID == "send") {
			t.Errorf("button %s asks %q", b.ActionID, b.Confirm)
		}
	}
	if !strings.Contains(first.Text, "Can you make it in green?") {
		t.Error("the fallback text lacks the question")
	}
}

func TestShowAgainSaysOnlyWhatIsNew(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Show(ctx, sample(), thread, false); err != nil {
		t.Fatal(err)
	}
	if n := len(server.Messages()); n != 4 {
		t.Fatalf("%d posts after the same again, want 4", n)
	}
	changed := sample()
	changed.Draft, changed.Letter = "14-2", "Dear Ida,\n\nanother letter"
	if _, err := p.Show(ctx, changed, thread, false); err != nil {
		t.Fatal(err)
	}
	posts := server.Thread(thread.TS)
	if len(posts) != 5 || !strings.Contains(posts[4].Text, "Letter 14-2") {
		t.Fatalf("%d posts after a new letter, want 5", len(posts))
	}
	if b := posts[0].Buttons(); len(b) != 4 || b[0].Value != "14-2" {
		t.Errorf("the buttons are still about the old draft: %+v", b)
	}
	if posts[0].Updates != 2 {
		t.Errorf("the first post was changed %d times, want 2", posts[0].Updates)
	}
}

func TestRefreshReplacesButtons(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	done := sample()
	done.Draft, done.State = "", "sent by Ann, 14:02"
	if err := p.Refresh(ctx, done, thread); err != nil {
		t.Fatal(err)
	}
	first := server.Thread(thread.TS)[0]
	if len(first.Buttons()) != 0 || !strings.Contains(string(first.Blocks), "sent by Ann, 14:02") || !strings.Contains(first.Text, "sent by Ann, 14:02") {
		t.Errorf("after sending the post still is %s\n%s", first.Blocks, first.Text)
	}
}

func TestDeletedThreadIsBegunAnew(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	server.Delete(thread.TS)
	again, err := p.Show(ctx, sample(), thread, false)
	if err != nil || again == thread || len(server.Thread(again.TS)) != 4 {
		t.Errorf("thread %v after %v, error %v, %d posts", again, thread, err, len(server.Thread(again.TS)))
	}
}

// A letter of any length and findings without number keep every limit; the
// server refuses a post that does not.
func TestLongSummaries(t *testing.T) {
	server, p, _ := begin(t)
	s := sample()
	s.Headline = strings.Repeat("very <long> & odd ", 60)
	for i := range 300 {
		s.Findings = append(s.Findings, fmt.Sprintf("finding %d: %s", i, strings.Repeat("<&> ", 40)))
		s.Missing = append(s.Missing, strings.Repeat("missing ", 20))
	}
	s.Letter = strings.Repeat("A paragraph with 1 < 2 & <!channel> in it.\n\n", 400) + strings.Repeat("x", 9000)
	s.Picture.Alt = strings.Repeat("alt ", 2000)
	thread, err := p.Show(context.Background(), s, chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	letters, kept := 0, 0
	for _, m := range server.Thread(thread.TS) {
		if strings.HasPrefix(m.Text, "Letter 14-1, part ") {
			letters++
			kept += strings.Count(m.Text, "A paragraph") + strings.Count(m.Text, "x")
		}
	}
	if letters < 5 || kept != 400+9000 {
		t.Errorf("%d letter posts keep %d of 9400 marks", letters, kept)
	}
}

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

func TestCheckMemberWhisper(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	self, err := p.Check(ctx)
	if err != nil || self.UserID != chattest.BotUser || self.TeamID != chattest.TeamID {
		t.Errorf("check: %+v, %v", self, err)
	}
	for user, want := range map[string]bool{chattest.Ann: true, chattest.Cleo: false} {
		if is, err := p.Member(ctx, user); err != nil || is != want {
			t.Errorf("member %s: %v, %v", user, is, err)
		}
	}
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Whisper(ctx, thread, chattest.Ben, "Ann sent it & is <done>"); err != nil {
		t.Fatal(err)
	}
	if w := server.Whispers(); len(w) != 1 || w[0].User != chattest.Ben || w[0].Text != "Ann sent it &amp; is &lt;done&gt;" {
		t.Errorf("whispers: %+v", w)
	}
}

// No post makes links or previews of what stands in it, nor looks names up.
func TestPostsAreShownAsTheyAre(t *testing.T) {
	server, p, _ := begin(t)
	ctx := context.Background()
	thread, err := p.Show(ctx, sample(), chat.Thread{}, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Whisper(ctx, thread, chattest.Ann, "https://a.example"); err != nil {
		t.Fatal(err)
	}
	if err := p.Refresh(ctx, sample(), thread); err != nil {
		t.Fatal(err)
	}
	for _, method := range []string{"chat.postMessage", "chat.update", "chat.postEphemeral"} {
		calls := server.Calls(method)
		if len(calls) == 0 {
			t.Errorf("%s was not called", method)
		}
		for _, call := range calls {
			if call.Args["parse"] != "none" || call.Args["link_names"] == "1" {
				t.Errorf("%s: parse %q, link_names %q", method, call.Args["parse"], call.Args["link_names"])
			}
			if method == "chat.postMessage" && (call.Args["unfurl_links"] != "false" || call.Args["unfurl_media"] != "false") {
				t.Errorf("previews: %q, %q", call.Args["unfurl_links"], call.Args["unfurl_media"])
			}
		}
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
