package setup

import (
	"encoding/json"
	"fmt"

	"github.com/slack-go/slack"

	"fairtape/reply/chat"
)

// Manifest is what to paste when the chat app is made: the permissions that
// are in use, for public and private channels, and socket mode, so that nothing
// from outside has to reach the shop's machine.
func Manifest() ([]byte, error) {
	var scopes []string
	for _, s := range chat.Scopes() {
		scopes = append(scopes, s.Name)
		if s.Private != "" {
			scopes = append(scopes, s.Private)
		}
	}
	m := slack.Manifest{
		Display: slack.Display{
			Name:        "fairtape",
			Description: "Shows boat surveys that came by mail, and sends letters when a person says so.",
		},
		Features: slack.Features{BotUser: slack.BotUser{DisplayName: "fairtape", AlwaysOnline: true}},
		OAuthConfig: slack.OAuthConfig{
			Scopes: slack.OAuthScopes{Bot: scopes},
		},
		Settings: slack.Settings{
			EventSubscriptions: &slack.EventSubscriptions{BotEvents: chat.Events()},
			Interactivity:      &slack.Interactivity{IsEnabled: true},
			SocketModeEnabled:  true,
		},
	}
	data, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("write the manifest: %w", err)
	}
	return append(data, '\n'), nil
}
