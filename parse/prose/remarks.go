package prose

import (
	"regexp"
	"strings"

	"fairtape/parse"
)

// bracketed is what stands in brackets, which may end on the next line.
var bracketed = regexp.MustCompile(`\([^()]*(?:\)|$)`)

// remarkWords is how many words a remark has at least; fewer may explain the
// number before: "(30 cm)", "(1 ft)".
const remarkWords = 2

// withoutRemarks takes the numbers of remarks in brackets out of a line that gives
// both girths of a place without them, or of a piece that gives one: "6 ft: hull
// 46, full 81 (the seat is 9 in wide)". They are kept for a person.
func (r *reader) withoutRemarks(text, where string) string {
	if !bracketed.MatchString(text) {
		return text
	}
	words, nums, _ := weave(scan(bracketed.ReplaceAllString(text, " ")))
	all := labelOf(parse.Fold(strings.Join(words, " ")))
	switch {
	case len(nums) == rowOf && (!all.some() || all == (label{role: bothRoles})):
		nums = nums[1:]
	case len(nums) == 1 && (all == (label{role: hull}) || all == (label{role: full})):
	default:
		return text
	}
	return bracketed.ReplaceAllStringFunc(text, func(s string) string {
		if !remark(s, nums) {
			return s
		}
		for _, it := range scan(s) {
			if it.number {
				r.chat = append(r.chat, parse.Problem{
					Code: parse.CodeUnplaced, Source: parse.Source{File: r.file, Place: where, Raw: strings.TrimSpace(it.text)},
					Message: "This number stands in a remark.",
				})
			}
		}
		return " "
	})
}

var word = regexp.MustCompile(`\pL{2,}`)

// remark reports words about something else than the girths of a place, whose
// numbers are far from theirs.
func remark(s string, girths []item) bool {
	f := parse.Fold(s)
	if len(word.FindAllString(f, -1)) < remarkWords || correctWords.MatchString(f) || hullWords.MatchString(f) || fullWords.MatchString(f) || stationWord.MatchString(f) {
		return false
	}
	numbers := false
	for _, it := range scan(s) {
		if !it.number {
			continue
		}
		numbers = true
		for _, g := range girths {
			a, _ := it.amount.Length(parse.ScaleInch)
			b, _ := g.amount.Length(parse.ScaleInch)
			if it.fault.Code != parse.CodeApproximate && it.fault.Some() || g.fault.Some() || 2*a > b {
				return false
			}
		}
	}
	return numbers
}
