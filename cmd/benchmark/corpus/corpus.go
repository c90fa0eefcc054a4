// Package corpus opens a folder of any files through the same path as the
// service, and counts what may not happen: a crash, a hang, too much memory.
package corpus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"time"

	"fairtape/cmd/internal/opener"
	"fairtape/parse"
)

// ErrShort says that something happened that may not.
var ErrShort = errors.New("a file crashed, hung or grew the reader, or was read in two ways")

// What may not be passed.
const (
	longest    = 10 * time.Second
	mostMemory = 600 << 20 // bytes, of one process
)

// Command is the subcommand.
type Command struct {
	Folder  string `arg:"" help:"Folder of files, with its folders." type:"path"`
	Make    int    `help:"Make the folder first, of so many files: sound, damaged, and made to hurt." placeholder:"COUNT"`
	From    string `default:"testdata" help:"What it is made from." type:"path"`
	Seed    uint64 `default:"1" help:"Of the damage."`
	Program string `help:"Hold what was read against what this program's command read says." type:"path" placeholder:"FILE"`
	Verbose bool   `help:"A line for every file, not only for those that may not be."`
}

// end is what came of one file.
type end string

const (
	crashed end = "crashed" // our own failure
	hung    end = "hung"    // over ten seconds
	grown   end = "over 600 MB"
	differs end = "differs" // the command read says something else
	problem end = "problem" // no number was read, and a person is told why
	nothing end = "nothing" // no number and no problem: nothing about a survey
	read    end = "read"    // a number was read, or doubted
)

// Run prints what came of the files.
func (c *Command) Run(ctx context.Context, out io.Writer) error {
	if c.Make > 0 {
		if err := makeCorpus(c.Folder, c.From, c.Make, c.Seed); err != nil {
			return err
		}
	}
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
		what, why, said := open(ctx, o, path)
		took := time.Since(start)
		if took > longest { // once more: the machine may have other work
			start = time.Now()
			what, why, said = open(ctx, o, path)
			took = time.Since(start)
		}
		memory := peakMemory()
		switch {
		case what == crashed:
		case took > longest:
			what = hung
		case memory > mostMemory && count[grown] == 0: // the peak never falls: it is told once
			what, why = grown, fmt.Sprintf("%d MB", memory>>20)
		case what == read && c.Program != "":
			if other := c.command(ctx, path); other != said {
				what, why = differs, other
			}
		}
		count[what]++
		if c.Verbose || what == crashed || what == hung || what == grown || what == differs {
			fmt.Fprintf(out, "%s\t%s\t%.2f s\t%s\n", what, path, took.Seconds(), why)
		}
		return ctx.Err()
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d files in %.0f s: %d crashed, %d hung, %d over 600 MB, %d that differ, %d problem, %d read, %d with nothing about a survey; peak %d MB\n",
		files, time.Since(begin).Seconds(), count[crashed], count[hung], count[grown], count[differs], count[problem], count[read], count[nothing], peakMemory()>>20)
	if count[crashed]+count[hung]+count[grown]+count[differs] > 0 {
		return ErrShort
	}
	return nil
}

// open opens one file as the service does, and returns the survey that was read
// as JSON. A panic would end the service, so it counts as a crash.
func open(ctx context.Context, o *opener.Opener, path string) (what end, why, said string) {
	defer func() {
		if p := recover(); p != nil {
			what, why = crashed, fmt.Sprintf("%v\n%s", p, debug.Stack())
		}
	}()
	data, err := os.ReadFile(path)
	if err != nil {
		return problem, err.Error(), ""
	}
	opened, err := o.File(ctx, filepath.Base(path), data)
	if err != nil {
		return crashed, err.Error(), ""
	}
	survey, problems := parse.Merge(opened.Documents...)
	switch {
	case survey.Readings() > 0:
		data, err := json.Marshal(survey)
		if err != nil {
			return crashed, err.Error(), ""
		}
		return read, "", string(data)
	case len(problems) > 0:
		return problem, problems[0].Message, ""
	}
	return nothing, "", ""
}

// command returns the survey that the command read gives of a file, as JSON.
// Its exit status tells of problems, which are no matter here.
func (c *Command) command(ctx context.Context, path string) string {
	out, _ := exec.CommandContext(ctx, c.Program, "read", "--json", path).Output()
	var answer struct{ Survey json.RawMessage }
	if err := json.Unmarshal(out, &answer); err != nil {
		return fmt.Sprintf("no JSON: %v", err)
	}
	return string(answer.Survey)
}
