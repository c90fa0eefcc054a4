package parse

import "testing"

func TestDoubts(t *testing.T) {
	for _, c := range []struct {
		doubts bool
		words  []string
	}{
		{false, []string{
			"", "over the deck", "I am sure", "I'm quite sure of this one", "make sure the straps fit", "not to worry", "don't worry about the seat",
			"maybe you know Jim", "perhaps we could collect it", "maybe next week", "probably you remember us", "no doubt", "there is no doubt about it", "without any doubt",
			"nothing is wrong", "no mistakes that I know of", "not a guess", "not wrong", "this is never an estimate", "I am not sure when we will be at home", "not sure whether you need this",
			"unsure what colour we want", "widest about here", "checked twice", "measured again", "tape slipped, done again", "a certain Mr Roy lent the tape", "the shelf is confident",
			"je suis sûr", "j'en suis certaine", "sans aucun doute", "pas d'erreur", "aucune faute", "rien de faux", "peut-être que vous connaissez Jean", "pas sûre quand nous serons là", "le ruban a glissé, refait",
			"the blue one", "under the yoke", "with the seat in", "roughing it by the lake",
		}},
		{true, []string{
			"?", "??", "not sure", "I'm not quite sure", "not 100 % sure of it", "I am not at all certain", "not very confident", "unsure", "uncertain", "doubtful", "in doubt", "I doubt it", "a guess", "guessed", "guesswork", "best guess",
			"estimated", "an estimate", "maybe", "perhaps 46", "could be 47", "may be off", "might be more", "approx.", "roughly", "hard to read", "by eye", "from the brochure", "copied from last year",
			"wrong", "this is wrong", "a mistake", "typo", "should be 46", "misread", "instead of 46", "swapped", "can't be right", "looks odd", "an inch off", "please re-check", "check again", "to be checked", "ignore this",
			"tape slipped", "the tape was slack", "the tape was caught on the seat", "I think", "or 47", "not measured", "don't trust this one", "not sure, wrong mark perhaps",
			"pas sûr", "pas tout à fait sûre", "incertain", "douteux", "à vérifier", "à refaire", "environ", "à peu près", "peut-être", "sans doute", "estimée", "faux", "une erreur", "devrait être 46", "au pif", "le ruban a glissé", "d'après le catalogue", "mal lu", "je crois", "pas mesuré", "ne pas en tenir compte",
		}},
	} {
		for _, w := range c.words {
			if got := Doubts(w); got != c.doubts {
				t.Errorf("Doubts(%q) = %v, want %v", w, got, c.doubts)
			}
		}
	}
}

// What hangs on one number needs less.
func TestDoubtsHere(t *testing.T) {
	for words, want := range map[string]bool{
		"about": true, "about 2 in more": true, "circa": true, "sure?": true, "may be the strap": true, "je crois": true,
		"over the deck": false, "I am sure": false, "measured twice": false,
	} {
		if got := DoubtsHere(words); got != want {
			t.Errorf("DoubtsHere(%q) = %v, want %v", words, got, want)
		}
	}
}

// A sentence may say that a number is wrong, and be sure of the right one.
func TestWaversAndSaysWrong(t *testing.T) {
	for _, c := range []struct {
		words         string
		wavers, wrong bool
	}{
		{"it should be 46, the tape was caught on the seat", false, true},
		{"it should be 46, I think, but I am not sure", true, true},
		{"I am not sure", true, false},
		{"nothing is wrong", false, false},
		{"c'est faux, ce devrait être 46", false, true},
		{"peut-être 46", true, false},
	} {
		if w, s := Wavers(c.words), SaysWrong(c.words); w != c.wavers || s != c.wrong {
			t.Errorf("%q: wavers %v, says wrong %v", c.words, w, s)
		}
	}
}

func TestDoubtBeside(t *testing.T) {
	for text, want := range map[string]int{
		"bow about ": 4, "about ": 0, "hull à peu près ": 5, "maybe ": 0, "~": 0, "hull: ": -1, "the seat ": -1, "I am sure ": -1,
	} {
		if got := DoubtBefore(text); got != want {
			t.Errorf("DoubtBefore(%q) = %d, want %d", text, got, want)
		}
	}
	for text, want := range map[string]bool{
		"?": true, " or so": true, " (not sure)": true, " peut-être": true, " ± 1": true, " I think": true, " à vérifier": true,
		"": false, " in": false, " (I am sure)": false, " (not a guess)": false, ", full 60": false, " (tape slipped, did it 3 times)": false, " (tape slipped)": true,
	} {
		if got := DoubtAfter(text) > 0; got != want {
			t.Errorf("DoubtAfter(%q): %v, want %v", text, got, want)
		}
	}
}
