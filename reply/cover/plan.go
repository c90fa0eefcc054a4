package cover

import (
	"fmt"
	"math"

	"fairtape/parse"
)

func inches(l parse.Length) float64 { return l.In(parse.Inch) }

// plan is a cover in the making.
type plan struct {
	hull  Hull
	cloth Cloth
	slit  *Slit
}

// Request is what a cover is made from beside the cloth. Lengths are inches.
type Request struct {
	Hull     Hull
	Stations []float64   // where the boat was measured, rising
	Ends     [2]float64  // heights of bow and stern, 0 where not known
	Carry    float64     // the carry point, 0 for none
	Profiles [2]*Profile // of bow and stern, where tracings were read
}

// Cover is a cover laid flat.
type Cover struct {
	Hull    Hull
	Cloth   Cloth
	Panels  []Panel
	Transom *Transom // nil for a pointed stern
	Entry   Entry
	Lines   []Sewn // the boat's lines, sewn back
	Seams   []Joint
	Notes   []string // for the cutter, worst first
}

// Design makes the panels of a cover. The error is a *Refusal when no cover can
// be made so.
func Design(r Request, cloth Cloth) (Cover, error) {
	if err := cloth.Check(); err != nil {
		return Cover{}, err
	}
	if err := r.check(); err != nil {
		return Cover{}, err
	}
	h := r.Hull
	entry, err := enter(h, cloth, r.Carry)
	if err != nil {
		return Cover{}, err
	}
	c := Cover{Hull: h, Cloth: cloth, Entry: entry}
	p := plan{hull: h, cloth: cloth}
	p.slit, c.Notes = carrySlit(h, cloth, r.Carry)
	stations := make([]int, len(r.Stations))
	for i, x := range r.Stations {
		stations[i] = h.index(x)
	}
	for _, panel := range p.panels() {
		c.Panels = append(c.Panels, panel.finish(h, stations, r.Ends, r.Profiles).joined(cloth))
	}
	c.Lines = sewn(c.Panels)
	c.Seams = seams(c.Panels)
	return c, nil
}

// leastStations is how few stations a panel can be marked by.
const leastStations = 2

// check refuses what is no boat.
func (r Request) check() error {
	var no Refusal
	h := r.Hull
	no.unless(len(h.X) > 2, "boat", "there is no fair curve to cut from")
	no.unless(len(r.Stations) >= leastStations, "boat", "%d stations are too few to mark a panel by", len(r.Stations))
	if len(no.Reasons) > 0 {
		return &no
	}
	for i := range h.X {
		for _, v := range []float64{h.Girth[i], h.Opening[i], h.Sheer[i], h.Keel[i]} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				no.unless(false, "boat", "the fair curve has no value at %g in", h.X[i])
				return &no
			}
		}
		if h.Girth[i] < 0 || h.Opening[i] < 0 {
			no.unless(false, "boat", "the fair curve is below zero at %g in", h.X[i])
			return &no
		}
	}
	return nil
}

// skirtDrop is how far a skirt hangs down below the gunwale, in inches, and
// skirtShare the most of the half girth that it takes near the ends. From
// memory of sewing practice.
const (
	skirtDrop  = 6.0
	skirtShare = 0.45
)

func (p plan) panels() []Panel {
	h, c := p.hull, p.cloth
	allow := inches(c.SeamAllowance)
	switch c.Construction {
	case HullAndTop:
		hull := p.double("Hull", "keel line",
			[]rail{p.on(KeelLine, h.keelLine()), p.on(GunwaleLine, h.gunwaleLine())}, half(h.Girth))
		top := p.double("Top", "middle of the top",
			[]rail{p.on(TopLine, h.topLine()), p.on(GunwaleLine, h.gunwaleLine())}, half(h.Opening))
		return []Panel{
			hull.edged("starboard gunwale seam", "port gunwale seam", Seamed, allow),
			top.edged("port gunwale seam", "starboard gunwale seam", Seamed, allow).athwart(h, p.slit),
		}
	case TopAndSkirt:
		drop := make([]float64, len(h.X))
		for i := range drop {
			drop[i] = min(skirtDrop, skirtShare*h.Girth[i])
		}
		top := p.double("Top with skirt", "middle of the top",
			[]rail{p.on(TopLine, h.topLine()), p.on(GunwaleLine, h.gunwaleLine()), p.on(SkirtLine, h.skirtLine(drop))},
			half(h.Opening), drop)
		return []Panel{top.edged("port hem", "starboard hem", Hemmed, inches(c.Hem)).athwart(h, p.slit)}
	}
	starboard := p.side()
	port := starboard
	starboard.Name, port.Name, port.Mirrored = "Starboard side", "Port side", true
	return []Panel{starboard, port}
}

// The slit at the carry point: a hand has to pass, and the cloth at its ends
// has to hold. From the trade: a hand wide, at most the opening there less 2 in.
const (
	leastSlit  = 4.0
	slitMargin = 2.0
)

// carrySlit returns the slit at the carry point, nil and a note for none.
func carrySlit(h Hull, c Cloth, carry float64) (*Slit, []string) {
	if carry <= 0 {
		return nil, []string{"No carry point was given: no slit is marked."}
	}
	at := h.index(carry)
	long := min(inches(c.Slit), h.Opening[at]-slitMargin)
	if long < min(leastSlit, inches(c.Slit)) {
		return nil, []string{fmt.Sprintf("No slit at the carry point: the opening there is only %.1f in.", h.Opening[at])}
	}
	return &Slit{At: h.X[at], Length: long}, nil
}
