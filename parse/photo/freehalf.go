package photo

import "math"

// A half behind a number is often one sign: a raised 1, a stroke and a 2 at the
// foot, or a 1 above a level stroke and a 2. They touch or not, and together are
// about as high as a digit.

const (
	halfLow, halfHigh  = 0.75, 1.5 // heights of a digit that it is high
	halfThin, halfWide = 0.45, 1.9 // and wide
	halfPieces         = 4         // it may have come apart into
	halfStroke         = 0.92      // of its height that the stroke is seen over
	halfLean           = 0.12      // heights that the stroke leans at least
	strokeHalfWidth    = 0.09      // heights to both sides of the stroke's middle
	leastOfHalf        = 0.28      // of its height that the 1 and the 2 have
	raised             = 0.68      // of its height that a raised 1 and a 2 at the foot have at most
	leanOfTall         = 0.3       // of its height that a stroke leans between two that are as high
	likelyTwo, sureTwo = 0.7, 0.98 // belief in the 2, and in one that is as high
	behind             = 1.6       // heights of a digit from the number before
)

// halfAt reads the half that the shapes of a line make from i on, and says how
// many they are, 0 for none: as one sign, or as three where they are plain to see.
func halfAt(f *freePage, line []shape, i int, usual float64, see look) (signs []freeGlyph, n int) {
	for n := min(halfPieces, len(line)-i); n > 0; n-- {
		s := line[i]
		for _, o := range line[i+1 : i+n] {
			s.bounds = s.bounds.union(o.bounds)
			s.pixels = append(s.pixels[:len(s.pixels):len(s.pixels)], o.pixels...)
		}
		sure := f.halfOf(s, n, see)
		if sure == 0 {
			continue
		}
		var plain []freeGlyph
		for _, o := range line[i : i+n] {
			plain = append(plain, signsOf(f, o, line, usual, see)...)
		}
		if len(plain) == 3 && isPart(plain) {
			return plain, n
		}
		return []freeGlyph{{shape: s, kind: glyphHalf, sure: sure}}, n
	}
	return nil, 0
}

// halfOf is the belief that a shape of so many pieces is a half, of either kind.
func (f *freePage) halfOf(s shape, pieces int, see look) float64 {
	b := s.bounds
	if h := b.height() / f.height; h < halfLow || h > halfHigh {
		return 0
	}
	if w := b.width() / f.height; w < halfThin || w > halfWide {
		return 0
	}
	return max(f.leaningHalf(s, pieces, see), f.stackedHalf(s, see))
}

// leaningHalf is the belief in a 1, a stroke and a 2 beside each other.
func (f *freePage) leaningHalf(s shape, pieces int, see look) float64 {
	b := s.bounds
	at, lean, ok := f.strokeOf(s)
	if !ok {
		return 0
	}
	left, right := f.besides(s, func(x, y float64) float64 { return x - at(y) })
	if left.bounds.y0 > b.y0+0.35*b.height() || right.bounds.y1 < b.y1-0.2*b.height() {
		return 0
	}
	tall := min(left.bounds.height(), right.bounds.height()) > raised*b.height()
	if tall && (pieces > 2 || lean < leanOfTall*b.height()) {
		return 0 // three signs, or a 1 between a 1 and a 2
	}
	sure := f.oneAndTwo(s, left, right, see)
	if tall && sure < sureTwo {
		return 0
	}
	return sure
}

// stackedHalf is the belief in a 1, a level stroke and a 2 below each other.
func (f *freePage) stackedHalf(s shape, see look) float64 {
	const (
		narrow   = 0.8        // of its height, that it is wide
		from, to = 0.35, 0.65 // of its height, where its stroke is
		across   = 0.8        // of its width that the stroke is seen over
	)
	b, w := s.bounds, f.straight.w
	if b.width() > narrow*b.height() {
		return 0
	}
	rows := make([]int, int(b.height())+1)
	for _, i := range s.pixels {
		rows[i/w-int(b.y0)]++
	}
	bar := -1
	for y := int(from * b.height()); y < int(to*b.height()); y++ {
		if float64(rows[y]) >= across*b.width() && (bar < 0 || rows[y] > rows[bar]) {
			bar = y
		}
	}
	if bar < 0 {
		return 0
	}
	above, below := f.besides(s, func(_, y float64) float64 { return y - b.y0 - float64(bar) - 0.5 })
	return f.oneAndTwo(s, above, below, see)
}

// oneAndTwo is the belief that two pieces of a half are its 1 and its 2.
func (f *freePage) oneAndTwo(s, one, two shape, see look) float64 {
	least := leastOfHalf * s.bounds.height()
	if one.bounds.height() < least || two.bounds.height() < least {
		return 0
	}
	sure := f.sized(two, see).Digit[2]
	if sure < likelyTwo {
		return 0
	}
	if narrow := one.bounds.width() < 0.4*one.bounds.height(); narrow {
		return sure
	}
	if d, p := f.sized(one, see).Best(); d == 1 && p > likely {
		return sure * p
	}
	return 0
}

// sized reads a small digit as if it were as high as the others.
func (f *freePage) sized(s shape, see look) figure {
	small := *f
	small.height = s.bounds.height()
	return inked(see(small.box(s)))
}

// strokeOf finds the straight stroke that leans over all of a shape's height, and
// where it stands in each of its rows.
func (f *freePage) strokeOf(s shape) (at func(y float64) float64, lean float64, ok bool) {
	b, w := s.bounds, f.straight.w
	ink := make(map[int]bool, len(s.pixels))
	for _, i := range s.pixels {
		ink[i] = true
	}
	best := float32(0)
	for foot := b.x0; foot < b.x1; foot++ {
		for top := foot + halfLean*f.height; top < b.x1; top++ {
			line := func(y float64) float64 { return foot + (top-foot)*(b.y1-y)/b.height() }
			seen, rows, sum := 0, 0, float32(0)
			for y := b.y0; y < b.y1; y++ {
				rows++
				if i := int(y)*w + int(line(y+0.5)); ink[i] {
					seen++
					sum += f.dark[i]
				}
				if float64(rows-seen) > (1-halfStroke)*b.height() {
					break
				}
			}
			if float64(seen) >= halfStroke*b.height() && sum > best {
				best, at, lean, ok = sum, line, top-foot, true
			}
		}
	}
	return at, lean, ok
}

// besides are the largest pieces of a shape at both sides of its stroke.
func (f *freePage) besides(s shape, off func(x, y float64) float64) (before, behind shape) {
	w := f.straight.w
	side := func(sign float64) shape {
		var pixels []int
		for _, i := range s.pixels {
			if sign*off(float64(i%w)+0.5, float64(i/w)+0.5) > strokeHalfWidth*f.height {
				pixels = append(pixels, i)
			}
		}
		return largest(pixels, w)
	}
	return side(-1), side(1)
}

// largest is the largest piece of ink that hangs together.
func largest(pixels []int, w int) shape {
	none := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	best := shape{bounds: none}
	ink := map[int]bool{}
	for _, i := range pixels {
		ink[i] = true
	}
	for _, start := range pixels {
		if !ink[start] {
			continue
		}
		s := shape{bounds: none}
		ink[start] = false
		for stack := []int{start}; len(stack) > 0; {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			x, y := float64(i%w), float64(i/w)
			s.pixels, s.bounds = append(s.pixels, i), s.bounds.union(box{x, y, x + 1, y + 1})
			for _, k := range around(i, w) {
				if ink[k] {
					ink[k] = false
					stack = append(stack, k)
				}
			}
		}
		if len(s.pixels) > len(best.pixels) {
			best = s
		}
	}
	return best
}
