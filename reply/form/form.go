// Package form draws the shop's papers: the form on which a customer writes a
// survey, the slip on which a few numbers are measured again, and the empty
// sheet for those who type. What lies where on paper is settled by the package
// of the same name under parse.
package form

import (
	"bytes"
	"errors"
	"fmt"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"

	"fairtape/parse/form"
)

// Words is what the papers say beside the layout.
type Words struct {
	Language string // tag such as "fr-CA"; English for any that is not known
	Post     string // where paper tracings are sent, in lines; "" leaves lines to write on
}

// ErrLetter is the error of words with a letter that the type of the papers
// does not have.
var ErrLetter = errors.New("a letter that cannot be printed")

// check makes sure that the drawing library, which fails badly on letters that
// a font does not have, sees none.
func (w Words) check() error {
	var buffer sfnt.Buffer
	face, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		return err
	}
	for _, r := range w.Post {
		glyph, err := face.GlyphIndex(&buffer, r)
		if err != nil || glyph == 0 && !unicode.IsSpace(r) {
			return fmt.Errorf("%w: %q", ErrLetter, r)
		}
	}
	return nil
}

// PDF draws a form that can be printed or typed into, and returns it with its
// layout. The same form is always the same bytes. Errors wrap those of the
// layout, ErrNoRoom or ErrLetter.
func PDF(spec form.Spec, words Words) ([]byte, form.Layout, error) {
	l, err := form.New(spec)
	if err != nil {
		return nil, form.Layout{}, err
	}
	if err := words.check(); err != nil {
		return nil, form.Layout{}, fmt.Errorf("draw the form: %w", err)
	}
	p := newPainter(l, phrases(words.Language, spec.Unit, l.Spacing))
	p.guide(words.Post)
	p.numbers()
	file, err := p.finish()
	if err != nil {
		return nil, form.Layout{}, fmt.Errorf("draw the form: %w", err)
	}
	return file, l, nil
}

// finish ends the drawing and adds the fields.
func (p *painter) finish() ([]byte, error) {
	if p.err != nil {
		return nil, p.err
	}
	var drawn bytes.Buffer
	if err := p.pdf.Output(&drawn); err != nil {
		return nil, err
	}
	return fielded(drawn.Bytes(), p.layout, p.tip)
}
