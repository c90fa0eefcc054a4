package opener

import (
	"context"
	"errors"
	"fmt"
	"os"
	"runtime"
	"time"

	"fairtape/parse"
)

// What a child may use. A sound survey needs a fraction of each.
const (
	cpuTime    = 9                // seconds, over all threads; a scan of six pages takes some 4 s on a slow machine
	wallTime   = 15 * time.Second // for a machine that has other things to do
	heapGoal   = 384 << 20        // bytes; the collector works harder from here on
	memoryMost = 560 << 20        // bytes; the child is ended above it
	inputMost  = 50 << 20         // bytes; phones and scanners make files up to 40 MB
	outputMost = 4 << 20          // bytes of JSON; 2,000 stations are 1 MB
	stderrMost = 16 << 10         // bytes kept of what the child said when it died
	writeMost  = 96 << 20         // bytes in one file; the compiled readers are some 30 MB
)

// ErrNotStarted: no child could be started, as when the disk is full or there
// are no descriptors left. That says nothing about the file: try again later.
var ErrNotStarted = errors.New("no child could be started to open the file")

// Opener opens files. It may be used by many goroutines at once.
type Opener struct {
	executable string
	cache      string
	wall       time.Duration
	places     chan struct{} // one for each child that may run at once
}

// New returns an Opener whose children are copies of executable, "" for the
// running program. The folder cache keeps compiled readers between children; ""
// is slower by two seconds a PDF. It is made when it is not there, and is the
// only path that children can write to.
func New(executable, cache string) (*Opener, error) {
	if executable == "" {
		self, err := os.Executable()
		if err != nil {
			return nil, fmt.Errorf("find the running program: %w", err)
		}
		executable = self
	}
	if cache != "" {
		if err := os.MkdirAll(cache, 0o700); err != nil {
			return nil, fmt.Errorf("make the folder for compiled readers: %w", err)
		}
	}
	return &Opener{
		executable: executable,
		cache:      cache,
		wall:       wallTime,
		places:     make(chan struct{}, max(1, runtime.NumCPU()/2)),
	}, nil
}

// Open reads one file, whose type is told by its content. A file that cannot be
// read is a problem in the document, in words that the shop can pass on. An
// error is our own failure (ErrNotStarted, the context ended) and says nothing
// about the file.
//
// A mail is not one file: for that, take it apart and see [Opener.Read].
func (o *Opener) Open(ctx context.Context, name string, data []byte) (parse.Document, error) {
	opened, err := o.open(ctx, name, data)
	return opened.Document, err
}
