package desk

import (
	"regexp"
	"slices"
	"strings"

	"fairtape/ingest"
	"fairtape/ingest/eml"
	"fairtape/parse"
	"fairtape/parse/prose"
)

// relation is whether a mail that belongs to no job is one for the shop's
// surveys.
type relation int

const (
	unrelated relation = iota // it is left alone, and counted
	doubtful                  // a person has to look
	related                   // a job is opened for it
)

// strayNumbers is how many numbers a body may hold that belong to no measure
// and still be no survey: dates, prices, a telephone number. More may be a
// table that was not understood, and a person should see it.
const strayNumbers = 5

// bareNumbers is how many numbers without a unit, that are no date, time or
// price, a mail about something else has at most.
const bareNumbers = 2

// relation tells what a mail that belongs to no job is about. A file always
// counts: one that seems to say nothing may be a broken survey. A question
// alone does not: people ask for lunch, too.
func (a arrival) relation(r route) relation {
	b := a.content.Body
	if r.survey.Readings() > 0 || len(r.problems) > strayNumbers || len(a.content.Files) > 0 || slices.ContainsFunc(b.Corrections, meantHere) ||
		b.WantsForm || b.Tracings.Bow || b.Tracings.Stern {
		return related
	}
	text := a.wording()
	switch {
	case tradeWord.MatchString(text):
		if len(b.Questions) > 0 {
			return related
		}
		return doubtful
	case slices.ContainsFunc(a.mail.Notes, lost), measured.MatchString(text), tapeNumber.MatchString(text), numbersOnly(text):
		return doubtful
	}
	if len(number.FindAllString(ordinary.ReplaceAllString(text, " "), -1)) > bareNumbers {
		return doubtful
	}
	return unrelated
}

// meantHere reports a correction that is one also when nothing was asked before.
func meantHere(c prose.Correction) bool { return c.Placed || c.Cell.Measure != "" || !c.Bare }

// lost reports that something of the mail could not be read: it may be the
// survey.
func lost(n ingest.Note) bool {
	switch n.Code {
	case eml.NoteDate, eml.NoteHeader, eml.NoteFrom, eml.NoteSigned:
		return false
	}
	return true
}

var (
	markup = regexp.MustCompile(`(?is)<style.*?</style>|<script.*?</script>|<[^>]*>`)

	// tradeWord is a word of boats, covers or measuring, in the languages that
	// customers of such a shop write; texts are folded.
	tradeWord = regexp.MustCompile(`\b(?:` + strings.Join([]string{
		`boats?|canoes?|kayaks?|dingh(?:y|ies)|skiffs?|row(?:ing )?boats?|sailboats?|tenders?|punts?|prams?|paddl\w*`,
		`covers?|covered|tarps?|canvas|awnings?|cloth|fabric|colou?rs?|couleurs?|prices?|quotes?|costs?|how much|combien|prix|devis`,
		`surveys?|(?:re-?)?measur\w*|tapes?|girths?|tracings?|templates?|(?:cut|re-measure) sheets?|sizes?|dimensions?`,
		`hulls?|gunwales?|gunnels?|bow|stern|transoms?|stations?|cockpits?|decks?|keels?|length|lengths|height|heights|width|beam|inch|inches|feet`,
		`bateaux?|canots?|barques?|canoe|embarcations?|housses?|baches?|toiles?|tauds?|mesur\w*|releves?|ruban|coque|etrave|poupe|proue|tableau arriere|longueurs?|hauteurs?|pouces?|pieds`,
		`boote?s?|kanus?|kajaks?|persenning\w*|abdeck\w*|bootsplane|ma(?:ß|ss)e|rumpf|barcas?|canoas?|fundas?|lonas?|barche|teloni?|kano|bekleding|dekzeil|hoes|kanot\w*|kapell`,
	}, "|") + `)\b`)

	// measured is a number with a unit of length. "In" is one only where no word
	// follows: people do things at 4 in the morning.
	measured = regexp.MustCompile(`\d ?(?:½|¼|¾|\d+/\d+)? ?(?:(?:ft|foot|cm|mm|m|metres?|meters?|pi|po)\b|in\b\.?(?:[,;:)]|\s*$|\s*\n)|['’′"”″])`)

	// tapeNumber is a number as it is read off a tape: with a fraction, or a
	// decimal that is no price.
	tapeNumber = regexp.MustCompile(`[½¼¾⅛⅜⅝⅞]|\b\d+[ -]\d+/(?:2|4|8|16)\b|\b\d+[.,](?:\d|25|75|125|375|625|875)(?:[^\d]|$)`)

	// ordinary is a number of daily life: a link, a price, a time, a date, a
	// year, a telephone number or the number of an invoice.
	ordinary = regexp.MustCompile(`https?://\S+|\S+@\S+` +
		`|[€$£] ?\d[\d.,]*|\d[\d.,]* ?(?:[€$£%]|eur\b|euros?\b|usd\b|dollars?\b|pounds?\b|percent\b)|\b\d+[.,]\d\d\b` +
		`|\b(?:[01]?\d|2[0-4]) ?[:h.] ?[0-5]\d\b|\b\d{1,2} ?(?:am|pm|a\.m\.|p\.m\.|h|uhr|o'clock|heures?)\b` +
		`|\b\d{4}-\d\d-\d\d\b|\b\d{1,2}[./]\d{1,2}[./]\d{2,4}\b` +
		`|\b\d{1,2}(?:st|nd|rd|th|er)?\.? (?:of )?` + month + `|` + month + ` \d{1,2}(?:st|nd|rd|th)?\b` +
		`|\b(?:19|20)\d\d\b|\+?\d[\d ()/-]{7,}\d|\b\d{5,}\b`)

	number = regexp.MustCompile(`\d+`)
)

const month = `(?:jan|feb|fev|mar|apr|avr|mai|may|jun|juin|jul|juil|aug|aout|sep|oct|okt|nov|dec|dez)[a-z]*\.?`

// wording is what a mail says, subject and body, folded.
func (a arrival) wording() string {
	text := a.mail.Text
	if strings.TrimSpace(text) == "" {
		text = markup.ReplaceAllString(a.mail.HTML, " ")
	}
	return parse.Fold(strings.Join(slices.Concat([]string{a.mail.Subject, text}, a.content.Body.Questions), "\n"))
}

var words = regexp.MustCompile(`\pL{2,}`)

// numbersOnly reports numbers with hardly a word beside them.
func numbersOnly(text string) bool {
	return number.MatchString(text) && len(words.FindAllString(text, 3)) < 3
}
