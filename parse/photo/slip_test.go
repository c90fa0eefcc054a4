package photo

import (
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

// A slip comes back with both tries of each place, and says which job it
// belongs to.
func TestSlip(t *testing.T) {
	if testing.Short() {
		t.Skip("a photo takes two seconds to render")
	}
	rng := rand.New(rand.NewPCG(21, 22))
	places := []parse.Cell{{At: parse.Inches(84), Measure: parse.MeasurePair}, {Measure: parse.LengthOverall}}
	l, err := form.NewSlip(form.SlipSpec{Paper: form.Letter, Unit: parse.Inch, Job: 14, Places: places})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := phototest.Blank(l, 1)
	if err != nil {
		t.Fatal(err)
	}
	value := func(at float64, m parse.Measure, try int, inches float64) phototest.Value {
		return phototest.Value{Cell: parse.Cell{At: parse.Inches(at), Measure: m}, Try: try, Length: parse.Inches(inches)}
	}
	sheet.Fill(phototest.NewHand(nil, rng), []phototest.Value{
		value(84, parse.HullGirth, 1, 52.5), value(84, parse.HullGirth, 2, 52),
		value(84, parse.FullGirth, 1, 83), value(84, parse.FullGirth, 2, 76),
		value(0, parse.LengthOverall, 1, 189),
	}, phototest.Trouble{}, rng)
	camera := phototest.Camera{Width: 1080, Height: 1440, Share: 0.9, Exposure: 0.8, Blur: 0.6, Noise: 0.002, Quality: 85, Tilt: 12, Turn: 90}
	picture := NewPicture(sheet.Photograph(camera, rng).Picture)
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	page, err := reader.Page("slip.jpg", picture)
	if err != nil {
		t.Fatal(err)
	}
	if !page.Code.Slip || page.Code.Job != 14 {
		t.Errorf("the code says %+v", page.Code)
	}
	doc := page.document("slip.jpg")
	if len(doc.Problems) != 1 || doc.Problems[0].Code != parse.CodeSecondTry {
		t.Errorf("problems %+v, want that the tries of the full girth differ", doc.Problems)
	}
	s := doc.Surveys[0]
	if len(s.Stations) != 1 || s.Stations[0].HullGirth.Value != parse.Inches(52) || s.Stations[0].FullGirth.Known || s.LengthOverall.Value != parse.Inches(189) {
		t.Errorf("read %+v", s)
	}
}
