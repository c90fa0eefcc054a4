package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
)

// pngHeader is what the chunks of a PNG file say of it (ISO/IEC 15948).
type pngHeader struct {
	width, height int
	depth, colour byte
	interlaced    bool
	animated      bool
}

// pngChunks reads the header, and gathers the picture's compressed data. The
// caller has seen that the header is one.
func pngChunks(data []byte) (h pngHeader, compressed io.Reader) {
	var parts []io.Reader
	for at := 8; at+12 <= len(data); {
		size := int(binary.BigEndian.Uint32(data[at:]))
		if size < 0 || size > len(data)-at-12 {
			break
		}
		body := data[at+8 : at+8+size]
		switch string(data[at+4 : at+8]) {
		case "IHDR":
			if len(body) == 13 {
				h.width, h.height = int(binary.BigEndian.Uint32(body)), int(binary.BigEndian.Uint32(body[4:]))
				h.depth, h.colour, h.interlaced = body[8], body[9], body[12] != 0
			}
		case "acTL":
			h.animated = true
		case "IDAT":
			parts = append(parts, bytes.NewReader(body))
		}
		at += 12 + size
	}
	return h, io.MultiReader(parts...)
}

// decodeDeepPNG reads a picture of 16 bits a channel row by row: as a whole it
// would take eight bytes a pixel, which the largest pictures have no room for.
func decodeDeepPNG(h pngHeader, compressed io.Reader) (*Picture, error) {
	channels := map[byte]int{0: 1, 2: 3, 4: 2, 6: 4}[h.colour]
	if channels == 0 {
		return nil, broken()
	}
	inflated, err := zlib.NewReader(compressed)
	if err != nil {
		return nil, broken()
	}
	defer inflated.Close()
	step := 2 * channels
	row, above := make([]byte, 1+step*h.width), make([]byte, 1+step*h.width)
	picture := gather(h.width, h.height, upright, func(_ int, light []byte) bool {
		if _, err := io.ReadFull(inflated, row); err != nil || !unfilter(row[0], row[1:], above[1:], step) {
			return false
		}
		deepLight(row[1:], channels, light)
		row, above = above, row
		return true
	})
	if picture == nil {
		return nil, broken()
	}
	return picture, nil
}

// deepLight takes the high byte of each channel.
func deepLight(row []byte, channels int, light []byte) {
	for x := range light {
		p := row[2*channels*x:]
		switch channels {
		case 1:
			light[x] = p[0]
		case 2:
			light[x] = overWhite(p[0], p[2])
		case 3:
			light[x] = lightOf(p[0], p[2], p[4])
		case 4:
			light[x] = overWhite(lightOf(p[0], p[2], p[4]), p[6])
		}
	}
}

// unfilter undoes a row's filter (ISO/IEC 15948, 9).
func unfilter(filter byte, row, above []byte, step int) bool {
	switch filter {
	case 0:
	case 1:
		for i := step; i < len(row); i++ {
			row[i] += row[i-step]
		}
	case 2:
		for i := range row {
			row[i] += above[i]
		}
	case 3:
		for i := range row {
			left := 0
			if i >= step {
				left = int(row[i-step])
			}
			row[i] += byte((left + int(above[i])) / 2)
		}
	case 4:
		for i := range row {
			left, corner := 0, 0
			if i >= step {
				left, corner = int(row[i-step]), int(above[i-step])
			}
			row[i] += byte(paeth(left, int(above[i]), corner))
		}
	default:
		return false
	}
	return true
}

func paeth(left, above, corner int) int {
	p := left + above - corner
	a, b, c := abs(p-left), abs(p-above), abs(p-corner)
	switch {
	case a <= b && a <= c:
		return left
	case b <= c:
		return above
	}
	return corner
}

func abs(x int) int { return max(x, -x) }
