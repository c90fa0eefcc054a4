package prose

import (
	"fmt"
	"math"
	"regexp"

	"fairtape/parse"
)

// stationsOf names the stations of the boat, at every foot or every 30 cm up to
// the stern, where its length is sure; none where the text speaks of another
// spacing.
func stationsOf(doc parse.Document, lines []line) []string {
	if len(doc.Surveys) != 1 || !doc.Surveys[0].LengthOverall.Certain() {
		return nil
	}
	step, unit := 12*25.4, "in"
	if doc.Surveys[0].Unit == parse.Centimetre {
		step, unit = 300, "cm"
	}
	for _, m := range spacingWords.FindAllStringSubmatch(foldLines(lines), -1) {
		if a, fault := parse.ParseLength(m[1]); fault.Some() {
			return nil
		} else if l, ok := a.Length(parse.Bare); !ok || math.Abs(float64(l)-step) > 1 {
			return nil
		}
	}
	var names []string
	for at := step; at < float64(doc.Surveys[0].LengthOverall.Value)-1e-6; at += step {
		names = append(names, fmt.Sprintf("%g %s", parse.Length(at).In(parse.Unit(unit)), unit))
	}
	return names
}

// spacingWords say how far apart the stations lie.
var spacingWords = regexp.MustCompile(`\b(?:every|tous les|spaced|intervals? of|spacing(?: of|:)?|chaque)\s+(?:the\s+)?(\d[^\s,;]*\s*[a-z]+|\w+\s+(?:inch|in|cm|feet|foot|ft)\w*|half foot|other foot)`)

// forcedLists finds hull girths and full girths in two lists one after the
// other, or a pair for each station with no place named, where there are exactly
// as many as the boat has stations.
func forcedLists(all []numeral, stations []string) []forcedRow {
	if len(stations) < bareLeast {
		return nil
	}
	n := len(stations)
	name := func(rows []forcedRow) []forcedRow {
		for i := range rows {
			rows[i].name = stations[i]
		}
		return rows
	}
	for start := 0; start+2*n <= len(all); start++ {
		part := all[start : start+2*n]
		closed := start+2*n == len(all) || all[start+2*n].words != "" || all[start+2*n].first
		if !closed || start > 0 && part[0].words == "" && !part[0].first {
			continue
		}
		var rows []forcedRow
		if listOf(part[:n]) && listOf(part[n:]) && (part[n].words != "" || part[n].first) {
			for i := range n {
				rows = append(rows, forcedRow{hull: part[i], full: part[n+i]})
			}
			if rows = ordered(rows, part[0].words, part[n].words); rows != nil {
				return name(rows)
			}
		}
		if rows = pairsOf(part); rows != nil {
			if rows = ordered(rows, part[2].words, part[1].words); rows != nil {
				return name(rows)
			}
		}
	}
	return nil
}

// listOf reports numbers with nothing but signs between them.
func listOf(part []numeral) bool {
	for _, n := range part[1:] {
		if n.words != "" {
			return false
		}
	}
	return true
}

// pairsOf makes rows of numbers two and two, each pair on a line of its own.
func pairsOf(part []numeral) []forcedRow {
	var rows []forcedRow
	for i := 0; i < len(part); i += 2 {
		if !part[i].first || part[i+1].first || i > 2 && (part[i].words != part[2].words || part[i+1].words != part[1].words) {
			return nil
		}
		rows = append(rows, forcedRow{hull: part[i], full: part[i+1]})
	}
	return rows
}
