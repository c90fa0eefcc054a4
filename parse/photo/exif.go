package photo

import "encoding/binary"

// orientation is how a picture has to be turned to stand upright, as cameras
// note it (CIPA DC-008, Exif 2.32, tag 274).
type orientation uint16

const upright orientation = 1

// swaps reports that width and height change places.
func (o orientation) swaps() bool { return o >= 5 && o <= 8 }

// source returns the pixel of the stored picture, w x h, that belongs at x, y of
// the upright one.
func (o orientation) source(x, y, w, h int) (int, int) {
	switch o {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	case 8:
		return w - 1 - y, x
	}
	return x, y
}

// jpegOrientation reads the orientation out of a JPEG file; upright where there
// is none or an impossible one. Nothing else of the camera's notes is looked at.
func jpegOrientation(data []byte) orientation {
	const (
		startOfScan = 0xda
		app1        = 0xe1
	)
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker := data[at+1]
		if marker == 0xff { // fill byte
			at++
			continue
		}
		size := int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == startOfScan || size < 2 || at+2+size > len(data) {
			break
		}
		segment := data[at+4 : at+2+size]
		if marker == app1 && len(segment) > 6 && string(segment[:6]) == "Exif\x00\x00" {
			return tiffOrientation(segment[6:])
		}
		at += 2 + size
	}
	return upright
}

// tiffOrientation reads the orientation from the first directory of a TIFF file
// or of Exif notes, which have the same form.
func tiffOrientation(data []byte) orientation {
	const tagOrientation = 274
	order, first, ok := tiffHeader(data)
	if !ok {
		return upright
	}
	entries, _, ok := tiffDirectory(data, order, first)
	if !ok {
		return upright
	}
	for ; len(entries) >= 12; entries = entries[12:] {
		if order.Uint16(entries) != tagOrientation {
			continue
		}
		if o := orientation(order.Uint16(entries[8:])); o >= 1 && o <= 8 {
			return o
		}
	}
	return upright
}

func tiffHeader(data []byte) (order binary.ByteOrder, first uint32, ok bool) {
	if len(data) < 8 {
		return nil, 0, false
	}
	switch string(data[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return nil, 0, false
	}
	return order, order.Uint32(data[4:]), true
}

// tiffDirectory returns the 12-byte entries of a directory and where the next
// one lies, 0 for the last.
func tiffDirectory(data []byte, order binary.ByteOrder, at uint32) (entries []byte, next uint32, ok bool) {
	if uint64(at)+2 > uint64(len(data)) {
		return nil, 0, false
	}
	count := int(order.Uint16(data[at:]))
	end := int(at) + 2 + 12*count
	if end > len(data) {
		return nil, 0, false
	}
	if end+4 <= len(data) {
		next = order.Uint32(data[end:])
	}
	return data[at+2 : end], next, true
}
