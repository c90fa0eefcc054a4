package opener

import (
	"context"
	"fmt"
	"slices"

	"fairtape/ingest"
	"fairtape/ingest/eml"
	"fairtape/parse"
	"fairtape/parse/prose"
)

// File is what one file says; a file may be a whole mail.
type File struct {
	Documents []parse.Document
	Message   *ingest.Message // nil when the file is no mail
	Body      prose.Mail      // of a mail
}

// File opens one file, a saved mail with all it brought among them. An error
// is our own failure, as with [Opener.Open].
func (o *Opener) File(ctx context.Context, name string, data []byte) (File, error) {
	doc, err := o.Open(ctx, name, data)
	if err != nil {
		return File{}, fmt.Errorf("open %s: %w", name, err)
	}
	whole := File{Documents: []parse.Document{doc}}
	if !slices.ContainsFunc(doc.Problems, func(p parse.Problem) bool { return p.Code == CodeMailInside }) {
		return whole, nil
	}
	msg, err := eml.Parse(data)
	if err != nil {
		return whole, nil // over the size limit, as the document's problem says
	}
	content, err := o.Read(ctx, msg, name)
	if err != nil {
		return File{}, fmt.Errorf("open %s: %w", name, err)
	}
	return File{Documents: content.Documents(), Message: &msg, Body: content.Body}, nil
}
