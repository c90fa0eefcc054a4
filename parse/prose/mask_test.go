package prose

import (
	"regexp/syntax"
	"testing"
)

// A pattern that is passed over for want of digits must not have matched.
func TestHarmlessDigits(t *testing.T) {
	for _, p := range harmless {
		parsed, err := syntax.Parse(p.look.String(), syntax.Perl)
		if err != nil {
			t.Fatal(err)
		}
		if least := leastDigits(parsed); p.digits > least {
			t.Errorf("%s: matches with %d digits, tried with %d", p.look, least, p.digits)
		}
	}
}

// leastDigits is how many digits a match has at least.
func leastDigits(re *syntax.Regexp) int {
	switch re.Op {
	case syntax.OpLiteral:
		return digitsIn(string(re.Rune))
	case syntax.OpCharClass:
		if re.Rune[0] >= '0' && re.Rune[len(re.Rune)-1] <= '9' {
			return 1
		}
	case syntax.OpConcat:
		sum := 0
		for _, sub := range re.Sub {
			sum += leastDigits(sub)
		}
		return sum
	case syntax.OpAlternate:
		least := leastDigits(re.Sub[0])
		for _, sub := range re.Sub[1:] {
			least = min(least, leastDigits(sub))
		}
		return least
	case syntax.OpCapture, syntax.OpPlus:
		return leastDigits(re.Sub[0])
	case syntax.OpRepeat:
		return re.Min * leastDigits(re.Sub[0])
	}
	return 0
}
