package table

import (
	"math"
	"regexp"
	"slices"

	"fairtape/parse"
)

// Beside the numbers that were measured people count their lines and their
// photographs, and date them.

var (
	runningHead = regexp.MustCompile(`^(?:no|n°|nº|#|nr|row|line|item|entry|num|number|numero|rang|ref|seq|index|id|ligne)\.?$`)
	photoHead   = regexp.MustCompile(`^(?:photo(?:graph)?|picture|pic|image|img|file|fichier|cliche)s?(?: ?(?:no|n°|nr|numbers?|numeros?|#|names?))?\.?$`)
	photoName   = regexp.MustCompile(`(?i)[ ,;-]*[\[(]?\b(?:img|dsc[nf]?|pxl|pict?|photo|gopr|p\d{3})[ _-]?\d+(?:_\d+)*(?:\.(?:jpe?g|heic|png))?\b[\])]?`)
	photoNumber = regexp.MustCompile(`^\d{1,8}$`)
	dateHead    = regexp.MustCompile(`^(?:date|day|jour|when|le|quand)s?\b`)
	girthsAt    = regexp.MustCompile(`(?i)^(?:the |les )?(?:both )?(?:girths|tours|measure(?:d|s|ments)?|readings?|mesures?|taken|pris)(?: (?:taken|measured|pris|relev[ée]s))? (?:at|@|[àa])\s+(\d.*)$`)
)

// withoutRunning leaves out the columns that count lines or photographs beside a
// column of places, or give the day, and takes the words before the places:
// "Girths at 3 ft".
func withoutRunning(g Grid) Grid {
	for c := range width(g) {
		for r := range g.Rows {
			head := parse.Fold(textAt(g, r, c))
			if head == "" || len(head) > longestNumber || firstDigit(head) >= 0 {
				continue
			}
			rows := underHead(g, r, c)
			switch {
			case runningHead.MatchString(head) && allOf(g, rows, c, countsByOne()) && (besidePlaces(g, rows, c) || besideLabels(g, rows)),
				photoHead.MatchString(head) && allOf(g, rows, c, ofPhoto),
				dateHead.MatchString(head) && allOf(g, rows, c, ofDay):
				g = emptied(g, rows, c)
			}
		}
	}
	return placesAlone(g)
}

func textAt(g Grid, r, c int) string {
	if r < len(g.Rows) && c < len(g.Rows[r]) {
		return g.Rows[r][c].Text
	}
	return ""
}

// underHead returns the rows under a heading, to the next empty row or heading,
// that have a cell there.
func underHead(g Grid, head, c int) (rows []int) {
	for r := head + 1; r < len(g.Rows) && firstWritten(g.Rows[r]) >= 0; r++ {
		if text := textAt(g, r, c); text != "" {
			rows = append(rows, r)
		}
	}
	return rows
}

func allOf(g Grid, rows []int, c int, is func(Cell) bool) bool {
	return len(rows) >= fewRows && !slices.ContainsFunc(rows, func(r int) bool { return !is(g.Rows[r][c]) })
}

// countsByOne reports cells that go on counting by one.
func countsByOne() func(Cell) bool {
	last := math.NaN()
	return func(c Cell) bool {
		a, f := parse.ParseLength(c.Text)
		next := !f.Some() && a.Scale == parse.Bare && c.Code == "" && (math.IsNaN(last) || a.Number == last+1)
		last = a.Number
		return next
	}
}

// ofPhoto reports the name or the number of a photograph, or words in its place.
func ofPhoto(c Cell) bool {
	text := parse.Plain(c.Text)
	return firstDigit(text) < 0 || photoNumber.MatchString(text) || photoName.ReplaceAllString(text, "") == ""
}

func ofDay(c Cell) bool {
	_, f := parse.ParseLength(c.Text)
	return c.Code == parse.CodeDate || f.Code == parse.CodeDate
}

// besidePlaces reports rows that another column names by their places, with a
// unit or the word station.
func besidePlaces(g Grid, rows []int, c int) bool {
	for other := range width(g) {
		named := 0
		for _, r := range rows {
			text := textAt(g, r, other)
			if m := girthsAt.FindStringSubmatch(text); m != nil {
				text = m[1]
			}
			if name, f := parse.ParseStation(text); other != c && !f.Some() && (name.Ordinal || name.Amount.Scale != parse.Bare) && placeWritten.MatchString(parse.Fold(textAt(g, r, other))) {
				named++
			}
		}
		if named >= fewRows {
			return true
		}
	}
	return false
}

// besideLabels reports rows most of which hold the label of a measure.
func besideLabels(g Grid, rows []int) bool {
	labelled := 0
	for _, r := range rows {
		if slices.ContainsFunc(g.Rows[r], func(c Cell) bool { return labelOf(parse.Fold(c.Text)).measure != "" }) {
			labelled++
		}
	}
	return 2*labelled > len(rows)
}

// placeWritten is a place that cannot be a girth: "station 3", "at 3 ft", "3 ft
// from the bow".
var placeWritten = regexp.MustCompile(`^(?:station|stn|sta|section|mark|poste|repere|girths|tours|at|a|@|distance)\b|\b(?:from|of) (?:the )?(?:bow|stem)\b|\bde (?:l'etrave|la proue|l'avant)\b`)

func emptied(g Grid, rows []int, c int) Grid {
	g.Rows = slices.Clone(g.Rows)
	for _, r := range rows {
		g.Rows[r] = slices.Clone(g.Rows[r])
		g.Rows[r][c] = Cell{Place: g.Rows[r][c].Place}
	}
	return g
}

// placesAlone takes the words from before the places of a column of them.
func placesAlone(g Grid) Grid {
	for c := range width(g) {
		places := map[int]string{}
		for r := range g.Rows {
			m := girthsAt.FindStringSubmatch(parse.Plain(textAt(g, r, c)))
			if m == nil {
				continue
			}
			if _, f := parse.ParseStation(m[1]); !f.Some() {
				places[r] = m[1]
			}
		}
		if len(places) < fewRows {
			continue
		}
		g.Rows = slices.Clone(g.Rows)
		for r, place := range places {
			g.Rows[r] = slices.Clone(g.Rows[r])
			cell := &g.Rows[r][c]
			cell.Raw, cell.Text = cell.Text, place
		}
	}
	return g
}

// withoutPhotos takes the name of a photograph from beside a number: "15 ft 1 in
// (IMG_2038)".
func withoutPhotos(c Cell) Cell {
	if len(c.Text) > longestLabel {
		return c
	}
	rest := photoName.ReplaceAllString(c.Text, "")
	if rest == c.Text || firstDigit(rest) < 0 {
		return c
	}
	if c.Raw == "" {
		c.Raw = c.Text
	}
	c.Text = rest
	return c
}
