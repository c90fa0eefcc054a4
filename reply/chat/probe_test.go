package chat_test

import (
	"testing"
	"time"

	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
)

func TestProbe(t *testing.T) {
	all := []string{"app_mentions:read", "channels:history", "channels:read", "chat:write", "files:read", "files:write", "users:read"}
	tests := []struct {
		name    string
		change  func(*chattest.Server)
		channel string
		code    string
		lacks   []string
	}{
		{"revoked", func(s *chattest.Server) { s.Revoke(true) }, chattest.Channel, "token_revoked", nil},
		{"no such channel", func(*chattest.Server) {}, "C0OTHER", "channel_not_found", nil},
		{"not in the channel", func(s *chattest.Server) { s.Uninvite() }, chattest.Channel, "not_in_channel", nil},
		{"may not post pictures", func(s *chattest.Server) { s.Grant(all[:5]...) }, chattest.Channel, "", []string{"files:write", "users:read"}},
		{"may not look at channels", func(s *chattest.Server) { s.Grant("chat:write") }, chattest.Channel, "missing_scope",
			[]string{"app_mentions:read", "channels:history", "channels:read", "files:read", "files:write", "users:read"}},
		{"all is well", func(*chattest.Server) {}, chattest.Channel, "", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			server, _, c := begin(t)
			tt.change(server)
			h, err := poster(server, c, tt.channel).Probe(t.Context())
			if chat.Code(err) != tt.code || tt.code == "" && err != nil {
				t.Errorf("error %v, want the code %q", err, tt.code)
			}
			var lacks []string
			for _, s := range h.Lacks {
				lacks = append(lacks, s.Name)
			}
			if len(lacks) != len(tt.lacks) {
				t.Errorf("lacks %v, want %v", lacks, tt.lacks)
			}
			if tt.code == "" && (!h.Member || h.Channel != "surveys" || time.Since(h.Server).Abs() > time.Minute) {
				t.Errorf("health: %+v", h)
			}
		})
	}
}

func TestProbeListening(t *testing.T) {
	server, p, _ := begin(t)
	if err := p.ProbeListening(t.Context()); err != nil {
		t.Error(err)
	}
	wrong := chat.New(chat.Config{BotToken: chattest.BotToken, AppToken: "xapp-other", APIURL: server.URL()})
	if err := wrong.ProbeListening(t.Context()); chat.Code(err) != "invalid_auth" {
		t.Errorf("error %v, want invalid_auth", err)
	}
}

// A permission without a reason would not be given by a careful admin.
func TestScopesAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range chat.Scopes() {
		if seen[s.Name] || s.For == "" {
			t.Errorf("scope %+v", s)
		}
		seen[s.Name] = true
	}
}
