package prose

import (
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// label is what words say of the number beside them: a measure that a boat has
// once, a girth of a place, or a place.
type label struct {
	measure parse.Measure // of the whole boat; "" for a girth of a place
	role    role
	place   place
}

type role int

const (
	noRole role = iota
	hull
	full
	opening
	bothRoles // "hull and full"
)

type place int

const (
	noPlace place = iota
	station
	greatest
	transom
)

func (l label) some() bool { return l != label{} }

// The words are those that people use for the terms of the trade in English and
// French: common practice, no source. All texts are folded.
var (
	overallWords  = parse.NewPattern(`\bl\.?o\.?a\b|\bl\.?h\.?t\b|\blength over ?all\b|\bover ?all(?: length)?\b|\btotal length\b|\blength\b|\blongueur\b|\bhors[- ]tout\b|\b(?:bow|stem|end|tip) to (?:stern|end|tip)\b|\bbout en bout\b|\blong$|^(?:ft|feet|in|inches)? ?long\b|\bmakes? (?:her|it) .*long\b`)
	notOverall    = parse.NewPattern(`\b(?:waterline|lwl|flottaison|keel|cockpit|deck length|trailer|tape|paper|ruban)\b`)
	bowWords      = parse.NewPattern(`\b(?:bow|stem|prow|etrave|proue|avant)\b`)
	sternWords    = parse.NewPattern(`\b(?:stern|poupe|arriere)\b`)
	frontWords    = parse.NewPattern(`\b(?:front|nose|devant|nez)\b`) // beside a height; elsewhere they say where something lies
	backWords     = parse.NewPattern(`\b(?:back|rear|derriere|queue|etambot)\b`)
	heightWords   = parse.NewPattern(`\b(?:height|heights|ht|hgt|high|tall|hauteur|hauteurs|haut|haute)\b`)
	fromWords     = parse.NewPattern(`\b(?:from|to|aft of|behind|back of|de|depuis|jusqu'a) (?:the |my |la |l')?(?:bow|stem|stern|prow|etrave|proue|poupe|avant|arriere|foremost|front|nose)\b`)
	carryWords    = parse.NewPattern(`\b(?:` + parse.CarryTerms + `|grip|hand ?hold|poignee|lift(?:ing)? point|(?:pick|lift)(?:ed|s)? (?:it|her|the (?:boat|canoe)) up|prise de portage)\b`)
	thwartWords   = parse.NewPattern(`\b(?:thwart|yoke|joug)\b`)
	greatestWords = parse.NewPattern(`\b(?:` + parse.GreatestTerms + `)\b`)
	transomWords  = parse.NewPattern(`\b(?:transom|trnsm|tableau)\b`)
	openingWords  = parse.NewPattern(`\b(?:opening|ouverture|beam|breadth|width|wide|large|largeur|bau|gunwale to gunwale|rail to rail|straight across|across the top)\b`)
	fullWords     = parse.NewPattern(`\b(?:full|total|totale|loop|closed|complete?t?|complete|boucle|plein|pleine|fermee?|` + parse.AllRoundTerms + `|grand tour|whole way|fg)\b`)
	hullWords     = parse.NewPattern(`\b(?:hull|under|underneath|bottom|open|coque|carene|dessous|ouverte?|half girth|demi[- ]tour|hg)\b`)
	stationWord   = parse.NewPattern(`\b(?:stations?|stn|sta|st)\b|\b(?:ft|foot|feet|in|cm|pi|pieds?) (?:mark|station|from (?:the )?(?:bow|stem|front|nose)|aft|back|de l'etrave|depuis l'etrave)|\bmark\b|\brepere\b`)
	stationEnds   = parse.NewPattern(`(?:^|[ ,;:(@#-])(?:at|@|#|station|stations|stn|sta|st|s|mark|no|au|poste|section|the|repere|row)\.? ?(?:no\.?|n°|#|the|=|:|about|point)?(?: {1,3}(?:ft|feet|cm|in|inches) *[:=]?)? ?$`)
	stationAfter  = parse.NewPattern(`^ ?(?:ft|foot|feet|cm|in|')? ?(?:mark|station|(?:back |aft )?from (?:the )?(?:bow|stem|front|nose)|aft\b|back from|de l'etrave|depuis l'etrave|de la proue)`)
	wholeLength   = parse.NewPattern(`\b(?:total length|full length|longueur totale|length \(?total)\b`)
	placeOfWords  = parse.NewPattern(`\b(?:at|is at|distance|from|located|situe|se trouve|position|a|de l'etrave)\b`)
)

// withTop is a hull girth and what lies over it: the full girth.
var withTop = parse.NewPattern(`\b(?:hull|under|girth|tour)(?: girth)?(?: and| plus| with| \+| incl\w*\.?| et| avec)+ (?:the |le |la |l'|back )*(?:top|deck|opening|across|over|dessus|ouverture)\b`)

// mostBreadth is how broad the boat is, and not where it is measured: the opening at
// the greatest girth may be less.
var mostBreadth = parse.NewPattern(`\b(?:` + parse.GreatestTerms + `) (?:beam|breadth|width|bau|largeur)\b|\b(?:beam|breadth|width|bau|largeur)(?:[ ,(]*| (?:at|au?) (?:the |le |la |l')?(?:point (?:le )?|endroit (?:le )?)?)(?:` + parse.GreatestTerms + `)\b`)

// partsOfBoat are named by an end of the boat, and are none; "plus grand tour" is
// the greatest girth, and no "grand tour".
var partsOfBoat = strings.NewReplacer("bow seat", "seat", "stern seat", "seat", "bow deck", "deck", "stern deck", "deck", "bow thwart", "thwart", "stern thwart", "thwart", "bow line", "line", "stern line", "line",
	"bow handle", "handle", "stern handle", "handle", "plus grand tour", "plus grand")

// labelOf tells what a stretch of words says of the number it belongs to.
func labelOf(s string) label {
	var l label
	s = partsOfBoat.Replace(s)
	if transomWords.MatchString(s) && table.MeasureOf(s) == parse.SternHeight {
		return label{measure: parse.SternHeight} // "hauteur du tableau arriere"
	}
	switch {
	case mostBreadth.MatchString(s):
		return l // people know it from the boat's papers
	case greatestWords.MatchString(s):
		l.place = greatest
	case transomWords.MatchString(s):
		l.place = transom
	}
	ends := bowWords.MatchString(s) || sternWords.MatchString(s)
	bare := fromWords.ReplaceAllString(s, " ")
	bow, stern := bowWords.MatchString(bare), sternWords.MatchString(bare)
	if heightWords.MatchString(s) {
		// "hauteur de l'etrave" is no distance from it
		bow, stern = bowWords.MatchString(s) || frontWords.MatchString(s), sternWords.MatchString(s) || backWords.MatchString(s)
	}
	isFull := fullWords.MatchString(s) || withTop.MatchString(s)
	isHull := !withTop.MatchString(s) && hullWords.MatchString(strings.ReplaceAll(s, "hull length", ""))
	switch {
	case isFull && isHull:
		l.role = bothRoles
	case isFull && !wholeLength.MatchString(s):
		l.role = full
	case isHull && !overallWords.MatchString(s):
		l.role = hull
	}
	if openingWords.MatchString(s) && l.role != hull && !withTop.MatchString(s) {
		l.role = opening
	}
	if l.place != noPlace || l.role != noRole {
		return l
	}
	switch {
	case carryWords.MatchString(s), thwartWords.MatchString(s) && strings.Contains(s, "carry"):
		l.measure = parse.CarryPoint
	case overallWords.MatchString(s) && !notOverall.MatchString(s) && !heightWords.MatchString(s):
		l.measure = parse.LengthOverall
	case bow && stern, ends && !bow && !stern:
		// Both ends, or one that only says from where a distance counts.
	case bow:
		l.measure = parse.BowHeight
	case stern:
		l.measure = parse.SternHeight
	}
	if l.measure == "" {
		l.measure = table.MeasureOf(s) // "front height"
	}
	return l
}

var (
	// lengthTold are words of a length overall that need no boat beside them.
	lengthTold = parse.NewPattern(`\b(?:length|loa|l\.o\.a|over ?all|longueur|hors[- ]tout|lht|(?:bow|stem|end|tip|nose) to (?:the )?(?:stern|end|tip|tail)|bout)\b`)
	boatNamed  = parse.NewPattern(`\b(?:boat|canoe|kayak|skiff|dinghy|dory|punt|guide ?boat|rowboat|hull|she|it|her|canot|canoe|bateau|barque|chaloupe|embarcation|il|elle)\b`)
	notTheBoat = parse.NewPattern(`\b(?:other (?:boat|canoe|kayak)|old cover|covers?|brochure|catalogu?e|drawings?|plans?|inside|trailer|shed|garage|handles?|deck|painter|housse|bache|remorque|interieure?|pont|autre (?:canot|bateau))\b`)
)

// tellsLength reports that what is said to be long is the boat, and by its owner.
func tellsLength(words string) bool {
	if notTheBoat.MatchString(words) {
		return false
	}
	return lengthTold.MatchString(words) || boatNamed.MatchString(words) || !strings.Contains(words, " is ") && !strings.Contains(words, " fait ")
}

// unitAtEnd is a unit that closes the label of a number: "bow height (cm): 45".
var unitAtEnd = parse.NewPattern(`[\pL)]\s*[ ,](?:in )?(in|inch|inches|cm|centimet(?:re|er)s|mm|millimet(?:re|er)s|ft|feet|po|pouces|pi|pieds)\s*[.]?\s*[:=]?\s*$`)

// unitLast is the unit with which a label ends, Bare when it names none.
func unitLast(label string) parse.Scale {
	m := unitAtEnd.FindStringSubmatch(label)
	if m == nil {
		return parse.Bare
	}
	a, _ := parse.ParseLength("1 " + m[1])
	return a.Scale
}

// Words that make an answer to a question of an earlier one, of a number: what
// it should be, what it was, that it stays.
var (
	correctWords = parse.NewPattern(`\b(?:should (?:be|have been|read)|not|instead of|rather than|correction|corrected|re-?measured?|checked|re-?checked|double[- ]checked|you were right|you'?re right|my mistake|typo|misread|mis-?wrote|mistake|sorry|oops|actually|make that|au lieu de|et non|pas|devrait etre|corrige|remesure|verifie|erreur|vous aviez raison|plutot|still|again|toujours|encore|same|unchanged|meme|inchange|is now|new number|second (?:try|time)|twice|deux fois)\b`)
	wasWords     = parse.NewPattern(`(?:\b(?:not|instead of|rather than|no longer|au lieu de|et non|pas|was|were|had written|wrote|i said|i put|etait|j'avais (?:ecrit|mis)|changed from)(?: pas| de| the)?|,? pas) ?:? ?$`)
	stillWords   = parse.NewPattern(`\b(?:still|again|same|unchanged|toujours|encore|meme|inchange)\b`)
	sameWords    = parse.NewPattern(`\b(?:same as (?:before|last time|i (?:wrote|sent|gave))|the same|unchanged|no change|have not changed|didn'?t change|still the same|comme avant|la meme chose|identique|inchangee?s?|pareil)\b`)
	tryJoin      = parse.NewPattern(`^ ?(?:,|and|et|then|&|/|puis|and then|and again|again|first|second|,? ?(?:second|2nd) (?:try|time)|the second time|both times)+ ?:? ?(?:the )?(?:second (?:time|try)|again|encore)? ?$`)
)
