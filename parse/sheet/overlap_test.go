package sheet

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
	"testing"
)

// twice is a zip whose directory names the bytes of its first part again under
// the name of its second (APPNOTE.TXT of the zip format, section 4.3.12: an
// entry of the directory begins with PK\1\2 and says at byte 42 where its part
// lies, at byte 20 how long that is).
func twice(t *testing.T, archive []byte) []byte {
	t.Helper()
	data := bytes.Clone(archive)
	entry := []byte("PK\x01\x02")
	first := bytes.Index(data, entry)
	second := bytes.Index(data[first+4:], entry) + first + 4
	if first < 0 || second < first+4 {
		t.Fatal("the archive has fewer than two parts")
	}
	copy(data[second+16:second+28], data[first+16:first+28]) // checksum and sizes
	binary.LittleEndian.PutUint32(data[second+42:], binary.LittleEndian.Uint32(data[first+42:]))
	return data
}

// Parts of a zip that lie in the same bytes are refused.
func TestOverlappingParts(t *testing.T) {
	table := `<office:spreadsheet><table:table table:name="s"><table:table-row><table:table-cell><text:p>35</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet>`
	text := `<w:document><w:body><w:p><w:r><w:t>Bow height 18</w:t></w:r></w:p></w:body></w:document>`
	for _, tt := range []struct {
		name string
		read Reader
		data []byte
	}{
		{"ods", ODS, zipped(t, "content.xml", table, "other.xml", "<a>something else</a>")},
		{"docx", DOCX, zipped(t, "word/document.xml", text, "word/other.xml", "<a>something else</a>")},
		{"xlsx", XLSX, workbook(t, nil)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := tt.read("x", tt.data, nil); err != nil {
				t.Fatalf("apart: %v", err)
			}
			if _, err := tt.read("x", twice(t, tt.data), nil); !errors.Is(err, ErrFormat) {
				t.Errorf("overlapping: %v, want ErrFormat", err)
			}
			// One that reaches into the next, as the parts of a bomb do.
			data := slices.Clone(tt.data)
			at := bytes.Index(data, []byte("PK\x01\x02"))
			binary.LittleEndian.PutUint32(data[at+20:], binary.LittleEndian.Uint32(data[at+20:])+60)
			if _, err := tt.read("x", data, nil); !errors.Is(err, ErrFormat) {
				t.Errorf("reaching into the next: %v, want ErrFormat", err)
			}
		})
	}
}
