package opener

import (
	"bytes"
	"encoding/binary"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"unicode/utf8"
)

// kind is what a file is by its content. Its name is believed only where the
// content leaves the choice open: between plain text and a table of it.
type kind string

const (
	kindEmpty     kind = "empty"
	kindMail      kind = "mail"
	kindXLSX      kind = "xlsx"
	kindODS       kind = "ods"
	kindDOCX      kind = "docx"
	kindPDF       kind = "pdf"
	kindTable     kind = "csv"
	kindText      kind = "text"
	kindHTML      kind = "html"
	kindJPEG      kind = "jpeg"
	kindPNG       kind = "png"
	kindGIF       kind = "gif"
	kindWebP      kind = "webp"
	kindTIFF      kind = "tiff"
	kindHEIC      kind = "heic"
	kindBMP       kind = "bmp"
	kindLocked    kind = "locked"     // an office file behind a password
	kindOldOffice kind = "old-office" // xls, doc, msg and their like
	kindRTF       kind = "rtf"
	kindODT       kind = "odt"
	kindXLSB      kind = "xlsb"
	kindSlides    kind = "slides"
	kindIWork     kind = "iwork" // numbers, pages
	kindArchive   kind = "archive"
	kindMovie     kind = "movie"
	kindSound     kind = "sound"
	kindCard      kind = "card" // contact cards and calendar entries
	kindProgram   kind = "program"
	kindUnknown   kind = "unknown"
)

// picture reports a kind that a person has to look at.
func (k kind) picture() bool {
	switch k {
	case kindJPEG, kindPNG, kindGIF, kindWebP, kindTIFF, kindHEIC, kindBMP:
		return true
	}
	return false
}

// magics are the first bytes of files that have nothing but them to know them
// by. The source of each is the format's own description or, for the older
// ones, the list in file(1).
var magics = []struct {
	at    int
	bytes string
	kind  kind
}{
	{0, "\x89PNG\r\n\x1a\n", kindPNG},
	{0, "\xff\xd8\xff", kindJPEG},
	{0, "GIF87a", kindGIF},
	{0, "GIF89a", kindGIF},
	{8, "WEBP", kindWebP},
	{0, "II*\x00", kindTIFF},
	{0, "MM\x00*", kindTIFF},
	{0, "BM", kindBMP},
	{0, "{\\rtf", kindRTF},
	{0, "Rar!\x1a\x07", kindArchive},
	{0, "7z\xbc\xaf\x27\x1c", kindArchive},
	{0, "\x1f\x8b", kindArchive},
	{0, "BZh", kindArchive},
	{0, "\xfd7zXZ\x00", kindArchive},
	{257, "ustar", kindArchive},
	{0, "\x7fELF", kindProgram},
	{0, "MZ", kindProgram},
	{0, "ID3", kindSound},
	{0, "OggS", kindSound},
	{0, "fLaC", kindSound},
	{0, "#!AMR", kindSound},
	{8, "WAVE", kindSound},
	{8, "AVI ", kindMovie},
	{0, "\x1aE\xdf\xa3", kindMovie},
	{0, "BEGIN:VCARD", kindCard},
	{0, "BEGIN:VCALENDAR", kindCard},
}

// pdfWithin is how far from its beginning a file may say that it is a PDF; the
// readers in use accept that much in front of it (ISO 32000-1, annex H.3.4.1).
const pdfWithin = 1024

func kindOf(name string, data []byte) kind {
	switch {
	case len(bytes.TrimLeft(data, "\x00 \t\r\n\ufeff")) == 0:
		return kindEmpty
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("PK\x05\x06")):
		return zipKind(data)
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")):
		return compoundKind(data)
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return boxKind(data)
	}
	for _, m := range magics {
		if len(data) >= m.at+len(m.bytes) && string(data[m.at:m.at+len(m.bytes)]) == m.bytes && !wordsOnly(m.bytes, data) {
			return m.kind
		}
	}
	if bytes.Contains(data[:min(len(data), pdfWithin)], []byte("%PDF-")) {
		return kindPDF
	}
	if len(data) > 1 && data[0] == 0xff && data[1]&0xe0 == 0xe0 && !utf16Text(data) {
		return kindSound // an MPEG audio frame
	}
	return textKind(name, data)
}

// wordsOnly says that what looks like the mark of a binary file is the start
// of a text: "BMW", "MZ" and "BZh" may begin one.
func wordsOnly(mark string, data []byte) bool {
	return len(mark) <= 3 && mark[0] >= 'A' && mark[0] <= 'Z' && plainText(data)
}

// zipKind tells office files from archives by the names of what is inside,
// which stand readable in the file.
func zipKind(data []byte) kind {
	has := func(s string) bool { return bytes.Contains(data, []byte(s)) }
	switch {
	case has("xl/workbook.bin"):
		return kindXLSB
	case has("xl/workbook.xml"), has("xl/worksheets/"):
		return kindXLSX
	case has("word/document"):
		return kindDOCX
	case has("ppt/"):
		return kindSlides
	case has("application/vnd.oasis.opendocument.spreadsheet"):
		return kindODS
	case has("application/vnd.oasis.opendocument.text"):
		return kindODT
	case has("application/vnd.oasis.opendocument"):
		return kindSlides
	case has("Index/Document.iwa"), has("Index.zip"), has("index.apxl"):
		return kindIWork
	}
	return kindArchive
}

// compoundKind tells password-protected office files from the old formats that
// share their container ([MS-CFB]; stream names are UTF-16).
func compoundKind(data []byte) kind {
	if bytes.Contains(data, utf16le("EncryptedPackage")) {
		return kindLocked
	}
	return kindOldOffice
}

func utf16le(s string) []byte {
	out := make([]byte, 0, 2*len(s))
	for _, c := range []byte(s) {
		out = append(out, c, 0)
	}
	return out
}

// boxKind tells pictures from films and sound by the brands a file of boxes
// names (ISO/IEC 14496-12).
func boxKind(data []byte) kind {
	size := int(binary.BigEndian.Uint32(data))
	brands := string(data[8:min(len(data), max(12, min(size, 128)))])
	for _, b := range []string{"heic", "heix", "hevc", "mif1", "msf1", "avif", "heim"} {
		if strings.Contains(brands, b) {
			return kindHEIC
		}
	}
	if strings.HasPrefix(brands, "M4A") {
		return kindSound
	}
	return kindMovie
}

// sniffed is how much of a text is looked at to see what it is.
const sniffed = 4096

func textKind(name string, data []byte) kind {
	if !plainText(data) {
		return kindUnknown
	}
	head := bytes.TrimLeft(data[:min(len(data), sniffed)], "\ufeff \t\r\n")
	if strings.HasPrefix(http.DetectContentType(head), "text/html") {
		return kindHTML
	}
	extension := strings.ToLower(filepath.Ext(name))
	switch extension {
	case ".csv", ".tsv", ".tab":
		return kindTable
	case ".eml", ".mht", ".mhtml":
		if mailHead(head) {
			return kindMail
		}
	case ".html", ".htm", ".xhtml":
		return kindHTML
	}
	if columns(data) {
		return kindTable
	}
	if extension != ".txt" && mailHead(head) && bytes.Contains(head, []byte("\n\n")) || bytes.Contains(head, []byte("\nMIME-Version:")) {
		return kindMail
	}
	return kindText
}

// columns reports a text whose lines are divided like those of a table: nearly
// all hold the same sign, with no blank after it as a sentence has.
func columns(data []byte) bool {
	for _, sign := range []string{",", ";", "\t"} {
		lines, divided := 0, 0
		for _, l := range strings.Split(string(data[:min(len(data), sniffed)]), "\n") {
			l = strings.TrimSpace(l)
			if l == "" || strings.HasPrefix(l, "#") {
				continue
			}
			lines++
			if sign == "," && decimalComma.MatchString(l) {
				continue
			}
			if strings.Count(l, sign) > strings.Count(l, sign+" ") && len(l) < 200 {
				divided++
			}
		}
		if lines >= 3 && divided*10 >= lines*8 {
			return true
		}
	}
	return false
}

// decimalComma is a comma within a number: a unit follows, or a wide gap to the
// next number.
var decimalComma = regexp.MustCompile(`\d,\d+(?:\s?(?:m|cm|mm|in|po|ft|pi)\b|\s{2,}\d)`)

// mailHead reports a text that begins with a header field (RFC 5322).
func mailHead(head []byte) bool {
	line, _, _ := bytes.Cut(head, []byte("\n"))
	field, _, found := bytes.Cut(line, []byte(":"))
	if !found || len(field) == 0 {
		return false
	}
	switch strings.ToLower(string(field)) {
	case "from", "to", "date", "subject", "received", "return-path", "delivered-to", "message-id", "mime-version", "x-mozilla-status":
		return true
	}
	return false
}

// plainText reports text in UTF-8, UTF-16 or a Latin charset: no control
// characters but those that lay out lines.
func plainText(data []byte) bool {
	if utf16Text(data) || utf32Text(data) {
		return true
	}
	head := data[:min(len(data), 1<<20)]
	for _, c := range head {
		if c < ' ' && c != '\t' && c != '\r' && c != '\n' && c != '\f' && c != '\v' && c != 0x1b {
			return false
		}
	}
	if utf8.Valid(data) {
		return true
	}
	high := 0
	for _, c := range head {
		if c >= 0x80 {
			high++
		}
	}
	return high*4 < len(head) // Latin-1: letters with accents are few
}

// utf32Text reports a byte order mark of UTF-32. That of its little end begins as
// that of UTF-16.
func utf32Text(data []byte) bool {
	return bytes.HasPrefix(data, []byte("\x00\x00\xfe\xff")) || bytes.HasPrefix(data, []byte("\xff\xfe\x00\x00"))
}

// utf16Text reports a byte order mark of UTF-16, or every other byte zero.
func utf16Text(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return true
	}
	head := data[:min(len(data), 256)&^1]
	var even, odd int
	for i := 0; i < len(head); i += 2 {
		if head[i] == 0 {
			even++
		}
		if head[i+1] == 0 {
			odd++
		}
	}
	half := len(head) / 2
	return half >= 4 && (even == 0 && odd*10 >= half*8 || odd == 0 && even*10 >= half*8)
}
