package digits

import (
	_ "embed" // the weights
	"encoding/binary"
	"errors"
	"fmt"
	"math"
)

//go:embed weights.bin
var weightsFile []byte

// ErrWeights is returned for weights that were not written by net.py.
var ErrWeights = errors.New("digits: the weights are damaged")

// The network's classes: ten digits and two more.
const (
	blank = 10 + iota
	unreadable
	classes
)

// network is a row of 3 x 3 convolutions with rectifiers, the mean over what is
// left of the picture, and one linear layer. What goes into a convolution that
// keeps its shape is added to what comes out.
type network struct {
	layers      []layer
	weights     []float32 // classes x features, row by row
	biases      []float32
	temperature float32
}

type layer struct {
	inputs, outputs, stride int
	weights                 []float32 // outputs x (3 x 3 x inputs), row by row
	biases                  []float32
}

// taps is how many pixels a convolution looks at.
const taps = 3 * 3

// decode reads weights as net.py writes them: a mark, the number of layers and
// the temperature, then each layer's shape, the size of a step for each output,
// its weights in such steps, and its biases.
func decode(data []byte) (*network, error) {
	const mark = "FTD2"
	if len(data) < len(mark)+5 || string(data[:len(mark)]) != mark {
		return nil, ErrWeights
	}
	in := reader{rest: data[len(mark):]}
	count := int(in.byte())
	net := &network{temperature: math.Float32frombits(in.uint32())}
	for range count {
		l := layer{inputs: in.uint16(), outputs: in.uint16(), stride: int(in.byte())}
		l.weights = byTap(in.steps(in.halves(l.outputs), l.inputs*taps), l.inputs)
		l.biases = in.halves(l.outputs)
		net.layers = append(net.layers, l)
	}
	features, outputs := in.uint16(), in.uint16()
	net.weights = in.halves(features * outputs)
	net.biases = in.halves(outputs)
	if in.short || len(in.rest) != 0 || outputs != classes {
		return nil, fmt.Errorf("%w: %d layers, %d outputs, %d bytes left", ErrWeights, count, outputs, len(in.rest))
	}
	return net, nil
}

// byTap turns weights from inputs x 3 x 3 to 3 x 3 x inputs, for each output, so
// that they lie as the pixels do.
func byTap(weights []float32, inputs int) []float32 {
	out := make([]float32, len(weights))
	for i, w := range weights {
		output, input, tap := i/(inputs*taps), i/taps%inputs, i%taps
		out[(output*taps+tap)*inputs+input] = w
	}
	return out
}

// run returns the probability of each class for one normalised picture.
func (n *network) run(picture []float32) [classes]float64 {
	size := side
	x := picture
	for _, l := range n.layers {
		x, size = l.run(x, size)
	}
	features := len(x) / (size * size)
	means := make([]float32, features)
	for i, v := range x {
		means[i%features] += v / float32(size*size)
	}
	var logits [classes]float64
	for class := range logits {
		sum := n.biases[class] + dot(n.weights[class*features:(class+1)*features], means)
		logits[class] = float64(sum / n.temperature)
	}
	return softmax(logits)
}

// run convolves a picture of size x size pixels, each with its channels side by
// side, and returns the next one with its size.
func (l layer) run(x []float32, size int) ([]float32, int) {
	next := (size + l.stride - 1) / l.stride
	out := make([]float32, next*next*l.outputs)
	reach := l.inputs * taps
	block := make([]float32, together*reach)
	var sums [together]float32
	for from := 0; from < next*next; from += together {
		pixels := min(together, next*next-from)
		for i := range pixels {
			l.surroundings(block[i*reach:(i+1)*reach], x, size, (from+i)/next*l.stride, (from+i)%next*l.stride)
		}
		for output, bias := range l.biases {
			dots(&sums, l.weights[output*reach:(output+1)*reach], block)
			for i, sum := range sums[:pixels] {
				out[(from+i)*l.outputs+output] = max(0, bias+sum)
			}
		}
	}
	if l.inputs == l.outputs && l.stride == 1 {
		for i, v := range x {
			out[i] += v
		}
	}
	return out, next
}

// surroundings lays the nine pixels around one side by side, zeros for those
// beyond the edge.
func (l layer) surroundings(out, x []float32, size, row, column int) {
	for tap := range taps {
		y, i := row+tap/3-1, column+tap%3-1
		to := out[tap*l.inputs : (tap+1)*l.inputs]
		if y < 0 || y >= size || i < 0 || i >= size {
			clear(to)
		} else {
			copy(to, x[(y*size+i)*l.inputs:])
		}
	}
}

func softmax(logits [classes]float64) [classes]float64 {
	most := math.Inf(-1)
	for _, v := range logits {
		most = max(most, v)
	}
	sum := 0.0
	for i, v := range logits {
		logits[i] = math.Exp(v - most)
		sum += logits[i]
	}
	for i := range logits {
		logits[i] /= sum
	}
	return logits
}

// reader takes little-endian numbers off the front of a file; once it runs
// short it gives zeros.
type reader struct {
	rest  []byte
	short bool
}

func (r *reader) take(n int) []byte {
	if n > len(r.rest) {
		r.short, r.rest = true, nil
		return nil
	}
	out := r.rest[:n]
	r.rest = r.rest[n:]
	return out
}

func (r *reader) byte() byte {
	if b := r.take(1); b != nil {
		return b[0]
	}
	return 0
}

func (r *reader) uint16() int {
	if b := r.take(2); b != nil {
		return int(binary.LittleEndian.Uint16(b))
	}
	return 0
}

func (r *reader) uint32() uint32 {
	if b := r.take(4); b != nil {
		return binary.LittleEndian.Uint32(b)
	}
	return 0
}

// halves reads n IEEE 754 half-precision numbers.
func (r *reader) halves(n int) []float32 {
	data := r.take(2 * n)
	if data == nil {
		return nil
	}
	out := make([]float32, n)
	for i := range out {
		out[i] = half(binary.LittleEndian.Uint16(data[2*i:]))
	}
	return out
}

// steps reads n weights for each output, as whole numbers of its steps.
func (r *reader) steps(sizes []float32, n int) []float32 {
	data := r.take(n * len(sizes))
	if data == nil {
		return nil
	}
	out := make([]float32, len(data))
	for i, b := range data {
		out[i] = float32(int8(b)) * sizes[i/n]
	}
	return out
}

// half widens a half-precision number.
func half(bits uint16) float32 {
	sign := float64(1)
	if bits&0x8000 != 0 {
		sign = -1
	}
	exponent, fraction := int(bits>>10&0x1f), float64(bits&0x3ff)
	if exponent == 0 {
		return float32(sign * math.Ldexp(fraction, -24))
	}
	return float32(sign * math.Ldexp(1+fraction/1024, exponent-15))
}
