package known

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"fairtape/parse"
)

// miswrite returns what stands on the sheet where the slip befalls truth, both
// in the survey's unit, and what a finding calls it. It reports false where the
// slip cannot befall this number.
func (s Sheet) miswrite(rng *rand.Rand, slip Slip, truth float64) (wrote float64, name string, ok bool) {
	metric := s.Tape.Unit == parse.Centimetre
	sign := 1.0
	if rng.IntN(2) == 0 {
		sign = -1
	}
	switch slip {
	case Digit:
		wrote, ok = misreadDigit(rng, truth)
		return wrote, "digit", ok && nameOf(truth, wrote, metric, "") == "digit"
	case Ten:
		return truth + 10*sign, "off-by-ten", true
	case Foot:
		return truth + inchesPerFoot*sign, nameOf(truth, truth+inchesPerFoot*sign, metric, "off-by-foot"), !metric
	case Tape4to6:
		return truth + s.off(rng, 4, 6), "misread-tape", true
	case Tape2to3:
		return truth + s.off(rng, 2, 3), "misread-tape", true
	}
	return always(slip, truth, s.Tape.Unit)
}

// always is miswrite for the slips that spoil a number in one way only.
func always(slip Slip, truth float64, unit parse.Unit) (wrote float64, name string, ok bool) {
	metric := unit == parse.Centimetre
	switch slip {
	case Transposed:
		wrote, ok = transpose(truth)
		return wrote, nameOf(truth, wrote, metric, "transposed"), ok
	case MetricEdge:
		if metric {
			return math.Round(truth / centimetresPerInch), "metric-edge", true
		}
		return math.Round(truth*centimetresPerInch*2) / 2, "metric-edge", true
	case Joined:
		feet := math.Floor(truth / inchesPerFoot)
		wrote, ok = joined(feet, truth-feet*inchesPerFoot)
		return wrote, nameOf(truth, wrote, metric, "feet-inches-joined"), ok && !metric
	case DecimalLost:
		return 10 * truth, "decimal-lost", !metric && truth != math.Floor(truth)
	case HalfLost:
		return truth - 0.5, "", !metric && truth != math.Floor(truth)
	case TapeShort:
		short := 60.0
		if metric {
			short = 150
		}
		return truth - short, "tape-length", truth > short+1
	}
	return truth, "", false
}

// off returns an error of the tape between lo and hi inches, on the survey's
// grid. Slack and things under the tape make most such girths too large.
func (s Sheet) off(rng *rand.Rand, lo, hi float64) float64 {
	x := between(rng, lo, hi)
	if rng.Float64() < 0.35 {
		x = -x
	}
	if s.Tape.Unit == parse.Centimetre {
		return math.Round(x * centimetresPerInch)
	}
	return math.Round(x*2) / 2
}

// nameOf names a wrong number by the first that fits of off-by-ten,
// transposed, off-by-foot and digit, as findings do, else by the slip that made
// it: 5 ft 3 in run together, 53 for 63, cannot be told from a ten dropped.
func nameOf(truth, wrote float64, metric bool, otherwise string) string {
	swapped, ok := transpose(truth)
	switch off := math.Abs(wrote - truth); {
	case off == 10:
		return "off-by-ten"
	case ok && swapped == wrote:
		return "transposed"
	case off == inchesPerFoot && !metric:
		return "off-by-foot"
	case oneDigit(truth, wrote):
		return "digit"
	}
	return otherwise
}

// Names returns what the slips of one number are called that write wrote for
// truth, both in the unit: the first that fits of off-by-ten, transposed,
// off-by-foot and digit, and every other that fits. None says that only the
// tape explains it.
func Names(truth, wrote float64, unit parse.Unit) []string {
	metric := unit == parse.Centimetre
	var names []string
	if name := nameOf(truth, wrote, metric, ""); name != "" {
		names = append(names, name)
	}
	for _, slip := range []Slip{MetricEdge, Joined, DecimalLost, TapeShort} {
		would, name, ok := always(slip, truth, unit)
		if ok && would == wrote && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// oneDigit reports numbers that differ in one digit of the whole part.
func oneDigit(a, b float64) bool {
	wholeA, restA := math.Modf(a)
	wholeB, restB := math.Modf(b)
	textA, textB := strconv.Itoa(int(wholeA)), strconv.Itoa(int(wholeB))
	if restA != restB || len(textA) != len(textB) {
		return false
	}
	differ := 0
	for i := range textA {
		if textA[i] != textB[i] {
			differ++
		}
	}
	return differ == 1
}

// transpose exchanges two neighbouring digits of the whole part: the last two.
func transpose(x float64) (float64, bool) {
	whole, rest := math.Modf(x)
	ones, tens, hundreds := math.Mod(whole, 10), math.Mod(math.Floor(whole/10), 10), math.Floor(whole/100)
	if whole < 10 || ones == tens {
		return x, false
	}
	return hundreds*100 + ones*10 + tens + rest, ones > 0 || hundreds > 0
}

// joined returns feet and inches run together: 3 ft 11 in as 311, 4 ft 6 1/2
// as 46.5.
func joined(feet, inches float64) (float64, bool) {
	whole, half := math.Modf(inches)
	text := strconv.Itoa(int(feet)) + strconv.Itoa(int(whole))
	x, err := strconv.ParseFloat(text, 64)
	return x + half, err == nil && feet >= 1
}

// alike lists for each digit those it is miswritten for by a hurried hand, most
// like first. Common practice, no source.
var alike = [10][]int{
	{6, 8, 9}, {7, 4, 2}, {7, 3, 1}, {8, 5, 2}, {9, 1, 7},
	{3, 6, 8}, {0, 8, 5}, {1, 2, 4}, {3, 6, 0}, {4, 7, 0},
}

// The share of miswritten digits that look alike; the others are any digit. And
// the share that befall the last whole digit rather than one before it.
const (
	shareAlike = 0.7
	shareLast  = 0.7
)

// misreadDigit replaces one digit of the whole part.
func misreadDigit(rng *rand.Rand, truth float64) (float64, bool) {
	whole, rest := math.Modf(truth)
	text := []byte(strconv.Itoa(int(whole)))
	i := len(text) - 1
	if i > 0 && rng.Float64() >= shareLast {
		i = rng.IntN(i)
	}
	was := int(text[i] - '0')
	now := rng.IntN(10)
	if rng.Float64() < shareAlike {
		now = alike[was][min(int(3*rng.Float64()*rng.Float64()), 2)]
	}
	if now == was || i == 0 && now == 0 {
		return truth, false
	}
	text[i] = byte('0' + now)
	x, err := strconv.Atoi(string(text))
	return float64(x) + rest, err == nil
}
