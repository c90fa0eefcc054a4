// Package table recognises a survey in grids of text: the sheets of a
// spreadsheet, the tables of a text document, columns found on a page.
package table

import "fairtape/parse"

// Cell is one cell of a grid.
type Cell struct {
	Text  string      // as shown; "" when empty
	Place string      // "Survey!B3", "page 1, line 4"
	Scale parse.Scale // what the cell's number format says it is counted in, else Bare
	Code  parse.Code  // a problem that is known already: a date, a formula without result; else ""
}

// Grid is a rectangle of cells; its rows may differ in length.
type Grid struct {
	Name string // sheet or table, "" when there is only one
	Rows [][]Cell
}

// Read says what the grids of one file hold. Numbers that belong to no
// measure, or cannot be understood, are problems with their place; a file
// without a survey has no Surveys.
func Read(file string, grids []Grid) parse.Document {
	return parse.Document{File: file}
}
