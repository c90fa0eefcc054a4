package chat_test

import (
	"context"
	"encoding/json"
	"net/http"
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
func begin(t *testing.T, others ...string) (*chattest.Server, *chat.Poster, *clock) {
	t.Helper()
	server := chattest.New()
	t.Cleanup(server.Close)
	c := &clock{now: time.Now()}
	return server, poster(server, c, chattest.Channel, others...), c
}

func poster(server *chattest.Server, c *clock, channel string, others ...string) *chat.Poster {
	return chat.New(chat.Config{
		Channel: channel, Others: others, BotToken: chattest.BotToken, AppToken: chattest.AppToken,
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

// glanceOf returns the text of a post's first block.
func glanceOf(t *testing.T, m chattest.Message) string {
	t.Helper()
	var blocks []struct{ Text struct{ Text string } }
	if err := json.Unmarshal(m.Blocks, &blocks); err != nil || len(blocks) == 0 {
		t.Fatalf("blocks %s: %v", m.Blocks, err)
	}
	return blocks[0].Text.Text
}
