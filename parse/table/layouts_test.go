package table

import (
	"strings"
	"testing"

	"fairtape/parse"
)

// One boat, 6 ft 3 in long, written in many ways. The numbers are invented.
const sixFooter = "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=45,45.5,68.5,23" + sixRows
const sixRows = " 12:35.5,42 24:40,55 36:44,66 48:45,68 60:42.5,61 72:37,45"
const justRows = "in loa=- bow=- stern=- carry=- greatest=-,-,-,-" + sixRows

var layouts = []struct {
	name, text, want string
	codes            string // of the problems, in any order
}{
	{"cards side by side, each girth with its words", `
Length overall: 6' 3"
Carry point: 19 1/2"
1 ft|2 ft|3 ft|4 ft
Hull girth 35½"|Hull girth 40"|Hull girth 44"|Hull girth 45"
Full girth 42"|Full girth 55"|Full girth 66"|Full girth 68"
5 ft|6 ft
Hull girth 42 1/2"|Hull girth 37"
Full girth 61"|Full girth 45"
`, "in loa=75 bow=- stern=- carry=19.5 greatest=-,-,-,-" + sixRows, ""},
	{"cards in two columns", `
Length overall 6 ft 3 in, bow height 18 1/2 in
Station 1 ft|Station 4 ft
Hull girth: 35 1/2 in|Hull girth: 45 in
Full girth: 42 in|Full girth: 68 in
Station 2 ft|Station 5 ft
Hull girth: 40 in|Hull girth: 42 1/2 in
Full girth: 55 in|Full girth: 61 in
Station 3 ft|Station 6 ft
Hull girth: 44 in|Hull girth: 37 in
Full girth: 66 in|Full girth: 45 in
`, "in loa=75 bow=18.5 stern=- carry=- greatest=-,-,-,-" + sixRows, ""},
	{"a length of its own is no head of a card", `
Carry point|2 ft
|Hull girth 44 in
Bow height
2 ft
Full girth 60 in
`, "in loa=- bow=24 stern=- carry=24 greatest=-,-,-,-", "unplaced-number unplaced-number"},
	{"stations in rows and no girths", `
1 ft|2 ft|3 ft|4 ft
A|B|C|D
5 ft|6 ft|7 ft|8 ft
E|F|G|H
9 ft|10 ft|11 ft|12 ft
`, "", "unplaced-number"},
	{"headings over every row", `
Units|in
|Hull girth|Full girth
1 ft|35.5|42
|Hull girth|Full girth
2 ft|40|55
|Hull girth|Full girth
3 ft|44|66
|Hull girth|Full girth
4 ft|45|68
|Hull girth|Full girth
5 ft|42.5|61
|Hull girth|Full girth
6 ft|37|45
`, justRows, ""},
	{"headings that change places are no repetition", `
Units|in
|Hull girth|Full girth
1 ft|35.5|42
|Full girth|Hull girth
2 ft|55|40
|Full girth|Hull girth
3 ft|66|44
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", ""},
	{"as the form has it", `
Boat survey
Units: inches
Length overall|6 ft 3 in
Bow height|18 1/2
Stern height|17
Carry point|19 1/2

Station|Hull girth|Full girth
1 ft|35 1/2|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42 1/2|61
6 ft|37|45

Greatest girth
Distance from bow|3 ft 9 in
Hull girth|45 1/2
Full girth|68 1/2
Opening|23
`, sixFooter, ""},
	{"tips without girths, and where the carry point is said again", `
Length overall|6 ft 3 in overall
Bow height|18 1/2 in high
Stern height (transom)|17 in
Carry point|19 1/2 in from the tip of the bow

Feet from bow|Hull girth (in)|Full girth (in)|Note
0|-|-|tip of bow
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
6' 3"|-|-|tip of stern
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-" + sixRows, ""},
	{"measures of the boat between a heading and its rows", `
what|where|hull|full
length overall|6 ft 3 in
bow height|1 ft 6 1/2 in
stern height|1 ft 5 in
carry point|1 ft 7 1/2 in
girth|1 ft aft of bow|2 ft 11 1/2 in|3 ft 6 in
girth|2 ft aft of bow|3 ft 4 in|4 ft 7 in
girth|3 ft aft of bow|3 ft 8 in|5 ft 6 in
girth|4 ft aft of bow|3 ft 9 in|5 ft 8 in
girth|5 ft aft of bow|3 ft 6 1/2 in|5 ft 1 in
girth|6 ft aft of bow|3 ft 1 in|3 ft 9 in
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-" + sixRows, ""},
	{"measures across the columns of the table", `
Tape check: long edge of paper|11 in||Deck|open X
Length overall|6 ft 3 in||Carry point|19 1/2 in
Bow height|18 1/2 in||Stern height|17 in
Station|Hull girth|Full girth|Notes
1 ft|35 1/2|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42 1/2|61
6 ft|37|45
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-" + sixRows, "unit-guessed"},
	{"distances from the stern", `
Length overall|7 ft
Feet from stern|Hull girth (in)|Full girth (in)
1|37|45
2|42.5|61
3|45|68
4|44|66
5|40|55
6|35.5|42
`, "in loa=84 bow=- stern=- carry=- greatest=-,-,-,-" + sixRows, ""},
	{"feet and inches parted by a dash, as the heading says", `
Station|Hull girth (ft-in)|Full girth (ft-in-8ths)
1 ft|2-11 1/2|3-6-0
2 ft|3-4|4-7-0
3 ft|3-8|5-6-0
4 ft|3-9|5-8-0
5 ft|3-6 1/2|5-1-0
6 ft|3-1|3-9-0
`, justRows, ""},
	{"a column of units", `
Object|Value|Unit
Length overall|6.25|ft (decimal feet)
Bow height|18.5|in
Stern height|17|in
Carry point|19.5|in

Chainage, decimal ft|Hull girth, in|Full girth, in
1.00|35.5|42
2.00|40|55
3.00|44|66
4.00|45|68
5.00|42.5|61
6.00|37|45
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-" + sixRows, ""},
	{"words that change what a number means", `
Carry point|19 1/2 in from the stern
Bow height|18 1/2 in to the keel
Length overall|6 ft 3 in without the rudder
`, " loa=? bow=? stern=- carry=? greatest=-,-,-,-", "not-a-length not-a-length not-a-length"},
	{"greatest as a row of the table", `
LOA (in)|75||Bow height|18.5
Carry thwart at|19.5||Stern height|17
Ft from bow|Open|Closed
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
Greatest girth at 3' 9"|45.5|68.5
Opening there|23
`, sixFooter, "unit-guessed"},
	{"one table of the greatest girth", `
Station|Hull girth (in)|Full girth (in)
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42.5|61
6 ft|37|45

Greatest|Distance|Hull|Full|Opening
|3 ft 9 in|45.5|68.5|23
`, "in loa=- bow=- stern=- carry=- greatest=45,45.5,68.5,23" + sixRows, ""},
	{"the widest point, and its distance", `
Station|Hull girth (in)|Full girth (in)
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42.5|61
6 ft|37|45
Widest point|3 ft 9 in
Hull girth there|45.5
`, "in loa=- bow=- stern=- carry=- greatest=45,45.5,-,-" + sixRows, ""},
	{"the widest point, and its breadth", `
Station|Hull girth (in)|Full girth (in)
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42.5|61
6 ft|37|45
Widest point|23 in
`, "in loa=- bow=- stern=- carry=- greatest=23?,-,-,-" + sixRows, "unplaced-number"},
	{"a unit beside one label only", `
Length overall|ft|in
|6|3
Bow height|18.5
Stern height|17 in
`, "in loa=- bow=18.5 stern=17 carry=- greatest=-,-,-,-", "unplaced-number unplaced-number"},
	{"whole feet, whose inches are elsewhere", `
Station|Hull girth (ft)|Full girth (ft)
1 ft|2|3
2 ft|3|4
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:24?,36? 24:36?,48?", "columns-unclear columns-unclear columns-unclear columns-unclear"},
	{"names of stations under a title", `
Hull girth in inches
1 ft|2 ft|3 ft|4 ft
35.5|40|44|45
`, "", "unplaced-number"},
	{"titles over the columns", `
HULL GIRTHS (inches)
1 ft|35.5
2 ft|40
3 ft|44
4 ft|45

FULL GIRTHS (inches)
1 ft|42
2 ft|55
3 ft|66
4 ft|68
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", ""},
	{"headings that leave it open", `
Station|Around the bottom|Over the top
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
`, justRows, "unit-guessed"},
	{"a column of something else beside one girth", `
Station|Hull girth (in)|Weight
1|35.5|50
2|40|56
3|44|62
4|45|63
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,- 24:40,- 36:44,- 48:45,-", "unplaced-number unplaced-number unplaced-number"},
	{"a title that speaks of the boat", `
Hull survey
Station|Girth (in)
1 ft|35.5
2 ft|40
3 ft|44
4 ft|45
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5?,- 24:40?,- 36:44?,- 48:45?,-", "columns-unclear columns-unclear columns-unclear columns-unclear"},
	{"a card for each station", `
Station 1 ft|Hull girth|Full girth
|35.5 in|42 in

STATION 2 FT
Hull girth|40 in
Full girth|55 in

3 ft||4 ft
Hull|44|Hull|45
Full|66|Full|68
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66 48:45,68", ""},
	{"a length of its own over a girth", `
Carry point
2 ft
Hull girth|44
`, "in loa=- bow=- stern=- carry=24 greatest=-,-,-,-", "unplaced-number"},
	{"halves in columns of their own", `
Station|Hull girth||Full girth|
|whole|half|whole|half
1 ft|35|½|42|
2 ft|40||55|
3 ft|44|0|65|.5
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,65.5", "unit-guessed"},
	{"two ends in one cell", `
Length, overall: 6' 3"
Bow: 18 1/2"  Stern: 17"  Carry: 19 1/2"
Max height of the bow seat|12
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-", "unplaced-number"},
	{"letters, and what they stand for", `
A: all the way round. B: under the hull, gunwale to gunwale
ft|A (in)|B (in)
1|42|35.5
2|55|40
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
	{"letters that stand for two things", `
A = hull girth, in
A = full girth, in
ft|A (in)
1|42
2|55
`, "", "unplaced-number"},
	{"labels in a row below the table", `
Station|Hull girth|Full girth
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42.5|61
6 ft|37|45

Length|Bow|Stern|Yoke at
6' 3"|18.5 in|17 in|19.5 in
`, "in loa=75 bow=18.5 stern=17 carry=19.5 greatest=-,-,-,-" + sixRows, "unit-guessed"},
	{"both called hull girth", `
Station|Under the hull|Under the hull and over
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
`, justRows, "unit-guessed"},
	{"on its side", `
Station|1'|2'|3'|4'|5'|6'
Under hull|35.5|40|44|45|42.5|37
All round|42|55|66|68|61|45
`, justRows, "unit-guessed"},
	{"on its side, unit in headings, totals at the end", `
Distance from bow (ft)|1|2|3|4|5|6|Average
Girth, gunwale to gunwale under hull (in)|35.5|40|44|45|42.5|37|40.7
Full loop (in)|42|55|66|68|61|45|56.2
`, justRows, "unplaced-number unplaced-number"},
	{"two header rows", `
|Girth||
Station|open|closed|Notes
(ft)|(in)|(in)|
1|35.5|42|
2|40|55|cushion out
3|44|66|
4|45|68|
5|42.5|61|
6|37|45|
Average|40.7|56.2
`, justRows, "unplaced-number unplaced-number"},
	{"two blocks side by side", `
All measurements in inches
Stn|Hull|Full||Stn|Hull|Full
1 ft|35.5|42||4 ft|45|68
2 ft|40|55||5 ft|42.5|61
3 ft|44|66||6 ft|37|45
`, justRows, ""},
	{"values left of labels", `
6' 3"|Length overall
18.5"|Bow height
17"|Stern height
19.5"|Carry point
Station|Hull girth|Full girth
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
5 ft|42.5|61
6 ft|37|45
`, strings.Replace(sixFooter, "greatest=45,45.5,68.5,23", "greatest=-,-,-,-", 1), "unit-guessed"},
	{"values under labels", `
Name|Boat|Length overall|Bow height|Stern height|Carry point
Ada Weir|Home-built, 6 foot|6' 3"|18 1/2|17|19 1/2

Station|Hull girth (in)|Full girth (in)
1|35 1/2|42
2|40|55
3|44|66
4|45|68
5|42 1/2|61
6|37|45
`, strings.Replace(sixFooter, "greatest=45,45.5,68.5,23", "greatest=-,-,-,-", 1), ""},
	{"values over labels", `
6' 3"|18 1/2|17|19 1/2
Length overall|Bow height|Stern height|Carry point

Station|Hull girth (in)|Full girth (in)
1|35 1/2|42
2|40|55
3|44|66
4|45|68
5|42 1/2|61
6|37|45
`, strings.Replace(sixFooter, "greatest=45,45.5,68.5,23", "greatest=-,-,-,-", 1), ""},
	{"French, centimetres", `
Relevé du canot
Nom|Luc Anse
Longueur hors tout|1,90 m
Hauteur de l'étrave|47
Hauteur de la poupe|43,5
Point de portage|49,5
Distance de l'étrave (cm)|Tour de coque (cm)|Tour complet (cm)
30|90|107
60|101,5|140
90|112|168
120|114|173
150|108|155
180|94|114
`, "cm loa=190 bow=47 stern=43.5 carry=49.5 greatest=-,-,-,- 30:90,107 60:101.5,140 90:112,168 120:114,173 150:108,155 180:94,114", ""},
	{"French, inches, girth of opening apart", `
Longueur hors tout : 6 pi 3 po
Poste|Circonférence ouverte|Circonférence fermée
1 pi|35 1/2 po|42 po
2 pi|40 po|55 po
3 pi|44 po|66 po
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", ""},
	{"unlabelled", `
1|35.5|42
2|40|55
3|44|66
4|45|68
5|42.5|61
6|37|45
`, justRows, "unit-guessed"},
	{"unlabelled girths, full first", `
Station|Girth 1|Girth 2
1 ft|42"|35.5"
2 ft|55"|40"
3 ft|66"|44"
4 ft|68"|45"
5 ft|61"|42.5"
6 ft|45"|37"
`, justRows, ""},
	{"opening and hull girth, unlabelled", `
1 ft|6.5|35.5
2 ft|15|40
3 ft|22|44
4 ft|23|45
5 ft|18.5|42.5
6 ft|8|37
`, "", "unplaced-number"},
	{"opening in place of full girth", `
Station|Hull girth (in)|Beam (in)
1|35.5|6.5
2|40|15
3|44|22
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42? 24:40,55? 36:44,66?", "opening-column opening-column opening-column"},
	{"all three", `
Station|Hull girth (in)|Opening|Full girth
1|35.5|6.5|42
2|40|15|55
3|44|32|66
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", "derived"},
	{"two tries", `
Units|in
Station|Hull 1st try|Hull 2nd try|Full 1st try|Full 2nd try
1|35.5|35.5|42|42
2|40|41|55|55
3|44|44|66|66
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:?,55 36:44,66", "second-try"},
	{"inches and centimetres", `
Station|Hull (in)|Hull (cm)|Full (in)|Full (cm)
1 ft|35.5|90|42|107
2 ft|40|101.5|55|139.5
3 ft|44|112|66|200
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,?", "second-try"},
	{"feet and inches in columns of their own", `
Station|Hull girth||Full girth|
|ft|in|ft|in
1 ft|2|11.5|3|6
2 ft|3|4|4|7
3 ft|3|8|5|6
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", ""},
	{"one line a number", `
Length overall|75 in
Hull girth at 1 ft|35.5
Full girth at 1 ft|42
Hull girth at 2 ft|40
Full girth at 2 ft|55
Hull girth at 3 ft|44
Full girth at 3 ft|66
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", "unit-guessed"},
	{"a line of a database", `
Timestamp|Your name|Boat make and model|Length overall|Hull girth 1 ft (in)|Full girth 1 ft (in)|Hull girth 2 ft (in)|Full girth 2 ft (in)
2026/04/02 10:11:12|Ada Weir|Peterson 6|6' 3"|35.5|42|40|55
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
	{"feet and inches apart beside a label", `
Length overall|6|ft|3|in
Bow height|18.5|in
Station|Hull (in)|Full (in)
1 ft|35.5|42
2 ft|40|55
`, "in loa=75 bow=18.5 stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
	{"what is unclear", `
Units|in
Length overall|15.9
Bow height|41/2
Station|Hull|Full
1 ft|35-36|42
2 ft|about 40|"
3 ft|44|1,250
4 ft|45|same
5 ft|=B3+1|61
`, "in loa=? bow=? stern=- carry=- greatest=-,-,-,- 12:?,42 24:?,? 36:44,? 48:45,? 60:?,61", "unclear-overall unclear-fraction range approximate ditto unclear-comma ditto formula"},
	{"a station that cannot be told", `
Units|in
Station|Hull|Full
1 ft|35.5|42
|40|55
3 ft|44|66
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 36:44,66", "station-unclear station-unclear"},
	{"transom and ticks", `
Units|in
Customer|B. Quay
☒ decked ☐ open
Stern|square
Station|Hull|Full
1 ft|35.5|42
2 ft|40|55
Transom|30|41
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- transom=30,41 decked square 12:35.5,42 24:40,55", ""},
	{"two boats side by side", `
Units|in
Station|Hull|Full||Station|Hull|Full
1 ft|35.5|42||1 ft|30|40
2 ft|40|55||2 ft|33|50
3 ft|44|66||3 ft|36|60
4 ft|45|68||4 ft|35|60
`, "two", "two-boats"},
	{"skiff", `
Units|in
Open or decked?|Decked
Stern|Square
Length overall|6 ft 3 in
Transom hull girth|36
Transom full girth|60
Station|Hull|Full
1 ft|35.5|42
2 ft|40|55
`, "in loa=75 bow=- stern=- carry=- greatest=-,-,-,- transom=36,60 decked square 12:35.5,42 24:40,55", ""},
	{"a row of largest numbers", `
Units|in
Station|Hull|Full
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
Max|44|66
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", "unplaced-number unplaced-number"},
	{"stations in feet and inches", `
Station ft|Station in|Hull in|Full in
1|0|35.5|42
1|6|38|49
2|0|40|55
2|6|42|60
||44|66
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 18:38,49 24:40,55 30:42,60", "station-unclear station-unclear"},
	{"stations in feet and again in inches", `
Station ft|Station in|Hull in|Full in
1|12|35.5|42
2|24|40|55
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
	{"sums at the foot", `
Units|in
Station|Hull|Full
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
Average|39.83|54.33
Greatest|44|66
Stations|3
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", strings.Repeat("unplaced-number ", 5)},
	{"distances from the stern", `
Units|in
Distance from stern|Hull|Full
1 ft|35.5|42
2 ft|40|55
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5?,42? 24:40?,55?", strings.Repeat("station-unclear ", 4)},
	{"answers in words", `
Units|in
Bow height|could not reach|12
Stern carry handle|19
Station|Hull|Full
1 ft|35.5|42
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42", "unplaced-number unplaced-number"},
	{"a list in one cell", `
Bow height 18 1/2, stern height 17
Greatest girth at 3 ft 9 in: hull 45 1/2, full 68 1/2
Station|Hull (in)|Full (in)
1 ft|35.5|42
`, "in loa=- bow=18.5 stern=17 carry=- greatest=45,45.5,68.5,- 12:35.5,42", ""},
	{"a line for each number", `
Station|What|Inches
1 ft|hull girth|35.5
1 ft|full girth|42
2 ft|hull girth|40
|full girth|55
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55", ""},
	{"metric with feet stations", `
Units|cm
Station|Hull|Full
1 ft|90|107
2 ft|101.5|140
`, "cm loa=- bow=- stern=- carry=- greatest=-,-,-,- 30.48:90,107 60.96:101.5,140", ""},
	{"note with a number", `
Station|Hull (in)|Full (in)|Notes
1 ft|35.5|42|
2 ft|40|55|second time 41 in
3 ft|44|66|
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", "unplaced-number"},
	{"running numbers and a gap", `
No.|Distance from bow|Hull girth|Full girth
1|1 ft|35.5 in|42 in
2|2 ft|40 in|55 in

3|3 ft|44 in|66 in
4|4 ft||
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:35.5,42 24:40,55 36:44,66", ""},
	{"numbers of no survey", `
Item|Price|Qty
Webbing|3.5|2
Cord|1.2|10
`, "", "unplaced-number"},
	{"swapped headings", `
Station|Full girth (in)|Hull girth (in)
1 ft|35.5|42
2 ft|40|55
3 ft|44|66
4 ft|45|68
`, "in loa=- bow=- stern=- carry=- greatest=-,-,-,- 12:42?,35.5? 24:55?,40? 36:66?,44? 48:68?,45?", strings.Repeat("columns-unclear ", 8)},
}

func TestLayouts(t *testing.T) {
	for _, tt := range layouts {
		doc := Read("x", []Grid{grid(tt.text)})
		got := ""
		if len(doc.Surveys) > 0 {
			got = brief(doc.Surveys[0])
		}
		if len(doc.Surveys) > 1 {
			got = "two"
		}
		if got != tt.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.name, got, tt.want)
		}
		if g, w := sortedCodes(doc.Problems), strings.Fields(tt.codes); g != sortWords(w) {
			t.Errorf("%s: problems %s, want %s", tt.name, g, sortWords(w))
			for _, p := range doc.Problems {
				t.Logf("  %s %s %q %s", p.Code, p.Source.Place, p.Source.Raw, p.Message)
			}
		}
	}
}

func sortedCodes(problems []parse.Problem) string {
	var codes []string
	for _, p := range problems {
		codes = append(codes, string(p.Code))
	}
	return sortWords(codes)
}
