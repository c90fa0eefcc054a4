package cover

import "math"

// Entry is how the cover goes on the boat.
type Entry struct {
	Where   string  // in words
	Seam    string  // the seam that is left open, "" for none
	From    float64 // inches aft of the foremost point
	To      float64
	Length  float64 // of the opening in the seam
	Rim     float64 // what passes: the girth of the open rim
	Passes  float64 // what has to pass: the greatest full girth
	Closure string
	Overlap float64 // of the lap behind the closure
}

// How an entry is laid out. From memory of sewing practice.
const (
	entryRoom   = 0.05 // the rim is so much longer than the greatest girth
	overlap     = 2.0  // the lap behind a closure, inches; it faces aft and down, to shed water
	entryClear  = 6.0  // cloth between slit and entry, inches
	entryToStem = 3.0  // the seam is sewn to so near the stern, inches
)

// enter finds the entry. A cover that closes around the boat is drawn over it
// from the bow; its rim, both sides of the open seam, has to pass the greatest
// girth. The error is a *Refusal.
func enter(h Hull, c Cloth, carry float64) (Entry, error) {
	greatest := h.Full(h.greatest())
	e := Entry{Passes: greatest, Overlap: overlap, Closure: "zip with a lap behind it"}
	if c.Construction == TopAndSkirt {
		e.Where, e.Closure, e.Overlap = "from above; the cord in the hem draws it tight", "cord lock at the stern", 0
		return e, nil
	}
	e.Length = math.Ceil(greatest * (1 + entryRoom) / 2)
	e.Rim = 2 * e.Length
	e.To = h.Length() - entryToStem
	e.From = e.To - e.Length
	e.Where, e.Seam = "over the bow; the top seam stays open towards the stern", "top seam"
	if c.Construction == HullAndTop {
		e.Where, e.Seam = "over the bow; the starboard gunwale seam stays open towards the stern", "starboard gunwale seam"
	}
	var no Refusal
	first := entryClear
	if carry > 0 {
		first += carry
	}
	no.unless(e.From >= first, "entry", "the rim has to pass %.0f in, so %.0f in of the %s stay open, and there is no room for that aft of the slit: the cover cannot go on; use top-and-skirt", greatest, e.Length, e.Seam)
	return e, no.orNil()
}
