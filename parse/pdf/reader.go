// Package pdf reads filled forms and typed tables out of PDF files, with two
// readers that must agree, and turns pages into pictures.
//
// It is meant to run inside a process that may be killed: a hostile file can
// make the second reader loop for ever, and the first one work for very long.
package pdf

import (
	"context"
	"errors"
	"fmt"

	"fairtape/parse"
	"fairtape/parse/table"
)

// Reader opens PDF files. The zero Reader works, slowly: without a cache it
// compiles its WebAssembly module, for some two seconds, at every start.
type Reader struct {
	// Cache is a folder for compiled WebAssembly, "" for none. It is the only
	// path that is written to.
	Cache string
	// Words reads lines of text that are no table, nil for nothing: a letter
	// that was printed to a PDF. Its places are "line 12".
	Words table.Words
}

// Problems of PDF files. Each message can be passed on as it is.
const (
	CodeLocked      parse.Code = "pdf-locked"
	CodeBroken      parse.Code = "pdf-broken"
	CodeXFA         parse.Code = "pdf-xfa"          // a form that only one program shows
	CodeNoText      parse.Code = "picture-not-read" // scanned pages: a person must read them
	CodeReaders     parse.Code = "pdf-readers"      // the two readers do not agree
	CodeNotShown    parse.Code = "pdf-not-shown"    // text that is not seen on the page
	CodeFieldDiffer parse.Code = "pdf-field"        // a field that holds one thing and shows another
	CodeDrawn       parse.Code = "pdf-drawn"        // a digit that is drawn as another
	CodePages       parse.Code = "pdf-pages"        // pages that were not read
	CodeNote        parse.Code = "pdf-note"         // a note laid over the page
)

// A survey is one to four pages, with some 500 figures, sums and notes included.
const (
	pagesMost   = 20    // that are read
	figuresMost = 1_000 // to the last page that is read; each costs three milliseconds to look at
)

// doubted is the confidence of a number on which the two readers differ.
const doubted = 0.5

// Read says what the file holds. What cannot be read is a problem in the
// document; an error is our own failure: the reader did not start.
func (r *Reader) Read(ctx context.Context, file string, data []byte) (parse.Document, error) {
	d, err := r.open(ctx, data)
	switch {
	case errors.Is(err, errStart):
		return parse.Document{}, err
	case errors.Is(err, errPassword):
		return whole(file, CodeLocked, "The PDF is password-protected. Please send it without."), nil
	case err != nil:
		return whole(file, CodeBroken, "The PDF is damaged or cut short. Please send it again."), nil
	}
	defer d.close()
	if d.xfa {
		return whole(file, CodeXFA, "The PDF is a form that only its own program can show. Please print it to a PDF and send that."), nil
	}
	s := sheet{file: file, words: r.Words, second: readSecond(data, min(d.pages, pagesMost))}
	for i := range min(d.pages, pagesMost) {
		p, err := d.readPage(i)
		if errors.Is(err, errFigures) {
			s.problem(CodePages, fmt.Sprintf("page %d", i+1), "", fmt.Sprintf("The PDF holds far more numbers than a survey; page %d and what follows were not read. Please send the pages of the survey alone.", i+1))
			break
		}
		if err != nil {
			if ctx.Err() != nil {
				return parse.Document{}, ctx.Err()
			}
			s.problem(CodeBroken, fmt.Sprintf("page %d", i+1), "", "This page of the PDF is damaged and was not read.")
			continue
		}
		s.pages = append(s.pages, p)
	}
	if d.pages > pagesMost {
		s.problem(CodePages, "", "", fmt.Sprintf("The PDF has %d pages; only the first %d were read.", d.pages, pagesMost))
	}
	return s.read(), nil
}

func whole(file string, code parse.Code, message string) parse.Document {
	return parse.Document{File: file, Problems: []parse.Problem{{Code: code, Source: parse.Source{File: file}, Message: message}}}
}

// sheet is a whole file on its way to a document.
type sheet struct {
	file     string
	words    table.Words
	second   second
	pages    []page
	problems []parse.Problem
	doubts   map[string]doubt // by place
}

// doubt is why a number at a place is not sure.
type doubt struct {
	code    parse.Code
	message string
}

func (s *sheet) problem(code parse.Code, place, raw, message string) {
	s.problems = append(s.problems, parse.Problem{
		Code: code, Source: parse.Source{File: s.file, Place: place, Raw: raw}, Message: message,
	})
}

func (s *sheet) doubtAt(place string, code parse.Code, message string) {
	if s.doubts == nil {
		s.doubts = map[string]doubt{}
	}
	if _, ok := s.doubts[place]; !ok {
		s.doubts[place] = doubt{code, message}
	}
}

// read turns pages into grids, has the survey recognised, and lowers the
// confidence of what the readers did not agree on.
func (s *sheet) read() parse.Document {
	var doc parse.Document
	if own := s.ownForm(); own != nil {
		doc = *own
	} else {
		var grids []table.Grid
		for i := range s.pages {
			grids = append(grids, s.grid(&s.pages[i]))
		}
		doc = s.better(table.Read(s.file, grids), grids)
	}
	s.notes()
	s.pictures()
	s.lower(&doc)
	doc.Problems = append(doc.Problems, s.problems...)
	return doc
}

// notes reports what was written over the pages with a viewer. It is drawn, and
// read with the page, only where it is text; its numbers are a person's to place.
func (s *sheet) notes() {
	for _, p := range s.pages {
		for _, n := range p.notes {
			if hasDigit(n) {
				s.problem(CodeNote, fmt.Sprintf("page %d, note", p.number), n, "There are numbers in a note that was laid over the page.")
			}
		}
	}
}

// pictures reports pages that are nothing but a picture.
func (s *sheet) pictures() {
	for _, p := range s.pages {
		seen := 0
		for _, g := range p.glyphs {
			if g.seen {
				seen++
			}
		}
		if p.images > 0 && seen < scanLetters && len(p.fields) == 0 {
			s.problem(CodeNoText, fmt.Sprintf("page %d", p.number), "", "The page is a picture. A person has to read it.")
		}
	}
}

// Scans returns the numbers of the pages that are nothing but a picture.
func Scans(doc parse.Document) (numbers []int) {
	for _, p := range doc.Problems {
		if number, ok := ScanOf(p); ok {
			numbers = append(numbers, number)
		}
	}
	return numbers
}

// ScanOf returns the page that a problem says is nothing but a picture.
func ScanOf(p parse.Problem) (number int, ok bool) {
	_, err := fmt.Sscanf(p.Source.Place, "page %d", &number)
	return number, p.Code == CodeNoText && err == nil
}

// scanLetters is how many visible letters a page has at least that is more than
// a scan with a stamp or a page number.
const scanLetters = 20

// lower takes the doubts over into the readings they are about.
func (s *sheet) lower(doc *parse.Document) {
	told := map[string]bool{}
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			d, ok := s.doubts[r.Source.Place]
			if !ok || r.Absent() {
				return
			}
			r.Confidence = min(r.Confidence, doubted)
			if !told[r.Source.Place] {
				told[r.Source.Place] = true
				s.problem(d.code, r.Source.Place, r.Source.Raw, d.message)
			}
		})
	}
}

func hasDigit(s string) bool {
	for _, r := range s {
		if r >= '0' && r <= '9' || r >= '０' && r <= '９' || r == '½' || r == '¼' || r == '¾' {
			return true
		}
	}
	return false
}
