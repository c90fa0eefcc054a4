package prose

import (
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// row prints a row of a table as one line of cells. Tables that only lay out a
// page, with further blocks in their cells, are printed as what they hold.
func (p *printer) row(n *html.Node, depth int) {
	var cells []string
	own := 0
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.DataAtom != atom.Td && c.DataAtom != atom.Th || unseen(c) {
			continue
		}
		if layout(c, 0) {
			for d := n.FirstChild; d != nil; d = d.NextSibling {
				p.flush()
				p.walk(d, depth+1)
			}
			return
		}
		cells = append(p.covered(cells), cellText(c, depth))
		cells = p.span(c, cells)
		own++
	}
	cells = p.covered(cells)
	p.flush()
	if own < 2 && (len(cells) < 2 || cells[0] != "") {
		p.text.WriteString(strings.Join(cells, " "))
		p.flush()
		return
	}
	p.cells(cells)
}

// covered adds the empty cells where cells of the rows above reach down.
func (p *printer) covered(cells []string) []string {
	for p.below[len(cells)] > 0 {
		p.below[len(cells)]--
		cells = append(cells, "")
	}
	return cells
}

// spanMost is how many columns or rows a cell spans at most.
const spanMost = 50

// span adds the empty cells behind the last one, which spans several columns,
// and notes how far down it reaches.
func (p *printer) span(cell *html.Node, cells []string) []string {
	across, down := spanOf(cell, "colspan"), spanOf(cell, "rowspan")
	first := len(cells) - 1
	for range across - 1 {
		cells = append(cells, "")
	}
	if down > 1 {
		if p.below == nil {
			p.below = map[int]int{}
		}
		for c := range across {
			p.below[first+c] = down - 1
		}
	}
	return cells
}

func spanOf(cell *html.Node, name string) int {
	n, err := strconv.Atoi(attribute(cell, name))
	if err != nil {
		return 1
	}
	return min(max(n, 1), spanMost)
}

// cellText is what a cell shows, on one line.
func cellText(cell *html.Node, depth int) string {
	inner := printer{}
	inner.children(cell, depth)
	inner.flush()
	var words []string
	for _, l := range inner.lines {
		if !l.blank() {
			words = append(words, l.text)
		}
	}
	return strings.Join(words, " ")
}

// cells prints a line of cells.
func (p *printer) cells(cells []string) {
	p.lines = append(p.lines, lineOf(line{number: len(p.lines) + 1, quote: p.quote > 0, depth: p.depth}, cells))
}

// lineOf returns a line with other cells.
func lineOf(l line, cells []string) line {
	l.text, l.cells = strings.Join(cells, "\t"), cells
	return l
}

// spanCells is what a block shows whose layout makes cells of its parts: several
// of one class, with nothing between them; nil for any other.
func spanCells(n *html.Node, depth int) (cells []string) {
	if n.Type != html.ElementNode || !blockElement(n.DataAtom) {
		return nil
	}
	class := ""
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.TextNode && strings.TrimSpace(c.Data) == "" {
			continue
		}
		if c.DataAtom != atom.Span || attribute(c, "class") == "" || class != "" && attribute(c, "class") != class || unseen(c) {
			return nil
		}
		class = attribute(c, "class")
		cells = append(cells, cellText(c, depth))
	}
	if len(cells) < 2 {
		return nil
	}
	return cells
}

// pair prints a term of a list and the one thing that follows it as a line of
// cells; a part of such a list that has no other, or several, as what it holds.
func (p *printer) pair(n *html.Node, depth int) {
	term, says := n, n
	if n.DataAtom == atom.Dt {
		says = elementBeside(n, true)
	} else {
		term = elementBeside(n, false)
	}
	switch {
	case !isAtom(term, atom.Dt) || !isAtom(says, atom.Dd) || isAtom(elementBeside(says, true), atom.Dd) || layout(term, 0) || layout(says, 0):
		p.children(n, depth)
	case n == term:
		p.flush()
		p.cells([]string{cellText(term, depth), cellText(says, depth)})
	}
}

func isAtom(n *html.Node, a atom.Atom) bool { return n != nil && n.DataAtom == a }

// elementBeside returns the next element after a node, or before it; nil when
// there is none.
func elementBeside(n *html.Node, after bool) *html.Node {
	for {
		if after {
			n = n.NextSibling
		} else {
			n = n.PrevSibling
		}
		if n == nil || n.Type == html.ElementNode {
			return n
		}
	}
}
