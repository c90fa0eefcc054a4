package main

// Everything that a terminal sees is worded here.
//
//   - results go to standard output, everything else to standard error;
//   - messages to the person at the keyboard begin with "fairtape:", in lower
//     case and without a full stop; what to do about it follows on a line that
//     begins with "hint:";
//   - whatever comes from a file or a mail passes escape.

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"text/tabwriter"
	"unicode"

	"golang.org/x/term"

	"fairtape/parse"
	"fairtape/validate"
)

// examples stand above the help of each command.
var examples = map[string]string{
	"demo":          "fairtape demo --out demo-out",
	"watch":         "fairtape watch --config /etc/fairtape/fairtape.toml",
	"read":          "fairtape read survey.xlsx",
	"check":         "fairtape check survey.csv\nfairtape check --each --json surveys/*.csv",
	"letter":        "fairtape letter mail.eml\nfairtape letter mail.eml --out letter.eml",
	"cut":           "fairtape cut survey.csv --out cut-sheet\nfairtape cut survey.csv --out draft --draft",
	"form":          "fairtape form --length \"15 ft 9 in\" --out form.pdf\nfairtape form --unit cm --paper a4 --out form.xlsx",
	"init":          "fairtape init\nfairtape init --shop \"Pinfold Cover Loft\" --address orders@pinfold.example --no-chat",
	"signin":        "fairtape signin",
	"health":        "fairtape health",
	"doctor":        "fairtape doctor",
	"completion":    "fairtape completion bash > /etc/bash_completion.d/fairtape",
	"manual":        "fairtape manual > /usr/local/share/man/man1/fairtape.1",
	"jobs":          "fairtape jobs list",
	"jobs list":     "fairtape jobs list",
	"jobs show":     "fairtape jobs show 14",
	"jobs send":     "fairtape jobs send 14-2",
	"jobs hold":     "fairtape jobs hold 14-2 --because \"they telephoned\"",
	"jobs edit":     "fairtape jobs edit 14-2 --file letter.txt",
	"jobs answered": "fairtape jobs answered 14-2 --with \"Yes, it comes in green.\"",
	"jobs correct":  "fairtape jobs correct 14 \"7 ft\" hull_girth \"47 1/2\"\nfairtape jobs correct 14 - bow_height 18",
	"jobs own":      "fairtape jobs own 14 \"7 ft\" hull_girth",
	"jobs tape":     "fairtape jobs tape 14 nothing was under it",
	"jobs received": "fairtape jobs received 14 tracings\nfairtape jobs received 14 tracings bow --refused \"the foremost point is not marked\"",
	"jobs reopen":   "fairtape jobs reopen 14",
	"jobs join":     "fairtape jobs join 14 17",
	"jobs split":    "fairtape jobs split 17",
	"jobs forget":   "fairtape jobs forget ann@tarn.example",
	"jobs verify":   "fairtape jobs verify",
	"jobs export":   "fairtape jobs export surveys.xlsx",
	"jobs import":   "fairtape jobs import surveys.xlsx",
	"jobs close":    "fairtape jobs close 14",
	"jobs note":     "fairtape jobs note 14 \"tracings are in the blue tube\"",
}

// escape makes a text from outside safe to show: no control character, no
// invisible one that turns the direction of writing, one line.
func escape(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// escapeText is escape for a text of several lines.
func escapeText(s string) string {
	lines := strings.Split(strings.ReplaceAll(s, "\r\n", "\n"), "\n")
	for i := range lines {
		lines[i] = escape(lines[i])
	}
	return strings.Join(lines, "\n")
}

func sayError(w io.Writer, err error) {
	fmt.Fprintf(w, "fairtape: %s\n", escapeText(err.Error())) //nolint:errcheck // there is nobody left to tell
}

func sayHint(w io.Writer, hint string) {
	if hint != "" {
		fmt.Fprintf(w, "hint: %s\n", escapeText(hint)) //nolint:errcheck // there is nobody left to tell
	}
}

// isTerminal reports that a person watches.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// emphasis writes bold on a terminal that has it.
func emphasis(w io.Writer, s string) string { return styled(w, s, bold) }

// style is a way of writing that a terminal has: a parameter of the control
// sequence SGR (ECMA-48).
type style string

const (
	bold   style = "1"
	faint  style = "2"
	red    style = "31"
	green  style = "32"
	yellow style = "33"
	cyan   style = "36"
)

// styled writes s in a style on a terminal that has it. NO_COLOR and
// FORCE_COLOR are heeded as no-color.org and its like say.
func styled(w io.Writer, s string, how style) string {
	on := isTerminal(w) && os.Getenv("TERM") != "dumb" || os.Getenv("FORCE_COLOR") != ""
	if !on || os.Getenv("NO_COLOR") != "" || s == "" {
		return s
	}
	return "\x1b[" + string(how) + "m" + s + "\x1b[0m"
}

// widthOf is how many columns a person sees: those of the terminal, else what
// COLUMNS says, else 80.
func widthOf(w io.Writer) int {
	const usual, least = 80, 40
	if f, ok := w.(*os.File); ok {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 {
			return max(width, least)
		}
	}
	if width, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && width > 0 {
		return max(width, least)
	}
	return usual
}

// number writes a length in the unit of its survey.
func number(l parse.Length, unit parse.Unit) string {
	return strconv.FormatFloat(l.In(unit), 'f', -1, 64)
}

func unitName(u parse.Unit) string {
	return cmp.Or(string(u), "unit not known")
}

// printReadings lists what was read, with where it stands and how sure it is.
func printReadings(w io.Writer, files []string, s parse.Survey) error {
	fmt.Fprintf(w, "%s, in %s", emphasis(w, escape(strings.Join(files, " + "))), unitName(s.Unit)) //nolint:errcheck // the last write tells
	for _, word := range []string{s.Boat, s.Customer} {
		if word != "" {
			fmt.Fprintf(w, ", %s", escape(word)) //nolint:errcheck // the last write tells
		}
	}
	fmt.Fprintln(w) //nolint:errcheck // the last write tells
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	row := func(name string, r parse.Reading) {
		if r.Absent() {
			return
		}
		value := "?"
		if r.Known {
			value = number(r.Value, s.Unit)
		}
		note := ""
		if r.Doubtful() {
			note = fmt.Sprintf("unsure (%.2f)", r.Confidence)
			if others := perhaps(r, s.Unit); others != "" {
				note += ", perhaps " + others
			}
		}
		fmt.Fprintf(t, "  %s\t%s\t%s\t%s %s\t%s\n", name, value, escape(strconv.Quote(r.Source.Raw)), escape(r.Source.File), escape(r.Source.Place), note) //nolint:errcheck // Flush tells
	}
	for _, m := range wholeBoat() {
		row(m.name, *s.Once(m.measure))
	}
	for _, st := range s.Stations {
		at := number(st.At, s.Unit)
		row(at+" hull girth", st.HullGirth)
		row(at+" full girth", st.FullGirth)
	}
	return t.Flush()
}

func perhaps(r parse.Reading, unit parse.Unit) string {
	var others []string
	for _, c := range r.Alternatives {
		others = append(others, number(c.Value, unit))
	}
	return strings.Join(others, " or ")
}

// named is a measure that a boat has once, and how the terminal calls it.
type named struct {
	measure parse.Measure
	name    string
}

func wholeBoat() []named {
	return []named{
		{parse.LengthOverall, "length overall"},
		{parse.BowHeight, "bow height"},
		{parse.SternHeight, "stern height"},
		{parse.CarryPoint, "carry point"},
		{parse.GreatestAt, "greatest girth at"},
		{parse.GreatestHullGirth, "greatest hull girth"},
		{parse.GreatestFullGirth, "greatest full girth"},
		{parse.GreatestOpening, "opening there"},
		{parse.TransomHullGirth, "transom hull girth"},
		{parse.TransomFullGirth, "transom full girth"},
	}
}

// printProblems lists what could not be read.
func printProblems(w io.Writer, problems []parse.Problem) error {
	for _, p := range problems {
		place := p.Source.File
		if p.Source.Place != "" {
			place += ", " + p.Source.Place
		}
		line := "problem: " + escape(place) + ": " + escape(p.Message)
		if p.Source.Raw != "" {
			line += " It says " + escape(strconv.Quote(p.Source.Raw)) + "."
		}
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// printReport lists the findings and sums up.
func printReport(w io.Writer, files []string, r validate.Report) error {
	for _, f := range r.Findings {
		fmt.Fprintf(w, "%s: %s\n", f.Kind, escape(f.Message)) //nolint:errcheck // the last write tells
	}
	if err := printProblems(w, r.Problems); err != nil {
		return err
	}
	rows := 0
	for _, st := range r.Survey.Stations {
		if st.HullGirth.Known && st.FullGirth.Known {
			rows++
		}
	}
	_, err := fmt.Fprintf(w, "%s: %s (%s)\n", escape(strings.Join(files, " + ")), emphasis(w, string(r.Verdict)), counted(rows, "station", "stations"))
	return err
}

func counted(n int, one, several string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, several)
}

// sayNotice tells the person at the keyboard something that is no result.
func sayNotice(w io.Writer, format string, args ...any) {
	fmt.Fprintf(w, "fairtape: %s\n", escapeText(fmt.Sprintf(format, args...))) //nolint:errcheck // there is nobody left to tell
}
