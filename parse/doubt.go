package parse

import (
	"strings"
	"unicode"
)

// The words by which people say, in English and French, that a number may not be
// taken as it stands: common practice, no source. They are folded, and stand here
// for every reader.
const (
	// unsure are words of somebody who is not sure of a number.
	unsure = `(?:not|never|n'?t) (?:(?:at all|all that|quite|too|very|so|really|absolutely|entirely|completely|totally|100 ?%?) )*(?:sure|certain|happy|confident|convinced|reliable|accurate|exact)|` +
		`not to be (?:relied|trusted)|(?:do not|don'?t|can'?t|cannot|would not|wouldn'?t) (?:rely|trust|swear)|unsure|uncertain|dubious|questionable|unreliable|guess(?:es|ed|ing|work|timate[sd]?)?|estimat(?:e[sd]?|ions?|ing)|est\.|` +
		`maybe|perhaps|possibly|probably|more or less|give or take|plus or minus|ballpark|pinch of salt|tbc|` +
		`re-?check|check (?:again|this)|measure (?:it |this |that )?again|redo|` +
		`pas (?:(?:tout a fait|tres|vraiment|trop|du tout|bien|absolument) )*(?:sure?s?|certaine?s?|convaincue?s?|fiables?|exacte?s?)|incertaine?s?|douteu(?:x|se)s?|estimee?s?|approximati\w+|peut[- ]etre|probablement|sans doute|grosso modo|au (?:pif|juge|hasard)|a (?:verifier|reverifier|refaire|revoir|reprendre|confirmer|remesurer)`
	// wrong are words that say that a number is wrong, or not to be used.
	wrong = `should(?:'ve| have)? (?:be(?:en)?|read|say)|wrong(?:ly)?|incorrect(?:ly)?|mistakes?|mistaken|typos?|errors?|mis-?(?:read|typed?|wrote|written|measured|took|taken)|instead of|oops|ignore|disregard|` +
		`(?:can'?t|cannot|can not|couldn'?t|could not) (?:be|have been) (?:right|correct|true)|swapped|mixed up|` +
		`devrait|erreurs?|fautes? de frappe|fausse?s?|faux|errone\w+|trompee?s?|plutot|au lieu|inversee?s?|ne pas (?:en )?tenir compte|a ignorer|ignore[rz]`
	// rough are words of a number that was not measured, or not well.
	rough = `rough(?:ly)?|approx\w*\.?|doubts?|doubted|doubtful|hard to (?:read|see|tell|reach|say)|(?:could|might)(?: well)? be|may (?:well )?be (?:off|out|wrong|less|more|a |an |\d)|in doubt|suspect|suspicious|illegible|` +
		`(?:looks?|looked|seems?|seemed) (?:odd|off|funny|strange|wrong)|(?:a (?:bit|little|touch)|an inch|inches|slightly|(?:numbers?|figures?|readings?|girths?|it|this|that) (?:is|are|was|were)) (?:off|out)|` +
		`to be (?:re-?)?(?:confirmed|checked|verified|measured)|needs? (?:re-?)?(?:checking|measuring)|` +
		`by eye|eyeballed|interpolated|computed from|calculated|copied (?:from|off|over)|from (?:the |a )?(?:plans?|drawings?|brochures?|catalogu?e|website)|not (?:really |actually )?measured|` +
		`a l'oeil|doutes?|hesit\w+|a peu pres|environ|env\.|illisible|mal (?:mesuree?|lue?|prise?)|interpolee?s?|calculee?s?|copiee?s?|d'apres (?:le |les )?(?:plans?|catalogue)|pas (?:ete )?mesuree?s?`
	// went are words of a measuring that went wrong.
	went = `slipped|slack|snag(?:ged)?|twist(?:ed)?|(?:tape|it|rope|ruban) (?:\pL+ )?(?:sagg(?:ed|ing)|twisted|slack|loose|caught|snagged|hung)|a glisse|glissait|s'est (?:pris|prise|accroche\w*|tordue?|vrillee?)`
	// before are words that make the number rough behind which they stand, and mean
	// other things elsewhere; after those that do so behind it.
	before = `about|abt\.?|around|circa|ca\.?|c\.|almost|nearly|close to|just(?: (?:over|under|about))?|a (?:bit|shade|touch|hair|little) (?:over|under|above|below|more than|less than)|a good|more than|less than|over|under|say|(?:could|might|may|must) be|(?:somewhere |some place )?near|somewhere (?:around|about|in the region of)|not far (?:from|off)|in the region of|i (?:think|guess|believe)|` +
		`presque|un peu (?:plus|moins) de|plus de|moins de|pres de|pas loin de|autour de|aux alentours de|vers|dans les|disons|env|je (?:crois|pense)`
	after = `about|ish|or so|or thereabouts|(?:to )?(?:re-?)?check|i (?:think|guess|believe)|a (?:voir|mesurer|faire)|ou a peu pres|env|je (?:crois|pense)`
)

var (
	unsureWords = wordsOf(unsure, `^(?:or|ou) \d|^(?:i |je )?(?:think|guess|believe|crois|pense)(?: so)?$`)
	wrongWords  = wordsOf(wrong, `^wrong$`)
	roughWords  = wordsOf(rough, `^\?+$`)
	wentWords   = wordsOf(went, `^slack$`)
	hereWords   = NewPattern(`\?|\b(?:about|abt|circa|may be|i (?:think|guess|believe)|je (?:crois|pense))\b`)

	// noDoubt are words of doubt that doubt no number: "no doubt", "nothing is
	// wrong", "maybe you know Jim", "not sure when we will be at home".
	noDoubt = NewPattern(`\b(?:(?:no|without(?: a)?|beyond(?: a)?|any) (?:\pL+ )?doubts?|(?:sans|aucun|nul|pas de) (?:aucun )?doutes? possible|(?:sans aucun|aucun|nul|pas de) doute` +
		`|(?:no|nothing|none|never|not|without|nobody|(?:is|are|was|were|do|does|did|have|has)n'?t|aucune?|rien|sans|jamais|pas) (?:(?:is|are|was|were|be|been|an?|the|any|real|really|obvious|just|even|at all|of (?:them|it|those)|seems|looks|une?|de|est|sont|en) ){0,3}(?:d')?(?:wrong|incorrect|mistakes?|mistaken|errors?|typos?|guess\w*|estimat\w+|rough\w*|approx\w*|off|swapped|mixed up|erreurs?|fautes?|faux|fausse|estimee?s?|approximati\w+)` +
		`|(?:maybe|perhaps|possibly|probably|peut[- ]etre|probablement) (?:(?:qu[e']|that) ?)?(?:you|we|he|she|they|some ?(?:one|body|day|time)|next|later|tomorrow|vous|nous|on|demain|un jour|(?:i|je) (?:will|can|could|should|vais|peux|pourrai))` +
		`|(?:not sure|unsure|uncertain|pas sure?) (?:yet )?(?:when|who|whether (?:you|we)|if you|what (?:you|colou?r|cloth|kind)|how (?:to (?:send|pay|order|fold)|you|soon|much you)|quand|qui|si vous)` +
		`|(?:by mistake|par erreur))\b`)
	// putRight says that what went wrong was done again; a reader may have masked how
	// often.
	putRight = NewPattern(`\b(?:(?:done|did|taken|took|measured|tried|checked) (?:it |this |that |them )?(?:again|over|anew|twice|once more|(?:\S+ )?times|◌)|re-?(?:done|did|measured|taken|checked)|refaite?s?|recommencee?s?|remesuree?s?|reprise?s?)(?:\W|$)`)
)

// wordsOf finds words, or the whole of a text.
func wordsOf(words, whole string) *Pattern {
	return NewPattern(`(?:^|\W)(?:` + words + `)(?:\W|$)|` + whole)
}

// Doubts reports words after which the number that they speak of may not be taken
// as it stands: a remark beside it, a sentence that names it.
func Doubts(words string) bool {
	s := noDoubt.ReplaceAllString(Fold(words), " ")
	return unsureWords.MatchString(s) || wrongWords.MatchString(s) || (roughWords.MatchString(s) || wentWords.MatchString(s)) && !putRight.MatchString(s)
}

// Wavers reports words of somebody who is not sure, which leave open what is right.
func Wavers(words string) bool {
	s := noDoubt.ReplaceAllString(Fold(words), " ")
	return unsureWords.MatchString(s) || roughWords.MatchString(s)
}

// SaysWrong reports words that say that a number is wrong.
func SaysWrong(words string) bool {
	return wrongWords.MatchString(noDoubt.ReplaceAllString(Fold(words), " "))
}

// DoubtsHere reports it of words that hang on one number, where a question mark
// or "about" is enough: a note on a cell, what a mark means.
func DoubtsHere(note string) bool {
	return Doubts(note) || hereWords.MatchString(Fold(note))
}

// doubtSigns stand before a rough number.
const doubtSigns = "~≈±<>?"

// Words and signs that doubt the number beside which they stand.
var (
	doubtBefore = NewPattern(`(?i)(?:^|[^\pL])(\(?(?:` + accented(before+`|`+unsure+`|`+rough) + `)\)?(?:\s+|\s*:\s*)|(?:[` + doubtSigns + `]|\+\s?/\s?-)\s*)$`)
	doubtAfter  = NewPattern(`(?i)^(\s*(?:\?+|!\?|[±~]|\+\s?/?\s?-|\((?:\?+|est)\)|[,;(–—-]?\s*(?:-?ish|(?:[\pL'-]+\s){0,3}?(?:` + accented(after+`|`+unsure+`|`+rough+`|`+went) + `))(?:[^\pL]|$)\)?))`)
)

// DoubtBefore is where the words or signs begin with which a text ends, and that
// make the number behind it rough; -1 where there are none.
func DoubtBefore(text string) int {
	if !strings.ContainsAny(text, doubtSigns+"+") && !strings.ContainsFunc(text, unicode.IsLetter) {
		return -1
	}
	if m := doubtBefore.FindStringSubmatchIndex(text); m != nil {
		return m[2]
	}
	return -1
}

// DoubtAfter is where those end with which a text behind a number begins, 0 where
// there are none.
func DoubtAfter(text string) int {
	m := doubtAfter.FindStringSubmatchIndex(text)
	if m == nil {
		return 0
	}
	said := Fold(text[:m[3]])
	if noDoubt.MatchString(said) || wentWords.MatchString(said) && putRight.MatchString(Fold(text)) {
		return 0
	}
	return m[3]
}

// accented lets the letters of a pattern of folded words stand with accents too.
func accented(pattern string) string { return withAccents.Replace(pattern) }

var withAccents = strings.NewReplacer("a", "[aàâ]", "c", "[cç]", "e", "[eéèêë]", "i", "[iîï]", "o", "[oô]", "u", "[uùûü]")
