package table

import (
	"strings"
	"testing"
)

// Ways in which people who have never seen our form arrange their numbers, each
// with what a careful person reads there.
const (
	nineRows = `
1|31|39
2|37|52.5
3|41.5|62
4|43|67
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5`
	metricRows = `
30|79|99
60|94|133
90|105|157
120|109|170
150|110|174
180|109|171
210|104|156
240|93|130
270|78|97`
	metricGreatest = "cm loa=282 bow=47 stern=43 carry=55 greatest=142,111,175,64"
)

var arranged = []struct{ name, grid, want string }{
	{"a place from the bow beside the heading", nineEnds + `Greatest girth|4 ft 8 in from bow
Hull|43 1/2 in
Full|69 in
Opening|25 1/2 in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineGreatest + nineFooter},
	{"a place from the bow, all in one row", nineEnds + `Greatest girth|4 ft 8 in from bow|43.5 under|69 around|25.5 across

Station (ft)|Hull (in)|Full (in)` + nineRows, nineGreatest + nineFooter},
	{"à beneath the heading", metricEnds + `Plus grand tour|
À|142
Coque|111
Complet|175
Ouverture|64

Station (cm)|Coque|Complet` + metricRows, metricGreatest + metric},
	{"the front and the back", `Longueur de bout en bout|282 cm
Hauteur du devant|47 cm
Hauteur du derrière|43 cm
Poignée, à partir du devant|55 cm

À partir du devant (cm)|Par-dessous|Tout le tour` + metricRows, metricHead + metric},
	{"inches and what the stations are", `Boat survey
Inches. Every foot, station 1 is one foot from the bow.
Length overall|111
Bow height|18.5
Stern height|17
Carry point|21.5

Station|Hull|Full` + nineRows, nineHead + nineFooter},
	{"a second heading row says how", nineEnds + `
Station|Under hull|All around
ft|gunwale to gunwale, in.|closed loop, in.` + nineRows, nineHead + nineFooter},
	{"a heading over two that share it", nineEnds + `
|Girth (in)|
Ft from bow|Under|Around` + nineRows, nineHead + nineFooter},
	{"a heading over two, merged to its first column", nineEnds + `
Station|Tape measure|
(ft)|hull only|whole loop` + nineRows, nineHead + nineFooter},
	{"telephone and year on top", `Ada Weir|902 555 0142
Canoe|1987
` + nineEnds + `
Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"numbered questions", `1. How long is the boat?|9 ft 3 in
2. How high is the bow?|18 1/2 in
3. How high is the stern?|17 in
4. Where is the carry handle?|21 1/2 in from bow
5. Where is it biggest around?|4 ft 8 in
6. Hull girth there|43 1/2 in
7. Full girth there|69 in
8. Opening there|25 1/2 in

How far back (ft)|Around the bottom (in)|All the way round (in)` + nineRows, nineGreatest + nineFooter},
	{"numbered labels in a column of their own", `No.|What|Inches
1|Length overall|111
2|Bow height|18.5
3|Stern height|17
4|Carry point|21.5
5|Greatest girth at|56
6|Greatest hull girth|43.5
7|Greatest full girth|69
8|Opening there|25.5

Station (ft)|Hull|Full` + nineRows, nineGreatest + nineFooter},
	{"a unit column", `What|Value|Unit
Length overall|111|in
Bow height|18.5|in
Stern height|17|in
Carry point|21.5|in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"the label, how it was taken, and the number", `Measure|How|Inches
Length overall|string, tip to tip|111
Bow height|straight edge to top|18.5
Stern height|same, other end|17
Carry point|to the handle|21.5

Station (ft)|Hull|Full` + nineRows, nineHead + nineFooter},
	{"beam, depth and weight beside", `Length overall|9 ft 3 in|Beam|27 in
Bow height|18 1/2 in|Depth amidships|13 in
Stern height|17 in|Weight|48 lb
Carry point|21 1/2 in|Year|1987

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"ends side by side", `Length overall|9 ft 3 in
|Bow|Stern
Height|18 1/2 in|17 in
Carry point|21 1/2 in|

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"heights as a heading", `Length overall|9 ft 3 in
Heights
Front|18 1/2 in
Back|17 in
Carry point|21 1/2 in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"hauteurs en tête", `Longueur|282 cm
Hauteurs
devant|47 cm
derrière|43 cm
Prise de main|55 cm

Position (cm)|Dessous|Tour complet` + metricRows, metricHead + metric},
	{"greatest girth as the last row", nineEnds + `
Station (ft)|Hull (in)|Full (in)|Opening` + nineRows + `
greatest, at 4 ft 8 in|43.5|69|25.5`, nineGreatest + nineFooter},
	{"greatest as a row with its place in words", nineEnds + `
Station (ft)|Hull (in)|Full (in)` + nineRows + `
Fattest (56 in from bow)|43.5|69`, strings.Replace(nineGreatest, ",25.5", ",-", 1) + nineFooter},
	{"two blocks beside each other", `Length overall|9 ft 3 in||Station (ft)|Hull (in)|Full (in)
Bow height|18 1/2 in||1|31|39
Stern height|17 in||2|37|52.5
Carry point|21 1/2 in||3|41.5|62
|||4|43|67
Greatest girth|||5|43.5|68.5
at|56 in||6|43|67.5
under|43.5 in||7|41|61.5
around|69 in||8|36.5|51
across|25.5 in||9|30.5|38.5`, nineGreatest + nineFooter},
	{"rows that carry their numbers on a sheet as exported", `|A|B|C
1|Length overall|9 ft 3 in|
2|Bow height|18 1/2 in|
3|Stern height|17 in|
4|Carry point|21 1/2 in|
5|||
6|Station (ft)|Hull (in)|Full (in)
7|1|31|39
8|2|37|52.5
9|3|41.5|62
10|4|43|67
11|5|43.5|68.5
12|6|43|67.5
13|7|41|61.5
14|8|36.5|51
15|9|30.5|38.5`, nineHead + nineFooter},
	{"half the boat, then the other", nineEnds + `
Front half|||Back half||
Ft|Under|Around|Ft|Under|Around
1|31 in|39 in|6|43 in|67.5 in
2|37 in|52.5 in|7|41 in|61.5 in
3|41.5 in|62 in|8|36.5 in|51 in
4|43 in|67 in|9|30.5 in|38.5 in
5|43.5 in|68.5 in|||`, nineHead + nineFooter},
	{"units in brackets under the headings", nineEnds + `
Station|Hull girth|Full girth
(feet)|(inches)|(inches)` + nineRows, nineHead + nineFooter},
	{"abbreviations explained below", nineEnds + `
Sta|HG|FG` + nineRows + `
Sta = feet from bow, HG = hull girth in inches, FG = full girth in inches`, nineHead + nineFooter},
	{"abréviations expliquées", metricEnds + `
St.|TC|TT` + metricRows + `
TC : tour de coque (cm)
TT : tour total (cm)`, metricHead + metric},
	{"a row for the bow and one for the stern", nineEnds + `
Station (ft)|Hull (in)|Full (in)
Bow||` + nineRows + `
Stern||`, nineHead + nineFooter},
	{"words of the sender above and below", `Hi, here are my numbers, I hope they are right.
` + nineEnds + `
Station (ft)|Hull (in)|Full (in)` + nineRows + `
Thanks, Ada. Call me after 5 at 902-555-0142`, nineHead + nineFooter},
	{"lettres et le mot", metricEnds + `Plus grand tour
distance de la proue|142 cm
dessous|111 cm
tour complet|175 cm
en travers|64 cm

Distance de la proue (cm)|Dessous (cm)|Tour complet (cm)` + metricRows, metricGreatest + metric},
	{"all on its side", `Length|9 ft 3 in||||||||
Bow height|18 1/2 in||||||||
Stern height|17 in||||||||
Carry point|21 1/2 in||||||||

Feet from bow|1|2|3|4|5|6|7|8|9
Under (in)|31|37|41.5|43|43.5|43|41|36.5|30.5
All round (in)|39|52.5|62|67|68.5|67.5|61.5|51|38.5`, nineHead + nineFooter},
	{"labels under their numbers", `9 ft 3 in|18 1/2 in|17 in|21 1/2 in
Length overall|Bow height|Stern height|Carry point

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"labels over their numbers", `Length overall|Bow height|Stern height|Carry point
9 ft 3 in|18 1/2 in|17 in|21 1/2 in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"the number first, then what it is", `9 ft 3 in|length overall
18 1/2 in|bow height
17 in|stern height
21 1/2 in|carry point

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"girths by their ways", nineEnds + `
Where|Down one side, under and up the other|Same, and back across the top
(ft from bow)|(in)|(in)` + nineRows, nineHead + nineFooter},
	{"max beam on the papers", nineEnds + `Max beam|27 in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"mesures en centimètres, par phrases", `Toutes les mesures sont en centimètres.
Longueur du canot, d'un bout à l'autre|282
Hauteur à l'avant|47
Hauteur à l'arrière|43
Où la main le prend, depuis l'avant|55

Depuis l'avant|Sous la coque|Au complet` + metricRows, metricHead + metric},
	{"a card for the greatest girth", nineEnds + `
Greatest girth||
From bow|Hull|Full|Opening
56 in|43.5 in|69 in|25.5 in

Station (ft)|Hull (in)|Full (in)` + nineRows, nineGreatest + nineFooter},
	{"feet and inches apart", `|ft|in
Length overall|9|3
Bow height|1|6.5
Stern height|1|5
Carry point|1|9.5

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"a list in millimetres that names stations without a unit", `Item|mm
Length overall|2820
Bow height|470
Stern height|430
Hand-hold aft of bow|550
Hull girth at 300|790
Full girth at 300|990
Hull girth at 600 from bow|940
Full girth at 600 from bow|1330
Hull girth at 900|1050
Full girth at 900|1570`, metricHead + " 30:79,99 60:94,133 90:105,157"},
	{"a length beside the name of a boat", `What sort of boat|canoe
` + nineEnds + `
Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"lines that doubt one girth", nineEnds + `At 1 ft: hull girth 31 in, full girth 39 in
At 2 ft: hull girth 37 in, full girth 52 1/2 or 53 in, not sure which
At 3 ft: hull girth 41 1/2 in, full girth 62 in, by the seat
At 4 ft: hull girth 43 in, full girth 67 in, not sure`, nineHead + " 12:31,39 24:37?,? 36:41.5,62 48:43?,67?"},
	{"the words behind the numbers", nineEnds + `At 1 ft: 31 under, 39 around
At 2 ft: 37 under, 52½ around
At 3 ft: 41½ under, 62 around
At 4 ft: 43 under, 67 around
Greatest girth: at 4 ft 8 in from the bow, 43½ under and 69 around; the opening there is 25½.`, nineGreatest + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"a doubt of the girth with the top", nineEnds + `
Station (ft)|Hull (in)|Full (in)|
1|31|39|
2|37|52.5|not sure of the girth with the top
3|41.5|62|not sure of the one without the top
4|43|67|`, nineHead + " 12:31,39 24:37,52.5? 36:41.5?,62 48:43,67"},
	{"typed over", nineEnds + `
Station (ft)|Hull (in)|Full (in)
1|xx 31|39
2|37|52.5
3|41.5|XXX 62
4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"letters of the legend beside numbers", metricEnds + `A = tour de coque, B = tour complet
Station (cm)|A|B` + metricRows + `
Plus grand tour : à|142 cm|A|111 cm|B|175 cm`, strings.Replace(metricGreatest, ",64", ",-", 1) + metric},
	{"a square stern in words", nineEnds + `
Station (ft)|Hull (in)|Full (in)` + nineRows + `
Stern (square)|30|38`, strings.Replace(nineHead, "greatest=-,-,-,-", "greatest=-,-,-,- transom=30,38 square", 1) + nineFooter},
	{"a length twice, and where the hand grips", `Length overall|9 ft 3 in (111 in)
Bow height|18 1/2 in
Stern height|17 in
Carry point|21 1/2 in (back edge of the front deck)

Station (ft)|Hull (in)|Full (in)` + nineRows, nineHead + nineFooter},
	{"two blocks, one with a remark of the unit", `Length overall|9 ft 3 in||Station (ft)|Hull|Full
Bow height|18 1/2 in||1|31|39
Stern height|17 in||2|37|52.5
Carry point|21 1/2 in||3|41.5|62
Inches unless noted|||4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"the end in one cell, height in the next", `Place|Measure|Inches
|length overall|111
bow|height|18.5
stern|height|17
|carry point|21.5
1 ft|hull girth|31
1 ft|full girth|39
2 ft|hull girth|37
2 ft|full girth|52.5`, nineHead + " 12:31,39 24:37,52.5"},
	{"the place of the greatest girth under a table on its side", nineEnds + `Foot mark|1|2|3|4|Fattest
Under (in)|31|37|41.5|43|43.5
Around (in)|39|52.5|62|67|69
|Fattest is at 4 ft 8 in`, strings.Replace(nineGreatest, ",25.5", ",-", 1) + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"a list that goes on in the next line", metricEnds + `Station (cm)|Coque|Complet` + metricRows + `
Plus grand tour : à 142 cm du devant, 111 cm par-dessous, 175 cm au
complet, 64 cm en travers.`, metricGreatest + metric},
	{"under, around, across behind a comma", `overall|9 ft 3 in
bow, up from the floor|18 1/2 in
stern, up from the floor|17 in
carry thwart, back from bow|21 1/2 in
Feet back from the bow|Tape under the boat (in)|Tape right round (in)` + nineRows + `
Biggest around: 4 ft 8 in back from the bow, under 43 1/2 in, around 69 in. Across the top there it is 25 1/2 in.`, nineGreatest + nineFooter},
	{"headings broken over lines", nineEnds + `
Distance of the station|Hull girth, from gunwale under|Full girth, the closed loop
from the foremost point of|the hull to the other gunwale,|across the opening, in inches
the bow, in feet|in inches|` + nineRows, nineHead + nineFooter},
	{"a thwart's own size", nineEnds + `
Station (ft)|Hull (in)|Full (in)
1|31|39
2|37|52.5
rowing thwart, 8 in wide, tape went over it
3|41.5|62
4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"rail to rail under the hull", nineEnds + `
Station (ft)|Outside, rail to rail (in)|Right round (in)` + nineRows, nineHead + nineFooter},
	{"labels of the greatest girth below the columns", nineEnds + `
Distance (ft)|Par-dessous (in)|Au complet (in)` + nineRows + `
Plus grand tour :
à|56
par-dessous|43.5
au complet|69
ouverture|25.5`, nineGreatest + nineFooter},
	{"a number beside its label, and others below", `Length overall|Bow height|Stern height|Carry point
9 ft 3 in|18.5 in|17 in|21.5 in

From bow|Girth (in)|
ft|hull|full` + nineRows + `

|Greatest girth|from bow|4 ft 8 in
|hull|43.5 in|
|full|69 in|
|opening|25.5 in|`, nineGreatest + nineFooter},
	{"stem to transom", strings.Replace(nineEnds, "Length overall", "Length, stem to transom", 1) + `
Station (ft)|Full loop (in)|Keel loop (in)
1|39|31
2|52.5|37
3|62|41.5
4|67|43
Biggest place: 4 ft 8 in from the stem, full loop 69, keel loop 43 1/2`, strings.Replace(nineGreatest, ",25.5", ",-", 1) + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"a tick for what was checked", nineEnds + `
Station (ft)|Hull (in)|Full (in)|ok` + strings.Join(strings.Split(nineRows, "\n"), "|x\n")[2:] + "|x", nineHead + nineFooter},
}

func TestArranged(t *testing.T) {
	for _, c := range arranged {
		t.Run(c.name, func(t *testing.T) {
			doc := Read("m.xlsx", []Grid{grid(c.grid)})
			var got strings.Builder
			for _, s := range doc.Surveys {
				got.WriteString(brief(s))
			}
			if got.String() != c.want {
				t.Errorf("\n got %s\nwant %s", got.String(), c.want)
			}
			for _, p := range doc.Problems {
				t.Logf("%s %q: %s", p.Code, p.Source.Raw, p.Message)
			}
		})
	}
}
