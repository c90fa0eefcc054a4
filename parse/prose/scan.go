package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// item is a number with what was written around it up to the next number.
type item struct {
	number bool
	text   string // as written
	amount parse.Amount
	fault  parse.Fault // why the number is not sure
	label  parse.Scale // what its label says that it is counted in
	where  string      // the line it stands on, where that is known
}

// lexeme splits a line into what a written length is made of. Long rows of signs,
// as lines are drawn with, are one.
var lexeme = regexp.MustCompile(`\d+(?:[.,]\d+)*|\.{2,}|[.,]\d+|[½¼¾⅛⅜⅝⅞⅓⅔]|''|\pL+|\s+|[^\pL\s\d]{20,}|.`)

// lengthMost is how many lexemes a written length has at most: "15 feet, 9 and
// 1/2 inches".
const lengthMost = 16

// scan splits a line into numbers and the text between them. What is known to
// be no measure (telephone numbers, dates, prices) is text.
func scan(text string) []item {
	masked := mask(text)
	if !strings.ContainsAny(masked, figureSigns) {
		return hedges(wordsOnly(masked))
	}
	at := lexeme.FindAllStringIndex(masked, -1)
	var items []item
	var words strings.Builder // since the last number
	endWords := func() {
		if words.Len() > 0 {
			items = append(items, item{text: words.String()})
			words.Reset()
		}
	}
	for i := 0; i < len(at); {
		if !opensNumber(masked, at, i) {
			words.WriteString(masked[at[i][0]:at[i][1]])
			i++
			continue
		}
		endWords()
		n, it := number(masked, at, i)
		items = append(items, it)
		i += n
	}
	endWords()
	return hedges(items)
}

// figureSigns are the signs that a written number begins with.
const figureSigns = "0123456789½¼¾⅛⅜⅝⅞⅓⅔"

// wordsOnly are the items of a text without numbers.
func wordsOnly(text string) []item {
	if text == "" {
		return nil
	}
	return []item{{text: text}}
}

// longestLabel is more than any word has, in bytes, that a figure may be glued to.
const longestLabel = 40

func opensNumber(s string, at [][]int, i int) bool {
	c := []rune(s[at[i][0]:at[i][1]])[0]
	digit := strings.ContainsRune(figureSigns, c) || leadingPoint.MatchString(s[at[i][0]:at[i][1]])
	if !digit {
		return false
	}
	// A figure that is part of a word (B3H, H2O, mk2) is no number.
	if i > 0 {
		last := []rune(s[at[i-1][0]:at[i-1][1]])
		before := s[max(0, at[i][0]-longestLabel):at[i][0]]
		if isLetter(last[len(last)-1]) && !endsWithStation.MatchString(before) && !endsWithLabel.MatchString(before) {
			return false
		}
	}
	return true
}

// leadingPoint is a number that begins with its point: ".5".
var leadingPoint = regexp.MustCompile(`^[.,]\d`)

// endsWithStation allows "st3", "s4", "x48".
var endsWithStation = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:st|sta|stn|station|s|no|x)$`)

// endsWithLabel allows a figure glued to the label before it, as two fields of a
// page are that only their layout kept apart: "Length overall13 ft".
var endsWithLabel = regexp.MustCompile(`(?i)(?:overall|length|height|girth|point|hull|full|opening|ft\)|in\)|hors[- ]tout|longueur|hauteur|coque|complet|portage|étrave|poupe|proue)$`)

func isLetter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 0xbf }

// number reads the longest length that begins at lexeme i.
func number(s string, at [][]int, i int) (int, item) {
	start := at[i][0]
	for n := min(lengthMost, len(at)-i); n > 0; n-- {
		text := s[start:at[i+n-1][1]]
		if strings.TrimSpace(text) != text || strings.HasSuffix(text, ".") || apartNumbers.MatchString(text) || n > 1 && strings.ContainsAny(text[len(text)-1:], "(,:;=") {
			continue
		}
		a, f := parse.ParseLength(text)
		if f.Some() || cutsWord(s, at, i+n) || bareEnd.MatchString(text) && unitOfNext.MatchString(s[start+len(text):]) {
			continue
		}
		if commaFeet.MatchString(parse.Fold(text)) {
			return n, item{number: true, text: text, fault: parse.Fault{
				Code: parse.CodeSeveralNumbers, Message: "The second number may be inches or the next of a list.",
			}}
		}
		if m := joined(s, at, i+n); m > 0 {
			text = s[start:at[i+n+m-1][1]]
			_, f := parse.ParseLength(text)
			if !f.Some() {
				f = parse.Fault{Code: parse.CodeSeveralNumbers, Message: "There is more here than one length."}
			}
			return n + m, item{number: true, text: text, fault: f}
		}
		if part := partInWords.FindString(s[start+len(text):]); part != "" {
			text += part // so that no reader of the text alone takes it for whole
			for n < len(at)-i && at[i+n-1][1] < start+len(text) {
				n++
			}
			return n, item{number: true, text: text, fault: partTold(part)}
		}
		return n, item{number: true, text: text, amount: a, fault: partTold(s[start+len(text):])}
	}
	text := s[start:at[i][1]]
	_, f := parse.ParseLength(text)
	if !f.Some() { // a figure glued to a word: 41x, 7th
		f = parse.Fault{Code: parse.CodeNotALength, Message: "There are letters glued to the number."}
	}
	return 1, item{number: true, text: text, fault: f}
}

// commaFeet is a length in feet, a comma and a number without a unit.
var commaFeet = regexp.MustCompile(`(?:ft|feet|foot|'|pi|pieds?)\.?\s*,\s*\d+(?:\.\d+)?(?: ?\d/\d)?$`)

// The last figure of "7 ft and 8" begins a number of its own where a unit follows.
var (
	bareEnd    = regexp.MustCompile(`[\pL'][^\pL]*\d$`)
	unitOfNext = regexp.MustCompile(`^\s?(?:(?i:ft|feet|foot|in|inch|inches|cm|m|pi|pieds?|po|pouces?)\b|'|")`)
)

// apartNumbers is a gap as between columns: what stands behind it is no part of
// the number before.
var apartNumbers = regexp.MustCompile(`\t| {3,}`)

// cutsWord reports that a length would end inside a word: the m of "most" is
// not metres.
func cutsWord(s string, at [][]int, next int) bool {
	if next >= len(at) || next == 0 {
		return false
	}
	a, b := []rune(s[at[next-1][0]:at[next-1][1]]), []rune(s[at[next][0]:at[next][1]])
	return isLetter(a[len(a)-1]) && isLetter(b[0]) || a[0] >= '0' && a[0] <= '9' && isLetter(b[0]) && b[0] != 'x' && b[0] != 'X'
}

var tapeFraction = regexp.MustCompile(`^(?:2|4|8|16|32)$`)

// joined counts the lexemes by which a number is glued to another, so that the
// two can be understood in more than one way: 41/2, 46-47.
func joined(s string, at [][]int, next int) int {
	if next+1 >= len(at) {
		return 0
	}
	sign, after := s[at[next][0]:at[next][1]], s[at[next+1][0]:at[next+1][1]]
	if after[0] < '0' || after[0] > '9' {
		return 0
	}
	switch sign {
	case "/":
		last := s[at[next-1][0]:at[next-1][1]]
		if tapeFraction.MatchString(after) && last[0] >= '0' && last[0] <= '9' && (next < 2 || s[at[next-2][0]:at[next-2][1]] != "/") {
			return 2
		}
	case "-", "–", "—", "..":
		return 2
	}
	return 0
}
