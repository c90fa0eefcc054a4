package photo

import (
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

// Every digit box is found, those that something stands in have ink, and nearly
// all of these say to the number reader what was written.
func TestDigitBoxes(t *testing.T) {
	if testing.Short() {
		t.Skip("a photo takes two seconds to render")
	}
	rng := rand.New(rand.NewPCG(21, 22))
	l, err := form.New(form.Spec{Paper: form.Letter, Unit: parse.Centimetre, Rows: 14})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := phototest.Blank(l, 2)
	if err != nil {
		t.Fatal(err)
	}
	held := sheet.FillBoxes(phototest.NewHand(nil, rng), 0, rng)
	picture := photographed(t, sheet, 2, rng)
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	boxes, err := DigitBoxes(picture)
	if err != nil {
		t.Fatal(err)
	}
	if len(boxes) != len(held) {
		t.Errorf("%d boxes, want %d", len(boxes), len(held))
	}
	digits, other := 0, 0
	for _, b := range boxes {
		want, ok := held[phototest.BoxName{Field: b.Field.Name, Index: b.Index}]
		switch {
		case !ok:
			t.Errorf("box %d of %q was never filled", b.Index, b.Field.Name)
		case want == phototest.NoDigit:
			if b.Ink != nil && reader.digits.Read(b.Ink).Blank < 0.5 {
				t.Errorf("box %d of %q is empty and holds something", b.Index, b.Field.Name)
			}
		case b.Ink == nil:
			t.Errorf("box %d of %q holds a %d and has no ink", b.Index, b.Field.Name, want)
		default:
			digits++
			if best, _ := reader.digits.Read(b.Ink).Best(); best != want {
				other++
			}
		}
	}
	if digits < 60 || 50*other > digits {
		t.Errorf("%d of %d digits are read as others", other, digits)
	}
}
