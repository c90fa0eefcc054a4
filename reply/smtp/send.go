package smtp

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"time"

	gosmtp "github.com/emersion/go-smtp"
)

// Deadlines. RFC 5321 section 4.5.3.2 allows a server up to ten minutes after
// the dot; a server of submission answers in seconds, and a letter whose
// outcome is unknown goes to a person, not to a second try.
const (
	commandTime = 30 * time.Second
	finalTime   = 120 * time.Second
)

// Send hands a whole message to the server for the given recipients, and
// returns one result for each, in their order. Before the letter has ended,
// the end of ctx stops it; behind the final dot the answer is waited for in any
// case, as stopping there would only make the outcome unknown.
//
// A message without bare line feeds goes out byte for byte.
func (s Sender) Send(ctx context.Context, from string, to []string, raw []byte) []Result {
	results := make([]Result, len(to))
	for i := range to {
		results[i].To = to[i]
	}
	c, err := s.dial(ctx)
	if err != nil {
		return settle(results, err)
	}
	defer c.close()
	if err := c.envelope(from, results, len(raw)); err != nil {
		return settle(results, err)
	}
	if !anyOpen(results) {
		c.Quit()
		return results
	}
	return c.data(ctx, results, raw)
}

// envelope names sender and recipients. Recipients that are turned down get
// their result; an error turns down the letter.
func (c *client) envelope(from string, results []Result, size int) error {
	if most, ok := c.MaxMessageSize(); ok && most > 0 && size > most {
		return &gosmtp.SMTPError{Code: 552, Message: fmt.Sprintf("the letter has %d bytes, the mail server takes %d", size, most)}
	}
	options := &gosmtp.MailOptions{Size: int64(size)}
	if utf8, _ := c.Extension("SMTPUTF8"); utf8 && !allASCII(from, results) {
		options.UTF8 = true
	}
	if err := c.Mail(from, options); err != nil {
		return fmt.Errorf("naming the sender: %w", err)
	}
	for i := range results {
		err := c.Rcpt(results[i].To, nil)
		if err == nil {
			continue
		}
		if replyOf(err) == nil {
			return fmt.Errorf("naming the recipient: %w", err)
		}
		results[i] = judge(results[i].To, err)
	}
	return nil
}

// data sends the letter itself to the recipients that are still open.
func (c *client) data(ctx context.Context, results []Result, raw []byte) []Result {
	w, err := c.Data()
	if err != nil {
		return settle(results, fmt.Errorf("beginning the letter: %w", err))
	}
	c.wire.SetWriteDeadline(time.Now().Add(finalTime))
	if _, err := bytes.NewReader(raw).WriteTo(w); err != nil {
		return settle(results, fmt.Errorf("sending the letter: %w", err))
	}
	c.stop() // from here on the answer is waited for
	if ctx.Err() != nil {
		return settle(results, ctx.Err())
	}
	err = w.Close()
	switch {
	case err == nil:
		for i := range results {
			if results[i].Outcome == 0 {
				results[i].Outcome, results[i].Code = Sent, 250
			}
		}
		c.Quit()
		return results
	case replyOf(err) != nil || c.wire.failed.Load():
		return settle(results, fmt.Errorf("ending the letter: %w", err))
	}
	for i := range results {
		if results[i].Outcome == 0 {
			results[i].Outcome, results[i].Err = Unknown, fmt.Errorf("no answer after the whole letter was sent: %w", err)
		}
	}
	return results
}

func anyOpen(results []Result) bool {
	for _, r := range results {
		if r.Outcome == 0 {
			return true
		}
	}
	return false
}

// settle gives all open recipients the result of err.
func settle(results []Result, err error) []Result {
	for i := range results {
		if results[i].Outcome == 0 {
			results[i] = judge(results[i].To, err)
		}
	}
	return results
}

// judge tells a refusal from trouble that may pass. A refused sign-in says
// nothing about the letter, so it is no refusal of it.
func judge(to string, err error) Result {
	r := Result{To: to, Outcome: Temporary, Err: err}
	if reply := replyOf(err); reply != nil {
		r.Code = reply.Code
		if reply.Code/100 == 5 {
			r.Outcome = Refused
		}
	}
	return r
}

// replyOf returns the server's reply in an error, nil when there was none.
func replyOf(err error) *gosmtp.SMTPError {
	var reply *gosmtp.SMTPError
	if errors.As(err, &reply) {
		return reply
	}
	return nil
}

func allASCII(from string, results []Result) bool {
	all := from
	for _, r := range results {
		all += r.To
	}
	for _, c := range []byte(all) {
		if c >= 0x80 {
			return false
		}
	}
	return true
}
