package sheet

import (
	"testing"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode/utf32"
)

// TestMacintosh tells the two old encodings of one byte apart. The texts are
// encoded by golang.org/x/text.
func TestMacintosh(t *testing.T) {
	for _, text := range []string{"Hauteur à l'étrave;47 cm", "Tableau arrière;115", "Relevé;1", "Station à 30 cm;94", "Repère à l’étrave;47", "Étrave;47", "la côte, l’île", "15' 9\" hull"} {
		mac, err := charmap.Macintosh.NewEncoder().Bytes([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := decodeText(mac); err != nil || got != text {
			t.Errorf("Mac OS Roman: got %q (%v), want %q", got, err, text)
		}
	}
	for _, text := range []string{"Hauteur à l’étrave;47 cm", "“hull” 35½", "Tableau arrière – 115", "OK™ 12"} {
		windows, err := charmap.Windows1252.NewEncoder().Bytes([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := decodeText(windows); err != nil || got != text {
			t.Errorf("Windows-1252: got %q (%v), want %q", got, err, text)
		}
	}
}

// TestUTF32 reads four bytes a character, with the mark of their order and
// without. The texts are encoded by golang.org/x/text.
func TestUTF32(t *testing.T) {
	const text = "Hauteur à l'étrave;47 ½ cm\n30;94;133\n"
	for _, order := range []utf32.Endianness{utf32.LittleEndian, utf32.BigEndian} {
		for _, mark := range []utf32.BOMPolicy{utf32.IgnoreBOM, utf32.UseBOM} {
			data, err := utf32.UTF32(order, mark).NewEncoder().Bytes([]byte(text))
			if err != nil {
				t.Fatal(err)
			}
			if got, err := decodeText(data); err != nil || got != text {
				t.Errorf("%v, %v: got %q (%v)", order, mark, got, err)
			}
		}
	}
}
