package opener

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"compress/zlib"
	"errors"
	"fmt"
	"hash/crc32"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"
)

// pdfOf is a PDF of these objects, the first of which is the catalogue, with a
// sound table of where they lie (ISO 32000-1 section 7.5). Trailer is what the
// trailer holds beside size and root.
func pdfOf(trailer string, objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	at := make([]int, len(objects))
	for i, o := range objects {
		at[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R %s >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, trailer, table)
	return b.Bytes()
}

// table is a page on which a survey is typed.
const table = "BT /F1 12 Tf 14 TL 72 700 Td (length overall 15 ft 9 in) Tj T* (station hull girth full girth) Tj " +
	"T* (1 ft 35 42) Tj T* (2 ft 38 52) Tj T* (3 ft 41 60) Tj T* (4 ft 44 66) Tj ET"

// coiled is a PDF of these objects whose third, the page, lies in a stream of
// objects (ISO 32000-1 section 7.5.7), by a table that is a stream (section
// 7.5.8). The stream of objects is said to lie in itself, and the table to go on
// where it begins.
func coiled(objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	first := fmt.Sprintf("3 0 %s", objects[2])
	stream, last := len(objects)+1, len(objects)+2
	objects = append(slices.Clone(objects), fmt.Sprintf("<< /Type /ObjStm /N 1 /First 4 /Length %d >>\nstream\n%s\nendstream", len(first), first))
	table := []byte{0, 0, 0, 0}
	for i, o := range objects {
		at := b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
		if i == 2 || i+1 == stream {
			table = append(table, 2, 0, byte(stream), 0)
		} else {
			table = append(table, 1, byte(at>>8), byte(at), 0)
		}
	}
	at := b.Len()
	table = append(table, 1, byte(at>>8), byte(at), 0)
	fmt.Fprintf(&b, "%d 0 obj\n<< /Type /XRef /Size %d /W [1 2 1] /Root 1 0 R /Prev %d /Length %d >>\nstream\n%s\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n",
		last, last+1, at, len(table), table, at)
	return b.Bytes()
}

// page is the objects of a document with one page that draws this, and
// resources beside its font.
func page(content, resources string) []string {
	return []string{
		"<< /Type /Catalog /Pages 2 0 R >>",
		"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
		"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources << /Font << /F1 5 0 R >> " + resources + " >> >>",
		fmt.Sprintf("<< /Length %d >>\nstream\n%s\nendstream", len(content), content),
		"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
	}
}

// form is a drawing that draws others.
func form(content, resources string) string {
	return fmt.Sprintf("<< /Type /XObject /Subtype /Form /BBox [0 0 612 792] /Resources << /XObject << %s >> >> /Length %d >>\nstream\n%s\nendstream",
		resources, len(content), content)
}

// soon is how long a hostile file may take, on a machine with other work; the
// limit of one child is less.
const soon = 60 * time.Second

// A document behind a lock that is none, or that no key fits, is said to be
// unreadable, and no number of it is believed (ISO 32000-1 section 7.6 has the
// entries).
func TestBrokenEncryption(t *testing.T) {
	const (
		id  = "/ID [<00112233445566778899aabbccddeeff> <00112233445566778899aabbccddeeff>]"
		key = "/O <0000000000000000000000000000000000000000000000000000000000000000> /U <1111111111111111111111111111111111111111111111111111111111111111> /P -4"
	)
	locks := map[string]string{
		"a filter that nobody knows":   "<< /Filter /Nobody /V 1 /R 2 " + key + " >>",
		"a version that is to come":    "<< /Filter /Standard /V 99 /R 99 " + key + " >>",
		"keys that are too short":      "<< /Filter /Standard /V 2 /R 3 /Length 128 /O (a) /U (b) /P -4 >>",
		"no keys":                      "<< /Filter /Standard /V 2 /R 3 /Length 128 >>",
		"a key of less than nothing":   "<< /Filter /Standard /V 2 /R 3 /Length -128 " + key + " >>",
		"a key of a gigabyte":          "<< /Filter /Standard /V 2 /R 3 /Length 8589934592 " + key + " >>",
		"a method that is not there":   "<< /Filter /Standard /V 4 /R 4 /Length 128 /CF << >> /StmF /Gone /StrF /Gone " + key + " >>",
		"a password that nobody knows": "<< /Filter /Standard /V 2 /R 3 /Length 128 " + key + " >>",
		"an empty dictionary":          "<< >>",
		"a number":                     "42",
		"itself":                       "6 0 R",
	}
	o := newOpener(t)
	refuse := func(t *testing.T, data []byte) {
		t.Helper()
		start := time.Now()
		doc, err := o.Open(t.Context(), "locked.pdf", data)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range doc.Surveys {
			for _, r := range s.Stations {
				if r.HullGirth.Certain() || r.FullGirth.Certain() {
					t.Errorf("a number is believed: %+v", r)
				}
			}
		}
		if len(doc.Problems) == 0 || doc.Problems[0].Message == "" {
			t.Errorf("no problem says that it could not be read: %+v", doc)
		}
		if took := time.Since(start); took > soon {
			t.Errorf("it took %v", took)
		}
	}
	for name, lock := range locks {
		t.Run(name, func(t *testing.T) {
			refuse(t, pdfOf("/Encrypt 6 0 R "+id, append(page(table, ""), lock)...))
		})
	}
	t.Run("one that is not there", func(t *testing.T) { refuse(t, pdfOf("/Encrypt 77 0 R "+id, page(table, "")...)) })
	t.Run("no id", func(t *testing.T) {
		refuse(t, pdfOf("/Encrypt 6 0 R", append(page(table, ""), locks["a password that nobody knows"])...))
	})
	t.Run("no lock", func(t *testing.T) { // so that the others can fail
		doc, err := o.Open(t.Context(), "open.pdf", pdfOf("", page(table, "")...))
		if err != nil || len(doc.Surveys) != 1 || !doc.Surveys[0].Stations[0].HullGirth.Certain() {
			t.Errorf("without a lock: %+v, %v", doc, err)
		}
	})
}

// Drawings that draw themselves, tables that lead in a circle and streams that
// swell end in seconds.
func TestHostilePDF(t *testing.T) {
	o := newOpener(t)
	doubling := page(table+" /X Do", "/XObject << /X 6 0 R >>")
	for n := range 40 { // each draws the next twice: 2^40 in all
		doubling = append(doubling, form("/Y Do /Y Do", fmt.Sprintf("/Y %d 0 R", n+7)))
	}
	doubling = append(doubling, form("0 0 1 1 re f", ""))
	var swollen bytes.Buffer
	z := zlib.NewWriter(&swollen)
	for range 500 {
		z.Write(bytes.Repeat([]byte(" "), 1<<20)) //nolint:errcheck // into memory
	}
	z.Close() //nolint:errcheck // as above
	bomb := page(table, "")
	bomb[3] = fmt.Sprintf("<< /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream", swollen.Len(), swollen.String())
	whole := pdfOf("", page(table, "")...)
	circle := bytes.Replace(whole, []byte("/Root 1 0 R "), fmt.Appendf(nil, "/Root 1 0 R /Prev %d ", bytes.Index(whole, []byte("xref\n"))), 1)
	tests := []struct {
		name string
		data []byte
	}{
		{"a drawing that draws itself", pdfOf("", append(page(table+" /X Do", "/XObject << /X 6 0 R >>"), form("/X Do", "/X 6 0 R"))...)},
		{"a million million drawings", pdfOf("", doubling...)},
		{"500 MB of blanks", pdfOf("", bomb...)},
		{"a table that leads to itself", circle},
		{"a table that lies elsewhere", bytes.Replace(whole, []byte("startxref\n"), []byte("startxref\n9"), 1)},
		{"a stream of objects that lies in itself", coiled(page(table, "")...)},
		{"a length that is its own", []byte(strings.Replace(string(whole), fmt.Sprintf("/Length %d", len(table)), "/Length 4 0 R", 1))},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			start := time.Now()
			doc, err := o.Open(t.Context(), "hostile.pdf", tt.data)
			if err != nil {
				t.Fatal(err)
			}
			took := time.Since(start)
			t.Logf("%v, %q, %d surveys", took, codes(doc), len(doc.Surveys))
			if took > soon {
				t.Errorf("it took %v", took)
			}
			if len(doc.Surveys)+len(doc.Problems) == 0 {
				t.Error("neither a number nor a problem")
			}
			for _, s := range doc.Surveys {
				for n, r := range s.Stations {
					if want := []float64{35, 38, 41, 44}[n]; r.HullGirth.Certain() && r.HullGirth.Value.In(s.Unit) != want {
						t.Errorf("row %d is %v, want %v", n+1, r.HullGirth.Value, want)
					}
				}
			}
		})
	}
}

// Pictures that lie about themselves or lead in a circle are problems, in
// seconds.
func TestHostilePictures(t *testing.T) {
	// A TIFF whose only directory is followed by itself (TIFF 6.0 section 2).
	tiff := "II*\x00\x08\x00\x00\x00\x00\x00\x08\x00\x00\x00"
	// A JPEG whose EXIF directory is followed by itself, and holds a directory
	// of places that is it as well (tag 0x8825).
	exif := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x25\x88\x04\x00\x01\x00\x00\x00\x08\x00\x00\x00\x08\x00\x00\x00"
	jpeg := fmt.Sprintf("\xff\xd8\xff\xe1%c%c%s\xff\xd9", (len(exif)+2)>>8, (len(exif)+2)&255, exif)
	// A WebP whose canvas is the largest that can be written, and nothing on it.
	webp := "RIFF\x16\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00\xff\xff\xff\xff\xff\xff"
	// HEIC boxes that are longer than the file, shorter than their heads, and
	// that hold themselves.
	long := "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic\xff\xff\xff\xffmeta\x00\x00\x00\x00"
	short := "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic\x00\x00\x00\x02meta"
	o := newOpener(t)
	for name, data := range map[string]string{"circle.tiff": tiff, "circle.jpg": jpeg, "canvas.webp": webp, "long.heic": long, "short.heic": short} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			doc, err := o.Open(t.Context(), name, []byte(data))
			if err != nil {
				t.Fatal(err)
			}
			if len(doc.Surveys) != 0 || len(doc.Problems) == 0 || time.Since(start) > soon {
				t.Errorf("after %v: %+v", time.Since(start), doc)
			}
		})
	}
}

// packed is a zip whose parts are stored under names and sizes of the test's
// choosing.
func packed(t *testing.T, parts map[string]string, lie func(*zip.FileHeader)) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		var small bytes.Buffer
		f, err := flate.NewWriter(&small, flate.BestCompression)
		if err == nil {
			_, err = f.Write([]byte(parts[name]))
		}
		if err := errors.Join(err, f.Close()); err != nil {
			t.Fatal(err)
		}
		h := &zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE([]byte(parts[name])),
			CompressedSize64: uint64(small.Len()), UncompressedSize64: uint64(len(parts[name]))}
		lie(h)
		part, err := w.CreateRaw(h)
		if err == nil {
			_, err = part.Write(small.Bytes())
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Tables that swell, repeat or lie about their size are problems, in seconds;
// names that lead out of the folder lead nowhere.
func TestHostileSheets(t *testing.T) {
	honest := func(*zip.FileHeader) {}
	xlsx := func(more map[string]string) map[string]string {
		parts := map[string]string{
			"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
				`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
			"_rels/.rels":                `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
			"xl/workbook.xml":            `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="s" sheetId="1" r:id="a"/></sheets></workbook>`,
			"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
			"xl/worksheets/sheet1.xml":   `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1"><v>35</v></c></row></sheetData></worksheet>`,
		}
		maps.Copy(parts, more)
		return parts
	}
	sheet := func(data string) map[string]string {
		return map[string]string{"xl/worksheets/sheet1.xml": `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + data + `</sheetData></worksheet>`}
	}
	laughs := `<!DOCTYPE a [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;"><!ENTITY d "&c;&c;&c;&c;&c;&c;&c;&c;">]>`
	const size = 80 << 20
	tests := []struct {
		name string
		data []byte
	}{
		{"strings.xlsx", packed(t, xlsx(map[string]string{"xl/sharedStrings.xml": "<sst>" + strings.Repeat("<si><t>x</t></si>", size/18) + "</sst>"}), honest)},
		{"sheet.xlsx", packed(t, xlsx(sheet(strings.Repeat(`<row><c t="s"><v>0</v></c></row>`, size/32))), honest)},
		{"corner.xlsx", packed(t, xlsx(sheet(`<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`)), honest)}, // 17 thousand million cells
		{"entities.xlsx", packed(t, xlsx(map[string]string{"xl/sharedStrings.xml": laughs + "<sst><si><t>&d;</t></si></sst>"}), honest)},
		{"small.xlsx", packed(t, xlsx(sheet(strings.Repeat(" ", size))), func(h *zip.FileHeader) { h.UncompressedSize64 = min(h.UncompressedSize64, 1000) })},
		{"digit.xlsx", packed(t, xlsx(nil), func(h *zip.FileHeader) { // as if a digit had been spoilt on the way
			if strings.Contains(h.Name, "sheet1") {
				h.CRC32++
			}
		})},
		{"vast.xlsx", packed(t, xlsx(nil), func(h *zip.FileHeader) { h.UncompressedSize64 = 1 << 40 })},
		{"out.ods", packed(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "../../../../tmp/content.xml": "<a/>", "/etc/content.xml": "<a/>"}, honest)},
		{"zip.ods", packed(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": string(packed(t, map[string]string{"content.xml": "<a/>"}, honest))}, honest)},
		{"laughs.ods", packed(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": laughs + "<a>&d;</a>"}, honest)},
	}
	o := newOpener(t)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			start := time.Now()
			doc, err := o.Open(t.Context(), tt.name, tt.data)
			if err != nil {
				t.Fatal(err)
			}
			if took := time.Since(start); len(doc.Surveys) != 0 || len(doc.Problems) == 0 || took > soon {
				t.Errorf("after %v: %d surveys, problems %q", took, len(doc.Surveys), codes(doc))
			}
		})
	}
}
