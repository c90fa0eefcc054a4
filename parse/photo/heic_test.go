//go:build nodynamic

package photo

import "testing"

// The decoder turns HEIC upright by itself, whatever brand the file puts first.
func TestHEIC(t *testing.T) {
	data := file(t, "photo.heic")
	for _, brand := range []string{"heic", "mif1"} {
		renamed := append([]byte(nil), data...)
		copy(renamed[8:], brand)
		pictures, _, err := Decode(renamed)
		if err != nil {
			t.Fatalf("%s: %v", brand, err)
		}
		checkFields(t, pictures[0], false)
	}
}
