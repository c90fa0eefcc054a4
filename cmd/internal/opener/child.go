package opener

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"fairtape/parse"
)

// childName is what a child is called in the list of processes, and how a
// program knows that it is one. The environment of a child is empty.
const childName = "fairtape-opener"

// IsChild reports that this process was started to open one file, so that main
// must call [Serve] and nothing else.
func IsChild() bool { return len(os.Args) > 0 && os.Args[0] == childName }

// order is what the parent writes to its child: one line of JSON, then the
// bytes of the file.
type order struct {
	Name  string
	Kind  kind
	Cache string
	Size  int
	HTML  int // for the body of a mail: how many of the bytes, at the end, are its HTML
}

// Serve reads one order from standard input, opens the file, and writes what it
// says to standard output. It returns the exit status of the process. Limits
// are set before the first byte is read.
func Serve() int {
	if err := serve(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

func serve(in io.Reader, out io.Writer) error {
	cache := ""
	if len(os.Args) > 1 {
		cache = os.Args[1]
	}
	debug.SetMemoryLimit(heapGoal)
	if err := confine(cache); err != nil {
		return fmt.Errorf("set the limits of a child: %w", err)
	}
	go watchMemory()
	reader := bufio.NewReader(in)
	line, err := reader.ReadBytes('\n')
	if err != nil {
		return fmt.Errorf("read the order: %w", err)
	}
	var o order
	if err := json.Unmarshal(line, &o); err != nil {
		return fmt.Errorf("understand the order: %w", err)
	}
	if o.Size < 0 || o.Size > inputMost || o.HTML < 0 || o.HTML > o.Size {
		return errors.New("the order is of an impossible size")
	}
	data := make([]byte, o.Size)
	if _, err := io.ReadFull(reader, data); err != nil {
		return fmt.Errorf("read the file: %w", err)
	}
	o.Cache = cache
	return json.NewEncoder(out).Encode(carryOut(o, data))
}

// carryOut opens the file. A reader that panics ends only the reading: the
// libraries it stands on do so on broken files.
func carryOut(o order, data []byte) (opened opened) {
	defer func() {
		if recover() != nil {
			opened.Document = broken(o.Name)
		}
	}()
	return read(context.Background(), o, data)
}

func broken(file string) parse.Document {
	return problem(file, CodeBroken, "The file is damaged or cut short. Please send it again, or the numbers in another form.")
}
