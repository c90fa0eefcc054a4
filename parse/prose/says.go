package prose

import (
	"strings"

	"fairtape/parse"
)

// Words that tell what a mail asks or says beside numbers. Texts are folded.
var (
	english = parse.NewPattern(`\b(?:the|and|is|are|was|you|your|my|i|have|with|for|this|that|here|please|thanks|thank|hello|hi|dear|at|of|from|it|not|be|hull|girth|bow|stern|length|inches|feet)\b`)
	french  = parse.NewPattern(`\b(?:le|la|les|des|et|est|sont|vous|votre|mon|ma|mes|je|j'ai|avec|pour|cette|voici|merci|bonjour|salut|de|du|une|un|pas|que|sur|coque|tour|etrave|poupe|longueur|hauteur|pieds|pouces|proue|arriere|avant)\b`)

	formWish = parse.NewPattern(`\b(?:send|mail|email|give|get|have|need|want|like|envoyer?|envoyez|recevoir|avoir|voudrais|aimerais|faire parvenir|besoin|transmettre)\b.{0,40}\b(?:forms?|measuring sheets?|survey sheets?|blank sheets?|formulaires?|feuilles? de (?:mesures?|releves?)|fiches?)\b|\b(?:forms?|formulaires?)\b.{0,30}\b(?:please|s'il vous plait|svp)\b|\b(?:do|could) you have a form\b`)
	formSent = parse.NewPattern(`\b(?:attached|attaching|here is|filled|completed|enclosed|ci-joint|voici|rempli)\b.{0,30}\b(?:forms?|formulaires?|sheets?)\b|\b(?:forms?|formulaires?)\b.{0,20}\b(?:attached|enclosed|filled|rempli|joint)\b`)

	soldWords = parse.NewPattern(`\b(?:(?:i|we)(?:'ve| have)? sold (?:the|my|our|it|her)|(?:boat|canoe|kayak|it|she) (?:is|was|has been|got|'s) (?:now )?sold|(?:no longer|don'?t|do not) (?:need|want|require) (?:the|a|any) cover|cancel (?:the|my|our) (?:order|cover)|(?:bateau|canot|canoe|kayak|il|elle) (?:est|a ete) vendue?|j'ai vendu|nous avons vendu|annuler? (?:la|ma) commande|plus besoin de (?:la )?housse)\b`)

	boatWords = parse.NewPattern(`\b(?:boats?|canoes?|kayaks?|dingh(?:y|ies)|skiffs?|bateaux?|canots?|barques?)\b`)

	tracingWords = parse.NewPattern(`\b(?:tracings?|templates? of the ends?|profils?|traces|tracages?|calques?|gabarits?)\b`)
	sentWords    = parse.NewPattern(`\b(?:sent|posted|mailed|in the (?:post|mail)|on (?:their|its|the) way|went off|put .{0,25}in the (?:post|mail)|dropped .{0,20}(?:post|mail)|couriered|shipped|envoyee?s?|poste[es]*|expediee?s?|mis(?:es)? a la poste|par la poste|partie?s?|en route)\b`)
	notYet       = parse.NewPattern(`\b(?:will|'ll|going to|not yet|haven'?t|have not|tomorrow|next week|once|when|shall|do you|did you|should i|vais|enverrai|demain|pas encore|n'ai pas|quand|dois-je|can i|have you)\b`)

	tapeWords  = parse.NewPattern(`\b(?:under (?:the |my )?tape|beneath the tape|sous le (?:ruban|metre)|in the way of the tape|tape (?:lay|lies|was|ran|runs|went|is) (?:flat|snug|straight|tight|clear))\b`)
	underWords = parse.NewPattern(`\b(?:nothing|no|not|only|just|there (?:was|is)|rien|aucun|il y (?:a|avait)|took out|removed|enleve)\b.{0,40}\b(?:cushions?|trestles?|sawhorses?|fittings?|under(?:neath)?(?: it| there)?\b|in the way|coussins?|treteaux?|ferrures?|dessous)`)

	greeting  = parse.NewPattern(`^(?:(?:hi|hello|hey|dear)\b.{0,30}\b)?(?:how are you|how'?s it going|how is everything|comment allez-vous|comment ca va|ca va|right|ok|okay|isn'?t it|you know)\s*\?*$`)
	asksFirst = parse.NewPattern(`^(?:(?:and|also|but|so|et|aussi|mais),? )?(?:can|could|do|does|did|will|would|is|are|should|may|when|how|what|which|where|who|why|est-ce que|pouvez-vous|pourriez-vous|peut-on|quand|comment|combien|quel(?:le)?s?|ou|qui|pourquoi|dois-je|faut-il|avez-vous)\b`)
	wonders   = parse.NewPattern(`\b(?:i (?:was )?wonder(?:ing)?|let me know|please (?:tell|advise|confirm|explain)|i'?d like to know|dites-moi|j'aimerais savoir|je me demande|pouvez-vous me dire)\b`)
)

// says gathers what the mail tells beside its numbers.
func (m *Mail) says(own []line) {
	m.Language = language(own)
	for _, s := range sentences(own) {
		f := parse.Fold(s)
		asks := question(s, f)
		if asks && !formWish.MatchString(f) {
			m.Questions = append(m.Questions, s)
		}
		if formWish.MatchString(f) && !formSent.MatchString(f) {
			m.WantsForm = true
		}
		if l := lengthNamed(s); l > 0 && boatWords.MatchString(f) {
			m.BoatLength = l
		}
		if soldWords.MatchString(f) && !asks {
			m.Sold = true
		}
		if tracingWords.MatchString(f) && sentWords.MatchString(f) && !notYet.MatchString(f) && !asks {
			m.Tracings = m.Tracings.with(f)
		}
		if !asks && m.UnderTape == "" && (tapeWords.MatchString(f) || underWords.MatchString(f)) {
			m.UnderTape = s
		}
		if sameWords.MatchString(f) && !strings.ContainsAny(f, "0123456789") && !asks {
			m.Unchanged = true
		}
	}
}

// The lengths of small open boats (common practice, no source).
const (
	leastBoat = 5 * 12 * 25.4  // mm
	mostBoat  = 30 * 12 * 25.4 // mm
)

// lengthWritten is a length in feet or metres, with inches or without.
var lengthWritten = parse.NewPattern(`(?i)\d+(?:[.,]\d+)?[ -]?(?:(?:ft|feet|foot|pi|pieds?|m|met(?:re|er)s?|mètres?|cm)\b|['’])(?:\s?\d+(?:\s\d/\d|½)?\s?(?:(?:in|inch|inches|po|pouces?)\b|["”])?)?`)

// lengthNamed is the one length of a boat that a sentence names with its unit, 0
// for none.
func lengthNamed(sentence string) (length parse.Length) {
	for _, written := range lengthWritten.FindAllString(sentence, -1) {
		a, fault := parse.ParseLength(strings.ReplaceAll(written, "-", " "))
		l, ok := a.Length(a.Scale)
		if fault.Some() || !ok || l < leastBoat || l > mostBoat {
			continue
		}
		if length != 0 && length != l {
			return 0
		}
		length = l
	}
	return length
}

func (t Tracings) with(s string) Tracings {
	bow, stern := bowWords.MatchString(s), sternWords.MatchString(s)
	if bow == stern { // both are named, or neither
		return Tracings{true, true}
	}
	return Tracings{t.Bow || bow, t.Stern || stern}
}

func question(s, folded string) bool {
	if greeting.MatchString(strings.Trim(folded, " .!")) {
		return false
	}
	if strings.HasSuffix(strings.TrimSpace(s), "?") {
		// "46?" after a number is a doubt about it, no question to the shop.
		words := strings.FieldsFunc(folded, func(r rune) bool { return !isLetter(r) && r != '\'' })
		return len(words) >= 3 || asksFirst.MatchString(folded)
	}
	return wonders.MatchString(folded)
}

// languageLead is how many more words of one language than of the other settle
// it.
const languageLead = 2

func language(own []line) string {
	en, fr := 0, 0
	for _, l := range own {
		s := parse.Fold(l.text)
		en += len(english.FindAllString(s, -1))
		fr += len(french.FindAllString(s, -1))
	}
	switch {
	case en >= fr+languageLead:
		return "en"
	case fr >= en+languageLead:
		return "fr"
	}
	return ""
}

// sentences joins wrapped lines into paragraphs and cuts those.
func sentences(own []line) []string {
	var out []string
	var paragraph strings.Builder
	flush := func() {
		out = append(out, cut(paragraph.String())...)
		paragraph.Reset()
	}
	for _, l := range own {
		if l.blank() || l.cells != nil {
			flush()
			continue
		}
		if paragraph.Len() > 0 {
			paragraph.WriteByte(' ')
		}
		paragraph.WriteString(strings.TrimSpace(l.text))
	}
	flush()
	return out
}

var (
	sentenceEnd  = parse.NewPattern(`[.!?]+["')\]]*(?:\s+|$)|;\s+`)
	abbreviation = parse.NewPattern(`(?i)(?:^|[\s(])(?:ft|st|sta|stn|approx|abt|no|mr|mrs|ms|dr|m|mme|env|est|ca|c|e\.g|i\.e|incl|max|min|po|pi|ext|ht|hgt|pt|l\.o\.a)\.$|\d\s?in\.$`)
)

// labelMost is how many words a label has at most that stands before its number
// like a sentence: "Carry point from bow. 18".
const labelMost = 5

// labelAlone reports the label of a number that is still to come.
func labelAlone(s string) bool {
	return !strings.ContainsAny(s, "0123456789") && len(strings.Fields(s)) <= labelMost && labelOf(parse.Fold(s)).some()
}

// cut parts a text into sentences; points of decimals and of abbreviations end
// none.
func cut(text string) []string {
	var out []string
	start := 0
	for _, at := range sentenceEnd.FindAllStringIndex(text, -1) {
		end := strings.TrimRight(text[start:at[1]], " \t")
		after := text[at[1]:]
		if abbreviation.MatchString(end) && after != "" && !(after[0] >= 'A' && after[0] <= 'Z') {
			continue
		}
		if labelAlone(text[start:at[1]]) && after != "" && after[0] >= '0' && after[0] <= '9' {
			continue
		}
		if s := strings.TrimSpace(end); s != "" {
			out = append(out, s)
		}
		start = at[1]
	}
	if s := strings.TrimSpace(text[start:]); s != "" {
		out = append(out, s)
	}
	return out
}
