package prose

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/parse"
)

// unsure are ways to write that a number is not sure.
var unsure = []string{
	"about %s", "abt %s", "abt. %s", "approx %s", "approx. %s", "approximately %s", "around %s", "roughly %s", "circa %s", "ca %s", "ca. %s", "c. %s",
	"maybe %s", "perhaps %s", "almost %s", "nearly %s", "say %s", "probably %s", "I think %s", "I guess %s", "guess %s", "est. %s", "estimated %s", "ballpark %s",
	"~%s", "~ %s", "≈ %s", "± %s", "+/- %s", "? %s", "<%s", ">%s", "(about) %s", "more or less %s", "a good %s", "a shade over %s", "a little under %s", "just over %s", "possibly %s", "could be %s",
	"%s?", "%s ?", "%s (?)", "%s ish", "%s-ish", "%sish", "%s or so", "%s or thereabouts", "%s more or less", "%s give or take", "%s approx", "%s approx.", "%s (approx)", "%s (approx.)", "%s about",
	"%s I think", "%s, I think", "%s (I think)", "%s maybe", "%s (maybe)", "%s probably", "%s roughly", "%s (roughly)", "%s (not sure)", "%s not sure", "%s - not sure", "%s unsure", "%s (guess)", "%s (guessed)", "%s guessed", "%s (estimate)", "%s est.", "%s (est)",
	"%s ±", "%s +/-", "%s +/- 1", "%s ± 1", "%s plus or minus one", "%s (check)", "%s (to check)", "%s (to be checked)", "%s (doubtful)", "%s (hard to tell)", "%s (hard to read)", "%s??", "%s !?",
	"environ %s", "env. %s", "env %s", "à peu près %s", "presque %s", "peut-être %s", "je crois %s", "autour de %s", "aux alentours de %s", "vers %s", "dans les %s", "disons %s", "approximativement %s",
	"%s environ", "%s (environ)", "%s env.", "%s à peu près", "%s peut-être", "%s (peut-être)", "%s je crois", "%s (à vérifier)", "%s à vérifier", "%s (à revoir)", "%s à revoir", "%s (pas sûr)", "%s pas sûre", "%s (incertain)", "%s (approximatif)", "%s (estimation)",
	"%s or %s+", "%s to %s+", "%s-%s+", "%s - %s+", "%s/%s+", "%s / %s+", "%s, maybe %s+", "%s or maybe %s+", "between %s and %s+", "%s – %s+", "%s..%s+", "somewhere between %s and %s+", "%s, or %s+", "from %s to %s+", "%s ou %s+", "entre %s et %s+", "%s à %s+", "de %s à %s+",
}

// doubted is a way written with the number, and where the way has two, the next one.
func doubted(way string, n float64) string {
	way = strings.Replace(way, "%s+", decimal(n+1), 1)
	return strings.ReplaceAll(way, "%s", decimal(n))
}

// TestUnsure holds that a number of which its owner is not sure is never sure,
// in a list with names and in one without, and that it takes nothing else along
// where the girths are named.
func TestUnsure(t *testing.T) {
	for _, way := range unsure {
		takesAlong := strings.ContainsAny(way, "-–") || way == "? %s" || strings.Contains(way, "under")
		for name, row := range map[string]string{
			"named":   "%d ft: hull girth %s, full girth %s",
			"dashes":  "%d ft – %s – %s",
			"columns": "%d    %s    %s",
		} {
			for which := range 2 {
				body := strings.Builder{}
				body.WriteString("Length overall: 9 ft 8 in\nBow height: 17\"\nStern height: 18\"\nCarry point: 22\"\n\nh = hull girth, f = full girth, all in inches\nstation, hull girth, full girth\n\n")
				hull := []float64{37, 40.5, 43, 44, 44.5, 43.5, 42, 39, 35}
				full := []float64{52, 61, 68, 74, 75, 72.5, 67, 60, 50}
				for i := range hull {
					h, f := decimal(hull[i]), decimal(full[i])
					if i == 3 && which == 0 {
						h = doubted(way, hull[i])
					} else if i == 3 {
						f = doubted(way, full[i])
					}
					fmt.Fprintf(&body, row+"\n", i+1, h, f)
				}
				doc := Read("m.eml", body.String(), "").Document
				sure := map[parse.Cell]parse.Length{}
				if len(doc.Surveys) == 1 {
					sure = surely(doc)
				}
				for i := range hull {
					for k, m := range []parse.Measure{parse.HullGirth, parse.FullGirth} {
						v, ok := sure[parse.Cell{At: parse.Inches(float64(12 * (i + 1))), Measure: m}]
						want := parse.Inches([]float64{hull[i], full[i]}[k])
						switch {
						case i == 3 && k == which && ok:
							t.Errorf("%s, %q: %s is sure, %v", name, way, m, v.In(parse.Inch))
						case ok && v != want:
							t.Errorf("%s, %q: %s at %d ft is %v", name, way, m, i+1, v.In(parse.Inch))
						case i == 3 && k != which && !ok && name == "named" && !takesAlong:
							t.Errorf("%s, %q: the other girth is not read", name, way)
						}
					}
				}
			}
		}
	}
}
