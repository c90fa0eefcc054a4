package table

import (
	"cmp"
	"regexp"
	"strings"

	"fairtape/parse"
)

// item is a cell with what it may be.
type item struct {
	Cell
	row, col int
	folded   string
	amount   parse.Amount
	fault    parse.Fault
	numeric  bool   // a number, or something that stands in place of one
	noisy    bool   // digits with something else: "3O", "35 apples"
	used     bool   // read, or passed over for a reason
	note     bool   // in a column of notes, whose words are labels of nothing
	label    *label // what the words say outside a table, once asked for
	role     *role  // and as a heading
	axis     axis   // part of a line of stations' names
	legend   bool   // says what letters stand for
	part     bool   // of a cell that lists several measures
	named    bool   // the name of a station in a table with a line for each number
}

// sheet is a grid while it is being read.
type sheet struct {
	file    string
	name    string
	legend  map[string]meaning
	unsure  map[string]bool // letters that say so of a row, by the legend
	sumSaid bool            // the words say that a full girth is hull girth and opening
	keptTry int             // the measuring that counts, 1 or 2, 0 where no words say so
	girth   role            // the girth that the name of the sheet speaks of
	items   [][]*item       // rectangular
	aside   []*item         // comments
	commas  bool            // commas divide the cells
	found   found
	// pointed says that some number has a decimal point or a fraction: then
	// no decimal commas are written.
	pointed bool
	// numberRows and numberCols mark the lines that hold anything but words.
	numberRows, numberCols []bool
	listed                 []*item // the parts of cells that list several measures
}

// view looks at a sheet as it lies, or on its side.
type view struct {
	*sheet
	flip bool
}

var pointedNumber = regexp.MustCompile(`^\d+(?:\.\d|[ -]\d/\d)`)

func newSheet(file string, g Grid) *sheet {
	s := &sheet{file: file, name: g.Name, commas: g.Commas}
	width, height := 0, 0
	for r, row := range g.Rows {
		for c, cell := range row {
			if cell.Text != "" || cell.Code != "" {
				width, height = max(width, c+1), r+1
			}
		}
	}
	g.Rows = g.Rows[:height]
	s.numberRows, s.numberCols = make([]bool, len(g.Rows)), make([]bool, width)
	for r, row := range g.Rows {
		line := make([]*item, width)
		for c := range line {
			line[c] = &item{row: r, col: c}
			if c < len(row) {
				line[c] = newItem(row[c], r, c)
			}
			if pointedNumber.MatchString(line[c].folded) {
				s.pointed = true
			}
			if line[c].value() {
				s.numberRows[r], s.numberCols[c] = true, true
			}
		}
		s.items = append(s.items, line)
	}
	for _, c := range g.Comments {
		s.aside = append(s.aside, newItem(c, -1, -1))
	}
	s.findNames()
	s.findNotes()
	s.readLegends()
	s.hearKept()
	s.hearSum()
	return s
}

// numberStart is how a text begins that stands where a number should.
var numberStart = regexp.MustCompile(`^(?:(?:at|a|@)\s+|(?:bow|stem|nose|proue|etrave)\s*\+\s*)?[~≈<>±(=-]?\s*(?:about|abt|approx\.?|around|roughly|circa|ca\.?|env\.?|environ|maybe|over|under|say)?\s*[.,]?\d`)

// countedTry is the heading of the first, or the second, measuring.
var countedTry = regexp.MustCompile(`^\d(?:st|nd|rd|th|ere?|re|e|n?de?|i?eme) (?:try|tries|go|take|time|pass|attempt|reading|measur\pL+|essais?|mesures?|fois|prise|lecture|passage)\b`)

// countedThings is how many of something there are, and no length.
var countedThings = regexp.MustCompile(`^\d{1,2} (?:seats?|people|persons?|passengers?|paddlers?|adults?|kids|children|dogs?|thwarts|sieges?|places|personnes?|passagers?)\b`)

// longestNumber is the length from which a text is no number with a slip in
// it, but words.
const longestNumber = 40

// snake is an underscore in place of a blank, as in the headings of programs:
// hull_girth_in.
var snake = regexp.MustCompile(`[\pL\pN\])](?:_+[\pL\pN\[(]+)+`)

// camel is a name in one word, LengthOverall; counted is a label with the
// number of a list or a question before it, "2. Bow height".
var (
	camel   = regexp.MustCompile(`^\pL\p{Ll}+(?:\p{Lu}\p{Ll}+)+$`)
	hump    = regexp.MustCompile(`(\p{Ll})(\p{Lu})`)
	counted = regexp.MustCompile(`^(?:[Qq]?\d{1,2}|[A-Ha-h])[.)]\s+(\pL.*)$`)
)

// plainLabel undoes what programs and lists make of a label.
func plainLabel(text string) string {
	text = snake.ReplaceAllStringFunc(text, func(name string) string { return strings.ReplaceAll(name, "_", " ") })
	label := ""
	switch {
	case camel.MatchString(text):
		label = hump.ReplaceAllString(text, "$1 $2")
	case counted.MatchString(text):
		label = counted.ReplaceAllString(text, "$1")
	default:
		return text
	}
	if head := labelHead(label); labelOf(head).none() && roleOf(head) == noRole {
		return text
	}
	return label
}

// labelHead is a label up to its number, folded.
func labelHead(label string) string {
	head := parse.Fold(label)
	if i := strings.IndexAny(head, ":=0123456789"); i > 0 {
		head = head[:i]
	}
	return head
}

// typedOver are the crosses of a typewriter over what its writer took back.
var typedOver = regexp.MustCompile(`(?i)^x{2,}\s+(\d)`)

func newItem(c Cell, row, col int) *item {
	if m := typedOver.FindStringSubmatchIndex(c.Text); m != nil {
		c.Raw, c.Text = cmp.Or(c.Raw, c.Text), c.Text[m[2]:]
	}
	if strings.ContainsAny(c.Text, "_([") {
		c = withoutPhotos(c)
	}
	if label := plainLabel(c.Text); label != c.Text {
		if c.Raw == "" {
			c.Raw = c.Text
		}
		c.Text = label
	}
	it := &item{Cell: c, row: row, col: col, folded: parse.Fold(c.Text)}
	if it.folded == "" && c.Code == "" {
		return it
	}
	it.amount, it.fault = parse.ParseLength(c.Text)
	starts := len(it.folded) <= longestNumber && numberStart.MatchString(it.folded) && !placeFirst(it.folded) &&
		!countedTry.MatchString(it.folded) && !countedThings.MatchString(it.folded)
	switch {
	case c.Code != "":
		it.numeric = true
		f := parse.Fault{Code: c.Code, Message: messageOf(c.Code)}
		if !it.fault.Some() {
			f.May = []parse.Amount{it.amount}
		}
		it.fault = f
	case !it.fault.Some(), it.fault.Code == parse.CodeDitto, it.fault.Code == parse.CodeCellError:
		it.numeric = true
	case it.fault.Code == parse.CodeNotALength:
		it.noisy = starts
	default:
		it.numeric = starts
	}
	if it.numeric && it.fault.Code == parse.CodeDitto && strings.Trim(it.folded, "-' .") == "" {
		it.numeric = false // a dash or a stray quote is nothing
	}
	return it
}

// asLabel is what the cell says as a label outside a table.
func (it *item) asLabel() label {
	if it.label == nil {
		l := labelOf(it.folded)
		it.label = &l
	}
	return *it.label
}

// asRole is what the cell says as a heading of a column.
func (it *item) asRole() role {
	if it.role == nil {
		r := roleOf(it.folded)
		it.role = &r
	}
	return *it.role
}

func messageOf(code parse.Code) string {
	switch code {
	case parse.CodeDate:
		return "The spreadsheet made a date of this number."
	case parse.CodeFormula:
		return "The result of this formula is not in the file."
	case parse.CodeCellError:
		return "The spreadsheet shows an error in place of this number."
	case parse.CodeHidden:
		return "This number stands in a hidden row or column."
	case parse.CodeStruck:
		return "This number is struck out, and none stands in its place."
	case parse.CodeColumnsUnclear:
		return "The cells beside hold both girths, and this one a single number."
	case parse.CodeDecimalComma:
		return "The row has more fields than its heading: a decimal comma may have split a number."
	}
	return "This cell could not be read."
}

func (it *item) empty() bool { return it.folded == "" && it.Code == "" }

// blank reports a cell that says that there is nothing: empty, a dash, n/a.
func (it *item) blank() bool { return it.empty() || blankWords.MatchString(it.folded) }

var blankWords = regexp.MustCompile(`^(?:[-_.…/x' ]+|n/?a\.?|nil|none|aucune?|s\.?o\.?|tbd|\?+)$`)

// word reports a text that is no number.
func (it *item) word() bool { return !it.empty() && !it.numeric && !it.noisy && !it.blank() }

// value reports what may stand in place of a number.
func (it *item) value() bool { return it.numeric || it.noisy }

func (it *item) source(file string) parse.Source {
	if it.Raw != "" {
		return parse.Source{File: file, Place: it.Place, Raw: it.Raw}
	}
	return parse.Source{File: file, Place: it.Place, Raw: it.Text}
}

func (v view) rows() int {
	if v.flip {
		if len(v.items) == 0 {
			return 0
		}
		return len(v.items[0])
	}
	return len(v.items)
}

func (v view) cols() int {
	if !v.flip {
		if len(v.items) == 0 {
			return 0
		}
		return len(v.items[0])
	}
	return len(v.items)
}

func (v view) at(r, c int) *item {
	if r < 0 || c < 0 || r >= v.rows() || c >= v.cols() {
		return &item{}
	}
	if v.flip {
		return v.items[c][r]
	}
	return v.items[r][c]
}

// axis is which way a line of stations' names runs.
type axis int

const (
	noAxis axis = iota
	acrossAxis
	downAxis
)

// name reports a part of a line of stations' names that runs along a row of the
// view, and so belongs to no column of girths.
func (v view) name(it *item) bool {
	return it.axis == acrossAxis && !v.flip || it.axis == downAxis && v.flip
}

// findNames marks the lines that can only be names of stations: they rise
// evenly, and each has its unit.
func (s *sheet) findNames() {
	for _, v := range []view{{s, false}, {s, true}} {
		for c := 0; c < v.cols(); c++ {
			for r := 0; r < v.rows(); r++ {
				if v.at(r, c).amount.Scale == parse.Bare {
					continue
				}
				n := 0
				for r+n < v.rows() && v.at(r+n, c).amount.Scale != parse.Bare {
					n++
				}
				if n >= fewRows && v.risingFrom(r, c) >= n && regular(v, r, c, n) {
					for i := range n {
						v.at(r+i, c).axis = downAxis
						if v.flip {
							v.at(r+i, c).axis = acrossAxis
						}
					}
				}
				r += n
			}
		}
	}
}

// alone returns the one cell of a row that holds anything; nil where none or
// several do.
func (v view) alone(r int) *item {
	var found *item
	for c := range v.cols() {
		it := v.at(r, c)
		switch {
		case it.empty():
		case found != nil:
			return nil
		default:
			found = it
		}
	}
	return found
}

// across is how many columns of the view a cell spans.
func (v view) across(it *item) int {
	if v.flip {
		return max(1, it.Down)
	}
	return max(1, it.Across)
}
