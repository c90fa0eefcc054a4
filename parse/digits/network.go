package digits

import (
	_ "embed" // the weights
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas32"
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
	weights                 []float32 // outputs x (inputs x 3 x 3), row by row
	biases                  []float32
}

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
		l.weights = in.steps(in.halves(l.outputs), l.inputs*9)
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

// run returns the probability of each class for one normalised picture.
func (n *network) run(picture []float32) [classes]float64 {
	size := side
	x := picture
	for _, l := range n.layers {
		x, size = l.run(x, size)
	}
	area := size * size
	var logits [classes]float64
	for class := range logits {
		sum := n.biases[class]
		row := n.weights[class*len(x)/area : (class+1)*len(x)/area]
		for feature, weight := range row {
			mean := float32(0)
			for _, v := range x[feature*area : (feature+1)*area] {
				mean += v
			}
			sum += weight * mean / float32(area)
		}
		logits[class] = float64(sum / n.temperature)
	}
	return softmax(logits)
}

// run convolves a picture of size x size pixels, channel by channel, and
// returns the next one with its size.
func (l layer) run(x []float32, size int) ([]float32, int) {
	next := (size + l.stride - 1) / l.stride
	patches := l.patches(x, size, next)
	out := make([]float32, l.outputs*next*next)
	for channel, bias := range l.biases {
		row := out[channel*next*next : (channel+1)*next*next]
		for i := range row {
			row[i] = bias
		}
	}
	blas32.Gemm(blas.NoTrans, blas.NoTrans, 1,
		blas32.General{Rows: l.outputs, Cols: l.inputs * 9, Stride: l.inputs * 9, Data: l.weights},
		blas32.General{Rows: l.inputs * 9, Cols: next * next, Stride: next * next, Data: patches},
		1, blas32.General{Rows: l.outputs, Cols: next * next, Stride: next * next, Data: out})
	for i, v := range out {
		out[i] = max(v, 0)
	}
	if l.inputs == l.outputs && l.stride == 1 {
		for i, v := range x {
			out[i] += v
		}
	}
	return out, next
}

// patches lays the 3 x 3 surroundings of every pixel that the convolution looks
// at side by side, so that it becomes one product of matrices.
func (l layer) patches(x []float32, size, next int) []float32 {
	out := make([]float32, l.inputs*9*next*next)
	for channel := range l.inputs {
		plane := x[channel*size*size:]
		for tap := range 9 {
			dy, dx := tap/3-1, tap%3-1
			row := out[(channel*9+tap)*next*next:]
			for y := range next {
				from := y*l.stride + dy
				if from < 0 || from >= size {
					continue
				}
				for i := range next {
					if at := i*l.stride + dx; at >= 0 && at < size {
						row[y*next+i] = plane[from*size+at]
					}
				}
			}
		}
	}
	return out
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
