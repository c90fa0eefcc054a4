package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// CSV reads text divided by commas, semicolons, tabs or bars, in UTF-8,
// UTF-16, UTF-32, Windows-1252 (of which Latin-1 is a part) or Mac OS Roman.
// Lines beginning with # are passed over in the survey's own form; elsewhere no
// number is read of them, but they may say what letters mean, and which numbers
// are not sure. Words, unless nil, reads sentences in the fields. The error is
// ErrFormat or ErrLimit.
func CSV(name string, data []byte, words table.Words) (parse.Document, error) {
	if len(data) > maxText {
		return parse.Document{}, fmt.Errorf("%s: %w", name, ErrLimit)
	}
	text, err := decodeText(data)
	if err != nil {
		return parse.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text), "\n")
	delimiter := delimiterOf(lines)
	if len(lines) > 0 && strings.HasPrefix(lines[0], "sep=") {
		lines[0] = ""
	}
	g := table.Grid{Commas: delimiter == ','}
	if slices.ContainsFunc(lines, isComment) {
		lines = uncommented(lines)
	}
	filled, cells := 0, 0
	usual := usualFields(lines, delimiter)
	heard := !ownForm(lines)
	var rows []int // of the grid, in which the comments stand
	for n := 0; n < len(lines); n++ {
		if heard && isComment(lines[n]) && len(g.Comments) < maxRows {
			rows = append(rows, len(g.Rows))
			g.Comments = append(g.Comments, table.Cell{Text: short(strings.TrimLeft(lines[n], "# ")), Place: fmt.Sprintf("line %d", n+1)})
		}
		if isComment(lines[n]) || strings.TrimSpace(lines[n]) == "" {
			g.Rows = append(g.Rows, nil)
			continue
		}
		fields, used := splitLine(lines[n:], delimiter)
		if cells += len(fields); len(fields) > maxCols || filled > maxRows || cells > maxCells || n > maxRow {
			return parse.Document{}, fmt.Errorf("%s: %w", name, ErrLimit)
		}
		fields = joinWords(fields, usual)
		row := make([]table.Cell, len(fields))
		for i, f := range fields {
			row[i] = fieldCell(short(f))
			row[i].Place = fmt.Sprintf("line %d, column %d", n+1, i+1)
		}
		g.Rows = append(g.Rows, row)
		n += used - 1
		filled++
	}
	hangComments(g, rows)
	return readGrids(name, []table.Grid{g}, words), nil
}

var (
	ownUnit    = regexp.MustCompile(`(?i)^unit,(?:in|cm),*$`)
	ownHeading = regexp.MustCompile(`(?i)^station,hull girth,full girth,*$`)
)

// ownForm reports a survey in the form that programs write for this one: its
// comments are notes of who wrote it, and speak of no reading.
func ownForm(lines []string) bool {
	has := func(line *regexp.Regexp) bool {
		return slices.ContainsFunc(lines, func(l string) bool { return line.MatchString(strings.TrimSpace(l)) })
	}
	return has(ownUnit) && has(ownHeading)
}

// remark is one at the end of a line of data, without a number in it.
var remark = regexp.MustCompile(`\s+#\D*$`)

// uncommented takes remarks from the ends of lines, in a file that has lines of
// them: "5 ft, 47.5, 80  # over the keel".
func uncommented(lines []string) []string {
	out := slices.Clone(lines)
	for i, l := range lines {
		if at := remark.FindStringIndex(l); at != nil && !isComment(l) && !table.UnsureNote(l[at[0]:]) {
			out[i] = l[:at[0]]
		}
	}
	return out
}

// guarded is a text in a formula, as programs write it so that a spreadsheet
// leaves it alone: ="41 1/2".
var guarded = regexp.MustCompile(`^="((?:[^"]|"")*)"$`)

func fieldCell(text string) table.Cell {
	if m := guarded.FindStringSubmatch(strings.TrimSpace(text)); m != nil {
		return table.Cell{Text: strings.ReplaceAll(m[1], `""`, `"`), Raw: text}
	}
	return table.Cell{Text: text}
}

// usualFields is how many fields most of the lines with a number have; 0 where
// none is usual.
func usualFields(lines []string, delimiter rune) int {
	if delimiter != ',' {
		return 0
	}
	count := map[int]int{}
	rows, best := 0, 0
	for _, l := range lines {
		if isComment(l) || !strings.ContainsAny(l, "0123456789") {
			continue
		}
		fields, _ := splitLine([]string{l}, delimiter)
		n := len(fields)
		rows++
		if count[n]++; count[n] > count[best] {
			best = n
		}
	}
	if 2*count[best] <= rows {
		return 0
	}
	return best
}

// joinWords puts a heading together again that has a comma of its own, "Girth
// of hull, open", which nobody quoted: the line has too many fields, and just
// as many as usual where words follow a comma and a blank.
func joinWords(fields []string, usual int) []string {
	if usual == 0 || len(fields) <= usual {
		return fields
	}
	var joined []string
	for i, f := range fields {
		if i > 0 && wordsAfterBlank.MatchString(f) {
			joined[len(joined)-1] += "," + f
			continue
		}
		joined = append(joined, f)
	}
	if len(joined) != usual {
		return fields
	}
	return joined
}

var wordsAfterBlank = regexp.MustCompile(`^ +\pL`)

// countedName is a station named by a number sign, which is no comment.
var countedName = regexp.MustCompile(`^#\d+\s*[,;\t|]`)

func isComment(line string) bool {
	return strings.HasPrefix(line, "#") && !countedName.MatchString(line)
}

// delimiterOf returns what divides the fields: a sign other than the comma
// that stands on most lines, since a comma may also be a decimal one.
func delimiterOf(lines []string) rune {
	if len(lines) > 0 && strings.HasPrefix(lines[0], "sep=") && len(lines[0]) > len("sep=") {
		return rune(lines[0][len("sep=")])
	}
	filled := 0
	with := map[rune]int{}
	for _, l := range lines {
		if strings.TrimSpace(l) == "" || isComment(l) {
			continue
		}
		filled++
		for _, d := range []rune{';', '\t', '|'} {
			if strings.ContainsRune(l, d) {
				with[d]++
			}
		}
	}
	best := ','
	for _, d := range []rune{';', '\t', '|'} {
		if 2*with[d] > filled && with[d] > with[best] {
			best = d
		}
	}
	return best
}

// splitLine splits the first of the lines into its fields. A quote opens a
// quoted field only when one closes it; else it is an inch mark or a ditto
// mark. A quoted field may go on over the next line when it holds no delimiter, or
// begins with a word. used is how many lines it took.
func splitLine(lines []string, delimiter rune) (fields []string, used int) {
	line := lines[0]
	used = 1
	for {
		rest := strings.TrimLeft(line, " ")
		field, after, more, ok := "", "", false, false
		if strings.HasPrefix(rest, `"`) {
			field, after, more, ok = quotedField(rest, delimiter)
			// No inch mark and no ditto mark stands before words.
			words := wordsQuoted.MatchString(rest)
			if !ok && used < len(lines) && used <= continuedLines && (words || !strings.ContainsRune(rest, delimiter)) {
				if f, a, m, good := quotedField(rest+"\n"+lines[used], delimiter); good && (words || !strings.ContainsRune(f, delimiter)) {
					field, after, more, ok = f, a, m, true
					used++
				}
			}
		}
		if !ok {
			field, after, more = strings.Cut(line, string(delimiter))
		}
		fields = append(fields, field)
		if !more || len(fields) > maxCols {
			return fields, used
		}
		line = after
	}
}

var wordsQuoted = regexp.MustCompile(`^"\pL`)

// continuedLines is how many line breaks the fields of one line may hold.
const continuedLines = 6

// quotedField reads a field in quotes that a delimiter or the end follows.
func quotedField(s string, delimiter rune) (field, rest string, more, ok bool) {
	var b strings.Builder
	for i := 1; i < len(s); i++ {
		if s[i] != '"' {
			b.WriteByte(s[i])
			continue
		}
		tail := strings.TrimLeft(s[i+1:], " ")
		switch {
		case tail == "":
			return b.String(), "", false, true
		case strings.HasPrefix(s[i+1:], `"`):
			b.WriteByte('"')
			i++
		case strings.HasPrefix(tail, string(delimiter)):
			return b.String(), tail[len(string(delimiter)):], true, true
		default:
			b.WriteByte('"')
		}
	}
	return "", "", false, false
}
