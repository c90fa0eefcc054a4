package chattest

import (
	"bufio"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// TestOfficialClient holds the server against the chat's own published client
// for Node (npm @slack/web-api and @slack/socket-mode), so that it is the real
// protocol that the other tests speak. FAIRTAPE_NODE names a folder in which
// both are installed; without it the test is left out.
func TestOfficialClient(t *testing.T) {
	folder := os.Getenv("FAIRTAPE_NODE")
	if folder == "" {
		t.Skip("FAIRTAPE_NODE names no folder with @slack/web-api and @slack/socket-mode")
	}
	s := New()
	defer s.Close()
	script, err := filepath.Abs("testdata/official.js")
	if err != nil {
		t.Fatal(err)
	}
	node := exec.CommandContext(t.Context(), "node", script, s.URL(), BotToken, AppToken, Channel, Ann)
	node.Env = append(os.Environ(), "NODE_PATH="+filepath.Join(folder, "node_modules"))
	node.Stderr = os.Stderr
	out, err := node.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := node.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() {
		_ = node.Process.Kill()
		_ = node.Wait()
	}()
	steps := make(chan map[string]any, 20)
	go func() {
		defer close(steps)
		for lines := bufio.NewScanner(out); lines.Scan(); {
			var step map[string]any
			if json.Unmarshal(lines.Bytes(), &step) == nil && step["step"] != nil {
				steps <- step
			}
		}
	}()
	expect := func(want map[string]any) map[string]any {
		t.Helper()
		select {
		case step := <-steps:
			for key, value := range want {
				if step[key] != value {
					t.Fatalf("%s is %v, want %v, in %v", key, step[key], value, step)
				}
			}
			return step
		case <-time.After(20 * time.Second):
			t.Fatalf("waited in vain for %v", want)
			return nil
		}
	}

	posted := expect(map[string]any{"step": "posted", "me": BotUser, "replies": 3.0, "history": 1.0, "tag": "x",
		"file": "curve.png", "ann": "Ann", "members": 3.0, "refused": "channel_not_found"})
	ts := posted["ts"].(string)
	if m := s.Thread(ts); string(m[2].Files[0].Data) != "png bytes" || m[0].Updates != 1 {
		t.Errorf("thread %+v", m)
	}
	expect(map[string]any{"step": "connected", "round": 1.0})
	if _, err := s.Press(Ann, ts, "send"); err != nil {
		t.Fatal(err)
	}
	expect(map[string]any{"step": "pressed", "action": "send", "value": "1-1", "user": Ann})
	v, err := s.Modal(Ann, time.Second)
	if err != nil {
		t.Fatal(err)
	}
	if wrong, err := s.Submit(v, map[string]string{"b": "bad"}); err != nil || wrong["b"] != "not so" {
		t.Errorf("errors %v, %v", wrong, err)
	}
	if wrong, err := s.Submit(v, nil); err != nil || wrong != nil {
		t.Errorf("errors %v, %v", wrong, err)
	}
	expect(map[string]any{"step": "submitted", "value": "Dear"})
	s.Disconnect()
	expect(map[string]any{"step": "connected", "round": 2.0})
	if _, err := s.Say(Ben, ts, "tracings in"); err != nil {
		t.Fatal(err)
	}
	expect(map[string]any{"step": "heard", "text": "tracings in"})
	if _, err := s.Say(Ben, "", "<@"+BotUser+"> 14 close"); err != nil {
		t.Fatal(err)
	}
	expect(map[string]any{"step": "mentioned"})
	expect(map[string]any{"step": "heard"})
}
