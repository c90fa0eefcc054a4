// Package doctor tries whether a shop's settings work: every connection,
// sign-in, mailbox, permission, file, the disk and the clock. For each failure
// it names the cause in plain words, the likely fix, and the next command.
//
// What it changes: a test draft is filed and removed at once, and the ledger is
// opened as the service would. No letter goes out, and nothing is said in chat.
package doctor

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/reply/chat"
	"fairtape/reply/smtp"
)

// Level is how bad it is.
type Level string

// The levels. Skipped is what could not be tried because something before it
// failed.
const (
	OK      Level = "ok"
	Warning Level = "warning" // works, but should be seen to
	Fault   Level = "fault"   // the service cannot work so
	Skipped Level = "skipped"
)

// Check is one thing that was tried.
type Check struct {
	Name    string `json:"name"` // "imap sign-in"
	Level   Level  `json:"level"`
	Cause   string `json:"cause"`   // a code for scripts, "wrong-password"; "" when all is well
	Message string `json:"message"` // what was found, in plain words
	Fix     string `json:"fix"`     // the likely one, "" for none
	Next    string `json:"next"`    // a command, "" for none
}

// Report is everything that was tried, in the order of trying.
type Report struct {
	Level  Level   `json:"level"` // the worst: ok, warning or fault
	Checks []Check `json:"checks"`
}

// Doctor is what is examined, and the outside world to do it with.
type Doctor struct {
	File     string // the settings file
	Again    string // the command that examines once more
	SignIn   string // the command that signs in at the provider
	Settings settings.Settings

	// The connections as the service makes them. Sender and Chat are called
	// only when the settings name a server and a channel.
	Folders func() (*mailbox.Folders, error)
	Sender  func() (smtp.Sender, error)
	Chat    func() (*chat.Poster, error)
	Opener  func() (*opener.Opener, error)
	Texts   func() error // loads the shop's own letters

	Now    func() time.Time
	Free   func(folder string) (bytes uint64, err error) // see FreeSpace
	Getenv func(string) string
}

// stepTime bounds one connection with all its steps: a person waits.
const stepTime = 25 * time.Second

// examination is a report in the making.
type examination struct {
	*Doctor
	report Report
	clocks []told          // what servers said about the time
	lost   map[string]bool // secrets that cannot be used, by their place
}

// Examine tries everything.
func (d *Doctor) Examine(ctx context.Context) Report {
	x := &examination{Doctor: d, lost: map[string]bool{}}
	x.settings()
	x.secrets()
	x.disk(ctx)
	x.within(ctx, x.mailbox)
	x.within(ctx, x.sending)
	x.within(ctx, x.chat)
	x.clock()
	x.reading(ctx)
	return x.done()
}

// ExamineInbox tries what is a further inbox's own: its settings, secrets and
// connections, but not the machine once more.
func (d *Doctor) ExamineInbox(ctx context.Context) Report {
	x := &examination{Doctor: d, lost: map[string]bool{}}
	x.settings()
	x.secrets()
	x.within(ctx, x.mailbox)
	x.within(ctx, x.sending)
	x.within(ctx, x.chat)
	return x.done()
}

// And adds what was tried of a further inbox, under its name.
func (r Report) And(inbox string, further Report) Report {
	for _, c := range further.Checks {
		c.Name = inbox + ": " + c.Name
		r.Checks = append(r.Checks, c)
	}
	r.Level = worst(r.Checks)
	return r
}

// Broken is the report on a settings file that cannot be used.
func Broken(file, again string, wrong *settings.Error) Report {
	x := &examination{Doctor: &Doctor{File: file, Again: again}}
	for _, line := range wrong.Wrong {
		x.fault("settings", "settings", line, "Change that line in "+file+".", again)
	}
	x.skip("everything else", "the settings have to be right first")
	return x.done()
}

func (x *examination) within(ctx context.Context, try func(context.Context)) {
	ctx, cancel := context.WithTimeout(ctx, stepTime)
	defer cancel()
	try(ctx)
}

func (x *examination) done() Report {
	x.report.Level = worst(x.report.Checks)
	return x.report
}

func worst(checks []Check) Level {
	level := OK
	for _, c := range checks {
		if c.Level == Fault || c.Level == Warning && level == OK {
			level = c.Level
		}
	}
	return level
}

func (x *examination) add(c Check) { x.report.Checks = append(x.report.Checks, c) }

func (x *examination) ok(name, format string, args ...any) {
	x.add(Check{Name: name, Level: OK, Message: fmt.Sprintf(format, args...)})
}

func (x *examination) skip(name, why string) {
	x.add(Check{Name: name, Level: Skipped, Cause: "not-tried", Message: "Not tried: " + why + "."})
}

func (x *examination) warn(name, cause, message, fix, next string) {
	x.add(Check{name, Warning, cause, message, fix, next})
}

func (x *examination) fault(name, cause, message, fix, next string) {
	x.add(Check{name, Fault, cause, message, fix, next})
}

// settings looks at what the file says and leaves out.
func (x *examination) settings() {
	x.ok("settings", "%s can be read, and every value in it can be meant.", x.File)
	if x.Settings.SMTP.Address == "" {
		x.warn("settings", "no-smtp", "There is no [smtp], so letters are sent from the mail program, where they wait in Drafts.",
			"If fairtape is to send them, add [smtp] with the provider's server for sending.", "")
	}
	switch chat := x.Settings.Slack; {
	case chat.Channel == "":
		x.warn("settings", "no-chat", "There is no [slack], so posts go to the terminal of the service and nobody may see them.",
			"Add [slack] with channel and tokens, or look at `fairtape jobs list` every day.", "")
	case chat.AppTokenFile == "" && chat.AppTokenEnv == "":
		x.warn("settings", "no-app-token", "There is no app token, so the buttons under posts do nothing.",
			"Make an app-level token with the scope "+chatScope+" and name its file in slack.app_token_file.", "")
	}
	if err := x.Texts(); err != nil {
		x.fault("letters", "letters", "The shop's own letters cannot be used: "+err.Error()+".",
			"Change that text in the folder of letters.folder, or take the file away.", "fairtape letter --preview all")
	} else if x.Settings.Letters.Folder != "" {
		x.ok("letters", "Every letter of the shop's own can be written.")
	}
}

// reading opens a file as the service would open a customer's.
func (x *examination) reading(ctx context.Context) {
	const page = "<table><tr><th>station</th><th>hull girth</th><th>full girth</th></tr><tr><td>1 ft</td><td>35.5 in</td><td>42 in</td></tr></table>"
	o, err := x.Opener()
	if err == nil {
		doc, openErr := o.Open(ctx, "test.html", []byte(page))
		if err = openErr; err == nil && len(doc.Surveys) == 0 {
			err = errors.New("a test page was not understood")
		}
	}
	if err != nil {
		x.fault("reading files", "reader", "Customers' files cannot be read: "+err.Error()+".",
			"The program starts itself to read files; let it run from a place that is not mounted noexec, with a folder for temporary files (TMPDIR, or /tmp) that it may write to, and give it 600 MB of memory.", x.Again)
		return
	}
	x.ok("reading files", "A test page was read in a process of its own.")
	for _, l := range o.Limits() {
		if !l.Here {
			x.warn("reading files", "fewer-limits", "On this system nothing keeps that process from "+l.Name+".",
				"It would take "+l.Need+".", "")
			continue
		}
		x.ok("reading files", "That process is kept from %s.", l.Name)
	}
}
