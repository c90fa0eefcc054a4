package doctor

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"fairtape/reply/chat"
)

// chat tries both tokens, the permissions and the channel. It says nothing
// there.
func (x *examination) chat(ctx context.Context) {
	s := x.Settings.Slack
	if s.Channel == "" {
		return
	}
	if x.lost[secret{file: s.BotTokenFile, env: s.BotTokenEnv}.place()] {
		x.skip("chat", "there is no bot token")
		return
	}
	listens := s.AppTokenFile != "" || s.AppTokenEnv != ""
	if listens && x.lost[secret{file: s.AppTokenFile, env: s.AppTokenEnv}.place()] {
		x.skip("chat", "there is no app token")
		return
	}
	poster, err := x.Chat()
	if err != nil {
		x.fault("chat", "chat", fmt.Sprintf("The chat cannot be tried: %v.", err), "", x.Again)
		return
	}
	h, err := poster.Probe(ctx)
	x.toldTime("the chat service", h.Server)
	if h.UserID == "" {
		x.botFailure(err)
		return
	}
	x.ok("chat sign-in", "The bot is signed in at %s.", h.Team)
	x.scopes(h)
	x.channel(h, err)
	if listens {
		x.listening(poster.ProbeListening(ctx))
	}
	x.approvers(ctx, poster)
}

// botFailure names why the bot's token was not taken.
func (x *examination) botFailure(err error) {
	file := x.Settings.Slack.BotTokenFile
	switch code := chat.Code(err); code {
	case "invalid_auth", "not_authed":
		x.fault("chat sign-in", "bot-token-wrong", "The chat service does not know the bot's token.",
			"Copy the bot token (it begins with xoxb-) from the app's page, under OAuth & Permissions.", write(file))
	case "not_allowed_token_type":
		x.fault("chat sign-in", "bot-token-kind", "What stands in slack.bot_token_file is another kind of token.",
			"The bot's token begins with xoxb-, the app's with xapp-; the two files may be swapped.", write(file))
	case "token_revoked", "token_expired", "account_inactive":
		x.fault("chat sign-in", "bot-token-revoked", "The bot's token is no longer good ("+code+").",
			"Install the app to the workspace again, and copy the new token.", write(file))
	default:
		x.chatFailure("chat sign-in", err)
	}
}

func (x *examination) scopes(h chat.Health) {
	if len(h.Lacks) == 0 {
		x.ok("chat permissions", "The bot has every permission that it needs.")
		return
	}
	var names []string
	for _, s := range h.Lacks {
		name := s.Name
		if s.Private != "" {
			name += " (private channel: " + s.Private + ")"
		}
		names = append(names, name+", to "+s.For)
	}
	x.fault("chat permissions", "scope-missing", "The bot lacks "+strings.Join(names, "; ")+".",
		"Add it on the app's page under OAuth & Permissions, then install the app again. `fairtape init --manifest` prints all that is needed.", x.Again)
}

func (x *examination) channel(h chat.Health, err error) {
	id := x.Settings.Slack.Channel
	switch code := chat.Code(err); {
	case code == "channel_not_found":
		x.fault("chat channel", "channel-unknown", fmt.Sprintf("There is no channel %s that the bot can see.", id),
			"Copy the channel's id from the bottom of its details. If it is private, invite the bot first.", x.Again)
	case code == "missing_scope" || code == "no_permission":
		x.skip("chat channel", "a permission is missing")
	case code == "not_in_channel" || err == nil && !h.Member:
		x.fault("chat channel", "bot-not-in-channel", fmt.Sprintf("The bot is not in the channel %s.", channelName(h, id)),
			"Write this into the channel: /invite @ and the app's name.", x.Again)
	case h.Archived || code == "is_archived":
		x.fault("chat channel", "channel-archived", fmt.Sprintf("The channel %s is archived.", channelName(h, id)),
			"Open it again, or name another in slack.channel.", x.Again)
	case err != nil:
		x.chatFailure("chat channel", err)
	default:
		x.ok("chat channel", "The bot is in %s.", channelName(h, id))
	}
}

func channelName(h chat.Health, id string) string {
	if h.Channel == "" {
		return id
	}
	return "#" + h.Channel
}

// listening names why the app's token was not taken.
func (x *examination) listening(err error) {
	file := x.Settings.Slack.AppTokenFile
	switch code := chat.Code(err); {
	case err == nil:
		x.ok("chat buttons", "The app may listen.")
	case code == "not_allowed_token_type":
		x.fault("chat buttons", "app-token-kind", "What stands in slack.app_token_file is another kind of token.",
			"The app's token begins with xapp-, the bot's with xoxb-; the two files may be swapped.", write(file))
	case code == "missing_scope" || code == "no_permission":
		x.fault("chat buttons", "app-scope-missing", "The app's token may not listen.",
			"Make a new app-level token with the scope "+chatScope+", and see that socket mode is on.", write(file))
	case code != "":
		x.fault("chat buttons", "app-token-wrong", "The chat service does not take the app's token ("+code+").",
			"Copy the app-level token (it begins with xapp-) from the app's page, under Basic Information.", write(file))
	default:
		x.chatFailure("chat buttons", err)
	}
}

// approvers looks whether those who may press Send are there.
func (x *examination) approvers(ctx context.Context, poster *chat.Poster) {
	for _, id := range x.Settings.Slack.Approvers {
		in, err := poster.Member(ctx, id)
		switch {
		case err != nil:
			x.skip("chat approvers", "who is in the channel cannot be told")
			return
		case !in:
			x.warn("chat approvers", "approver-absent", fmt.Sprintf("%s may approve letters, but is not in the channel.", id),
				"Copy the member's id from their profile, or invite them.", x.Again)
		}
	}
}

func (x *examination) chatFailure(name string, err error) {
	if errors.Is(err, chat.ErrTemporary) || errors.Is(err, context.DeadlineExceeded) {
		x.fault(name, "chat-unreachable", "The chat service cannot be reached.",
			"See that this machine is on the network, and that slack.api_url is empty.", x.Again)
		return
	}
	x.fault(name, "chat", capital(err)+".", "", x.Again)
}
