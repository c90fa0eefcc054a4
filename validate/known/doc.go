// Package known makes boats whose girths are known everywhere, surveys of them
// as a customer would measure them, and the slips that customers make. Tests
// and benchmarks hold the judge against it.
//
// There are boats with exact answers (the Wigley hull, box, ellipse and V
// sections, a canoe whose table was printed in 1889) and a family of simulated
// boats. The simulated boats are built as boats are: a plan of the gunwale, a
// sheer, a keel line and sections between them, over which a taut tape is laid;
// nothing in them assumes how smooth a girth is along the length. A second
// family, lofted, has other lines and other sections throughout, so that a judge
// who suits the first is held against boats that he was not made for. A third
// has boats of other trades: dories, drift boats, prams and the like.
//
// Everything inside is in inches; surveys come out as parse.Survey. Randomness
// is passed in, so the same source gives the same boats.
package known
