package prose

import (
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// stacked reads a table that was pasted with every cell on a line of its own:
// the headings below each other, then the numbers in the same order. It returns
// how many lines it takes; 0 when there is none, or the numbers do not fit.
func (r *reader) stacked(lines []line) int {
	head, n := stackedHead(lines)
	if head == nil {
		return 0
	}
	u := run{size: len(head)}
	var places []string
	used := n
	for ; n < len(lines); n++ {
		if lines[n].blank() {
			continue
		}
		words, nums, _ := weave(scan(lines[n].text))
		if len(nums) != 1 || !beforeRow.MatchString(parse.Fold(words[0])) || !betweenRow.MatchString(words[1]) {
			break
		}
		u.words, u.nums = append(u.words, ""), append(u.nums, nums[0])
		places = append(places, lines[n].place())
		used = n + 1
	}
	if len(u.nums)%u.size != 0 || u.stations(head)*u.size != len(u.nums) || len(u.nums) == 0 {
		return 0
	}
	r.endRow()
	r.endBlock()
	r.header = head
	for i := 0; i < len(u.nums); i += u.size {
		r.stationOfRun(u, i, places[i])
	}
	r.endBlock()
	return used
}

// stackedHead reads headings on lines below each other: a place first, and both
// girths.
func stackedHead(lines []line) (head []table.Cell, n int) {
	roles := map[role]int{}
lines:
	for ; n < len(lines); n++ {
		s := strings.Trim(parse.Fold(lines[n].text), " *:")
		l := labelOf(s)
		switch {
		case s == "":
		case len(head) == 0 && stationHead.MatchString(s):
			head = append(head, table.Cell{Text: "station"})
		case len(head) == 0 || measuredNumbers(lines[n].text) || len(strings.Fields(s)) > sectionMost+1 || l.place != noPlace:
			break lines
		case l.role == hull, l.role == full, l.role == opening:
			roles[l.role]++
			head = append(head, table.Cell{Text: headNames[l.role], Place: lines[n].place()})
		default:
			break lines
		}
	}
	if roles[hull] != 1 || roles[full] != 1 || roles[opening] > 1 {
		return nil, 0
	}
	return head, n
}
