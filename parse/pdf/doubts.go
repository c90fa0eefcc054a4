package pdf

import (
	"fairtape/parse"
	"fairtape/parse/digits"
)

// doubted is the confidence of a number that is not sure.
const doubted = 0.5

// doubt is why a number at a place is not sure.
type doubt struct {
	code    parse.Code
	message string
}

// standing is a cell with a number, on its page.
type standing struct {
	page *page
	cell cell
}

func (s *sheet) doubtAt(place string, code parse.Code, message string) {
	if _, ok := s.doubts[place]; !ok {
		s.doubts[place] = doubt{code, message}
	}
}

// sharesDoubts makes a doubt about what stands at one place one about another
// place, of which it has become a part.
func (s *sheet) sharesDoubts(whole, part string) {
	s.stands[whole] = append(s.stands[whole], s.stands[part]...)
	if d, ok := s.doubts[part]; ok {
		s.doubtAt(whole, d.code, d.message)
	}
}

// lower takes the doubts over into the readings they are about. What stands in
// the file is looked at only here: most files hold many numbers and no survey.
func (s *sheet) lower(doc *parse.Document) error {
	if len(doc.Surveys) == 0 {
		return nil
	}
	reader, err := digits.NewReader()
	if err != nil {
		return err
	}
	l := &looker{reader, map[outline]int{}}
	looked := map[string]bool{}
	for i := range doc.Surveys {
		doc.Surveys[i].Each(func(r *parse.Reading) {
			if r.Absent() {
				return
			}
			place := r.Source.Place
			first := !looked[place]
			if first {
				looked[place] = true
				s.look(place, l)
			}
			d, ok := s.doubts[place]
			if !ok {
				return
			}
			r.Confidence = min(r.Confidence, doubted)
			if first {
				s.problem(d.code, place, r.Source.Raw, d.message)
			}
		})
	}
	return nil
}

// look doubts a place by the first of what stands there that is not sure.
func (s *sheet) look(place string, l *looker) {
	for _, at := range s.stands[place] {
		c := &at.cell
		switch {
		case l.otherwise(at.page.number, c.digits):
			s.doubtAt(place, CodeDrawn, "A figure here is drawn as another than the one the file says it is.")
		case c.differs:
			s.doubtAt(place, CodeFieldDiffer, "The field shows something else than it holds.")
		case c.field != nil && s.second().holds(c.field):
		case c.field != nil, !s.second().confirms(at.page, *c):
			s.doubtAt(place, CodeReaders, "Two programs read this place of the PDF differently.")
		}
	}
}
