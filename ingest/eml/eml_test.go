package eml

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"mime/quotedprintable"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"fairtape/ingest"
)

func codes(m ingest.Message) []string {
	var out []string
	for _, n := range m.Notes {
		if !slices.Contains(out, n.Code) {
			out = append(out, n.Code)
		}
	}
	return out
}

// nested is a mail of that many containers, one in the other.
func nested(depth int) []byte {
	var b bytes.Buffer
	b.WriteString("From: a@b.example\r\nDate: Mon, 02 Mar 2026 09:15:00 -0400\r\n")
	for i := range depth {
		fmt.Fprintf(&b, "Content-Type: multipart/mixed; boundary=b%d.\r\n\r\n--b%d.\r\n", i, i)
	}
	b.WriteString("Content-Type: text/plain\r\n\r\ndeep down\r\n")
	return b.Bytes()
}

// wrapped is a mail of that many mails, one in the other.
func wrapped(depth int) []byte {
	return append(bytes.Repeat([]byte("From: a@b.example\r\nDate: Mon, 02 Mar 2026 09:15:00 -0400\r\nContent-Type: message/rfc822\r\n\r\n"), depth),
		"From: a@b.example\r\nDate: Mon, 02 Mar 2026 09:15:00 -0400\r\n\r\ndeep down\r\n"...)
}

// wide is a mail of that many attachments.
func wide(parts int) []byte {
	var b bytes.Buffer
	b.WriteString("From: a@b.example\r\nDate: Mon, 02 Mar 2026 09:15:00 -0400\r\nContent-Type: multipart/mixed; boundary=b\r\n\r\n")
	for i := range parts {
		fmt.Fprintf(&b, "--b\r\nContent-Type: text/csv; name=f%d.csv\r\n\r\nx\r\n", i)
	}
	b.WriteString("--b--\r\n")
	return b.Bytes()
}

func TestParseTooLarge(t *testing.T) {
	if _, err := Parse(make([]byte, MaxBytes+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Parse: error %v, want ErrTooLarge", err)
	}
	if _, err := Read(io.LimitReader(zeros{}, MaxBytes+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Read: error %v, want ErrTooLarge", err)
	}
}

// zeros never ends.
type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

func TestLimits(t *testing.T) {
	m := func(raw []byte) ingest.Message {
		t.Helper()
		m, err := Parse(raw)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	tests := []struct {
		name string
		raw  []byte
		code string // the only note, "" for none
		ok   func(ingest.Message) bool
	}{
		{"one too deep", nested(MaxDepth), NoteTooDeep, func(m ingest.Message) bool { return m.Text == "" }},
		{"5,000 deep", nested(5000), NoteTooDeep, func(m ingest.Message) bool { return m.Text == "" }},
		{"5,000 mails deep", wrapped(5000), NoteTooDeep, func(m ingest.Message) bool { return m.Text == "" }},
		{"just deep enough", nested(MaxDepth - 1), "", func(m ingest.Message) bool { return m.Text == "deep down\n" }},
		{"one part too many", wide(MaxParts), NoteTooMany, func(m ingest.Message) bool { return len(m.Attachments) == MaxParts-1 }},
		{"100,000 parts", wide(100_000), NoteTooMany, func(m ingest.Message) bool { return len(m.Attachments) == MaxParts-1 }},
		{"just few enough", wide(MaxParts - 1), "", func(m ingest.Message) bool { return len(m.Attachments) == MaxParts-1 }},
		{"a header of 1 MB", bytes.Replace(nested(0), []byte("Content-Type: text"), append(bytes.Repeat([]byte("X-Long: "+strings.Repeat("x", 1016)+"\r\n"), 1024), "Content-Type: text"...), 1),
			NoteHeader, func(m ingest.Message) bool { return m.From.Address == "a@b.example" && m.Text == "deep down\n" }},
		{"a line of 1 MB in the header", bytes.Replace(nested(0), []byte("Content-Type: text"), append([]byte("X-Long: "+strings.Repeat("x", 1<<20)+"\r\n"), "Content-Type: text"...), 1),
			NoteHeader, func(m ingest.Message) bool { return m.From.Address == "a@b.example" && m.Text == "deep down\n" }},
		{"a text of 2 MB", append(nested(0)[:bytes.Index(nested(0), []byte("deep"))], strings.Repeat("a line\r\n", 300_000)...), NoteTextTooLong,
			func(m ingest.Message) bool {
				return len(m.Text) <= MaxTextBytes && strings.HasPrefix(m.Text, "a line\n")
			}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := m(tt.raw)
			if want := strings.Fields(tt.code); !slices.Equal(codes(got), want) || !tt.ok(got) {
				t.Errorf("notes %v, want %v; %d attachments, text %.20q", codes(got), want, len(got.Attachments), got.Text)
			}
		})
	}
}

func TestFileName(t *testing.T) {
	tests := []struct{ in, want string }{
		{"", ""}, {".", ""}, {"..", ""}, {"../..", ""}, {"   ", ""}, {"/", ""},
		{"../../etc/passwd", "passwd"}, {`C:\boats\form.xlsx`, "form.xlsx"}, {"a\x00b.csv", "a b.csv"},
		{"\u202Egpj.exe", "gpj.exe"}, {"form\r\nX: y.csv", "form X: y.csv"}, {"trailing. ", "trailing"},
		{"=?utf-8?B?cmVsZXbDqS5jc3Y=?=", "relevé.csv"}, {"=?utf-8?Q?..=2F..=2Fx.csv?=", "x.csv"},
		{strings.Repeat("x", 4096) + ".xlsx", strings.Repeat("x", maxNameRunes-5) + ".xlsx"},
	}
	for _, tt := range tests {
		if got := fileName(tt.in); got != tt.want {
			t.Errorf("fileName(%.40q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func TestAddresses(t *testing.T) {
	tests := []struct {
		field, name, address string
	}{
		{"", "", ""},
		{"nobody at all", "", ""},
		{"Ann, of Shop <ann@customer.example>", "Ann, of Shop", "ann@customer.example"}, // no quotes: breaks the grammar
		{"ann@customer.example (Ann)", "Ann", "ann@customer.example"},
		{`"Ann\r\nBcc: x" <ann@customer.example>`, "AnnrnBcc: x", "ann@customer.example"},
		{"=?iso-8859-1?Q?Ren=E9?= <rene@customer.example>", "René", "rene@customer.example"},
		{"=?utf-8?Q?Ann=0D=0ABcc=3A_x?= <ann@customer.example>", "Ann Bcc: x", "ann@customer.example"},
	}
	for _, tt := range tests {
		m, err := Parse([]byte("From: " + tt.field + "\r\n\r\n"))
		if err != nil {
			t.Fatal(err)
		}
		if m.From.Name != tt.name || m.From.Address != tt.address {
			t.Errorf("From: %q gave %+v, want %q <%s>", tt.field, m.From, tt.name, tt.address)
		}
	}
}

// A line without a blank before it belongs to the body when no field follows.
func TestForgottenBlankLine(t *testing.T) {
	m, err := Parse([]byte("From: a@b.example\r\nSubject: canoe\r\n1 ft 35 1/2 42\r\n2 ft 38 52\r\n\r\nregards\r\n"))
	if err != nil {
		t.Fatal(err)
	}
	if want := "1 ft 35 1/2 42\n2 ft 38 52\n\nregards\n"; m.Text != want {
		t.Errorf("text %q, want %q", m.Text, want)
	}
}

// RFC 3676 section 4.2 and 4.3: the examples of quoting and of DelSp.
func TestUnflow(t *testing.T) {
	tests := []struct {
		in, want string
		delSp    bool
	}{
		{"fixed\nlines", "fixed\nlines", false},
		{"soft \nbreak", "soft break", false},
		{"so \nft", "soft", true},
		{"-- \nAnn", "-- \nAnn", false},
		{" > no quote", "> no quote", false},
		{"> one \n> two\n>> deeper", "> one two\n>> deeper", false},
		{"> ends softly \nnot quoted", "> ends softly \nnot quoted", false},
	}
	for _, tt := range tests {
		if got := unflow(tt.in, tt.delSp); got != tt.want {
			t.Errorf("unflow(%q, %v) = %q, want %q", tt.in, tt.delSp, got, tt.want)
		}
	}
}

// What the standard library encodes, the tolerant readers decode.
func FuzzDecodeTransfer(f *testing.F) {
	f.Add([]byte("35½ in = 90 cm \t\n"))
	f.Add([]byte{0, 1, 0xff, '\r', '\n', '='})
	f.Add(bytes.Repeat([]byte("abcd"), base64Chunk)) // decoded in several pieces
	f.Fuzz(func(t *testing.T, data []byte) {
		got, ok := decodeTransfer("base64", []byte(base64.StdEncoding.EncodeToString(data)))
		if !ok || !bytes.Equal(got, data) {
			t.Errorf("base64: %q, %v; want %q", got, ok, data)
		}
		var q bytes.Buffer
		w := quotedprintable.NewWriter(&q)
		w.Binary = true
		w.Write(data)
		w.Close()
		got, ok = decodeTransfer("quoted-printable", q.Bytes())
		if !ok || !bytes.Equal(got, data) {
			t.Errorf("quoted-printable %q: %q, %v; want %q", q.Bytes(), got, ok, data)
		}
		decodeTransfer("base64", data) // must not panic
		decodeTransfer("quoted-printable", data)
	})
}

func FuzzParse(f *testing.F) {
	files, err := filepath.Glob("../../testdata/mail/*.eml")
	if err != nil || len(files) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	f.Add(nested(20))
	f.Add(wide(120))
	f.Fuzz(func(t *testing.T, raw []byte) {
		m, err := Parse(raw)
		if err != nil {
			t.Fatal(err)
		}
		lines := []string{m.ID, m.Subject, m.From.Name, m.From.Address, m.Language}
		total := len(m.Text) + len(m.HTML)
		for _, a := range m.Attachments {
			if a.Name == "" || strings.ContainsAny(a.Name, `/\`) || a.Name == "." || a.Name == ".." || utf8.RuneCountInString(a.Name) > maxNameRunes {
				t.Errorf("attachment named %q", a.Name)
			}
			lines = append(lines, a.Name, a.ContentID)
			total += len(a.Data)
		}
		for _, vs := range m.Header {
			lines = append(lines, vs...)
		}
		for _, l := range lines {
			if strings.ContainsFunc(l, unicode.IsControl) || !utf8.ValidString(l) {
				t.Errorf("a header value of several lines: %q", l)
			}
		}
		if !utf8.ValidString(m.Text) || !utf8.ValidString(m.HTML) || strings.ContainsAny(m.Text, "\r\x00") {
			t.Errorf("texts %q, %q", m.Text, m.HTML)
		}
		if len(m.Attachments) > MaxParts || len(m.Forwarded) > MaxParts {
			t.Errorf("%d attachments, %d forwarded", len(m.Attachments), len(m.Forwarded))
		}
		// Undeclared Windows-1252 grows threefold at most, escaping in HTML fivefold.
		if total > 16*len(raw)+1024 {
			t.Errorf("%d bytes out of %d", total, len(raw))
		}
		again, err := Parse(raw)
		if err != nil || again.Text != m.Text || len(again.Attachments) != len(m.Attachments) {
			t.Error("the same mail gave something else the second time")
		}
	})
}

// BenchmarkParse reads a mail of 40 MB with one attachment.
func BenchmarkParse(b *testing.B) {
	var mail bytes.Buffer
	mail.WriteString("From: a@b.example\r\nContent-Type: multipart/mixed; boundary=b\r\n\r\n--b\r\nContent-Type: image/jpeg; name=x.jpg\r\nContent-Transfer-Encoding: base64\r\n\r\n")
	line := strings.Repeat("A", 76) + "\r\n"
	for mail.Len() < 40<<20 {
		mail.WriteString(line)
	}
	mail.WriteString("--b--\r\n")
	b.SetBytes(int64(mail.Len()))
	for b.Loop() {
		if _, err := Parse(mail.Bytes()); err != nil {
			b.Fatal(err)
		}
	}
}
