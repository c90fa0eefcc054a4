// Command benchmark makes the figures that fairtape claims again, each from
// inputs that nothing was tuned on.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"

	"fairtape/cmd/benchmark/corpus"
	"fairtape/cmd/benchmark/cover"
	"fairtape/cmd/benchmark/crashes"
	"fairtape/cmd/benchmark/curves"
	"fairtape/cmd/benchmark/history"
	"fairtape/cmd/benchmark/load"
	"fairtape/cmd/benchmark/photos"
	"fairtape/cmd/benchmark/reading"
	"fairtape/cmd/benchmark/soak"
	"fairtape/cmd/benchmark/tracings"
	"fairtape/cmd/internal/opener"
)

// commands is what can be measured.
type commands struct {
	Crashes  crashes.Command  `cmd:"" help:"The service killed at random moments of a whole conversation: nothing may be lost or done twice. Example: benchmark crashes --runs 50"`
	Curves   curves.Command   `cmd:"" help:"Slips found and sound numbers left alone, beside three published methods. Example: benchmark curves --count 100"`
	History  history.Command  `cmd:"" help:"What boats whose covers fitted add to the judge: causes of a whole survey named with them and without. Example: benchmark history --count 100"`
	Photos   photos.Command   `cmd:"" help:"Numbers read from photos of filled forms: right, sent to a person, silently wrong. Example: benchmark photos --count 100 --grade ordinary"`
	Boxes    photos.Boxes     `cmd:"" help:"Boxes of photographed forms for the number reader to learn from. Example: benchmark boxes --digits DATA --sets train --out DATA/boxes"`
	Reading  reading.Command  `cmd:"" help:"Typed surveys of other people and programs, and what is read of them. Example: benchmark reading testdata/read"`
	Cover    cover.Command    `cmd:"" help:"Covers cut: geometry against exact answers, cloth used on the roll, time of a sheet. Example: benchmark cover --count 50"`
	Tracings tracings.Command `cmd:"" help:"Photos of traced ends: how far the line is off beside the error that is stated, and prints at the wrong scale. Example: benchmark tracings --count 20"`
	Corpus   corpus.Command   `cmd:"" help:"Any folder of files, opened as the service opens them: nothing may crash, hang or grow. Example: benchmark corpus DIR"`
	Soak     soak.Command     `cmd:"" help:"The service run for long behind proxies that spoil its connections: it may not grow, and every mail ends once. Example: benchmark soak --minutes 60"`
	Load     load.Command     `cmd:"" help:"More mail than a shop ever gets: waiting, large, at once, and few new ones among many old. Example: benchmark load --waiting 50000 --burst 500"`
}

// The exit statuses.
const (
	short  = 1 // a target was missed: with --strict, and always for the corpus
	broken = 4
)

func main() {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	var cli commands
	ctx := kong.Parse(&cli,
		kong.Name("benchmark"),
		kong.Description("Makes the figures that fairtape claims again."),
		kong.UsageOnError(),
		kong.BindTo(os.Stdout, (*io.Writer)(nil)),
		kong.BindTo(context.Background(), (*context.Context)(nil)),
	)
	err := ctx.Run()
	switch {
	case errors.Is(err, curves.ErrShort), errors.Is(err, reading.ErrShort), errors.Is(err, cover.ErrShort), errors.Is(err, corpus.ErrShort), errors.Is(err, crashes.ErrShort),
		errors.Is(err, soak.ErrShort), errors.Is(err, load.ErrShort), errors.Is(err, history.ErrShort), errors.Is(err, tracings.ErrShort):
		fmt.Fprintln(os.Stderr, "benchmark:", err)
		os.Exit(short)
	case err != nil:
		fmt.Fprintln(os.Stderr, "benchmark:", err)
		os.Exit(broken)
	}
}
