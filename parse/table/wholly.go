package table

import "fairtape/parse"

// A line beside a table may say that a whole column, or all of it, is not what
// the headings say: that the tape began at 2 in, that the girths are halves, that
// two columns changed places. What follows from that a person works out.

var (
	wholeParts  = `(?:all|every\w*|each|both|numbers|figures|girths|measurements?|columns?|partout|tout(?:e?s)?|tous|chaque|mesures|tours|valeurs|chiffres|colonnes?)`
	shiftedTape = parse.NewPattern(`\b(?:tape|ruban|metre)\b[^.;]{0,30}\b(?:starts?|begins?|commence|debute|zero)\b[^.;]{0,30}\d|\bzero (?:of|on|du|de)\b[^.;]{0,20}\b(?:tape|ruban|metre)\b`)
	tooMuch     = parse.NewPattern(`\b` + wholeParts + `\b[^.;]{0,40}\btoo (?:big|large|long|high|much|small|short|low|little)\b|\b` + wholeParts + `\b[^.;]{0,40}\btrop (?:grand|long|petit|court|haut|bas)\w*`)
	takeOff     = parse.NewPattern(`\b(?:subtract|deduct|take (?:off|away)|add|remove|enlever|retrancher|retirer|ajouter|soustraire|deduire)\b[^.;]{0,15}\d[^.;]{0,25}\b` + wholeParts + `\b|\b` + wholeParts + `\b[^.;]{0,15}\b(?:subtract|deduct|add|enlever|retrancher|ajouter)\b[^.;]{0,15}\d`)
	halvesSaid  = parse.NewPattern(`\bhalf[- ]girths?\b|\bhalf (?:the|of the|of each) (?:hull )?girths?\b|\b(?:gunwales?|rail|edge) to (?:the )?keel\b|\bkeel(?: line)? to (?:the )?(?:outer )?(?:gunwales?|rail|edge)\b|\bdemi[- ]tours?\b|\bplat-bord a (?:la )?quille\b|\bquille (?:au|a) plat-bord\b|\b(?:please )?double (?:it|them|the)\b|\ba doubler\b`)
	sumsSaid    = parse.NewPattern(`[=+]|\b(?:sum|somme|plus|together|ensemble)\b`)
	swappedSaid = parse.NewPattern(`\bwrong way (?:round|a?round)\b|\bother way (?:round|a?round)\b|\bswapped\b|\bmixed up\b|\binterchanged\b|\btransposed\b|\binverse[es]*\b|\binvertie?s?\b|\binterverti\w*\b|\bmelange(?:es?)?\b`)
	endsSaid    = parse.NewPattern(`\b(?:heights?|hauteurs?|bow and (?:the )?stern|avant et (?:l')?arriere|etrave et (?:la )?poupe)\b`)
	wholeHull   = parse.NewPattern(`\b(?:gunwales?|rail|edge|plat-bord)\b[^.;]{0,25}\b(?:keel|quille)\b[^.;]{0,25}\b(?:gunwales?|rail|edge|plat-bord|other side|autre)\b`)
	stationsOf  = parse.NewPattern(`^(?:(?:all|the|my|toutes?|les|mes) )*(?:stations?|distances?|marks?|rows?|reperes?|postes?|lignes?)\b`)
	asternSaid  = parse.NewPattern(`\b(?:stations?|distances?|measured|marked|numbered|counted|marks?|reperes?|postes?|mesuree?s?|comptee?s?|numerotee?s?)\b[^.;]{0,30}\b(?:from (?:the )?(?:stern|transom|back|rear)|depuis (?:la |l')?(?:poupe|arriere)|a partir de (?:la |l')?(?:poupe|arriere))\b`)
)

// wholly is what a line says of all that stands in a table.
type wholly struct{ rows, hull, ends, astern bool }

// some reports that it says anything.
func (w wholly) some() bool { return w != wholly{} }

func whollyOf(folded string) wholly {
	var w wholly
	if shiftedTape.MatchString(folded) || tooMuch.MatchString(folded) || takeOff.MatchString(folded) {
		w.rows, w.ends = true, true
	}
	if halvesSaid.MatchString(folded) && !sumsSaid.MatchString(folded) && !wholeHull.MatchString(folded) {
		w.hull = true
		w.rows = w.rows || tellsBoth.MatchString(folded)
	}
	if swappedSaid.MatchString(folded) {
		w.ends = w.ends || endsSaid.MatchString(folded)
		w.rows = w.rows || !endsSaid.MatchString(folded)
	}
	if asternSaid.MatchString(folded) && !bowWords.MatchString(folded) && labelOf(folded).none() {
		w.astern = stationsOf.MatchString(folded)
		w.rows = w.rows || !w.astern
	}
	return w
}

// tooLargeForHalves reports hull girths that are no halves, whatever their heading
// says: no full girth is over twice as much.
func (s *sheet) tooLargeForHalves() bool {
	rows := 0
	for _, b := range s.found.blocks {
		for _, r := range b.rows {
			if len(r.hull) == 0 || len(r.full) == 0 {
				continue
			}
			if !pairOf(r.hull[0], r.full[0]) {
				return false
			}
			rows++
		}
	}
	return rows >= fewRows
}

// tellsBoth speaks of both girths.
var tellsBoth = parse.NewPattern(`\b(?:all|both|every|tous|toutes|les deux)\b`)

// doubtWholly doubts what a line speaks of. Distances from the stern are turned
// round where they are bare of other words, as those under such a heading are.
func (s *sheet) doubtWholly(w wholly, doubt parse.Fault) {
	for _, n := range s.all() {
		if w.rows && n.measure == "" || w.hull && n.hull || w.ends && (n.measure == parse.BowHeight || n.measure == parse.SternHeight) || w.rows && w.ends {
			n.entry.doubt = doubt
		}
	}
	if w.astern {
		for i := range s.found.blocks {
			s.found.blocks[i].astern = true
		}
	}
}
