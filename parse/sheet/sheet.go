// Package sheet reads surveys from spreadsheets and text documents: xlsx, ods,
// csv and its kin, and the tables and paragraphs of docx. Every reader is
// bounded in bytes, rows and columns, and turns its file into grids, in which
// package table then recognises the survey.
package sheet

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Reader reads a file of one kind. Words, unless nil, reads what is typed there
// like a mail.
type Reader func(name string, data []byte, words table.Words) (parse.Document, error)

// Why a file cannot be read. Any other trouble is a problem in the document.
var (
	ErrFormat    = errors.New("not a file of this kind, or damaged")
	ErrLimit     = errors.New("larger than a survey can be")
	ErrEncrypted = errors.New("protected with a password")
	ErrOldFormat = errors.New("in the file format of before 2007")
)

// Limits on what is read. A survey is a page or two; these are a hundred
// times that, and small enough to be read in a second.
const (
	maxFile     = 20 << 20 // bytes of the file itself
	maxUnpacked = 64 << 20 // bytes of all parts of a zip
	maxPart     = 16 << 20 // bytes of one part of a zip
	maxParts    = 2000     // parts of a zip
	maxText     = 4 << 20  // bytes of a text file
	maxRows     = 500      // rows of a sheet that hold anything
	maxCols     = 256      // columns of a sheet
	maxRow      = 5000     // the last row that is looked at
	maxSheets   = 30
	maxDepth    = 100  // nesting of XML
	maxCell     = 4000 // bytes of one cell
	maxCells    = 60000
)

// oleMagic opens the container of old office files, and of encrypted new ones
// (Microsoft, [MS-CFB] 2.2).
var oleMagic = []byte{0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1}

// checkContainer tells encrypted and old files from zips.
func checkContainer(data []byte) error {
	switch {
	case len(data) > maxFile:
		return ErrLimit
	case !bytes.HasPrefix(data, oleMagic):
		return nil
	case bytes.Contains(data, utf16Bytes("EncryptedPackage")): // [MS-OFFCRYPTO] 2.3
		return ErrEncrypted
	}
	return ErrOldFormat
}

func utf16Bytes(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = binary.LittleEndian.AppendUint16(b, u)
	}
	return b
}

// numberCell makes the cell of a number that the file keeps beside the text it
// shows. What is shown counts when it is the same number; where the format
// rounds, the number itself does, with the unit that is shown.
func numberCell(shown string, number float64, place string) table.Cell {
	cell := table.Cell{Text: shown, Place: place}
	a, f := parse.ParseLength(shown)
	if !f.Some() && math.Abs(a.Number-number) < 1e-9 {
		return cell
	}
	if strings.Contains(shown, "%") {
		return cell
	}
	if !f.Some() {
		cell.Scale = a.Scale
		if a.Scale == parse.ScaleInch && math.Abs(a.Number-number) > 1 {
			cell.Scale = parse.Bare // feet and inches are shown of a number of feet
			cell.Code = parse.CodeFormula
			return cell
		}
	}
	cell.Text = plainNumber(number)
	return cell
}

// unstruck is the text that counts of one that is partly struck out. A struck
// number with none in its place is left, as one to ask about.
func unstruck(text, struck string) (string, parse.Code) {
	const digits = "0123456789"
	if strings.ContainsAny(struck, digits) && !strings.ContainsAny(text, digits) {
		return strings.TrimSpace(struck + text), parse.CodeStruck
	}
	return text, ""
}

// plainNumber writes a number without the noise of binary arithmetic.
func plainNumber(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e9)/1e9, 'f', -1, 64)
}

// tooLarge is the problem of a sheet that goes on beyond what is read.
func tooLarge(file, name string) parse.Problem {
	return parse.Problem{
		Code:    CodeTooLarge,
		Source:  parse.Source{File: file, Place: name},
		Message: fmt.Sprintf("Only the first %d rows and %d columns were read.", maxRows, maxCols),
	}
}

// Problems that these readers find themselves.
const (
	CodeTooLarge    parse.Code = "too-large"    // a sheet goes on beyond what is read
	CodeHiddenSheet parse.Code = "hidden-sheet" // a hidden sheet was not read
	CodeNote        parse.Code = "cell-note"    // a note on a cell holds numbers
)

func short(s string) string {
	s = strings.TrimSpace(s)
	if len(s) > maxCell {
		s = s[:maxCell]
	}
	return strings.ToValidUTF8(s, "")
}

// cellName is the name of a cell in the A1 notation; row and column from 0.
func cellName(sheet string, row, col int) string {
	name := ""
	for c := col + 1; c > 0; c = (c - 1) / 26 {
		name = string(rune('A'+(c-1)%26)) + name
	}
	name += strconv.Itoa(row + 1)
	if sheet == "" {
		return name
	}
	return sheet + "!" + name
}
