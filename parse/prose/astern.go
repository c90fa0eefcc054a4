package prose

import (
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Where a text says that the places of its girths are distances from the stern,
// the headings of its tables say so too, and a table knows what to do about it.

var (
	fromStern = parse.NewPattern(`\bfrom (?:the )?(?:stern|aft end|back end|transom|rear)\b|\bdepuis (?:la poupe|l'arriere)\b`)
	// ofPlaces are words for the places, or for measuring them.
	ofPlaces = parse.NewPattern(`\b(?:stations?|feet|foot|ft|marks?|distances?|measured|counted|numbered|rows?|places?|girths?|they|all|reperes?|pieds|mesurees?|comptees?)\b`)
	// ofOther are those for other things that have a distance.
	ofOther = parse.NewPattern(`\b(?:carry|thwart|seat|height|portage)\b`)
	// fromBow says it of the bow in so many words.
	fromBow = parse.NewPattern(`\b(?:stations?|feet|foot|marks?|distances?|measured|counted|numbered|places?|reperes?|pieds|mesurees?|comptees?)(?: (?:are|is|were|all|always|measured|counted|taken|numbered|sont|toujours|mesurees?|comptees?))* (?:from (?:the )?(?:bow|stem|front)|depuis (?:la proue|l'etrave|l'avant))\b`)
	denied  = parse.NewPattern(`\b(?:not|n'est|pas|never|rather than|instead of)\b[^,;]{0,30}(?:from (?:the )?(?:stern|aft|back|transom|rear)|depuis (?:la poupe|l'arriere))`)
	// sternFirst leaves it open whether only the work began there.
	sternFirst = parse.NewPattern(`\b(?:(?:began|begin|started|starting|start|beginning|commence|commencant) (?:at|from|par|a) (?:the |la |l')?(?:stern|poupe|arriere|aft end|other end)|stern to bow|stern first|back to front|de la poupe a l'etrave)\b`)
)

// direction notes from which end the text says that places are measured.
func (r *reader) direction(lines []line) {
	bow := false
	for _, s := range sentences(lines) {
		f := parse.Fold(s)
		switch {
		case fromBow.MatchString(f):
			bow = true
		case fromStern.MatchString(f) && ofPlaces.MatchString(f) && !ofOther.MatchString(f) && !denied.MatchString(f):
			r.astern = true
		case sternFirst.MatchString(f):
			r.unsureEnd = true
		}
	}
	if bow {
		r.astern, r.unsureEnd = false, r.astern // both are said
	}
}

// turned writes into the headings of the places that they count from the stern.
func (r *reader) turned(grids []table.Grid) []table.Grid {
	if !r.astern {
		return grids
	}
	out := slices.Clone(grids)
	for i, g := range out {
		rows := slices.Clone(g.Rows)
		for k, row := range rows {
			if len(row) > 1 && stationHead.MatchString(parse.Fold(row[0].Text)) && !strings.ContainsAny(row[0].Text, "0123456789") {
				rows[k] = slices.Clone(row)
				rows[k][0].Text += " from the stern"
			}
		}
		out[i].Rows = rows
	}
	return out
}

// doubtEnds lowers what was read of the stations where it is open from which end
// they were counted.
func (r *reader) doubtEnds(doc parse.Document) parse.Document {
	if !r.unsureEnd || r.astern {
		return doc
	}
	for i := range doc.Surveys {
		stations := doc.Surveys[i].Stations
		for k := range stations {
			for _, girth := range []*parse.Reading{&stations[k].HullGirth, &stations[k].FullGirth} {
				girth.Confidence = min(girth.Confidence, endUnsure)
			}
		}
		if len(stations) > 0 {
			source := stations[0].HullGirth.Source
			doc.Problems = append(doc.Problems, parse.Problem{
				Code: parse.CodeStationUnclear, Source: parse.Source{File: r.file, Place: source.Place, Raw: source.Raw},
				Message: "It is said that the measuring began at the stern; the stations may count from there.",
			})
		}
	}
	return doc
}

// endUnsure is the confidence of girths that may lie as far from the other end.
const endUnsure = 0.5
