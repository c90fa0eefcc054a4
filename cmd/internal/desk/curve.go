package desk

import (
	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/picture"
	"fairtape/validate"
)

// curve draws the girths of a survey for the shop; nil when there is nothing to
// draw. A job is shown without its picture rather than not at all.
func (d *Desk) curve(v ledger.Version) *reply.Picture {
	if d.Draw.ForShop == nil || v.Version == 0 || v.Verdict == validate.Unreadable {
		return nil
	}
	p, err := d.Draw.ForShop(validate.Check(v.Survey, v.Problems, d.rules.Load().costs))
	if err != nil {
		d.Log.Warn("the curve could not be drawn", "error", err)
		return nil
	}
	return &reply.Picture{Name: "curve.png", Alt: p.Alt, PNG: p.PNG}
}

// doubtful draws the numbers of a survey that a person has to read, beside what
// the photos show of them; nil when no photo shows any.
func (d *Desk) doubtful(v ledger.Version) *reply.Picture {
	var list []picture.Doubt
	for _, cell := range Cells(v.Survey) {
		r := *readingAt(&v.Survey, cell)
		crop := shownAt(v.Problems, r.Source)
		if !r.Doubtful() || crop == nil {
			continue
		}
		doubt := picture.Doubt{Label: numberName(cell, v.Survey.Unit), Crop: *crop}
		if r.Known {
			doubt.Read = written(r.Value, v.Survey.Unit)
		}
		for _, c := range r.Alternatives {
			doubt.Or = append(doubt.Or, written(c.Value, v.Survey.Unit))
		}
		list = append(list, doubt)
	}
	if len(list) == 0 {
		return nil
	}
	p, err := picture.OfDoubts(list)
	if err != nil {
		d.Log.Warn("the numbers in doubt could not be drawn", "error", err)
		return nil
	}
	return &reply.Picture{Name: "doubts.png", Alt: p.Alt, PNG: p.PNG}
}

// shownAt is the widest picture of a place.
func shownAt(problems []parse.Problem, at parse.Source) *parse.Crop {
	var crop *parse.Crop
	for _, p := range problems {
		if p.Shown != nil && p.Source.File == at.File && p.Source.Place == at.Place && (crop == nil || len(p.Shown.Grey) > len(crop.Grey)) {
			crop = p.Shown
		}
	}
	return crop
}
