package sheet

import (
	"archive/zip"
	"encoding/xml"
	"errors"
)

// numberedLists returns the lists of a text document whose paragraphs are
// counted 1, 2, 3 (ECMA-376 part 1, 17.9): the numbers are seen on the page and
// stand nowhere in the text.
func numberedLists(z *zip.Reader) (map[string]bool, error) {
	part, err := openPart(z, "word/numbering.xml")
	if errors.Is(err, errNoPart) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer part.Close()
	decimal := map[string]bool{} // by abstract list
	lists := map[string]bool{}
	abstract, level, list := "", "", ""
	start := func(e xml.StartElement) error {
		switch e.Name.Local {
		case "abstractNum":
			abstract = attr(e, "abstractNumId")
		case "lvl":
			level = attr(e, "ilvl")
		case "numFmt":
			if level == "0" && list == "" {
				decimal[abstract] = attr(e, "val") == "decimal"
			}
		case "num":
			list = attr(e, "numId")
		case "abstractNumId":
			lists[list] = decimal[attr(e, "val")]
		}
		return nil
	}
	err = tokens(part, start, func(xml.EndElement) {}, func([]byte) {})
	return lists, err
}
