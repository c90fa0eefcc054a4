// Package parse holds the nouns of a survey - lengths, readings with their
// sources, problems - and the rules for writing lengths and for merging what
// several files say into one survey.
package parse
