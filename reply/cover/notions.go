package cover

import (
	"math"
	"slices"
)

// Notion is one thing to have at hand beside the cloth.
type Notion struct {
	What   string
	Count  int     // pieces, 0 where it is bought by length
	Length float64 // inches, 0 where it is counted
	For    string
}

// What the small things are reckoned from. From memory of sewing practice.
const (
	notionSpare  = 1.1  // bought longer by this factor
	tieSpacing   = 36.0 // inches between two tie-downs on a side
	tieLength    = 30.0 // webbing of one tie-down
	ventSpacing  = 96.0 // one vent for so much boat
	propOpening  = 24.0 // openings wider than this hold water without a prop
	barsPerSlit  = 2
	stemPatches  = 2
	eyeletsOfTie = 1
)

// notions lists what a cover takes beside cloth.
func notions(c Cover) []Notion {
	h := c.Hull
	ties := 2 * max(int(math.Round(h.Length()/tieSpacing)), 2)
	edge := 2 * sum(h.gunwaleLine().spans())
	list := []Notion{
		{What: "webbing", Length: float64(ties) * tieLength * notionSpare, For: "tie-downs, sewn to patches and tied to the boat"},
		{What: "eyelets", Count: ties * eyeletsOfTie, For: "tie-downs"},
		{What: "patches", Count: stemPatches + ties, For: "stems, and under each tie-down"},
		{What: "vents", Count: max(int(math.Round(h.Length()/ventSpacing)), 1), For: "along the top, hoods aft"},
	}
	if s := c.slit(); s != nil {
		list = append(list,
			Notion{What: "binding", Length: 2 * s.Length * notionSpare, For: "slit at the carry point"},
			Notion{What: "facings", Count: 1, For: "slit at the carry point"},
			Notion{What: "bar tacks", Count: barsPerSlit, For: "ends of the slit"})
	}
	if c.Entry.Length > 0 {
		list = append(list, Notion{What: "zip, two sliders", Length: c.Entry.Length, For: "entry"},
			Notion{What: "lap", Length: c.Entry.Length * notionSpare, For: "behind the zip, from the off-cut"})
	}
	if c.Cloth.Construction == TopAndSkirt {
		list = append(list, Notion{What: "cord", Length: edge * notionSpare, For: "hem casing"},
			Notion{What: "cord lock", Count: 1, For: "hem casing, at the stern"})
	}
	if slices.Max(h.Opening) > propOpening {
		list = append(list, Notion{What: "prop", Count: 1, For: "under the top at the greatest girth, against ponding"})
	}
	return list
}

// slit returns the cover's slit, nil for none.
func (c Cover) slit() *Slit {
	for _, p := range c.Panels {
		if p.Slit != nil {
			return p.Slit
		}
	}
	return nil
}
