package photo

import (
	"bytes"
	"slices"

	"golang.org/x/image/tiff"
)

// pagesMost is how many pages of one scan are read: a form has three, and
// customers scan both sides.
const pagesMost = 6

// directoriesMost is how far pages are counted; a longer chain is no scan.
const directoriesMost = 1000

// decodeTIFF opens every page. The library reads the first directory that the
// header names, so a copy of the header is pointed at each in turn.
func decodeTIFF(data []byte) (pictures []*Picture, lost int, err error) {
	pages := tiffPages(data)
	if len(pages) == 0 {
		return nil, 0, broken()
	}
	if len(pages) > pagesMost {
		lost = len(pages) - pagesMost
		pages = pages[:pagesMost]
	}
	order, _, _ := tiffHeader(data)
	file := slices.Clone(data)
	for i, page := range pages {
		order.PutUint32(file[4:], page)
		picture, failed := decodeTIFFPage(file)
		if failed != nil {
			if i == 0 {
				err = failed
			}
			lost++
			continue
		}
		pictures = append(pictures, picture)
	}
	if len(pictures) == 0 {
		return nil, 0, err
	}
	return pictures, lost, nil
}

// tiffPages is where the directories lie. A chain that bites its tail ends.
func tiffPages(data []byte) []uint32 {
	order, at, ok := tiffHeader(data)
	var pages []uint32
	for ok && at != 0 && len(pages) < directoriesMost && !slices.Contains(pages, at) {
		var next uint32
		if _, next, ok = tiffDirectory(data, order, at); ok {
			pages = append(pages, at)
			at = next
		}
	}
	return pages
}

func decodeTIFFPage(file []byte) (*Picture, error) {
	if err := checkSize(tiff.DecodeConfig(bytes.NewReader(file))); err != nil {
		return nil, err
	}
	picture, err := tiff.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, &Fault{CodeKind, "This TIFF picture is of a kind that is not read, or damaged. Please send it as a JPEG or PDF."}
	}
	return newPicture(picture, tiffOrientation(file)), nil
}
