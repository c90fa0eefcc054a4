package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"fairtape/parse"
)

func TestDecodeRefuses(t *testing.T) {
	photo := fields(60, 40)
	var jpg, ping bytes.Buffer
	if err := jpeg.Encode(&jpg, photo, nil); err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(&ping, photo); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name string
		data []byte
		want parse.Code
	}{
		{"empty", nil, CodeKind},
		{"a text", []byte("not a picture at all"), CodeKind},
		{"gif", []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"), CodeKind},
		{"jpeg of two bytes", []byte("\xff\xd8\xff"), CodeBroken},
		{"jpeg cut short", jpg.Bytes()[:jpg.Len()*2/3], CodeBroken},
		{"jpeg of 4 gigapixels", jpegHeader(65535, 65535), CodeTooLarge},
		{"png cut short", ping.Bytes()[:ping.Len()-30], CodeBroken},
		{"png of 900 megapixels", pngFile(chunk("IHDR", ihdr(30000, 30000, 8))), CodeTooLarge},
		{"png without pixels", pngFile(chunk("IHDR", ihdr(0, 10, 8))), CodeBroken},
		{"png that moves", pngFile(chunk("IHDR", ihdr(2, 2, 8)), chunk("acTL", make([]byte, 8))), CodeMoving},
		{"deep png without data", pngFile(chunk("IHDR", ihdr(2, 2, 16)), chunk("IDAT", nil)), CodeBroken},
		{"webp that moves", file(t, "moving.webp"), CodeMoving},
		{"webp cut short", file(t, "photo.webp")[:40], CodeBroken},
		{"tiff with jpeg inside", file(t, "jpeg-inside.tiff"), CodeKind},
		{"tiff without directory", []byte("II*\x00\xff\xff\xff\x7f"), CodeBroken},
		{"heic without sizes", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), CodeBroken},
		{"heic of 4 gigapixels", heicHeader(65535, 65535), CodeTooLarge},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			pictures, _, err := Decode(test.data)
			var fault *Fault
			if !errors.As(err, &fault) {
				t.Fatalf("%d pictures, error %v", len(pictures), err)
			}
			if fault.Code != test.want || fault.Message == "" {
				t.Errorf("%v, want %s", fault, test.want)
			}
		})
	}
}

// Every kind of file shows the same three fields.
func TestDecodeKinds(t *testing.T) {
	names := []string{"cmyk.jpg", "progressive.jpg", "deep.png", "one-bit.tiff", "two-pages.tiff", "photo.webp"}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			pictures, lost, err := Decode(file(t, name))
			if err != nil || lost != 0 {
				t.Fatalf("%d lost: %v", lost, err)
			}
			checkFields(t, pictures[0], name == "one-bit.tiff")
		})
	}
	pictures, _, err := Decode(file(t, "two-pages.tiff"))
	if err != nil || len(pictures) != 2 || pictures[1].Width != 40 {
		t.Errorf("two pages give %d pictures, %v", len(pictures), err)
	}
}

// checkFields looks at the middle of each field: black, white, white, grey.
func checkFields(t *testing.T, p *Picture, oneBit bool) {
	t.Helper()
	scale := p.Width / 60
	if scale < 1 || p.Width != 60*scale || p.Height != 40*scale {
		t.Fatalf("%d x %d pixels, want 60 x 40 or a multiple", p.Width, p.Height)
	}
	for _, c := range []struct{ x, y, least, most int }{{15, 10, 0, 40}, {45, 10, 225, 255}, {15, 30, 225, 255}, {45, 30, 100, 155}} {
		got := int(p.light.pix[scale*(c.y*p.light.w+c.x)])
		if oneBit && c.least == 100 {
			continue // grey is one or the other
		}
		if got < c.least || got > c.most {
			t.Errorf("light at %d,%d is %d, want %d to %d", c.x, c.y, got, c.least, c.most)
		}
	}
}

// The orientations that cameras note, by where the black field then lies (CIPA
// DC-008, tag 274); 0 and 9 are none.
func TestOrientation(t *testing.T) {
	corner := map[int]string{0: "top left", 1: "top left", 2: "top right", 3: "bottom right", 4: "bottom left",
		5: "top left", 6: "top right", 7: "bottom right", 8: "bottom left", 9: "top left"}
	for o, want := range corner {
		pictures, _, err := Decode(withOrientation(t, o))
		if err != nil {
			t.Fatal(err)
		}
		p := pictures[0]
		if turned := o >= 5 && o <= 8; (p.Width == 40) != turned {
			t.Errorf("orientation %d: %d x %d pixels", o, p.Width, p.Height)
		}
		got := ""
		for name, at := range map[string][2]int{"top left": {1, 1}, "top right": {3, 1}, "bottom left": {1, 3}, "bottom right": {3, 3}} {
			if p.light.pix[at[1]*p.light.h/4*p.light.w+at[0]*p.light.w/4] < 60 {
				got = name
			}
		}
		if got != want {
			t.Errorf("orientation %d: black lies %s, want %s", o, got, want)
		}
	}
}

// A large picture of 16 bits is read row by row: as a whole it would take eight
// bytes a pixel.
func TestDeepPicture(t *testing.T) {
	deep := image.NewNRGBA64(image.Rect(0, 0, 60, 40))
	for y := range 40 {
		for x := range 60 {
			deep.Set(x, y, fields(60, 40).At(x, y))
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, deep); err != nil {
		t.Fatal(err)
	}
	pictures, _, err := Decode(out.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	checkFields(t, pictures[0], false)
}

// Large pictures are made smaller while they are read.
func TestGatherShrinks(t *testing.T) {
	const w, h = 6000, 4000
	p := gather(w, h, upright, func(y int, light []byte) bool {
		for x := range light {
			light[x] = byte(255 * (x / (w / 2)))
		}
		return true
	})
	if p.Width != w || p.Height != h || p.factor != 2 || p.light.w != w/2 || p.light.h != h/2 {
		t.Fatalf("%d x %d by %d gives %d x %d", p.Width, p.Height, p.factor, p.light.w, p.light.h)
	}
	if a, b := p.light.pix[10], p.light.pix[p.light.w-10]; a != 0 || b != 255 {
		t.Errorf("the halves are %d and %d", a, b)
	}
}

// Coloured pens are as dark as black ones; paper in warm light stays light.
func TestLightOf(t *testing.T) {
	for _, pen := range []color.RGBA{{168, 30, 36, 255}, {28, 40, 120, 255}, {10, 100, 40, 255}} {
		if l := lightOf(pen.R, pen.G, pen.B); l > 70 {
			t.Errorf("%v has light %d", pen, l)
		}
	}
	if l := lightOf(240, 230, 200); l < 200 {
		t.Errorf("warm paper has light %d", l)
	}
	// Through YCbCr it comes out as directly.
	chroma := newChroma()
	for _, c := range []color.RGBA{{168, 30, 36, 255}, {240, 230, 200, 255}, {0, 0, 0, 255}, {90, 120, 60, 255}} {
		m := image.NewYCbCr(image.Rect(0, 0, 1, 1), image.YCbCrSubsampleRatio444)
		m.Y[0], m.Cb[0], m.Cr[0] = color.RGBToYCbCr(c.R, c.G, c.B)
		light := make([]byte, 1)
		chroma.row(m, 0, light)
		if want := int(lightOf(c.R, c.G, c.B)); abs(int(light[0])-want) > 4 {
			t.Errorf("%v is %d by its chroma, want %d", c, light[0], want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, name := range []string{"cmyk.jpg", "progressive.jpg", "deep.png", "one-bit.tiff", "two-pages.tiff", "photo.webp", "moving.webp"} {
		f.Add(file(f, name))
	}
	f.Add(heicHeader(100, 100))
	f.Fuzz(func(t *testing.T, data []byte) {
		pictures, _, err := Decode(data)
		var fault *Fault
		if err != nil && (!errors.As(err, &fault) || fault.Message == "") {
			t.Fatalf("%v is no fault with a message", err)
		}
		if err == nil && len(pictures) == 0 {
			t.Fatal("neither pictures nor an error")
		}
		for _, p := range pictures {
			if len(p.light.pix) != p.light.w*p.light.h || len(p.light.pix) > 2*workMost {
				t.Fatalf("%d pixels for %d x %d", len(p.light.pix), p.light.w, p.light.h)
			}
		}
	})
}

// BenchmarkDecode64 says what the largest pictures cost.
func BenchmarkDecode64(b *testing.B) {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, image.NewYCbCr(image.Rect(0, 0, 9248, 6936), image.YCbCrSubsampleRatio420), nil); err != nil {
		b.Fatal(err)
	}
	runtime.GC()
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Decode(out.Bytes()); err != nil {
			b.Fatal(err)
		}
	}
}

// fields is the picture of testdata/photo/kinds.
func fields(w, h int) image.Image {
	m := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := byte(255)
			switch {
			case x < w/2 && y < h/2:
				v = 0
			case x >= w/2 && y >= h/2:
				v = 128
			}
			m.SetGray(x, y, color.Gray{Y: v})
		}
	}
	return m
}

func file(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(goldens, "kinds", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// withOrientation is the picture of fields as a JPEG with Exif notes.
func withOrientation(t *testing.T, o int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, fields(60, 40), nil); err != nil {
		t.Fatal(err)
	}
	notes := []byte("Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01")
	notes = append(notes, byte(o>>8), byte(o), 0, 0, 0, 0, 0, 0)
	segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(notes)+2))
	return slices.Concat(out.Bytes()[:2], segment, notes, out.Bytes()[2:])
}

func jpegHeader(w, h int) []byte {
	frame := []byte{0xff, 0xd8, 0xff, 0xc0, 0, 11, 8}
	frame = binary.BigEndian.AppendUint16(frame, uint16(h))
	frame = binary.BigEndian.AppendUint16(frame, uint16(w))
	return append(frame, 1, 1, 0x11, 0, 0xff, 0xda, 0, 2)
}

func ihdr(w, h uint32, depth byte) []byte {
	body := binary.BigEndian.AppendUint32(nil, w)
	body = binary.BigEndian.AppendUint32(body, h)
	return append(body, depth, 0, 0, 0, 0)
}

func chunk(kind string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	named := append([]byte(kind), body...)
	return binary.BigEndian.AppendUint32(append(out, named...), crc32.ChecksumIEEE(named))
}

func pngFile(chunks ...[]byte) []byte {
	return append([]byte("\x89PNG\r\n\x1a\n"), slices.Concat(chunks...)...)
}

func heicHeader(w, h uint32) []byte {
	data := []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic\x00\x00\x00\x14ispe\x00\x00\x00\x00")
	data = binary.BigEndian.AppendUint32(data, w)
	return append(binary.BigEndian.AppendUint32(data, h), make([]byte, 16)...)
}
