package parse

// Source says where a number stands, so that every finding can show it.
type Source struct {
	File  string // "form.xlsx"; a part of a mail is "mail.eml/form.xlsx"
	Place string // "Survey!B3", "page 1, field bow", "line 12", or a pixel rectangle
	Raw   string // the text as it was written
}

// Candidate is one value that a reading may have, with its probability.
type Candidate struct {
	Value       Length
	Probability float64 // 0 to 1
}

// Sure is the confidence from which a reading is taken without asking a
// person of the shop. The contract fixes it.
const Sure = 0.9

// Typed is the confidence of a number that was typed and stands alone: keying
// errors are the customer's and are judged later, not doubted here.
const Typed = 1.0

// Reading is one number of a survey as it was read: a distribution over values
// with a best one. The zero Reading is a number that nobody wrote.
type Reading struct {
	Value        Length      // the most probable value; meaningful only when Known
	Known        bool        // false when nothing was read, or when sources disagree
	Confidence   float64     // probability that Value is what the customer wrote, 0 to 1
	Alternatives []Candidate // other values, most probable first; when sources disagree, all of them
	Source       Source
}

// Absent reports that nobody wrote this number: no value, no candidates, and
// no text that stands where a number should.
func (r Reading) Absent() bool {
	return !r.Known && len(r.Alternatives) == 0 && r.Source.Raw == ""
}

// Doubtful reports that something was written, but a person of the shop has to
// say what: there is no value, or its confidence is under Sure.
func (r Reading) Doubtful() bool { return !r.Absent() && (!r.Known || r.Confidence < Sure) }

// Certain reports a value that may be used without asking.
func (r Reading) Certain() bool { return r.Known && r.Confidence >= Sure }
