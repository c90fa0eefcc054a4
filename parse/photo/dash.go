package photo

import "math"

// Some draw a dash through boxes that stay empty, and a stroke through a row. A
// dash is no digit.

const (
	// dashHigh and dashWide are how high a dash is at most and how wide at least,
	// in mm; a tilted one is as wide as high several times over.
	dashHigh = 2.2
	dashWide = 1.8
	dashFlat = 2.0
	// dashMiddle is how far from the middle of its box, as a share of the height,
	// a dash lies at most: the foot of a digit lies lower.
	dashMiddle = 0.3
)

// dash reports a box that holds but a dash.
func (s *strokes) dash(b placed, box int) bool {
	r, ink := b.rectOf(), s.inside[box].bounds
	wide, high := float64(ink.Dx())/perMM, float64(ink.Dy())/perMM
	off := math.Abs(float64(ink.Min.Y+ink.Max.Y)/2/perMM-(r.Y0+r.Y1)/2) / r.Height()
	return high <= dashHigh && wide >= dashWide && wide >= dashFlat*high && off <= dashMiddle
}

// dashed takes dashes for empty boxes, where there are so many that they are
// their writer's habit, and doubts single ones.
func dashed(boxes []figure, dashes []int) {
	for _, i := range dashes {
		if len(dashes) >= habitual {
			boxes[i] = figure{Blank: 1}
		} else {
			boxes[i] = doubted(boxes[i], maybeLine)
		}
	}
}
