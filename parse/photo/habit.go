package photo

import "fairtape/parse/form"

// habit is how the writer of a page fills boxes that a number does not need:
// the form asks for the last digit in the last box, and nothing before the
// first.
type habit struct {
	left   bool // numbers begin in the first box
	padded bool // zeros fill the boxes before a number
}

const (
	// habitual is how many numbers at least make a habit: a page in centimetres has
	// three that are under 100. mostly is how many times as many as are written as
	// the form asks.
	habitual = 3
	mostly   = 4
	// astrayByHabit is misplaced for who always begins in the first box.
	astrayByHabit = 0.995
)

// habitOf judges a page's numbers together, each given by its boxes. What one
// number leaves open, whether a digit was not seen or a zero is a bad 6, the
// others tell.
func habitOf(numbers map[int][]figure) habit {
	var asked, left, padded int
	for _, boxes := range numbers {
		first, last := boxes[0], boxes[len(boxes)-1]
		switch {
		case len(boxes) == 1:
		case first.Blank < 0.5 && last.Blank >= 0.5:
			left++
		case first.Blank >= 0.5 && last.Blank < 0.5:
			asked++
		case first.Digit[0] > 0.5 && last.Blank < 0.5:
			padded++
		}
	}
	usual := func(n int) bool { return n >= habitual && n >= mostly*asked }
	return habit{left: usual(left), padded: usual(padded)}
}

// misplaced is the probability that a number which does not end in the last box
// is all of the number.
func (h habit) misplaced() float64 {
	if h.left {
		return astrayByHabit
	}
	return misplaced
}

// leadingZero is how often, against what the digits say, a number begins with a
// zero that is not all of it.
func (h habit) leadingZero() float64 {
	if h.padded {
		return 1
	}
	return leadingZero
}

// numbers are the boxes of each number of the page, by field.
func (page *Page) numbers(boxes []figure) map[int][]figure {
	out := map[int][]figure{}
	for i, b := range page.boxes {
		if page.view.layout.Fields[b.field].Kind == form.Digits {
			out[b.field] = append(out[b.field], boxes[i])
		}
	}
	return out
}
