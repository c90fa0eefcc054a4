// Package photo reads the shop's own papers, filled in by hand, from phone
// photos and scans of them.
//
// [Decode] makes a picture of a file, within limits. [Reader.Read] finds the
// four marks of a page in it, straightens the page, reads its code, lays the
// boxes that parse/form knows onto the printed ones, and takes what is written
// in each to parse/digits. What comes out are readings with a probability for
// every value: a cell that cannot be read surely is doubtful, with a problem
// that says where it stands, and never a guess.
//
// Places are pixel rectangles of the upright picture, "pixels x0,y0-x1,y1".
package photo
