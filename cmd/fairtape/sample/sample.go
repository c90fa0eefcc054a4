// Package sample holds the mails of one invented week at an invented shop, for
// the demo. The boats are simulated, the people and addresses made up.
//
// The mails are made by the package's test: go test ./cmd/fairtape/sample -update
package sample

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
)

//go:embed mails/*.eml
var mails embed.FS

// Mail is one mail as it arrived.
type Mail struct {
	Name string // "01-clean-spreadsheet"
	Raw  []byte
}

// Mails returns the mails of the week in the order of their arrival.
func Mails() ([]Mail, error) {
	names, err := fs.Glob(mails, "mails/*.eml")
	if err != nil {
		return nil, err
	}
	var all []Mail
	for _, name := range names {
		raw, err := mails.ReadFile(name)
		if err != nil {
			return nil, fmt.Errorf("sample mail: %w", err)
		}
		base := path.Base(name)
		all = append(all, Mail{Name: base[:len(base)-len(path.Ext(base))], Raw: raw})
	}
	return all, nil
}
