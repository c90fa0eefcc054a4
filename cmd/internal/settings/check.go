package settings

import (
	"fmt"
	"maps"
	"net"
	"net/mail"
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"time"

	"fairtape/parse"
)

// Limits of values that could be meant, but not by anybody who wants the
// service to work.
const (
	minPoll      = time.Second           // faster only burdens the server: IDLE tells of new mail at once
	maxPoll      = time.Hour             // slower, and a lost IDLE loses half a day
	maxReminders = 2                     // a third round is a telephone call
	maxReduction = 0.5                   // of the cloth's stretch; more, and a cover does not go on
	farAway      = parse.Length(100_000) // 100 m in millimetres: no cloth, no boat
)

// check returns what is wrong with the values, one line each: key, value, fix.
func (s *Settings) check() []string {
	var c checker
	s.checkShop(&c)
	c.connection("imap", s.IMAP.Connection, true)
	c.unless(s.IMAP.Inbox != "", `imap.inbox = "": name the mailbox that surveys arrive in, most often "INBOX"`)
	c.unless(s.IMAP.Poll.Duration >= minPoll && s.IMAP.Poll.Duration <= maxPoll,
		`imap.poll = %v: between "1s" and "1h"`, s.IMAP.Poll.Duration)
	if s.SMTP.Address != "" {
		c.connection("smtp", s.SMTP, false)
	}
	s.checkSlack(&c)
	c.unless(s.Ledger.Path != "", `ledger.path = "": name a file, as in "fairtape.db"`)
	c.unless(s.Letters.AnswerDays >= 1, "letters.answer_days = %d: at least 1", s.Letters.AnswerDays)
	c.unless(s.Letters.ReminderDays >= 1, "letters.reminder_days = %d: at least 1", s.Letters.ReminderDays)
	c.unless(s.Letters.Reminders >= 0 && s.Letters.Reminders <= maxReminders,
		"letters.reminders = %d: 0, 1 or 2; after that, telephone", s.Letters.Reminders)
	c.unless(s.Judge.CostAsk > 0, "judge.cost_ask = %v: more than 0", s.Judge.CostAsk)
	c.unless(s.Judge.CostMiss > 0, "judge.cost_miss = %v: more than 0", s.Judge.CostMiss)
	c.unless(s.Survey.Unit == parse.Inch || s.Survey.Unit == parse.Centimetre, `survey.unit = %q: "in" or "cm"`, string(s.Survey.Unit))
	c.length("survey.spacing", s.Survey.Spacing)
	if s.Status.Listen != "" {
		c.unless(loopback(s.Status.Listen), `status.listen = %q: only this machine may look, as in "127.0.0.1:8025"`, s.Status.Listen)
	}
	for _, name := range slices.Sorted(maps.Keys(s.Cloth)) {
		c.cloth("cloth."+name, s.Cloth[name])
	}
	return c.wrong
}

func (s *Settings) checkShop(c *checker) {
	c.unless(s.Shop.Name != "", `shop.name is missing: write the name that letters are signed with, name = "..."`)
	c.address("shop.from", s.Shop.From)
	for _, a := range s.Shop.Staff {
		c.address("shop.staff", a)
	}
	c.unless(s.Shop.Language == "en" || s.Shop.Language == "fr", `shop.language = %q: "en" or "fr"`, s.Shop.Language)
}

func (s *Settings) checkSlack(c *checker) {
	if s.Slack.Channel == "" {
		c.unless(s.Slack.BotTokenFile == "" && s.Slack.BotTokenEnv == "",
			`slack.channel is missing: write the id of the channel, as in "C0123456" (Slack shows it under the channel's details)`)
		return
	}
	c.unless(!strings.HasPrefix(s.Slack.Channel, "#"),
		`slack.channel = %q: the channel's id, as in "C0123456", not its name`, s.Slack.Channel)
	c.one("slack.bot_token_file", s.Slack.BotTokenFile, "slack.bot_token_env", s.Slack.BotTokenEnv, true)
	c.one("slack.app_token_file", s.Slack.AppTokenFile, "slack.app_token_env", s.Slack.AppTokenEnv, false)
	if u := s.Slack.APIURL; u != "" {
		c.unless(safeURL(u), `slack.api_url = %q: https, or http on this machine`, u)
	}
}

// checker gathers what is wrong, so that a person can mend it all at once.
type checker struct {
	wrong []string
}

func (c *checker) unless(ok bool, format string, args ...any) {
	if !ok {
		c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
	}
}

func (c *checker) address(key, value string) {
	a, err := mail.ParseAddress(value)
	c.unless(err == nil && a.Name == "", `%s = %q: a mail address alone, as in "orders@shop.example"`, key, value)
}

// HostAndPort reports the address of a server, as in "mail.shop.example:993".
func HostAndPort(address string) bool {
	_, port, err := net.SplitHostPort(address)
	return err == nil && port != ""
}

func (c *checker) connection(name string, conn Connection, signIn bool) {
	if conn.Address == "" {
		c.unless(false, `%s.address is missing: write host and port, as in "mail.shop.example:993"`, name)
	} else {
		c.unless(HostAndPort(conn.Address), `%s.address = %q: host and port, as in "mail.shop.example:993"`, name, conn.Address)
	}
	switch conn.TLS {
	case Implicit, StartTLS:
	case None:
		c.unless(loopback(conn.Address), `%s.tls = "none" sends the password in the clear to %q: use "implicit" or "starttls"`, name, conn.Address)
	default:
		c.unless(false, `%s.tls = %q: "implicit", "starttls" or, on this machine only, "none"`, name, string(conn.TLS))
	}
	if conn.OAuth2 != nil {
		c.oauth2(name+".oauth2", *conn.OAuth2)
		c.unless(conn.User != "", `%s.user is missing: write the address to sign in with`, name)
		c.unless(conn.PasswordFile == "" && conn.PasswordEnv == "", `%s has both a password and [%s.oauth2]: keep one`, name, name)
		return
	}
	c.unless(!signIn || conn.User != "", `%s.user is missing: write the name to sign in with`, name)
	c.one(name+".password_file", conn.PasswordFile, name+".password_env", conn.PasswordEnv, signIn)
}

func (c *checker) oauth2(name string, o OAuth2) {
	c.unless(o.TokenFile != "", `%s.token_file is missing: name the file that holds the token`, name)
	c.unless(o.Mechanism == "" || o.Mechanism == XOAuth2 || o.Mechanism == OAuthBearer,
		`%s.mechanism = %q: "xoauth2" or "oauthbearer"`, name, string(o.Mechanism))
	c.unless(o.TokenURL == "" || safeURL(o.TokenURL), `%s.token_url = %q: https, or http on this machine`, name, o.TokenURL)
	c.unless(o.DeviceURL == "" || safeURL(o.DeviceURL), `%s.device_url = %q: https, or http on this machine`, name, o.DeviceURL)
	c.unless(o.DeviceURL == "" || o.TokenURL != "", `%s.token_url is missing: the provider names it beside device_url`, name)
	c.unless(o.TokenURL == "" || o.ClientID != "", `%s.client_id is missing: the provider gives it when you register a program`, name)
}

// safeURL reports whether a secret may be sent to an address.
func safeURL(raw string) bool {
	u, err := url.Parse(raw)
	if err != nil || u.Host == "" {
		return false
	}
	return u.Scheme == "https" || u.Scheme == "http" && (u.Hostname() == "localhost" || loopbackIP(u.Hostname()))
}

func (c *checker) one(fileKey, file, envKey, env string, need bool) {
	c.unless(file == "" || env == "", "%s and %s are both set: keep one, better the file", fileKey, envKey)
	c.unless(!need || file != "" || env != "", "%s is missing: write the name of a file that holds nothing else", fileKey)
}

func (c *checker) length(key string, l Length) {
	c.unless(l.Length > 0 && l.Length < farAway, `%s: a length with its unit, as in "1/2 in" or "15 mm"`, key)
}

func (c *checker) cloth(key string, cloth Cloth) {
	c.unless(slices.Contains([]string{"sides", "hull-and-top", "top-and-skirt"}, cloth.Construction),
		`%s.construction = %q: "sides", "hull-and-top" or "top-and-skirt"`, key, cloth.Construction)
	for name, l := range map[string]Length{
		"roll_width": cloth.RollWidth, "usable_width": cloth.UsableWidth,
		"seam_allowance": cloth.SeamAllowance, "hem": cloth.Hem, "slit": cloth.Slit,
	} {
		c.length(key+"."+name, l)
	}
	c.unless(cloth.UsableWidth.Length <= cloth.RollWidth.Length, "%s.usable_width is wider than the roll", key)
	c.unless(cloth.StretchAcross >= 0 && cloth.StretchAcross < 1, "%s.stretch_across = %v: a fraction, 0.06 for 6 %%", key, cloth.StretchAcross)
	for name, r := range map[string]float64{"girth_reduction": cloth.GirthReduction, "length_reduction": cloth.LengthReduction} {
		c.unless(r > -0.2 && r < 0.2, "%s.%s = %v: a fraction, 0.02 for 2 %% smaller than measured", key, name, r)
	}
	c.unless(cloth.GirthReduction <= maxReduction*cloth.StretchAcross || cloth.GirthReduction <= 0,
		"%s.girth_reduction = %v is over half of stretch_across = %v: the cover would not go on", key, cloth.GirthReduction, cloth.StretchAcross)
}

// loopback reports whether an address can be reached from this machine alone.
func loopback(address string) bool {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return false
	}
	return host == "localhost" || loopbackIP(host)
}

func loopbackIP(host string) bool {
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.IsLoopback()
}
