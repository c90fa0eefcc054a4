package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"

	ledongthuc "github.com/ledongthuc/pdf"
)

// secondWithin is how long the second reader may take over a file. Some files
// keep it busy for ever, and nothing but the end of the process stops it.
const secondWithin = 4 * time.Second

// second is what the other reader says of the same file. It knows neither what
// is seen on a page nor exactly where each character stands, so it only
// confirms.
type second struct {
	err    error
	pages  []secondPage
	fields map[string]string // by full name
}

type secondPage struct {
	err   error
	chars []secondChar // in the order of the file
	stray string       // characters that the reader may add after a piece of text
}

type secondChar struct {
	x, y float64 // in the page's own coordinates
	text string
}

func readSecond(data []byte, pages int) second {
	done := make(chan second, 1)
	go func() { done <- readSecondAll(data, pages) }()
	select {
	case s := <-done:
		return s
	case <-time.After(secondWithin):
		return second{err: errors.New("the second reader takes too long")}
	}
}

func readSecondAll(data []byte, pages int) (s second) {
	defer func() {
		if r := recover(); r != nil {
			s.err = fmt.Errorf("the second reader: %v", r)
		}
	}()
	reader, err := ledongthuc.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return second{err: fmt.Errorf("the second reader: %w", err)}
	}
	s.fields = secondFields(reader)
	for i := range pages {
		s.pages = append(s.pages, readSecondPage(reader, i+1))
	}
	return s
}

func readSecondPage(reader *ledongthuc.Reader, number int) (p secondPage) {
	defer func() {
		if r := recover(); r != nil {
			p = secondPage{err: fmt.Errorf("the second reader, page %d: %v", number, r)}
		}
	}()
	page := reader.Page(number)
	// The reader ends each piece of text with a line feed, which the font then
	// turns into whatever it has in that place.
	for _, name := range page.Fonts() {
		font := page.Font(name)
		if encoder := font.Encoder(); encoder != nil {
			p.stray += strings.TrimSpace(encoder.Decode("\n"))
		}
	}
	for _, t := range page.Content().Text {
		if s := strings.TrimSpace(t.S); s != "" {
			p.chars = append(p.chars, secondChar{t.X, t.Y, s})
		}
	}
	return p
}

// fieldDepth is how deep fields may lie in groups of fields.
const fieldDepth = 8

func secondFields(reader *ledongthuc.Reader) (fields map[string]string) {
	fields = map[string]string{}
	defer func() { _ = recover() }() // what was found until then still counts
	var walk func(v ledongthuc.Value, prefix, inherited string, depth int)
	walk = func(v ledongthuc.Value, prefix, inherited string, depth int) {
		if depth == 0 || len(fields) > fieldsMost {
			return
		}
		name := prefix
		if t := v.Key("T"); t.Kind() == ledongthuc.String {
			name = strings.TrimPrefix(prefix+"."+t.Text(), ".")
		}
		value := inherited
		switch w := v.Key("V"); w.Kind() {
		case ledongthuc.String:
			value = w.Text()
		case ledongthuc.Name:
			value = w.Name()
		}
		kids := v.Key("Kids")
		for i := range kids.Len() {
			walk(kids.Index(i), name, value, depth-1)
		}
		if kids.Len() == 0 || value != "" {
			fields[name] = strings.TrimSpace(value)
		}
	}
	list := reader.Trailer().Key("Root").Key("AcroForm").Key("Fields")
	for i := range list.Len() {
		walk(list.Index(i), "", "", fieldDepth)
	}
	return fields
}

// lineSlack is how far in points the two readers may place a line apart.
const lineSlack = 2.5

// confirms reports whether the second reader finds a cell's text at the height
// of its line, and there as many of each figure as the first.
func (s second) confirms(p *page, c cell) bool {
	if s.err != nil || p.number > len(s.pages) || s.pages[p.number-1].err != nil {
		return false
	}
	level := func(y float64) bool { return y >= c.high-lineSlack && y <= c.low+lineSlack }
	var theirs, ours strings.Builder
	for _, ch := range s.pages[p.number-1].chars {
		if x, y := p.view.point(ch.x, ch.y); level(y) && p.fieldAt(box{x, y - 1, x, y - 1}) == nil {
			theirs.WriteString(ch.text)
		}
	}
	for _, g := range p.glyphs {
		if level(g.baseline()) {
			ours.WriteRune(g.char)
		}
	}
	text, stray := squeeze(theirs.String()), s.pages[p.number-1].stray
	return contains(text, squeeze(c.text), stray) && sameFigures(text, squeeze(ours.String()), stray)
}

// contains reports that part stands in text, with nothing in between but
// characters that may be strays.
func contains(text, part, stray string) bool {
	if stray == "" {
		return strings.Contains(text, part)
	}
	all, want := []rune(text), []rune(part)
	for start := range all {
		n := 0
		for _, r := range all[start:] {
			if n < len(want) && r == want[n] {
				n++
			} else if n == len(want) || !strings.ContainsRune(stray, r) {
				break
			}
		}
		if n == len(want) {
			return true
		}
	}
	return len(want) == 0
}

func sameFigures(theirs, ours, stray string) bool {
	a, b := figures(theirs), figures(ours)
	for i := range a {
		if a[i] != b[i] && (a[i] < b[i] || !strings.ContainsRune(stray, rune('0'+i))) {
			return false
		}
	}
	return true
}

// squeeze takes out blanks and ornaments, and writes alike what the two readers
// may spell differently.
func squeeze(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '•' || unicode.In(r, unicode.So, unicode.Co) {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer("\u00a0", "", "ﬁ", "fi", "ﬂ", "fl", "’", "'", "‘", "'", "”", `"`, "“", `"`, "−", "-", "–", "-").Replace(s)
}

// figures counts each figure of a text.
func figures(s string) (count [10]int) {
	for _, r := range s {
		if r >= '0' && r <= '9' {
			count[r-'0']++
		}
	}
	return count
}
