package corpus

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/cmd/internal/opener"
)

func TestMain(m *testing.M) {
	if opener.IsChild() {
		os.Exit(opener.Serve())
	}
	os.Exit(m.Run())
}

func TestRun(t *testing.T) {
	dir := t.TempDir()
	for name, content := range map[string]string{
		"survey.csv":       "station,hull girth,full girth\n1 ft,31 1/2,37\n2 ft,33,41 1/2\n3 ft,35,46 1/2\n",
		"broken.xlsx":      "PK\x03\x04 and no more",
		"deep/letter.eml":  "From: a@b.example\r\nDate: Tue, 12 May 2026 19:04:00 +0000\r\nSubject: hello\r\n\r\nA fine day on the water.\r\n",
		"deep/empty.pdf":   "",
		"deep/picture.png": "\x89PNG\r\n\x1a\n",
	} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out bytes.Buffer
	c := Command{Folder: dir, Verbose: true}
	if err := c.Run(t.Context(), &out); err != nil {
		t.Fatalf("%v\n%s", err, &out)
	}
	for _, want := range []string{"5 files", "0 crashed, 0 hung, 0 over 600 MB, 0 that differ, 3 problem, 1 read, 1 with nothing", "read\t" + filepath.Join(dir, "survey.csv")} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, &out)
		}
	}
}

// A corpus is made of sound files, of files made to hurt, and of damaged ones.
func TestMake(t *testing.T) {
	if testing.Short() {
		t.Skip("it packs some bombs")
	}
	dir := filepath.Join(t.TempDir(), "corpus")
	if err := makeCorpus(dir, "../../../testdata/mail", 120, 7); err != nil {
		t.Fatal(err)
	}
	if err := makeCorpus(dir, "../../../testdata/mail", 120, 7); err == nil {
		t.Error("a folder that is there is filled")
	}
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	for _, f := range files {
		kinds[strings.Split(f.Name(), "-")[1]]++
	}
	if len(files) != 120 || kinds["sound"] == 0 || kinds["nasty"] < 30 || kinds["damaged"] == 0 {
		t.Errorf("%d files: %v", len(files), kinds)
	}
}
