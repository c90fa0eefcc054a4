package sheet

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
)

// look is how a cell is set off from others: the words of its colours, "filled",
// "bold", "italic", "underlined"; a line may say what they mean.
type look map[string]bool

func (l look) String() string {
	var words []string
	for _, w := range []string{"filled", "red", "orange", "yellow", "green", "blue", "purple", "pink", "grey", "bold", "italic", "underlined"} {
		if l[w] {
			words = append(words, w)
		}
	}
	return strings.Join(words, " ")
}

// add adds the words of a look.
func (l look) add(words string) {
	for _, w := range strings.Fields(words) {
		l[w] = true
	}
}

// fill adds the colour that lies behind a cell.
func (l look) fill(colour string) {
	if name := colourName(colour); name != "" {
		l.add("filled " + name)
	}
}

// text adds what the properties of a text say (OpenDocument 1.3, part 3, 16.29.28).
func (l look) text(e xml.StartElement) {
	l.add(colourName(attr(e, "color")))
	for _, a := range e.Attr {
		switch {
		case a.Name.Local == "font-weight" && a.Value == "bold":
			l.add("bold")
		case a.Name.Local == "font-style" && a.Value == "italic":
			l.add("italic")
		case a.Name.Local == "text-underline-style" && a.Value != "none":
			l.add("underlined")
		}
	}
}

// seeLook takes what a property of a run says, or the shade of a cell (ECMA-376
// part 1, 17.3.2 and 17.4.32).
func (d *docxReader) seeLook(name string, e xml.StartElement) {
	val := attr(e, "val")
	switch l := d.runLook; {
	case name == "shd" && !d.inRun:
		if t := d.top(); t != nil && t.cell != nil {
			d.look.fill(attr(e, "fill"))
		}
	case !d.inRun:
	case name == "shd":
		l.fill(attr(e, "fill"))
	case name == "highlight":
		l.fill(val)
	case name == "color":
		l.add(colourName(val))
	case off[val] || val == "none":
	default:
		l.add(map[string]string{"b": "bold", "i": "italic", "u": "underlined"}[name])
	}
}

// The bounds of hues in degrees, and of greys, white and black: what people call
// the colours of a palette (common practice, no source).
const (
	leastColour = 0.12 // saturation below which a colour is a grey
	palest      = 0.93 // value from which a grey is white
	darkest     = 0.25 // and below which it is black
)

var hues = []struct {
	to   float64
	name string
}{{15, "red"}, {40, "orange"}, {50, "orange yellow"}, {68, "yellow"}, {165, "green"}, {255, "blue"}, {290, "purple"}, {335, "pink"}, {360, "red"}}

// colourName is what people call a colour of six or eight hexadecimal digits, in
// two words where they differ; "" for black and white, and for no colour.
func colourName(hex string) string {
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 8 {
		hex = hex[2:] // transparency
	}
	n, err := strconv.ParseUint(hex, 16, 32)
	if err != nil || len(hex) != 6 {
		return highlights[hex]
	}
	r, g, b := float64(n>>16)/255, float64(n>>8&255)/255, float64(n&255)/255
	most, least := max(r, g, b), min(r, g, b)
	switch {
	case most < darkest:
		return ""
	case (most-least)/most < leastColour && most >= palest:
		return ""
	case (most-least)/most < leastColour:
		return "grey"
	}
	hue := 0.0
	switch most {
	case r:
		hue = math.Mod((g-b)/(most-least)+6, 6)
	case g:
		hue = (b-r)/(most-least) + 2
	default:
		hue = (r-g)/(most-least) + 4
	}
	for _, h := range hues {
		if 60*hue < h.to {
			return h.name
		}
	}
	return "red"
}

// highlights are the colours of a marker in a text document (ECMA-376 part 1,
// 17.18.40).
var highlights = map[string]string{
	"yellow": "yellow", "darkYellow": "yellow", "green": "green", "darkGreen": "green", "red": "red", "darkRed": "red", "blue": "blue",
	"darkBlue": "blue", "cyan": "blue", "darkCyan": "blue", "magenta": "pink", "darkMagenta": "purple", "lightGray": "grey", "darkGray": "grey",
}
