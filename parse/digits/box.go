package digits

import "math"

// The picture of a box: 10 x 11 mm of paper, that is a digit box of 8 x 9 mm
// with 1 mm around it, at 4 pixels a millimetre.
const (
	Width  = 40
	Height = 44
)

// Box is the ink found in one digit box and just around it, row by row: 0 is
// bare paper and 1 the darkest ink. What is printed has been taken out as well
// as it could be.
type Box [Width * Height]float32

const (
	side = 32 // pixels the network sees, both ways

	// The ink is brought to this many of the side's pixels; small ink is not
	// blown up beyond what a 4 mm digit would be, so that a speck stays a speck.
	inkSide    = 22
	leastInk   = 16
	paperNoise = 0.15  // darkness that is not counted as ink when its bounds are sought
	endShare   = 0.015 // share of the ink that may lie beyond the bounds at either side
	palest     = 0.25  // ink paler than this is not made black: it may be noise
)

// view is a way to look at a box: how much the ink is moved, in pixels of the
// network, turned and stretched.
type view struct {
	dx, dy float64
	turn   float64 // radians
	size   float64 // times as large
	width  float64 // times as wide, beside that
}

// views are how a box is looked at: as it is, and in ways that change no digit.
// What a network of this size is surely wrong about, it mostly is in one of them
// alone.
var views = [...]view{
	{size: 1, width: 1},
	{size: 0.93, width: 1, turn: 0.09},
	{size: 1.05, width: 1, turn: -0.09},
	{size: 1, width: 1.08, dx: 1, dy: 0.5},
	{size: 1, width: 0.92, dx: -1, dy: -0.5},
}

// normalise centres the ink of a box and brings it to one size, as train.py
// does with what the network learns from, and then as a view has it.
func normalise(box *Box, v view) []float32 {
	var rows [Height]float64
	var columns [Width]float64
	total := 0.0
	for y := range Height {
		for x := range Width {
			if ink := float64(box[y*Width+x]) - paperNoise; ink > 0 {
				rows[y] += ink
				columns[x] += ink
				total += ink
			}
		}
	}
	top, bottom := 0.0, float64(Height)
	left, right := 0.0, float64(Width)
	if total >= 1e-3 {
		top, bottom = bounds(rows[:], total)
		left, right = bounds(columns[:], total)
	}
	step := max(bottom-top, right-left, leastInk) / inkSide / v.size
	centreX, centreY := (left+right)/2+v.dx*step, (top+bottom)/2+v.dy*step
	sin, cos := math.Sincos(v.turn)
	out := make([]float32, side*side)
	darkest := float32(palest)
	for y := range side {
		for x := range side {
			// Pixel centres map to pixel centres; beyond the box is paper.
			across, down := (float64(x)+0.5-side/2)*step/v.width, (float64(y)+0.5-side/2)*step
			ink := box.at(centreX+cos*across-sin*down-0.5, centreY+sin*across+cos*down-0.5)
			out[y*side+x] = ink
			darkest = max(darkest, ink)
		}
	}
	for i := range out {
		out[i] /= darkest
	}
	return out
}

// bounds returns where all but endShare of the mass at either side lies.
func bounds(mass []float64, total float64) (first, last float64) {
	sum := 0.0
	for _, m := range mass {
		sum += m
		share := sum / total
		if share < endShare {
			first++
		}
		if share < 1-endShare {
			last++
		}
	}
	return first, last + 1
}

// at returns the ink between pixels, bilinearly.
func (b *Box) at(x, y float64) float32 {
	x0, y0 := floor(x), floor(y)
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	return (1-fy)*((1-fx)*b.pixel(x0, y0)+fx*b.pixel(x0+1, y0)) +
		fy*((1-fx)*b.pixel(x0, y0+1)+fx*b.pixel(x0+1, y0+1))
}

func (b *Box) pixel(x, y int) float32 {
	if x < 0 || y < 0 || x >= Width || y >= Height {
		return 0
	}
	return b[y*Width+x]
}

func floor(x float64) int {
	i := int(x)
	if float64(i) > x {
		i--
	}
	return i
}
