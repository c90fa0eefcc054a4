package table

import (
	"strings"
	"unicode"

	"fairtape/parse"
)

var (
	overallWords = parse.NewPattern(`\b(?:length,? over ?all|over ?all length|l\.?o\.?a\b\.?|total length|length (?:of )?(?:the |my )?(?:boat|canoe|kayak|hull)|(?:boat|canoe|kayak|hull) length|longueur (?:hors[- ]tout|totale|du (?:bateau|canot|canoe))|l\.?h\.?t\b\.?|hors[- ]tout|length (?:along|by) the string)\b|` + endToEnd + `|^canoe is$|^over ?all$`)
	otherLength  = parse.NewPattern(`\b(?:waterline|lwl|flottaison|keel length|deck length|trailer|gunwale length)\b|\b(?:largeur|bau|hauteur|width|beam) (?:hors|over)\b`)
	lengthOf     = parse.NewPattern(`^[(\[] ?(?:(?:of|on|along|at|inside|de|du|le long) )*(?:the |la |le )?(?:keel|deck|waterline|lwl|gunwales?|cockpit|trailer|inside|quille|pont|flottaison|interieure?)\b`)
	lengthWords  = parse.NewPattern(`\b(?:length|longueur|long)\b`)
)

// endToEnd is a length said by the two ends between which it lies.
const endToEnd = `\b(?:bow|stem|front|nose)[- ]to[- ](?:the )?(?:stern|tail|transom)\b|\bfront to (?:the )?(?:back|rear)$` +
	`|\btip[- ]to[- ]tip\b|\bend[- ]to[- ]end\b|\bpoint[- ]to[- ]point\b` +
	`|\b(?:pointe|bout) (?:en|a) (?:pointe|bout)\b|\bun bout a l'autre\b` +
	`|\b(?:proue|etrave|avant|devant|nez) (?:a|au|jusqu'au?) (?:la |l')?(?:poupe|etambot|arriere|derriere|queue|tableau)\b`

// wholeBoat are the words in which the length of a boat is asked for: any other
// beside them may make it that of something else.
var wholeBoat = wordSet(`length longueur long how is are does it she what s the my your our her of in from to and or please
	boat canoe kayak hull skiff dinghy craft vessel rowboat punt pram
	over all overall o a total full whole complete entire straight line max maximum measured along string
	l la le de du d en est fait quelle combien mesure a son votre mon
	bateau canot coque embarcation chaloupe barque hors tout h t totale complete entiere maximale droite
	bow stem stern front back nose tail transom tableau tip end ends point foremost aftmost
	avant arriere proue poupe etrave etambot pointe bout autre
	feet ft foot inches inch ins cm m pi po pieds pouces`)

// overallLength reports the label of the length overall. Text is folded.
func overallLength(s string) bool {
	if otherLength.MatchString(s) {
		return false
	}
	if overallWords.MatchString(s) {
		return true
	}
	if !lengthWords.MatchString(s) || namesBow(s) != namesStern(s) {
		return false // a length that one end is named of is no whole one
	}
	for _, w := range wordsOf(s) {
		if !wholeBoat[w] {
			return false
		}
	}
	return true
}

// wordsOf cuts a text into its words.
func wordsOf(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
}
