package sheet

import (
	"bytes"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/encoding/unicode/utf32"
)

// decodeText finds the encoding of a text by its mark, by its zero bytes, or
// by trying.
func decodeText(data []byte) (string, error) {
	switch {
	case bytes.HasPrefix(data, []byte{0xef, 0xbb, 0xbf}):
		data = data[3:]
	case bytes.HasPrefix(data, []byte{0xff, 0xfe, 0, 0}), bytes.HasPrefix(data, []byte{0, 0, 0xfe, 0xff}):
		return decodeUTF32(data, utf32.BigEndian)
	case zeros(data, 4, 2) > len(data)/8 && zeros(data, 4, 3) > len(data)/8:
		return decodeUTF32(data, utf32.LittleEndian)
	case zeros(data, 4, 0) > len(data)/8 && zeros(data, 4, 1) > len(data)/8:
		return decodeUTF32(data, utf32.BigEndian)
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return decodeUTF16(data, unicode.LittleEndian)
	case zeros(data, 2, 1) > len(data)/4:
		return decodeUTF16(data, unicode.LittleEndian)
	case zeros(data, 2, 0) > len(data)/4:
		return decodeUTF16(data, unicode.BigEndian)
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return "", ErrFormat
	}
	if utf8.Valid(data) {
		return string(data), nil
	}
	encoding := charmap.Windows1252
	if macintosh(data) {
		encoding = charmap.Macintosh
	}
	s, err := encoding.NewDecoder().Bytes(data)
	if err != nil {
		return "", ErrFormat
	}
	return string(s), nil
}

// macintosh reports a text in Mac OS Roman, which spreadsheets still write: its
// accented letters are where Windows-1252 has signs, and the other way round.
func macintosh(data []byte) bool {
	mac, windows := 0, 0
	for i, b := range data {
		before, after := i > 0 && isLetter(data[i-1]), i+1 < len(data) && isLetter(data[i+1])
		switch {
		case b == 0x8d || b == 0x8f || b == 0x90 || b == 0x9d: // nothing in Windows-1252
			mac++
		case b == 0x88: // à in "Station à 30 cm", a lone circumflex there
			mac++
		case b == 0x83 && after, b == 0xd5 && before && after: // É, ’, and signs or capitals that no word has there
			mac++
		case (before || after) && (b == 0x89 || b == 0x8e || b == 0x9e || b == 0x99 && before && after || b == 0x94 && before && after):
			mac++
		case (before || after) && b >= 0xc0 && (b < 0xd0 || b > 0xd5):
			windows++
		}
	}
	return mac > windows
}

// isLetter reports a letter, or a byte that may be an accented one.
func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= 0x80 }

func decodeUTF16(data []byte, order unicode.Endianness) (string, error) {
	s, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
	if err != nil {
		return "", ErrFormat
	}
	return string(s), nil
}

func decodeUTF32(data []byte, order utf32.Endianness) (string, error) {
	s, err := utf32.UTF32(order, utf32.UseBOM).NewDecoder().Bytes(data)
	if err != nil {
		return "", ErrFormat
	}
	return string(s), nil
}

// zeros counts the zero bytes at one place of every character of so many bytes.
func zeros(data []byte, width, place int) int {
	n := 0
	for i := place; i < len(data); i += width {
		if data[i] == 0 {
			n++
		}
	}
	return n
}
