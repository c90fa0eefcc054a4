package form

import (
	"encoding/json"
	"math"
	"strconv"

	"fairtape/parse"
)

type layoutJSON struct {
	Paper   Paper       `json:"paper"`
	Unit    parse.Unit  `json:"unit"`
	Version string      `json:"version"`
	Width   float64     `json:"width"`
	Height  float64     `json:"height"`
	Fields  []fieldJSON `json:"fields"`
	Pages   []pageJSON  `json:"pages"`
}

type fieldJSON struct {
	Page  int        `json:"page"`
	Name  string     `json:"name"`
	Kind  Kind       `json:"kind"`
	Boxes []rectJSON `json:"boxes"`
}

type pageJSON struct {
	Code     rectJSON   `json:"code"`
	CodeText string     `json:"code_text"`
	Marks    []markJSON `json:"marks"`
}

type markJSON struct {
	Box   rectJSON `json:"box"`
	Solid bool     `json:"solid"`
}

type rectJSON [4]float64

// MarshalJSON writes the layout as the contract for scripts has it: rectangles
// are [x0, y0, x1, y1] in millimetres, to a hundredth.
func (l Layout) MarshalJSON() ([]byte, error) {
	out := layoutJSON{
		Paper: l.Paper, Unit: l.Unit, Version: strconv.Itoa(Version),
		Width: l.Width, Height: l.Height, Fields: []fieldJSON{},
	}
	for _, f := range l.Fields {
		boxes := make([]rectJSON, len(f.Boxes))
		for i, b := range f.Boxes {
			boxes[i] = toJSON(b)
		}
		out.Fields = append(out.Fields, fieldJSON{f.Page, f.Name, f.Kind, boxes})
	}
	for _, p := range l.Pages {
		page := pageJSON{Code: toJSON(p.Code), CodeText: p.CodeText}
		for _, m := range p.Marks {
			page.Marks = append(page.Marks, markJSON{toJSON(m.Box), m.Solid})
		}
		out.Pages = append(out.Pages, page)
	}
	return json.Marshal(out)
}

func toJSON(r Rect) rectJSON {
	hundredths := func(x float64) float64 { return math.Round(x*100) / 100 }
	return rectJSON{hundredths(r.X0), hundredths(r.Y0), hundredths(r.X1), hundredths(r.Y1)}
}
