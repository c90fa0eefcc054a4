// Package tracing reads photographs of the shop's tracing sheets: one sheet, or
// several joined edge to edge, on which an end of a boat was traced in pencil.
//
// [Read] finds the sheets by their codes, every square mark of their scales, and
// where the camera stood from all marks together, and how the paper buckles between
// them; it follows the pencil line, over print that hides it, and gives it in
// millimetres, with the error to be reckoned with, or says that a part of it is not
// seen. What it cannot see
// in the marks is whether the print itself is true to scale: a sheet printed at
// 94 % looks the same. That is proved by the edges of the paper in the same photo,
// whose size also takes the last tenths of a percent out of the line, and by what
// a tape reads along a printed line; without both, a tracing is a preview.
package tracing
