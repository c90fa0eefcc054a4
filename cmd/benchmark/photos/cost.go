package photos

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/known"
)

// printCost says what reading one photo of 12 megapixels costs, in a process of
// its own with one processor.
func printCost(out io.Writer, w *world) error {
	data, err := w.large()
	if err != nil {
		return err
	}
	folder, err := os.MkdirTemp("", "photos-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	file := filepath.Join(folder, "photo.jpg")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		return err
	}
	self, err := os.Executable()
	if err != nil {
		return err
	}
	cmd := exec.Command(self, "photos", "--read-photo", file)
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	said, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("read one photo: %w", err)
	}
	_, err = fmt.Fprintf(out, "\none photo of 12 megapixels: %s; processor %.2f s with the start\n", said,
		(cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds())
	return err
}

// large is a photo of 12 megapixels of a long boat.
func (w *world) large() ([]byte, error) {
	rng := rand.New(rand.NewPCG(w.seed, 12))
	sheet, err := w.printer.sheet(form.Spec{Paper: form.Letter, Unit: parse.Inch, Rows: 16}, 2)
	if err != nil {
		return nil, err
	}
	boat := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
	sheet.Fill(phototest.NewHand(w.digits, rng), phototest.Values(boat.Survey), trouble, rng)
	camera := phototest.NewCamera(phototest.Ordinary, rng)
	camera.Width, camera.Height, camera.Turn = 3024, 4032, 2
	return sheet.Photograph(camera, rng).JPEG()
}

// readOne reads a file and says how long that took.
func readOne(out io.Writer, path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	reader, err := photo.NewReader()
	if err != nil {
		return err
	}
	start := time.Now()
	pictures, _, err := photo.Decode(data)
	if err != nil {
		return err
	}
	decoded := time.Now()
	doc := reader.Read(path, pictures[0])
	numbers := 0
	for _, s := range doc.Surveys {
		numbers += s.Readings()
	}
	_, err = fmt.Fprintf(out, "%d numbers in %.2f s (%.2f s to decode), %s at most", numbers, time.Since(start).Seconds(), decoded.Sub(start).Seconds(), peak())
	return err
}

// peak is the most memory that this process had, as Linux tells it.
func peak() string {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return "unknown memory"
	}
	for line := range strings.Lines(string(status)) {
		if size, ok := strings.CutPrefix(line, "VmHWM:"); ok {
			return strings.TrimSpace(size)
		}
	}
	return "unknown memory"
}
