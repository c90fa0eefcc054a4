// Command fairtape reads boat surveys that arrive by mail, judges them, and
// drafts the letters that answer them. See README.md.
package main

import (
	"os"
	_ "time/tzdata" // a static binary meets systems without a time zone database

	"fairtape/cmd/internal/opener"
)

func main() {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, nil))
}
