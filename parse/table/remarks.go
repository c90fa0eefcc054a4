package table

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
)

// Beside a number in its cell people note where on the boat it was taken, and
// that they are sure of it: "23 in (thwart)", "41 by the yoke", "52, checked".
// Such words leave the number as it is. Any others may not: "41 slack", "18 to
// the keel", "30 one side"; so these words are listed, and not those.
const (
	assentWords = `ok okay yes oui checked rechecked verified confirmed verifie verifiee confirme confirmee exact exactly exactement
		precisely twice measured mesure read taken lu lue relu relue along string cord here there ici la
		tape wet windy rain ruban mouille vent pluie`
	groundWords = `floor ground flat level sol plat`
	spotNames   = `thwart yoke seat bench deck deckplate plate handle grip carry portage rib frame bulkhead cockpit
		coaming cleat toggle oarlock rowlock mast step locker rivet patch repair mark end edge middle mid midship midships amidships centre center
		widest fullest biggest greatest largest traverse barre joug banc siege poignee milieu pont pontage membrure couple
		cloison tolet mat marque bout bord sticks out bulges bulge bump hollow dent knot bosse creux noeud`
	bowNames    = `bow stem etrave proue`
	sternNames  = `stern poupe`
	frontBack   = `front rear back fore forward aft avant arriere devant derriere`
	littleWords = `the a an of at by near on in behind before after beside between next this is it where le les l d de du des au aux pres entre et`
)

// togetherOnly are words that say so together and not alone: "43 just" is rough.
var togetherOnly = regexp.MustCompile(`\bnext to\b|\b(?:back|aft|after) edge of (?:the )?(?:bow|front|fore) ?deck\b|\bjust (?:behind|before|after|aft|ahead of|in front)\b|\bjuste (?:devant|derriere|avant|apres)\b|\b(?:both|two) times\b|\bdeux fois\b|\b(?:over|across|under|sur|sous|par-dessus) (?:(?:the|le|la) |l')?(?:\pL+ )?(?:rope|painter|strap|corde|sangle|seat|thwart|yoke|bench|handle|siege|banc|barre|traverse|joug|poignee)\b`)

// counts opens a number of things, "2 seats", which is no length.
var counts = regexp.MustCompile(`^[\d./ ]*\d (?:` + strings.Join(strings.Fields(spotNames), "|") + `)`)

// secondTry says that the number was taken anew, and is the one that counts.
var secondTry = regexp.MustCompile(`(?i)[(,;-] ?(?:2nd|second|2e|deuxi[eè]me) (?:try|go|time|reading|attempt|essai|mesure|fois)\)?$`)

// besideGirth are the words that may stand beside a girth.
var besideGirth = wordSet(assentWords, spotNames, bowNames, sternNames, frontBack, littleWords)

// besideOnce are those beside what a boat has once: none may speak of the other
// end, or of the height or length of something else.
var besideOnce = map[parse.Measure]map[string]bool{
	parse.LengthOverall:   wordSet(assentWords, littleWords),
	parse.BowHeight:       wordSet(assentWords, groundWords, bowNames, littleWords),
	parse.SternHeight:     wordSet(assentWords, groundWords, sternNames, littleWords),
	parse.CarryPoint:      wordSet(assentWords, spotNames, bowNames, "front fore forward", littleWords),
	parse.GreatestAt:      wordSet(assentWords, spotNames, bowNames, littleWords),
	parse.GreatestOpening: wordSet(assentWords, spotNames, littleWords),
}

func wordSet(lists ...string) map[string]bool {
	set := map[string]bool{}
	for _, list := range lists {
		for _, w := range strings.Fields(list) {
			set[w] = true
		}
	}
	return set
}

// remarkFirst is a remark in brackets before its number: "(yoke) 40".
var remarkFirst = regexp.MustCompile(`^\s*\([^()\d]*\)\s*\d`)

// withoutRemark takes words that change nothing from beside a number.
func (e entry) withoutRemark(harmless map[string]bool) entry {
	if e.fault.Code != parse.CodeNotALength && e.fault.Code != parse.CodeSeveralNumbers || e.Code != "" {
		return e
	}
	words, length, ok := wordsAndLength(secondTry.ReplaceAllString(parse.Plain(e.Text), " "))
	if !ok || firstDigit(e.Text) > 0 && !remarkFirst.MatchString(e.Text) || strings.ContainsAny(e.Text, "?+±~≈") {
		return e
	}
	if a, _ := parse.ParseLength(length); a.Scale == parse.Bare && counts.MatchString(e.folded) {
		return e
	}
	if !harmlessWords(words, harmless) {
		return e
	}
	return e.saying(length)
}

func harmlessWords(words string, harmless map[string]bool) bool {
	said := wordsOf(togetherOnly.ReplaceAllString(words, ""))
	return !slices.ContainsFunc(said, func(w string) bool { return !harmless[w] })
}

// saying returns the entry with another text of its cell.
func (e entry) saying(text string) entry {
	cell := e.Cell
	if cell.Raw == "" {
		cell.Raw = cell.Text
	}
	cell.Text = text
	used := e.used
	e.item = newItem(cell, e.row, e.col)
	e.used = used
	return e
}

// clearRemarks does so with every number that was found.
func (s *sheet) clearRemarks() {
	girths := func(lists ...[]entry) {
		for _, list := range lists {
			for i, e := range list {
				list[i] = e.withoutRemark(besideGirth)
			}
		}
	}
	for _, b := range s.found.blocks {
		for _, r := range b.rows {
			girths(r.hull, r.full, r.opening)
		}
	}
	for _, r := range s.found.singles {
		girths(r.hull, r.full, r.opening)
	}
	for m, list := range s.found.whole {
		harmless, once := besideOnce[m]
		if !once {
			harmless = besideGirth
		}
		for i, e := range list {
			list[i] = e.withoutRemark(harmless).plain(m)
		}
	}
}
