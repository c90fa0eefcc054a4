package prose

import (
	"strings"
	"testing"
)

const (
	ownHead = "LOA 7'4\", bow 17, stern 15 1/2, carry point 14\n"
	ownRows = "1 ft: hull 30 full 40.5\n2 ft: hull 36 full 52\n3 ft: hull 40 full 60.5\n4 ft: hull 41.5 full 63\n5 ft: hull 40 full 61\n6 ft: hull 36.5 full 54\n7 ft: hull 31 full 42\n"
	ownAll  = inHead + inRows
	ownMost = "in 88 17 15.5 14 G43:42,64,-" + inRows
)

// What stands in an earlier mail is the customer's own where the words say so, and
// nobody's otherwise.
func TestQuoted(t *testing.T) {
	quote := func(text string) string {
		return "> " + strings.ReplaceAll(strings.TrimSpace(text), "\n", "\n> ") + "\n"
	}
	half := strings.Index(ownRows, "4 ft")
	for _, c := range []struct{ name, body, want string }{
		{"an order of another", "Thanks!\n\nOn Mon, Jun 1, 2026, Ada Weir wrote:\n" + quote(ownHead+ownRows), "!only-quoted()"},
		{"names without a question mark", "In between.\n\nOn Mon, Jun 1, 2026 the shop wrote:\n> 1. Length overall\n7'4\"\n> 2. Bow height\n17 in\n> 3. Stern height\n15 1/2 in\n> 4. Carry point, from the bow\n14 in\n> 5. Hull girth and full girth, at every foot\n" + ownRows, ownAll},
		{"in the order of the question", "Below.\n\nOn Mon, Jun 1, 2026 the shop wrote:\n> Girths?\n\n" + ownHead + ownRows + "\n> 6. Greatest girth: where, hull girth, full girth?\n\n3 ft 7 in, 42 in, 64 in\n", ownMost},
		{"under a header", "Mes réponses sont en bleu sous vos questions.\n\nDe : la housse\nEnvoyé : lundi\nObjet : mesures\n\n1. Longueur hors tout du bateau ?\n7 pi 4 po\n2. Hauteur de l'étrave ?\n17 po\n3. Hauteur de la poupe ?\n15 1/2 po\n4. Point de portage ?\n14 po\n5. Tour de coque, puis tour complet ?\n" +
			strings.NewReplacer("hull ", "", " full ", " / ", "ft", "pi").Replace(ownRows) + "6. Qu'est-ce qui reste ?\nles bancs\n", ownAll},
		{"passed on under its header", "Je vous transmets le message de ma mère.\n\nDe : Ada Weir\nEnvoyé : lundi\nÀ : Mathieu\nObjet : mesures\n\n" + ownHead + ownRows, ownAll},
		{"not passed on", "Merci pour tout.\n\nDe : Ada Weir\nEnvoyé : lundi\nÀ : Mathieu\nObjet : mesures\n\n" + ownHead + ownRows, "!only-quoted()"},
		{"the other half", "Here is the other half:\n\n" + ownRows[half:] + "\nAda\n\nOn Sat, 4 July 2026 at 18:40, Ada Weir wrote:\n" + quote(ownHead+ownRows[:half]+"Ada"), ownAll},
		{"half of another's boat", "Here is the other half:\n\n" + ownRows[half:] + "\nAda\n\nOn Sat, 4 July 2026 at 18:40, Rollo Pike wrote:\n" + quote(ownHead+ownRows[:half]+"Rollo"), "in - - - -" + inRows[strings.Index(inRows, " 48:"):]},
		{"twice quoted", "La suite :\n\n" + ownRows[half:] + "\nAda Weir\n\nLe 1 juin 2026 à 08:30, la housse a écrit :\n> Il manque la moitié arrière.\n>\n> Le 31 mai 2026, Ada Weir a écrit :\n" + strings.ReplaceAll(quote(ownHead+ownRows[:half]), "> ", "> > "), ownAll},
	} {
		got := shortForm(Read("m", c.body, ""))
		if c.name == "an order of another" || c.name == "not passed on" {
			if strings.Contains(got, "12:") || !strings.Contains(got, "only-quoted") && got != "" {
				t.Errorf("%s:\n got %s", c.name, got)
			}
			continue
		}
		if got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Ways of saying where a number belongs that need more than the words beside it.
func TestWordsAround(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"high behind the number", "Boat is 7 ft 4 in long\nFront end is 17 high\nBack end is 15 1/2 high\nCarrying thwart 14 from the front\n" + ownRows, ownAll},
		{"talk before the measure", "Held on a plank along the bottom, the bow stands 17 inches high and the stern 15 and a half inches. Length 7 ft 4 in. The thwart one carries it by is 14 inches back from the bow.\n" + ownRows, ownAll},
		{"labels behind the greatest girth", ownHead + ownRows + "The greatest girth is at 3 ft 7 in: 42 under the hull and 64 all the way round.\n", ownMost},
		{"a bracket behind it", ownHead + ownRows + "The greatest girth is at 3 ft 7 in: 42 in open, 64 in closed (opening 22 in).\n", strings.Replace(ownMost, "64,-", "64,22", 1)},
		{"a heading over three numbers", ownHead + ownRows + "The widest:\nat 3 ft 7 in\t42\t64\n", ownMost},
		{"talk before a place", ownHead + strings.NewReplacer("1 ft:", "Next one, 1 ft:", "4 ft:", "Next one, 4 ft:").Replace(ownRows), ownAll},
		{"a breadth is no greatest girth", ownHead + "Max beam: 37 in\n" + ownRows, ownAll + " !unplaced-number(37 in)"},
		{"a seat is no bow", ownHead + ownRows + "The bow seat is 8 in wide, the stern seat 9 in.\n", ownAll + " !unplaced-number(8 in) !unplaced-number(9 in)"},
		{"halves behind the unit", strings.Replace(ownHead, "stern 15 1/2", "stern 15 pouces et demi", 1) + strings.ReplaceAll(ownRows, ".5", " inches and a half"), ownAll},
		{"French", "Longueur 7 pi 4 po, hauteur avant 17 po, hauteur arrière 15 1/2 po, point de portage 14 po\n" + strings.NewReplacer("ft", "pi", "hull", "tour de coque", "full", "et grand tour").Replace(ownRows), ownAll},
	} {
		if got := shortForm(Read("m", c.body, "")); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}
