package chat_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

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
