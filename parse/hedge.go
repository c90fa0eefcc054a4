package parse

import (
	"strconv"
	"strings"
)

var (
	dittoPattern = NewPattern(`^(?:["'-]+|["'. -]*"["'. -]*|do\.?|id\.?|idem|ditto|same( as .*)?|pareil|meme( .*)?|as above|see above)$`)
	roughSigns   = NewPattern(`^[~≈±<>]|[?~±+]$`)
	cellError    = NewPattern(`^(?:#[a-z]|err:\d)`)
	rangePattern = NewPattern(`\d\s*(?:\bto\b|\bor\b|\bou\b|\ba\b|\.\.+|…)\s*\d`)
	datePattern  = NewPattern(`(?:^\d{4}-\d\d?-\d\d?(?:[ t].*)?$)|(?:^\d\d?[/.]\d\d?[/.]\d{2,4}$)|(?:^\d\d?-\d\d?-\d{2,4}$)|(?:\b(?:jan(?:uary|v|vier)?|feb(?:ruary)?|fev(?:r|rier)?|mar(?:ch|s)?|apr(?:il)?|avr(?:il)?|may|mai|june?|juin|july?|juil(?:l|let)?|aug(?:ust)?|aout?|sept?(?:ember|embre)?|oct(?:ober|obre)?|nov(?:ember|embre)?|dec(?:ember|embre)?)\b)|(?:\d:\d\d)`)
)

// hedge finds what is written in place of a number, or around it, so that the
// number is not sure.
func hedge(s string) Fault {
	if bareNumber(s) {
		return Fault{}
	}
	digit := strings.ContainsAny(s, "0123456789")
	switch {
	case s == "":
		return fault(CodeNotALength, "There is no length here.")
	case digit && datePattern.MatchString(s):
		return fault(CodeDate, "The number was turned into a date or a time.")
	case strings.HasPrefix(s, "="):
		return fault(CodeFormula, "There is a formula in place of the number.")
	case cellError.MatchString(s):
		return fault(CodeCellError, "The spreadsheet shows an error in place of the number.")
	case strings.HasPrefix(s, "-") && len(s) > 1 && s[1] >= '0' && s[1] <= '9':
		return fault(CodeNotALength, "The number is below zero.")
	case dittoPattern.MatchString(s) && s != "-" && s != "--" && s != "---":
		return fault(CodeDitto, "The number is given as the same as another.")
	case !digit:
		return fault(CodeNotALength, "There is no length here.")
	case rangePattern.MatchString(s):
		return fault(CodeRange, "Two numbers are given where one is expected.")
	case givenRoughly(s):
		return fault(CodeApproximate, "The number is given as a rough one.")
	}
	return Fault{}
}

// givenRoughly reports words or signs around the digits of a text that make the
// number rough.
func givenRoughly(s string) bool {
	first, last := strings.IndexAny(s, "0123456789"), strings.LastIndexAny(s, "0123456789")
	after := s[last+1:]
	end := DoubtAfter(after)
	return roughSigns.MatchString(s) || DoubtBefore(s[:first]) >= 0 || end > 0 && strings.Trim(after[end:], " .)") == ""
}

// bareNumber reports digits with at most one point among them: most of what a
// survey holds, and nothing that a word or a sign could make unsure.
func bareNumber(s string) bool {
	points := 0
	for i := range len(s) {
		switch c := s[i]; {
		case c == '.':
			points++
		case c < '0' || c > '9':
			return false
		}
	}
	return len(s) > points && points <= 1
}

var joinedFraction = NewPattern(`^(\d+)(\d)/(\d+)(.*)$`)

// mayMean lists what a text with the given fault may stand for.
func mayMean(s string, code Code) []Amount {
	switch code {
	case CodeRange, CodeSeveralNumbers:
		return numbersIn(s)
	case CodeThousands:
		t := tokenPattern.FindString(s)
		decimal, err := strconv.ParseFloat(strings.Replace(t, ",", ".", 1), 64)
		if err != nil {
			return nil
		}
		return []Amount{{decimal, Bare}, {decimal * 1000, Bare}}
	case CodeFraction:
		m := joinedFraction.FindStringSubmatch(s)
		if m == nil {
			return nil
		}
		var may []Amount
		for _, text := range []string{m[1] + " " + m[2] + "/" + m[3] + m[4], m[1] + m[2] + " 1/2" + m[4]} {
			p := lengthParser{tokens: scan(text)}
			if a, f := p.length(); !f.Some() && p.done() {
				may = append(may, a)
			}
		}
		return may
	}
	return nil
}

// numbersIn lists the lengths that stand in a text beside words and signs,
// one for each run of numbers and units.
func numbersIn(s string) []Amount {
	if datePattern.MatchString(s) || strings.HasPrefix(s, "=") {
		return nil
	}
	p := lengthParser{tokens: scan(s)}
	var found []Amount
	for !p.done() {
		if !p.peek(0).number {
			p.at++
			continue
		}
		before := p.at
		a, f := p.length()
		if f.Some() {
			if p.at == before {
				p.at++
			}
			if f.Code != CodeRange {
				continue
			}
			n, _ := plainNumber(p.tokens[before].text)
			a = Amount{n.value, Bare}
		}
		found = append(found, a)
	}
	// "46-47 in": the unit counts for both.
	if n := len(found); n > 1 && found[n-1].Scale != Bare {
		for i := range found {
			if found[i].Scale == Bare {
				found[i].Scale = found[n-1].Scale
			}
		}
	}
	return found
}
