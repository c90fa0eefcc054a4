package prose

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// htmlDepth is how deep elements may lie in each other; the parser allows any.
const htmlDepth = 400

func hasTable(body string) bool { return strings.Contains(strings.ToLower(body), "<td") }

// htmlLines shows a body as lines of text, rows of tables as cells. What a mail
// program would not show is left out; nothing is fetched.
func htmlLines(body string) []line {
	root, err := html.Parse(strings.NewReader(body))
	if err != nil {
		return textLines(body)
	}
	p := printer{}
	p.walk(root, 0)
	p.flush()
	return p.lines
}

type printer struct {
	lines []line
	text  strings.Builder
	quote int // depth of earlier mails, by any sign of one
	depth int // of blockquotes
	ended bool
	// below is how many rows more the cells above reach down, by the columns of
	// the table.
	below map[int]int
}

var (
	hiddenStyle = regexp.MustCompile(`(?i)display\s*:\s*none|visibility\s*:\s*hidden|mso-hide\s*:\s*all|opacity\s*:\s*0(?:\.0+)?\s*(?:;|$)|font-size\s*:\s*[01](?:px|pt|em|%)?\s*(?:;|$|!)|(?:^|;|\s)color\s*:\s*(?:#fff(?:fff)?\b|white\b|transparent|rgb\(\s*255\s*,\s*255\s*,\s*255\s*\))|max-height\s*:\s*0|text-indent\s*:\s*-\d{3,}|left\s*:\s*-\d{3,}`)
	background  = regexp.MustCompile(`(?i)background(?:-color)?\s*:`)
	quoteClass  = regexp.MustCompile(`(?i)\b(?:gmail_quote|gmail_extra|yahoo_quoted|protonmail_quote|moz-cite-prefix|moz-signature|gmail_signature|gmail_attr|OutlookMessageHeader|quotedReply)\b`)
	endsHere    = regexp.MustCompile(`(?i)^(?:divRplyFwdMsg|appendonsend|x_divRplyFwdMsg|reply-intro|mail-editor-reference-message-container)$`)
	forwarded   = regexp.MustCompile(`(?i)forwarded message|begin forwarded|message transf|message r[ée]exp`)
)

func (p *printer) walk(n *html.Node, depth int) {
	if depth > htmlDepth || len(p.lines) > linesMost || p.ended {
		return
	}
	switch n.Type {
	case html.TextNode:
		p.text.WriteString(strings.Join(splitKeep(n.Data), " "))
		return
	case html.ElementNode:
		if unseen(n) {
			return
		}
		if endsHere.MatchString(attribute(n, "id")) {
			p.flush()
			p.quote++ // to the end of the body
		}
	}
	block := blockElement(n.DataAtom)
	quoted := isQuote(n)
	if block || quoted {
		p.flush()
	}
	if quoted {
		p.quote++
	}
	if n.DataAtom == atom.Blockquote {
		p.depth++
	}
	switch n.DataAtom {
	case atom.Li:
		p.text.WriteString(listNumber(n))
		p.children(n, depth)
	case atom.Table:
		p.below = nil
		first := len(p.lines)
		p.children(n, depth)
		p.flush()
		p.lines = append(p.lines[:first], unframed(p.lines[first:])...)
	case atom.Dt, atom.Dd:
		p.pair(n, depth)
	case atom.Tr:
		p.row(n, depth)
	case atom.Input:
		p.text.WriteString(entered(n))
	case atom.Option:
		if _, ok := has(n, "selected"); ok {
			p.text.WriteString(" " + firstText(n, lineBytes, 0) + " ")
		}
	case atom.Pre:
		for _, l := range textLines(strings.Trim(preText(n, depth), "\n")) {
			p.lines = append(p.lines, line{number: len(p.lines) + 1, text: l.text, quote: p.quote > 0, depth: p.depth})
		}
	default:
		if cells := spanCells(n, depth); cells != nil {
			p.cells(cells)
			break
		}
		p.children(n, depth)
	}
	if block || quoted {
		p.flush()
	}
	if quoted {
		p.quote--
	}
	if n.DataAtom == atom.Blockquote {
		p.depth--
	}
	if n.DataAtom == atom.P || n.DataAtom == atom.Table {
		p.lines = append(p.lines, line{number: len(p.lines) + 1, quote: p.quote > 0, depth: p.depth})
	}
}

func (p *printer) children(n *html.Node, depth int) {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.walk(c, depth+1)
	}
}

// listNumber is what a browser shows before an item of a list that is counted
// in figures; "" for any other.
func listNumber(n *html.Node) string {
	list := n.Parent
	if list == nil || list.DataAtom != atom.Ol || strings.Contains(attribute(list, "style")+attribute(n, "style"), "list-style") {
		return ""
	}
	if _, backwards := has(list, "reversed"); backwards || attribute(list, "type") != "" && attribute(list, "type") != "1" {
		return ""
	}
	number := 1
	if start, err := strconv.Atoi(attribute(list, "start")); err == nil {
		number = start
	}
	for before := n.PrevSibling; before != nil; before = before.PrevSibling {
		if before.DataAtom == atom.Li {
			if _, own := has(before, "value"); own {
				return ""
			}
			number++
		}
	}
	if _, own := has(n, "value"); own {
		return ""
	}
	return fmt.Sprintf("%d. ", number)
}

// preText is text that keeps its blanks and line breaks.
func preText(n *html.Node, depth int) string {
	switch {
	case n.Type == html.TextNode:
		return n.Data
	case depth > htmlDepth || n.Type == html.ElementNode && unseen(n):
		return ""
	case n.DataAtom == atom.Br:
		return "\n"
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		b.WriteString(preText(c, depth+1))
	}
	return b.String()
}

// splitKeep joins blanks as a browser does, but keeps one at either end.
func splitKeep(s string) []string {
	words := strings.Fields(strings.ReplaceAll(s, "\u00a0", " "))
	if len(words) == 0 {
		return []string{"", ""}
	}
	if strings.ContainsAny(s[:1], " \t\r\n") {
		words = append([]string{""}, words...)
	}
	if strings.ContainsAny(s[len(s)-1:], " \t\r\n") {
		words = append(words, "")
	}
	return words
}

func (p *printer) flush() {
	text := strings.TrimSpace(strings.Join(strings.Fields(p.text.String()), " "))
	p.text.Reset()
	if text != "" {
		p.lines = append(p.lines, line{number: len(p.lines) + 1, text: text, quote: p.quote > 0, depth: p.depth})
	}
}

// layout reports a cell that holds a table, or a page's worth of paragraphs.
func layout(n *html.Node, depth int) bool {
	if depth > htmlDepth {
		return true
	}
	blocks := 0
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.DataAtom == atom.Table || layout(c, depth+1) {
			return true
		}
		if c.DataAtom == atom.P || c.DataAtom == atom.Div || c.DataAtom == atom.Br {
			blocks++
		}
	}
	return blocks > 3
}

func blockElement(a atom.Atom) bool {
	switch a {
	case atom.P, atom.Div, atom.Br, atom.Table, atom.Tr, atom.Li, atom.Ul, atom.Ol, atom.H1, atom.H2, atom.H3, atom.H4,
		atom.H5, atom.H6, atom.Blockquote, atom.Pre, atom.Hr, atom.Body, atom.Section, atom.Article, atom.Center, atom.Dl, atom.Dt, atom.Dd:
		return true
	}
	return false
}

// unseen reports what a mail program does not show.
func unseen(n *html.Node) bool {
	switch n.DataAtom {
	case atom.Script, atom.Style, atom.Head, atom.Title, atom.Template, atom.Noscript, atom.Iframe, atom.Object, atom.Datalist, atom.Svg, atom.Del, atom.S, atom.Strike:
		return true
	}
	style := attribute(n, "style")
	if hiddenStyle.MatchString(style) && !(strings.Contains(strings.ToLower(style), "color") && background.MatchString(style)) {
		return true
	}
	if strings.EqualFold(attribute(n, "color"), "#ffffff") || strings.EqualFold(attribute(n, "color"), "white") {
		return true
	}
	for _, a := range n.Attr {
		if a.Key == "hidden" {
			return true
		}
	}
	return false
}

// isQuote reports an earlier mail. What was only forwarded is not one, nor is
// a blockquote that only indents.
func isQuote(n *html.Node) bool {
	if quoteClass.MatchString(attribute(n, "class")) {
		return !forwarded.MatchString(firstText(n, 400, 0))
	}
	if n.DataAtom != atom.Blockquote {
		return false
	}
	return attribute(n, "type") == "cite" || !strings.Contains(strings.ReplaceAll(attribute(n, "style"), " ", ""), "border:none")
}

// firstText is the first n bytes or so of what an element says.
func firstText(n *html.Node, most, depth int) string {
	if n.Type == html.TextNode {
		return n.Data
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil && b.Len() < most && depth < htmlDepth; c = c.NextSibling {
		b.WriteString(firstText(c, most-b.Len(), depth+1))
	}
	return b.String()
}

// entered is what a saved form shows in one of its fields.
func entered(n *html.Node) string {
	switch strings.ToLower(attribute(n, "type")) {
	case "hidden", "password", "submit", "button", "reset", "image", "file", "checkbox", "radio", "range", "color":
		return ""
	}
	return " " + attribute(n, "value") + " "
}

func attribute(n *html.Node, key string) string {
	value, _ := has(n, key)
	return value
}

func has(n *html.Node, key string) (value string, ok bool) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val, true
		}
	}
	return "", false
}
