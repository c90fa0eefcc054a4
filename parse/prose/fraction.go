package prose

import (
	"regexp"

	"fairtape/parse"
)

// A part of a unit told in words behind a number: "41 and two thirds", "52 plus
// a quarter", "39 half". What the grammar of lengths knows of it is part of the
// number already; a number never loses the rest without a word.
var (
	partInWords = regexp.MustCompile(`(?i)^[\s,]*(?:(?:and|&|\+|et|plus)\s+(?:(?:an?|one|une?|two|deux|three|trois|five|cinq|seven|sept)\s+)?|(?:an?|one|une?)\s+)(?:halves|half|quarters?|thirds?|eighths?|sixteenths?|demie?s?|quarts?|tiers|huiti[eè]mes?|seizi[eè]mes?)\b`)
	bareHalf    = regexp.MustCompile(`(?i)^\s+(?:half|demie?)\s*(?:[.,;)]|$)`)
)

func partTold(after string) parse.Fault {
	if partInWords.MatchString(after) || bareHalf.MatchString(after) {
		return parse.Fault{Code: parse.CodeFraction, Message: "The fraction can be understood in more than one way."}
	}
	return parse.Fault{}
}
