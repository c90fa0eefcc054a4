package prose

import (
	"strings"

	"fairtape/parse"
)

// What is no measure of a boat, by its look or by the words beside it. Each is
// put out of sight before numbers are looked for; blanks take its place, and a
// mark that no person types, so that the words around it stay apart. A pattern is
// tried only on a text with as many digits as it needs: most have few.
var harmless = []struct {
	digits int // that it has at least
	look   *parse.Pattern
}{
	{0, parse.NewPattern(`(?i)\b(?:https?://|www\.)\S+`)},
	{0, parse.NewPattern(`\S+@\S+\.\w+`)},
	// Telephone numbers: seven digits or more in groups, or after a word that says so.
	{1, parse.NewPattern(`(?i)\b(?:phone|tel|tél|télé(?:phone)?|telephone|téléphone|cell(?:ulaire)?|mobile|mob|portable|fax|call me (?:at|on)|appelez[- ]moi au|text me at|ph)\b\.?[\s:#]*\+?[\d(][\d\s().\-/]{5,}\d(?:\s*(?:x|ext\.?|poste)\s*\d+)?`)},
	{2, parse.NewPattern(`\+\d[\d\s().\-]{7,}\d`)},
	{10, parse.NewPattern(`\(?\b\d{3}\)?[\s.\-]\s?\d{3}[\s.\-]\d{4}\b`)},
	{10, parse.NewPattern(`\b0\d(?:[\s.\-]\d\d){4}\b`)},
	{7, parse.NewPattern(`\b\d{3}-\d{4}\b`)},
	{10, parse.NewPattern(`\b0\d{3,4}\s\d{6}\b|\b0\d{2,4}\s\d{3}\s\d{4}\b`)},
	// Money.
	{1, parse.NewPattern(`(?i)(?:[$€£]|\b(?:CAD|USD|EUR|CHF)\s?)\s?\d[\d\s.,]*\d|[$€£]\s?\d`)},
	{1, parse.NewPattern(`(?i)\b\d[\d.,]*\s?(?:[$€£]|(?:dollars?|bucks|euros?|CAD|USD|EUR|CHF|pounds)\b)`)},
	// Dates and times.
	{6, parse.NewPattern(`\b\d{4}-\d\d?-\d\d?\b|\b\d\d?/\d\d?/\d{4}\b|\b\d\d?\.\d\d?\.\d{4}\b`)},
	{4, parse.NewPattern(`(?i)\b(?:on|le|date|dated|du)\s?:?\s\d\d?[/.]\d\d?[/.]\d\d\b`)},
	{1, parse.NewPattern(`(?i)\b(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?\s\d{1,2}(?:st|nd|rd|th)?\b(?:,?\s(?:19|20)\d\d\b)?`)},
	{1, parse.NewPattern(`(?i)\b\d{1,2}(?:st|nd|rd|th|er)?\s(?:of\s)?(?:jan(?:uary|vier)?|feb(?:ruary)?|f[ée]v(?:rier)?|mar(?:ch|s)|apr(?:il)?|avr(?:il)?|may|mai|june?|juin|july?|juil(?:let)?|aug(?:ust)?|ao[uû]t|sept?(?:ember|embre)?|oct(?:ober|obre)?|nov(?:ember|embre)?|d[ée]c(?:ember|embre)?)\b\.?(?:,?\s(?:19|20)\d\d\b)?`)},
	{4, parse.NewPattern(`(?i)\b(?:jan(?:uary|vier)?|feb(?:ruary)?|f[ée]vrier|mar(?:ch|s)|apr(?:il)?|avril|may|mai|june?|juin|july?|juillet|aug(?:ust)?|ao[uû]t|sept?(?:ember|embre)?|oct(?:ober|obre)?|nov(?:ember|embre)?|d[ée]c(?:ember|embre)?),?\s(?:19|20)\d\d\b`)},
	{1, parse.NewPattern(`(?i)\b\d{1,2}:\d\d(?::\d\d)?(?:\s?[ap]\.?m\b\.?)?|\b\d{1,2}\.\d\d\s?[ap]\.?m\b\.?|\b\d{1,2}\s?(?:[ap]m\b|[ap]\.m\.|o'clock)|\b\d{1,2}\s?h\s?\d\d\b|\b(?:à|vers)\s\d{1,2}\s?h\b`)},
	{4, parse.NewPattern(`(?i)\b(?:in|since|from|built|made|bought|year|summer|spring|fall|autumn|winter|en|depuis|été|année|a|my|the|our|un|une|mon|ma|modèle|model|vintage|around|circa|about|c\.)(?:\sin|\sen|\s:)?\s(?:19[2-9]\d|20[0-4]\d)s?\b`)},
	{4, parse.NewPattern(`(?i)\b(?:19[2-9]\d|20[0-4]\d)\s(?:model|canoe|kayak|boat|build|season|canot|modèle|[A-Z][a-z]+\b)`)},
	// Addresses and postal codes.
	{3, parse.NewPattern(`(?i)\b[A-Z]\d[A-Z]\s?\d[A-Z]\d\b`)},
	{5, parse.NewPattern(`\b[A-Z]{2},?\s\d{5}(?:-\d{4})?\b|\b\d{5}-\d{4}\b`)},
	{2, parse.NewPattern(`\b[A-Z]{1,2}\d{1,2}[A-Z]?\s\d[A-Z]{2}\b`)},
	{1, parse.NewPattern(`\b\d{1,5}[A-Za-z]?,?\s(?:[A-Z][\pL'.-]+\s){1,3}(?i:street|st\.|road|rd|lane|ln|avenue|ave|drive|dr|boulevard|blvd|court|crescent|cres|highway|hwy|terrace|close|way|place|row|wharf)(?:\b|$)`)},
	{1, parse.NewPattern(`(?i)\b\d{1,5}(?:\s?bis)?,?\s(?:rue|chemin|avenue|av\.|boulevard|bd|allée|allee|impasse|quai|route|rang|place)\s[\pL'’ -]+`)},
	{1, parse.NewPattern(`(?i)\b(?:p\.?\s?o\.?\s?box|apt\.?|apartment|unit|suite|rr|c\.?p\.|case postale|bo[iî]te postale)\s?#?\s?\d+\b`)},
	{5, parse.NewPattern(`(?i)\b\d{5}\s[A-ZÉ][\pL'-]+(?:[\s-][A-Z][\pL'-]+)*\s*$`)},
	// Numbers of orders, models and pages.
	{1, parse.NewPattern(`(?i)\b(?:order|invoice|job|entry|submission|response|ref(?:erence)?|case|ticket|quote|account|customer|serial|hin|hull id|model|modèle|commande|facture|dossier|devis|client|page|sheet|attachment|photo|picture|figure|fig|img|image|version|rev(?:ision)?|colou?r|couleur|catalog(?:ue)?)\.?\s*(?:no\.?|number|n°|nº|#|num(?:éro|ero|ber)?\.?|id)?\s*[:#]?\s*#?\s?[A-Z]{0,4}-?\d[\w-]*(?:\s?(?:of|/|sur|de)\s?\d+)?\b`)},
	{3, parse.NewPattern(`#\s?\d{3,}\b`)},
	{3, parse.NewPattern(`(?i)\b[A-Z]{2,5}[-_]?\d{3,}[A-Z0-9-]*\b`)},
	// Counts and other quantities.
	{1, parse.NewPattern(`(?i)\b\d+(?:[.,]\d+)?(?:\s?-\s?\d+)?\s?(?:%|percent|per cent|pour ?cent|people|persons?|paddlers?|kids?|children|minutes?|mins?|hours?|hrs?|days?|weeks?|months?|years?|yrs?|times|tries|lbs?|pounds|kgs?|kilos?|kilograms?|oz|hp|ch|horse ?power|chevaux|cv|mph|knots?|km|miles?|gallons?|litres?|liters?|degrees?|°\s?[CF]?|photos?|pictures?|pics?|pages?|attachments?|files?|sheets?|copies|boats?|canoes?|kayaks?|covers?|thwarts?|seats?|stations|rows?|places?|spots?|measurements?|numbers|questions?|of (?:us|them|the)|personnes?|gens|enfants?|heures?|jours?|semaines?|mois|ans|années?|fois|essais?|pièces?|fichiers?|bateaux?|canots?|housses?|bancs?|sièges?|lignes?|mesures|endroits?|points?)\b`)},
	{1, parse.NewPattern(`(?i)\b(?:i am|i'm|j'ai|aged|age)\s\d{1,2}\b(?:\s(?:ans|years))?`)},
	// How the stations were laid off, and how finely it was measured.
	{1, parse.NewPattern(`(?i)\b(?:every|each|tous les|chaque|spaced|at intervals of|intervals? of|nearest|au plus proche|à)\s\d+(?:[.,]\d+)?(?:\s\d/\d)?\s?(?:-?\s?(?:foot|feet|ft|inch(?:es)?|in|cm|pieds?|pouces?|po|mm)\b|['"])\s*(?:près|intervals?|apart|spacing)`)},
	{0, parse.NewPattern(`(?i)\b(?:every|tous les|nearest|chaque)\s(?:\d+(?:[.,]\d+)?(?:\s?\d?/\d)?|½|¼)\s?-?\s?(?:foot|feet|ft|inch(?:es)?|in|cm|pieds?|pouces?|po|mm)?\b`)},
	// The tape itself.
	{1, parse.NewPattern(`(?i)\b(?:tape(?: measure)?|ruban|mètre à ruban)(?: (?:of|de|is|est|was))? \d+(?:[.,]\d+)?\s?-?(?:m|ft|feet|foot|met(?:re|er)s?|mètres?|pi|pieds?)\b|\b\d+(?:[.,]\d+)?[ -]?(?:m|ft|foot|met(?:re|er)) (?:long )?(?:tape|ruban)\b`)},
	// The kind of boat, which is named by a rounded length.
	{1, parse.NewPattern(`(?i)\b\d{1,2}(?:[.,]5|\s?1/2|½)?\s?(?:-|\s)?\s?(?:foot(?:er)?|ft|footer|feet|pieds?|')[\s-](?:(?:long|old|cedar|canvas|wood(?:en)?|strip|aluminium|aluminum|kevlar|fibreglass|fiberglass|royalex|plywood|rowing|solo|tandem|sailing|open|decked|lapstrake|home-?built|de)[\s-]+){0,3}(?:canoe|kayak|boat|skiff|dinghy|dory|guide ?boat|rowboat|punt|pulling boat|canot|canoë|bateau|barque|chaloupe|prospector|peterborough)s?\b`)},
	{1, parse.NewPattern(`(?i)\b\d{1,2}[\s-](?:foot)?er\b|\b\d{1,2}[\s-]?footer\b`)},
	{1, parse.NewPattern(`(?i)\b(?:canot|canoë|kayak|bateau|barque)\s(?:\pL+\s){0,3}de\s\d{1,2}(?:[.,]\d)?\s?(?:pieds?|pi|')`)},
	{1, parse.NewPattern(`(?i)\b\d+(?:st|nd|rd|th|ième|ieme|ème|eme|er|ère|e)\b`)},
}

// masked stands where something was put out of sight.
const masked = '\u25cc'

// unitFollows keeps a number with a unit of length in sight, whatever its look:
// 1987 mm is no year.
var unitFollows = parse.NewPattern(`^\s?(?:mm|cm)\b`)

func mask(text string) string {
	digits := digitsIn(text)
	for _, p := range harmless {
		if digits < p.digits {
			continue
		}
		found := p.look.FindAllStringIndex(text, -1)
		if found == nil {
			continue
		}
		var out strings.Builder
		end := 0
		for _, at := range found {
			if unitFollows.MatchString(text[at[1]:]) {
				continue
			}
			out.WriteString(text[end:at[0]] + " " + string(masked) + " ")
			end = at[1]
		}
		text = out.String() + text[end:]
		digits = digitsIn(text)
	}
	return text
}

func digitsIn(text string) int {
	n := 0
	for i := range len(text) {
		if text[i] >= '0' && text[i] <= '9' {
			n++
		}
	}
	return n
}
