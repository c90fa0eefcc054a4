package eml

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"mime"
	"mime/multipart"
	"net/mail"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/ingest"
	"fairtape/reply"
)

func letter() reply.Draft {
	return reply.Draft{
		ID:         reply.DraftID{Job: 14, Version: 2},
		MessageID:  "d14-2@pinfold.example",
		From:       ingest.Address{Name: "Pinfold Cover Loft", Address: "orders@pinfold.example"},
		To:         ingest.Address{Name: "Zoë, Customer", Address: "zoe@customer.example"},
		Subject:    "RE: Aw: le canoë",
		InReplyTo:  "m1@customer.example",
		References: []string{"m0@customer.example"},
		Language:   "en",
		Date:       time.Date(2026, 3, 2, 9, 15, 0, 0, time.FixedZone("", -4*3600)),
		Text:       "Please measure at 7 ft again: 35½ in?\n.\nFrom here on\n" + strings.Repeat("x", 2000) + "\n",
		HTML:       "<p>Please measure at 7 ft again: 35½ in?</p><img src=\"cid:side@pinfold.example\">",
		Pictures:   []reply.Picture{{ContentID: "side@pinfold.example", Name: "boat.png", Alt: "the boat", PNG: []byte{0x89, 'P', 'N', 'G', 0}}},
		Files:      []reply.File{{Name: "fiche à remplir.pdf", MediaType: "application/pdf", Data: bytes.Repeat([]byte("%PDF"), 100)}},
	}
}

// leafPart is a part as the standard library reads it.
type leafPart struct {
	path, mediaType, name, cid, disposition string
	data                                    []byte
}

// leaves reads a mail with net/mail and mime/multipart, which know nothing of
// the library that wrote it.
func leaves(t *testing.T, raw []byte) (mail.Header, []leafPart) {
	t.Helper()
	m, err := mail.ReadMessage(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	var out []leafPart
	var walk func(path, contentType string, r io.Reader)
	walk = func(path, contentType string, r io.Reader) {
		mediaType, params, err := mime.ParseMediaType(contentType)
		if err != nil {
			t.Fatal(err)
		}
		mr := multipart.NewReader(r, params["boundary"])
		for i := 1; ; i++ {
			p, err := mr.NextPart()
			if err == io.EOF {
				return
			}
			if err != nil {
				t.Fatalf("%s: %v", path, err)
			}
			pt := p.Header.Get("Content-Type")
			here := path + mediaType + "/"
			if strings.HasPrefix(pt, "multipart/") {
				walk(here, pt, p)
				continue
			}
			var body io.Reader = p
			if p.Header.Get("Content-Transfer-Encoding") == "base64" {
				body = base64.NewDecoder(base64.StdEncoding, p)
			}
			data, err := io.ReadAll(body) // multipart undoes quoted-printable itself
			if err != nil {
				t.Fatal(err)
			}
			leafType, _, err := mime.ParseMediaType(pt)
			if err != nil {
				t.Fatal(err)
			}
			disp, _, _ := strings.Cut(p.Header.Get("Content-Disposition"), ";")
			out = append(out, leafPart{here, leafType, p.FileName(), p.Header.Get("Content-ID"), disp, data})
		}
	}
	walk("", m.Header.Get("Content-Type"), m.Body)
	return m.Header, out
}

func TestMarshal(t *testing.T) {
	d := letter()
	raw, err := Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	h, parts := leaves(t, raw)
	words := new(mime.WordDecoder)
	subject, err := words.DecodeHeader(h.Get("Subject"))
	if err != nil || subject != "Re: le canoë" {
		t.Errorf("subject %q, %v", subject, err)
	}
	for key, want := range map[string]string{
		"X-Fairtape-Job": "14", "X-Fairtape-Draft": "14-2", "Message-Id": "<d14-2@pinfold.example>",
		"In-Reply-To": "<m1@customer.example>", "References": "<m0@customer.example> <m1@customer.example>",
		"Date": "Mon, 02 Mar 2026 09:15:00 -0400", "Mime-Version": "1.0", "Content-Language": "en", "Auto-Submitted": "",
		"From": `"Pinfold Cover Loft" <orders@pinfold.example>`,
	} {
		if got := h.Get(key); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
	to, err := h.AddressList("To")
	if err != nil || len(to) != 1 || to[0].Name != "Zoë, Customer" || to[0].Address != "zoe@customer.example" {
		t.Errorf("To: %v, %v", to, err)
	}
	want := []leafPart{
		{"multipart/mixed/multipart/alternative/", "text/plain", "", "", "", []byte(strings.ReplaceAll(d.Text, "\n", "\r\n"))},
		{"multipart/mixed/multipart/alternative/multipart/related/", "text/html", "", "", "", []byte(d.HTML)},
		{"multipart/mixed/multipart/alternative/multipart/related/", "image/png", "boat.png", "<side@pinfold.example>", "inline", d.Pictures[0].PNG},
		{"multipart/mixed/", "application/pdf", "fiche à remplir.pdf", "", "attachment", d.Files[0].Data},
	}
	if len(parts) != len(want) {
		t.Fatalf("%d parts, want %d", len(parts), len(want))
	}
	for i, w := range want {
		g := parts[i]
		if g.path != w.path || g.mediaType != w.mediaType || g.name != w.name || g.cid != w.cid || g.disposition != w.disposition || !bytes.Equal(g.data, w.data) {
			t.Errorf("part %d: %+v, want %+v", i, g, w)
		}
	}
	checkLines(t, raw)
	if again, err := Marshal(letter()); err != nil || !bytes.Equal(again, raw) {
		t.Error("the same letter gave other bytes")
	}
}

// checkLines holds RFC 5322 section 2.1.1 and 2.3: ASCII, CRLF and 998 bytes.
func checkLines(t *testing.T, raw []byte) {
	t.Helper()
	for line := range bytes.Lines(raw) {
		text, ok := bytes.CutSuffix(line, []byte("\r\n"))
		if !ok && len(line) > 0 && line[len(line)-1] == '\n' || bytes.ContainsAny(text, "\r\n") || len(text) > 998 {
			t.Errorf("line %.80q (%d bytes)", line, len(line))
		}
		for _, c := range text {
			if c >= 0x80 {
				t.Errorf("line %.80q is not ASCII", line)
				break
			}
		}
	}
}

func TestMarshalShapes(t *testing.T) {
	d := letter()
	d.Files, d.Pictures = nil, nil
	raw, err := Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	if h, parts := leaves(t, raw); len(parts) != 2 || !strings.HasPrefix(h.Get("Content-Type"), "multipart/alternative") {
		t.Errorf("%d parts in %s", len(parts), h.Get("Content-Type"))
	}
	d.HTML = ""
	if raw, err = Marshal(d); err != nil {
		t.Fatal(err)
	}
	if m, err := mail.ReadMessage(bytes.NewReader(raw)); err != nil || !strings.HasPrefix(m.Header.Get("Content-Type"), "text/plain") {
		t.Errorf("plain letter: %v", err)
	}
}

// Nothing from outside can begin a header field of its own.
func FuzzMarshalInjection(f *testing.F) {
	f.Add("x\r\nBcc: evil@x.example")
	f.Add("x\nBcc: evil@x.example")
	f.Add("x\rBcc: y\u2028z\x00")
	f.Add("=?utf-8?Q?=0D=0ABcc:_x?=")
	f.Add(strings.Repeat("é", 3000))
	f.Add(strings.Repeat("word ", 500))
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 8000 {
			return
		}
		d := letter()
		d.Subject, d.To.Name, d.From.Name, d.Language = s, s, s, s
		d.MessageID, d.InReplyTo, d.References = s, s, []string{s, "m0@customer.example"}
		d.Pictures[0].Name, d.Pictures[0].Alt, d.Pictures[0].ContentID = s, s, s
		d.Files[0].Name, d.Files[0].MediaType = s, s
		raw, err := Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		m, err := mail.ReadMessage(bytes.NewReader(raw))
		if err != nil {
			t.Fatalf("%v\n%s", err, raw)
		}
		known := []string{"From", "To", "Subject", "Date", "Message-Id", "In-Reply-To", "References", "Content-Language",
			"X-Fairtape-Job", "X-Fairtape-Draft", "Mime-Version", "Content-Type"}
		for key := range m.Header {
			if !slices.Contains(known, key) {
				t.Errorf("a field of its own: %s", key)
			}
		}
		if _, parts := leaves(t, raw); len(parts) != 4 {
			t.Errorf("%d parts, want 4", len(parts))
		}
		checkLines(t, raw)
	})
}

func TestMarshalAddresses(t *testing.T) {
	for _, bad := range []string{"", "nobody", "a@b.example\r\nBcc: c@d.example", "a@b.example, c@d.example", "<a@b.example>", strings.Repeat("a", 900) + "@b.example"} {
		d := letter()
		d.To.Address = bad
		if _, err := Marshal(d); !errors.Is(err, ErrAddress) {
			t.Errorf("To %q: error %v, want ErrAddress", bad, err)
		}
	}
}

func TestReplySubject(t *testing.T) {
	tests := []struct{ in, want string }{
		{"", "Re:"}, {"canoe", "Re: canoe"}, {"Re: canoe", "Re: canoe"}, {"RE: re: Re[2]: canoe", "Re: canoe"},
		{"AW: Antw: canoe", "Re: canoe"}, {"Fwd: canoe", "Re: Fwd: canoe"}, {"Re : canoë", "Re: canoë"},
		{"Request: canoe", "Re: Request: canoe"}, {"a\r\nb", "Re: a b"},
	}
	for _, tt := range tests {
		if got := ReplySubject(tt.in); got != tt.want {
			t.Errorf("ReplySubject(%q) = %q, want %q", tt.in, got, tt.want)
		}
		if again := ReplySubject(ReplySubject(tt.in)); again != tt.want {
			t.Errorf("twice: %q", again)
		}
	}
}

func TestReady(t *testing.T) {
	now := time.Date(2026, 3, 5, 8, 0, 0, 0, time.UTC)
	shop := ingest.Address{Name: "Pinfold", Address: "orders@pinfold.example"}
	body := "edited by hand\r\nBcc: no header\r\n"
	tests := []struct {
		name, header string
		err          error
		to           []string
		id           string
		has, hasNot  []string
	}{
		{"no recipient", "From: orders@pinfold.example\nTo:\n", ErrNobody, nil, "", nil, nil},
		{"no address", "To: Ann\n", ErrAddress, nil, "", nil, nil},
		{"no header", "this is no header\n", ErrHeader, nil, "", nil, nil},
		{"dropped headers", "To: ann@customer.example\n", nil, []string{"ann@customer.example"}, "new@pinfold.example",
			[]string{"Message-Id: <new@pinfold.example>\r\n", `From: "Pinfold" <orders@pinfold.example>` + "\r\n", "Date: Thu, 05 Mar 2026 08:00:00 +0000\r\n"}, nil},
		{"everything", "From: Pinfold <orders@pinfold.example>\nTo: Ann <ann@customer.example>\nCc: ANN@customer.example, bob@customer.example\n" +
			"Bcc: sam@pinfold.example\nDate: Mon, 02 Mar 2026 09:15:00 -0400\nMessage-ID: <d14-2@pinfold.example>\n" +
			"X-Fairtape-Draft: 14-2\nX-Unsent: 1\nAuto-Submitted: auto-replied\n", nil,
			[]string{"ann@customer.example", "bob@customer.example", "sam@pinfold.example"}, "d14-2@pinfold.example",
			[]string{"X-Fairtape-Draft: 14-2\r\n", "Date: Thu, 05 Mar 2026 08:00:00 +0000\r\n"},
			[]string{"sam@", "X-Unsent", "Auto-Submitted", "02 Mar"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			out, err := Ready([]byte(tt.header+"\n"+body), shop, "new@pinfold.example", now)
			if !errors.Is(err, tt.err) || tt.err == nil && err != nil {
				t.Fatalf("error %v, want %v", err, tt.err)
			}
			if err != nil {
				return
			}
			if !slices.Equal(out.To, tt.to) || out.MessageID != tt.id || out.From != shop.Address {
				t.Errorf("to %v, id %q, from %q", out.To, out.MessageID, out.From)
			}
			header, gotBody, _ := strings.Cut(string(out.Raw), "\r\n\r\n")
			header += "\r\n"
			if gotBody != body {
				t.Errorf("body %q, want %q", gotBody, body)
			}
			for _, s := range tt.has {
				if strings.Count(header, s) != 1 {
					t.Errorf("want %q once in\n%s", s, header)
				}
			}
			for _, s := range tt.hasNot {
				if strings.Contains(header, s) {
					t.Errorf("%q in\n%s", s, header)
				}
			}
		})
	}
}

func TestRead(t *testing.T) {
	for _, field := range []string{"", "14", "x-2", "14-2-3"} {
		m := ingest.Message{Header: ingest.Header{FieldDraft: {field}}}
		if id := Read(m).ID; id != (reply.DraftID{}) {
			t.Errorf("%q gave the id %v", field, id)
		}
	}
	m := ingest.Message{
		ID: "edited@pinfold.example", To: []ingest.Address{{Address: "zoe@customer.example"}}, InReplyTo: []string{"m1@customer.example"},
		Text: "edited", Header: ingest.Header{FieldDraft: {"14-2"}},
		Attachments: []ingest.Attachment{
			{Name: "boat.png", MediaType: "image/png", ContentID: "side", Inline: true, Data: []byte("png")},
			{Name: "slip.pdf", MediaType: "application/pdf", Data: []byte("pdf")},
		},
	}
	d := Read(m)
	got := fmt.Sprintln(d.ID, d.MessageID, d.To.Address, d.InReplyTo, d.Text, len(d.Pictures), len(d.Files), d.Files[0].Name)
	if want := "14-2 edited@pinfold.example zoe@customer.example m1@customer.example edited 1 1 slip.pdf\n"; got != want {
		t.Errorf("read %s, want %s", got, want)
	}
}
