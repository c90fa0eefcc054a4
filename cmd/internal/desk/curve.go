package desk

import (
	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
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
