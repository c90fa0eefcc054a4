package parse

import (
	"regexp"
	"sync"
	"sync/atomic"
)

// Pattern is a regular expression for words that most texts do not hold. Where
// nothing in a text begins as a match does, by its first three signs, the
// expression is not tried: it would take ten times as long or more to say so.
type Pattern struct {
	*regexp.Regexp
	tried atomic.Int64 // bytes of texts
	begin func() *beginnings
}

// patience is how many bytes an expression is tried on until its beginnings are
// looked for, which takes as long as that.
const patience = 16 << 10

// NewPattern compiles an expression. It panics when that is none.
func NewPattern(expression string) *Pattern {
	return &Pattern{Regexp: regexp.MustCompile(expression), begin: sync.OnceValue(func() *beginnings { return beginningsOf(expression) })}
}

func (p *Pattern) mayMatch(s string) bool {
	return p.tried.Load() < patience && p.tried.Add(int64(len(s))) < patience || p.begin().in(s)
}

// MatchString reports a match in a text.
func (p *Pattern) MatchString(s string) bool { return p.mayMatch(s) && p.Regexp.MatchString(s) }

// FindString returns the first match in a text, "" for none.
func (p *Pattern) FindString(s string) string {
	if !p.mayMatch(s) {
		return ""
	}
	return p.Regexp.FindString(s)
}

// FindStringIndex returns where the first match lies, nil for none.
func (p *Pattern) FindStringIndex(s string) []int {
	if !p.mayMatch(s) {
		return nil
	}
	return p.Regexp.FindStringIndex(s)
}

// FindStringSubmatch returns the first match and its parts, nil for none.
func (p *Pattern) FindStringSubmatch(s string) []string {
	if !p.mayMatch(s) {
		return nil
	}
	return p.Regexp.FindStringSubmatch(s)
}

// FindStringSubmatchIndex returns where the first match and its parts lie, nil
// for none.
func (p *Pattern) FindStringSubmatchIndex(s string) []int {
	if !p.mayMatch(s) {
		return nil
	}
	return p.Regexp.FindStringSubmatchIndex(s)
}

// FindAllStringIndex returns where the first n matches lie, all for n below 0.
func (p *Pattern) FindAllStringIndex(s string, n int) [][]int {
	if !p.mayMatch(s) {
		return nil
	}
	return p.Regexp.FindAllStringIndex(s, n)
}

// FindAllStringSubmatchIndex returns where the first n matches and their parts
// lie, all for n below 0.
func (p *Pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	if !p.mayMatch(s) {
		return nil
	}
	return p.Regexp.FindAllStringSubmatchIndex(s, n)
}

// ReplaceAllString puts something in place of every match.
func (p *Pattern) ReplaceAllString(s, by string) string {
	if !p.mayMatch(s) {
		return s
	}
	return p.Regexp.ReplaceAllString(s, by)
}
