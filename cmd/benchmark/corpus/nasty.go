package corpus

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"math/rand/v2"
	"strings"
)

// nasty are files that are made to hurt a reader: bombs, loops, lies about
// sizes, depth without end. Each is opened as it is, and cut and changed like
// the sound ones.
func nasty(random *rand.Rand) (map[string][]byte, error) {
	files := map[string][]byte{
		"empty.pdf": nil, "nul.xlsx": make([]byte, 1000), "one.csv": {'"'},
		"huge.png": pngHeader(30_000, 30_000), "wide.png": pngHeader(1<<31-1, 1), "giant.png": pngHeader(1<<31-1, 1<<31-1),
		"huge.webp":       append([]byte("RIFF\x00\x10\x00\x00WEBPVP8X\x0a\x00\x00\x00\x00\x00\x00\x00"), bytes.Repeat([]byte{0xFF}, 4096)...),
		"loop.tiff":       []byte("II*\x00\x08\x00\x00\x00\x01\x00\x00\x01\x04\x00\x01\x00\x00\x00\xff\xff\x00\x00\x08\x00\x00\x00"),
		"boxes.heic":      append([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic\xff\xff\xff\xffmeta"), bytes.Repeat([]byte("\x00\x00\x00\x08meta"), 5000)...),
		"exif.jpg":        append([]byte("\xff\xd8\xff\xe1\x00\x2aExif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x09\x00\x00\x00\x08\x00\x00\x00"), 0xff, 0xd9),
		"pages.pdf":       []byte("%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n2 0 obj\n<</Type/Pages/Kids[2 0 R 2 0 R]/Count 99999>>\nendobj\ntrailer\n<</Size 3/Root 1 0 R>>\n%%EOF\n"),
		"xref.pdf":        []byte("%PDF-1.7\n1 0 obj\n<</Type/Catalog/Pages 1 0 R/AcroForm 1 0 R/Fields[1 0 R]/Kids[1 0 R]>>\nendobj\nxref\n0 99999999\n0000000000 65535 f \ntrailer\n<</Root 1 0 R/Prev 30>>\nstartxref\n30\n%%EOF\n"),
		"deep.html":       []byte(strings.Repeat("<div><table><tr><td>", 50_000)),
		"deep.xml.html":   []byte("<!DOCTYPE x [<!ENTITY a \"" + strings.Repeat("ha", 1000) + "\"><!ENTITY b \"" + strings.Repeat("&a;", 1000) + "\">]><html>" + strings.Repeat("&b;", 1000)),
		"wide.csv":        []byte("station," + strings.Repeat("35,", 500_000)),
		"open.csv":        []byte("station,\"hull girth\n" + strings.Repeat("1,2,3\n", 100_000)),
		"long.txt":        []byte("1 ft: " + strings.Repeat("35 1/2 / 42 ", 200_000)),
		"line.txt":        []byte(strings.Repeat("9", 2_000_000)),
		"utf16.csv":       []byte("\xff\xfe" + strings.Repeat("\x00\xd8", 1000)),
		"deep.eml":        deepMail(5000),
		"parts.eml":       []byte("From: a@b.example\r\nSubject: x\r\nMIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary=b\r\n\r\n" + strings.Repeat("--b\r\n\r\nx\r\n", 100_000)),
		"header.eml":      []byte("From: a@b.example\r\nSubject: " + strings.Repeat("x", 1<<20) + "\r\n" + strings.Repeat("X-A: b\r\n", 50_000) + "\r\nhello\r\n"),
		"base64.eml":      []byte("From: a@b.example\r\nMIME-Version: 1.0\r\nContent-Type: application/pdf; name=x.pdf\r\nContent-Transfer-Encoding: base64\r\n\r\n" + strings.Repeat("!!@@JVBERi0=??\r\n", 5000)),
		"winmail.eml":     append([]byte("From: a@b.example\r\nMIME-Version: 1.0\r\nContent-Type: application/ms-tnef; name=winmail.dat\r\n\r\n\x78\x9f\x3e\x22"), bytes.Repeat([]byte{0xFF}, 5000)...),
		"mislabelled.pdf": pngHeader(10, 10), "program.xlsx": []byte("MZ\x90\x00" + strings.Repeat("\x00", 2000)),
	}
	loops := &gif.GIF{}
	for range 400 {
		loops.Image = append(loops.Image, image.NewPaletted(image.Rect(0, 0, 600, 600), color.Palette{color.Black, color.White}))
		loops.Delay = append(loops.Delay, 1)
	}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, loops); err != nil {
		return nil, err
	}
	files["frames.gif"] = b.Bytes()
	blank := func(n int) []byte { return bytes.Repeat([]byte(" "), n) }
	sheet := func(inside string) map[string][]byte {
		return map[string][]byte{
			"[Content_Types].xml":        []byte(`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`),
			"xl/workbook.xml":            []byte(`<workbook xmlns:r="r"><sheets><sheet name="s" sheetId="1" r:id="rId1"/></sheets></workbook>`),
			"xl/_rels/workbook.xml.rels": []byte(`<Relationships><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`),
			"xl/worksheets/sheet1.xml":   []byte(inside),
		}
	}
	inner := []byte("1 ft: 35 / 42\n")
	for name, parts := range map[string]map[string][]byte{
		"bomb.xlsx":      {"xl/worksheets/sheet1.xml": blank(100 << 20), "xl/workbook.xml": []byte("<workbook/>"), "[Content_Types].xml": []byte("<Types/>")},
		"bomb.docx":      {"word/document.xml": blank(100 << 20)},
		"bomb.ods":       {"content.xml": blank(100 << 20), "mimetype": []byte("application/vnd.oasis.opendocument.spreadsheet")},
		"dimension.xlsx": sheet(`<worksheet><dimension ref="A1:XFD1048576"/><sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData></worksheet>`),
		"cells.xlsx":     sheet("<worksheet><sheetData>" + strings.Repeat(`<row><c t="str"><v>x</v></c></row>`, 400_000) + "</sheetData></worksheet>"),
		"strings.xlsx":   {"xl/sharedStrings.xml": []byte("<sst>" + strings.Repeat("<si><t>x</t></si>", 1_000_000) + "</sst>"), "xl/workbook.xml": []byte("<workbook/>"), "[Content_Types].xml": []byte("<Types/>")},
		"repeat.ods": {"mimetype": []byte("application/vnd.oasis.opendocument.spreadsheet"), "content.xml": []byte(
			`<office:document-content xmlns:office="o" xmlns:table="t" xmlns:text="x"><table:table>` + strings.Repeat(`<table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384"><text:p>35</text:p></table:table-cell></table:table-row>`, 100))},
		"walk.zip":  {"../../../../etc/cron.d/x": inner, "/etc/passwd": inner, "C:\\x": inner},
		"many.zip":  {"a": inner, "b": inner},
		"deep.docx": {"word/document.xml": []byte("<w:document>" + strings.Repeat("<w:tbl><w:tr><w:tc>", 20_000))},
	} {
		data, err := zipped(parts)
		if err != nil {
			return nil, err
		}
		files[name] = data
	}
	nested := inner
	for range 30 {
		var err error
		if nested, err = zipped(map[string][]byte{"again.zip": nested, "form.pdf": inner}); err != nil {
			return nil, err
		}
	}
	files["nested.zip"] = nested
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	if _, err := w.Write(blank(100 << 20)); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	files["bomb.gz"] = packed.Bytes()
	noise := make([]byte, 100_000)
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	files["noise.bin"], files["noise.jpg"], files["noise.pdf"] = noise, append([]byte("\xff\xd8\xff\xe0"), noise...), append([]byte("%PDF-1.5\n"), noise...)
	return files, nil
}

func zipped(parts map[string][]byte) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, data := range parts {
		f, err := w.Create(name)
		if err != nil {
			return nil, err
		}
		if _, err := f.Write(data); err != nil {
			return nil, err
		}
	}
	return b.Bytes(), w.Close()
}

// deepMail is a mail in a mail in a mail.
func deepMail(depth int) []byte {
	var b bytes.Buffer
	b.WriteString("From: a@b.example\r\nSubject: x\r\nMIME-Version: 1.0\r\n")
	for i := range depth {
		fmt.Fprintf(&b, "Content-Type: multipart/mixed; boundary=b%d\r\n\r\n--b%d\r\n", i, i)
	}
	return b.Bytes()
}

// pngHeader is the beginning of a picture of that size, and no more.
func pngHeader(width, height uint32) []byte {
	chunk := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), width), height)
	chunk = append(chunk, 8, 2, 0, 0, 0)
	b := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), chunk...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(chunk))
}
