// Package corpus opens a folder of any files through the same path as the
// service, and counts what may not happen: a crash, a hang, too much memory.
package corpus

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"fairtape/cmd/internal/opener"
	"fairtape/parse"
)

// ErrShort says that something happened that may not.
var ErrShort = errors.New("a file crashed, hung or grew the reader")

// What may not be passed.
const (
	longest    = 10 * time.Second
	mostMemory = 600 << 20 // bytes, of one process
)

// Command is the subcommand.
type Command struct {
	Folder  string `arg:"" help:"Folder of files, with its folders."`
	Verbose bool   `help:"A line for every file, not only for those that may not be."`
}

// end is what came of one file.
type end string

const (
	crashed end = "crashed" // our own failure
	hung    end = "hung"    // over ten seconds
	grown   end = "over 600 MB"
	problem end = "problem" // no number was read, and a person is told why
	nothing end = "nothing" // no number and no problem: nothing about a survey
	read    end = "read"    // a number was read, or doubted
)

// Run prints what came of the files.
func (c *Command) Run(ctx context.Context, out io.Writer) error {
	o, err := opener.New("", filepath.Join(os.TempDir(), "fairtape-readers"))
	if err != nil {
		return err
	}
	count := map[end]int{}
	files := 0
	begin := time.Now()
	err = filepath.WalkDir(c.Folder, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.Type().IsRegular() {
			return err
		}
		files++
		start := time.Now()
		what, why := open(ctx, o, path)
		took := time.Since(start)
		memory := peakMemory()
		switch {
		case what == crashed:
		case took > longest:
			what = hung
		case memory > mostMemory && count[grown] == 0: // the peak never falls: it is told once
			what, why = grown, fmt.Sprintf("%d MB", memory>>20)
		}
		count[what]++
		if c.Verbose || what == crashed || what == hung || what == grown {
			fmt.Fprintf(out, "%s\t%s\t%.2f s\t%s\n", what, path, took.Seconds(), why)
		}
		return ctx.Err()
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d files in %.0f s: %d crashed, %d hung, %d over 600 MB, %d problem, %d read, %d with nothing about a survey; peak %d MB\n",
		files, time.Since(begin).Seconds(), count[crashed], count[hung], count[grown], count[problem], count[read], count[nothing], peakMemory()>>20)
	if count[crashed]+count[hung]+count[grown] > 0 {
		return ErrShort
	}
	return nil
}

// open opens one file as the service does. A panic would end the service, so
// it counts as a crash.
func open(ctx context.Context, o *opener.Opener, path string) (what end, why string) {
	defer func() {
		if p := recover(); p != nil {
			what, why = crashed, fmt.Sprintf("%v\n%s", p, debug.Stack())
		}
	}()
	data, err := os.ReadFile(path)
	if err != nil {
		return problem, err.Error()
	}
	opened, err := o.File(ctx, filepath.Base(path), data)
	if err != nil {
		return crashed, err.Error()
	}
	survey, problems := parse.Merge(opened.Documents...)
	switch {
	case survey.Readings() > 0:
		return read, ""
	case len(problems) > 0:
		return problem, problems[0].Message
	}
	return nothing, ""
}
