package picture

import (
	"math"
	"slices"
	"strings"

	"fairtape/parse"
)

// phrasebook holds the customer's picture's words in one language.
type phrasebook struct {
	bow, stern           string
	hullGirth, fullGirth []string // lines beside a cross-section
	overDeck             []string // full girth of a decked boat
	feet, centimetres    string
	drawing, ringed      string
	and, at              string
	names                map[parse.Measure]string
}

func phrases(language string) phrasebook {
	if language == "fr" {
		return phrasebook{
			bow: "avant", stern: "arrière",
			hullGirth: []string{"tour de coque :", "d’un plat-bord", "à l’autre,", "par-dessous"},
			fullGirth: []string{"tour complet :", "par-dessous,", "puis tout droit", "par-dessus"},
			overDeck:  []string{"tour complet :", "par-dessous, puis", "par-dessus le pont"},
			feet:      "pieds depuis l’avant", centimetres: "cm depuis l’avant",
			drawing: "Dessin du bateau vu de côté, l’avant à gauche, avec les stations le long d’une ficelle.",
			ringed:  "Entouré, à mesurer : ",
			and:     "et", at: " à ",
			names: map[parse.Measure]string{
				parse.HullGirth: "le tour de coque", parse.FullGirth: "le tour complet", parse.MeasurePair: "les deux tours",
				parse.LengthOverall: "la longueur hors tout", parse.BowHeight: "la hauteur de l’avant",
				parse.SternHeight: "la hauteur de l’arrière", parse.CarryPoint: "le point de portage",
				parse.GreatestAt: "l’endroit du plus grand tour", parse.GreatestHullGirth: "le plus grand tour de coque",
				parse.GreatestFullGirth: "le plus grand tour complet", parse.GreatestPair: "les deux plus grands tours",
				parse.GreatestOpening:  "l’ouverture au plus grand tour",
				parse.TransomHullGirth: "le tour de coque au tableau", parse.TransomFullGirth: "le tour complet au tableau",
				parse.TransomPair: "les deux tours au tableau",
			},
		}
	}
	return phrasebook{
		bow: "bow", stern: "stern",
		hullGirth: []string{"hull girth:", "one gunwale,", "under the hull,", "to the other"},
		fullGirth: []string{"full girth:", "under the hull,", "then straight", "across the top"},
		overDeck:  []string{"full girth:", "under the hull,", "then over the deck"},
		feet:      "feet from the bow", centimetres: "cm from the bow",
		drawing: "Drawing of the boat from the side, bow on the left, with the stations along a string.",
		ringed:  "Ringed, to be measured: ",
		and:     "and", at: " at ",
		names: map[parse.Measure]string{
			parse.HullGirth: "hull girth", parse.FullGirth: "full girth", parse.MeasurePair: "both girths",
			parse.LengthOverall: "length overall", parse.BowHeight: "bow height", parse.SternHeight: "stern height",
			parse.CarryPoint: "carry point", parse.GreatestAt: "place of the greatest girth",
			parse.GreatestHullGirth: "greatest hull girth", parse.GreatestFullGirth: "greatest full girth",
			parse.GreatestPair: "both greatest girths", parse.GreatestOpening: "opening at the greatest girth",
			parse.TransomHullGirth: "hull girth at the transom", parse.TransomFullGirth: "full girth at the transom",
			parse.TransomPair: "both girths at the transom",
		},
	}
}

func (b phrasebook) distances(unit parse.Unit) string {
	if unit == parse.Centimetre {
		return b.centimetres
	}
	return b.feet
}

// alt is the picture in words. It names the asked places and no other number.
func (d *drawing) alt(asked []parse.Cell) string {
	var parts []string
	for _, c := range asked {
		part, ok := d.say.names[c.Measure]
		if !ok {
			continue
		}
		if slices.Contains([]parse.Measure{parse.HullGirth, parse.FullGirth, parse.MeasurePair}, c.Measure) {
			if c.At <= 0 || math.IsInf(float64(c.At), 0) {
				continue
			}
			part += d.say.at + place(c.At, d.boat.unit, d.language)
		}
		if !slices.Contains(parts, part) {
			parts = append(parts, part)
		}
	}
	if len(parts) == 0 {
		return d.say.drawing
	}
	return strings.Join([]string{d.say.drawing, d.say.ringed + join(parts, d.say.and) + "."}, " ")
}
