package photo

import (
	"math"
	"math/rand/v2"
	"testing"

	"fairtape/parse"
	"fairtape/parse/photo/phototest"
	"fairtape/validate/known"
)

// Tables on paper of somebody's own, printed and written in strokes of our own:
// most numbers are read, and none of them wrong.
func TestFreeTables(t *testing.T) {
	if testing.Short() {
		t.Skip("photographs two pages")
	}
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	for name, written := range map[string]bool{"printed": false, "written": true} {
		t.Run(name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(7, 4))
			boat := known.Draw(rng, known.Ordinary, known.HomeTape(parse.Inch))
			var hand *phototest.Hand
			if written {
				hand = phototest.NewHand(nil, rng)
			}
			sheet, truth, err := phototest.Free(boat.Survey, hand, rng)
			if err != nil {
				t.Fatal(err)
			}
			camera := phototest.NewCamera(phototest.Flat, rng)
			camera.Width, camera.Height, camera.Turn = 1932, 2576, 178
			doc := reader.Read("table.jpg", NewPicture(sheet.Photograph(camera, rng).Picture))
			if len(doc.Surveys) != 1 {
				t.Fatalf("%d surveys: %v", len(doc.Surveys), doc.Problems)
			}
			right := 0
			for _, w := range truth {
				for _, st := range doc.Surveys[0].Stations {
					got := st.HullGirth
					if w.Cell.Measure == parse.FullGirth {
						got = st.FullGirth
					}
					if math.Abs(float64(st.At-w.Cell.At)) > 1 || !got.Known || got.Confidence < justUnsure {
						continue
					}
					if got.Certain() {
						t.Errorf("%v at %v is given surely", w.Cell.Measure, w.Cell.At.In(parse.Inch))
					}
					if math.Abs(float64(got.Value-w.Length)) > 0.01 {
						t.Errorf("%v at %v: %v, want %v", w.Cell.Measure, w.Cell.At.In(parse.Inch), got.Value.In(parse.Inch), w.Length.In(parse.Inch))
						continue
					}
					right++
				}
			}
			if 10*right < 7*len(truth) {
				t.Errorf("%d of %d numbers are read", right, len(truth))
			}
		})
	}
}

// A table's numbers are the stations, in even steps, whatever a few of them look
// like; numbers far from their neighbours are doubtful.
func TestFreeCells(t *testing.T) {
	cell := func(text string, sure float64) freeCell { return freeCell{text: text, sure: sure} }
	cells := [][]freeCell{
		{cell("1", 1), cell("40.5", 1)}, {cell("2", 1), cell("43", 1)}, {cell("9", 0.4), cell("455", 1)},
		{cell("4", 1), cell("47", 1)}, {cell("5", 1), cell("46", 1)},
	}
	settleStations(cells)
	doubtStrays(cells)
	if c := cells[2][0]; c.text != "3" || c.sure != 1 {
		t.Errorf("third station %q (%v), want 3", c.text, c.sure)
	}
	if cells[2][1].sure >= parse.Sure {
		t.Error("455 among forties is taken as sure")
	}
	if cells[1][1].sure < parse.Sure {
		t.Error("43 beside 455 is doubted")
	}
}

// A page that is turned and seen from the side is laid straight again: points of
// level rows and upright columns, put where a lie shows them, give that lie.
func TestStraightLie(t *testing.T) {
	const w, h = 600, 800
	want := lie{w: w, h: h, rise: 0.05, fan: 0.02, lean: -0.03, part: 0.03}
	ink := make([]bool, w*h)
	for row := 100; row < 700; row += 50 {
		for column := 100; column < 500; column += 60 {
			for d := range 20 {
				for _, p := range []point{{float64(column + d), float64(row)}, {float64(column), float64(row + d)}} {
					q := want.point(p)
					ink[int(q.y)*w+int(q.x)] = true
				}
			}
		}
	}
	got := straightLie(w, h, ink)
	for _, p := range []point{{100, 100}, {500, 100}, {300, 400}, {100, 700}, {500, 700}} {
		a, b := want.point(p), got.point(p)
		if math.Hypot(a.x-b.x, a.y-b.y) > 6 {
			t.Errorf("%v lies at %v, want %v", p, b, a)
		}
	}
}
