package cover

import (
	"fmt"

	"fairtape/reply/cover/nest"
)

// Batch is several covers of one cloth on one roll.
type Batch struct {
	Sheets []*CutSheet
	Pieces []nest.Piece
	Lay    nest.Layout
	Alone  float64 // running length of the same covers laid one by one, inches
}

// Together lays several covers on one roll. The error is a *Refusal when they
// are not of one cloth.
func Together(sheets []*CutSheet) (Batch, error) {
	b := Batch{Sheets: sheets}
	for _, s := range sheets {
		c, first := s.Order.Cloth, sheets[0].Order.Cloth
		if c.Name != first.Name || c.Colour != first.Colour || c.UsableWidth != first.UsableWidth {
			return Batch{}, &Refusal{[]Reason{{"cloth", fmt.Sprintf("%s and %s are not cut from one roll", clothOf(first), clothOf(c))}}}
		}
		for _, p := range s.Pieces {
			p.Name = s.label() + ": " + p.Name
			b.Pieces = append(b.Pieces, p)
		}
		b.Alone += s.Lay.Length
	}
	var err error
	if len(sheets) > 0 {
		b.Lay, err = nest.Lay(b.Pieces, inches(sheets[0].Order.Cloth.UsableWidth))
	}
	if err != nil {
		return Batch{}, fmt.Errorf("lay the covers on one roll: %w", err)
	}
	return b, nil
}

func clothOf(c Cloth) string {
	if c.Colour == "" {
		return c.Name
	}
	return c.Name + ", " + c.Colour
}

// label tells a cover from the others on its roll.
func (s *CutSheet) label() string {
	for _, name := range []string{s.Job, s.Customer, s.Boat} {
		if name != "" {
			return name
		}
	}
	return fmt.Sprintf("sheet %d", s.Sheet)
}
