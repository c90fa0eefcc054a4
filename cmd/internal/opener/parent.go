package opener

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"

	"fairtape/parse"
	"fairtape/parse/prose"
)

// opened is what a child tells its parent.
type opened struct {
	Document      parse.Document
	Mail          *prose.Mail `json:",omitempty"` // for the body of a mail
	Width, Height int         // of a picture, in pixels, as its header says; else 0
}

func (o *Opener) open(ctx context.Context, name string, data []byte) (opened, error) {
	k := kindOf(name, data)
	if doc, ok := refused(name, k); ok {
		return opened{Document: doc}, nil
	}
	if len(data) > inputMost {
		return opened{Document: tooLarge(name, len(data))}, nil
	}
	job := order{Name: name, Kind: k, Size: len(data)}
	if k == kindTable || k == kindText {
		return read(ctx, job, data), nil
	}
	return o.delegate(ctx, job, data)
}

// delegate has a child carry out the order. Whatever the child does ends as an
// answer or as a problem of the file.
func (o *Opener) delegate(ctx context.Context, job order, data []byte) (opened, error) {
	select {
	case o.places <- struct{}{}:
		defer func() { <-o.places }()
	case <-ctx.Done():
		return opened{}, ctx.Err()
	}
	end, err := o.runChild(ctx, job, data)
	if err != nil {
		return opened{}, err
	}
	if doc, ok := end.failure(job.Name); ok {
		return opened{Document: doc}, nil
	}
	answer, err := decode(end.output)
	if err != nil {
		return opened{Document: broken(job.Name)}, nil
	}
	answer.Document.File = job.Name
	return answer, nil
}

// ending is how a child ended.
type ending struct {
	output    []byte
	overflow  bool   // it wrote more than it may
	timedOut  bool   // it was ended by us
	said      string // the beginning of its standard error
	status    int    // exit status, -1 when it was killed
	processor time.Duration
}

func (o *Opener) runChild(ctx context.Context, job order, data []byte) (ending, error) {
	head, err := json.Marshal(job)
	if err != nil {
		return ending{}, fmt.Errorf("write the order: %w", err)
	}
	folder, err := os.MkdirTemp("", "fairtape-child-")
	if err != nil {
		return ending{}, fmt.Errorf("%w: make an empty folder for it: %w", ErrNotStarted, err)
	}
	defer os.RemoveAll(folder)

	limited, cancel := context.WithTimeout(ctx, o.wall)
	defer cancel()
	output := &capped{most: outputMost, full: cancel}
	said := &capped{most: stderrMost}
	input := append(append(head, '\n'), data...)
	cmd, err := startChild(func() *exec.Cmd {
		cmd := exec.CommandContext(limited, o.executable)
		cmd.Args = []string{childName, o.cache}
		cmd.Env = []string{}
		cmd.Dir = folder
		cmd.Stdin = bytes.NewReader(input)
		cmd.Stdout = output
		cmd.Stderr = said
		cmd.WaitDelay = time.Second // for pipes that a killed child left open
		return cmd
	})
	if err != nil {
		return ending{}, fmt.Errorf("%w: %w", ErrNotStarted, err)
	}
	err = cmd.Wait()
	if ctx.Err() != nil {
		return ending{}, ctx.Err()
	}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) && cmd.ProcessState == nil {
		return ending{}, fmt.Errorf("wait for the child: %w", err)
	}
	return ending{
		output:    output.Bytes(),
		overflow:  output.over,
		timedOut:  limited.Err() != nil,
		said:      said.String(),
		status:    cmd.ProcessState.ExitCode(),
		processor: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(),
	}, nil
}

// failure says in plain words why a child gave no answer; ok is false when it
// gave one.
func (e ending) failure(file string) (doc parse.Document, ok bool) {
	heavy := func(what string) (parse.Document, bool) {
		return problem(file, CodeTooHeavy, "The file needs too much "+what+" to open. Please send a smaller one, or type the numbers into a mail."), true
	}
	switch {
	case e.overflow:
		return problem(file, CodeTooHeavy, "The file holds far more than a survey. Please send the survey alone."), true
	case e.timedOut, e.status != 0 && e.processor >= (cpuTime-1)*time.Second:
		return heavy("time")
	case e.status == exitMemory, strings.Contains(e.said, "out of memory"), strings.Contains(e.said, "cannot allocate memory"):
		return heavy("memory")
	case e.status != 0:
		return broken(file), true
	}
	return parse.Document{}, false
}

// capped keeps the first bytes of what is written to it.
type capped struct {
	bytes.Buffer
	most int
	over bool
	full func() // called once there is too much
}

func (c *capped) Write(p []byte) (int, error) {
	room := max(0, c.most-c.Len())
	if len(p) > room {
		c.over = true
		if c.full != nil {
			c.full()
		}
	}
	c.Buffer.Write(p[:min(len(p), room)])
	return len(p), nil
}
