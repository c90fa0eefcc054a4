package sheet

import (
	"encoding/json"
	"image"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"fairtape/parse"
	"fairtape/reply/cover"
)

// readBack is how far, in millimetres, a length of a drawing may be off when
// somebody else's program reads it.
const readBack = 0.5

// measureDXF prints what ezdxf, a library for DXF in Python, finds in a drawing:
// the faults, the lines of the layer CHECK and the outlines of the layer CUT.
const measureDXF = `
import ezdxf, json, sys
from ezdxf import recover
doc, audit = recover.readfile(sys.argv[1])
space = doc.modelspace()
print(json.dumps({
    "faults": [e.message for e in audit.errors + audit.fixes],
    "check": [[list(e.dxf.start)[:2], list(e.dxf.end)[:2]] for e in space.query('LINE[layer=="CHECK"]')],
    "cut": [[list(v.dxf.location)[:2] for v in e.vertices] for e in space.query('POLYLINE[layer=="CUT"]') if e.is_closed],
}))
`

// pythonWith returns a Python that has a module, and skips the test without.
func pythonWith(t *testing.T, module string) string {
	t.Helper()
	for _, python := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(python, "-c", "import "+module).Run() == nil {
			return python
		}
	}
	t.Skipf("no Python with %s: install python3-%s", module, module)
	return ""
}

// What ezdxf measures on the DXF is what the panels measure.
func TestDXFReadByEzdxf(t *testing.T) {
	python := pythonWith(t, "ezdxf")
	everySample(t, func(t *testing.T, s *cover.CutSheet) {
		data, err := DXF(s)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "panels.dxf")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(python, "-c", measureDXF, file).Output()
		if err != nil {
			t.Fatalf("ezdxf: %v", err)
		}
		var got struct {
			Faults []string
			Check  [][2][2]float64
			Cut    [][][2]float64
		}
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		for _, f := range got.Faults {
			t.Errorf("ezdxf finds: %s", f)
		}
		longest := 0.0
		for _, l := range got.Check {
			longest = max(longest, math.Hypot(l[1][0]-l[0][0], l[1][1]-l[0][1]))
		}
		if mm, _ := checkLength(s); math.Abs(longest-mm) > readBack {
			t.Errorf("the check line is %.2f mm long, want %.2f", longest, mm)
		}
		if len(got.Cut) != len(s.Panels) {
			t.Fatalf("%d outlines of %d panels", len(got.Cut), len(s.Panels))
		}
		for i, panel := range s.Panels {
			compareSides(t, panel, got.Cut[i])
		}
	})
}

// compareSides holds every side of an outline, and every distance from its first
// corner, against the panel's.
func compareSides(t *testing.T, panel cover.Panel, got [][2]float64) {
	t.Helper()
	if len(got) != len(panel.Cut) {
		t.Fatalf("%s: %d corners, want %d", panel.Name, len(got), len(panel.Cut))
	}
	apart := func(i, j int) (want, have float64) {
		a, b := panel.Cut[i], panel.Cut[j]
		return math.Hypot(a.X-b.X, a.Y-b.Y) * 25.4, math.Hypot(got[i][0]-got[j][0], got[i][1]-got[j][1])
	}
	for i := range got {
		for _, j := range []int{0, (i + 1) % len(got)} {
			if want, have := apart(i, j); math.Abs(want-have) > readBack {
				t.Errorf("%s: from corner %d to %d %.2f mm, want %.2f", panel.Name, i, j, have, want)
			}
		}
	}
}

// What rsvg-convert draws of the SVG measures what the panels measure: the check
// line, and the breadth of the panels at many places.
func TestSVGDrawnByRsvg(t *testing.T) {
	program, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("no rsvg-convert: install librsvg2-bin")
	}
	for _, c := range []struct {
		construction cover.Construction
		unit         parse.Unit
	}{{cover.Sides, parse.Inch}, {cover.TopAndSkirt, parse.Centimetre}} {
		t.Run(string(c.construction), func(t *testing.T) {
			s := sample(t, c.construction, c.unit, false)
			data, err := SVG(s)
			if err != nil {
				t.Fatal(err)
			}
			drawn := drawSVG(t, program, data)
			mm, _ := checkLength(s)
			from := drawn.middle(Point{X: gap, Y: gap - 3}, Point{X: 1})
			to := drawn.middle(Point{X: gap + mm, Y: gap - 3}, Point{X: 1})
			if long := mm + to - from; !(math.Abs(long-mm) <= readBack) {
				t.Errorf("the check line is drawn %.2f mm long, want %.2f", long, mm)
			}
			panels, _, _ := stack(s)
			for _, p := range panels {
				drawn.compareBreadths(t, p)
			}
		})
	}
}

const pixelsPerMM = 2.0

// drawing is an SVG as somebody else's program drew it.
type drawing struct{ image.Image }

func drawSVG(t *testing.T, program string, data []byte) drawing {
	t.Helper()
	svg, png := filepath.Join(t.TempDir(), "panels.svg"), filepath.Join(t.TempDir(), "panels.png")
	if err := os.WriteFile(svg, data, 0o600); err != nil {
		t.Fatal(err)
	}
	const dpi = "50.8" // two pixels a millimetre
	if out, err := exec.Command(program, "-d", dpi, "-p", dpi, "-b", "white", "-u", "-o", png, svg).CombinedOutput(); err != nil {
		t.Fatalf("rsvg-convert: %v: %s", err, out)
	}
	file, err := os.Open(png)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	m, _, err := image.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	return drawing{m}
}

// middle is how far along a way, in millimetres, the middle of the line lies that
// is drawn near a place; NaN where none is.
func (d drawing) middle(at, way Point) float64 {
	const reach, step = 3.0, 0.25
	var sum, moved float64
	for off := -reach; off <= reach; off += step {
		x, y := int(math.Floor((at.X+off*way.X)*pixelsPerMM)), int(math.Floor((at.Y+off*way.Y)*pixelsPerMM))
		r, g, b, _ := d.At(x, y).RGBA()
		dark := 1 - float64(min(r, g, b))/0xFFFF
		// The middle of the pixel, not of the step.
		px := (float64(x) + 0.5) / pixelsPerMM
		py := (float64(y) + 0.5) / pixelsPerMM
		sum += dark
		moved += dark * ((px-at.X)*way.X + (py-at.Y)*way.Y)
	}
	return moved / sum
}

// compareBreadths measures a panel across, between the far and the near edge to
// cut, where they run nearly along the cloth.
func (d drawing) compareBreadths(t *testing.T, p placed) {
	t.Helper()
	low, high := bounds(p.panel.Cut)
	measured := 0
	for i := 1; i < 20; i++ {
		x := low.X + (high.X-low.X)*(float64(i)+0.37)/20
		under, over, ok := across(p.panel.Cut, x)
		if !ok {
			continue
		}
		a, b := p.at(Point{X: x, Y: under}), p.at(Point{X: x, Y: over})
		down := Point{Y: 1}
		want := math.Abs(a.Y - b.Y)
		have := math.Abs(a.Y + d.middle(a, down) - b.Y - d.middle(b, down))
		if !(math.Abs(have-want) <= readBack) {
			t.Errorf("%s: %.2f mm broad %.1f in along, want %.2f", p.panel.Name, have, x-low.X, want)
		}
		measured++
	}
	if measured < 10 {
		t.Errorf("%s was measured at %d places only", p.panel.Name, measured)
	}
}

// across is where an upright line crosses an outline, when it does so twice and
// the outline is not steep there.
func across(outline []Point, x float64) (low, high float64, ok bool) {
	var at []float64
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.X > x) == (b.X > x) {
			continue
		}
		slope := (b.Y - a.Y) / (b.X - a.X)
		if math.Abs(slope) > 0.5 {
			return 0, 0, false
		}
		at = append(at, a.Y+slope*(x-a.X))
	}
	if len(at) != 2 {
		return 0, 0, false
	}
	return min(at[0], at[1]), max(at[0], at[1]), true
}
