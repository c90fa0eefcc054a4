package table

import (
	"fmt"
	"regexp"
	"slices"

	"fairtape/parse"
)

// leftOver makes problems of the numbers that nothing has used. A sheet that
// holds no part of a survey has one problem for all of them.
func (s *sheet) leftOver() {
	var rest []*item
	for _, row := range append(slices.Clone(s.items), s.listed) {
		for _, it := range row {
			if !it.used && s.reportable(it) {
				rest = append(rest, it)
			}
		}
	}
	if len(rest) == 0 {
		return
	}
	if len(s.found.whole) == 0 && len(s.found.blocks) == 0 && len(s.found.singles) == 0 && len(rest) > 1 {
		s.problem(parse.CodeUnplaced, rest[0], fmt.Sprintf("%s has %d numbers, but nothing there was recognised as a survey.", s.title(), len(rest)))
		return
	}
	for _, it := range s.columns(rest) {
		if it.Code != "" {
			s.problem(it.Code, it, it.fault.Message)
			continue
		}
		s.problem(parse.CodeUnplaced, it, "This number belongs to no measure that is known.")
	}
}

// manyInColumn is from how many numbers of one column on they are one problem.
const manyInColumn = 4

// columns puts the numbers of one column, made from others or of no known
// meaning, together into one, so that they are one problem; and so all hidden
// numbers.
func (s *sheet) columns(rest []*item) []*item {
	const hidden = -1
	column := func(it *item) int {
		if it.Code == parse.CodeHidden {
			return hidden
		}
		return it.col
	}
	count := map[int]int{}
	for _, it := range rest {
		if it.Code == "" && it.numeric {
			count[it.col]++
		}
	}
	count[hidden] = manyInColumn
	joined := map[int]*item{}
	var out []*item
	for _, it := range rest {
		alone := it.Code != "" && it.Code != parse.CodeHidden
		if alone || !it.numeric || count[column(it)] < manyInColumn {
			out = append(out, it)
			continue
		}
		first := joined[column(it)]
		if first == nil {
			copied := *it
			joined[column(it)] = &copied
			out = append(out, &copied)
			continue
		}
		first.Text += ", " + it.Text
	}
	return out
}

func (s *sheet) title() string {
	if s.name == "" {
		return "The table"
	}
	return s.name
}

// reportable reports a cell that holds a number which somebody may have
// measured.
func (s *sheet) reportable(it *item) bool {
	switch {
	case telephone.MatchString(it.folded):
		return false
	case it.empty() || it.fault.Code == parse.CodeDitto || it.Code == "" && it.fault.Code == parse.CodeDate:
		return false
	case it.numeric:
		return true
	}
	return numberInWords.MatchString(it.folded) && !instruction.MatchString(it.folded)
}

// telephone is a number that nobody measured, by how it is parted: the plans of
// North America, Britain and France.
var telephone = regexp.MustCompile(`^(?:\+?1[ .-]?)?\(?\d{3}\)?[ .-]?\d{3}[ .-]\d{4}$|^(?:\+44 ?|0)\d{2,4}[ -]?\d{3,4}[ -]?\d{3,4}$|^(?:\+33 ?|0)\d(?:[ .-]?\d{2}){4}$`)
