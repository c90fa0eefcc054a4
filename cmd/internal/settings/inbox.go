package settings

import (
	"fmt"
	"maps"
	"slices"

	"github.com/pelletier/go-toml/v2"
)

// Each returns the settings of every inbox as if it were the only one: first
// the one of [imap], then those of the [[inbox]] tables.
func (s Settings) Each() []Settings {
	first := s
	first.Inboxes = nil
	each := []Settings{first}
	for _, in := range s.Inboxes {
		each = append(each, s.with(in))
	}
	return each
}

// Named returns the settings of one inbox as if it were the only one; "" names
// the one of [imap]. False when there is none of that name.
func (s Settings) Named(name string) (Settings, bool) {
	if name == "" {
		return s.Each()[0], true
	}
	i := slices.IndexFunc(s.Inboxes, func(in Inbox) bool { return in.Name == name })
	if i < 0 {
		return Settings{}, false
	}
	return s.with(s.Inboxes[i]), true
}

func (s Settings) with(in Inbox) Settings {
	s.Shop, s.IMAP, s.SMTP, s.Slack, s.Letters, s.Cloth = in.Shop, in.IMAP, in.SMTP, in.Slack, in.Letters, in.Cloth
	s.Inboxes = nil
	return s
}

// inbox is the reverse of with.
func (s Settings) inbox(name string) Inbox {
	return Inbox{Name: name, Shop: s.Shop, IMAP: s.IMAP, SMTP: s.SMTP, Slack: s.Slack, Letters: s.Letters, Cloth: s.Cloth}
}

// fillInboxes gives every [[inbox]] what it leaves out. Each table is read once
// more on top of the tables above it.
func (s *Settings) fillInboxes(data []byte) error {
	var raw struct {
		Inboxes []map[string]any `toml:"inbox"`
	}
	if err := decode(data, &raw, false); err != nil {
		return err
	}
	for i, table := range raw.Inboxes {
		own, err := toml.Marshal(table)
		if err != nil {
			return fmt.Errorf("inbox %d: %w", i+1, err)
		}
		in := s.stranger()
		if err := inheritCloth(own, in.Cloth); err != nil {
			return err
		}
		if err := decode(own, &in, true); err != nil {
			return err
		}
		view := s.with(in)
		view.borrowSignIn()
		s.Inboxes[i] = view.inbox(in.Name)
	}
	return nil
}

// stranger is an inbox as s is, without account and channel: two inboxes that
// shared one would answer the same mail, or each other's words.
func (s *Settings) stranger() Inbox {
	in := s.inbox("")
	in.Cloth = maps.Clone(in.Cloth)
	in.Slack.Channel = ""
	for _, c := range []*Connection{&in.IMAP.Connection, &in.SMTP} {
		c.User, c.PasswordFile, c.PasswordEnv, c.OAuth2 = "", "", "", nil
	}
	return in
}

// checkInboxes returns what is wrong with the further inboxes and between any
// two.
func (s *Settings) checkInboxes() []string {
	var c checker
	names := map[string]bool{}
	accounts := map[string]bool{s.IMAP.Account(): true}
	channels := map[string]bool{s.Slack.Channel: true}
	for i, in := range s.Inboxes {
		title := fmt.Sprintf("inbox %q", in.Name)
		if in.Name == "" {
			title = fmt.Sprintf("inbox %d", i+1)
		}
		view := s.with(in)
		for _, line := range view.check() {
			c.unless(false, "%s: %s", title, line)
		}
		c.unless(in.Name != "", `%s: name is missing: write what it is called at the terminal, name = "..."`, title)
		c.unless(!names[in.Name], "%s: there is another one of this name", title)
		c.unless(!accounts[in.IMAP.Account()], "%s: imap.user = %q is watched already: every inbox is an account of its own", title, in.IMAP.User)
		c.unless(s.Slack.Channel == "" || in.Slack.Channel != "", `%s: slack.channel is missing: every inbox has a channel of its own`, title)
		c.unless(in.Slack.Channel == "" || !channels[in.Slack.Channel], "%s: slack.channel = %q is another inbox's: every inbox has a channel of its own", title, in.Slack.Channel)
		names[in.Name], accounts[in.IMAP.Account()], channels[in.Slack.Channel] = true, true, true
	}
	return c.wrong
}
