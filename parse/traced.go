package parse

import (
	"fmt"
	"math"
)

// Tracing is an end of a boat that was traced on the shop's tracing sheets and
// photographed. It never stands in the place of the paper unless the shop says
// so and nothing speaks against it, see Preview.
type Tracing struct {
	File   string
	Paper  string // that the sheets were made for: "letter", "a4"
	Sheets int
	Line   []TracedPoint // from its lower end, about a millimetre apart
	// Part says that the line goes on where it is not seen: under print, or off the
	// sheets that are in the photo.
	Part bool
	// Residual is the root mean square of how far the sheets' marks are from
	// where they should be, in millimetres.
	Residual float64
	// Error is how far the line may be from the pencil's, in millimetres: in 19
	// of 20 photos none of it is farther off.
	Error float64
	// PrintScale is the scale of the print by the paper's own edges in the photo:
	// 0.94 for a sheet printed at 94 %; 0 where they are not seen.
	PrintScale float64
	Printed    Length // of the line on the sheet that is measured with a tape
}

// TracedPoint is a place on a tracing, in millimetres as the edges of the paper
// tell them, else of the print: X to the right and Y up from the lower left corner
// of the lower left sheet.
type TracedPoint struct{ X, Y float64 }

// MostTracingError is the greatest error, in millimetres, with which a photo may
// stand in the place of paper.
const MostTracingError = 2.0

// What a print may be off and still count as true, as fractions: what a tape
// reads to a sixteenth of an inch along 8 in, and what the paper's edges tell.
// Pages that are fitted to a printer's margins come out at 93 to 97 %.
const (
	tapeOff  = 1.0 / 16 / 8 * 1.05
	paperOff = 0.005
)

// Preview says why a tracing is only a preview, "" when it is true to scale.
// tape is what a tape reads along the printed line, 0 when nobody has said.
func (t Tracing) Preview(tape Length) string {
	read := float64(tape / max(t.Printed, 1))
	switch {
	case t.PrintScale != 0 && math.Abs(t.PrintScale-1) > paperOff:
		return fmt.Sprintf("by the edges of the paper the sheet was printed at %.0f %%, not at 100 %%", 100*t.PrintScale)
	case tape != 0 && math.Abs(read-1) > tapeOff:
		return fmt.Sprintf("by the tape along the printed line the sheet was printed at %.0f %%, not at 100 %%", 100*read)
	case t.PrintScale == 0:
		return "the edges of the paper are not seen all around, so nothing proves the scale of the print"
	case tape == 0:
		return "nobody has said what a tape reads along the printed line, so the scale of the print is not proved"
	case t.Part:
		return "part of the line is not seen: lay the sheets so that it does not run along their print, and photograph all of them"
	case t.Error > MostTracingError:
		return fmt.Sprintf("it may be wrong by %.1f mm, and %.0f mm is the most", t.Error, MostTracingError)
	}
	return ""
}
