package photo

import (
	"errors"

	"fairtape/parse"
	"fairtape/parse/form"
)

// Problems of photos that cannot do. Each message says what would.
const (
	CodeNoPage  parse.Code = "picture-not-read" // no page of ours: a person has to read it
	CodeVersion parse.Code = "form-version"     // a form of another version
	CodeNoCode  parse.Code = "photo-code"       // the square code cannot be read
)

// find looks for a page of ours.
func find(p *Picture) (*view, error) {
	sighted := false
	for _, share := range darker {
		for _, s := range sightings(findBlobs(p.light, share)) {
			for _, paper := range []form.Paper{form.Letter, form.A4} {
				v, err := newView(p.light, s, paper)
				if err != nil {
					continue
				}
				sighted = true
				switch err = v.readCode(s.page); {
				case err == nil:
					return v, nil
				case errors.Is(err, form.ErrVersion):
					return nil, &Fault{CodeVersion, "The form is of another version than is read here. A person has to read it."}
				}
			}
		}
	}
	if sighted {
		return nil, &Fault{CodeNoCode, "The square code on the form cannot be read."}
	}
	return nil, &Fault{CodeNoPage, "The numbers are in a picture. A person has to read it."}
}
