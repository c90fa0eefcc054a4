package parse

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// ParseLength reads one length as people write it: 35.5, 35 1/2", 2'11½",
// 2 ft 11.5 in, 80,5 cm, 0.8 m. After feet a bare number is inches. What can
// be understood in more than one way is a Fault, never a guess. Words and
// blanks that hold no number at all are the fault CodeNotALength.
func ParseLength(text string) (Amount, Fault) {
	s := Fold(joinThousands(text))
	if f := hedge(s); f.Some() {
		f.May = numbersIn(s)
		return Amount{}, f
	}
	p := lengthParser{tokens: scan(strings.TrimSpace(s))}
	a, f := p.length()
	if !f.Some() && !p.done() {
		a, f = p.second(a)
	}
	if f.Some() {
		f.May = mayMean(s, f.Code)
		return Amount{}, f
	}
	return a, Fault{}
}

// Thousands are set apart by a narrow space, which stands between no two
// numbers, or by another one where millimetres are named: "1 200 mm".
var (
	narrowThousands = regexp.MustCompile(`(\d)[\x{2009}\x{202f}](\d{3})(\D|$)`)
	spacedThousands = regexp.MustCompile(`^\s*(\d{1,2})[ \x{a0}](\d{3}\s*(?:mm|millim[eè]tres?|millimeters?)\.?\s*)$`)
)

func joinThousands(text string) string {
	if !strings.ContainsAny(text, "m\u2009\u202f") {
		return text // most numbers
	}
	return spacedThousands.ReplaceAllString(narrowThousands.ReplaceAllString(text, "$1$2$3"), "$1$2")
}

func fault(code Code, message string) Fault { return Fault{Code: code, Message: message} }

// shortestBoat is the least length overall taken without asking, in
// millimetres: 4 ft. A bare number that would make a shorter boat (15.9, 16,
// 4.8) was meant in feet or metres, or as feet and inches with a point.
const shortestBoat = 4 * 12 * millimetresPerInch

// ParseOverall reads a length overall. It is ParseLength but for bare numbers
// that can be no length overall in the given scale, and for tenths of a foot
// that may be inches: both are faults.
func ParseOverall(text string, bare Scale) (Amount, Fault) {
	a, f := ParseLength(text)
	if f.Some() {
		return a, f
	}
	l, ok := a.Length(bare)
	if a.Scale == Bare && (bare == Bare && a.Number < 100 || ok && l < shortestBoat) {
		f = fault(CodeUnclearOverall, "The length overall may be feet, feet and inches, or metres.")
		f.May = []Amount{{a.Number, ScaleFoot}, {a.Number, ScaleM}}
		return Amount{}, f
	}
	if (a.Scale == ScaleFoot || a.Scale == Bare && bare == ScaleFoot) && inchesAsTenths(Fold(text)) {
		f = fault(CodeUnclearFeet, "The figure after the point may be inches or tenths of a foot.")
		f.May = []Amount{{a.Number, ScaleFoot}}
		return Amount{}, f
	}
	return a, Fault{}
}

var decimalFeet = regexp.MustCompile(`^\D*\d+[.,](\d+)`)

// inchesAsTenths reports decimal feet whose decimals read as a number of
// inches: 15.9, 15.10, 15.11. Halves are common usage, and 15.75 can be only
// one thing.
func inchesAsTenths(s string) bool {
	m := decimalFeet.FindStringSubmatch(s)
	if m == nil {
		return false
	}
	n, err := strconv.Atoi(m[1])
	return err == nil && n >= 1 && n <= 11 && m[1] != "5"
}

// A token of a written length: a number, a word, or one sign.
type token struct {
	text   string
	number bool
	spaced bool // there is a space before it
}

var tokenPattern = regexp.MustCompile(`\d+(?:[.,]\d+)*|[.,]\d+|\pL+|\S`)

func scan(s string) []token {
	var tokens []token
	for _, at := range tokenPattern.FindAllStringIndex(s, -1) {
		text := s[at[0]:at[1]]
		c := text[len(text)-1]
		tokens = append(tokens, token{
			text:   text,
			number: c >= '0' && c <= '9',
			spaced: at[0] > 0 && s[at[0]-1] == ' ',
		})
	}
	return tokens
}

type lengthParser struct {
	tokens []token
	at     int
}

func (p *lengthParser) done() bool { return p.at >= len(p.tokens) }

func (p *lengthParser) peek(ahead int) token {
	if p.at+ahead < len(p.tokens) {
		return p.tokens[p.at+ahead]
	}
	return token{}
}

// take steps over the next token when it is one of the given.
func (p *lengthParser) take(any ...string) bool {
	for _, t := range any {
		if p.peek(0).text == t {
			p.at++
			return true
		}
	}
	return false
}

// length reads feet and inches, metres and centimetres, or one number with or
// without a unit.
func (p *lengthParser) length() (Amount, Fault) {
	n, f := p.mixed()
	if f.Some() {
		return Amount{}, f
	}
	scale := p.scale()
	switch scale {
	case ScaleFoot:
		return p.afterFeet(n)
	case ScaleM:
		return p.afterMetres(n)
	case ScaleInch, ScaleCM:
		if f := p.partAfterUnit(&n); f.Some() {
			return Amount{}, f
		}
	}
	if scale == Bare && n.thousandsLike || scale != ScaleM && scale != ScaleInch && n.dotThousands {
		return Amount{}, fault(CodeThousands, "The sign before the last three figures may be a decimal point or mark thousands.")
	}
	if n.twoLike {
		return Amount{}, fault(CodeThousands, "The comma may be a decimal comma or stand between two numbers.")
	}
	if n.thousandsLike {
		return Amount{}, fault(CodeThousands, "The comma before the last three figures may be a decimal comma or mark thousands.")
	}
	return Amount{n.value, scale}, Fault{}
}

func (p *lengthParser) afterFeet(feet mixed) (Amount, Fault) {
	if feet.thousandsLike {
		return Amount{}, fault(CodeThousands, "The comma before the last three figures may be a decimal comma or mark thousands.")
	}
	save := p.at
	p.take("-", ",", "and", "et", "&", "+")
	if !p.peek(0).number {
		p.at = save
		return Amount{feet.value, ScaleFoot}, Fault{}
	}
	inches, f := p.mixed()
	if f.Some() {
		return Amount{}, f
	}
	scale := p.scale()
	switch scale {
	case Bare:
	case ScaleInch:
		if f := p.partAfterUnit(&inches); f.Some() {
			return Amount{}, f
		}
	default:
		p.at = save
		return Amount{feet.value, ScaleFoot}, Fault{}
	}
	if inches.value < 1 && inches.value > 0 && scale == Bare {
		return Amount{}, fault(CodeUnclearFeet, "The fraction may be of a foot or of an inch.")
	}
	if inches.value >= 12 || feet.value != math.Trunc(feet.value) {
		return Amount{}, fault(CodeSeveralNumbers, "The feet and inches do not fit together.")
	}
	return Amount{feet.value*12 + inches.value, ScaleInch}, Fault{}
}

// partAfterUnit adds a part that stands behind the unit: "35 po 1/2", "26 pouces
// et demi".
func (p *lengthParser) partAfterUnit(n *mixed) Fault {
	if n.value != math.Trunc(n.value) {
		return Fault{}
	}
	switch next := p.peek(0); {
	case next.number && p.peek(1).text == "/":
		v, f := p.fraction()
		n.value += v
		return f
	case next.text == "and" || next.text == "et" || next.text == "&" || next.text == "+":
		n.value += p.wordFraction()
	}
	return Fault{}
}

var twoFigures = regexp.MustCompile(`^\d\d$`)

func (p *lengthParser) afterMetres(metres mixed) (Amount, Fault) {
	next := p.peek(0)
	if !next.number {
		return Amount{metres.value, ScaleM}, Fault{}
	}
	cm, f := p.mixed()
	if f.Some() {
		return Amount{}, f
	}
	scale := p.scale()
	whole := metres.value == math.Trunc(metres.value)
	if !whole || cm.value >= 100 || scale != ScaleCM && (scale != Bare || !twoFigures.MatchString(next.text)) {
		return Amount{}, fault(CodeSeveralNumbers, "The metres and centimetres do not fit together.")
	}
	return Amount{metres.value*100 + cm.value, ScaleCM}, Fault{}
}

// scale steps over a unit when one comes next.
func (p *lengthParser) scale() Scale {
	s, ok := scaleWords[p.peek(0).text]
	if !ok {
		return Bare
	}
	p.at++
	p.take(".")
	return s
}

var scaleWords = map[string]Scale{
	`"`: ScaleInch, "in": ScaleInch, "ins": ScaleInch, "inch": ScaleInch, "inches": ScaleInch, "inchs": ScaleInch,
	"po": ScaleInch, "pouce": ScaleInch, "pouces": ScaleInch, "pce": ScaleInch,
	"'": ScaleFoot, "ft": ScaleFoot, "foot": ScaleFoot, "feet": ScaleFoot,
	"pi": ScaleFoot, "pied": ScaleFoot, "pieds": ScaleFoot,
	"cm": ScaleCM, "cms": ScaleCM, "centimetre": ScaleCM, "centimetres": ScaleCM, "centimeter": ScaleCM, "centimeters": ScaleCM,
	"mm": ScaleMM, "millimetre": ScaleMM, "millimetres": ScaleMM, "millimeter": ScaleMM, "millimeters": ScaleMM,
	"m": ScaleM, "metre": ScaleM, "metres": ScaleM, "meter": ScaleM, "meters": ScaleM,
}

// mixed is a number with or without a fraction.
type mixed struct {
	value         float64
	thousandsLike bool // 1,250
	dotThousands  bool // 1.250
	twoLike       bool // 35,36
}

func (p *lengthParser) mixed() (mixed, Fault) {
	first := p.peek(0)
	if !first.number {
		return mixed{}, fault(CodeNotALength, "There is no length here.")
	}
	if p.peek(1).text == "/" {
		v, f := p.fraction()
		return mixed{value: v}, f
	}
	n, f := plainNumber(first.text)
	if f.Some() {
		return n, f
	}
	p.at++
	if p.peek(0).text == "." && !p.peek(1).number { // "35."
		p.at++
	}
	joined := 0
	switch p.peek(0).text {
	case "-", "+", "&", "and", "et":
		joined = 1
		if v := p.wordFraction(); v > 0 {
			if n.value != math.Trunc(n.value) {
				return n, fault(CodeFraction, "A decimal number and a fraction stand together.")
			}
			n.value += v
			return n, Fault{}
		}
	}
	switch {
	case p.peek(joined).number && p.peek(joined+1).text == "/":
		if n.value != math.Trunc(n.value) {
			return n, fault(CodeFraction, "A decimal number and a fraction stand together.")
		}
		p.at += joined
		v, f := p.fraction()
		n.value += v
		return n, f
	case p.peek(0).text == "-" && p.peek(1).number:
		return n, fault(CodeRange, "Two numbers are given where one is expected.")
	}
	return n, Fault{}
}

// wordFraction steps over "and a half", "et demi", "and three quarters" and
// returns what they are worth, else 0.
func (p *lengthParser) wordFraction() float64 {
	i, parts := 1, 1.0
	switch p.peek(i).text {
	case "a", "an", "one", "un", "une":
		i++
	case "three", "trois":
		i, parts = i+1, 3
	}
	var each float64
	switch p.peek(i).text {
	case "half", "demi", "demie":
		each = 0.5
	case "quarter", "quarters", "quart", "quarts":
		each = 0.25
	}
	if parts*each >= 1 {
		return 0
	}
	if each > 0 {
		p.at += i + 1
	}
	return parts * each
}

// fraction reads one of the fractions found on a tape: halves to
// thirty-seconds, smaller than one.
func (p *lengthParser) fraction() (float64, Fault) {
	over, errOver := strconv.Atoi(p.peek(0).text)
	under, errUnder := strconv.Atoi(p.peek(2).text)
	unclear := fault(CodeFraction, "The fraction can be understood in more than one way.")
	if errOver != nil || errUnder != nil {
		return 0, unclear
	}
	switch under {
	case 2, 4, 8, 16, 32:
	default:
		return 0, unclear
	}
	if over < 1 || over >= under {
		return 0, unclear
	}
	p.at += 3
	return float64(over) / float64(under), Fault{}
}

var (
	decimalNumber  = regexp.MustCompile(`^\d*[.,]?\d+$`)
	thousandsComma = regexp.MustCompile(`^[1-9]\d{0,2},\d{3}$`)
	commaPair      = regexp.MustCompile(`^0*[1-9]\d*,(?:\d[1-9]|[1-9]\d)$`) // nobody counts from nothing: 0,35 is one number
	usualDecimals  = regexp.MustCompile(`,(?:25|50|75)$`)
	thousandsDot   = regexp.MustCompile(`^[1-9]\.\d{3}$`)
)

// maxNumber keeps absurd figures out; no boat measures ten million of
// anything.
const maxNumber = 1e7

func plainNumber(text string) (mixed, Fault) {
	if !decimalNumber.MatchString(text) {
		return mixed{}, fault(CodeThousands, "The points and commas can be understood in more than one way.")
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || v > maxNumber {
		return mixed{}, fault(CodeNotALength, "There is no length here.")
	}
	return mixed{
		value:         v,
		thousandsLike: thousandsComma.MatchString(text),
		dotThousands:  thousandsDot.MatchString(text),
		twoLike:       commaPair.MatchString(text) && !usualDecimals.MatchString(text),
	}, Fault{}
}

// sameLength is how far two ways of writing one length may lie apart,
// relatively: 15 ft 9 in (480 cm) is off by 0.02 %, 35.5 in (90 cm) by 0.2 %.
const sameLength = 0.008

// second allows a length to be repeated in another unit, "35.5 in (90 cm)".
func (p *lengthParser) second(a Amount) (Amount, Fault) {
	several := fault(CodeSeveralNumbers, "There is more here than one length.")
	p.take("(", "=", ",", "[")
	if !p.peek(0).number || a.Scale == Bare {
		return Amount{}, p.leftOver(several)
	}
	b, f := p.length()
	p.take(")", "]")
	if f.Some() || !p.done() || b.Scale == Bare || b.Scale == a.Scale {
		return Amount{}, several
	}
	la, _ := a.Length(Bare)
	lb, _ := b.Length(Bare)
	if math.Abs(float64(la-lb)) > sameLength*float64(la) {
		return Amount{}, several
	}
	return a, Fault{}
}

// leftOver names the fault of text after a length: another number, or words.
func (p *lengthParser) leftOver(several Fault) Fault {
	for _, t := range p.tokens[p.at:] {
		if t.number {
			return several
		}
	}
	return fault(CodeNotALength, "There are words beside the number.")
}
