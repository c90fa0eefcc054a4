package prose

import "testing"

// traps are sentences of a survey that give numbers of something else.
var traps = []string{
	"Max beam: 37 in", "Beam 36 at the widest", "She is 36 inches wide in the middle.", "Depth amidships 13 in",
	"The yoke is 34 inches wide and sits 7 ft from the bow.", "Front thwart at 4 ft 2 in, rear thwart at 9 ft", "The bow seat is 9 in wide and 8 in below the gunwale.", "Seat height 11 inches", "Stern seat 10 in high",
	"Weight 62 lb", "Built in 1987", "It is a 1962 Chestnut, number 4711.", "My tape is 12 ft long.", "The trailer is 16 ft long and 5 ft high.", "Cover should hang 6 inches below the gunwale.", "Please leave 4 in for the hem.",
	"Draft about 4 inches", "Freeboard 12 in", "Waterline length 14 ft 3 in", "Keel length 13 ft", "Deck length at the bow 18 in", "The deck is 22 inches long at the bow.", "The bow deck ends 20 in from the bow.",
	"I measured at 2 pm for 45 minutes.", "There are 3 thwarts and 2 seats.", "The shed is 20 ft long.", "Hull thickness 1/4 in", "The keel strip is 3/8 in thick.", "The painter is 12 ft long.",
	"Our old cover was 15 ft 6 in long and 85 in around.", "The last cover had a full girth of 88 in.", "The drawing says length 15 ft 4 in.", "The brochure says 15 ft 10 in overall.", "My other canoe is 16 ft long.",
	"Distance between the seats 52 in", "From the yoke to the bow it is 7 ft 10 in.", "The motor bracket is 14 in high.", "Stern bracket 11 in", "The mast is 13 ft high.", "Rocker 2 in at the bow, 1 in at the stern", "Bow rocker 2 in",
	"Largeur au centre 36 po", "Le siège arrière est à 10 pi de l'avant.", "Le banc avant a 9 po de large.", "Poids 28 kg", "La remorque fait 16 pi de long.", "Profondeur au centre 13 po", "Longueur à la flottaison 14 pi",
	"Tirant d'eau 4 po", "Mon ancienne housse faisait 15 pi 6 po de long et 85 po de tour.", "Le plan dit 15 pi 4 po de long.", "Le pont avant fait 22 po de long.", "Le moteur a 14 po de haut.", "Hauteur du banc 11 po",
	"Half girths: 18 1/2 at 1 ft", "The girth of the trailer bunk is 20 in at 3 ft.", "The cover for the neighbour's boat had hull girth 50 and full girth 80 at 4 ft.", "For comparison, at 3 ft the neighbour's canoe has hull 44, full 70.",
	"Gunwale to gunwale at the yoke 34 in", "Across the top at 5 ft: 31", "Opening at the yoke 33 in", "Inside width 32", "Inside length 15 ft", "Gunwale height 1 in", "Gunwales are 1 1/4 in thick", "Outwale 3/4", "Transom width 30", "Transom height 15",
	"Carry handles at 14 in from each end", "Handle is 5 inches long", "Carrying it takes 2 people 10 minutes", "Thwart 28 in wide at the carry point", "Tumblehome 2 in at the widest point", "Widest at 8 ft or so", "Widest point is 34 in across", "The greatest width is 35 in at 7 ft",
}

// What gives a number of something else changes none of the survey surely.
func TestTraps(t *testing.T) {
	base := saidSurely(Read("m", ownHead+"\n"+ownRows, "").Document)
	for _, trap := range traps {
		for name, body := range map[string]string{
			"first": trap + "\n" + ownHead + "\n" + ownRows, "before": ownHead + trap + "\n" + ownRows, "behind": ownHead + "\n" + ownRows + trap + "\n",
		} {
			for key, value := range saidSurely(Read("m", body, "").Document) {
				if value != "?" && value != base[key] {
					t.Errorf("%s, %s: %s is %s for sure, not %s", trap, name, key, value, base[key])
				}
			}
		}
	}
}
