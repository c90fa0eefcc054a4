package table

import "fairtape/parse"

// The two ends of a boat, as people name them: common practice, no source.
const (
	bowNoun   = `(?:bow|stem|prow|nose|front|etrave|proue|avant|devant|nez)`
	sternNoun = `(?:stern(?:post)?|aft|rear|back|tail|poupe|arriere|derriere|etambot|queue)`
	// ofThe stands between what is measured and the end that it is measured from.
	ofThe = `(?:from (?:the )?|(?:de|du|depuis|a partir (?:de|du)) (?:(?:la |le |l'|du )?(?:bout |pointe )?(?:d'en )?))`
)

var (
	bowWords   = parse.NewPattern(`\b(?:` + bowNoun + `|forward|fwd|fore)\b`)
	sternWords = parse.NewPattern(`\b` + sternNoun + `\b`)
	bowOnly    = parse.NewPattern(`^(?:the )?` + bowNoun + `(?: end)?$`)
	sternOnly  = parse.NewPattern(`^(?:the )?` + sternNoun + `(?: end)?$`)
	fromStern  = parse.NewPattern(`\b` + ofThe + `(?:l')?(?:` + sternNoun + `|transom|tableau)\b`)
	// sternStem is the stem of a double-ended boat that is at its stern.
	sternStem    = parse.NewPattern(`\b(?:stern|rear|back|aft) (?:stem|nose)\b|\b(?:stem|nose|nez|etrave) (?:(?:at|of|de|d'en) )?(?:the |la |l')?(?:stern|rear|back|aft|arriere|poupe|derriere)\b`)
	heightWords  = parse.NewPattern(`\b(?:heights?|hauteurs?|high|tall|ht|hgt)\b|(?:^|plus |, )haut\b|\S h\.?$|^h\.? (?:de )?(?:la |l')?\pL+$|\b(?:top|highest point|peak) of (?:the )?(?:bow|stern|stem|etrave|poupe)\b|\b(?:bow|stern) peak$|\b(?:up|off|above)(?: from| off)? the (?:floor|ground|straight[- ]?edge|board)\b|\bau-dessus du (?:sol|plancher)\b`)
	otherHeight  = parse.NewPattern(`\b(?:seats?|seat ?back|backrest|thwart|yoke|trailer|rack|coaming|cockpit|freeboard|ceiling|door|garage|cover|motor|engine|mast|siege|remorque|housse|bache|moteur|mat|banc)\b`)
	squareStern  = parse.NewPattern(`\bsquare (?:stern|end)\b|\bstern,? \(?square\b|\b(?:arriere|poupe),? \(?carree?\b`)
	transomWords = parse.NewPattern(`\b(?:transom|tableau)\b`)
	// atTransom is the end of a boat with a square stern. The transom itself has
	// a height too, which is not meant here.
	atTransom  = parse.NewPattern(`\b(?:at|to|by|above|over|au|a la) (?:the )?(?:top of (?:the )?)?(?:transom|tableau)\b`)
	ownTransom = parse.NewPattern(`\btableau arriere\b`)
)

// endHeight reports the height of one end.
func endHeight(s string) bool {
	return heightWords.MatchString(s) && !otherHeight.MatchString(s) && (namesBow(s) != namesStern(s))
}

// namesBow and namesStern report the ends that a label names.
func namesBow(s string) bool { return bowWords.MatchString(sternStem.ReplaceAllString(s, "stern")) }

func namesStern(s string) bool {
	return sternWords.MatchString(ownTransom.ReplaceAllString(s, "tableau")) || atTransom.MatchString(s)
}
