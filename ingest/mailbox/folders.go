package mailbox

import (
	"time"

	"fairtape/ingest"
)

// Filed is a letter that lies in Drafts or Sent, by its header.
type Filed struct {
	Location   ingest.Location
	MessageID  string // without angle brackets
	Job        string // X-Fairtape-Job
	Draft      string // X-Fairtape-Draft, "14-2"
	InReplyTo  []string
	References []string
	To         []string // addresses, lower case
	Subject    string
	Received   time.Time // internal date
	Size       int64
}

// Wanted says which letter is looked for.
type Wanted struct {
	MessageID string // of the letter
	Draft     string // its id, "14-2"
	Answers   string // Message-ID of the customer's message that it answers
	To        string // the customer's address
}

// Health is what a live test of the account found.
type Health struct {
	Server       string // greeting name, if the server says
	Capabilities []string
	Idle         bool // new mail is told at once
	Inbox        string
	Messages     uint32
	Drafts, Sent string // names found; "" when one would have to be created
}
