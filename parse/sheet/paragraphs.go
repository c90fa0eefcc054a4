package sheet

import "strings"

// lastParagraph is the text before a table that follows now, "" for none and for
// one with numbers of its own.
func (d *docxReader) lastParagraph() string {
	for i := len(d.typed) - 1; i >= 0; i-- {
		if text := strings.TrimSpace(d.typed[i]); strings.ContainsAny(text, "0123456789") {
			break
		} else if text != "" {
			return text
		}
	}
	return ""
}

func (d *docxReader) top() *docxTable {
	if len(d.tables) == 0 {
		return nil
	}
	return d.tables[len(d.tables)-1]
}
