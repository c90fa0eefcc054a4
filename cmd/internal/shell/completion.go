package shell

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"
)

// Shells are those that Completion knows.
func Shells() []string { return []string{"bash", "zsh", "fish"} }

// Completion returns a script that completes commands, flags and their values,
// and files elsewhere; "" for a shell that is not known. The script never runs
// the program.
func Completion(shell string, app *kong.Application) string {
	c := commandsOf(app)
	switch shell {
	case "bash":
		return bash(app.Name, c)
	case "zsh":
		return zsh(app.Name, c)
	case "fish":
		return fish(app.Name, c)
	}
	return ""
}

// quoted is a text as one word of any of the three shells.
func quoted(s string) string {
	// Fish takes backslashes inside quotes as escapes; no help text has any.
	return "'" + strings.ReplaceAll(strings.ReplaceAll(s, `\`, ""), "'", "’") + "'"
}

func quotedList(list []string) string {
	words := make([]string, len(list))
	for i, s := range list {
		words[i] = quoted(s)
	}
	return strings.Join(words, "|")
}

// bash counts on nothing but bash itself, version 3.2 or later.
func bash(name string, top command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# bash completion for %s; put it into /etc/bash_completion.d or source it.\n", name)
	fmt.Fprintf(&b, "_%s() {\n  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} at='' words='' i\n", name)
	fmt.Fprintf(&b, "  for ((i = 1; i < COMP_CWORD; i++)); do\n    case \"$at ${COMP_WORDS[i]}\" in\n      %s) at=\"$at ${COMP_WORDS[i]}\" ;;\n    esac\n  done\n", quotedList(top.paths()))
	fmt.Fprint(&b, "  case \"$at $prev\" in\n")
	for _, c := range top.all() {
		for _, f := range allFlags(top, c) {
			switch {
			case len(f.choices) > 0:
				fmt.Fprintf(&b, "    %s) COMPREPLY=($(compgen -W %s -- \"$cur\")); return ;;\n", quoted(at(c)+" --"+f.name), quoted(strings.Join(f.choices, " ")))
			case f.value != "":
				fmt.Fprintf(&b, "    %s) COMPREPLY=(); return ;;\n", quoted(at(c)+" --"+f.name))
			}
		}
	}
	fmt.Fprint(&b, "  esac\n  case \"$at\" in\n")
	for _, c := range top.all() {
		var subs, flags []string
		for _, s := range c.sub {
			subs = append(subs, s.name)
		}
		for _, f := range allFlags(top, c) {
			flags = append(flags, "--"+f.name)
		}
		fmt.Fprintf(&b, "    %s) words=%s; [[ $cur == -* ]] && words=%s ;;\n", quoted(at(c)), quoted(strings.Join(subs, " ")), quoted(strings.Join(flags, " ")))
	}
	fmt.Fprintf(&b, "  esac\n  COMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))\n}\ncomplete -o bashdefault -o default -F _%s %s\n", name, name)
	return b.String()
}

func zsh(name string, top command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "#compdef %s\n# zsh completion for %s; put it as _%s into a folder of $fpath.\n", name, name, name)
	fmt.Fprintf(&b, "_%s() {\n  local at='' w\n  local -a items flags\n  for w in ${words[2,CURRENT-1]}; do\n    case \"$at $w\" in\n      (%s) at=\"$at $w\" ;;\n    esac\n  done\n", name, quotedList(top.paths()))
	fmt.Fprint(&b, "  case \"$at ${words[CURRENT-1]}\" in\n")
	for _, c := range top.all() {
		for _, f := range allFlags(top, c) {
			switch {
			case len(f.choices) > 0:
				fmt.Fprintf(&b, "    (%s) compadd -- %s; return ;;\n", quoted(at(c)+" --"+f.name), strings.Join(f.choices, " "))
			case f.value != "":
				fmt.Fprintf(&b, "    (%s) _files; return ;;\n", quoted(at(c)+" --"+f.name))
			}
		}
	}
	fmt.Fprint(&b, "  esac\n  case \"$at\" in\n")
	for _, c := range top.all() {
		var items, flags []string
		for _, s := range c.sub {
			items = append(items, quoted(s.name+":"+s.help))
		}
		for _, f := range allFlags(top, c) {
			flags = append(flags, quoted("--"+f.name+":"+f.help))
		}
		fmt.Fprintf(&b, "    (%s) items=(%s); flags=(%s) ;;\n", quoted(at(c)), strings.Join(items, " "), strings.Join(flags, " "))
	}
	fmt.Fprint(&b, "  esac\n  if [[ ${words[CURRENT]} == -* ]]; then\n    _describe -o option flags\n  elif (( $#items )); then\n    _describe command items\n  else\n    _files\n  fi\n}\n")
	fmt.Fprintf(&b, "if [[ $funcstack[1] == _%s ]]; then _%s; else compdef _%s %s; fi\n", name, name, name, name)
	return b.String()
}

func fish(name string, top command) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# fish completion for %s; put it into ~/.config/fish/completions/%s.fish.\n", name, name)
	fmt.Fprintf(&b, "function __%s_at\n  set -l at ''\n  for w in (commandline -opc)[2..-1]\n    switch \"$at $w\"\n      case %s\n        set at \"$at $w\"\n    end\n  end\n  test \"$at\" = \"$argv[1]\"\nend\n",
		name, strings.ReplaceAll(quotedList(top.paths()), "|", " "))
	for _, c := range top.all() {
		here := fmt.Sprintf("complete -c %s -n \"__%s_at %s\"", name, name, quoted(at(c)))
		if len(c.sub) > 0 {
			fmt.Fprintf(&b, "%s -f\n", here)
		}
		for _, s := range c.sub {
			fmt.Fprintf(&b, "%s -a %s -d %s\n", here, s.name, quoted(s.help))
		}
		for _, f := range allFlags(top, c) {
			fmt.Fprintf(&b, "%s -l %s -d %s", here, f.name, quoted(f.help))
			switch {
			case len(f.choices) > 0:
				fmt.Fprintf(&b, " -x -a %s", quoted(strings.Join(f.choices, " ")))
			case f.value != "":
				fmt.Fprint(&b, " -r")
			}
			fmt.Fprintln(&b)
		}
	}
	return b.String()
}

// at is the path of a command as the scripts keep it: "" or " jobs send".
func at(c command) string {
	if c.path == "" {
		return ""
	}
	return " " + c.path
}

// allFlags are a command's own flags and those of the program.
func allFlags(top, c command) []flag {
	if c.path == "" {
		return c.flags
	}
	return append(append([]flag(nil), c.flags...), top.flags...)
}
