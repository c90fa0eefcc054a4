//go:build !nodynamic

package photo

import "image"

// openHEIC refuses: a build without the tag nodynamic would load a library of
// the host to decode with.
func openHEIC([]byte) (image.Image, error) {
	return nil, &Fault{CodeKind, "HEIC pictures are not read here. Please send the photo as a JPEG."}
}
