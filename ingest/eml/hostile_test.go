package eml

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"fairtape/reply/replytest"
)

// No name that a sender gives a file is a path, or hides what it is.
func TestFileNameHostileTexts(t *testing.T) {
	for _, h := range replytest.Hostile() {
		got := fileName(h)
		if strings.ContainsAny(got, "/\\\r\n\x00") || strings.Trim(got, ". ") == "" && got != "" || utf8.RuneCountInString(got) > maxNameRunes {
			t.Errorf("fileName(%.60q) = %.60q", h, got)
		}
		if i := strings.IndexFunc(got, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }); i >= 0 {
			t.Errorf("fileName(%.60q) = %.60q: a character that cannot be seen", h, got)
		}
	}
}

// A line end that is encoded (RFC 2047, RFC 2231) begins no line of its own, in
// whatever field it stands.
func TestEncodedLineEnds(t *testing.T) {
	for _, end := range []string{"=0D=0A", "=0A", "=0D", "=C2=85", "=E2=80=A8"} {
		word := "=?utf-8?Q?boat" + end + "Bcc=3A_all=40bad.example?="
		raw := "From: " + word + " <ann@tarn.example>\r\nSubject: " + word + "\r\nMessage-ID: <1@tarn.example>\r\nMIME-Version: 1.0\r\n" +
			"Content-Type: multipart/mixed; boundary=b\r\n\r\n--b\r\nContent-Type: text/csv; name=\"" + word + "\"\r\n\r\n1\r\n" +
			"--b\r\nContent-Type: text/csv\r\nContent-Disposition: attachment; filename*=utf-8''boat" + strings.ReplaceAll(end, "=", "%") + "Bcc%3A%20x.csv\r\n\r\n2\r\n--b--\r\n"
		m, err := Parse([]byte(raw))
		if err != nil || len(m.Attachments) != 2 {
			t.Fatalf("%s: %d attachments, %v", end, len(m.Attachments), err)
		}
		for _, got := range []string{m.Subject, m.From.Name, m.Attachments[0].Name, m.Attachments[1].Name} {
			if !strings.HasPrefix(got, "boat") || strings.ContainsAny(got, "\r\n\u0085\u2028") {
				t.Errorf("%s: %q", end, got)
			}
		}
		if m.From.Address != "ann@tarn.example" {
			t.Errorf("%s: from %q", end, m.From.Address)
		}
	}
}

// A winmail.dat that is broken, or lies in a mail within the mail, is said to be
// one that cannot be read.
func TestWinmail(t *testing.T) {
	part := func(data string) string {
		return "Content-Type: application/ms-tnef; name=winmail.dat\r\nContent-Transfer-Encoding: base64\r\n\r\n" + data + "\r\n"
	}
	for name, raw := range map[string]string{
		"empty":          part(""),
		"cut":            part("eJ8+"),
		"no base64":      part("*!*!*!"),
		"under its name": "Content-Type: application/octet-stream\r\nContent-Disposition: attachment; filename=WINMAIL.DAT\r\n\r\nx\r\n",
		"nested":         "Content-Type: message/rfc822\r\n\r\nFrom: b@tarn.example\r\n" + part("eJ8+IgAA"),
		"in a nested container": "Content-Type: message/rfc822\r\n\r\nContent-Type: multipart/mixed; boundary=i\r\n\r\n--i\r\n" +
			part("eJ8+IgAA") + "--i--\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			m, err := Parse([]byte("From: a@tarn.example\r\nDate: Mon, 02 Mar 2026 09:15:00 -0400\r\nMIME-Version: 1.0\r\n" + raw))
			if err != nil || !slices.Contains(codes(m), NoteWinmail) || len(m.Attachments) != 0 {
				t.Errorf("notes %v, %d attachments, %v", codes(m), len(m.Attachments), err)
			}
		})
	}
}
