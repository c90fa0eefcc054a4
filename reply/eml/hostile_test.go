package eml

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"fairtape/reply/replytest"
)

// Whatever stands in a letter, its mail has the fields and the parts of any
// other, and the names of its files are no paths.
func TestMarshalHostileTexts(t *testing.T) {
	plain, err := Marshal(letter())
	if err != nil {
		t.Fatal(err)
	}
	header, parts := leaves(t, plain)
	want := slices.Sorted(maps.Keys(header))
	for _, h := range replytest.Hostile() {
		d := letter()
		d.Subject, d.To.Name, d.From.Name, d.Text, d.HTML = h, h, h, h, h
		d.Pictures[0].Name, d.Pictures[0].Alt = h, h
		d.Files[0].Name = h
		raw, err := Marshal(d)
		if err != nil {
			t.Errorf("%.60q: %v", h, err)
			continue
		}
		got, leafs := leaves(t, raw)
		if fields := slices.Sorted(maps.Keys(got)); !slices.Equal(fields, want) {
			t.Errorf("%.60q: the mail has the fields %v, want %v", h, fields, want)
		}
		if len(leafs) != len(parts) {
			t.Errorf("%.60q: the mail has %d parts, want %d", h, len(leafs), len(parts))
		}
		for _, p := range leafs {
			if strings.ContainsAny(p.name, "/\\:\r\n\x00\u202e") || p.name == ".." {
				t.Errorf("%.60q: a file is called %q", h, p.name)
			}
		}
		if from, err := got.AddressList("From"); err != nil || len(from) != 1 || from[0].Address != d.From.Address {
			t.Errorf("%.60q: from %v, %v", h, from, err)
		}
		if to, err := got.AddressList("To"); err != nil || len(to) != 1 || to[0].Address != d.To.Address {
			t.Errorf("%.60q: to %v, %v", h, to, err)
		}
		checkLines(t, raw)
	}
}
