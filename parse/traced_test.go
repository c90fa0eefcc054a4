package parse

import (
	"strings"
	"testing"
)

// A tracing is true to scale only with both proofs of the print, whatever one of
// them says alone.
func TestPreview(t *testing.T) {
	for _, c := range []struct {
		scale float64
		tape  Length
		error float64
		why   string
	}{
		{0, 0, 0.5, "edges of the paper are not seen"},
		{0, Inches(8), 0.5, "edges of the paper are not seen"},
		{1, 0, 0.5, "nobody has said"},
		{0.94, Inches(8), 0.5, "printed at 94 %"},
		{0.99, Inches(8), 0.5, "printed at 99 %"},
		{1.1, Inches(8.8), 0.5, "printed at 110 %"},
		{1, Inches(7.5), 0.5, "by the tape"},
		{0, Inches(7.5), 0.5, "by the tape"},
		{1.002, Inches(8), 2.4, "wrong by 2.4 mm"},
		{1.002, Inches(8), 1.9, ""},
		{0.998, Inches(8 - 1.0/16), 1.9, ""},
	} {
		tracing := Tracing{PrintScale: c.scale, Error: c.error, Printed: Inches(8)}
		if got := tracing.Preview(c.tape); (got == "") != (c.why == "") || !strings.Contains(got, c.why) {
			t.Errorf("scale %g, tape %v: %q, want %q", c.scale, c.tape, got, c.why)
		}
	}
	part := Tracing{PrintScale: 1, Error: 0.5, Printed: Inches(8), Part: true}
	if got := part.Preview(Inches(8)); !strings.Contains(got, "part of the line") {
		t.Errorf("part of a line: %q", got)
	}
}
