package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"

	"golang.org/x/image/draw"
)

// Post is a chat post as plain text, for drawing.
type Post struct {
	Place   string   // where it stands, small print over it; "" for none
	Title   string   // one line, drawn bold; "" for none
	Lines   []string // paragraphs, wrapped as needed; a line break in one is kept
	Buttons []Button
	Note    string // small print under it: state, who and when
	PNG     []byte // a picture in the post, nil for none
	Replies []Post
}

// Button is a button of a post.
type Button struct {
	Label   string
	Primary bool
}

// Sizes of a drawn post in pixels.
const (
	postWidth  = 1200
	postMargin = 48.0
	postIndent = 56.0
	postSize   = 32.0
	postLetter = 28.0 // in the thread: a letter's lines of 72 characters fit
	postSmall  = 26.0
	postTitle  = 36.0
	postPlot   = 760.0 // width of a picture in a post
	// postMost bounds the drawing's height, so that a hostile letter cannot ask
	// for gigabytes; a letter of 4,000 characters needs about 5,000.
	postMost = 8000
)

// OfPost draws a post with its replies, one under the other.
func OfPost(post Post) (Picture, error) {
	measure, err := newCanvas(postWidth, 1)
	if err != nil {
		return Picture{}, err
	}
	sheet := &sheet{canvas: measure, y: postMargin}
	if err := sheet.post(post, postMargin, postSize); err != nil {
		return Picture{}, err
	}
	c, err := newCanvas(postWidth, min(int(sheet.y+postMargin), postMost))
	if err != nil {
		return Picture{}, err
	}
	sheet.canvas, sheet.y = c, postMargin
	if err := sheet.post(post, postMargin, postSize); err != nil {
		return Picture{}, err
	}
	return finish(c, postAlt(post))
}

func postAlt(post Post) string {
	alt := strings.TrimRight(post.Title, ".")
	if len(post.Lines) > 0 {
		alt += ". " + strings.Join(strings.Fields(strings.Join(post.Lines, " ")), " ")
	}
	return "A chat post: " + strings.TrimPrefix(alt, ". ")
}

// sheet is a column that fills from the top; drawn once on a canvas without
// height to learn how high it becomes.
type sheet struct {
	*canvas
	y float64 // where the next thing begins
}

// post draws a post, with its words in the given size, and its replies.
func (s *sheet) post(p Post, x, size float64) error {
	top := s.y
	inner := x + 28
	if err := s.text(p.Place, inner, regular, postSmall, grey); err != nil {
		return err
	}
	if err := s.text(p.Title, inner, bold, postTitle, ink); err != nil {
		return err
	}
	for _, line := range p.Lines {
		if err := s.text(line, inner, regular, size, ink); err != nil {
			return err
		}
	}
	if err := s.picture(p.PNG, inner); err != nil {
		return err
	}
	if err := s.buttons(p.Buttons, inner); err != nil {
		return err
	}
	if err := s.text(p.Note, inner, regular, postSmall, grey); err != nil {
		return err
	}
	s.line(x, top+4, x, s.y-4, 6, blue)
	for _, reply := range p.Replies {
		s.y += 28
		if err := s.post(reply, postMargin+postIndent, postLetter); err != nil {
			return err
		}
	}
	return nil
}

// text draws a paragraph.
func (s *sheet) text(text string, x float64, w weight, size float64, colour color.Color) error {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	if err := s.typeface(w, size); err != nil {
		return err
	}
	for paragraph := range strings.SplitSeq(text, "\n") {
		for _, line := range s.WordWrap(paragraph, postWidth-postMargin-x) {
			s.y += size * 1.3
			s.write(line, x, s.y-size*0.3, 0, colour)
		}
		if paragraph == "" {
			s.y += size * 0.6
		}
	}
	s.y += size * 0.2
	return nil
}

func (s *sheet) buttons(buttons []Button, x float64) error {
	if len(buttons) == 0 {
		return nil
	}
	if err := s.typeface(bold, postSize-2); err != nil {
		return err
	}
	const height, pad = 60.0, 30.0
	s.y += 18
	for _, b := range buttons {
		w, _ := s.MeasureString(b.Label)
		s.DrawRoundedRectangle(x+2, s.y, w+2*pad, height, height/2)
		words := ink
		s.SetColor(ink)
		if b.Primary {
			s.Fill()
			words = white
		} else {
			s.SetLineWidth(3)
			s.Stroke()
		}
		s.write(b.Label, x+2+pad+w/2, s.y+height/2+postSize*0.34, 0.5, words)
		x += w + 2*pad + 22
	}
	s.y += height + 14
	return nil
}

// picture draws a picture with a thin frame.
func (s *sheet) picture(data []byte, x float64) error {
	if len(data) == 0 {
		return nil
	}
	source, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("picture in a post: %w", err)
	}
	size := source.Bounds().Size()
	height := postPlot * float64(size.Y) / float64(size.X)
	s.y += 10
	if s.Height() > 1 { // not when measuring
		small := image.NewRGBA(image.Rect(0, 0, postPlot, int(height)))
		draw.CatmullRom.Scale(small, small.Bounds(), source, source.Bounds(), draw.Src, nil)
		s.DrawImage(small, int(x), int(s.y))
		s.DrawRectangle(x, s.y, postPlot, height)
		s.SetColor(light)
		s.SetLineWidth(2)
		s.Stroke()
	}
	s.y += height + 14
	return nil
}
