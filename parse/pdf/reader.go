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
	"slices"
	"sync"

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
	surveyPages = 4     // of a PDF of more, only one whose text says something of a survey is drawn
	pagesMost   = 20    // that are read
	figuresMost = 1_000 // to the last page that is read
)

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
	s := sheet{file: file, words: r.Words, second: sync.OnceValue(func() second { return readSecond(data, min(d.pages, pagesMost)) })}
	s.take(d)
	if d.pages > surveyPages || d.figures == 0 {
		s.see(d, page.maybeScan)
		doc, err := s.read()
		if err != nil || len(doc.Surveys) == 0 || ctx.Err() != nil {
			return doc, errors.Join(err, ctx.Err())
		}
	}
	s.see(d, func(page) bool { return true })
	if ctx.Err() != nil {
		return parse.Document{}, ctx.Err()
	}
	return s.read()
}

// take reads the text of the pages, up to the most that is read.
func (s *sheet) take(d *document) {
	for i := range min(d.pages, pagesMost) {
		p, err := d.readPage(i)
		if errors.Is(err, errFigures) {
			s.problem(CodePages, fmt.Sprintf("page %d", i+1), "", fmt.Sprintf("The PDF holds far more numbers than a survey; page %d and what follows were not read. Please send the pages of the survey alone.", i+1))
			break
		}
		if err != nil {
			s.damaged(i + 1)
			continue
		}
		s.pages = append(s.pages, p)
	}
	if d.pages > pagesMost {
		s.problem(CodePages, "", "", fmt.Sprintf("The PDF has %d pages; only the first %d were read.", d.pages, pagesMost))
	}
}

// see finds out what is seen of some pages. Of the others, all text that is
// drawn with ink is taken to be seen.
func (s *sheet) see(d *document, chosen func(page) bool) {
	var kept []page
	for _, p := range s.pages {
		if chosen(p) {
			if err := d.look(&p); err != nil {
				s.damaged(p.number)
				continue
			}
		} else if !p.looked {
			p.each(func(g *glyph) { g.seen = p.shows })
		}
		kept = append(kept, p)
	}
	s.pages = kept
}

func (s *sheet) damaged(page int) {
	s.problem(CodeBroken, fmt.Sprintf("page %d", page), "", "This page of the PDF is damaged and was not read.")
}

func whole(file string, code parse.Code, message string) parse.Document {
	return parse.Document{File: file, Problems: []parse.Problem{{Code: code, Source: parse.Source{File: file}, Message: message}}}
}

// sheet is a whole file on its way to a document.
type sheet struct {
	file     string
	words    table.Words
	second   func() second
	pages    []page
	problems []parse.Problem
	stands   map[string][]standing // by place
	doubts   map[string]doubt      // by place
}

func (s *sheet) problem(code parse.Code, place, raw, message string) {
	s.problems = append(s.problems, parse.Problem{
		Code: code, Source: parse.Source{File: s.file, Place: place, Raw: raw}, Message: message,
	})
}

// read turns pages into grids, has the survey recognised, and lowers the
// confidence of what the readers did not agree on.
func (s sheet) read() (doc parse.Document, err error) {
	s.problems = slices.Clip(s.problems)
	s.stands, s.doubts = map[string][]standing{}, map[string]doubt{}
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
	if err := s.lower(&doc); err != nil {
		return parse.Document{}, fmt.Errorf("look at its digits: %w", err)
	}
	doc.Problems = append(doc.Problems, s.problems...)
	return doc, nil
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

// maybeScan reports a page that may be a picture with text laid under it, which
// only its drawing tells.
func (p page) maybeScan() bool {
	return p.covered && len(p.glyphs) >= scanLetters && len(p.fields) == 0
}

// scanLetters is how many visible letters a page has at least that is more than
// a scan with a stamp or a page number.
const scanLetters = 20

func hasDigit(s string) bool {
	for _, r := range s {
		if r >= '0' && r <= '9' || r >= '０' && r <= '９' || r == '½' || r == '¼' || r == '¾' {
			return true
		}
	}
	return false
}
