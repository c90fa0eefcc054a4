package opener

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // the sizes of pictures, told by their headers
	_ "image/jpeg"
	_ "image/png"
	"slices"
	"strings"
	"unicode/utf8"

	_ "golang.org/x/image/bmp"
	_ "golang.org/x/image/tiff"
	_ "golang.org/x/image/webp"
	"golang.org/x/net/html/charset"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/encoding/unicode/utf32"

	"fairtape/parse"
	"fairtape/parse/pdf"
	"fairtape/parse/photo"
	"fairtape/parse/prose"
	"fairtape/parse/sheet"
	"fairtape/parse/tracing"
)

// read opens a file of a kind that a reader is for. Tables and plain text come
// here in the parent too; all else only in a child.
func read(ctx context.Context, o order, data []byte) opened {
	switch {
	case o.Kind == kindPDF:
		return opened{Document: heeded(readPDF(ctx, o, data))}
	case o.Kind.picture():
		return readPicture(o, data)
	case o.Kind == kindMail:
		mail := prose.Read(o.Name, string(data[:len(data)-o.HTML]), string(data[len(data)-o.HTML:]))
		return opened{Document: mail.Document, Mail: &mail}
	case o.Kind == kindHTML:
		return opened{Document: typed(prose.Read(o.Name, "", decodeHTML(data)))}
	case o.Kind == kindText:
		return opened{Document: typed(prose.Read(o.Name, decodeText(data), ""))}
	}
	sheets := map[kind]sheet.Reader{kindTable: sheet.CSV, kindXLSX: sheet.XLSX, kindODS: sheet.ODS, kindDOCX: sheet.DOCX}
	return opened{Document: heeded(readSheet(o.Name, data, sheets[o.Kind]))}
}

// typed is the document of a text that came by itself.
func typed(text prose.Mail) parse.Document {
	doc := text.Document
	if slices.ContainsFunc(doc.Problems, func(p parse.Problem) bool { return p.Code == parse.CodeOther }) {
		return doc // what it says of numbers is said of others
	}
	doc.Problems = append(doc.Problems, prose.Unheeded(text.Notices, doc)...)
	return doc
}

// heeded is a document with what its remarks say of its numbers.
func heeded(doc parse.Document) parse.Document {
	prose.HeedRemarks(&doc)
	return parse.OtherMatter(doc.File, doc)
}

// typedWords reads lines of a file that are typed like the body of a mail.
func typedWords(file, text string) parse.Document { return prose.Printed(file, text) }

func readSheet(name string, data []byte, reader sheet.Reader) parse.Document {
	doc, err := reader(name, data, typedWords)
	switch {
	case errors.Is(err, sheet.ErrEncrypted):
		return problem(name, CodeLocked, "The file is password-protected. Please send it without.")
	case errors.Is(err, sheet.ErrLimit):
		return problem(name, CodeTooHeavy, "The file holds far more than a survey. Please send the survey alone.")
	case errors.Is(err, sheet.ErrOldFormat):
		return problem(name, CodeWrongKind, instead[kindOldOffice])
	case err != nil:
		return broken(name)
	}
	return doc
}

// decodeText makes UTF-8 of a text in UTF-8, UTF-16, UTF-32 or Windows-1252.
func decodeText(data []byte) string {
	switch {
	case utf32Text(data):
		data, _ = utf32.UTF32(utf32.BigEndian, utf32.UseBOM).NewDecoder().Bytes(data)
	case utf16Text(data):
		order := unicode.LittleEndian
		if data[0] == 0 {
			order = unicode.BigEndian
		}
		data, _ = unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
	case !utf8.Valid(data):
		data, _ = charmap.Windows1252.NewDecoder().Bytes(data)
	}
	return strings.TrimPrefix(strings.ToValidUTF8(string(data), "\ufffd"), "\ufeff")
}

// decodeHTML makes UTF-8 of a page by what it says of itself.
func decodeHTML(data []byte) string {
	if utf16Text(data) {
		return decodeText(data)
	}
	encoding, _, _ := charset.DetermineEncoding(data, "")
	decoded, err := encoding.NewDecoder().Bytes(data)
	if err != nil {
		return decodeText(data)
	}
	return strings.ToValidUTF8(string(decoded), "\ufffd")
}

func readPDF(ctx context.Context, o order, data []byte) parse.Document {
	reader := pdf.Reader{Cache: o.Cache, Words: typedWords}
	doc, err := reader.Read(ctx, o.Name, data)
	if err != nil {
		return problem(o.Name, CodeNotOpened, "The program that reads PDF files could not be started.")
	}
	if scans := pdf.Scans(doc); len(doc.Surveys) == 0 && len(scans) > 0 && !longer(doc) {
		return readScans(ctx, o, reader, data, doc, scans)
	}
	return doc
}

// longer reports a PDF of more pages than are read: a book, whose pictures are
// not looked into for a survey.
func longer(doc parse.Document) bool {
	return slices.ContainsFunc(doc.Problems, func(p parse.Problem) bool { return p.Code == pdf.CodePages })
}

// Scans are drawn as scanners make them: 200 dpi show eight pixels a
// millimetre, twice what the number reader needs.
const (
	scanDPI   = 200
	scanPages = 6
)

// readScans reads pages of a PDF that are pictures. What the PDF reader said of
// them stands where that gives nothing, and what it said of others in any case.
func readScans(ctx context.Context, o order, reader pdf.Reader, data []byte, doc parse.Document, scans []int) parse.Document {
	scans = scans[:min(len(scans), scanPages)]
	pages, err := reader.Pages(ctx, data, scanDPI, scans)
	if err != nil {
		return doc
	}
	var pictures []*photo.Picture
	looked := map[int]bool{}
	for i, p := range pages {
		if p == nil {
			continue
		}
		picture := photo.NewPicture(p)
		picture.Page = scans[i]
		pictures = append(pictures, picture)
		looked[scans[i]] = true
		pages[i] = nil
	}
	if len(pictures) == 0 {
		return doc
	}
	read := readPhotos(o.Name, pictures, 0)
	for _, p := range doc.Problems {
		if number, ok := pdf.ScanOf(p); !ok || !looked[number] {
			read.Problems = append(read.Problems, p)
		}
	}
	return read
}

func readPhotos(name string, pictures []*photo.Picture, lost int) parse.Document {
	reader, err := photo.NewReader()
	if err != nil {
		return problem(name, CodeNotOpened, "The reader of photos could not be started.")
	}
	return reader.ReadAll(name, pictures, lost)
}

func readPicture(o order, data []byte) opened {
	var answer opened
	pictures, lost, err := photo.Decode(data)
	var fault *photo.Fault
	if errors.As(err, &fault) {
		answer.Document = problem(o.Name, fault.Code, fault.Message)
	} else if answer.Document = readPhotos(o.Name, pictures, lost); len(answer.Document.Surveys) == 0 {
		answer.Document = readTracings(o.Name, pictures, answer.Document)
	}
	if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
		answer.Width, answer.Height = config.Width, config.Height
	}
	return answer
}

// readTracings reads photos of tracing sheets. What was said of pictures without
// numbers stands where there is no such sheet.
func readTracings(name string, pictures []*photo.Picture, doc parse.Document) parse.Document {
	for _, p := range pictures {
		grey, _ := p.Light()
		t, err := tracing.Read(grey)
		switch {
		case errors.Is(err, tracing.ErrNoSheet):
		case err != nil:
			return problem(name, CodeTracing, "It shows a tracing sheet, but "+tracingFault(err)+". The paper is still needed.")
		default:
			t.File = name
			said := fmt.Sprintf("It shows the tracing of an end, on %d of our sheets, with an error of at most %.1f mm. Filed as a preview; the paper is still needed.", t.Sheets, t.Error)
			if t.Sheets == 1 {
				said = strings.Replace(said, "on 1 of our sheets", "on one of our sheets", 1)
			}
			doc = problem(name, CodeTracing, said)
			doc.Tracings = []parse.Tracing{t}
			return doc
		}
	}
	return doc
}

// tracingFault says what a photo of a tracing sheet lacks.
func tracingFault(err error) string {
	if errors.Is(err, tracing.ErrNoLine) {
		return "no line is seen on it"
	}
	return "too few of its black marks are seen"
}
