package photo

import (
	"bytes"
	"encoding/json"
	"flag"
	"image"
	"image/draw"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo/phototest"
)

var (
	update = flag.Bool("update", false, "rewrite what the goldens want")
	render = flag.Bool("render", false, "photograph the goldens anew")
)

const goldens = "../../testdata/photo"

// Every picture under testdata/photo is read, and what it says compared with
// the file beside it.
func TestGoldens(t *testing.T) {
	if *render {
		renderGoldens(t)
	}
	files, err := filepath.Glob(filepath.Join(goldens, "*.jpg"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no goldens: %v", err)
	}
	reader, err := NewReader()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			pictures, lost, err := Decode(data)
			if err != nil {
				t.Fatal(err)
			}
			got := describe(t, reader.ReadAll(name, pictures, lost))
			want := strings.TrimSuffix(file, ".jpg") + ".want"
			if *update {
				if err := os.WriteFile(want, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			wanted, err := os.ReadFile(want)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, wanted) {
				t.Errorf("%s reads\n%s\nwant\n%s", name, got, wanted)
			}
		})
	}
}

// describe writes values that are sure, places of those that are not, and the
// codes of problems: not confidences, which differ in their last digits from
// one processor to another.
func describe(t *testing.T, doc parse.Document) []byte {
	t.Helper()
	type number struct {
		Value float64 `json:"value,omitempty"`
		Raw   string  `json:"raw"`
		Sure  bool    `json:"sure"`
	}
	var out struct {
		Numbers  map[string]number `json:"numbers"`
		Problems map[string]int    `json:"problems"`
	}
	out.Numbers, out.Problems = map[string]number{}, map[string]int{}
	for _, p := range doc.Problems {
		out.Problems[string(p.Code)]++
	}
	for _, s := range doc.Surveys {
		for _, v := range phototest.Values(s) {
			r := *readingOf(&s, v.Cell)
			name := string(v.Cell.Measure)
			if v.Cell.At > 0 {
				name = strings.TrimSuffix(strings.TrimSuffix(jsonNumber(v.Cell.At.In(s.Unit)), ".0"), " ") + " " + name
			}
			out.Numbers[name] = number{r.Value.In(s.Unit), r.Source.Raw, r.Certain()}
		}
	}
	text, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return append(text, '\n')
}

func jsonNumber(v float64) string {
	text, _ := json.Marshal(v)
	return string(text)
}

// renderGoldens photographs the goldens as testdata/photo/README.md describes
// them. Hands are strokes of our own, so that no other data is needed.
func renderGoldens(t *testing.T) {
	plain := phototest.Camera{Width: 1080, Height: 1440, Share: 0.93, Exposure: 0.8, Blur: 0.6, Noise: 0.002, Quality: 62}
	shots := []struct {
		name   string
		spec   form.Spec
		camera func(*phototest.Camera)
		crop   func(image.Rectangle) image.Rectangle
		write  phototest.Trouble
	}{
		{name: "flat-inches", spec: form.Spec{Paper: form.Letter, Unit: parse.Inch, Rows: 15, Job: 14}, camera: func(*phototest.Camera) {}},
		{name: "tilted-centimetres", spec: form.Spec{Paper: form.A4, Unit: parse.Centimetre, Rows: 15}, camera: func(c *phototest.Camera) {
			c.Tilt, c.Turn, c.Curl, c.Shadow, c.Uneven, c.Warm = 22, 183, 4, 0.4, 0.3, 0.6
		}},
		{name: "on-its-side", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) {
			c.Width, c.Height, c.Turn, c.Tilt = 1440, 1080, 92, 8
		}, write: phototest.Trouble{Rewritten: 0.05, Overwritten: 0.05}},
		{name: "dark", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) { c.Exposure, c.Noise = 0.02, 0.001 }},
		{name: "blurred", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) { c.Blur = 4.5 }},
		{name: "small", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) { c.Share = 0.5 }},
		{name: "corner-missing", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) { c.Turn = 4 },
			crop: func(r image.Rectangle) image.Rectangle { r.Max.X -= r.Dx() / 7; return r }},
		{name: "screen", spec: form.Spec{Paper: form.A4, Unit: parse.Inch, Rows: 13}, camera: func(c *phototest.Camera) { c.Screen, c.Blur, c.Quality = 0.8, 2.2, 55 }},
	}
	for i, shot := range shots {
		rng := rand.New(rand.NewPCG(4, uint64(i)))
		l, err := form.New(shot.spec)
		if err != nil {
			t.Fatal(err)
		}
		sheet, err := phototest.Blank(l, 2)
		if err != nil {
			t.Fatal(err)
		}
		sheet.Fill(phototest.NewHand(nil, rng), numbers(l, rng), shot.write, rng)
		sheet.Grain(rng)
		camera := plain
		shot.camera(&camera)
		picture := sheet.Photograph(camera, rng).Picture
		if shot.crop != nil {
			r := shot.crop(picture.Rect)
			cut := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
			draw.Draw(cut, cut.Rect, picture, r.Min, draw.Src)
			picture = cut
		}
		var out bytes.Buffer
		if err := jpeg.Encode(&out, picture, &jpeg.Options{Quality: camera.Quality}); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(goldens, shot.name+".jpg"), out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// numbers are values for every cell of page 2 that its boxes can hold.
func numbers(l form.Layout, rng *rand.Rand) []phototest.Value {
	var values []phototest.Value
	for _, f := range l.Fields {
		if f.Page != 2 || f.Kind != form.Digits || f.Part == form.Inches {
			continue
		}
		v := phototest.Value{Cell: f.Cell, Length: parse.Inches(float64(30+rng.IntN(150)) / 2)}
		if l.Unit == parse.Centimetre {
			v.Length = parse.Centimetres(float64(30 + rng.IntN(250)))
		}
		values = append(values, v)
	}
	return values
}
