package pdf

import (
	"bytes"
	"fmt"
	"strings"
)

// A file for tests is written byte by byte, after ISO 32000-1, so that each
// can be wrong in one way that no program would write.

// made is a PDF: a content stream and fields, and pages that come before.
type made struct {
	before  []string // the contents of those pages
	content string
	fields  []madeField
	rotate  int
	acro    string // more entries of the form's dictionary
	objects []string
	font    string // more entries of the font's dictionary
}

type madeField struct {
	name, tip string
	value     string
	shown     string // what its appearance draws; "-" for no appearance
	x, y      int
	tick      bool // a check box; value "Yes" is on
}

// text draws strings at places, in points from the lower left corner.
func (m *made) text(x, y int, s string) {
	m.content += fmt.Sprintf("BT /F1 11 Tf %d %d Td (%s) Tj ET\n", x, y, escape(s))
}

func escape(s string) string {
	return strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`, "½", "\xbd").Replace(s)
}

func stream(dictionary, data string) string {
	return fmt.Sprintf("<< %s /Length %d >>\nstream\n%s\nendstream", dictionary, len(data), data)
}

func (m *made) bytes() []byte {
	objects := []string{
		"", // the catalogue, below
		"", // the pages, below
		"", // the page, below
		"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding " + m.font + " >>",
		stream("", m.content),
	}
	add := func(s string) int {
		objects = append(objects, s)
		return len(objects)
	}
	var refs []string
	for _, f := range m.fields {
		var body string
		if f.tick {
			on := add(stream("/Type /XObject /Subtype /Form /BBox [0 0 12 12]", "0 0 m 12 12 l 12 0 m 0 12 l S"))
			off := add(stream("/Type /XObject /Subtype /Form /BBox [0 0 12 12]", "q Q"))
			state := "Off"
			if f.value != "" {
				state = "Yes"
			}
			body = fmt.Sprintf("/FT /Btn /V /%s /AS /%s /Rect [%d %d %d %d] /AP << /N << /Yes %d 0 R /Off %d 0 R >> >>",
				state, state, f.x, f.y, f.x+12, f.y+12, on, off)
		} else {
			body = fmt.Sprintf("/FT /Tx /V (%s) /DA (/F1 11 Tf 0 g) /Rect [%d %d %d %d]", escape(f.value), f.x, f.y, f.x+70, f.y+16)
			if f.shown != "-" {
				ap := add(stream("/Type /XObject /Subtype /Form /BBox [0 0 70 16] /Resources << /Font << /F1 4 0 R >> >>",
					fmt.Sprintf("/Tx BMC q BT /F1 11 Tf 0 g 2 4 Td (%s) Tj ET Q EMC", escape(f.shown))))
				body += fmt.Sprintf(" /AP << /N %d 0 R >>", ap)
			}
		}
		ref := add(fmt.Sprintf("<< /Type /Annot /Subtype /Widget /F 4 /T (%s) /TU (%s) /P 3 0 R %s >>", f.name, f.tip, body))
		refs = append(refs, fmt.Sprintf("%d 0 R", ref))
	}
	fields := strings.Join(refs, " ")
	objects = append(objects, m.objects...)
	page := func(contents int, more string) string {
		return fmt.Sprintf("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents %d 0 R /Resources << /Font << /F1 4 0 R >> >> %s >>", contents, more)
	}
	kids := ""
	for _, content := range m.before {
		kids += fmt.Sprintf("%d 0 R ", add(page(add(stream("", content)), "")))
	}
	objects[1] = fmt.Sprintf("<< /Type /Pages /Kids [%s3 0 R] /Count %d >>", kids, len(m.before)+1)
	objects[0] = fmt.Sprintf("<< /Type /Catalog /Pages 2 0 R /AcroForm << /Fields [%s] /DR << /Font << /F1 4 0 R >> >> /DA (/F1 11 Tf 0 g) %s >> >>", fields, m.acro)
	objects[2] = page(5, fmt.Sprintf("/Rotate %d /Annots [%s]", m.rotate, fields))

	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n")
	var offsets []int
	for i, o := range objects {
		offsets = append(offsets, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, o := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, start)
	return b.Bytes()
}

// typed is a page with a table of stations and a bow height.
func typed() *made {
	m := &made{}
	m.text(60, 740, "Length overall")
	m.text(200, 740, "15 ft 9 in")
	m.text(60, 724, "Bow height")
	m.text(200, 724, "18 1/2 in")
	m.text(60, 700, "Station")
	m.text(160, 700, "Hull girth")
	m.text(260, 700, "Full girth")
	for i, row := range [][3]string{{"1 ft", "35 1/2", "42"}, {"2 ft", "38", "52"}, {"3 ft", "41½", "60"}, {"4 ft", "44", "66.5"}} {
		for j, s := range row {
			m.text(60+100*j, 684-16*i, s)
		}
	}
	return m
}

// turned has the page shown turned by so many degrees, and what is on it turned
// the other way, so that it is shown upright: as scanners and some printers
// write pages.
func (m *made) turned(degrees int) *made {
	turn := map[int]string{0: "", 90: "0 1 -1 0 612 0 cm ", 180: "-1 0 0 -1 612 792 cm ", 270: "0 -1 1 0 0 792 cm "}
	if degrees%180 != 0 { // the page is lower than it is wide
		turn[degrees] += "1 0 0 1 0 -180 cm "
	}
	return &made{content: turn[degrees] + m.content, rotate: degrees}
}
