// Package table recognises a survey in grids of text: the sheets of a
// spreadsheet, the tables of a text document, columns found on a page. It
// knows a table by its labels, whichever way round it lies, and by its numbers
// only where they leave no choice.
package table

import "fairtape/parse"

// Cell is one cell of a grid.
type Cell struct {
	Text   string      // as shown; "" when empty
	Raw    string      // as written, where Text was made of it; else ""
	Place  string      // "Survey!B3", "page 1, line 4"
	Scale  parse.Scale // what the cell's number format says it is counted in, else Bare
	Code   parse.Code  // a problem that is known already: a date, a formula without result; else ""
	Across int         // columns that the cell spans; 0 and 1 are one
	Down   int         // rows that the cell spans; 0 and 1 are one
	Look   string      // how it is set off from others: "filled yellow", "bold red"
	Note   string      // what hangs on the cell and is not in it, "" for nothing
}

// Grid is a rectangle of cells; its rows may differ in length.
type Grid struct {
	Name string // sheet or table, "" when there is only one
	// Title is what stands right above a table of a document, "" for nothing.
	Title string
	Rows  [][]Cell
	// Comments are lines that stand beside the cells: they hold no number of the
	// survey, but may say what its letters and marks mean.
	Comments []Cell
	// Commas says that commas divide the cells of a text. There a decimal
	// comma that nobody quoted splits a number in two.
	Commas bool
	// Typed holds the lines of which the rows were cut, where the cut lost a
	// sign between two cells; nil where no line was cut.
	Typed []string
}
