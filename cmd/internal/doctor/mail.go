package doctor

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/reply/smtp"
)

// mailbox tries to sign in, to open the three mailboxes, and to file a draft.
func (x *examination) mailbox(ctx context.Context) {
	c := x.Settings.IMAP.Connection
	if !x.reach(ctx, imapService, c) {
		x.skip("imap sign-in", "there is no connection")
		return
	}
	if x.lost[of("imap", c).place()] {
		x.skip("imap sign-in", "there is no secret to sign in with")
		return
	}
	folders, err := x.Folders()
	if err != nil {
		x.fault("imap sign-in", "imap", fmt.Sprintf("The mailbox cannot be tried: %v.", err), "", x.Again)
		return
	}
	defer folders.Close() //nolint:errcheck // nothing is lost with this connection
	h, err := folders.Probe(ctx)
	if err != nil && !errors.Is(err, mailbox.ErrNoMailbox) {
		x.mailFailure(imapService, c, err)
		return
	}
	x.ok("imap sign-in", "%s is signed in.", c.User)
	x.inbox(h, err)
	if x.filing("Drafts", "imap.drafts", h.Drafts, h) {
		x.tryDraft(ctx, folders, h.Drafts)
	}
	x.filing("Sent", "imap.sent", h.Sent, h)
}

func (x *examination) inbox(h mailbox.Health, err error) {
	if err != nil {
		x.fault("inbox", "no-inbox", fmt.Sprintf("There is no mailbox %q; there are: %s.", h.Inbox, strings.Join(h.Mailboxes, ", ")),
			"Correct imap.inbox in "+x.File+"; INBOX is where mail arrives.", x.Again)
		return
	}
	x.ok("inbox", "%s holds %d mails.", h.Inbox, h.Messages)
	if !h.Idle {
		x.warn("inbox", "no-idle", fmt.Sprintf("The server does not tell of new mail at once; it is looked for every %v.", x.Settings.IMAP.Poll.Duration), "", "")
	}
}

// filing tells whether a mailbox for letters is there and may be written to.
func (x *examination) filing(use, key, name string, h mailbox.Health) bool {
	check := strings.ToLower(use)
	switch {
	case name == "":
		x.warn(check, "no-"+check, fmt.Sprintf("No mailbox is marked as %s or called so; there are: %s.", use, strings.Join(h.Mailboxes, ", ")),
			fmt.Sprintf("Name it in %s. If there is none, one is made with the first letter.", key), x.Again)
	case slices.Contains(h.Missing, name):
		x.fault(check, "no-"+check, fmt.Sprintf("There is no mailbox %q; there are: %s.", name, strings.Join(h.Mailboxes, ", ")),
			fmt.Sprintf("Correct %s, or leave it empty so that the mailbox marked as %s is found.", key, use), x.Again)
	case slices.Contains(h.ReadOnly, name):
		x.fault(check, "read-only", fmt.Sprintf("Nothing may be changed in %q, so letters cannot be filed there.", name),
			fmt.Sprintf("Let the account write there, or name another mailbox in %s.", key), x.Again)
	default:
		x.ok(check, "%s is %q.", use, name)
		return true
	}
	return false
}

// tryDraft files a draft, reads the server's time off it, and removes it.
func (x *examination) tryDraft(ctx context.Context, folders *mailbox.Folders, name string) {
	id := fmt.Sprintf("test-%d@doctor.invalid", x.Now().UnixNano())
	raw := fmt.Sprintf("From: <%s>\r\nSubject: fairtape doctor: a test that removes itself\r\nDate: %s\r\nMessage-ID: <%s>\r\n\r\nThis draft may be deleted.\r\n",
		x.Settings.Shop.From, x.Now().Format(time.RFC1123Z), id)
	at, err := folders.FileDraft(ctx, []byte(raw), id)
	if err != nil {
		x.fault("drafts", "cannot-file", fmt.Sprintf("A test draft could not be put into %q: %v.", name, err),
			"See whether the account is full, or may not write there.", x.Again)
		return
	}
	list, err := folders.Drafts(ctx)
	for _, l := range list {
		if l.Location == at {
			x.toldTime("the mail server", l.Received)
		}
	}
	if err := errors.Join(err, folders.DeleteDraft(ctx, at)); err != nil {
		x.fault("drafts", "cannot-remove", fmt.Sprintf("The test draft in %q could not be removed: %v.", name, err),
			"Delete it in the mail program, and let the account delete mail there.", x.Again)
		return
	}
	x.ok("drafts", "A test draft was filed and removed again.")
}

// sending tries to sign in and to name the shop as sender.
func (x *examination) sending(ctx context.Context) {
	c := x.Settings.SMTP
	if c.Address == "" {
		return
	}
	if !x.reach(ctx, smtpService, c) {
		x.skip("smtp sign-in", "there is no connection")
		return
	}
	if c.User != "" && x.lost[of("smtp", c).place()] {
		x.skip("smtp sign-in", "there is no secret to sign in with")
		return
	}
	sender, err := x.Sender()
	if err == nil {
		err = sender.Probe(ctx, x.Settings.Shop.From)
	}
	switch {
	case errors.Is(err, smtp.ErrSender) && c.User == "" && c.OAuth2 == nil:
		x.fault("smtp sender", "sign-in-wanted", capital(err)+".",
			"Nobody is signed in there, and the server may want that: set smtp.user and smtp.password_file.", x.Again)
	case errors.Is(err, smtp.ErrSender):
		x.ok("smtp sign-in", "The server lets us in.")
		x.fault("smtp sender", "sender-refused", capital(err)+".",
			"Set shop.from to an address that this account may send as, or allow that address with the provider.", x.Again)
	case err != nil:
		x.mailFailure(smtpService, c, err)
	default:
		x.ok("smtp sign-in", "The server lets us in, and takes letters from %s.", x.Settings.Shop.From)
	}
}

// mailFailure names why a mail server did not let us in.
func (x *examination) mailFailure(s service, c settings.Connection, err error) {
	name := s.name + " sign-in"
	switch {
	case errors.Is(err, mailbox.ErrCertificate), errors.Is(err, smtp.ErrCertificate):
		x.untrusted(s.name+" certificate", s, c, err)
	case errors.Is(err, mailbox.ErrPlainText), errors.Is(err, smtp.ErrPlainText):
		x.fault(s.name+" connection", "plain-text", fmt.Sprintf("%s does not offer STARTTLS, and without it the password would go in the clear.", c.Address),
			fmt.Sprintf("Take the port for TLS from the first byte; usual are %s.", s.ports), x.Again)
	case errors.Is(err, smtp.ErrNoSignIn):
		x.fault(name, "no-sign-in", capital(err)+".",
			"Take the port for programs that send mail (587 or 465). Where a provider has passwords switched off, switch them on, or sign in with [smtp.oauth2].", x.Again)
	case (errors.Is(err, mailbox.ErrSignIn) || errors.Is(err, smtp.ErrSignIn)) && c.OAuth2 != nil:
		x.fault(name, "token-refused", capital(err)+".", "Sign in anew; see that IMAP and SMTP are switched on for the account.", x.SignIn)
	case errors.Is(err, mailbox.ErrSignIn), errors.Is(err, smtp.ErrSignIn):
		x.fault(name, "wrong-password", capital(err)+".",
			fmt.Sprintf("Check %s.user (often the whole address) and the password. Large providers want an app password, made in the account's security settings, not the usual one.", s.name), write(c.PasswordFile))
	case isTimeout(err):
		x.fault(name, "no-answer", fmt.Sprintf("%s stopped answering.", c.Address), "Try again in a while.", x.Again)
	default:
		x.fault(name, s.name, capital(err)+".", "Try again; if it stays so, ask the provider.", x.Again)
	}
}

// capital begins a sentence with an error.
func capital(err error) string {
	text := strings.TrimRight(err.Error(), ". ")
	return strings.ToUpper(text[:1]) + text[1:]
}
