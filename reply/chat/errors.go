package chat

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"github.com/slack-go/slack"
)

// Errors that a caller can tell apart. Every error of a Poster wraps one.
var (
	// ErrTemporary: nothing was said; try again later.
	ErrTemporary = errors.New("the chat service cannot be reached just now")
	// ErrUnsure: it may have been said or not; try again later with unsure set.
	ErrUnsure = errors.New("not known whether the post arrived")
	// ErrShut: token revoked, channel archived, bot not in the channel: nothing
	// can be said until a person acts. Alarm by another way.
	ErrShut = errors.New("the chat is shut to us")
	// ErrRefused: this one thing was refused and would be again.
	ErrRefused = errors.New("the chat service refused")
)

// errNoTimestamp: an answer that says yes and nothing else.
var errNoTimestamp = errors.New("the answer names no post")

type failureKind int

const (
	unknown   failureKind = iota // it may have happened
	waitFirst                    // it did not happen, and will not before a wait
	notNow                       // it did not happen, try later
	shut                         // it did not happen, and nothing will
	refused                      // it did not happen, and will not
)

type failure struct {
	kind  failureKind
	after time.Duration
	hint  string
}

func (f failure) wrap(err error) error {
	kind := ErrUnsure
	switch f.kind {
	case waitFirst, notNow:
		kind = ErrTemporary
	case shut:
		kind = ErrShut
	case refused:
		kind = ErrRefused
	}
	if f.hint != "" {
		return fmt.Errorf("%w: %w (%s)", kind, err, f.hint)
	}
	return fmt.Errorf("%w: %w", kind, err)
}

// shutCodes are the answers after which nothing can be said until a person has
// acted, with what to do. Source: docs.slack.dev, errors of chat.postMessage.
var shutCodes = map[string]string{
	"invalid_auth":            "the token is wrong: make a new one and put it into the token file",
	"not_authed":              "the token file is empty",
	"token_revoked":           "the token was revoked: install the app again",
	"token_expired":           "the token has expired: make a new one",
	"account_inactive":        "the app was removed from the workspace: install it again",
	"missing_scope":           "the app lacks a permission: add it and install the app again",
	"not_allowed_token_type":  "this is the other kind of token: the bot's begins with xoxb-, the app's with xapp-",
	"no_permission":           "the app lacks a permission: add it and install the app again",
	"not_in_channel":          "invite the bot to the channel",
	"channel_not_found":       "check the channel's id, and invite the bot",
	"is_archived":             "the channel is archived: open it again or name another",
	"restricted_action":       "the workspace does not let the bot post there",
	"team_access_not_granted": "the workspace does not let the app in",
	"org_login_required":      "the workspace is being moved: wait, then install the app again",
	"access_denied":           "the workspace does not let the app in",
}

// unsureCodes are the answers that leave open whether something happened.
var unsureCodes = map[string]bool{
	"internal_error": true, "fatal_error": true, "request_timeout": true, "service_unavailable": true,
}

// judge says what an error of the service or of the way to it means.
func judge(err error) failure {
	if limited, ok := errors.AsType[*slack.RateLimitedError](err); ok {
		return failure{kind: waitFirst, after: limited.RetryAfter}
	}
	if answer, ok := errors.AsType[slack.SlackErrorResponse](err); ok {
		return judgeCode(answer.Err)
	}
	if status, ok := errors.AsType[slack.StatusCodeError](err); ok {
		switch {
		case status.Code == http.StatusTooManyRequests:
			return failure{kind: waitFirst, after: retryAfterLost}
		case status.Code >= 500, status.Code == http.StatusRequestTimeout:
			return failure{kind: unknown}
		}
		return failure{kind: refused}
	}
	if errors.Is(err, ErrTooLarge) {
		return failure{kind: refused}
	}
	if op, ok := errors.AsType[*net.OpError](err); ok && op.Op == "dial" {
		return failure{kind: notNow}
	}
	if _, ok := errors.AsType[*net.DNSError](err); ok {
		return failure{kind: notNow}
	}
	return failure{kind: unknown}
}

func judgeCode(code string) failure {
	if hint, ok := shutCodes[code]; ok {
		return failure{kind: shut, hint: hint}
	}
	switch {
	case unsureCodes[code]:
		return failure{kind: unknown}
	case code == "ratelimited" || code == "rate_limited":
		return failure{kind: waitFirst, after: retryAfterLost}
	}
	return failure{kind: refused}
}

// isCode reports whether the service answered with the given code.
func isCode(err error, code string) bool {
	answer, ok := errors.AsType[slack.SlackErrorResponse](err)
	return ok && answer.Err == code
}
