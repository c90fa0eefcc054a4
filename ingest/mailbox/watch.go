package mailbox

import (
	"context"
	"time"

	"fairtape/ingest"
)

// Delivery is one message of the inbox.
type Delivery struct {
	Location ingest.Location
	Received time.Time // the server's internal date
	Size     int64     // in bytes, as the server says
	Flags    []string
	Raw      []byte // the whole message; nil when Err is set
	// Err says why the message could not be fetched: ErrTooLarge or ErrBreaks.
	// It is delivered all the same, so that a person is told.
	Err error
	// Rescan is true for a message found while the mailbox is read anew (first
	// start, UIDVALIDITY changed, UIDNEXT fell): it may be known already under
	// another UID.
	Rescan bool
	// Cursor is to be recorded together with the message. During a rescan its
	// LastUID stays 0, so that a rescan that was cut off starts over.
	Cursor ingest.Cursor
}

// Rescanned tells that a mailbox has been read anew.
type Rescanned struct {
	Reason string        // for the log and the shop: "first start", ...
	Since  time.Time     // mail that arrived before was not handed over
	Older  int           // how many those are
	Cursor ingest.Cursor // to be recorded: the rescan is complete
}

// Watcher hands over what arrives in the inbox. Run may be called once.
type Watcher struct {
	Config Config
	Start  ingest.Cursor // where the last run ended; zero at first start
	Poll   time.Duration // pause between two looks, beside IDLE; at least a second
	Since  time.Duration // at a rescan, older mail is left alone
	Now    func() time.Time

	// Deliver takes a message. Returning nil says that the message and its
	// Cursor are on the ledger: only then the next one follows. After an error
	// the same message is delivered again, after a pause.
	Deliver func(context.Context, Delivery) error
	// Rescanned is told when a rescan is complete; nil on success as above.
	Rescanned func(context.Context, Rescanned) error
	// Trouble is told about a lost or refused connection (errors.Is ErrSignIn,
	// ErrCertificate, ErrPlainText where it is one of those), and with nil once
	// the mailbox is watched again. It may be nil itself.
	Trouble func(error)
}
