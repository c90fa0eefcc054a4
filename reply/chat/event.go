package chat

import "time"

// Kind names what a person did in chat.
type Kind string

// The kinds of event. The first four are buttons pressed; their values are the
// action ids. The next three are modals handed in.
const (
	PressSend    Kind = "send"
	PressEdit    Kind = "edit"    // Trigger is good for three seconds: call OpenEdit at once
	PressCorrect Kind = "correct" // likewise OpenCorrect
	PressHold    Kind = "hold"    // likewise OpenHold

	Edited    Kind = "edited"    // Text is the whole letter
	Corrected Kind = "corrected" // Corrections has at least one
	Held      Kind = "held"      // Until or Reason is set

	Said      Kind = "said"      // a message in a thread, or one that mentions the bot
	Connected Kind = "connected" // the connection stands (again): ask Missed for each open thread
)

// Event is one thing a person did, already acknowledged to the chat service.
// The same event may be delivered again after a restart: ID is the same then.
type Event struct {
	ID   string
	Kind Kind
	At   time.Time // when it happened, as far as the service says
	User Person

	Thread  Thread // the job's thread; for a message outside one, the message itself
	Draft   string // buttons and modals: the draft it was about, "14-2"
	Trigger string // of a pressed button

	Text        string // Edited: the letter; Said: the words as plain text, without the mention
	Mention     bool   // Said: the bot was mentioned
	InThread    bool   // Said: it was an answer in a thread
	Corrections []Correction
	Until       string // Held: a date as 2006-01-02, "" when none was given
	Reason      string
	Files       []File
}

// Person is a user of the chat service.
type Person struct {
	ID   string
	Name string // as the service shows it; from outside, escape it
}

// Thread is where a job is talked about. The zero Thread is none.
type Thread struct {
	Channel string
	TS      string // timestamp of the first post, which is its identity
}

// Correction is a value that a person gives for a reading.
type Correction struct {
	Key   string // of the Doubt it answers; "" for any other reading
	Place string // "7 ft", as typed; "" when Key is set
	// Measure is a name as in the survey, "hull_girth"; "" when Key is set.
	Measure string
	Value   string // as typed, "47 1/2"
}

// File is a file that a person of the shop dropped into a thread.
type File struct {
	ID, Name, MediaType string
	Size                int // bytes
	URL                 string
}
