package photo

import (
	"bytes"
	"encoding/binary"
	"slices"
	"strings"
)

// heicPixelsMost is the largest HEIC picture: its decoder takes some 20 bytes a
// pixel, and a child has some 500 MB.
const heicPixelsMost = 25_000_000

// decodeHEIC opens a HEIC picture. The decoder turns it upright by the file's
// own boxes; notes of the camera must not turn it again.
func decodeHEIC(data []byte) (*Picture, error) {
	width, height := heicSize(data)
	switch {
	case width == 0 || height == 0:
		return nil, broken()
	case width*height > heicPixelsMost:
		return nil, &Fault{CodeTooLarge, "The HEIC picture is larger than is read. Please send it as a JPEG."}
	}
	picture, err := openHEIC(heicBrand(data))
	if err != nil {
		return nil, err
	}
	return newPicture(picture, upright), nil
}

// heicSize is the largest size that the file's boxes of type ispe claim, in
// pixels (ISO/IEC 23008-12, 6.5.3); 0 where there is none.
func heicSize(data []byte) (width, height int64) {
	head := data[:min(len(data), 1<<20)]
	for {
		at := bytes.Index(head, []byte("ispe"))
		if at < 0 || at+16 > len(head) {
			return width, height
		}
		w, h := int64(binary.BigEndian.Uint32(head[at+8:])), int64(binary.BigEndian.Uint32(head[at+12:]))
		if w*h > width*height {
			width, height = w, h
		}
		head = head[at+4:]
	}
}

// heicBrand names a file by the brand heic where that is only one of its
// compatible ones: the decoder looks at the first alone.
func heicBrand(data []byte) []byte {
	size := int(binary.BigEndian.Uint32(data))
	if size < 16 || size > len(data) {
		return data
	}
	compatible := string(data[16:size])
	if string(data[8:12]) != "heic" && strings.Contains(compatible, "heic") {
		data = slices.Clone(data)
		copy(data[8:], "heic")
	}
	return data
}
