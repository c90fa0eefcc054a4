package cover

import (
	"fmt"
	"math"
	"strings"

	"fairtape/parse"
)

// Construction is a way to make a cover of panels.
type Construction string

// The constructions.
const (
	// Sides are two mirrored panels, seamed along keel and top.
	Sides Construction = "sides"
	// HullAndTop is a panel as wide as the hull girth and one as wide as the
	// opening, seamed at the gunwales.
	HullAndTop Construction = "hull-and-top"
	// TopAndSkirt covers the opening and hangs down at both sides.
	TopAndSkirt Construction = "top-and-skirt"
)

// Cloth is a kind of cloth and how covers are made of it. Reductions are
// fractions by which a finished cover is smaller than measured; negative ones
// give room.
type Cloth struct {
	Name, Colour    string
	Construction    Construction
	RollWidth       parse.Length
	UsableWidth     parse.Length
	GirthReduction  float64
	LengthReduction float64
	StretchAcross   float64 // as a fraction of the relaxed width
	SeamAllowance   parse.Length
	Hem             parse.Length
	Slit            parse.Length // length of the slit at the carry point
	Join            parse.Length // a panel wider than the roll is joined so far from its datum; 0: it is refused
}

// Limits of settings that could be meant. They keep slips of the pen out (5 in
// for 1/2 in); what is wise is the shop's to say.
const (
	mostReduction = 0.2 // either way
	mostOfStretch = 0.5 // more, and a cover does not go on
	mostAllowance = 3.0 // inches
	mostHem       = 6.0
	mostSlit      = 24.0
	leastRoll     = 12.0
	mostRoll      = 240.0
)

// Reason is why no sheet is made.
type Reason struct {
	Key string // a setting of the cloth, or what it is about
	Why string // one sentence for a person of the shop
}

// Refusal says why no sheet is made.
type Refusal struct{ Reasons []Reason }

// Error lists the reasons.
func (r *Refusal) Error() string {
	var lines []string
	for _, why := range r.Reasons {
		lines = append(lines, why.Key+": "+why.Why)
	}
	return "no cut sheet: " + strings.Join(lines, "; ")
}

func (r *Refusal) unless(ok bool, key, format string, args ...any) {
	if !ok {
		r.Reasons = append(r.Reasons, Reason{key, fmt.Sprintf(format, args...)})
	}
}

// orNil returns the refusal when there is a reason for it.
func (r *Refusal) orNil() error {
	if len(r.Reasons) == 0 {
		return nil
	}
	return r
}

// Check returns a *Refusal when the cloth's settings cannot be meant or would
// make a cover that does not go on.
func (c Cloth) Check() error {
	var r Refusal
	switch c.Construction {
	case Sides, HullAndTop, TopAndSkirt:
	default:
		r.unless(false, "construction", "%q is none of sides, hull-and-top, top-and-skirt", c.Construction)
	}
	within := func(key string, l parse.Length, least, most float64) {
		in := l.In(parse.Inch)
		r.unless(in >= least && in <= most, key, "%g in is not between %g in and %g in", in, least, most)
	}
	within("roll_width", c.RollWidth, leastRoll, mostRoll)
	within("usable_width", c.UsableWidth, leastRoll, mostRoll)
	r.unless(c.UsableWidth <= c.RollWidth, "usable_width", "wider than the roll")
	within("seam_allowance", c.SeamAllowance, 0, mostAllowance)
	within("hem", c.Hem, 0, mostHem)
	within("slit", c.Slit, 0, mostSlit)
	within("join", c.Join, 0, mostRoll)
	for key, v := range map[string]float64{"girth_reduction": c.GirthReduction, "length_reduction": c.LengthReduction} {
		r.unless(math.Abs(v) < mostReduction, key, "%g is no fraction of a girth; 0.02 makes a cover 2 %% smaller than measured", v)
	}
	r.unless(c.StretchAcross >= 0 && c.StretchAcross < 1, "stretch_across", "%g is no fraction; 0.06 is a stretch of 6 %%", c.StretchAcross)
	r.unless(c.GirthReduction <= 0 || c.GirthReduction <= mostOfStretch*c.StretchAcross, "girth_reduction",
		"%s is over half of the %s that the cloth stretches: the cover would not go on", percent(c.GirthReduction), percent(c.StretchAcross))
	r.sort()
	return r.orNil()
}
