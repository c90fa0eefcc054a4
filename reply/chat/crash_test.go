package chat_test

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"testing"
	"time"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

var errKilled = errors.New("killed")

// killer ends the program at its nth request: before it goes out, or when the
// answer is on its way back.
type killer struct {
	next  int
	after bool
	kill  context.CancelFunc
}

func (k *killer) RoundTrip(r *http.Request) (*http.Response, error) {
	k.next--
	if k.next > 0 {
		return http.DefaultTransport.RoundTrip(r)
	}
	if k.after {
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err == nil {
			_ = answer.Body.Close()
		}
	}
	k.kill()
	return nil, errKilled
}

// The program is killed at every request of a Show, and begins again knowing
// nothing but that it had begun: in the end everything is said once.
func TestKilledAtEveryRequest(t *testing.T) {
	for _, after := range []bool{false, true} {
		for n := 1; ; n++ {
			server := chattest.New()
			ctx, kill := context.WithCancel(context.Background())
			wait := func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
			config := chat.Config{Channel: chattest.Channel, BotToken: chattest.BotToken, APIURL: server.URL(), Sleep: wait,
				Client: &http.Client{Transport: &killer{n, after, kill}}}
			thread, err := chat.New(config).Show(ctx, sample(), chat.Thread{}, false)
			finished := err == nil
			if !finished {
				config.Client = nil
				thread, err = chat.New(config).Show(context.Background(), sample(), chat.Thread{}, true)
			}
			name := fmt.Sprintf("request %d, after %v", n, after)
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if all, here := len(server.Messages()), len(server.Thread(thread.TS)); all != 4 || here != 4 {
				t.Errorf("%s: %d posts, %d in the thread, want 4", name, all, here)
			}
			kill()
			server.Close()
			if finished {
				if n < 6 {
					t.Errorf("Show makes %d requests, the test expects more", n-1)
				}
				break
			}
		}
	}
}
