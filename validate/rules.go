package validate

import (
	"fairtape/parse"
)

// The rules that hold of any real boat. Their names are stable.
const (
	FullNotAboveHull   Rule = "full-not-above-hull"
	OpeningTooSmall    Rule = "opening-too-small"
	FullAboveTwiceHull Rule = "full-above-twice-hull"
	HeightFitsStations Rule = "height-fits-stations"
	GreatestBelow      Rule = "greatest-below-station"
	GreatestPlace      Rule = "greatest-place"
	OpeningControl     Rule = "opening-control"
	StationTwice       Rule = "station-twice"
	StationBeyond      Rule = "station-beyond-length"
	LengthOfBoat       Rule = "length-of-boat"
	CarryPointPlace    Rule = "carry-point-place"
	FairCurve          Rule = "fair-curve" // girths change smoothly along the boat
	RowOrder           Rule = "row-order"  // every row belongs to its station
	WholeColumn        Rule = "whole-column"
	MissingNumber      Rule = "missing"
)

// impossible is the probability that a number is wrong when the survey cannot
// be a boat with it.
const impossible = 0.99

// hardRules lists what no boat can be, and what hardly any is. A pair is judged
// as it was written; what holds numbers of several places against each other
// looks at the settled survey, without those that are asked for already.
func hardRules(s, settled parse.Survey) []Finding {
	var out []Finding
	out = append(out, lengthRules(s)...)
	out = append(out, stationRules(s)...)
	out = append(out, pairRules(s)...)
	out = append(out, heightRules(settled)...)
	out = append(out, greatestRules(settled)...)
	return append(out, carryRules(s)...)
}

// hair is a length, in millimetres, that only rounding in the computer makes.
const hair = 1e-6

// placed is a pair of girths with where it was taken.
type placed struct {
	parse.Pair
	hull, full, both parse.Cell
	inside           bool // not near an end
}

// placedPairs returns the pairs of which both girths are certain.
func placedPairs(s parse.Survey) []placed {
	var all []placed
	for _, st := range s.Stations {
		all = append(all, placed{st.Pair, parse.Cell{At: st.At, Measure: parse.HullGirth},
			parse.Cell{At: st.At, Measure: parse.FullGirth}, parse.Cell{At: st.At, Measure: parse.MeasurePair},
			st.At >= parse.Inches(insideEnds) &&
				!(s.LengthOverall.Certain() && s.LengthOverall.Value-st.At < parse.Inches(insideEnds))})
	}
	all = append(all, placed{s.Greatest.Pair, parse.Cell{Measure: parse.GreatestHullGirth},
		parse.Cell{Measure: parse.GreatestFullGirth}, parse.Cell{Measure: parse.GreatestPair}, true})
	all = append(all, placed{s.Transom, parse.Cell{Measure: parse.TransomHullGirth},
		parse.Cell{Measure: parse.TransomFullGirth}, parse.Cell{Measure: parse.TransomPair}, false})
	certain := all[:0]
	for _, p := range all {
		if p.HullGirth.Certain() && p.FullGirth.Certain() {
			certain = append(certain, p)
		}
	}
	return certain
}

// wrong makes the finding of a rule about one number.
func wrong(kind Kind, rule Rule, cell parse.Cell, read parse.Length, p float64, message string) Finding {
	return Finding{Kind: kind, Rule: rule, Cell: cell, Read: &read, Probability: p, Message: message}
}
