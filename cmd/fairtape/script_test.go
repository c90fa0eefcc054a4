package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The scripts drive the program as its users do.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("XDG_CONFIG_HOME", env.WorkDir+"/config")
			env.Setenv("XDG_CACHE_HOME", env.WorkDir+"/cache")
			env.Setenv("HOME", env.WorkDir)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": statusCommand,
			"keys":   keysCommand,
		},
	})
}

// statusCommand runs a command and compares its exit status: status 1 fairtape
// check a.csv.
func statusCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		got = exitStatus(err)
	}
	if got != args[0] {
		ts.Fatalf("%v ended with %s, want %s", args[1:], got, args[0])
	}
}

// keysCommand checks that every line of the last output is a JSON object with
// these keys at the top.
func keysCommand(ts *testscript.TestScript, neg bool, args []string) {
	data := []byte(ts.ReadFile("stdout"))
	d := json.NewDecoder(bytes.NewReader(data))
	lines := 0
	for d.More() {
		var object map[string]json.RawMessage
		ts.Check(d.Decode(&object))
		lines++
		for _, key := range args {
			if _, ok := object[key]; ok == neg {
				ts.Fatalf("object %d: key %s there: %v", lines, key, ok)
			}
		}
	}
	if lines == 0 {
		ts.Fatalf("no JSON on standard output")
	}
}

// exitStatus is the status that a command ended with.
func exitStatus(err error) string {
	var e *exec.ExitError
	if errors.As(err, &e) {
		return strconv.Itoa(e.ExitCode())
	}
	return err.Error()
}
