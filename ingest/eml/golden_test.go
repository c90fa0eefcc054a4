package eml

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/ingest"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden is what a golden file tells of a mail.
type golden struct {
	ID, From, Subject string
	Date              string
	InReplyTo         []string `json:",omitempty"`
	Text, HTML        string
	FormatFlow        bool         `json:",omitempty"`
	Attachments       []goldenFile `json:",omitempty"`
	Forwarded         []golden     `json:",omitempty"`
	Notes             []string     `json:",omitempty"`
}

type goldenFile struct {
	Name, MediaType   string
	ContentID         string `json:",omitempty"`
	Inline, Forwarded bool   `json:",omitempty"`
	Data              string
}

func goldenOf(m ingest.Message) golden {
	g := golden{
		ID: m.ID, From: m.From.Name + " <" + m.From.Address + ">", Subject: m.Subject,
		Date: dateString(m.Date), InReplyTo: m.InReplyTo, Text: m.Text, HTML: m.HTML, FormatFlow: m.FormatFlow,
	}
	for _, a := range m.Attachments {
		g.Attachments = append(g.Attachments, goldenFile{a.Name, a.MediaType, a.ContentID, a.Inline, a.Forwarded, string(a.Data)})
	}
	for _, f := range m.Forwarded {
		g.Forwarded = append(g.Forwarded, golden{
			ID: f.ID, From: f.From.Name + " <" + f.From.Address + ">", Subject: f.Subject,
			Date: dateString(f.Date), Text: f.Text, HTML: f.HTML,
		})
	}
	for _, n := range m.Notes {
		g.Notes = append(g.Notes, strings.TrimSpace(n.Code+" "+n.Part))
	}
	return g
}

func dateString(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.RFC3339)
}

func TestGolden(t *testing.T) {
	files, err := filepath.Glob("../../testdata/mail/*.eml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no mails: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			m, err := Parse(raw)
			if err != nil {
				t.Fatal(err)
			}
			got, err := json.MarshalIndent(goldenOf(m), "", "  ")
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, '\n')
			wantFile := strings.TrimSuffix(file, ".eml") + ".want.json"
			if *update {
				if err := os.WriteFile(wantFile, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(wantFile)
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != string(want) {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}
