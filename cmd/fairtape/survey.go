package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"

	"fairtape/cmd/internal/opener"
	"fairtape/parse"
	"fairtape/validate"
)

// standardInput is how a file on standard input is named.
const standardInput = "-"

// loader opens the files of a command.
type loader struct {
	*opener.Opener
	in io.Reader
}

// newLoader keeps compiled readers in the user's cache folder, where there is
// one.
func newLoader(t *terminal) (loader, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = ""
	} else {
		cache = filepath.Join(cache, "fairtape")
	}
	o, err := opener.New("", cache)
	if err != nil && cache != "" {
		o, err = opener.New("", "")
	}
	return loader{o, t.in}, err
}

// load opens one file. One that cannot be had is a problem like one that cannot
// be read: the others still count.
func (l loader) load(ctx context.Context, path string) (opener.File, error) {
	data, err := l.bytes(path)
	if err != nil {
		return opener.File{Documents: []parse.Document{{File: path, Problems: []parse.Problem{{
			Code: "no-file", Source: parse.Source{File: path}, Message: fmt.Sprintf("The file could not be had: %v.", rootCause(err))}}}}}, nil
	}
	return l.File(ctx, filepath.Base(path), data)
}

func (l loader) bytes(path string) ([]byte, error) {
	if path == standardInput {
		return io.ReadAll(l.in)
	}
	return os.ReadFile(path)
}

// rootCause is an error without the operation and path around it.
func rootCause(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// survey is what one or several files say together.
type survey struct {
	files    []string
	parts    []opener.File
	survey   parse.Survey
	problems []parse.Problem
	err      error // our own failure
}

func (l loader) survey(ctx context.Context, files []string) survey {
	s := survey{files: files}
	var docs []parse.Document
	for _, f := range files {
		part, err := l.load(ctx, f)
		if err != nil {
			s.err = err
			return s
		}
		s.parts = append(s.parts, part)
		docs = append(docs, part.Documents...)
	}
	s.survey, s.problems = parse.Merge(docs...)
	for i := range s.problems {
		s.problems[i].Shown = nil // pictures are for the chat
	}
	return s
}

// eachGarbage is how much garbage, in percent of what is in use, may gather while
// many surveys are read and judged: each leaves megabytes of which nothing is kept.
const eachGarbage = 400

// surveys opens files as one survey, or each as its own, and hands them on in
// the order given. Files are opened side by side.
func surveys(t *terminal, files []string, each bool, handle func(survey) error) error {
	l, err := newLoader(t)
	if err != nil {
		return err
	}
	groups := [][]string{files}
	if each {
		groups = slices.Collect(slices.Chunk(files, 1))
		defer debug.SetGCPercent(debug.SetGCPercent(eachGarbage))
	}
	progress := newProgress(t, len(groups))
	defer progress.done()
	for s := range inOrder(groups, func(g []string) survey { return l.survey(t.ctx, g) }) {
		if err := t.ctx.Err(); err != nil {
			return err
		}
		if err := handle(s); err != nil {
			return err
		}
		progress.step()
	}
	return nil
}

// inOrder runs work on the items side by side and yields the results in order.
func inOrder[A, B any](items []A, work func(A) B) func(yield func(B) bool) {
	return func(yield func(B) bool) {
		stop := make(chan struct{})
		var working sync.WaitGroup
		defer working.Wait()
		defer close(stop)
		places := make([]chan B, len(items))
		for i := range places {
			places[i] = make(chan B, 1)
		}
		next := make(chan int)
		go func() {
			defer close(next)
			for i := range items {
				select {
				case next <- i:
				case <-stop:
					return
				}
			}
		}()
		for range min(runtime.GOMAXPROCS(0), len(items)) {
			working.Go(func() {
				for i := range next {
					places[i] <- work(items[i])
				}
			})
		}
		for _, p := range places {
			if !yield(<-p) {
				return
			}
		}
	}
}

// verdictStatus is the exit status of a report.
func verdictStatus(v validate.Verdict) int {
	switch v {
	case validate.Clean:
		return statusClean
	case validate.Unreadable:
		return statusUnreadable
	default:
		return statusOpen
	}
}

// worse returns the status that a run over several surveys ends with: the first
// of 4, 3, 1, 0 that occurs.
func worse(a, b int) int { return max(a, b) }
