package table

import (
	"strings"

	"fairtape/parse"
)

// role is what a label says of the numbers beside or below it.
type role int

const (
	noRole      role = iota
	roleStation      // distance from the bow
	roleHull         // hull girth
	roleFull         // full girth
	roleOpening      // gunwale to gunwale
	roleHalf         // gunwale to keel
	roleGirth        // a girth, it is not said which
	roleIndex        // rows counted
	roleNotes        // words
	roleDerived      // averages, differences, a maker's figures: nothing that was measured here
)

// girth reports a column of measured numbers of a station.
func (r role) girth() bool {
	switch r {
	case roleHull, roleFull, roleOpening, roleHalf, roleGirth:
		return true
	}
	return false
}

// railNoun is the upper edge of a boat's side.
const railNoun = `gunwales?|gunnels?|rail|sheer|edge|rim|plats?[- ]bords?|bord`

// unitNoun is a unit in its short and its long form.
const unitNoun = `(?:in|ins|inch|inches|"|cm|cms|centimet(?:re|er)s?|mm|millimet(?:re|er)s?|m|met(?:re|er)s?|ft|foot|feet|'|po|pouces?|pi|pieds?)`

// The words are those that people use for the terms of the trade in English
// and French: common practice, no source.
var (
	// noGirth are headings of other things, in whatever words of the hull.
	noGirth      = parse.NewPattern(`\b(?:depth|profondeur|creux|draft|draught|tirant|colou?r|couleur|material|weight|poids)\b|^(?:nombre|number|how many|combien) (?:of|de|d')|\b(?:hull|boat) (?:no|number|id)\b|\b(?:numero|n°|no) de coque\b`)
	notesWords   = parse.NewPattern(`\b(?:notes?|remarks?|comments?|remarques?|commentaires?|observations?)\b`)
	derivedWords = parse.NewPattern(`\b(?:average|mean|avg|cover|cloth|fabric|cut|panel|pattern|patron|gabarit|finished|calculated|calc|computed|ease|tissu|toile|housse|moyennes?|difference|diff|delta|minus|ecart|check|controle|sum|somme)\b|\b(?:catalogu?e?s?|brochures?|manufacturer'?s?|maker'?s?|factory|specs?|specifications?|published|nominal|theoretical|theorique|expected|targets?|` + toleranceWords + `|constructeur|usine|cible|objectif|attendue?s?)\b|^(?:±|\+/?-)`)
	halfWords    = parse.NewPattern(`\b(?:half|demi|moitie|one side|centre ?line|center ?line)\b|\b1/2 (?:hull|girth|tour)|\bto (?:the )?keel\b|a la quille`)
	oneSide      = parse.NewPattern(`(?:^|[ ,(-])(?:left|right|port|starboard|gauche|droite|babord|tribord|l|r)(?: side| half)?\)?$`)
	// halfBoat is a part of the boat's length, and no half girth; bothSides is a
	// tape that goes down one side and up the other.
	halfBoat     = parse.NewPattern(`\b(?:front|back|bow|stern|fore|aft|forward|rear|first|second|other) half\b|\bmoitie (?:avant|arriere)\b|\b(?:premiere|seconde|deuxieme|autre) moitie\b`)
	bothSides    = parse.NewPattern(`\bone side\b.*\bthe other\b`)
	nearestWords = parse.NewPattern(`\b(?:to (?:the )?)?nearest [^)]*`)
	fullWords    = parse.NewPattern(`\b(?:full|closed?|loop|total|complete|entire|entiere?|whole|fermee?s?|complete?t?|boucle|totale?s?|pleine?)\b|^fg$|\b(?:` + parse.AllRoundTerms + `)\b|\bincl`)
	withoutTop   = parse.NewPattern(`\b(?:without|w/o|sans|excluding|excl\.?|not incl\w*|no) (?:the |le |la )?(?:top|deck|dessus|pont|opening|ouverture)\b`)
	withTop      = parse.NewPattern(`(?:\b(?:with|w/|avec|including|plus|and|et)|[+&]) ?(?:the |le |la |straight |back )*(?:top|deck|dessus|pont|across|over)\b`)
	// hullLoop is a tape that goes round the hull alone.
	hullLoop     = parse.NewPattern(`\b(?:hull|keel|bottom|open|under) (?:loop|wrap|circle)\b|\bboucle (?:ouverte|de (?:la )?(?:coque|quille))\b`)
	openingWords = parse.NewPattern(`\b(?:openings?|ouvertures?|beam|breadth|width|largeurs?|bau)\b|\b(?:straight )?across\b|^(?:the )?gap$|^(?:en |droit )?travers\b`)
	// sumName and lessName are headings that say how a column is made: "hull +
	// opening", "Opening (full less hull)".
	sumName      = parse.NewPattern(`^(.*\pL.*?)(?: ?\+ ?| plus )(.*\pL.*)$`)
	lessName     = parse.NewPattern(`^(?:(?:the |l')?(?:openings?|ouvertures?|beam|breadth|width|largeurs?)\b[^+]*?)?\b(\pL+)(?: girths?| tours?)?(?: (?:less|minus|moins) | - )(?:the |le |la )?(?:tour (?:de )?)?(\pL+)[^+]*$`)
	underWords   = parse.NewPattern(`\b(?:girths?|under(?:neath)?|bottom|tour|contour|a?round|circonferences?|circumferences?|dessous)\b`)
	hullWords    = parse.NewPattern(`\b(?:hull|open|under(?:neath|side)?|bottom|coque|ouverte?s?|dessous|sous|fond|developpee?|bilge|belly|below|carene)\b|^hg$`)
	railWords    = parse.NewPattern(`\b(?:` + railNoun + `)[- ](?:to|a)[- ](?:` + railNoun + `)\b|\bun (?:` + railNoun + `) a l'autre\b`)
	girthWords   = parse.NewPattern(`\b(?:girths?|tours?|contours?|circonferences?|circumferences?|perimet(?:er|re)s?|a?round|wraps?|ceintures?)\b`)
	stationFirst = parse.NewPattern(`^(?:station|stn|sta|dist|distance|position|pos|place|section|sect|where|location|poste|repere|emplacement|mark)\b|^(?:at|@|point|spot|frame|endroit|ou|point de mesure)$|\bfrom (?:the )?(?:` + bowNoun + `|stern|tip)\b|\b(?:depuis|de|du|a partir (?:de|du)) (?:l'|la )?(?:` + bowNoun + `|poupe)\b|\baft of\b|^(?:how far|feet|foot|ft|inches) (?:back|aft)\b|^along the (?:boat|string)$`)
	stationWords = parse.NewPattern(`\b(?:stations?|stn|distances?|dist|positions?|sections?|places?|marks?|reperes?|postes?)\b`)
	unitOnly     = parse.NewPattern(`^[(\[]?(?:decimal )?` + unitNoun + `\.?[)\]]?(?: [(\[][^)\]]*[)\]])?$`)
	unitBracket  = parse.NewPattern(`\s*[(\[](?:in |en )?` + unitNoun + `(?:\s*(?:/|,|&|\band\b|\bet\b)\s*` + unitNoun + `)*\.?[)\]]$`)
	wholeNumbers = parse.NewPattern(`\bwhole(?: (?:in|inch|inches|cm|numbers?))?$`)
	indexWords   = parse.NewPattern(`^(?:no\.?|n°|nº|#|nr\.?|row|line|item|num|numero|rang)$`)
	// summaryNames open a row at the foot of a table that is made from the
	// rows above it.
	summaryNames = parse.NewPattern(`^(?:average|mean|avg|moyenne|total|totaux|sum|somme|count|nombre|min|minimum|std|difference|median|check)\b`)
)

var (
	bareMaximum  = parse.NewPattern(`^(?:max|maximum|largest|highest)\.?$`)
	bareGreatest = parse.NewPattern(`^(?:(?:la |le )?plus grande?|maxim(?:al|um)e?|greatest|biggest|widest)(?: girths?| values?| tours?)?\.?$`)
)

// roleOf tells what a heading of a column says. Text is folded.
func roleOf(text string) role {
	// "Opening = full - hull" says how it is made.
	if name, _, made := strings.Cut(text, "="); made {
		if r := roleOf(name); r != noRole {
			return r
		}
	}
	s := strings.TrimSpace(wholeNumbers.ReplaceAllString(nearestWords.ReplaceAllString(text, ""), ""))
	if bare := unitBracket.ReplaceAllString(s, ""); bare != "" {
		s = bare
	}
	s = strings.TrimSpace(bothSides.ReplaceAllString(halfBoat.ReplaceAllString(s, ""), "under"))
	girth := girthWords.MatchString(s)
	switch {
	case s == "":
		return noRole
	case noGirth.MatchString(s):
		return noRole
	case notesWords.MatchString(s):
		return roleNotes
	case madeOf(lessName, s, roleFull, roleHull):
		return roleOpening
	case madeOf(sumName, s, roleHull, roleOpening):
		return roleFull
	case derivedWords.MatchString(s) && !saysKept(s):
		return roleDerived
	case indexWords.MatchString(s):
		return roleIndex
	case stationFirst.MatchString(s) && !girth:
		return roleStation
	case withoutTop.MatchString(s), hullLoop.MatchString(s):
		return roleHull
	case withTop.MatchString(s):
		return roleFull
	case halfWords.MatchString(s) && openingWords.MatchString(s):
		return noRole // half-breadths are of a drawing, not of a tape
	case halfWords.MatchString(s), oneSide.MatchString(s) && (girth || hullWords.MatchString(s)):
		return roleHalf
	case fullWords.MatchString(s):
		return roleFull
	case openingWords.MatchString(s) && !underWords.MatchString(s):
		return roleOpening
	case hullWords.MatchString(s):
		return roleHull
	case railWords.MatchString(s):
		return roleOpening
	case girth:
		return roleGirth
	case stationWords.MatchString(s):
		return roleStation
	case unitOnly.MatchString(s):
		return noRole
	}
	return noRole
}

// madeOf reports a heading that names two girths of which a third is made.
func madeOf(name *parse.Pattern, s string, first, second role) bool {
	m := name.FindStringSubmatch(s)
	return m != nil && roleOf(m[1]) == first && roleOf(m[2]) == second
}

// scaleAt finds a unit that closes a heading: "Hull girth (in)", "girth, cm",
// "distance in feet". "in" counts only where it cannot be the preposition.
var (
	bracketScale = parse.NewPattern(`[(\[]\s*(?:in |en )?([a-z"']+)\.?\s*[)\]]`)
	closingScale = parse.NewPattern(`(?:^|[ ,/:;-])(in|inch|inches|cm|cms|mm|m|ft|feet|foot|po|pouces?|pi|pieds?|centimet(?:re|er)s?|millimet(?:re|er)s?|met(?:re|er)s?)\.?$`)
	leadingScale = parse.NewPattern(`^(feet|foot|ft|inches|cm|centimet(?:re|er)s?|pouces?|pieds?|mm) (?:from|aft|de|depuis)\b`)
	twoScales    = parse.NewPattern(`\b(?:in|inch|inches|cm|ft|feet|pi|po)\s*(?:/|or|and|ou|et|&|,)\s*(?:in|inch|inches|cm|ft|feet|pi|po)\b`)
)

// headingScale returns the unit that a heading names, Bare when it names none
// or several.
func headingScale(text string) parse.Scale {
	if twoScales.MatchString(text) {
		return parse.Bare
	}
	for _, p := range []*parse.Pattern{bracketScale, closingScale, leadingScale} {
		for _, m := range p.FindAllStringSubmatch(text, -1) {
			if s := scaleOfWord(m[1]); s != parse.Bare {
				return s
			}
		}
	}
	return parse.Bare
}

// unitRemark says more of a unit: "ft (decimal feet)".
var unitRemark = parse.NewPattern(`\s+[(\[][^)\]0-9]*[)\]]$`)

// scaleOfWord returns the scale that a unit stands for.
func scaleOfWord(word string) parse.Scale {
	word = strings.TrimPrefix(strings.Trim(unitRemark.ReplaceAllString(word, ""), "()[]. "), "decimal ")
	a, f := parse.ParseLength("1 " + word)
	if f.Some() {
		return parse.Bare
	}
	return a.Scale
}
