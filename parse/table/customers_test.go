package table

import (
	"strings"
	"testing"
)

// Tables as customers make them at home, each with what a careful person reads
// there. The boats and people are invented. In most of them the same two boats
// are written down, one in inches and one in centimetres.
const (
	nineFooter   = " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5 72:43,67.5 84:41,61.5 96:36.5,51 108:30.5,38.5"
	nineHead     = "in loa=111 bow=18.5 stern=17 carry=21.5 greatest=-,-,-,-"
	nineGreatest = "in loa=111 bow=18.5 stern=17 carry=21.5 greatest=56,43.5,69,25.5"
	nineAlone    = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	nineEnds     = "Length overall|9 ft 3 in\nBow height|18 1/2 in\nStern height|17 in\nCarry point|21 1/2 in\n"

	metric      = " 30:79,99 60:94,133 90:105,157 120:109,170 150:110,174 180:109,171 210:104,156 240:93,130 270:78,97"
	metricHead  = "cm loa=282 bow=47 stern=43 carry=55 greatest=-,-,-,-"
	metricAlone = "cm loa=- bow=- stern=- carry=- greatest=-,-,-,-"
	metricEnds  = "Longueur hors tout|282 cm\nHauteur de l'étrave|47 cm\nHauteur de la poupe|43 cm\nPoint de portage|55 cm\n"
)

var customers = []struct{ name, grid, want string }{
	{"three rows of headings", `
My canoe, measured 12 November 2026
Name|Ada Weir|Phone|555 0142
` + nineEnds + `
Distance|Hull|Full
from bow|girth|girth
ft|in|in
1|31|39
2|37|52.5
3|41.5|62
4|43|67
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5`, nineHead + nineFooter},
	{"on its side with the units in a column", `
what|unit|||||||||
Station|ft|1|2|3|4|5|6|7|8|9
Hull girth|in|31|37|41.5|43|43.5|43|41|36.5|30.5
Full girth|in|39|52.5|62|67|68.5|67.5|61.5|51|38.5
` + nineEnds, nineHead + nineFooter},
	{"stern first", nineEnds + `
Feet from the bow|Hull girth, inches|Full girth, inches|Remarks
9|30.5|38.5|
8|36.5|51|stern seat here
7|41|61.5|
6|43|67.5|
5|43.5|68.5|widest about here
4|43|67|
3|41.5|62|
2|37|52.5|bow seat
1|31|39|`, nineHead + nineFooter},
	{"French with commas and a column of differences", metricEnds + `
Repère (cm)|Tour de coque (cm)|Tour complet (cm)|Différence (cm)
30|79,0|99,0|20,0
60|94,0|133,0|39,0
90|105,0|157,0|52,0
120|109,0|170,0|61,0
150|110,0|174,0|64,0
180|109,0|171,0|62,0
210|104,0|156,0|52,0
240|93,0|130,0|37,0
270|78,0|97,0|19,0`, metricHead + metric},
	{"feet and inches in every cell", `
LOA|9' 3"
Bow|1' 6 1/2"
Stern|1' 5"
Carry thwart|1' 9 1/2" from bow

Sta.|Hull|Full
1'|2' 7"|3' 3"
2'|3' 1"|4' 4 1/2"
3'|3' 5 1/2"|5' 2"
4'|3' 7"|5' 7"
5'|3' 7 1/2"|5' 8 1/2"
6'|3' 7"|5' 7 1/2"
7'|3' 5"|5' 1 1/2"
8'|3' 0 1/2"|4' 3"
9'|2' 6 1/2"|3' 2 1/2"`, nineHead + nineFooter},
	{"a date, a time and initials in every row", nineEnds + `
Date|Time|By|Station (ft)|Hull girth (in)|Full girth (in)
2026-11-12|10:05|AW|1|31|39
2026-11-12|10:08|AW|2|37|52.5
2026-11-12|10:11|AW|3|41.5|62
2026-11-12|10:15|BT|4|43|67
2026-11-12|10:18|BT|5|43.5|68.5
2026-11-12|10:22|AW|6|43|67.5
2026-11-12|10:25|AW|7|41|61.5
2026-11-12|10:27|AW|8|36.5|51
2026-11-12|10:30|AW|9|30.5|38.5`, nineHead + nineFooter},
	{"two boats side by side", `
Station|Red canoe||Green canoe|
ft|Hull (in)|Full (in)|Hull (in)|Full (in)
1|31|39|30|38
2|37|52.5|36|50
3|41.5|62|40|59
4|43|67|42|63`, nineAlone + " 12:?,? 24:?,? 36:?,? 48:?,?"},
	{"two boats one below the other", `
Boat 1: red canoe
Length overall|9 ft 3 in
Station (ft)|Hull (in)|Full (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67

Boat 2: green canoe
Length overall|8 ft 2 in
Station (ft)|Hull (in)|Full (in)
1|30|38
2|36|50
3|40|59
4|42|63`, nineAlone + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67" + "in loa=111 bow=- stern=- carry=- greatest=-,-,-,-" +
		"in loa=98 bow=- stern=- carry=- greatest=-,-,-,-" + nineAlone + " 12:30,38 24:36,50 36:40,59 48:42,63"},
	{"sums and averages below", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5
Sum|347|507.5
Mean|38.6|56.4`, nineHead + nineFooter},
	{"two tries and the one kept", nineEnds + `
Station (ft)|Hull try 1|Hull try 2|Hull kept (in)|Full try 1|Full try 2|Full kept (in)
1|31|31|31|39|39.5|39
2|37|38|37|52.5|52.5|52.5
3|41|41.5|41.5|62|62|62
4|43|43|43|68|67|67
5|43.5|43.5|43.5|68.5|68.5|68.5
6|43|43|43|67.5|67|67.5
7|41|40.5|41|61.5|61.5|61.5
8|36.5|36.5|36.5|51|51|51
9|30.5|31|30.5|38.5|38.5|38.5`, nineHead + nineFooter},
	{"two tries in French under common headings", metricEnds + `
Station|Tour de coque (cm)|||Tour complet (cm)||
cm|1er essai|2e essai|retenu|1er essai|2e essai|retenu
30|79|80|79|99|99|99
60|94|94|94|134|133|133
90|106|104|105|157|157|157
120|109|109|109|170|170|170
150|110|110|110|174|175|174
180|109|109|109|171|171|171
210|104|103|104|156|156|156
240|93|93|93|130|131|130
270|78|78|78|97|97|97`, metricHead + metric},
	{"measured and final", nineEnds + `
Station (ft)|First measure hull|First measure full|Second measure hull|Second measure full|Final hull (in)|Final full (in)
1|31|39|31|39.5|31|39
2|37|52.5|38|52.5|37|52.5
3|41|62|41.5|62|41.5|62
4|43|68|43|67|43|67
5|43.5|68.5|43.5|68.5|43.5|68.5
6|43|67.5|43|67|43|67.5
7|41|61.5|40.5|61.5|41|61.5
8|36.5|51|36.5|51|36.5|51
9|30.5|38.5|31|38.5|30.5|38.5`, nineHead + nineFooter},
	{"centimetres worked out beside inches", nineEnds + `
Station (ft)|Hull girth (in)|in cm|Full girth (in)|in cm
1|31|78.7|39|99.1
2|37|94.0|52.5|133.4
3|41.5|105.4|62|157.5
4|43|109.2|67|170.2
5|43.5|110.5|68.5|174.0
6|43|109.2|67.5|171.5
7|41|104.1|61.5|156.2
8|36.5|92.7|51|129.5
9|30.5|77.5|38.5|97.8`, nineHead + nineFooter},
	{"measured in centimetres, inches for the shop", metricEnds + `
Measured in cm; inches calculated (cm / 2.54)
Station cm|Hull cm|Hull in|Full cm|Full in
30|79|31.1|99|39.0
60|94|37.0|133|52.4
90|105|41.3|157|61.8
120|109|42.9|170|66.9
150|110|43.3|174|68.5
180|109|42.9|171|67.3
210|104|40.9|156|61.4
240|93|36.6|130|51.2
270|78|30.7|97|38.2`, metricHead + metric},
	{"words beside the numbers", `
Length overall|9 ft 3 in (twice)
Bow height|18 1/2 in, on the flat floor
Stern height|17 in
Carry point|21 1/2 in (thwart)

Station (ft)|Hull girth (in)|Full girth (in)
1|31 (deck plate)|39
2|37|52 1/2 by the seat
3|41 1/2|62
4|43 ok|67
5|43 1/2|68 1/2 - at the yoke
6|43|67 1/2
7|41 (checked)|61 1/2
8|36 1/2|51
9|30 1/2|38 1/2 near the handle`, nineHead + nineFooter},
	{"a plus for the half, said below", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52+
3|41+|62
4|43|67
5|43+|68+
6|43|67+
7|41|61+
8|36+|51
9|30+|38+
A + means and a half.`, nineHead + nineFooter},
	{"a plus that nobody explains", `
Length overall|9 ft 3 in
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52+
3|41|62
4|43|67`, "in loa=111 bow=- stern=- carry=- greatest=-,-,-,- 12:31,39 24:37,? 36:41,62 48:43,67"},
	{"ticked rows with running numbers", nineEnds + `
#|Done|Station (ft)|Hull girth (in)|Full girth (in)
1|x|1|31|39
2|x|2|37|52.5
3|x|3|41.5|62
4|x|4|43|67
5|x|5|43.5|68.5
6|x|6|43|67.5
7|x|7|41|61.5
8|x|8|36.5|51
9|x|9|30.5|38.5`, nineHead + nineFooter},
	{"running numbers from one through the whole sheet", `
1|✓|Length overall|9 ft 3 in
2|✓|Bow height|18 1/2 in
3|✓|Stern height|17 in
4|✓|Carry point|21 1/2 in
||Station|Hull girth (in)|Full girth (in)
5|✓|1 ft|31|39
6|✓|2 ft|37|52.5
7|✓|3 ft|41.5|62
8|✓|4 ft|43|67
9|✓|5 ft|43.5|68.5
10|✓|6 ft|43|67.5
11|✓|7 ft|41|61.5
12|✓|8 ft|36.5|51
13|✓|9 ft|30.5|38.5`, nineHead + nineFooter},
	{"whole lines in single cells", `
Length overall 9 ft 3 in
Bow height 18 1/2 in, stern height 17 in
Carry point 21 1/2 in
1 ft: hull 31 in, full 39 in
2 ft: hull 37 in, full 52 1/2 in
3 ft: hull 41 1/2 in, full 62 in
4 ft: hull 43 in, full 67 in
5 ft: hull 43 1/2 in, full 68 1/2 in
6 ft: hull 43 in, full 67 1/2 in
7 ft: hull 41 in, full 61 1/2 in
8 ft: hull 36 1/2 in, full 51 in
9 ft: hull 30 1/2 in, full 38 1/2 in`, nineHead + nineFooter},
	{"stations in words", nineEnds + `
Where|Under the hull (in)|All the way round (in)
one foot|31|39
two feet|37|52.5
three feet|41.5|62
four feet|43|67
five feet|43.5|68.5
six feet|43|67.5
seven feet|41|61.5
eight feet|36.5|51
nine feet|30.5|38.5`, nineHead + nineFooter},
	{"three tables for the parts of the boat", nineEnds + `
BOW SECTION
Station (ft)|Hull (in)|Full (in)
1|31|39
2|37|52.5
3|41.5|62
MIDDLE SECTION
Station (ft)|Hull (in)|Full (in)
4|43|67
5|43.5|68.5
6|43|67.5
STERN SECTION
Station (ft)|Hull (in)|Full (in)
7|41|61.5
8|36.5|51
9|30.5|38.5`, nineHead + nineFooter},
	{"parts of the boat side by side, French", metricEnds + `
Avant||||Milieu||||Arrière||
cm|coque|complet||cm|coque|complet||cm|coque|complet
30|79|99||120|109|170||210|104|156
60|94|133||150|110|174||240|93|130
90|105|157||180|109|171||270|78|97`, metricHead + metric},
	{"a blank row after every row, remarks in the column for girths", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)

1|31|39

2|37|52.5

3|41.5|62
|lunch|
4|43|67

5|43.5|68.5

6|43|67.5

7|41|61.5

8|36.5|51

9|30.5|38.5`, nineHead + nineFooter},
	{"other facts about the boat near", `
Make|Cedar & canvas, home-built|Year|1987
Weight|52 lb|Beam|25 1/2 in
Address|12 Mill Lane, 04401|Tel.|555-0142
` + nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5
Quote no. 2291, valid 30 days`, nineHead + nineFooter},
	{"stations in inches", nineEnds + `
Inches from bow|Hull girth|Full girth
12|31|39
24|37|52.5
36|41.5|62
48|43|67
60|43.5|68.5
72|43|67.5
84|41|61.5
96|36.5|51
108|30.5|38.5`, nineHead + nineFooter},
	{"a pair in one cell", nineEnds + `
Station (ft)|Hull / full girth (in)
1|31 / 39
2|37 / 52.5
3|41.5 / 62
4|43 / 67
5|43.5 / 68.5
6|43 / 67.5
7|41 / 61.5
8|36.5 / 51
9|30.5 / 38.5`, nineHead + nineFooter},
	{"letters explained below", nineEnds + `
|A|B
1 ft|31|39
2 ft|37|52.5
3 ft|41.5|62
4 ft|43|67
5 ft|43.5|68.5
6 ft|43|67.5
7 ft|41|61.5
8 ft|36.5|51
9 ft|30.5|38.5
A = hull girth, B = full girth, all in inches`, nineHead + nineFooter},
	{"the greatest girth within the table", nineEnds + `
Station|Hull girth (in)|Full girth (in)|Opening (in)
1 ft|31|39|
2 ft|37|52.5|
3 ft|41.5|62|
4 ft|43|67|
5 ft|43.5|68.5|
6 ft|43|67.5|
7 ft|41|61.5|
8 ft|36.5|51|
9 ft|30.5|38.5|
Greatest, at 4 ft 8 in|43.5|69|25.5`, nineGreatest + nineFooter},
	{"the unit in a line above", `
All measurements in inches.
Length overall|111
Bow height|18.5
Stern height|17
Carry point|21.5
Dist.|Hull|Full
12|31|39
24|37|52.5
36|41.5|62
48|43|67
60|43.5|68.5
72|43|67.5
84|41|61.5
96|36.5|51
108|30.5|38.5`, nineHead + nineFooter},
	{"feet and inches in columns of their own, French", `
|pi|po
Longueur hors tout|9|3
Hauteur étrave|1|6 1/2
Hauteur poupe|1|5
Point de portage|1|9 1/2

Repère|Coque||Complet|
pi|pi|po|pi|po
1|2|7|3|3
2|3|1|4|4 1/2
3|3|5 1/2|5|2
4|3|7|5|7
5|3|7 1/2|5|8 1/2
6|3|7|5|7 1/2
7|3|5|5|1 1/2
8|3|1/2|4|3
9|2|6 1/2|3|2 1/2`, nineHead + nineFooter},
	{"full before hull", nineEnds + `
Station (ft)|Full girth (in)|Hull girth (in)
1|39|31
2|52.5|37
3|62|41.5
4|67|43
5|68.5|43.5
6|67.5|43
7|61.5|41
8|51|36.5
9|38.5|30.5`, nineHead + nineFooter},
	{"the two sides and their sum", nineEnds + `
Station (ft)|Port half (in)|Starboard half (in)|Hull girth = sum (in)|Full girth (in)
1|15.5|15.5|31|39
2|18.5|18.5|37|52.5
3|21|20.5|41.5|62
4|21.5|21.5|43|67
5|22|21.5|43.5|68.5
6|21.5|21.5|43|67.5
7|20.5|20.5|41|61.5
8|18|18.5|36.5|51
9|15|15.5|30.5|38.5`, nineHead + nineFooter},
	{"the old cover's numbers beside", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Old cover (in)
1|31|39|42
2|37|52.5|56
3|41.5|62|65
4|43|67|70
5|43.5|68.5|71
6|43|67.5|70
7|41|61.5|64
8|36.5|51|55
9|30.5|38.5|42`, nineHead + nineFooter},
	{"the maker's figures beside", nineEnds + `
Station (ft)|Hull girth measured (in)|Full girth measured (in)|Hull girth catalogue|Full girth catalogue
1|31|39|30|38
2|37|52.5|36|51
3|41.5|62|41|61
4|43|67|43|66
5|43.5|68.5|43|67
6|43|67.5|43|66
7|41|61.5|41|61
8|36.5|51|36|50
9|30.5|38.5|30|38`, nineHead + nineFooter},
	{"zeros at the tips", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Opening (in)
0|0|0|0
1|31|39|8
2|37|52.5|15.5
3|41.5|62|20.5
4|43|67|24
5|43.5|68.5|25
6|43|67.5|24.5
7|41|61.5|20.5
8|36.5|51|14.5
9|30.5|38.5|8
9.25|0|0|0`, nineHead + " 0:0,0" + nineFooter + " 111:0,0"},
	{"headings that explain", nineEnds + `
Station, in feet from the very front of the boat|Hull girth: tape from the outer edge of one gunwale under the hull to the other (inches)|Full girth: the whole loop, over the opening too (inches)|Anything odd?
1|31|39|
2|37|52.5|
3|41.5|62|no
4|43|67|
5|43.5|68.5|yoke
6|43|67.5|
7|41|61.5|
8|36.5|51|stern thwart
9|30.5|38.5|`, nineHead + nineFooter},
	{"some not measured", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|n/a|52.5
3|41.5|62
4|43|-
5|43.5|68.5
6|?|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5`, nineHead + " 12:31,39 24:-,52.5 36:41.5,62 48:43,- 60:43.5,68.5 72:-,67.5 84:41,61.5 96:36.5,51 108:30.5,38.5"},
	{"labels with the unit, value beside, remark behind", `
Measure|Value|Unit|Remark
Length overall|111|in|measured twice, 111 both times
Bow height|18.5|in|level floor
Stern height|17|in|
Carry point|21.5|in|to the middle of the thwart
Hull girth at 1 ft|31|in|
Full girth at 1 ft|39|in|
Hull girth at 2 ft|37|in|
Full girth at 2 ft|52.5|in|over the seat
Hull girth at 3 ft|41.5|in|
Full girth at 3 ft|62|in|`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62"},
	{"numbered stations and their spacing", metricEnds + `
Espacement des stations : 30 cm
N°|Tour de coque|Tour complet
1|79|99
2|94|133
3|105|157
4|109|170
5|110|174
6|109|171
7|104|156
8|93|130
9|78|97`, metricHead + metric},
	{"two halves of the boat, stations going on", `
LOA 9'3"||||Carry 21 1/2"|
Bow 18 1/2"||||Stern 17"|
Ft|Hull "|Full "||Ft|Hull "|Full "
1|31|39||6|43|67.5
2|37|52.5||7|41|61.5
3|41.5|62||8|36.5|51
4|43|67||9|30.5|38.5
5|43.5|68.5||||`, nineHead + nineFooter},
	{"full worked out of hull and opening", nineEnds + `
Station (ft)|Hull girth (in)|Opening (in)|Full girth = hull + opening (in)
1|31|8|39
2|37|15.5|52.5
3|41.5|20.5|62
4|43|24|67
5|43.5|25|68.5
6|43|24.5|67.5
7|41|20.5|61.5
8|36.5|14.5|51
9|30.5|8|38.5`, nineHead + nineFooter},
	{"every station twice as rows", nineEnds + `
Station|Girth|inches
1 ft|hull|31
1 ft|full|39
2 ft|hull|37
2 ft|full|52.5
3 ft|hull|41.5
3 ft|full|62
4 ft|hull|43
4 ft|full|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"the station only once for its two rows", nineEnds + `
Station|Girth|inches
1 ft|hull|31
|full|39
2 ft|hull|37
|full|52.5
3 ft|hull|41.5
|full|62
4 ft|hull|43
|full|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"two tables, one for each girth", nineEnds + `
Hull girth (in)
1 ft|31
2 ft|37
3 ft|41.5
4 ft|43

Full girth (in)
1 ft|39
2 ft|52.5
3 ft|62
4 ft|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"units in every cell and notes below", `
Length overall: 282 cm (measured along the string)
Bow height: 47 cm
Stern height: 43 cm
Carry point: 55 cm
Station|Hull girth|Full girth
30 cm|79 cm|99 cm
60 cm|94 cm|133 cm
90 cm|105 cm|157 cm
120 cm|109 cm|170 cm
150 cm|110 cm|174 cm
180 cm|109 cm|171 cm
210 cm|104 cm|156 cm
240 cm|93 cm|130 cm
270 cm|78 cm|97 cm
Notes: the tape is 300 cm long. We were two people and it took 25 minutes.
At 150 cm there is a thwart.`, metricHead + metric},
	{"the next one to measure and a target", nineEnds + `
Station (ft)|Hull girth (in)|Target|Full girth (in)|Target
1|31|measured|39|measured
2|37|measured|52.5|measured
3|41.5|measured|62|measured
4|43|measured|67|measured
5|43.5|measured|68.5|measured
6||to do||to do`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5"},
	{"fractions in columns of their own", nineEnds + `
Station|Hull|1/2|Full|1/2
ft|in||in|
1|31||39|
2|37||52|1/2
3|41|1/2|62|
4|43||67|
5|43|1/2|68|1/2
6|43||67|1/2
7|41||61|1/2
8|36|1/2|51|
9|30|1/2|38|1/2`, nineHead + nineFooter},
	{"the ends of the boat as rows of the table", `
Place|Height (in)|Hull girth (in)|Full girth (in)
Bow|18.5||
1 ft||31|39
2 ft||37|52.5
3 ft||41.5|62
4 ft||43|67
Stern|17||
Overall length: 9 ft 3 in. Carry thwart 21 1/2 in from the bow.`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"metres", `
Longueur totale|2,82 m
Étrave, hauteur|0,47 m
Poupe, hauteur|0,43 m
Portage à|0,55 m
Distance (m)|Coque (m)|Tour complet (m)
0,30|0,79|0,99
0,60|0,94|1,33
0,90|1,05|1,57
1,20|1,09|1,70`, metricHead + " 30:79,99 60:94,133 90:105,157 120:109,170"},
	{"the widest place below with its own headings", metricEnds + `
Station (cm)|Tour de coque (cm)|Tour complet (cm)
30|79|99
60|94|133
90|105|157
120|109|170
150|110|174

Plus grand tour
Distance de l'étrave|Tour de coque|Tour complet|Ouverture
142 cm|110 cm|175 cm|65 cm`, "cm loa=282 bow=47 stern=43 carry=55 greatest=142,110,175,65 30:79,99 60:94,133 90:105,157 120:109,170 150:110,174"},
	{"bands of stations one below the other, on their side", nineEnds + `
Station (ft)|1|2|3|4|5
Hull girth (in)|31|37|41.5|43|43.5
Full girth (in)|39|52.5|62|67|68.5

Station (ft)|6|7|8|9
Hull girth (in)|43|41|36.5|30.5
Full girth (in)|67.5|61.5|51|38.5`, nineHead + nineFooter},
	{"dashes between feet and inches", nineEnds + `
Station|Hull|Full
1'-0"|2'-7"|3'-3"
2'-0"|3'-1"|4'-4 1/2"
3'-0"|3'-5 1/2"|5'-2"
4'-0"|3'-7"|5'-7"
5'-0"|3'-7 1/2"|5'-8 1/2"
6'-0"|3'-7"|5'-7 1/2"
7'-0"|3'-5"|5'-1 1/2"
8'-0"|3'-0 1/2"|4'-3"
9'-0"|2'-6 1/2"|3'-2 1/2"`, nineHead + nineFooter},
	{"the ends in the first and last row of the table", `
Overall 9 ft 3 in
Ft from bow|Hull in.|Full in.|Height in.
0 (bow)|||18.5
1|31|39|
2|37|52.5|
3|41.5|62|
4|43|67|
9.25 (stern)|||17`, "in loa=111 bow=- stern=- carry=- greatest=-,-,-,- 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"made by a program", `
record_id|field|value|unit
1|length_overall|111|in
2|bow_height|18.5|in
3|stern_height|17|in
4|carry_point|21.5|in
5|hull_girth_1ft|31|in
6|full_girth_1ft|39|in
7|hull_girth_2ft|37|in
8|full_girth_2ft|52.5|in
9|hull_girth_3ft|41.5|in
10|full_girth_3ft|62|in
11|hull_girth_4ft|43|in
12|full_girth_4ft|67|in`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"who measured which evening", nineEnds + `
Evening|Station (ft)|Hull girth (in)|Full girth (in)|Measured by
Fri 13|1|31|39|Ada
Fri 13|2|37|52.5|Ada
Fri 13|3|41.5|62|Ben
Sat 14|4|43|67|Ben
Sat 14|5|43.5|68.5|Ada
Sat 14|6|43|67.5|Ada
Sun 15|7|41|61.5|Ben
Sun 15|8|36.5|51|Ben
Sun 15|9|30.5|38.5|Ada`, nineHead + nineFooter},
	{"bilingual labels", `
Length overall / Longueur hors tout|282 cm
Bow height / Hauteur de l'étrave|47 cm
Stern height / Hauteur de la poupe|43 cm
Carry point / Point de portage|55 cm
Station / Repère (cm)|Hull girth / Tour de coque (cm)|Full girth / Tour complet (cm)
30|79|99
60|94|133
90|105|157
120|109|170
150|110|174
180|109|171
210|104|156
240|93|130
270|78|97`, metricHead + metric},
	{"numbers in brackets, the paper's numbers beside", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Page
1|31|39|p. 1
2|37|52.5|p. 1
3|41.5|62|p. 1
4|43|67|p. 2
5|43.5|68.5|p. 2
6|43|67.5|p. 2
7|41|61.5|p. 3
8|36.5|51|p. 3
9|30.5|38.5|p. 3`, nineHead + nineFooter},
	{"what must still be done", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Status
1|31|39|done
2|37|52.5|done
3|||next Sunday
4|43|67|done
5|43.5|68.5|done
6|||dog ran off with the tape
7|41|61.5|done
8|36.5|51|done
9|30.5|38.5|done`, nineHead + " 12:31,39 24:37,52.5 48:43,67 60:43.5,68.5 84:41,61.5 96:36.5,51 108:30.5,38.5"},
	{"the widest place marked with a star and told below", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5

Greatest girth
Distance from bow|4 ft 8 in
Hull girth|43.5 in
Full girth|69 in
Opening|25.5 in`, nineGreatest + nineFooter},
	{"questions and answers", `
How long is the boat overall?|9 ft 3 in
How high is the bow?|18 1/2 in
How high is the stern?|17 in
Where do you carry it (distance from the bow)?|21 1/2 in
How far from the bow (ft)?|How far round under the hull (in)?|How far all the way round (in)?
1|31|39
2|37|52.5
3|41.5|62
4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"open and closed in French", metricEnds + `
à (cm)|ouvert|fermé
30|79|99
60|94|133
90|105|157
120|109|170
150|110|174
180|109|171
210|104|156
240|93|130
270|78|97`, metricHead + metric},
	{"girths first, stations last", nineEnds + `
Full girth (in)|Hull girth (in)|at (ft)
39|31|1
52.5|37|2
62|41.5|3
67|43|4
68.5|43.5|5
67.5|43|6
61.5|41|7
51|36.5|8
38.5|30.5|9`, nineHead + nineFooter},
	{"a number for the shop's clerk", `
Order 2026-117|Customer|Ada Weir|Phone 555 0142
Cover for|canoe, 9 ft 3 in class|Colour|green 204
` + nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"quarters and eighths as one reads them", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39 1/4
2|36 7/8|52 1/2
3|41-1/2|62
4|43¼|67
5|43½"|68 3/4"`, nineHead + " 12:31,39.25 24:36.875,52.5 36:41.5,62 48:43.25,67 60:43.5,68.75"},
	{"the two girths of each station stacked in one column", nineEnds + `
1 ft|
hull|31
full|39
2 ft|
hull|37
full|52.5
3 ft|
hull|41.5
full|62
4 ft|
hull|43
full|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"from both ends to the middle", nineEnds + `
From the bow|Hull (in)|Full (in)
1 ft|31|39
2 ft|37|52.5
3 ft|41.5|62
4 ft|43|67

From the stern|Hull (in)|Full (in)
1 ft|30|37.5
2 ft|36|50
3 ft|40.5|60.5
4 ft|42.5|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 63:42.5,67 75:40.5,60.5 87:36,50 99:30,37.5"},
	{"square stern", `
Length overall|9 ft 3 in
Bow height|18 1/2 in
Height of the transom|17 in
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
Transom|40|62`, "in loa=111 bow=18.5 stern=- carry=- greatest=-,-,-,- transom=40,62 square 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"difference to the station before", nineEnds + `
Station (ft)|Hull girth (in)|+/-|Full girth (in)|+/-
1|31||39|
2|37|6|52.5|13.5
3|41.5|4.5|62|9.5
4|43|1.5|67|5
5|43.5|0.5|68.5|1.5
6|43|-0.5|67.5|-1`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5 72:43,67.5"},
	{"a second boat on the sheet that is sold", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67

For comparison, a friend's canoe (not for this cover):
Length overall|16 ft
Beam|36 in`, "in loa=- bow=18.5 stern=17 carry=21.5 greatest=-,-,-,- 12:31,39 24:37,52.5 36:41.5,62 48:43,67" +
		"in loa=111 bow=- stern=- carry=- greatest=-,-,-,-in loa=192 bow=- stern=- carry=- greatest=-,-,-,-"},
	{"half a line of words before the table", `
Hello, here is what we measured on Sunday, the two of us, with a 10 ft tape.
` + nineEnds + `
Please note that the numbers are to the nearest half inch.
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
Many thanks, Ada Weir, 12 Mill Lane`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"stations every two feet and finer at the ends", nineEnds + `
Station|Hull girth (in)|Full girth (in)
6 in|26|31
1 ft|31|39
1 ft 6 in|34.5|46.5
2 ft|37|52.5
4 ft|43|67
6 ft|43|67.5
8 ft|36.5|51
8 ft 6 in|34|45
9 ft|30.5|38.5`, nineHead + " 6:26,31 12:31,39 18:34.5,46.5 24:37,52.5 48:43,67 72:43,67.5 96:36.5,51 102:34,45 108:30.5,38.5"},
	{"the half beside the number in a cell of its own, French", metricEnds + `
Repère|Coque (cm)||Complet (cm)|
30|79||99|
60|94|1/2|133|
90|105||157|1/2
120|109||170|`, metricHead + " 30:79,99 60:94.5,133 90:105,157.5 120:109,170"},
	{"struck out by words", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Remarks
1|31|39|
2|37|52.5|
3|41.5|62|was 64 first, measured again
4|43|67|`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"units with dots and semicolons", nineEnds + `
Stn|Hull girth|Full girth
1 ft.|31 in.|39 in.
2 ft.|37 in.|52.5 in.
3 ft.|41.5 in.; checked|62 in.
4 ft.|43 in.|67 in.`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"remarks before the girths", nineEnds + `
Station (ft)|Remarks|Hull girth (in)|Full girth (in)
1|deck plate|31|39
2||37|52.5
3|seat at 3 ft 2 in|41.5|62
4||43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"French inches in the cells", `
Longueur hors tout|9 pi 3 po
Hauteur de l'étrave|18 1/2 po
Hauteur de la poupe|17 po
Point de portage|21 1/2 po
Repère|Coque|Tour complet
1 pi|31 po|39 po
2 pi|37 po|52 1/2 po
3 pi|41 1/2 po|62 po
4 pi|43 po|67 po`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"on its side with an average at the end", nineEnds + `
Station|1 ft|2 ft|3 ft|4 ft|5 ft|6 ft|Average
Hull girth (in)|31|37|41.5|43|43.5|43|39.8
Full girth (in)|39|52.5|62|67|68.5|67.5|59.5`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5 72:43,67.5"},
	{"a station measured again", nineEnds + `
Station|Hull girth (in)|Full girth (in)
1 ft|31|39
2 ft|37|52.5
3 ft|41.5|62
3 ft (again)|41.5|62
4 ft|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"a station twice with other numbers", nineEnds + `
Station|Hull girth (in)|Full girth (in)
1 ft|31|39
2 ft|37|52.5
3 ft|41.5|62
3 ft|43|67
5 ft|43.5|68.5`, nineHead + " 12:31,39 24:37,52.5 36:?,? 60:43.5,68.5"},
	{"feet and inches in two cells", `
Length overall|9 ft|3 in
Bow height|1 ft|6 1/2 in
Stern height|1 ft|5 in
Carry point|1 ft|9 1/2 in
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"stations counted and measured, no headings", nineEnds + `
Stn 1 @ 12 in|31|39
Stn 2 @ 24 in|37|52.5
Stn 3 @ 36 in|41.5|62
Stn 4 @ 48 in|43|67
Stn 5 @ 60 in|43.5|68.5
First number: hull girth, second: full girth, inches.`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5"},
	{"the greatest girth beside the table", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)||Greatest girth|
1|31|39||Distance from bow|4 ft 8 in
2|37|52.5||Hull girth|43.5 in
3|41.5|62||Full girth|69 in
4|43|67||Opening|25.5 in
5|43.5|68.5|||`, nineGreatest + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67 60:43.5,68.5"},
	{"pages of a form", `
Page 1 of 2
` + nineEnds + `
Girths (9 stations)
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|37|52.5
3|41.5|62
4|43|67
Page 2 of 2
5|43.5|68.5
6|43|67.5
7|41|61.5
8|36.5|51
9|30.5|38.5
9 of 9 done`, nineHead + nineFooter},
	{"depth and beam beside", nineEnds + `
Station (ft)|Depth (in)|Beam (in)|Hull girth (in)|Full girth (in)
1|12|8|31|39
2|12.5|15.5|37|52.5
3|13|20.5|41.5|62
4|13|24|43|67`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"words for what was not measured", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)
1|31|39
2|not measured|52.5
3|41.5|forgot
4|43|67
5|43.5|see next row
6|43|67.5`, nineHead + " 12:31,39 24:?,52.5 36:41.5,? 48:43,67 60:43.5,? 72:43,67.5"},
	{"a column of corrections in words", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Correction
1|31|39|
2|37|52.5|
3|41.5|64|full 62
4|43|67|`, nineHead + " 12:31,39 24:37,52.5 36:41.5,64? 48:43,67"},
	{"a remark with another number", nineEnds + `
Station (ft)|Hull girth (in)|Full girth (in)|Remarks
1|31|39|
2|37|52.5|
3|41.5|64|should be 62
4|43|67|`, nineHead + " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"},
	{"not sure of the hull", nineEnds + `
Station|Hull girth (in)|Full girth (in)|Notes
1 ft|31|39|fine
2 ft|37|52.5|not sure of the hull here
3 ft|41.5|62|measured again, the same
4 ft|43|67|seat in the way`, nineHead + " 12:31,39 24:37?,52.5 36:41.5,62 48:43,67"},
}

func TestCustomers(t *testing.T) {
	for _, c := range customers {
		t.Run(c.name, func(t *testing.T) {
			g := grid(c.grid)
			doc := Read("m.xlsx", []Grid{g})
			var got strings.Builder
			for _, s := range doc.Surveys {
				got.WriteString(brief(s))
			}
			if got.String() != c.want {
				t.Errorf("\n got %s\nwant %s", got.String(), c.want)
				for _, p := range doc.Problems {
					t.Logf("%s %q: %s", p.Code, p.Source.Raw, p.Message)
				}
			}
		})
	}
}
