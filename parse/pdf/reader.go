// Package pdf reads filled forms and typed tables out of PDF files, with two
// readers that must agree, and turns pages into pictures.
//
// It is meant to run inside a process that may be killed: a hostile file can
// make either reader panic, and one of them loop for ever.
package pdf

import (
	"context"
	"image"

	"fairtape/parse"
)

// Reader opens PDF files. The zero Reader works, slowly: without a cache it
// compiles its WebAssembly module, for some two seconds, at every start.
type Reader struct {
	// Cache is a folder for compiled WebAssembly, "" for none. It is the only
	// path that is written to.
	Cache string
}

// Read says what the file holds. What cannot be read is a problem in the
// document; an error is our own failure.
func (r *Reader) Read(ctx context.Context, file string, data []byte) (parse.Document, error) {
	return r.read(ctx, file, data)
}

// Pages draws up to limit pages at the given resolution, in dots per inch.
func (r *Reader) Pages(ctx context.Context, data []byte, dpi, limit int) ([]image.Image, error) {
	return r.pages(ctx, data, dpi, limit)
}
