// Package shell writes completions for shells and a manual page, both from the
// definition of the commands, so that neither can say anything else.
package shell

import (
	"strings"

	"github.com/alecthomas/kong"
)

// command is a command or, with an empty path, the program.
type command struct {
	path  string // "jobs send", "" for the program
	name  string
	help  string
	sub   []command
	flags []flag
	args  []string // as the synopsis writes them
}

type flag struct {
	name, short string // without dashes; short "" for none
	value       string // placeholder, "" for a flag without value
	help        string
	choices     []string // nil for any
}

// commandsOf reads the definition.
func commandsOf(app *kong.Application) command {
	return commandOf(app.Node, "")
}

func commandOf(node *kong.Node, above string) command {
	c := command{name: node.Name, help: node.Help}
	if node.Type == kong.CommandNode {
		c.path = strings.TrimSpace(above + " " + node.Name)
	}
	for _, f := range node.Flags {
		if !f.Hidden {
			c.flags = append(c.flags, flagOf(f))
		}
	}
	for _, p := range node.Positional {
		c.args = append(c.args, p.Summary())
	}
	for _, child := range node.Children {
		if !child.Hidden && child.Type == kong.CommandNode {
			c.sub = append(c.sub, commandOf(child, c.path))
		}
	}
	return c
}

func flagOf(f *kong.Flag) flag {
	one := flag{name: f.Name, help: f.Help}
	if f.Short != 0 {
		one.short = string(f.Short)
	}
	if !f.IsBool() {
		one.value = f.FormatPlaceHolder()
	}
	for _, choice := range strings.Split(f.Enum, ",") {
		if choice != "" {
			one.choices = append(one.choices, choice)
		}
	}
	return one
}

// all lists a command and everything below it.
func (c command) all() []command {
	list := []command{c}
	for _, s := range c.sub {
		list = append(list, s.all()...)
	}
	return list
}

// paths lists the paths of all commands, each with a blank before every word:
// " jobs send".
func (c command) paths() []string {
	var list []string
	for _, one := range c.all() {
		if one.path != "" {
			list = append(list, " "+one.path)
		}
	}
	return list
}
