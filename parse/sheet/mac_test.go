package sheet

import (
	"testing"

	"golang.org/x/text/encoding/charmap"
)

// TestMacintosh tells the two old encodings of one byte apart. The texts are
// encoded by golang.org/x/text.
func TestMacintosh(t *testing.T) {
	for _, text := range []string{"Hauteur à l'étrave;47 cm", "Tableau arrière;115", "Relevé;1", "15' 9\" hull"} {
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
