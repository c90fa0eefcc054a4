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
	"strings"
)

// openZip opens a zip. It refuses what is none, and what unpacks to more than a
// survey. The sizes are the archive's own claim; reading fails where they lie.
func openZip(data []byte) (*zip.Reader, error) {
	if err := checkContainer(data); err != nil {
		return nil, err
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, ErrFormat
	}
	if len(z.File) > maxParts {
		return nil, ErrLimit
	}
	if overlap(z.File) {
		return nil, ErrFormat
	}
	total := uint64(0)
	for _, part := range z.File {
		total += part.UncompressedSize64
		if part.UncompressedSize64 > maxPart && strings.HasSuffix(part.Name, ".xml") || total > maxUnpacked {
			return nil, ErrLimit
		}
		if !sound(part) {
			return nil, ErrFormat
		}
	}
	return z, nil
}

// sound reports that a part is as long as it says and has the checksum that it
// says. The library takes what it can unpack of a damaged one, and a number
// with another digit is worse than none.
func sound(part *zip.File) bool {
	if !strings.HasSuffix(part.Name, ".xml") && !strings.HasSuffix(part.Name, ".rels") {
		return true // pictures and the like are not read
	}
	r, err := part.Open()
	if err != nil {
		return false
	}
	defer r.Close() //nolint:errcheck // it is only read
	n, err := io.Copy(io.Discard, io.LimitReader(r, int64(part.UncompressedSize64)+1))
	return err == nil && n == int64(part.UncompressedSize64)
}

// openPart opens one part of a zip, whatever larger size it unpacks to cut off
// as too large.
func openPart(z *zip.Reader, name string) (io.ReadCloser, error) {
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
