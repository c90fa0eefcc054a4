// Command benchmark makes the figures that fairtape claims again, each from
// inputs that nothing was tuned on.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"

	"fairtape/cmd/benchmark/curves"
)

// commands is what can be measured.
type commands struct {
	Curves curves.Command `cmd:"" help:"Slips found and sound numbers left alone, beside three published methods. Example: benchmark curves --count 100"`
}

// The exit statuses.
const (
	short  = 1 // a target was missed, with --strict
	broken = 4
)

func main() {
	var cli commands
	ctx := kong.Parse(&cli,
		kong.Name("benchmark"),
		kong.Description("Makes the figures that fairtape claims again."),
		kong.UsageOnError(),
		kong.BindTo(os.Stdout, (*io.Writer)(nil)),
	)
	err := ctx.Run()
	switch {
	case errors.Is(err, curves.ErrShort):
		fmt.Fprintln(os.Stderr, "benchmark:", err)
		os.Exit(short)
	case err != nil:
		fmt.Fprintln(os.Stderr, "benchmark:", err)
		os.Exit(broken)
	}
}
