package eml

import (
	"bytes"
	"encoding/base64"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// decodeTransfer undoes a Content-Transfer-Encoding as well as it goes. ok is
// false when something in it was wrong, or the encoding is unknown.
func decodeTransfer(encoding string, raw []byte) (data []byte, ok bool) {
	encoding, _, _ = strings.Cut(encoding, ";")
	encoding, _, _ = strings.Cut(encoding, "(")
	switch strings.ToLower(strings.TrimSpace(encoding)) {
	case "", "7bit", "8bit", "binary":
		return raw, true
	case "base64":
		return decodeBase64(raw)
	case "quoted-printable":
		return decodeQuoted(raw)
	}
	return raw, false
}

// base64Chunk is how much is decoded at once, whole groups of four letters.
const base64Chunk = 32 << 10

// decodeBase64 passes over what is not of the alphabet, and goes on behind
// padding in the middle, where two encoded texts were joined.
func decodeBase64(raw []byte) (data []byte, ok bool) {
	ok = true
	clean := make([]byte, 0, base64Chunk)
	data = make([]byte, 0, base64.RawStdEncoding.DecodedLen(len(raw)))
	flush := func() {
		if len(clean)%4 == 1 { // six bits make no byte
			clean, ok = clean[:len(clean)-1], false
		}
		out, err := base64.RawStdEncoding.AppendDecode(data, clean)
		if err != nil {
			ok = false
		}
		data, clean = out, clean[:0]
	}
	for _, c := range raw {
		switch {
		case c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '+' || c == '/':
			if clean = append(clean, c); len(clean) == base64Chunk {
				flush()
			}
		case c == '=':
			flush()
		case c != '\n' && c != '\r' && c != ' ' && c != '\t':
			ok = false
		}
	}
	flush()
	return data, ok
}

// decodeQuoted keeps an equals sign that encodes nothing.
func decodeQuoted(raw []byte) (data []byte, ok bool) {
	ok = true
	data = make([]byte, 0, len(raw))
	for rest := raw; len(rest) > 0; {
		var line []byte
		whole := rest
		line, rest = cutLine(rest)
		ended := len(whole) > len(rest)+len(line)
		line = bytes.TrimRight(line, " \t")
		if n := len(line); n > 0 && line[n-1] == '=' { // a soft line break
			line, ended = line[:n-1], false
		}
		for i := 0; i < len(line); i++ {
			if line[i] != '=' {
				data = append(data, line[i])
				continue
			}
			if i+2 < len(line) {
				hi, lo := unhex(line[i+1]), unhex(line[i+2])
				if hi >= 0 && lo >= 0 {
					data = append(data, byte(hi<<4|lo))
					i += 2
					continue
				}
			}
			data, ok = append(data, '='), false
		}
		if ended {
			data = append(data, '\r', '\n')
		}
	}
	return data, ok
}

func unhex(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'A' && c <= 'F':
		return int(c-'A') + 10
	case c >= 'a' && c <= 'f': // not allowed by RFC 2045, and written
		return int(c-'a') + 10
	}
	return -1
}

func isASCII(b []byte) bool {
	for _, c := range b {
		if c >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

func validUTF8(b []byte) bool { return utf8.Valid(b) }

// toUTF8 returns bytes of unknown alphabet as text: UTF-8 if they are, else
// Windows-1252, the commonest of the others, in which every byte is a letter.
func toUTF8(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(b)
	if err != nil {
		return strings.ToValidUTF8(string(b), "\uFFFD")
	}
	return string(out)
}

// cleanText makes line ends LF and drops control characters.
func cleanText(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.TrimPrefix(s, "\uFEFF")
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\r' || r == '\u2028' || r == '\u2029':
			return '\n'
		case r == '\n' || r == '\t':
			return r
		case unicode.IsControl(r):
			return -1
		}
		return r
	}, s)
}

// oneLine makes a header value safe to put into another header or a post:
// control characters become blanks, runs of blanks one.
func oneLine(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		if isBidiControl(r) {
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
}

// isBidiControl names the characters that turn the direction of writing, with
// which "gpj.exe" is shown as "exe.jpg".
func isBidiControl(r rune) bool {
	return r == '\u200E' || r == '\u200F' || r == '\u061C' || r >= '\u202A' && r <= '\u202E' || r >= '\u2066' && r <= '\u2069'
}

// cutBytes shortens s to at most n bytes at the border of a letter.
func cutBytes(s string, n int) string {
	if len(s) <= n {
		return s
	}
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n]
}

// unflow joins the soft-broken lines of a format=flowed text (RFC 3676
// section 4): a line that ends in a blank goes on in the next one of the same
// quoting, except for the line before a signature.
func unflow(s string, delSp bool) string {
	var out strings.Builder
	open, depth := false, 0 // the last line goes on, in a quotation this deep
	for i, line := range strings.Split(s, "\n") {
		quotes := len(line) - len(strings.TrimLeft(line, ">"))
		text := strings.TrimPrefix(line[quotes:], " ") // space-stuffing
		soft := strings.HasSuffix(text, " ") && text != "-- "
		joins := open && quotes == depth && text != "-- "
		if !joins {
			if i > 0 {
				out.WriteByte('\n')
			}
			if quotes > 0 {
				out.WriteString(strings.Repeat(">", quotes) + " ")
			}
		}
		if soft && delSp {
			text = strings.TrimSuffix(text, " ")
		}
		out.WriteString(text)
		open, depth = soft, quotes
	}
	return out.String()
}
