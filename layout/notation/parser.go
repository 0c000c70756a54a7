package notation

import (
	"sort"

	"markout/layout/diag"
)

// parser reads one text. It holds one token ahead; the first failure in an attribute stands for all of it.
type parser struct {
	id    diag.FileID
	text  []byte
	diags *diag.List

	pos, end, start int   // what is read of the text, and from where
	tok, prev       token // the next token, and the one before it
	failed          bool
	failure         failure
	depth, signs    int

	form    *Form
	args    []Arg
	attr    *Attr    // being read, for the example in a hint
	beneath []string // words of its own attributes, for "did you mean"

	suggested int // how many words a near one was sought for

	broken []int32 // where bytes stand that are errors by themselves

	quantities arena[Quantity]
	pairs      arena[Pair]
	refs       arena[Ref]
	attributes arena[Attribute]
	slab       []Arg
}

// failure is the first thing wrong in what is being read.
type failure struct {
	from, to      int
	message, hint string
}

func (p *parser) fail(from, to int, message, hint string) {
	if !p.failed {
		p.failed = true
		p.failure = failure{from, to, message, hint}
	}
}

// place is where reading stands, to come back to.
type place struct {
	pos, depth, signs int
	tok, prev         token
}

func (p *parser) mark() place { return place{p.pos, p.depth, p.signs, p.tok, p.prev} }

func (p *parser) reset(m place) {
	p.pos, p.depth, p.signs, p.tok, p.prev = m.pos, m.depth, m.signs, m.tok, m.prev
	p.failed = false
}

// report adds the failure in the text [from, to) to the list, unless a byte that is an error by itself explains it.
func (p *parser) report(from, to int) {
	if p.failed && !p.isBroken(from, to) {
		p.error(p.failure.from, p.failure.to, p.failure.message, p.failure.hint)
	}
}

// error adds an error at once.
func (p *parser) error(from, to int, message, hint string) {
	p.diags.Add(diag.Diagnostic{Span: p.span(from, max(from, to)), Message: message, Hint: hint})
}

func (p *parser) isBroken(from, to int) bool {
	i := sort.Search(len(p.broken), func(i int) bool { return int(p.broken[i]) >= from })
	return i < len(p.broken) && int(p.broken[i]) < to
}

// example is the hint that shows how the attribute being read is written.
func (p *parser) example() string {
	if p.attr == nil || p.attr.Example == "" {
		return ""
	}
	return "as in `" + p.attr.Example + "`"
}

// kept returns args in a place of their own, as part of a slab.
func (p *parser) kept(args []Arg) Args {
	n := len(args)
	if len(p.slab) < n {
		p.slab = make([]Arg, max(n, 128))
	}
	out := p.slab[:n:n]
	p.slab = p.slab[n:]
	copy(out, args)
	return out
}

// arena hands out nodes from slabs: a long list costs few allocations.
type arena[T any] struct {
	slab []T
	size int
}

func (a *arena[T]) take() *T {
	if len(a.slab) == 0 {
		a.size = min(max(2*a.size, 8), 1024)
		a.slab = make([]T, a.size)
	}
	n := &a.slab[0]
	a.slab = a.slab[1:]
	return n
}
