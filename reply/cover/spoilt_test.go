package cover

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/known"
)

// A draft of any spoilt survey is a sheet whose numbers are numbers, or a
// refusal with a reason.
func TestDraftsOfSpoiltSurveys(t *testing.T) {
	slips := append(append(known.SingleSlips(), known.ColumnCauses()...), known.TwoSlips)
	for i, slip := range slips {
		rng := rand.New(rand.NewPCG(uint64(i), 11))
		unit := []parse.Unit{parse.Inch, parse.Centimetre}[i%2]
		survey, _, ok := known.Draw(rng, known.Ordinary, known.HomeTape(unit)).Spoil(rng, slip)
		if !ok {
			continue
		}
		r := validate.Check(survey, nil, validate.Costs{Ask: 1, Miss: 30})
		for _, c := range []Construction{Sides, HullAndTop, TopAndSkirt}[i%3 : i%3+1] {
			order := someOrder(c)
			order.Draft = true
			order.Cloth.Join = parse.Inches(25)
			s, err := Make(r, order)
			var refused *Refusal
			switch {
			case errors.As(err, &refused):
				if refused.Reasons[0].Key == "" || refused.Reasons[0].Why == "" {
					t.Errorf("%s, %s: refused without a reason", slip, c)
				}
				continue
			case err != nil:
				t.Errorf("%s, %s: %v", slip, c, err)
				continue
			}
			for _, p := range s.Panels {
				for _, q := range append(p.Cut, p.Sewn...) {
					if math.IsNaN(q.X+q.Y) || math.IsInf(q.X+q.Y, 0) {
						t.Fatalf("%s, %s: %s has a point at %v", slip, c, p.Name, q)
					}
				}
			}
			for _, rib := range s.Ribs() {
				if math.IsNaN(rib.Depth) || rib.Depth < 0 {
					t.Errorf("%s, %s: a rib at %g has a depth of %g", slip, c, rib.At, rib.Depth)
				}
			}
		}
	}
}
