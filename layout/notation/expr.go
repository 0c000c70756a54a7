package notation

import (
	"fmt"

	"markout/layout/diag"
)

const (
	maxDepth = 1000   // brackets within brackets
	maxSigns = 10_000 // + - * / of one line
)

// expression reads arithmetic with + - * / and brackets.
func (p *parser) expression() Node {
	x := p.term()
	for !p.failed && (p.sign('+') || p.sign('-')) {
		x = p.binary(x, p.term)
	}
	return p.sound(x)
}

func (p *parser) term() Node {
	x := p.signed()
	for !p.failed && (p.sign('*') || p.sign('/')) {
		x = p.binary(x, p.signed)
	}
	return x
}

// binary reads an operator and its right side.
func (p *parser) binary(x Node, right func() Node) Node {
	op, at := p.tok.sign, p.span(p.tok.from, p.tok.to)
	if p.signs++; p.signs > maxSigns {
		p.fail(p.tok.from, p.tok.to, fmt.Sprintf("a line has at most %d signs of arithmetic", maxSigns), "")
		return nil
	}
	p.next()
	y := right()
	if p.failed {
		return nil
	}
	return &Binary{Span: x.Pos().Join(y.Pos()), Op: op, OpAt: at, X: x, Y: y}
}

// signed reads a value with at most one sign before it.
func (p *parser) signed() Node {
	if !p.sign('-') && !p.sign('+') {
		return p.primary()
	}
	minus, at := p.sign('-'), p.span(p.tok.from, p.tok.to)
	p.next()
	if p.sign('-') || p.sign('+') {
		p.fail(p.tok.from, p.tok.to, "two signs stand in a row", "write brackets around the second and its value")
	}
	x := p.primary()
	if p.failed || !minus {
		return p.sound(x)
	}
	return &Unary{Span: at.Join(x.Pos()), X: x}
}

// primary reads a number, a reference or what stands in brackets.
func (p *parser) primary() Node {
	switch {
	case p.failed:
		return nil
	case p.tok.kind == tokNumber:
		return p.number()
	case p.tok.kind == tokName && !isJoining(p.text[p.tok.from:p.tok.to]):
		return p.ref()
	case p.sign('('):
		return p.brackets()
	}
	p.want("a value")
	return nil
}

func (p *parser) number() Node {
	q := p.quantities.take()
	*q = Quantity{Span: p.span(p.tok.from, p.tok.to), Value: p.tok.value}
	p.next()
	return q
}

// deeper counts a bracket that opens at p.tok and reports whether that is still allowed.
func (p *parser) deeper() bool {
	if p.depth++; p.depth > maxDepth {
		p.fail(p.tok.from, p.tok.to, fmt.Sprintf("brackets stand at most %d deep", maxDepth), "")
	}
	return !p.failed
}

// brackets reads ( … ) with a value or a pair inside.
func (p *parser) brackets() Node {
	open := p.tok.from
	if !p.deeper() {
		return nil
	}
	p.next()
	x := p.expression()
	if !p.failed && p.sign(',') {
		p.next()
		y := p.expression()
		if p.failed {
			return nil
		}
		x = p.newPair(x, y)
	}
	if !p.closeBracket(open) {
		return nil
	}
	p.next()
	return p.sound(&Paren{Span: p.span(open, p.prev.to), X: x})
}

// closeBracket checks that ) stands next.
func (p *parser) closeBracket(open int) bool {
	p.depth--
	switch {
	case p.failed:
	case p.sign(')'):
		return true
	case p.tok.kind == tokEnd:
		p.fail(open, open+1, "the bracket is not closed", "")
	default:
		p.want("`)`")
	}
	return false
}

func (p *parser) newPair(x, y Node) Node {
	if p.failed {
		return nil
	}
	n := p.pairs.take()
	*n = Pair{Span: x.Pos().Join(y.Pos()), X: x, Y: y}
	return n
}

// sound returns n, or nothing after a failure, so that no half a value leaves.
func (p *parser) sound(n Node) Node {
	if p.failed {
		return nil
	}
	return n
}

// maxCopyDigits is how long a copy's number may be; there are at most 10 000 copies.
const maxCopyDigits = 6

// ref reads a name with what is asked of it: rise, front.rise, bollard.3.centre, wall.along(1200). All of it touches.
func (p *parser) ref() Node {
	r := p.refs.take()
	*r = Ref{Name: p.words(p.tok), NameSpan: p.span(p.tok.from, p.tok.to)}
	from, end := p.tok.from, p.tok.to
	for end < p.end && p.text[end] == '.' && !p.failed {
		at := end + 1
		if at < p.end && p.text[at]-'0' <= 9 {
			end = p.copyNumber(r, at)
			continue
		}
		n := nameLength(p.text[at:p.end])
		if n == 0 {
			p.fail(end, end+1, "a word is missing after the point", "write what is asked for, as in `deck.front`")
			return nil
		}
		ask := Ask{Span: p.span(at, at+n), Word: string(p.text[at : at+n])}
		end = at + n
		if end < p.end && p.text[end] == '(' {
			ask.Argument, end = p.argument(end)
			ask.Span.To = int32(end)
		}
		r.Asks = append(r.Asks, ask)
	}
	if p.failed {
		return nil
	}
	r.Span = p.span(from, end)
	p.pos = end
	p.tok.to = end
	p.next()
	return p.sound(r)
}

// copyNumber reads the digits at i as the copy that a reference means.
func (p *parser) copyNumber(r *Ref, i int) (end int) {
	copies := 0
	for end = i; end < p.end && p.text[end]-'0' <= 9; end++ {
		if end-i < maxCopyDigits {
			copies = copies*10 + int(p.text[end]-'0')
		}
	}
	switch {
	case r.Copy != 0 || len(r.Asks) > 0:
		p.fail(i, end, "a copy's number stands once, straight after the name", "as in `bollard.3.centre`")
	case end-i > maxCopyDigits:
		p.fail(i, end, fmt.Sprintf("a copy's number has at most %d digits", maxCopyDigits), "")
	case copies == 0:
		p.fail(i, end, "copies are numbered from 1", "")
	}
	r.Copy, r.CopySpan = copies, p.span(i, end)
	return end
}

// argument reads the bracket at open that follows an asked word.
func (p *parser) argument(open int) (Node, int) {
	p.tok = token{kind: tokSign, sign: '(', from: open, to: open + 1}
	if !p.deeper() {
		return nil, open + 1
	}
	p.pos = open + 1
	p.next()
	x := p.expression()
	if !p.closeBracket(open) {
		return nil, open + 1
	}
	return x, p.tok.to
}

// elementRef reads the name of an element, or of one copy of it.
func (p *parser) elementRef() Node {
	if p.tok.kind != tokName || isJoining(p.text[p.tok.from:p.tok.to]) {
		p.want(valueForms[formRef].called)
		return nil
	}
	n := p.ref()
	if r, ok := n.(*Ref); ok && len(r.Asks) > 0 {
		a := r.Asks[0].Span
		p.fail(int(a.From), int(a.To), "an element is wanted here, not a place or a measure of it", fmt.Sprintf("write `%s`", p.text[r.Span.From:a.From-1]))
	}
	return p.sound(n)
}

// newName reads a name that is given here.
func (p *parser) newName() Node {
	sp, ok := p.nameHere()
	if !ok {
		return nil
	}
	return &Word{sp, string(p.text[sp.From:sp.To])}
}

// nameHere moves past a name that is given here and returns its place.
func (p *parser) nameHere() (diag.Span, bool) {
	from, to := p.tok.from, p.tok.to
	if p.tok.kind == tokBad && p.text[from]-'0' <= 9 {
		p.failed = false // 3deck is a name to the one who typed it, whatever it is as a number
		to = from + 1 + nameLength(append([]byte{'_'}, p.text[from+1:p.lineEnd(from)]...)) - 1
		p.tok.kind = tokNumber
	}
	switch {
	case p.failed:
	case p.tok.kind == tokNumber:
		p.fail(from, to, "a name begins with a letter or _", "")
	case p.tok.kind != tokName:
		p.want(valueForms[formName].called)
	case isJoining(p.text[from:to]):
		p.fail(from, to, fmt.Sprintf("`%s` joins values, so it cannot be a name", p.words(p.tok)), "")
	case to+1 < p.end && p.text[to] == '-' && nameLength(p.text[to+1:]) > 0:
		n := wordLength(p.text[from:p.end])
		p.fail(from, from+n, "a name has letters, digits and _ only", fmt.Sprintf("write `%s`", underscored(p.text[from:from+n])))
	default:
		p.next()
		return p.span(from, to), true
	}
	return diag.Span{}, false
}

func underscored(word []byte) []byte {
	out := append([]byte(nil), word...)
	for i, c := range out {
		if c == '-' {
			out[i] = '_'
		}
	}
	return out
}
