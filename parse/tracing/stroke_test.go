package tracing

import "testing"

// A dark line with a pale rim reaches as far as it is dark, wherever in its
// breadth the way along it runs; a line that is pale altogether near an end stops
// where it is dark.
func TestPiecesReachTheEnds(t *testing.T) {
	const w, h, x, long = 40, 200, 20, 150
	for name, c := range map[string]struct {
		core, rim float32
		paleFrom  int // row from which the core is no darker than the rim
		want      int // length of the piece
	}{
		"rims as pale as they may be":  {0.3, 0.04, long, long},
		"no rims":                      {0.3, 0, long, long},
		"pale over its last third":     {0.3, 0.04, 100, 101},
		"pale over all of its length":  {0.04, 0.04, 0, 0},
		"dark over all of its breadth": {0.3, 0.3, long, long},
	} {
		for _, rims := range [][]int{{-1, 1}, {1}, {-1}} {
			p := &plane{w: w, h: h}
			dark := make([]float32, w*h)
			for y := range long {
				at := (y+20)*w + x
				dark[at] = c.core
				if y >= c.paleFrom {
					dark[at] = c.rim
				}
				for _, aside := range rims {
					dark[at+aside] = c.rim
				}
			}
			pieces := p.pieces(dark)
			got := 0
			if len(pieces) > 0 {
				got = len(pieces[0])
			}
			if got < c.want-1 || got > c.want+1 {
				t.Errorf("%s, rims at %v: %d pixels long, want %d", name, rims, got, c.want)
			}
		}
	}
}
