package prose

import "testing"

// A sentence that says that some number is wrong, and not which, is a problem; one
// that says so of none, or names it, is not.
func TestUnheeded(t *testing.T) {
	const survey = "Length overall 8 ft 4 in, bow height 17 in\n1 ft: hull 33, full 43\n2 ft: hull 37.5, full 55.5\n3 ft: hull 41, full 64.5\n4 ft: hull 43, full 70\n\n"
	for said, want := range map[string]int{
		"One of the numbers in my sheet is wrong, I think.":         1,
		"I am not sure about some of the full girths.":              1,
		"I think I made a mistake somewhere in the table.":          1,
		"A couple of the measurements may be off, it was windy.":    1,
		"Je crois qu'il y a une erreur dans un de mes chiffres.":    1,
		"Je ne suis pas sûr de toutes les mesures.":                 1,
		"There is nothing wrong with the numbers.":                  0,
		"I hope there are no mistakes in the table.":                0,
		"I am not sure when we will be at home.":                    0,
		"Is something wrong with my numbers?":                       0,
		"Il n'y a pas d'erreur dans les mesures.":                   0,
		"I am not sure about the full girth at 3 ft.":               0,
		"5 ft: hull 44, full 71 not sure":                           0,
		"The bow height may be off.":                                0,
		"The tape was wet but I am happy with the numbers.":         0,
		"Thanks for the form, the list in it was a great help.":     0,
		"The shop in town made a mistake with the last cover.":      0,
		"We measured twice and there was no mistake in the numbers": 0,
	} {
		m := Read("m", survey+said, "")
		if got := Unheeded(m.Notices, m.Document); len(got) != want {
			t.Errorf("%s: %d problems, want %d", said, len(got), want)
		}
	}
}
