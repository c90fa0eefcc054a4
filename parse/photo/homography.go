package photo

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

type point struct{ x, y float64 }

// homography maps points of one plane to another, row by row; the last number
// is 1.
type homography [9]float64

func (h *homography) at(x, y float64) (float64, float64) {
	w := h[6]*x + h[7]*y + h[8]
	return (h[0]*x + h[1]*y + h[2]) / w, (h[3]*x + h[4]*y + h[5]) / w
}

func (h *homography) point(p point) point {
	x, y := h.at(p.x, p.y)
	return point{x, y}
}

var errFlat = errors.New("the points lie on a line")

// solveHomography maps four points to four others, exactly (Hartley, Zisserman,
// Multiple View Geometry, 4.1, with the last number set to 1).
func solveHomography(from, to [4]point) (homography, error) {
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i := range 4 {
		x, y, u, v := from[i].x, from[i].y, to[i].x, to[i].y
		a.SetRow(2*i, []float64{x, y, 1, 0, 0, 0, -u * x, -u * y})
		a.SetRow(2*i+1, []float64{0, 0, 0, x, y, 1, -v * x, -v * y})
		b.SetVec(2*i, u)
		b.SetVec(2*i+1, v)
	}
	var solved mat.VecDense
	if err := solved.SolveVec(a, b); err != nil {
		return homography{}, errFlat
	}
	var h homography
	for i := range 8 {
		h[i] = solved.AtVec(i)
		if math.IsNaN(h[i]) || math.IsInf(h[i], 0) {
			return homography{}, errFlat
		}
	}
	h[8] = 1
	return h, nil
}
