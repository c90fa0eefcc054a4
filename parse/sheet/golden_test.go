package sheet

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/parse"
)

var update = flag.Bool("update", false, "write the golden files anew")

const samples = "../../testdata/sheet"

// reader returns the reader for a file by its name; nil for other files.
func reader(name string) Reader {
	switch filepath.Ext(name) {
	case ".xlsx":
		return XLSX
	case ".ods":
		return ODS
	case ".docx":
		return DOCX
	case ".csv", ".tsv":
		return CSV
	}
	return nil
}

// golden is what a sample says: its surveys and its problems.
type golden struct {
	Surveys  []parse.Survey  `json:"surveys"`
	Problems []parse.Problem `json:"problems"`
}

func TestSamples(t *testing.T) {
	entries, err := os.ReadDir(samples)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		read := reader(e.Name())
		if read == nil {
			continue
		}
		t.Run(e.Name(), func(t *testing.T) {
			path := filepath.Join(samples, e.Name())
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			doc, err := read(e.Name(), data, nil)
			if err != nil {
				t.Fatal(err)
			}
			got, err := json.MarshalIndent(golden{doc.Surveys, doc.Problems}, "", " ")
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, '\n')
			want := strings.TrimSuffix(path, filepath.Ext(path)) + ".want.json"
			if *update {
				if err := os.WriteFile(want, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			expected, err := os.ReadFile(want)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, expected) {
				t.Errorf("%s is read otherwise than %s says; see with -update and git diff", e.Name(), want)
			}
		})
	}
}
