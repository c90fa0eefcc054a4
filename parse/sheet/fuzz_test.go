package sheet

import (
	"os"
	"path/filepath"
	"testing"
)

// seeds adds the samples with the given ending.
func seeds(f *testing.F, ext string) {
	paths, err := filepath.Glob(filepath.Join(samples, "*"+ext))
	if err != nil {
		f.Fatal(err)
	}
	for _, p := range paths {
		data, err := os.ReadFile(p)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
}

func FuzzCSV(f *testing.F) {
	seeds(f, "sv")
	f.Fuzz(func(t *testing.T, data []byte) { _, _ = CSV("x.csv", data) })
}

func FuzzXLSX(f *testing.F) {
	seeds(f, ".xlsx")
	f.Fuzz(func(t *testing.T, data []byte) { _, _ = XLSX("x.xlsx", data) })
}

// The parts inside the zips are fuzzed, not the zips: those are checked by the
// standard library.
func FuzzODS(f *testing.F) {
	f.Add(`<office:spreadsheet><table:table table:name="s"><table:table-row><table:table-cell office:value-type="float" office:value="35.5"><text:p>35,5</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet>`)
	f.Fuzz(func(t *testing.T, content string) { _, _ = ODS("x.ods", zipped(t, "content.xml", content)) })
}

func FuzzDOCX(f *testing.F) {
	f.Add(`<w:document><w:body><w:p><w:r><w:t>Bow height 18</w:t></w:r></w:p><w:tbl><w:tr><w:tc><w:tcPr><w:gridSpan w:val="2"/></w:tcPr><w:p><w:r><w:t>Hull</w:t></w:r></w:p></w:tc></w:tr></w:tbl></w:body></w:document>`)
	f.Fuzz(func(t *testing.T, content string) {
		_, _ = plainDOCX("x.docx", zipped(t, "word/document.xml", content))
	})
}
