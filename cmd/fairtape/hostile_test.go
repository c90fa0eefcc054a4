package main

import (
	"strings"
	"testing"
	"unicode"

	"github.com/xuri/excelize/v2"

	"fairtape/reply/replytest"
)

// No text from outside commands the terminal.
func TestEscapeHostileTexts(t *testing.T) {
	for _, h := range replytest.Hostile() {
		hidden := func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) }
		if got := escape(h); strings.ContainsFunc(got, hidden) {
			t.Errorf("escape(%.60q) = %.60q", h, got)
		}
		if got := strings.ReplaceAll(escapeText(h), "\n", ""); strings.ContainsFunc(got, hidden) {
			t.Errorf("escapeText(%.60q) = %.60q", h, got)
		}
	}
}

// No text from outside becomes a formula, a number or a date in an export.
func TestExportHostileTexts(t *testing.T) {
	file := excelize.NewFile()
	defer file.Close() //nolint:errcheck // it is never written
	if err := file.SetSheetName(file.GetSheetName(0), exportSheet); err != nil {
		t.Fatal(err)
	}
	for i, h := range replytest.Hostile() {
		if err := writeRow(file, i+1, []string{h}); err != nil {
			t.Fatal(err)
		}
		at, err := excelize.CoordinatesToCellName(1, i+1)
		if err != nil {
			t.Fatal(err)
		}
		formula, err1 := file.GetCellFormula(exportSheet, at)
		kind, err2 := file.GetCellType(exportSheet, at)
		if err1 != nil || err2 != nil || formula != "" || kind != excelize.CellTypeSharedString && kind != excelize.CellTypeInlineString {
			t.Errorf("%.60q is a cell of type %v with the formula %q, %v, %v", h, kind, formula, err1, err2)
		}
	}
}
