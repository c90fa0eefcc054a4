package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"reflect"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/settings"
)

// The exit statuses, as scripts rely on them.
const (
	statusClean      = 0
	statusOpen       = 1 // something to re-check, confirm or supply
	statusUsage      = 2
	statusUnreadable = 3 // a file could not be read as a survey
	statusFailure    = 4 // our own
)

// commands is the command line.
type commands struct {
	Config string `help:"Settings file." placeholder:"FILE" type:"path"`
	Inbox  string `help:"Which inbox of the settings; the one of [imap] when not given." placeholder:"NAME"`

	Version kong.VersionFlag `help:"Say which fairtape this is, and what it was built with."`

	Demo   demoCommand   `cmd:"" help:"Show the whole loop with no set-up."`
	Watch  watchCommand  `cmd:"" help:"Run the service: watch the mailbox, draft letters, post in chat."`
	Read   readCommand   `cmd:"" help:"Say what files say: values, where each was found, how sure."`
	Check  checkCommand  `cmd:"" help:"Judge a survey: readings and findings."`
	Letter letterCommand `cmd:"" help:"Write the letter that would be drafted."`
	Cut    cutCommand    `cmd:"" help:"Write the cut sheet of a settled survey."`
	Form   formCommand   `cmd:"" help:"Make an empty form for a boat."`
	Init   initCommand   `cmd:"" help:"Make a settings file, asking what it needs."`
	Signin signinCommand `cmd:"" help:"Sign in at a mail provider that wants tokens."`
	Health healthCommand `cmd:"" help:"Ask the running service how it is."`
	Doctor doctorCommand `cmd:"" help:"Try every connection, permission and file, and say what to do for each failure."`
	Jobs   jobsCommand   `cmd:"" help:"Look at jobs, and decide about letters."`

	Completion completionCommand `cmd:"" help:"Print what completes commands in a shell."`
	Manual     manualCommand     `cmd:"" help:"Print the manual page."`
}

// terminal is what a command works with.
type terminal struct {
	ctx      context.Context
	in       io.Reader
	out, err io.Writer
	config   string // of --config, "" for the usual place
	inbox    string // of --inbox, "" for the one of [imap]
	crash    func(string)
}

// exit is an error that carries its exit status. A nil cause says that
// everything has been said.
type exit struct {
	status int
	cause  error
	hint   string // what to do about it, "" for nothing
}

func (e *exit) Error() string {
	if e.cause == nil {
		return fmt.Sprintf("exit status %d", e.status)
	}
	return e.cause.Error()
}

func (e *exit) Unwrap() error { return e.cause }

// usage is an error of the person at the keyboard.
func usage(hint, format string, args ...any) error {
	return &exit{statusUsage, fmt.Errorf(format, args...), hint}
}

// settle ends a command with a status other than 0 and nothing more to say.
func settle(status int) error {
	if status == statusClean {
		return nil
	}
	return &exit{status: status}
}

// stopped is what kong's help unwinds with.
type stopped struct{ status int }

// run runs one command and returns the exit status. It is the one place where
// errors become statuses. crash is called at every point between two outside
// acts, for tests; nil does nothing.
func run(args []string, in io.Reader, out, errs io.Writer, crash func(string)) (status int) {
	defer func() {
		if p := recover(); p != nil {
			s, ok := p.(stopped)
			if !ok {
				panic(p)
			}
			status = s.status
		}
	}()
	var c commands
	parser, err := kong.New(&c,
		kong.Name("fairtape"),
		kong.Description("Reads boat surveys that arrive by mail, judges them, and drafts the letters that answer them."),
		kong.Writers(out, errs),
		kong.Exit(func(status int) { panic(stopped{status}) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 88}),
		kong.Help(help),
		kong.KindMapper(reflect.Int, kong.MapperFunc(wholeNumber)),
		kong.Vars{"version": version()},
	)
	if err != nil {
		return report(errs, err)
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := parser.Parse(args)
	if err != nil {
		hint := usageHint(err)
		if strings.Contains(err.Error(), "<EOL>") { // the library's sign for the end of the line
			err = errors.New("a value is missing at the end of the line")
		}
		return report(errs, &exit{statusUsage, err, hint})
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	return report(errs, parsed.Run(&terminal{ctx, in, out, errs, c.Config, c.Inbox, crash}))
}

// wholeNumber reads the number of a job or a sheet. The library's own words for
// what is none speak of bits.
func wholeNumber(ctx *kong.DecodeContext, target reflect.Value) error {
	token, err := ctx.Scan.PopValue("number")
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(token.String())
	if err != nil {
		return fmt.Errorf("%q is no number", token.String())
	}
	target.SetInt(int64(n))
	return nil
}

// version says which fairtape this is, as the Go toolchain stamped it.
func version() string {
	name := "unknown"
	if info, ok := debug.ReadBuildInfo(); ok {
		name = info.Main.Version
	}
	return fmt.Sprintf("fairtape %s, %s %s/%s", name, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}

// usageHint names the help of the command that was meant.
func usageHint(err error) string {
	var bad *kong.ParseError
	if errors.As(err, &bad) && bad.Context != nil && bad.Context.Selected() != nil {
		return fmt.Sprintf("see: fairtape %s --help", bad.Context.Selected().Path())
	}
	return "see: fairtape --help"
}

// report says what went wrong and returns the exit status.
func report(w io.Writer, err error) int {
	if err == nil {
		return statusClean
	}
	var e *exit
	if !errors.As(err, &e) {
		e = &exit{status: statusFailure, cause: err, hint: failureHint(err)}
	}
	if e.cause != nil {
		sayError(w, err)
		sayHint(w, e.hint)
	}
	return e.status
}

// failureHint is what to do about an error that is not of the command line.
func failureHint(err error) string {
	switch {
	case errors.Is(err, ledger.ErrInUse):
		return "one copy is enough; end the other one first"
	case errors.Is(err, ledger.ErrDamaged):
		return "put the last backup in its place: fairtape jobs restore FILE; what is there now is kept beside it"
	case errors.Is(err, fs.ErrExist):
		return "it is left as it is: name another file, or take it away first"
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return "make the folder first, or name another"
	case errors.Is(err, fs.ErrPermission):
		return "the file or folder belongs to another user"
	}
	return ""
}

// settings loads the settings of the inbox that the command is about.
func (t *terminal) settings() (settings.Settings, error) {
	all, err := t.allSettings()
	if err != nil {
		return all, err
	}
	one, ok := all.Named(t.inbox)
	if !ok {
		var names []string
		for _, in := range all.Inboxes {
			names = append(names, in.Name)
		}
		return one, usage("", "the settings have no inbox %q; there are, beside the one of [imap]: %s", t.inbox, cmp.Or(strings.Join(names, ", "), "none"))
	}
	return one, nil
}

// allSettings loads the settings file, with every inbox. Wrong settings are
// wrong use.
func (t *terminal) allSettings() (settings.Settings, error) {
	path := t.config
	if path == "" {
		var err error
		if path, err = settings.Path(); err != nil {
			return settings.Settings{}, err
		}
	}
	s, err := settings.Load(path)
	var wrong *settings.Error
	switch {
	case errors.Is(err, settings.ErrNone):
		return s, &exit{statusUsage, err, "make one: fairtape init; name another with --config; or try: fairtape demo"}
	case errors.As(err, &wrong):
		return s, &exit{statusUsage, err, ""}
	}
	return s, err
}

// optionalSettings is settings for commands that work without: the defaults
// when no file was named and none lies in the usual place.
func (t *terminal) optionalSettings() (settings.Settings, error) {
	s, err := t.settings()
	if t.config == "" && errors.Is(err, settings.ErrNone) {
		s = settings.Default()
		s.Shop.Name, s.Shop.From = "The shop", "orders@shop.example"
		return s, nil
	}
	return s, err
}

// help prints a command's help with its example first.
func help(options kong.HelpOptions, ctx *kong.Context) error {
	if node := ctx.Selected(); node != nil {
		if example, ok := examples[strings.Join(names(node), " ")]; ok {
			if _, err := fmt.Fprintf(ctx.Stdout, "Example:\n  %s\n\n", strings.ReplaceAll(example, "\n", "\n  ")); err != nil {
				return err
			}
		}
	}
	return kong.DefaultHelpPrinter(options, ctx)
}

// names is the path of a command below the program, "jobs send".
func names(node *kong.Node) []string {
	var path []string
	for n := node; n != nil && n.Type == kong.CommandNode; n = n.Parent {
		path = append([]string{n.Name}, path...)
	}
	return path
}
