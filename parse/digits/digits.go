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

// Glance is Read with one look, which takes a fraction of the time where it is
// not sure.
func (r *Reader) Glance(box *Box) Distribution {
	return asOnPaper(r.network.run(normalise(box, views[0])))
}

// Read returns what a box may hold.
func (r *Reader) Read(box *Box) Distribution {
	p := r.network.run(normalise(box, views[0]))
	plain := asOnPaper(p)
	if plain.surest() >= enough {
		return plain
	}
	for _, v := range views[1:] {
		for class, q := range r.network.run(normalise(box, v)) {
			p[class] += q
		}
	}
	for class := range p {
		p[class] /= float64(len(views))
	}
	return asOnPaper(p)
}

// enough is the probability from which one look is enough.
const enough = 0.995

// unreadableOnPaper is how much rarer boxes that nobody can read are on paper
// than among those that the network learnt from: some 0.7 of 100 (common
// practice, no source) against 7.
const unreadableOnPaper = 0.1

// asOnPaper makes the probabilities those of boxes as people fill them: by the
// rule of Bayes each class is weighed by how much rarer it is there.
func asOnPaper(p [classes]float64) Distribution {
	rest := 1 - p[unreadable]*(1-unreadableOnPaper)
	d := Distribution{Blank: p[blank] / rest, Unreadable: p[unreadable] * unreadableOnPaper / rest}
	for digit := range d.Digit {
		d.Digit[digit] = p[digit] / rest
	}
	return d
}

// surest is the probability of what is most probable.
func (d Distribution) surest() float64 {
	_, p := d.Best()
	return max(p, d.Blank, d.Unreadable)
}
