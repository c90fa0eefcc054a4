package sheet

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
)

// openPart opens one part of a zip, whatever larger size it unpacks to cut off
// as too large.
func openPart(data []byte, name string) (io.ReadCloser, error) {
	if err := checkZip(data); err != nil {
		return nil, err
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, ErrFormat
	}
	for _, f := range z.File {
		if f.Name != name {
			continue
		}
		r, err := f.Open()
		if err != nil {
			return nil, ErrFormat
		}
		return &limited{r, maxPart}, nil
	}
	return nil, errNoPart
}

// errNoPart is a part that the file does not have. Callers from outside see a
// file of the wrong format.
var errNoPart = fmt.Errorf("a part is missing: %w", ErrFormat)

// overlap reports that parts of a zip share bytes of the file, so that a few of
// them unpack to much: no program writes such a file.
func overlap(parts []*zip.File) bool {
	type span struct{ from, to int64 }
	var spans []span
	for _, part := range parts {
		from, err := part.DataOffset()
		if err != nil {
			return true // it lies outside of the file
		}
		if part.CompressedSize64 > 0 {
			spans = append(spans, span{from, from + int64(min(part.CompressedSize64, 1<<40))})
		}
	}
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for i := 1; i < len(spans); i++ {
		if spans[i].from < spans[i-1].to {
			return true
		}
	}
	return false
}

// limited reads at most so many bytes, and fails with ErrLimit beyond.
type limited struct {
	io.ReadCloser
	left int
}

func (l *limited) Read(p []byte) (int, error) {
	n, err := l.ReadCloser.Read(p)
	if l.left -= n; l.left < 0 {
		return 0, ErrLimit
	}
	return n, err
}

// tokens walks over an XML part: start and end are called for each element,
// text for the characters between. Entities of a document's own are not
// expanded, and depth is bounded.
func tokens(r io.Reader, start func(xml.StartElement) error, end func(xml.EndElement), text func([]byte)) error {
	d := xml.NewDecoder(r)
	depth := 0
	for {
		t, err := d.RawToken()
		switch {
		case err == io.EOF:
			if depth != 0 {
				return ErrFormat
			}
			return nil
		case errors.Is(err, ErrLimit):
			return ErrLimit
		case err != nil:
			return ErrFormat
		}
		switch t := t.(type) {
		case xml.StartElement:
			if depth++; depth > maxDepth {
				return ErrLimit
			}
			if err := start(t); err != nil {
				return err
			}
		case xml.EndElement:
			if depth--; depth < 0 {
				return ErrFormat
			}
			end(t)
		case xml.CharData:
			text(t)
		}
	}
}

// attr returns an attribute by its local name, "" when it is absent.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
