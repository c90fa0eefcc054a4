package table

import (
	"regexp"
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

var (
	greatestWords = regexp.MustCompile(`\b(?:greatest|maximum|max|widest|largest|biggest|maximale?|plus (?:grande?|large|gros)|fullest|fattest|broadest)\b`)
	transomWords  = regexp.MustCompile(`\b(?:transom|tableau)\b`)
	transomAt     = regexp.MustCompile(`\b(?:transom|tableau(?: arriere)?)\b`)
	overallWords  = regexp.MustCompile(`\b(?:length,? over ?all|over ?all length|l\.?o\.?a\b\.?|total length|length (?:of )?(?:the |my )?(?:boat|canoe|kayak|hull)|(?:boat|canoe|kayak|hull) length|longueur (?:hors[- ]tout|totale|du (?:bateau|canot|canoe))|l\.?h\.?t\b\.?|bow[- ]to[- ]stern|stem[- ]to[- ]stern|end[- ]to[- ]end|tip[- ]to[- ]tip|bout (?:en|a) bout|pointe a pointe|hors[- ]tout)|^how long\b[^:]*\b(?:boat|canoe|kayak|overall|she|it)\b|^(?:full|straight) length\b|\blength (?:along|by) the string\b|\blongueur d'un bout\b|^long\.?$|^canoe is$|^length o\.? ?a\b|\bpoint to point\b|^(?:over ?all )?length$|^over ?all$|^longueur$|^loa$`)
	otherLength   = regexp.MustCompile(`\b(?:waterline|lwl|flottaison|keel length|deck length|trailer|gunwale length)\b`)
	lengthOf      = regexp.MustCompile(`^[(\[] ?(?:(?:of|on|along|at|inside|de|du|le long) )*(?:the |la |le )?(?:keel|deck|waterline|lwl|gunwales?|cockpit|trailer|inside|quille|pont|flottaison|interieure?)\b`)
	fromMiddle    = regexp.MustCompile(`\b(?:from (?:the )?(?:middle|cent(?:re|er)|midships?)|(?:du|depuis le) (?:milieu|centre))\b`)
	heightWords   = regexp.MustCompile(`\b(?:heights?|hauteurs?|high|ht|hgt|haut)\b|\S h\.?$|^h\.? (?:de )?(?:la |l')?\pL+$|\b(?:top|highest point|peak) of (?:the )?(?:bow|stern|stem|etrave|poupe)\b|\b(?:bow|stern) peak$`)
	bowWords      = regexp.MustCompile(`\b(?:bow|stem|prow|etrave|proue|nose|front|avant)\b`)
	sternWords    = regexp.MustCompile(`\b(?:stern|poupe|aft|rear|back|arriere|etambot)\b`)
	sternOnly     = regexp.MustCompile(`^(?:the )?(?:stern|poupe|arriere)(?: end)?$`)
	bowOnly       = regexp.MustCompile(`^(?:the )?(?:bow|etrave|proue|avant)(?: end)?$`)
	otherHeight   = regexp.MustCompile(`\b(?:seats?|seat ?back|backrest|thwart|yoke|trailer|rack|coaming|cockpit|freeboard|ceiling|door|garage|siege|remorque)\b`)
	carryWords    = regexp.MustCompile(`\b(?:carry(?:ing)?|yoke|thwart|portage|grips?|grab(?:bing)?|handles?|hand ?holds?|joug|poignee|lift(?:ing)? point|point de prise|prise de main)\b|\b(?:end|(?:back|aft|after) edge|edge) of (?:the )?(?:bow|front|fore) ?deck\b|\bbord arriere du pont(?:age)? avant\b`)
	otherCarry    = regexp.MustCompile(`\b(?:heights?|hauteurs?|widths?|lengths?|largeurs?|longueurs?|stern|rear|poupe|arriere|second|2nd|deuxieme|seats?)\b`)
	fromStern     = regexp.MustCompile(`\b(?:from (?:the )?(?:stern|transom|aft|back|rear)|(?:de|depuis) (?:la |le |l')?(?:poupe|arriere|tableau))\b`)
	placeWords    = regexp.MustCompile(`\b(?:at|distance|dist|from|position|place|where|location|station|emplacement|depuis)\b|\ba$|\ba l|\ba combien`)
	thereWords    = regexp.MustCompile(`\b(?:there|la|y|gunwales?|opening|ouverture)\b`)
	openingThere  = regexp.MustCompile(`^(?:opening|ouverture|beam|width|largeur) (?:there|(?:at )?that (?:place|point)|la|a cet endroit)$`)
	unitWords     = regexp.MustCompile(`^(?:units?(?: of measure(?:ment)?)?|measured in|measurements? in|unites?(?: de mesure)?|mesures? en|all (?:measurements|figures|dimensions) in)\b`)
	customerWords = regexp.MustCompile(`^(?:customer(?:'s)?(?: name)?|your name|name|full name|client|nom(?: du client| complet)?|owner(?:'s name)?|proprietaire|votre nom|contact(?: name)?)$`)
	boatWords     = regexp.MustCompile(`^(?:the |your )?(?:boat|make|model|brand|make ?(?:and|&|/|,|or) ?model|(?:boat|canoe|kayak) (?:make|model|name|type)(?: (?:and|&|/) model)?|canoe|kayak|craft|vessel|bateau|marque|modele|marque (?:et|/) modele|embarcation|canot|type of boat|boat type)$`)
	deckWords     = regexp.MustCompile(`\b(?:decked|deck|pontee?s?|pont)\b`)
	spacingWords  = regexp.MustCompile(`\b(?:spacing|spaced|interval|espacement|intervalle)\b`)
	tapeWords     = regexp.MustCompile(`\b(?:tape (?:check|test)|(?:long )?edge of (?:the |this )?(?:paper|sheet|page)|paper edge|check of the tape|verification du ruban|bord (?:long )?de la feuille)\b`)
	otherWords    = regexp.MustCompile(`^(?:phone|tel|telephone|telephone number|mobile|cell|courriel|e-?mail|address|adresse|street|city|town|ville|postal code|zip(?: code)?|code postal|postcode|date(?: measured| .*)?|le|day|year(?: built)?|annee|page|form|version|serial(?: number)?|hull id(?:entification)?(?: number)?|hin|order(?: no\.?| number)?|job|invoice|po number|ref|reference|weight|poids|price|prix|colou?r|couleur|motor|moteur|measured by|helper|mesure par|passengers?|seats?|people|persons?)\b`)
)

// labelOf tells what a label outside a table says. Text is folded.
func labelOf(text string) label {
	s := strings.Trim(nearestWords.ReplaceAllString(text, ""), " :=.*-?")
	if i := strings.IndexAny(s, "(["); i > 0 && !greatestWords.MatchString(s) && !transomWords.MatchString(s) {
		if l := labelOf(s[:i]); l.measure == parse.LengthOverall && lengthOf.MatchString(s[i:]) {
			return label{}
		} else if !l.none() {
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
	case otherWords.MatchString(s) && !greatestWords.MatchString(s):
		return label{meta: metaOther}
	case spacingWords.MatchString(s):
		return label{meta: metaSpacing}
	case greatestWords.MatchString(s) && !endHeight(s):
		return greatestLabel(s)
	case openingThere.MatchString(s):
		return label{measure: parse.GreatestOpening}
	case strings.Contains(s, "square") || s == "transom stern" || strings.Contains(s, "arriere carre"):
		return label{meta: metaSquare}
	case transomWords.MatchString(s) && endHeight(transomAt.ReplaceAllString(s, "")):
		return label{measure: parse.SternHeight} // "height of the stern (transom)"
	case transomWords.MatchString(s):
		return transomLabel(s)
	case otherLength.MatchString(s):
		return label{}
	case overallWords.MatchString(s):
		return label{measure: parse.LengthOverall, weak: strings.HasPrefix(s, "bow to") && strings.Contains(s, "girth")}
	case carryWords.MatchString(s) && !otherCarry.MatchString(s) && !fromMiddle.MatchString(s):
		return label{measure: parse.CarryPoint}
	case heightWords.MatchString(s) && otherHeight.MatchString(s):
		return label{}
	case endHeight(s) && bowWords.MatchString(s):
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

// endHeight reports the height of one end.
func endHeight(s string) bool {
	return heightWords.MatchString(s) && !otherHeight.MatchString(s) && bowWords.MatchString(s) != sternWords.MatchString(s)
}

// remark is what people note of how it went, which is a label of nothing.
var remark = regexp.MustCompile(`\b(?:tape|ruban) (?:was|is|went|ran|runs|lay|over|on|caught|slack|twisted|passe|sur)\b|\b(?:higher|lower|maybe|perhaps|because|not sure|peut-etre)\b|\b(?:over|under|near|by|against|touching) the (?:thwart|yoke|seat|handle)\b`)

// longestLabel is the length from which a text is a sentence and no label.
const longestLabel = 80

// atGreatest is where a girth is taken, in "hull girth at the greatest", and no
// question for the place.
var atGreatest = regexp.MustCompile(`\b(?:at|a) (?:the |la |le )?(?:greatest|maximum|max|widest|largest|biggest|plus)\b`)

// spotWords name a place, and what stands beside it may be how far aft it lies
// or how wide it is: "widest point".
var spotWords = regexp.MustCompile(`^ ?(?:point|part|spot|section|place|endroit|partie)$`)

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
		return label{measure: parse.GreatestAt, group: groupGreatest, weak: true}
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
var numberInWords = regexp.MustCompile(`\d\s*(?:ft|feet|foot|'|in\b|inch|"|cm|mm|m\b|pi\b|pieds?|po\b|pouces?|1/2)|\d[.,]5\b|\b(?:was|should be|is|read|reads|say|instead of|not)\s+\d`)
