package photo

import "math"

// onSheet returns the picture with nothing but its lightest sheet, whose edges
// go on where the table under it was: its grain looks like writing. ok is false
// where no sheet is plain to see.
func onSheet(light *plane) (sheet *plane, ok bool) {
	const (
		least   = 0.1 // of the picture
		inwards = 0.015
	)
	corners, share, ok := plainSheet(light)
	if !ok || share < least {
		return nil, false
	}
	var middle point
	for _, c := range corners {
		middle.x, middle.y = middle.x+c.x/4, middle.y+c.y/4
	}
	for i, c := range corners {
		corners[i] = point{c.x + inwards*(middle.x-c.x), c.y + inwards*(middle.y-c.y)}
	}
	sheet = newPlane(light.w, light.h)
	first, last := -1, -1
	for y := range light.h {
		x0, x1, ok := levelAcross(corners, float64(y)+0.5)
		a, b := max(int(x0), 0), min(int(x1), light.w-1)
		if !ok || a >= b {
			continue
		}
		if first < 0 {
			first = y
		}
		last = y
		from, to := light.pix[y*light.w:(y+1)*light.w], sheet.pix[y*light.w:(y+1)*light.w]
		for x := range to {
			to[x] = from[min(max(x, a), b)]
		}
	}
	if first < 0 {
		return nil, false
	}
	for y := range light.h {
		if near := min(max(y, first), last); near != y {
			copy(sheet.pix[y*light.w:(y+1)*light.w], sheet.pix[near*light.w:(near+1)*light.w])
		}
	}
	return sheet, true
}

// levelAcross is where a level line crosses a sheet.
func levelAcross(corners [4]point, y float64) (x0, x1 float64, ok bool) {
	x0, x1 = math.Inf(1), math.Inf(-1)
	for i, a := range corners {
		b := corners[(i+1)%4]
		if (a.y <= y) == (b.y <= y) {
			continue
		}
		x := a.x + (y-a.y)/(b.y-a.y)*(b.x-a.x)
		x0, x1 = min(x0, x), max(x1, x)
	}
	return x0, x1, x0 < x1
}
