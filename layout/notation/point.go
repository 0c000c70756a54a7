package notation

import (
	"bytes"

	"markout/layout/diag"
	"markout/layout/unit"
)

// sides are the words that say which of two crossings of tapes is meant.
var sides = [...]string{"upstage", "downstage", "plan-left", "plan-right"}

// point reads x, y; an anchor; an anchor plus an offset; or a place by tape. Arithmetic needs no brackets.
func (p *parser) point() Node {
	if !p.canBegin() {
		p.want(valueForms[formPoint].called)
		return nil
	}
	x := p.expression()
	switch r, bare := x.(*Ref); {
	case p.failed:
		return nil
	case p.sign(','):
		p.next()
		return p.newPair(x, p.expression())
	case bare && p.startsExpression() && !p.sign('('):
		return p.taped(r, p.expression)
	case !isPlace(x):
		p.want("`,` and the second value of a point")
		return nil
	}
	return x
}

// canBegin reports whether a value can begin at the next token where one must stand, so that any name will do.
func (p *parser) canBegin() bool {
	return p.startsExpression() || p.tok.kind == tokName && !isJoining(p.text[p.tok.from:p.tok.to])
}

// tapeExample shows both ways in which a place may go on after a name.
const tapeExample = "a place by tape is written `A 2310 B 1885 upstage`, an offset `deck.centre + (200, 50)`"

// pair reads x, y.
func (p *parser) pair() Node {
	x := p.expression()
	if p.failed {
		return nil
	}
	if b, ok := x.(*Paren); ok && p.tok.kind == tokEnd {
		if pair, ok := b.X.(*Pair); ok {
			return pair
		}
	}
	if !p.sign(',') {
		p.want("`,` and the second value of a pair")
		return nil
	}
	p.next()
	return p.newPair(x, p.expression())
}

// isPlace reports whether a value without a comma can be a point: it names something, or holds a pair in brackets.
func isPlace(n Node) bool {
	switch n := n.(type) {
	case *Ref, *Pair:
		return true
	case *Paren:
		return isPlace(n.X)
	case *Unary:
		return isPlace(n.X)
	case *Binary:
		return isPlace(n.X) || isPlace(n.Y)
	}
	return false
}

// taped reads the rest of a place by tape; a is where the first tape starts, and distance reads a distance.
func (p *parser) taped(a *Ref, distance func() Node) Node {
	t := &Taped{A: a, DA: distance()}
	if p.failed {
		return nil
	}
	if p.tok.kind != tokName || p.stops() {
		p.wantAs("the start of the second tape", tapeExample)
		return nil
	}
	t.B = p.ref()
	if p.failed {
		return nil
	}
	t.DB = distance()
	if p.failed {
		return nil
	}
	for _, side := range sides {
		if p.atWord(side) {
			t.Side = side
			t.SideAt = p.takeWord(side)
			t.Span = t.A.Pos().Join(t.SideAt)
			return p.sound(t)
		}
	}
	p.wantAs("the side, `upstage`, `downstage`, `plan-left` or `plan-right`,", tapeExample)
	return nil
}

// listedPoint reads a point that stands among others with spaces between: arithmetic stands in brackets.
func (p *parser) listedPoint() Node {
	if !p.canBegin() {
		p.want(valueForms[formPoint].called)
		return nil
	}
	x := p.item()
	switch r, bare := x.(*Ref); {
	case p.failed:
		return nil
	case p.sign(','):
		p.next()
		y := p.item()
		return p.newPair(x, y)
	case bare && p.startsExpression() && !p.sign('('):
		// Two anchors, or an anchor and a pair, may stand side by side; a place by tape has all its parts.
		start := p.mark()
		if t := p.taped(r, p.item); t != nil {
			return t
		}
		p.reset(start)
	case p.sign('+') || p.sign('-') && p.tok.space && p.blankAfter():
		p.inBrackets(p.tok)
		return nil
	case !isPlace(x):
		p.want("`,` and the second value of a point")
		return nil
	}
	return x
}

// blankAfter reports whether the next token is followed by a blank.
func (p *parser) blankAfter() bool {
	return p.tok.to >= p.end || p.text[p.tok.to] == ' ' || p.text[p.tok.to] == '\t'
}

// longList is the number of points from which a list of plain numbers is kept flat.
const longList = 8

// points reads points separated by spaces: a *List, or *Floats for a long list of literal pairs.
func (p *parser) points() Node {
	if f := p.flatPoints(); f != nil {
		return f
	}
	from := p.tok.from
	out := &List{Items: p.taken()}
	for {
		n := p.listedPoint()
		if p.failed {
			return nil
		}
		out.Items = append(out.Items, n)
		p.between()
		if p.failed || !p.startsExpression() {
			break
		}
	}
	if p.failed {
		return nil
	}
	out.Span = p.span(from, p.prev.to)
	return out
}

// flatPoints reads a long list of literal pairs of one unit straight from the text, without a node for each. It is nil,
// and has read nothing, where the list is short or holds anything else.
func (p *parser) flatPoints() *Floats {
	if p.tok.kind != tokNumber && !p.sign('-') {
		return nil
	}
	text := p.text[p.tok.from:p.end]
	commas := bytes.Count(text, []byte(","))
	if commas < longList {
		return nil
	}
	r := flatReader{text: text, x: make([]float64, 0, 2*commas)}
	end := r.read()
	from := p.tok.from
	if end == 0 || len(r.x) < 2*longList {
		return nil
	}
	start := p.mark()
	p.pos = from + end
	p.tok = token{kind: tokNumber, from: from, to: from + end}
	p.next()
	if p.startsExpression() || p.tok.kind == tokSign || p.failed {
		p.reset(start)
		return nil
	}
	return &Floats{Span: p.span(from, from+end), Kind: r.kind, Pairs: true, X: r.x}
}

// flatReader reads literal pairs, a,b a,b …, all plain numbers or all lengths.
type flatReader struct {
	text []byte
	x    []float64
	kind unit.Kind
}

// read returns where the last whole pair ends.
func (r *flatReader) read() (end int) {
	for i := 0; ; {
		from := i
		if i = skipBlank(r.text, i); i == from && i > 0 {
			return end
		}
		n := len(r.x)
		if i = r.number(i); i < 0 || i >= len(r.text) || r.text[i] != ',' {
			r.x = r.x[:n]
			return end
		}
		if i = r.number(skipBlank(r.text, i+1)); i < 0 {
			r.x = r.x[:n]
			return end
		}
		end = i
	}
}

// number reads a signed number at i and returns its end, −1 where there is none of the list's kind.
func (r *flatReader) number(i int) int {
	sign := 1.0
	if i < len(r.text) && r.text[i] == '-' {
		sign = -1
		i++
	}
	if i >= len(r.text) || r.text[i]-'0' > 9 {
		return -1
	}
	v, _, n, err := unit.ScanQuantity(r.text[i:])
	if err != nil || v.Kind != unit.Number && v.Kind != unit.Length || len(r.x) > 0 && v.Kind != r.kind {
		return -1
	}
	r.kind = v.Kind
	r.x = append(r.x, sign*v.X)
	return i + n
}

// skipBlank moves over spaces, line ends and comments.
func skipBlank(text []byte, i int) int {
	for i < len(text) {
		switch text[i] {
		case ' ', '\t', '\n', '\r':
			i++
		case '#':
			for i < len(text) && text[i] != '\n' {
				i++
			}
		default:
			return i
		}
	}
	return i
}

// At returns the place of the i-th number of a flat list, for an error that means it alone. text is the text of the
// list's file.
func (n *Floats) At(text []byte, i int) diag.Span {
	from, to := int(n.Span.From), min(int(n.Span.To), len(text))
	for at, k := from, 0; at < to; k++ {
		if at = skipBlank(text[:to], at); at < to && text[at] == ',' {
			at = skipBlank(text[:to], at+1)
		}
		end := at
		if end < to && text[end] == '-' {
			end++
		}
		_, _, size, err := unit.ScanQuantity(text[end:to])
		if err != nil {
			break
		}
		end += size
		if k == i {
			return diag.Span{File: n.Span.File, From: int32(at), To: int32(end)}
		}
		at = end
	}
	return n.Span
}
