package photo

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"fairtape/parse"
)

// ReadAll reads pictures that came in one file, such as the pages of a scan, as
// one document. Places begin with the page when there are several.
func (r *Reader) ReadAll(file string, pictures []*Picture, lost int) parse.Document {
	var pages []*Page
	var problems []parse.Problem
	for i, p := range pictures {
		prefix := ""
		if len(pictures) > 1 {
			prefix = fmt.Sprintf("page %d", cmp.Or(p.Page, i+1))
		}
		page, err := r.Page(file, p)
		var refused *Fault
		if errors.As(err, &refused) {
			if len(pictures) == 1 && refused.mayBeOtherPaper(p.light) {
				if table, ok := r.free(file, p); ok {
					return table
				}
			}
			problems = append(problems, parse.Problem{Code: refused.Code, Source: parse.Source{File: file, Place: prefix}, Message: refused.Message})
			continue
		}
		if prefix != "" {
			page.within(prefix + ", ")
		}
		pages = append(pages, page)
	}
	if lost > 0 {
		problems = append(problems, parse.Problem{Code: CodePages, Source: parse.Source{File: file},
			Message: fmt.Sprintf("%d more pages of the file were not read.", lost)})
	}
	doc := together(file, pages)
	doc.Problems = append(doc.Problems, problems...)
	return doc
}

// mayBeOtherPaper reports a refusal of what may be no page of ours at all: dark
// patches on it stood like our marks, or nothing did.
func (f *Fault) mayBeOtherPaper(p *plane) bool {
	switch f.Code {
	case CodeNoPage:
		return true
	case CodeCorner, CodeSmall:
		return !codeAnywhere(p)
	}
	return false
}

// within puts words before every place.
func (page *Page) within(prefix string) {
	for i := range page.Cells {
		page.Cells[i].Reading.Source.Place = prefix + page.Cells[i].Reading.Source.Place
	}
	for i := range page.Notes {
		page.Notes[i].Source.Place = prefix + page.Notes[i].Source.Place
	}
}

// together makes one document of pages. Pages of one form are one survey, and a
// page that was photographed twice is read once.
func together(file string, pages []*Page) parse.Document {
	var sheets []*Page
	for _, p := range pages {
		i := slices.IndexFunc(sheets, func(s *Page) bool { return s.Code.String() == p.Code.String() })
		if i < 0 {
			sheets = append(sheets, p)
		} else {
			sheets[i] = twice(sheets[i], p)
		}
	}
	var docs []parse.Document
	for _, p := range sheets {
		docs = append(docs, p.document(file))
	}
	if len(docs) == 1 {
		return docs[0]
	}
	survey, problems := parse.Merge(docs...)
	doc := parse.Document{File: file, Problems: problems}
	if survey.Readings() > 0 {
		doc.Surveys = []parse.Survey{survey}
	}
	if len(docs) > 0 && !slices.ContainsFunc(docs, func(d parse.Document) bool { return d.Job != docs[0].Job }) {
		doc.Job = docs[0].Job
	}
	return doc
}

// twice takes each number from the photo of a page that shows it better.
func twice(a, b *Page) *Page {
	out := &Page{Code: a.Code, Ticks: a.Ticks, Notes: slices.Concat(a.Notes, b.Notes), view: a.view}
	for _, c := range a.Cells {
		i := slices.IndexFunc(b.Cells, func(o Cell) bool { return o.Cell == c.Cell && o.Try == c.Try })
		if i >= 0 {
			c.Reading = better(c.Reading, b.Cells[i].Reading)
		}
		out.Cells = append(out.Cells, c)
	}
	for _, c := range b.Cells {
		if !slices.ContainsFunc(a.Cells, func(o Cell) bool { return o.Cell == c.Cell && o.Try == c.Try }) {
			// Only one photo shows it: it may be a shadow, or the other too pale.
			c.Reading = unsure(c.Reading)
			out.Cells = append(out.Cells, c)
		}
	}
	for i, c := range out.Cells {
		if !slices.ContainsFunc(b.Cells, func(o Cell) bool { return o.Cell == c.Cell && o.Try == c.Try }) {
			out.Cells[i].Reading = unsure(c.Reading)
		}
	}
	return out
}

// better is what two photos say of one number: the surer one, or both where
// each is sure of something else.
func better(a, b parse.Reading) parse.Reading {
	if b.Confidence > a.Confidence {
		a, b = b, a
	}
	if !b.Certain() || !a.Known || a.Value == b.Value {
		return a
	}
	return parse.Reading{
		Alternatives: []parse.Candidate{{Value: a.Value, Probability: a.Confidence / 2}, {Value: b.Value, Probability: b.Confidence / 2}},
		Source:       a.Source,
	}
}

// unsure takes the certainty of a reading, and leaves its value.
func unsure(r parse.Reading) parse.Reading {
	if r.Certain() {
		r.Confidence = justUnsure
	}
	return r
}

// justUnsure is the confidence of what would be sure but for a doubt that no
// box shows.
const justUnsure = 0.85
