package prose

import (
	"testing"

	"fairtape/parse"
)

// The greatest girth may stand before the list of stations as well as behind.
func TestGreatestBesideStations(t *testing.T) {
	const (
		stations = "1 ft: hull 38 1/2, full 45 1/2\n2 ft: hull 38, full 51 1/2\n3 ft: hull 39 1/2, full 59\n4 ft: hull 42 1/2, full 67 1/2\n5 ft: hull 46, full 76\n"
		greatest = "greatest girth at 8 ft 8 in: hull 53, full 92\n"
		apart    = "greatest girth at: 8 ft 8 in\ngreatest hull girth: 53\ngreatest full girth: 92\n"
	)
	for name, text := range map[string]string{
		"before": greatest + "\n" + stations, "just before": greatest + stations,
		"behind": stations + "\n" + greatest, "apart, behind": stations + "\n" + apart, "apart, before": apart + "\n" + stations,
	} {
		t.Run(name, func(t *testing.T) {
			doc := Read("mail", text, "").Document
			if len(doc.Surveys) != 1 || len(doc.Surveys[0].Stations) != 5 {
				t.Fatalf("not one survey with five stations: %+v", doc)
			}
			g := doc.Surveys[0].Greatest
			if g.At.Value != parse.Inches(104) || g.HullGirth.Value != parse.Inches(53) || g.FullGirth.Value != parse.Inches(92) {
				t.Errorf("greatest girth at %v: hull %v, full %v", g.At.Source.Raw, g.HullGirth.Source.Raw, g.FullGirth.Source.Raw)
			}
		})
	}
}
