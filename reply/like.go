package reply

import (
	"fmt"
	"math"
	"strings"

	"fairtape/parse"
	"fairtape/validate/history"
)

// mostDiffer is how many single differences from another boat are named.
const mostDiffer = 3

// likeLine tells the shop which boat with a cover that fits is nearest, and how
// the survey differs from it.
func likeLine(l history.Likeness, unit parse.Unit) string {
	lang := languages[English]
	rounded := func(x parse.Length) string { // to what a tape shows: halves, whole centimetres
		step := parse.Inches(0.5)
		if unit == parse.Centimetre {
			step = parse.Centimetres(1)
		}
		return lang.length(parse.Length(math.Round(math.Abs(float64(x/step))))*step, unit)
	}
	more := func(x parse.Length) string {
		if x < 0 {
			return rounded(x) + " less"
		}
		return rounded(x) + " more"
	}
	boat := fmt.Sprintf("job %d", l.Boat.Job)
	if name := cut(Line(l.Boat.Survey.Boat), mostName); name != "" {
		boat += fmt.Sprintf(" (%s)", name)
	}
	var differ []string
	switch l.Rows {
	case history.TowardsBow, history.TowardsStern:
		differ = append(differ, "all rows look written one station too far "+string(l.Rows))
	case history.FromStern:
		differ = append(differ, "the rows look counted from the stern")
	}
	switch {
	case l.OffHull != 0 && l.OffFull != 0:
		differ = append(differ, "all hull girths are "+more(l.OffHull)+" and all full girths "+more(l.OffFull))
	case l.OffHull != 0:
		differ = append(differ, "all hull girths are "+more(l.OffHull))
	case l.OffFull != 0:
		differ = append(differ, "all full girths are "+more(l.OffFull))
	}
	for i, d := range l.Differ {
		if i == mostDiffer {
			differ = append(differ, fmt.Sprintf("and %d more differ", len(l.Differ)-mostDiffer))
			break
		}
		differ = append(differ, cellName(d.Cell, unit)+" is "+more(d.More))
	}
	line := "like " + boat + ", whose cover fits"
	if len(differ) > 0 {
		line += ", but " + strings.Join(differ, "; ")
	}
	return plainSpaces([]string{line})[0]
}
