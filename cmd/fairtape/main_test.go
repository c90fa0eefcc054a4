package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"fairtape/cmd/internal/opener"
)

// crashVariable names the point at which the program under test ends itself the
// hard way.
const crashVariable = "FAIRTAPE_TEST_CRASH"

func TestMain(m *testing.M) {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	testscript.Main(m, map[string]func(){
		"fairtape": func() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, crashPoint())) },
	})
}

// crashPoint returns what kills the process at the point that the environment
// names, as kill -9 would.
func crashPoint() func(string) {
	at := os.Getenv(crashVariable)
	if at == "" {
		return nil
	}
	return func(point string) {
		if point != at {
			return
		}
		self, err := os.FindProcess(os.Getpid())
		if err == nil {
			err = self.Kill()
		}
		if err != nil {
			panic(err)
		}
		select {}
	}
}
