package notation

import (
	"fmt"
	"strings"
)

// item reads one value of a list: a number, a name or what stands in brackets, with a sign that touches it.
func (p *parser) item() Node {
	if !p.sign('-') && !p.sign('+') {
		return p.primary()
	}
	minus, at := p.sign('-'), p.tok
	p.next()
	if p.tok.space {
		p.inBrackets(at)
		return nil
	}
	x := p.primary()
	if p.failed || !minus {
		return p.sound(x)
	}
	return &Unary{Span: p.span(at.from, at.to).Join(x.Pos()), X: x}
}

// inBrackets says that arithmetic in a list stands in brackets.
func (p *parser) inBrackets(sign token) {
	p.fail(sign.from, sign.to, "in a list, arithmetic stands in brackets and a sign touches its number", fmt.Sprintf("write `(a %c b)`, or spaces between the values", sign.sign))
}

// between checks what stands between two values of a list, which is blank.
func (p *parser) between() {
	t := p.tok
	if t.kind == tokName && p.words(t) != "m" && p.mistyped() {
		return // m may be a let; the other units are no names that people give
	}
	switch {
	case p.failed || t.kind != tokSign:
		if t.kind != tokEnd && t.kind != tokBad && !t.space && !p.failed {
			p.fail(t.from, t.to, "values of a list have spaces between them", "")
		}
	case t.sign == '*' || t.sign == '/', (t.sign == '+' || t.sign == '-') && !t.space:
		p.inBrackets(t)
	case t.sign == '(' && !t.space:
		p.fail(t.from, t.to, "values of a list have spaces between them", "")
	}
}

// list reads values separated by spaces; with steps it may be one value with `by` and a step.
func (p *parser) list(steps bool) Node {
	first := p.item()
	if p.failed {
		return nil
	}
	out := &List{Items: append(p.taken(), first)}
	for p.between(); !p.failed && p.startsExpression(); p.between() {
		if n := p.item(); n != nil {
			out.Items = append(out.Items, n)
		}
	}
	if !p.failed && p.sign(',') {
		p.commaInList()
	}
	if !p.failed && steps && p.atWord("by") {
		if len(out.Items) > 1 {
			p.fail(p.tok.from, p.tok.to, "a step follows one value alone", "as in `1400 by -50`")
			return nil
		}
		p.next()
		out.By = p.step()
	}
	if p.failed {
		return nil
	}
	out.Span = p.span(int(first.Pos().From), p.prev.to)
	return out
}

// commaInList reports a comma between values, or one for a decimal point: a list does not tell.
func (p *parser) commaInList() {
	hint := ""
	if end := p.tok.to; p.prev.kind == tokNumber && p.prev.bare && !p.tok.space && end < p.end && p.text[end]-'0' <= 9 {
		for end < p.end && p.text[end]-'0' <= 9 {
			end++
		}
		before, after := p.words(p.prev), p.text[p.tok.to:end]
		hint = fmt.Sprintf("write `%s %s`, or `%s.%s` for a decimal", before, after, before, after)
	}
	p.fail(p.tok.from, p.tok.to, "values of a list have spaces between them, no commas", hint)
}

// step reads what a list changes by from value to value: one value, or a pair.
func (p *parser) step() Node {
	x := p.expression()
	if p.failed || !p.sign(',') {
		return p.sound(x)
	}
	p.next()
	return p.newPair(x, p.expression())
}

// taken returns an empty slice for a list's items.
func (p *parser) taken() []Node { return make([]Node, 0, 4) }

// nameList reads names of elements with commas between.
func (p *parser) nameList() Node {
	out := &List{}
	from := p.tok.from
	for {
		n := p.elementRef()
		if p.failed {
			return nil
		}
		out.Items = append(out.Items, n)
		if !p.sign(',') {
			break
		}
		p.next()
	}
	out.Span = p.span(from, p.prev.to)
	return out
}

// cards reads thicknesses, each with the name of a card before it or none.
func (p *parser) cards() Node {
	out := &List{}
	from := p.tok.from
	for !p.failed && p.startsExpression() {
		if p.tok.kind == tokName {
			out.Items = append(out.Items, &Word{p.span(p.tok.from, p.tok.to), p.words(p.tok)})
			p.next()
		} else if len(out.Items) > 0 {
			p.want("the name of a card")
			return nil
		}
		if n := p.item(); n != nil {
			out.Items = append(out.Items, n)
			p.between()
		}
	}
	if len(out.Items) == 0 {
		p.want(valueForms[formCards].called)
	}
	if p.failed {
		return nil
	}
	out.Span = p.span(from, p.prev.to)
	return out
}

// size reads two values, or up to most, with x between them.
func (p *parser) size(most int) Node {
	out := &Size{}
	from := p.tok.from
	for {
		n := p.expression()
		if p.failed {
			return nil
		}
		out.Values = append(out.Values, n)
		if len(out.Values) == most || !p.atWord("x") {
			break
		}
		p.next()
	}
	if len(out.Values) < 2 {
		p.want("`x`")
		return nil
	}
	out.Span = p.span(from, p.prev.to)
	return out
}

// quoted reads a text.
func (p *parser) quoted() Node {
	if p.tok.kind != tokText {
		hint := p.example()
		if p.tok.kind == tokName {
			hint = fmt.Sprintf("write `\"%s\"`", short(strings.TrimSpace(string(p.text[p.tok.from:p.contentEnd(p.tok.from)]))))
		}
		p.wantAs(valueForms[formText].called, hint)
		return nil
	}
	t := &Text{Span: p.span(p.tok.from, p.tok.to)}
	t.Value, t.offsets = unescape(p.text[p.tok.from+1 : p.tok.to-1])
	p.next()
	return t
}

// unescape undoes the escapes of a text. offsets is nil where there are none, so that each byte stands where it was typed.
func unescape(typed []byte) (value string, offsets []int32) {
	if strings.IndexByte(string(typed), '\\') < 0 {
		return string(typed), nil
	}
	out := make([]byte, 0, len(typed))
	for i := 0; i < len(typed); i++ {
		if typed[i] == '\\' {
			i++
		}
		offsets = append(offsets, int32(i+1))
		out = append(out, typed[i])
	}
	return string(out), offsets
}

// raw takes the rest of the text as it was typed, without comments; where the line goes on, with one space between.
func (p *parser) raw() Node {
	if p.tok.kind == tokEnd {
		p.want(valueForms[formRaw].called)
		return nil
	}
	from := p.tok.from
	var parts []string
	last := from
	for i := from; i < p.end; {
		end := p.contentEnd(i)
		if part := strings.TrimSpace(string(p.text[i:end])); part != "" {
			parts = append(parts, part)
			last = i + len(strings.TrimRight(string(p.text[i:end]), " \t\r"))
		}
		i = p.lineEnd(end) + 1
	}
	p.pos = p.end
	p.prev = token{kind: tokText, from: from, to: last}
	p.tok = token{kind: tokEnd, from: last, to: last, space: true}
	p.failed = false
	return &Raw{Span: p.span(from, last), Value: strings.Join(parts, " ")}
}

// contentEnd returns where the content of the line that holds i ends, before a comment.
func (p *parser) contentEnd(i int) int {
	if c := commentStart(p.text, i, p.lineEnd(i)); c >= 0 {
		return c
	}
	return p.lineEnd(i)
}
