package pdf

import (
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/structs"
)

// box is a rectangle on a page as it is shown: points (1/72 in) from the top
// left corner, y downwards.
type box struct {
	x0, y0, x1, y1 float64
}

func (b box) width() float64  { return b.x1 - b.x0 }
func (b box) height() float64 { return b.y1 - b.y0 }
func (b box) middle() float64 { return (b.y0 + b.y1) / 2 }

// holds reports whether the middle of the other lies inside.
func (b box) holds(o box) bool {
	x, y := (o.x0+o.x1)/2, (o.y0+o.y1)/2
	return x >= b.x0 && x <= b.x1 && y >= b.y0 && y <= b.y1
}

func (b box) area() float64 { return max(0, b.width()) * max(0, b.height()) }

func (b box) meet(o box) box {
	return box{max(b.x0, o.x0), max(b.y0, o.y0), min(b.x1, o.x1), min(b.y1, o.y1)}
}

func (b box) join(o box) box {
	return box{min(b.x0, o.x0), min(b.y0, o.y0), max(b.x1, o.x1), max(b.y1, o.y1)}
}

// overlap is how much of their heights two boxes share, relative to the lower.
func (b box) overlap(o box) float64 {
	low := min(b.height(), o.height())
	if low <= 0 {
		return 0
	}
	return (min(b.y1, o.y1) - max(b.y0, o.y0)) / low
}

// view turns the coordinates of a page's content into those of the page shown.
type view struct {
	frame    structs.FPDF_FS_RECTF // of the page, in its own coordinates
	rotation enums.FPDF_PAGE_ROTATION
}

func (v view) point(x, y float64) (float64, float64) {
	left, right := float64(v.frame.Left), float64(v.frame.Right)
	bottom, top := float64(v.frame.Bottom), float64(v.frame.Top)
	switch v.rotation {
	case enums.FPDF_PAGE_ROTATION_90_CW:
		return y - bottom, x - left
	case enums.FPDF_PAGE_ROTATION_180_CW:
		return right - x, y - bottom
	case enums.FPDF_PAGE_ROTATION_270_CW:
		return top - y, right - x
	}
	return x - left, top - y
}

func (v view) box(left, bottom, right, top float64) box {
	xa, ya := v.point(left, bottom)
	xb, yb := v.point(right, top)
	return box{min(xa, xb), min(ya, yb), max(xa, xb), max(ya, yb)}
}
