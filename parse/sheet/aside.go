package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"maps"
	"slices"
	"strings"

	"fairtape/parse"
	"fairtape/parse/table"
)

// noteID is a note by its kind and its number.
type noteID struct{ kind, id string }

// notesParts are the parts of a text document that stand beside its text, and
// what a person calls what is in them (ECMA-376 part 1, 11.3).
var notesParts = []struct{ name, kind, place string }{
	{"word/comments.xml", "comment", "a comment"},
	{"word/footnotes.xml", "footnote", "a footnote"},
	{"word/endnotes.xml", "endnote", "an endnote"},
}

// notes reads the notes of one part.
func (d *docxReader) notes(z *zip.Reader, of struct{ name, kind, place string }) error {
	part, err := openPart(z, of.name)
	if errors.Is(err, errNoPart) {
		return nil
	}
	if err != nil {
		return err
	}
	defer part.Close()
	var text strings.Builder
	inText := false
	id := ""
	start := func(e xml.StartElement) error {
		inText = e.Name.Local == "t"
		if e.Name.Local == of.kind {
			id = attr(e, "id")
		}
		return nil
	}
	end := func(e xml.EndElement) {
		inText = false
		if e.Name.Local == of.kind {
			this := noteID{of.kind, id}
			d.beside[this] = short(strings.TrimSpace(d.beside[this] + " " + text.String()))
			text.Reset()
		}
	}
	return tokens(part, start, end, func(s []byte) {
		if inText && text.Len() < maxCell {
			text.Write(s)
		}
	})
}

// pointTo hangs a note on the text that points to it.
func (d *docxReader) pointTo(id noteID) {
	if text := d.beside[id]; text != "" {
		d.note = short(strings.TrimSpace(d.note + " " + text))
		delete(d.beside, id)
	}
}

// unplacedNotes reports the notes to which nothing points, where they hold a
// number or a doubt: a person may have written a second try there.
func (d *docxReader) unplacedNotes() {
	for _, part := range notesParts {
		for _, id := range slices.SortedFunc(maps.Keys(d.beside), func(a, b noteID) int { return strings.Compare(a.id, b.id) }) {
			if text := d.beside[id]; id.kind == part.kind && (strings.ContainsAny(text, "0123456789") || table.Doubtful(text, table.Cell{})) {
				d.problems = append(d.problems, parse.Problem{
					Code: CodeNote, Source: parse.Source{Place: part.place, Raw: text}, Message: "A note beside the text may say more of a number, and was not read.",
				})
			}
		}
	}
}

// hidden reports a number in text that is not shown.
func (d *docxReader) hidden(text string) {
	if strings.ContainsAny(text, "0123456789") {
		d.problems = append(d.problems, parse.Problem{
			Code:    parse.CodeHidden,
			Source:  parse.Source{Place: "the text", Raw: short(text)},
			Message: "This number stands in hidden text and was not read.",
		})
	}
}
