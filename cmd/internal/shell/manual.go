package shell

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

// Section is a part of the manual that the definition of commands does not
// hold.
type Section struct {
	Title string // "EXIT STATUS"
	Items []Item
}

// Item is a paragraph with its head, "" for none.
type Item struct{ Head, Text string }

// Manual writes the manual page in the language of man(7). Examples are by
// command, a line each.
func Manual(app *kong.Application, examples map[string]string, sections []Section) string {
	top := commandsOf(app)
	name := app.Name
	var b strings.Builder
	fmt.Fprintf(&b, ".TH %s 1\n.SH NAME\n%s \\- %s\n", strings.ToUpper(name), roff(name), roff(app.Help))
	fmt.Fprintf(&b, ".SH SYNOPSIS\n.B %s\n.RB [ \\-\\-config\n.IR FILE ]\n.I command\n.RI [ arguments ]\n", roff(name))
	fmt.Fprint(&b, ".SH OPTIONS\n")
	for _, f := range top.flags {
		writeFlag(&b, f)
	}
	fmt.Fprint(&b, ".SH COMMANDS\n")
	for _, c := range top.all() {
		if c.path == "" {
			continue
		}
		fmt.Fprintf(&b, ".SS \"%s\"\n%s\n", roff(strings.TrimSpace(name+" "+c.path+" "+strings.Join(c.args, " "))), roff(c.help))
		for _, f := range c.flags {
			writeFlag(&b, f)
		}
		if example := examples[c.path]; example != "" {
			fmt.Fprintf(&b, ".PP\nExample:\n.PP\n.nf\n.RS 4\n")
			for line := range strings.SplitSeq(example, "\n") {
				fmt.Fprintln(&b, roff(line))
			}
			fmt.Fprint(&b, ".RE\n.fi\n")
		}
	}
	for _, s := range sections {
		fmt.Fprintf(&b, ".SH \"%s\"\n", roff(s.Title))
		for _, i := range s.Items {
			if i.Head != "" {
				fmt.Fprintf(&b, ".TP\n.B %s\n%s\n", roff(i.Head), roff(i.Text))
				continue
			}
			fmt.Fprintf(&b, ".PP\n%s\n", roff(i.Text))
		}
	}
	return b.String()
}

func writeFlag(b *strings.Builder, f flag) {
	head := "\\fB\\-\\-" + roff(f.name) + "\\fR"
	if f.short != "" {
		head = "\\fB\\-" + roff(f.short) + "\\fR, " + head
	}
	if f.value != "" {
		head += "=\\fI" + roff(f.value) + "\\fR"
	}
	fmt.Fprintf(b, ".TP\n%s\n%s\n", head, roff(f.help))
}

// roff makes a text plain for man(7): no escapes, no line that begins a
// request, and hyphens that can be pasted into a shell.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`, "\n", " ", `"`, `\(dq`).Replace(s)
	if strings.HasPrefix(s, ".") || strings.HasPrefix(s, "'") {
		s = `\&` + s
	}
	return s
}
