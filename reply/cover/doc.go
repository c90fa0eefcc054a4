// Package cover cuts a cover from a settled survey: from the fair curve of a
// boat's girths to flat panels with their seams, allowances and marks, how they
// lie on the roll, and what else the sewer needs to know.
//
// Everything inside is in inches, distances aft of the foremost point; what a
// person reads is in the survey's own unit. Nothing here draws or writes files.
//
// # How cloth is laid flat
//
// A cover touches the boat along three lines: the top, which runs over the
// middle of the opening, the gunwale, and the keel. Between two of them lies a
// strip of cloth whose width at each station was measured: half the opening
// from top to gunwale, half the hull girth from gunwale to keel. A strip is
// developed span by span, as a triangulated surface is: its two edges keep the
// lengths of their lines on the boat, and its rungs the girths. The strip's
// first edge lies straight, the other takes the curve.
//
// Cloth laid out so keeps all girths and all three seam lines true; what is not
// true is the angle between them, and a woven cloth gives way to that before
// anything else. Hung on a middle axis instead, with girths square to it, seams
// come out inches too long.
package cover
