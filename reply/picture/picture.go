// Package picture draws what a survey looks like: girths along the boat for the
// shop, the boat from the side for the customer, and a chat post for people who
// cannot see the chat. Every function is safe to call from several goroutines
// and gives the same bytes for the same input.
package picture

import (
	"bytes"
	"fmt"
)

// Picture is a PNG on an opaque white ground with the words that stand for it.
type Picture struct {
	PNG []byte
	Alt string // plain text, one paragraph
}

// finish encodes a canvas.
func finish(c *canvas, alt string) (Picture, error) {
	var b bytes.Buffer
	if err := c.EncodePNG(&b); err != nil {
		return Picture{}, fmt.Errorf("picture: %w", err)
	}
	return Picture{b.Bytes(), alt}, nil
}
