package table

import (
	"strings"

	"fairtape/parse"
)

// label is what the label of a number that stands outside a table of stations
// says: a measure of the boat, or of a named place.
type label struct {
	measure parse.Measure
	at      *parse.Name // for HullGirth and FullGirth of one station
	group   group       // a heading over further labels
	meta    meta
	weak    bool // the words allow for another meaning
	spot    bool // they name a place, and no more
}

// none reports that the text is no label.
func (l label) none() bool { return l == label{} }

// group is a place that a heading names for the labels that follow it.
type group string

const (
	groupGreatest group = "greatest"
	groupTransom  group = "transom"
	groupHeights  group = "heights"
)

// meta is something on a survey that is no measure.
type meta string

const (
	metaUnit     meta = "unit"
	metaCustomer meta = "customer"
	metaBoat     meta = "boat"
	metaDeck     meta = "deck"
	metaSquare   meta = "square" // square stern: yes or no
	metaStern    meta = "stern"  // pointed or square
	metaSpacing  meta = "spacing"
	metaTape     meta = "tape" // the check of the tape along the paper's edge
	metaOther    meta = "other"
)

// mostWords say that something is the greatest of its kind.
const mostWords = parse.GreatestTerms

// mostBreadth is how broad a boat is, which people know from its papers: the
// opening at the greatest girth may be less.
var mostBreadth = parse.NewPattern(`^(?:(?:` + mostWords + `) (?:beam|width|breadth)|(?:beam|width|breadth|largeur|bau)[ ,(]*(?:` + mostWords + `)\)?)$`)

var (
	greatestWords = parse.NewPattern(`\b(?:` + mostWords + `)\b`)
	fromMiddle    = parse.NewPattern(`\b(?:from (?:the )?(?:middle|cent(?:re|er)|midships?)|(?:du|depuis le) (?:milieu|centre))\b`)
	carryWords    = parse.NewPattern(`\b(?:` + parse.CarryTerms + `|yoke|thwart|grips?|grab(?:bing)?|handles?|hand[- ]?(?:holds?|grips?)|joug|poignees?|lift(?:ing)? (?:point|place|spot))\b|\bwhere (?:you|i|we|one|the hands?|your hands?|to)(?: can| would)? (?:lift|hold|carry|pick)\b|\b(?:point|endroit|place) (?:de|pour) (?:la )?(?:prise|transport|levage|prehension|porter|lever|soulever)\b|^prise$|\bprise (?:de main|pour)\b|^ou (?:\pL+ )+(?:prend|porte|saisit|saisir|tient|leve|souleve|empoigne)\b|\b(?:end|(?:back|aft|after) edge|edge) of (?:the )?(?:bow|front|fore) ?deck\b|\bbord arriere du pont(?:age)? avant\b`)
	otherCarry    = parse.NewPattern(`\b(?:heights?|hauteurs?|widths?|lengths?|largeurs?|longueurs?|stern|rear|poupe|arriere|second|2nd|deuxieme|seats?)\b`)
	placeWords    = parse.NewPattern(`\b(?:at|distance|dist|from|position|place|where|location|station|emplacement|endroit|lieu|depuis)\b|\ba$|\ba l|\ba combien|^ou\b`)
	thereWords    = parse.NewPattern(`\b(?:there|la|y|gunwales?|opening|ouverture)\b`)
	openingThere  = parse.NewPattern(`^(?:opening|ouverture|beam|width|largeur) (?:there|(?:at )?that (?:place|point)|la|a cet endroit)$`)
	unitWords     = parse.NewPattern(`^(?:units?(?: of measure(?:ment)?)?|measured in|measurements? in|unites?(?: de mesure)?|mesures? en|all (?:measurements|figures|dimensions) in)\b`)
	customerWords = parse.NewPattern(`^(?:customer(?:'s)?(?: name)?|your name|name|full name|client|nom(?: du client| complet)?|owner(?:'s name)?|proprietaire|votre nom|contact(?: name)?)$`)
	boatWords     = parse.NewPattern(`^(?:the |your )?(?:boat|make|model|brand|make ?(?:and|&|/|,|or) ?model|(?:what |which )?(?:sort|kind|type) of (?:boat|craft|canoe)|(?:boat|canoe|kayak) (?:make|model|name|type)(?: (?:and|&|/) model)?|canoe|kayak|craft|vessel|bateau|marque|modele|marque (?:et|/) modele|embarcation|canot|type of boat|boat type)$`)
	deckWords     = parse.NewPattern(`\b(?:decked|deck|pontee?s?|pont)\b`)
	spacingWords  = parse.NewPattern(`\b(?:spacing|spaced|interval|espacement|intervalle)\b`)
	tapeWords     = parse.NewPattern(`\b(?:tape (?:check|test)|(?:long )?edge of (?:the |this )?(?:paper|sheet|page)|paper edge|check of the tape|verification du ruban|bord (?:long )?de la feuille)\b`)
	otherWords    = parse.NewPattern(`^(?:(?:home |work |cell )?(?:phone|tel|telephone|mobile|cell)|fax|cellulaire|portable|courriel|e-?mail|address|adresse|street|city|town|ville|postal code|zip(?: code)?|code postal|postcode|date(?: measured| .*)?|measured on|mesuree? le|le$|day|heure|time(?: taken)?|minutes|duree|(?:model |boat )?year(?: built)?|built in|age|annee|page|form|version|serial|registration|immatriculation|hin|order|commande|job|invoice|facture|quote|po number|ref|reference|weight|boat weight|poids|price|prix|cost|deposit|hull (?:colou?r|material|id|identification)|colou?r|couleur|motor|moteur|horse ?power|puissance|measured by|helper|mesuree? par(?: \pL+|$)|passengers?|seats?|sieges?|bancs?|people|persons?|capacity|capacite|volume|temperature)\b`)
	numberOf      = parse.NewPattern(`^(?:how many|combien (?:de|d'))\b|^(?:number|no\.?|n°|nº|numero|nombre|nbre?\.?) (?:of|des?|du|d')|^(?:boat|hull|customer|client|serial|model|part|sail) (?:no\.?|number|#)$`)
	ofLength      = parse.NewPattern(`\b(?:heights?|lengths?|widths?|depths?|girths?|hauteurs?|longueurs?|largeurs?|profondeurs?|tours?|to)\b`)
)

// labelOf tells what a label outside a table says. Text is folded.
func labelOf(text string) label {
	s := strings.Trim(unitBracket.ReplaceAllString(nearestWords.ReplaceAllString(text, ""), ""), " :=.*-?")
	if i := strings.IndexAny(s, "(["); i > 0 && !greatestWords.MatchString(s) && !transomWords.MatchString(s) {
		if l := labelOf(s[:i]); l.measure == parse.LengthOverall && lengthOf.MatchString(s[i:]) {
			return label{}
		} else if !l.none() && l.group != groupHeights { // "Height (bow)"
			return l
		}
	}
	if i := strings.IndexAny(s, ",;"); len(s) > longestLabel && len(s) <= 2*longestLabel && i > 0 && firstDigit(s) < 0 {
		s = s[:i] // "Bow height, at the highest point, above the straight edge that lies ..."
	}
	switch {
	case s == "" || len(s) > longestLabel, remark.MatchString(s):
		return label{}
	case unitWords.MatchString(s):
		return label{meta: metaUnit}
	case customerWords.MatchString(s):
		return label{meta: metaCustomer}
	case boatWords.MatchString(s):
		return label{meta: metaBoat}
	case tapeWords.MatchString(s):
		return label{meta: metaTape}
	case saysNoLength(s):
		return label{meta: metaOther}
	case spacingWords.MatchString(s):
		return label{meta: metaSpacing}
	case greatestWords.MatchString(s) && overallLength(s):
		return label{measure: parse.LengthOverall}
	case mostBreadth.MatchString(s):
		return label{}
	case greatestWords.MatchString(s) && !endHeight(s):
		return greatestLabel(s)
	case openingThere.MatchString(s):
		return label{measure: parse.GreatestOpening}
	case strings.Contains(s, "square") || s == "transom stern" || strings.Contains(s, "arriere carre"):
		return label{meta: metaSquare}
	case overallLength(s) && !girthWords.MatchString(s):
		return label{measure: parse.LengthOverall}
	case transomWords.MatchString(s) && endHeight(s) && namesStern(s):
		return label{measure: parse.SternHeight} // "height of the stern (transom)"
	case transomWords.MatchString(s):
		return transomLabel(s)
	case overallLength(s):
		return label{measure: parse.LengthOverall, weak: strings.HasPrefix(s, "bow to") && strings.Contains(s, "girth")}
	case carryWords.MatchString(s) && !otherCarry.MatchString(s) && !fromMiddle.MatchString(s):
		return label{measure: parse.CarryPoint}
	case heightWords.MatchString(s) && otherHeight.MatchString(s):
		return label{}
	case endHeight(s) && namesBow(s):
		return label{measure: parse.BowHeight}
	case endHeight(s):
		return label{measure: parse.SternHeight}
	case s == "stern shape" || s == "stern type" || s == "type of stern" || s == "forme de la poupe":
		return label{meta: metaStern}
	case deckWords.MatchString(s) && !girthWords.MatchString(s):
		return label{meta: metaDeck}
	case heightWords.MatchString(s):
		return label{group: groupHeights}
	case bowOnly.MatchString(s):
		return label{measure: parse.BowHeight, weak: true}
	case sternOnly.MatchString(s):
		return label{measure: parse.SternHeight, weak: true}
	}
	return label{}
}

// saysNoLength reports the label of what is no length: a telephone, a date, a
// number of seats.
func saysNoLength(s string) bool {
	return (otherWords.MatchString(s) || numberOf.MatchString(s) && !stationCount.MatchString(s)) &&
		!greatestWords.MatchString(s) && !ofLength.MatchString(s) && !carryWords.MatchString(s)
}

// remark is what people note of how it went, which is a label of nothing.
var remark = parse.NewPattern(`\b(?:tape|ruban) (?:was|is|went|ran|runs|lay|over|on|caught|slack|twisted|passe|sur)\b|\b(?:higher|lower|maybe|perhaps|because|not sure|peut-etre)\b|\b(?:over|under|near|by|against|touching) the (?:thwart|yoke|seat|handle)\b`)

// longestLabel is the length from which a text is a sentence and no label.
const longestLabel = 80

// atGreatest is where a girth is taken, in "hull girth at the greatest", and no
// question for the place.
var atGreatest = parse.NewPattern(`\b(?:at|au?) (?:the |la |le )?(?:` + mostWords + `)\b`)

// spotWords name a place, and what stands beside it may be how far aft it lies
// or how wide it is: "widest point".
var spotWords = parse.NewPattern(`^ ?(?:(?:the|le|la|l') ?)*(?:point|part|spot|section|place|endroit|partie)(?: le| la)?$`)

func greatestLabel(s string) label {
	rest := greatestWords.ReplaceAllString(s, "")
	for _, sign := range []string{":", ",", " - "} {
		if _, what, ok := strings.Cut(rest, sign); ok && roleOf(what) != noRole {
			rest = strings.TrimSpace(what) // "Greatest girth: opening"
			break
		}
	}
	if m := openingWords.FindStringIndex(rest); m != nil && strings.TrimSpace(rest[:m[0]]) == "" && !fullWords.MatchString(s) && !hullWords.MatchString(s) {
		return label{measure: parse.GreatestOpening, weak: !placeWords.MatchString(s) && !thereWords.MatchString(s)}
	}
	switch r := roleOf(rest); {
	case r == roleOpening:
		return label{measure: parse.GreatestOpening, weak: !thereWords.MatchString(s)}
	case r == roleHull && (atGreatest.MatchString(s) || !placeWords.MatchString(s)):
		return label{measure: parse.GreatestHullGirth}
	case r == roleFull && (atGreatest.MatchString(s) || !placeWords.MatchString(s)):
		return label{measure: parse.GreatestFullGirth}
	case spotWords.MatchString(rest):
		return label{measure: parse.GreatestAt, group: groupGreatest, weak: true, spot: true}
	case placeWords.MatchString(s):
		return label{measure: parse.GreatestAt, group: groupGreatest, weak: fromStern.MatchString(s)}
	}
	return label{group: groupGreatest}
}

func transomLabel(s string) label {
	switch roleOf(transomWords.ReplaceAllString(s, "")) {
	case roleHull:
		return label{measure: parse.TransomHullGirth}
	case roleFull:
		return label{measure: parse.TransomFullGirth}
	}
	return label{group: groupTransom}
}

// within says what a label of a girth means under the heading of a place.
func within(g group, r role) parse.Measure {
	switch g {
	case groupGreatest:
		switch r {
		case roleHull:
			return parse.GreatestHullGirth
		case roleFull:
			return parse.GreatestFullGirth
		case roleOpening:
			return parse.GreatestOpening
		case roleStation:
			return parse.GreatestAt
		}
	case groupTransom:
		switch r {
		case roleHull:
			return parse.TransomHullGirth
		case roleFull:
			return parse.TransomFullGirth
		}
	}
	return ""
}

// numberInWords finds a number in a sentence that looks measured: one with a
// unit, or beside a station.
var numberInWords = parse.NewPattern(`\d\s*(?:ft|feet|foot|'|in\b|inch|"|cm|mm|m\b|pi\b|pieds?|po\b|pouces?|1/2)|\d[.,]5\b|\b(?:was|should be|is|read|reads|say|instead of|not)\s+\d`)
