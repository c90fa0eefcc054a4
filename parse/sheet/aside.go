package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
	"strings"

	"fairtape/parse"
)

// notesParts are the parts of a text document that stand beside its text, and
// what a person calls what is in them (ECMA-376 part 1, 11.3).
var notesParts = []struct{ name, place string }{
	{"word/comments.xml", "a comment"},
	{"word/footnotes.xml", "a footnote"},
	{"word/endnotes.xml", "an endnote"},
}

// notes reports the notes of a part that hold numbers: a person may have written
// a second try there.
func (d *docxReader) notes(z *zip.Reader, name, place string) error {
	part, err := openPart(z, name)
	if errors.Is(err, errNoPart) {
		return nil
	}
	if err != nil {
		return err
	}
	defer part.Close()
	var text strings.Builder
	inText := false
	start := func(e xml.StartElement) error {
		inText = e.Name.Local == "t"
		return nil
	}
	end := func(e xml.EndElement) {
		inText = false
		switch e.Name.Local {
		case "comment", "footnote", "endnote":
			if strings.ContainsAny(text.String(), "0123456789") {
				d.problems = append(d.problems, noteOn("", place, short(text.String())))
			}
			text.Reset()
		}
	}
	return tokens(part, start, end, func(s []byte) {
		if inText && text.Len() < maxCell {
			text.Write(s)
		}
	})
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
