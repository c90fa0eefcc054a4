package eml

import (
	"errors"
	"mime"
	"strings"
	"unicode/utf8"

	"github.com/emersion/go-message"
)

// maxNameRunes keeps a file name under what file systems and chat take.
const maxNameRunes = 120

// contentType returns the media type, in lower case, and its parameters. A
// value that breaks the grammar is read as far as it goes; nonsense is plain
// text (RFC 2045 section 5.2) unless the part is plainly a file.
func contentType(h message.Header) (string, map[string]string) {
	v := h.Get("Content-Type")
	if strings.TrimSpace(v) == "" {
		return "text/plain", nil
	}
	t, params, err := mime.ParseMediaType(v)
	if err != nil || strings.Count(t, "/") != 1 {
		t, params = looseValue(v, "boundary", "charset", "name", "format", "delsp", "smime-type")
	}
	if strings.Count(t, "/") == 1 {
		return t, params
	}
	disp, dparams := disposition(h)
	if disp == "attachment" || dparams["filename"] != "" || params["name"] != "" {
		return "application/octet-stream", params
	}
	return "text/plain", params
}

// disposition returns the word of Content-Disposition and its parameters.
func disposition(h message.Header) (string, map[string]string) {
	v := h.Get("Content-Disposition")
	disp, params, err := mime.ParseMediaType(v)
	if err != nil && !errors.Is(err, mime.ErrInvalidMediaParameter) || params == nil {
		disp, params = looseValue(v, "filename")
	}
	return strings.ToLower(disp), params
}

// looseValue reads "value; name=word; name2=more words" without minding quotes
// that are missing or blanks that should not be there.
func looseValue(v string, names ...string) (string, map[string]string) {
	value, rest, _ := strings.Cut(v, ";")
	params := make(map[string]string)
	lower := strings.ToLower(rest)
	if len(lower) != len(rest) { // a letter whose cases differ in length
		lower = rest
	}
	for _, name := range names {
		i := indexParam(lower, name)
		if i < 0 {
			continue
		}
		p := strings.TrimLeft(rest[i:], " \t")
		if q, ok := strings.CutPrefix(p, `"`); ok {
			p, _, _ = strings.Cut(q, `"`)
		} else {
			p, _, _ = strings.Cut(p, ";")
		}
		params[name] = strings.TrimSpace(p)
	}
	return strings.ToLower(strings.TrimSpace(value)), params
}

// indexParam returns where the value of a parameter begins, or -1.
func indexParam(s, name string) int {
	for from := 0; ; {
		i := strings.Index(s[from:], name)
		if i < 0 {
			return -1
		}
		start, end := from+i, from+i+len(name)
		tail := strings.TrimLeft(s[end:], " \t")
		if strings.HasPrefix(tail, "=") && (start == 0 || strings.ContainsRune("; \t", rune(s[start-1]))) {
			return len(s) - len(tail) + 1
		}
		from = end
	}
}

// fileName returns the first usable name among those a part gives, made safe:
// the last element of a path, without control or direction characters, never
// "." or "..", and not too long. It is "" when there is none.
func fileName(names ...string) string {
	for _, n := range names {
		n = decodeWords(n, maxValueBytes)
		if i := strings.LastIndexAny(n, `/\`); i >= 0 {
			n = n[i+1:]
		}
		n = strings.Trim(strings.Trim(n, " "), `"`)
		n = strings.TrimRight(n, ". ")
		if strings.Trim(n, ". ") != "" {
			return shortName(n)
		}
	}
	return ""
}

// shortName shortens a name and keeps its extension.
func shortName(n string) string {
	if utf8.RuneCountInString(n) <= maxNameRunes {
		return n
	}
	r := []rune(n)
	ext := ""
	if i := strings.LastIndexByte(n, '.'); i >= 0 && len(n)-i <= 10 {
		ext = n[i:]
	}
	return string(r[:maxNameRunes-utf8.RuneCountInString(ext)]) + ext
}

// extensions are those of the files that a survey comes as.
var extensions = map[string]string{
	"text/plain":               ".txt",
	"text/html":                ".html",
	"text/csv":                 ".csv",
	"application/pdf":          ".pdf",
	"image/jpeg":               ".jpg",
	"image/png":                ".png",
	"image/heic":               ".heic",
	"image/tiff":               ".tiff",
	"image/webp":               ".webp",
	"application/json":         ".json",
	"application/vnd.ms-excel": ".xls",
	"application/vnd.oasis.opendocument.spreadsheet":                          ".ods",
	"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet":       ".xlsx",
	"application/vnd.openxmlformats-officedocument.wordprocessingml.document": ".docx",
}

// madeUpName names a part that has no name by its place in the mail.
func madeUpName(path, mediaType string) string {
	if path == "" {
		path = "1"
	}
	return "part-" + path + extensions[mediaType]
}

// contentID returns the part's Content-ID without angle brackets.
func contentID(h message.Header) string {
	return strings.Trim(oneLine(toUTF8([]byte(h.Get("Content-Id")))), "<> ")
}
