package table

import (
	"fmt"
	"regexp"
	"strings"

	"fairtape/parse"
)

// saysRight is a remark that says plainly which number is right.
var saysRight = regexp.MustCompile(`^(?:(?:correction|sorry|oops|typo|mistake|wrong|no|non|erreur|desolee?|pardon)[ ,:;.!-]+)*(?:(?:it|this|that|hull|full|hull girth|full girth|tour de coque|tour complet) )?(?:should (?:be|read|have been)|must be|make (?:it|that)|lire|devrait (?:etre|se lire)|doit (?:etre|se lire)|il faut lire) (?:de )?(\d+(?:[.,]\d+)?(?: \d/\d+)? ?(?:"|inches|in|cm|pouces|po)?)(?:[ ,;.:!)]|$)`)

// putRight puts the number that a remark plainly says is right in the place of the
// only girth of its row that can be meant, and reports whether there is one.
func putRight(remark *item, girths []*entry) bool {
	m := saysRight.FindStringSubmatch(remark.folded)
	if m == nil || parse.Wavers(remark.folded) || len(noteNumber.FindAllString(otherNumber.ReplaceAllString(remark.folded, ""), -1)) != 1 {
		return false
	}
	text := strings.TrimSpace(m[1])
	var meant *entry
	for _, e := range girths {
		if !givesAnother(text, e.Cell) {
			continue
		}
		if meant != nil {
			return false
		}
		meant = e
	}
	if meant == nil {
		return false
	}
	raw := fmt.Sprintf("%s (%s)", meant.Text, remark.Text)
	*meant = meant.saying(text)
	meant.Raw, remark.used = raw, true
	return true
}
