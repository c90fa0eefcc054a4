package parse

import (
	"regexp/syntax"
	"slices"
)

// sign is of what kind a byte of a text is: a letter, whatever its case, from 1 on,
// or one of a few kinds of others.
type sign uint32

const (
	outside sign = 0                    // before the beginning of a text, or behind its end
	foreign sign = iota + 'z' - 'a' + 1 // of a character beyond ASCII
	figure
	underscore
	blank
	other
	signBits = 5
)

// kinds tells the sign of each byte.
var kinds = func() (of [256]sign) {
	for b := range of {
		switch c := byte(b) | 0x20; {
		case b >= 0x80:
			of[b] = foreign
		case c >= 'a' && c <= 'z':
			of[b] = sign(c-'a') + 1
		case b >= '0' && b <= '9':
			of[b] = figure
		case b == '_':
			of[b] = underscore
		case b == ' ', b >= '\t' && b <= '\r':
			of[b] = blank
		default:
			of[b] = other
		}
	}
	return of
}()

// word reports a sign that the edges of words are told by.
func (s sign) word() bool { return s > outside && s < foreign || s == figure || s == underscore }

// ahead is how many signs are looked at together.
const ahead = 3

// keys is a set of signs that follow each other.
type keys [1 << (ahead * signBits) / 64]uint64

func (k *keys) has(key sign) bool { return k[key/64]>>(key%64)&1 != 0 }

// beginnings are the signs that the matches of an expression begin with, by what
// stands before them, and those from their second on. What follows a match of
// fewer signs may be anything.
type beginnings struct {
	any                            bool // they begin with anything
	first, inWord, outWord, second keys
	opens                          bool // only a text begins with them
}

// in reports that a match may begin somewhere in a text.
func (b *beginnings) in(s string) bool {
	if b.any {
		return true
	}
	set := &b.first
	key := keyAt(s, 0)
	for i := range len(s) {
		next := key<<signBits&(1<<(ahead*signBits)-1) | signAt(s, i+ahead)
		if set.has(key) && (kinds[s[i]] == foreign || b.second.has(next)) {
			return true
		}
		if b.opens {
			return false
		}
		key, set = next, &b.outWord
		if kinds[s[i]].word() {
			set = &b.inWord
		}
	}
	return false
}

func signAt(s string, i int) sign {
	if i < len(s) {
		return kinds[s[i]]
	}
	return outside
}

// keyAt puts the signs of a text from i on together.
func keyAt(s string, i int) (key sign) {
	for n := range ahead {
		key = key<<signBits | signAt(s, i+n)
	}
	return key
}

// finder follows a compiled expression to the beginnings of its matches.
type finder struct {
	program *syntax.Prog
	accepts []uint32 // the signs that each instruction takes, a bit each; the lowest is set where they are known
	seen    []uint32 // in which search an instruction was last come by
	search  uint32
}

func beginningsOf(expression string) *beginnings {
	var b beginnings
	tree, err := syntax.Parse(expression, syntax.Perl)
	if err != nil {
		return &beginnings{any: true}
	}
	program, err := syntax.Compile(tree.Simplify())
	if err != nil {
		return &beginnings{any: true}
	}
	f := finder{program: program, accepts: make([]uint32, len(program.Inst)), seen: make([]uint32, len(program.Inst))}
	start := []uint32{uint32(program.Start)}
	b.any = f.follow(&b.first, &b.second, start, outside, 0, 0) || f.follow(&b.inWord, &b.second, start, 1, 0, 0) || f.follow(&b.outWord, &b.second, start, blank, 0, 0)
	b.opens = b.inWord == keys{} && b.outWord == keys{}
	return &b
}

// follow marks the signs that instructions lead to behind some others, and in a
// set of its own those from the second on. It reports a match of nothing.
func (f *finder) follow(set, second *keys, from []uint32, before, key sign, depth int) (empty bool) {
	for _, next := range []sign{outside, 1, blank, other} { // what empty matches depend on
		reached, matched := f.reach(from, before, next)
		if matched && depth == 0 {
			return true
		}
		for s := outside; s <= other; s++ {
			if !alike(s, next) {
				continue
			}
			key := key<<signBits | s
			var on []uint32
			for _, at := range reached {
				if s != outside && f.accept(at)>>s&1 != 0 {
					on = append(on, f.program.Inst[at].Out)
				}
			}
			switch {
			case matched, len(on) > 0 && (s == foreign || depth == ahead-1): // a character beyond ASCII has more bytes
				set.mark(key, ahead-1-depth)
			case len(on) > 0:
				f.follow(set, nil, on, s, key, depth+1)
				if second != nil && f.follow(second, nil, on, s, 0, 0) {
					second.mark(0, ahead)
				}
			}
		}
	}
	return false
}

// alike reports two signs that make no difference to what matches nothing.
func alike(a, b sign) bool {
	return (a == outside) == (b == outside) && (a == blank) == (b == blank) && a.word() == b.word()
}

// mark sets all keys that begin with some signs and have so many more.
func (k *keys) mark(key sign, more int) {
	for key, end := key<<(more*signBits), (key+1)<<(more*signBits); key < end; key++ {
		k[key/64] |= 1 << (key % 64)
	}
}

// reach lists the instructions that take a sign and come next, and reports an
// end of the expression among them.
func (f *finder) reach(from []uint32, before, next sign) (reached []uint32, matched bool) {
	var flags syntax.EmptyOp
	set := func(op syntax.EmptyOp, ok bool) {
		if ok {
			flags |= op
		}
	}
	set(syntax.EmptyBeginText, before == outside)
	set(syntax.EmptyEndText, next == outside)
	set(syntax.EmptyBeginLine, before == outside || before == blank)
	set(syntax.EmptyEndLine, next == outside || next == blank)
	set(syntax.EmptyWordBoundary, before.word() != next.word())
	set(syntax.EmptyNoWordBoundary, before.word() == next.word())
	f.search++
	todo := slices.Clone(from)
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if f.seen[at] == f.search {
			continue
		}
		f.seen[at] = f.search
		switch in := f.program.Inst[at]; in.Op {
		case syntax.InstAlt, syntax.InstAltMatch:
			todo = append(todo, in.Out, in.Arg)
		case syntax.InstCapture, syntax.InstNop:
			todo = append(todo, in.Out)
		case syntax.InstEmptyWidth:
			if syntax.EmptyOp(in.Arg)&^flags == 0 {
				todo = append(todo, in.Out)
			}
		case syntax.InstMatch:
			matched = true
		case syntax.InstFail:
		default:
			reached = append(reached, at)
		}
	}
	return reached, matched
}

// accept is the signs that an instruction takes.
func (f *finder) accept(at uint32) uint32 {
	if bits := f.accepts[at]; bits != 0 {
		return bits
	}
	bits := uint32(1 << outside) // there is none to take
	in := &f.program.Inst[at]
	for c := range rune(0x80) {
		if in.MatchRune(c) {
			bits |= 1 << kinds[c]
		}
	}
	// The letters k and s are folded to characters beyond ASCII too.
	folds := syntax.Flags(in.Arg)&syntax.FoldCase != 0
	if in.Op == syntax.InstRuneAny || in.Op == syntax.InstRuneAnyNotNL || folds || slices.ContainsFunc(in.Rune, func(r rune) bool { return r >= 0x80 }) {
		bits |= 1 << foreign
	}
	f.accepts[at] = bits
	return bits
}
