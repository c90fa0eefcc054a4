package digits

// Distribution says what a box may hold. Its probabilities add up to 1.
type Distribution struct {
	Digit      [10]float64
	Blank      float64
	Unreadable float64 // crossed out, written over, or no digit at all
}

// Best returns the most probable digit and its probability.
func (d Distribution) Best() (digit int, probability float64) {
	for i, p := range d.Digit {
		if p > probability {
			digit, probability = i, p
		}
	}
	return digit, probability
}

// Reader reads boxes. It may be used by several goroutines at once.
type Reader struct {
	network *network
}

// NewReader returns a reader with the built-in weights. It fails only where
// those are damaged, with ErrWeights.
func NewReader() (*Reader, error) {
	network, err := decode(weightsFile)
	if err != nil {
		return nil, err
	}
	return &Reader{network}, nil
}

// Read returns what a box may hold.
func (r *Reader) Read(box *Box) Distribution {
	p := r.network.run(normalise(box))
	return Distribution{Digit: [10]float64(p[:10]), Blank: p[10], Unreadable: p[11]}
}
