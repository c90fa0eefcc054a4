package phototest

import "math"

type point struct{ x, y float64 }

// skeleton is how a digit is drawn, in strokes through points of a unit square,
// x to the right and y down; width is its usual breadth over its height.
type skeleton struct {
	width   float64
	strokes [][]point
}

func circle(cx, cy, rx, ry, from, to float64) []point {
	const n = 13
	var out []point
	for i := range n {
		a := (from + (to-from)*float64(i)/(n-1) - 90) * math.Pi / 180
		out = append(out, point{cx + rx*math.Cos(a), cy + ry*math.Sin(a)})
	}
	return out
}

// skeletons are digits as they are taught and as they are written in haste, two
// to four of each, drawn for these tests alone: no reader learns from them.
var skeletons = [10][]skeleton{
	{
		{0.60, [][]point{circle(0.5, 0.5, 0.48, 0.5, -15, 350)}},
		{0.68, [][]point{circle(0.5, 0.5, 0.48, 0.5, 40, -318)}},
	},
	{
		{0.10, [][]point{{{0.5, 0}, {0.48, 0.5}, {0.5, 1}}}},
		{0.36, [][]point{{{0.05, 0.3}, {0.72, 0}}, {{0.72, 0}, {0.66, 1}}}},
		{0.30, [][]point{{{0.1, 0.2}, {0.5, 0.08}, {0.7, 0}}, {{0.7, 0}, {0.7, 1}}}},
	},
	{
		{0.60, [][]point{{{0.06, 0.22}, {0.34, 0}, {0.78, 0.08}, {0.82, 0.36}, {0.4, 0.76}, {0.04, 0.99}}, {{0.04, 0.99}, {0.5, 0.96}, {0.96, 1}}}},
		{0.68, [][]point{{{0.1, 0.2}, {0.45, 0.02}, {0.84, 0.2}, {0.6, 0.62}, {0.18, 0.95}, {0.1, 0.84}, {0.3, 0.82}, {0.6, 0.96}, {0.98, 0.92}}}},
	},
	{
		{0.56, [][]point{{{0.08, 0.1}, {0.46, 0}, {0.8, 0.16}, {0.66, 0.4}, {0.34, 0.46}}, {{0.34, 0.46}, {0.82, 0.56}, {0.86, 0.84}, {0.46, 1}, {0.04, 0.9}}}},
		{0.58, [][]point{{{0.08, 0.04}, {0.86, 0.02}}, {{0.86, 0.02}, {0.38, 0.4}}, {{0.38, 0.4}, {0.78, 0.46}, {0.92, 0.72}, {0.6, 1}, {0.05, 0.92}}}},
	},
	{
		{0.62, [][]point{{{0.3, 0}, {0.04, 0.58}}, {{0.04, 0.58}, {0.96, 0.56}}, {{0.66, 0.26}, {0.62, 1}}}},
		{0.62, [][]point{{{0.7, 0}, {0.04, 0.64}}, {{0.04, 0.64}, {0.96, 0.64}}, {{0.7, 0}, {0.68, 1}}}},
	},
	{
		{0.58, [][]point{{{0.18, 0.04}, {0.12, 0.42}}, {{0.12, 0.42}, {0.5, 0.34}, {0.88, 0.58}, {0.72, 0.92}, {0.34, 1}, {0.04, 0.9}}, {{0.18, 0.04}, {0.9, 0.02}}}},
		{0.60, [][]point{{{0.92, 0.02}, {0.26, 0.04}}, {{0.26, 0.04}, {0.16, 0.4}}, {{0.16, 0.4}, {0.56, 0.36}, {0.88, 0.62}, {0.66, 0.96}, {0.06, 0.96}}}},
	},
	{
		{0.56, [][]point{{{0.7, 0}, {0.26, 0.28}, {0.06, 0.66}, {0.3, 0.98}, {0.74, 0.94}, {0.86, 0.7}, {0.56, 0.5}, {0.12, 0.7}}}},
		{0.50, [][]point{{{0.55, 0}, {0.16, 0.42}, {0.06, 0.74}, {0.34, 1}, {0.78, 0.9}, {0.78, 0.64}, {0.4, 0.56}, {0.1, 0.76}}}},
	},
	{
		{0.58, [][]point{{{0.05, 0.04}, {0.94, 0.02}}, {{0.94, 0.02}, {0.56, 0.5}, {0.4, 1}}}},
		{0.60, [][]point{{{0.05, 0.05}, {0.94, 0.03}}, {{0.94, 0.03}, {0.42, 1}}, {{0.24, 0.5}, {0.82, 0.48}}}},
	},
	{
		{0.56, [][]point{{{0.78, 0.14}, {0.5, 0}, {0.18, 0.16}, {0.32, 0.4}, {0.7, 0.58}, {0.84, 0.82}, {0.5, 1}, {0.14, 0.82}, {0.3, 0.58}, {0.7, 0.38}, {0.78, 0.14}}}},
		{0.56, [][]point{circle(0.5, 0.25, 0.36, 0.25, 0, 362), circle(0.5, 0.74, 0.46, 0.26, 0, 362)}},
	},
	{
		{0.56, [][]point{circle(0.44, 0.27, 0.4, 0.27, 70, 428), {{0.84, 0.16}, {0.8, 1}}}},
		{0.58, [][]point{{{0.84, 0.18}, {0.5, 0}, {0.08, 0.24}, {0.36, 0.5}, {0.8, 0.32}, {0.84, 0.18}}, {{0.84, 0.18}, {0.84, 0.66}, {0.5, 1}, {0.12, 0.92}}}},
	},
}

// smooth is n points of a Catmull-Rom line through the given ones.
func smooth(through []point, n int) []point {
	if len(through) == 2 {
		a, b := through[0], through[1]
		out := make([]point, n)
		for i := range out {
			t := float64(i) / float64(n-1)
			out[i] = point{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t}
		}
		return out
	}
	last := len(through) - 1
	get := func(i int) point {
		switch {
		case i < 0:
			return point{2*through[0].x - through[1].x, 2*through[0].y - through[1].y}
		case i > last:
			return point{2*through[last].x - through[last-1].x, 2*through[last].y - through[last-1].y}
		}
		return through[i]
	}
	out := make([]point, n)
	for k := range out {
		t := float64(k) / float64(n-1) * float64(last)
		i := min(int(t), last-1)
		u := t - float64(i)
		a, b, c, d := get(i-1), get(i), get(i+1), get(i+2)
		line := func(a, b, c, d float64) float64 {
			return 0.5 * (2*b + (c-a)*u + (2*a-5*b+4*c-d)*u*u + (3*b-a-3*c+d)*u*u*u)
		}
		out[k] = point{line(a.x, b.x, c.x, d.x), line(a.y, b.y, c.y, d.y)}
	}
	return out
}
