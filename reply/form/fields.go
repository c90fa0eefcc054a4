package form

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"fairtape/parse/form"
)

// Flags of fields and of their places on a page (ISO 32000-1, tables 165, 221
// and 228).
const (
	flagPrint     = 1 << 2
	flagReadOnly  = 1 << 0
	flagMultiline = 1 << 12
)

// Appearance of what is typed.
const (
	typed      = "/Helv 14 Tf 0 g"
	typedSmall = "/Helv 11 Tf 0 g"
)

// fielded adds fields to type into over the boxes of a layout. The outlines are
// drawn already, so the fields themselves are bare.
func fielded(drawn []byte, l form.Layout, tip func(form.Field) string) ([]byte, error) {
	ctx, err := api.ReadContext(bytes.NewReader(drawn), configuration())
	if err != nil {
		return nil, err
	}
	if err := ctx.EnsurePageCount(); err != nil {
		return nil, err
	}
	b := fieldBuilder{ctx: ctx, height: l.Height, groups: map[string]group{}, pages: map[int]*types.Array{}}
	if err := b.build(l, tip); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := api.WriteContext(ctx, &out); err != nil {
		return nil, err
	}
	return undated(inOrder(out.Bytes(), ctx.Write.Table)), nil
}

// configuration is how files are written: no file or folder of the library's
// own is read or made, and what is written can be read by eye.
func configuration() *model.Configuration {
	api.DisableConfigDir()
	conf := model.NewDefaultConfiguration()
	conf.WriteObjectStream, conf.WriteXRefStream = false, false
	return conf
}

// fieldBuilder makes the tree of fields. A name with points is a path: a field
// stations[3] with a field hull_girth in it, and whole and half in that one
// (ISO 32000-1, 12.7.3.2).
type fieldBuilder struct {
	ctx    *model.Context
	height float64
	font   *types.IndirectRef
	tick   types.Dict // appearances of a check box
	roots  types.Array
	groups map[string]group
	pages  map[int]*types.Array // fields of each page, in the order of a walk
}

type group struct {
	dict types.Dict
	ref  types.IndirectRef
}

func (b *fieldBuilder) build(l form.Layout, tip func(form.Field) string) error {
	if err := b.appearances(); err != nil {
		return err
	}
	for _, f := range l.Fields {
		if err := b.field(f, tip(f)); err != nil {
			return fmt.Errorf("field %s: %w", f.Name, err)
		}
	}
	if err := b.unit(l); err != nil {
		return fmt.Errorf("field unit: %w", err)
	}
	for n, annotations := range b.pages {
		page, _, _, err := b.ctx.PageDict(n, false)
		if err != nil {
			return err
		}
		page["Annots"] = *annotations
	}
	catalog, err := b.ctx.Catalog()
	if err != nil {
		return err
	}
	catalog["AcroForm"] = types.Dict{
		"Fields": b.roots,
		"DA":     types.StringLiteral(typed),
		"DR":     types.Dict{"Font": types.Dict{"Helv": *b.font}},
	}
	catalog["ViewerPreferences"] = types.Dict{"DisplayDocTitle": types.Boolean(true)}
	return nil
}

// appearances makes the font of what is typed, which every viewer has, and the
// cross of a ticked box.
func (b *fieldBuilder) appearances() error {
	var err error
	b.font, err = b.ctx.IndRefForNewObject(types.Dict{
		"Type": types.Name("Font"), "Subtype": types.Name("Type1"),
		"BaseFont": types.Name("Helvetica"), "Encoding": types.Name("WinAnsiEncoding"),
	})
	if err != nil {
		return err
	}
	const side = form.TickSide / millimetresPerPoint
	on, err := b.drawing(fmt.Sprintf("q 1.4 w 1 J 3 3 m %.2f %.2f l 3 %.2f m %.2f 3 l S Q", side-3, side-3, side-3, side-3), side)
	if err != nil {
		return err
	}
	off, err := b.drawing("q Q", side)
	if err != nil {
		return err
	}
	b.tick = types.Dict{"N": types.Dict{"Yes": *on, "Off": *off}}
	return nil
}

func (b *fieldBuilder) drawing(content string, side float64) (*types.IndirectRef, error) {
	stream, err := b.ctx.NewStreamDictForBuf([]byte(content))
	if err != nil {
		return nil, err
	}
	stream.InsertName("Type", "XObject")
	stream.InsertName("Subtype", "Form")
	stream.Insert("BBox", types.NewNumberArray(0, 0, side, side))
	stream.Insert("Resources", types.Dict{})
	if err := stream.Encode(); err != nil {
		return nil, err
	}
	return b.ctx.IndRefForNewObject(*stream)
}

// field adds one field of the layout.
func (b *fieldBuilder) field(f form.Field, tip string) error {
	d := types.Dict{}
	switch f.Kind {
	case form.Tick:
		d["FT"], d["V"], d["AS"] = types.Name("Btn"), types.Name("Off"), types.Name("Off")
		d["AP"] = b.tick
	case form.Digits:
		d["FT"], d["DA"], d["Q"] = types.Name("Tx"), types.StringLiteral(typed), types.Integer(2)
	case form.Text:
		d["FT"], d["DA"] = types.Name("Tx"), types.StringLiteral(typedSmall)
		d["Ff"] = types.Integer(flagMultiline)
	}
	return b.add(fieldName(f), d, f.Page, f.Bounds(), tip)
}

// fieldName is the name of a field in the file. A whole number says so, because
// a file cannot have a field and another one in it.
func fieldName(f form.Field) string {
	if f.Part == form.Whole {
		return f.Name + "." + string(form.Whole)
	}
	return f.Name
}

// unit adds a field that tells programs what the numbers are counted in. It is
// not shown.
func (b *fieldBuilder) unit(l form.Layout) error {
	const flagHidden = 1 << 1
	d := types.Dict{
		"FT": types.Name("Tx"), "DA": types.StringLiteral(typedSmall),
		"V": types.StringLiteral(l.Unit), "Ff": types.Integer(flagReadOnly), "F": types.Integer(flagHidden),
	}
	return b.add("unit", d, 1, form.Rect{X1: 1, Y1: 1}, "")
}

// add puts a field into the tree and on its page.
func (b *fieldBuilder) add(name string, d types.Dict, page int, at form.Rect, tip string) error {
	pageRef, err := b.ctx.PageDictIndRef(page)
	if err != nil {
		return err
	}
	d["Type"], d["Subtype"], d["P"] = types.Name("Annot"), types.Name("Widget"), *pageRef
	d["Rect"] = types.NewNumberArray(points(at.X0), points(b.height-at.Y1), points(at.X1), points(b.height-at.Y0))
	if _, ok := d["F"]; !ok {
		d["F"] = types.Integer(flagPrint)
	}
	path, last := "", name
	if i := strings.LastIndex(name, "."); i >= 0 {
		path, last = name[:i], name[i+1:]
	}
	if d["T"], err = text(last); err != nil {
		return err
	}
	if tip != "" {
		if d["TU"], err = text(tip); err != nil {
			return err
		}
	}
	ref, err := b.ctx.IndRefForNewObject(d)
	if err != nil {
		return err
	}
	if err := b.join(path, d, *ref); err != nil {
		return err
	}
	if b.pages[page] == nil {
		b.pages[page] = &types.Array{}
	}
	*b.pages[page] = append(*b.pages[page], *ref)
	return nil
}

// join hangs a field or a group under the group of the path, "" for none.
func (b *fieldBuilder) join(path string, d types.Dict, ref types.IndirectRef) error {
	if path == "" {
		b.roots = append(b.roots, ref)
		return nil
	}
	g, ok := b.groups[path]
	if !ok {
		parent, last := "", path
		if i := strings.LastIndex(path, "."); i >= 0 {
			parent, last = path[:i], path[i+1:]
		}
		name, err := text(last)
		if err != nil {
			return err
		}
		g.dict = types.Dict{"T": name, "Kids": types.Array{}}
		r, err := b.ctx.IndRefForNewObject(g.dict)
		if err != nil {
			return err
		}
		g.ref = *r
		b.groups[path] = g
		if err := b.join(parent, g.dict, g.ref); err != nil {
			return err
		}
	}
	d["Parent"] = g.ref
	g.dict["Kids"] = append(g.dict["Kids"].(types.Array), ref)
	return nil
}

func text(s string) (types.StringLiteral, error) {
	escaped, err := types.EscapedUTF16String(s)
	if err != nil {
		return "", err
	}
	return types.StringLiteral(*escaped), nil
}

// points turns millimetres into points, to a hundredth.
func points(millimetres float64) float64 {
	return math.Round(millimetres/millimetresPerPoint*100) / 100
}
