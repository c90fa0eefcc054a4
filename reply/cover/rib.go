package cover

import "math"

// Rib is a cross-section of the sketch of a boat.
type Rib struct {
	At      float64 // inches aft of the foremost point
	Section Section
	Keel    float64 // height of the keel above the bottom amidships
	Depth   float64
	Odd     bool // a reading differs from the fair curve by over half an inch
}

// Ribs sketches the boat as it was measured: the girths of each rib are the
// readings, not the curve's, so that a wrong number shows as a kink. Stations
// without both girths are left out.
func (s *CutSheet) Ribs() []Rib {
	h := s.Hull
	m := h.greatest()
	share := fullness(h.Opening[m], h.Girth[m], lowest(s.Ends[0], s.Ends[1]))
	var ribs []Rib
	for _, r := range s.Rows {
		u, w := r.Read[0], r.Read[1]-r.Read[0]
		if u <= 0 || w <= 0 {
			continue
		}
		w = math.Min(w, u)
		d := depth(w, u, share)
		ribs = append(ribs, Rib{
			At: r.At, Section: SketchSection(w, u, d), Keel: h.Keel[r.Place], Depth: d,
			Odd: math.Abs(u-r.Curve[0]) > FairDiffers || math.Abs(r.Read[1]-r.Curve[1]) > FairDiffers,
		})
	}
	return ribs
}
