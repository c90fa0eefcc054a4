package photo

import (
	"errors"

	"fairtape/parse/form"
)

// find looks for a page of ours. Its error is a *Fault.
func find(p *Picture) (*view, error) {
	if lightest(p.light) < darkest {
		return nil, refuse(CodeDark)
	}
	var sighted *view
	var patches []blob
	for _, share := range darker {
		blobs := findBlobs(p.light, share)
		if len(blobs) > len(patches) {
			patches = blobs
		}
		for _, s := range sightings(blobs) {
			for _, paper := range []form.Paper{form.Letter, form.A4} {
				v, err := newView(p.light, s, paper)
				if err != nil || !v.marksSeen() {
					continue
				}
				code, err := v.readCode(s.page)
				if err == nil && code.Paper != paper { // it is found on the other paper, too
					v, err = newView(p.light, s, code.Paper)
				}
				if err == nil {
					v.code = code
					v.layout, err = code.Layout()
				}
				switch {
				case err == nil && v.scale < leastScale:
					return nil, refuse(CodeSmall)
				case err == nil:
					return v, nil
				case errors.Is(err, form.ErrVersion):
					return nil, refuse(CodeVersion)
				}
				if sighted == nil {
					sighted = v
				}
			}
		}
		if sighted != nil {
			break // other light does not make its code sharper
		}
	}
	if sighted != nil {
		return nil, sighted.whyUnread()
	}
	return nil, whyUnseen(p.light, patches)
}
