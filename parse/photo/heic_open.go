//go:build nodynamic

package photo

import (
	"bytes"
	"image"

	"github.com/gen2brain/heic"
)

// openHEIC decodes inside WebAssembly.
func openHEIC(data []byte) (image.Image, error) {
	picture, err := heic.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken()
	}
	return picture, nil
}
