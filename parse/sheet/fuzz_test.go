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
	f.Fuzz(func(t *testing.T, data []byte) { _, _ = CSV("x.csv", data, nil) })
}

// The parts inside the zips are fuzzed, not the zips: those are checked by the
// standard library.
func FuzzXLSX(f *testing.F) {
	f.Add(`<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Bow height</t></is></c><c r="B1" s="0"><v>18.5</v></c></row></sheetData>`, `<si><t>Hull girth</t></si>`)
	f.Add(`<sheetData><row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2"><f>A1+1</f></c></row></sheetData><mergeCells count="1"><mergeCell ref="A1:C2"/></mergeCells>`, `<si><r><t>1 ft</t></r></si>`)
	f.Fuzz(func(t *testing.T, sheet, strings string) {
		_, _ = XLSX("x.xlsx", textDocument(t, map[string]string{
			"[Content_Types].xml":        `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>`,
			"_rels/.rels":                `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
			"xl/workbook.xml":            `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="s" sheetId="1" r:id="rId1"/></sheets></workbook>`,
			"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
			"xl/worksheets/sheet1.xml":   `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` + sheet + `</worksheet>`,
			"xl/sharedStrings.xml":       `<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` + strings + `</sst>`,
		}), nil)
	})
}

func FuzzODS(f *testing.F) {
	f.Add(`<office:spreadsheet><table:table table:name="s"><table:table-row><table:table-cell office:value-type="float" office:value="35.5"><text:p>35,5</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet>`)
	f.Fuzz(func(t *testing.T, content string) { _, _ = ODS("x.ods", zipped(t, "content.xml", content), nil) })
}

func FuzzDOCX(f *testing.F) {
	f.Add(`<w:document><w:body><w:p><w:r><w:t>Bow height 18</w:t></w:r></w:p><w:tbl><w:tr><w:tc><w:tcPr><w:gridSpan w:val="2"/></w:tcPr><w:p><w:r><w:t>Hull</w:t></w:r></w:p></w:tc></w:tr></w:tbl></w:body></w:document>`)
	f.Fuzz(func(t *testing.T, content string) {
		_, _ = DOCX("x.docx", zipped(t, "word/document.xml", content), nil)
	})
}
