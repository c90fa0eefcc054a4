package shell

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
)

// sample is a command line with everything that matters here.
type sample struct {
	Config string `help:"Settings file." placeholder:"FILE"`
	Form   struct {
		Paper string `enum:"letter,a4" default:"letter" help:"Paper, 'letter' or a4."`
		Out   string `short:"o" help:"File to write." placeholder:"FILE"`
		Quiet bool   `help:".Says \\nothing."`
	} `cmd:"" help:"Make a form."`
	Jobs struct {
		List struct{} `cmd:"" help:"List jobs."`
		Show struct {
			Job int `arg:"" help:"Its number."`
		} `cmd:"" help:"Show a job."`
	} `cmd:"" help:"Look at jobs."`
	Secret struct{} `cmd:"" hidden:"" help:"Not shown."`
}

func model(t *testing.T) *kong.Application {
	t.Helper()
	k, err := kong.New(&sample{}, kong.Name("fairtape"), kong.Description("Reads boat surveys."))
	if err != nil {
		t.Fatal(err)
	}
	return k.Model
}

func TestUnknownShell(t *testing.T) {
	if got := Completion("tcsh", model(t)); got != "" {
		t.Errorf("for a shell that is not known: %q", got)
	}
}

// The script is run by bash itself.
func TestBash(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("bash is not installed")
	}
	file := filepath.Join(t.TempDir(), "fairtape")
	if err := os.WriteFile(file, []byte(Completion("bash", model(t))), 0o600); err != nil {
		t.Fatal(err)
	}
	tests := []struct{ line, want string }{
		{"", "form jobs"},
		{"fo", "form"},
		{"secret", ""},
		{"-", "--help --config"},
		{"jobs ", "list show"},
		{"jobs s", "show"},
		{"jobs show --", "--help --config"},
		{"form --p", "--paper"},
		{"form --paper ", "letter a4"},
		{"form --paper a", "a4"},
		{"form --out ", ""}, // files, by the shell's own means
		{"form --config ", ""},
		{"form --paper a4 --", "--paper --out --quiet --help --config"},
	}
	for _, tt := range tests {
		words := append([]string{"fairtape"}, strings.Fields(tt.line)...)
		if tt.line == "" || strings.HasSuffix(tt.line, " ") {
			words = append(words, "")
		}
		script := `source "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _fairtape; echo "${COMPREPLY[*]}"`
		out, err := exec.Command(bash, append([]string{"-c", script, "bash", file}, words...)...).CombinedOutput()
		if got := strings.TrimSpace(string(out)); err != nil || !sameWords(got, tt.want) {
			t.Errorf("%q: %q, %v; want %q", tt.line, got, err, tt.want)
		}
	}
}

func sameWords(a, b string) bool {
	count := map[string]int{}
	for _, w := range strings.Fields(a) {
		count[w]++
	}
	for _, w := range strings.Fields(b) {
		count[w]--
	}
	for _, n := range count {
		if n != 0 {
			return false
		}
	}
	return true
}

// The other shells check the syntax where they are installed.
func TestSyntax(t *testing.T) {
	for _, shell := range Shells() {
		script := Completion(shell, model(t))
		for _, want := range []string{"form", "jobs", "paper", "a4"} {
			if !strings.Contains(script, want) {
				t.Errorf("%s: %q is missing", shell, want)
			}
		}
		if strings.Contains(script, "Not shown") {
			t.Errorf("%s: a hidden command is shown", shell)
		}
		program, err := exec.LookPath(shell)
		if err != nil {
			t.Logf("%s is not installed; its script was not run", shell)
			continue
		}
		file := filepath.Join(t.TempDir(), shell)
		if err := os.WriteFile(file, []byte(script), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(program, "-n", file).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", shell, err, out)
		}
	}
}

func TestManual(t *testing.T) {
	page := Manual(model(t), map[string]string{"jobs show": "fairtape jobs show 14"},
		[]Section{{Title: "EXIT STATUS", Items: []Item{{Head: "0", Text: ".Clean."}, {Text: "Done"}}}})
	for _, want := range []string{".TH FAIRTAPE 1\n", `.SS "fairtape jobs show <job>"`, `\fB\-o\fR, \fB\-\-out\fR=\fIFILE\fR`, "fairtape jobs show 14", `\&.Says \enothing.`, `\&.Clean.`} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is missing in\n%s", want, page)
		}
	}
	groff, err := exec.LookPath("groff")
	if err != nil {
		t.Skip("groff is not installed")
	}
	cmd := exec.Command(groff, "-man", "-Tutf8", "-ww", "-z")
	cmd.Stdin = strings.NewReader(page)
	if out, err := cmd.CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("groff: %v\n%s", err, out)
	}
}
