package photo

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"
)

const (
	patchSide  = 128            // pixels of the pieces in which a screen's dots are sought
	patchBlock = 16             // of them, over which dots even out and print does not
	evenness   = 0.015          // how much the blocks of bare paper differ at most, in shares of their light
	screenPeak = 5.0            // times the middle strength of the frequencies beside; paper by three renderers has up to 3.6
	coarsest   = patchSide / 10 // of the fine frequencies: waves of 10 pixels
	besidePeak = 10             // how many of them to both sides a peak is held against
	evenPieces = 6              // the barest pieces of a page, that are looked at
)

// screenLike reports the dots or stripes of a screen: fine frequencies that
// stand out above those beside them where a page is bare, as no paper's grain
// does. It is asked only of a page that cannot be read: many photos of screens can.
func (v *view) screenLike() bool {
	type piece struct {
		x, y   int
		uneven float64
	}
	var pieces []piece
	w, h := v.paper.Size()
	for j := 1; j < 12; j++ {
		for i := 1; i < 10; i++ {
			middle := v.h.point(point{w * float64(i) / 10, h * float64(j) / 12})
			x, y := int(middle.x)-patchSide/2, int(middle.y)-patchSide/2
			if x < 0 || y < 0 || x+patchSide > v.light.w || y+patchSide > v.light.h {
				continue
			}
			if u := unevenness(v.light, x, y); u < evenness {
				pieces = append(pieces, piece{x, y, u})
			}
		}
	}
	slices.SortFunc(pieces, func(a, b piece) int { return cmp.Compare(a.uneven, b.uneven) })
	var peaks []float64
	for _, p := range pieces[:min(len(pieces), evenPieces)] {
		peaks = append(peaks, finePeak(v.light, p.x, p.y))
	}
	slices.Sort(peaks)
	return len(peaks) > 0 && peaks[len(peaks)/2] > screenPeak
}

// unevenness is the deviation of the blocks of a piece of the picture from their
// mean, in shares of it.
func unevenness(p *plane, x0, y0 int) float64 {
	var blocks []float64
	for y := y0; y < y0+patchSide; y += patchBlock {
		for x := x0; x < x0+patchSide; x += patchBlock {
			sum := 0
			for v := range patchBlock {
				for _, light := range p.pix[(y+v)*p.w+x:][:patchBlock] {
					sum += int(light)
				}
			}
			blocks = append(blocks, float64(sum))
		}
	}
	mean, deviation := stat.PopMeanStdDev(blocks, nil)
	return deviation / max(mean, 1)
}

// finePeak is how far the strongest of the fine frequencies along rows or columns,
// summed over a piece of the picture, stands above those beside it. What a
// telephone smooths has less of the finest, but no such peaks.
func finePeak(p *plane, x0, y0 int) float64 {
	fft := fourier.NewFFT(patchSide)
	power := make([]float64, patchSide/2+1)
	line := make([]float64, patchSide)
	for _, upright := range []bool{false, true} {
		for k := range patchSide {
			mean := 0.0
			for i := range patchSide {
				at := (y0+k)*p.w + x0 + i
				if upright {
					at = (y0+i)*p.w + x0 + k
				}
				line[i] = float64(p.pix[at])
				mean += line[i] / patchSide
			}
			for i := range line {
				line[i] = (line[i] - mean) * (1 - math.Cos(2*math.Pi*float64(i)/patchSide)) // Hann's window
			}
			for i, c := range fft.Coefficients(nil, line) {
				power[i] += real(c * cmplx.Conj(c))
			}
		}
	}
	most := 0.0
	for k := coarsest; k < len(power); k++ {
		if ofBlocks(k) {
			continue
		}
		var beside []float64
		for j := max(k-besidePeak, coarsest); j <= min(k+besidePeak, len(power)-1); j++ {
			if max(j-k, k-j) > 1 && !ofBlocks(j) { // Hann's window makes three of one
				beside = append(beside, power[j])
			}
		}
		slices.Sort(beside)
		most = max(most, power[k]/max(beside[len(beside)/2], 1))
	}
	return most
}

// ofBlocks reports frequencies that the blocks of a JPEG have, of 8, 4 or 2 pixels.
func ofBlocks(k int) bool { return k%16 <= 1 || k%16 >= 15 }
