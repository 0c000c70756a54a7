package artwork

import (
	"slices"
	"strings"

	"github.com/tdewolff/parse/v2/css"
)

// selector is one of the selectors before a rule: parts from left to right, of which the last is the element
// that is meant.
type selector struct {
	parts  []part
	weight int // ids, then classes and the like, then names, a thousand of each at most
}

// part is a compound: what one element must fulfil, and how it lies to the part on its left.
type part struct {
	joint   byte // ' ' inside, '>' right inside, '+' right after, '~' after; 0 for the first part
	tag     string
	id      string
	classes []string
	tests   []attributeTest
	first   bool // the first child
	last    bool // the last child
	root    bool // the outermost element
	never   bool // a state that paper does not have
}

type attributeTest struct {
	name, value string
	how         css.TokenType // ErrorToken: it is given; DelimToken: it is equal; otherwise CSS's own marks
}

// parseSelector reads one selector; ok is false for what is not known here.
func parseSelector(tokens []cssToken) (s selector, ok bool) {
	c := cssReader{tokens: tokens}
	c.space()
	joint := byte(0)
	for !c.done() {
		p, weight, ok := c.compound()
		if !ok {
			return selector{}, false
		}
		p.joint = joint
		s.parts = append(s.parts, p)
		s.weight += weight
		joint = 0
		if c.space() {
			joint = ' '
		}
		if t := c.peek(); t.kind == css.DelimToken && strings.Contains(">+~", t.text) {
			joint = t.text[0]
			c.next()
			c.space()
			if c.done() {
				return selector{}, false
			}
		}
		if joint == 0 && !c.done() {
			return selector{}, false
		}
	}
	return s, len(s.parts) > 0
}

const (
	weightName  = 1
	weightClass = 1_000
	weightID    = 1_000_000
)

// compound reads what is said of one element.
func (c *cssReader) compound() (p part, weight int, ok bool) {
	for from := c.at; ; {
		switch t := c.peek(); {
		case t.kind == css.IdentToken && c.at == from:
			c.next()
			p.tag = unescape(t.text)
			weight += weightName
		case t.kind == css.DelimToken && t.text == "*" && c.at == from:
			c.next()
		case t.kind == css.HashToken:
			c.next()
			p.id = unescape(t.text[1:])
			weight += weightID
		case t.kind == css.DelimToken && t.text == ".":
			c.next()
			name := c.next()
			if name.kind != css.IdentToken {
				return p, 0, false
			}
			p.classes = append(p.classes, unescape(name.text))
			weight += weightClass
		case t.kind == css.LeftBracketToken:
			c.next()
			test, ok := c.attributeTest()
			if !ok {
				return p, 0, false
			}
			p.tests = append(p.tests, test)
			weight += weightClass
		case t.kind == css.ColonToken:
			c.next()
			if !p.state(c.next()) {
				return p, 0, false
			}
			weight += weightClass
		default:
			return p, weight, c.at > from
		}
	}
}

// state reads the word after a colon.
func (p *part) state(t cssToken) bool {
	if t.kind != css.IdentToken {
		return false
	}
	switch strings.ToLower(t.text) {
	case "first-child":
		p.first = true
	case "last-child":
		p.last = true
	case "only-child":
		p.first, p.last = true, true
	case "root":
		p.root = true
	case "hover", "active", "focus", "visited", "link", "target":
		p.never = true
	default:
		return false
	}
	return true
}

// attributeTest reads what stands between square brackets, the closing one included.
func (c *cssReader) attributeTest() (attributeTest, bool) {
	c.space()
	name := c.next()
	if name.kind != css.IdentToken {
		return attributeTest{}, false
	}
	t := attributeTest{name: unescape(name.text)}
	c.space()
	how := c.next()
	switch how.kind {
	case css.RightBracketToken:
		return t, true
	case css.DelimToken:
		if how.text != "=" {
			return t, false
		}
	case css.IncludeMatchToken, css.DashMatchToken, css.PrefixMatchToken, css.SuffixMatchToken, css.SubstringMatchToken:
	default:
		return t, false
	}
	t.how = how.kind
	c.space()
	value := c.next()
	if value.kind != css.IdentToken && value.kind != css.StringToken {
		return t, false
	}
	t.value = unquote(value.text)
	c.space()
	return t, c.next().kind == css.RightBracketToken
}

// matches reports whether e is what part i of the selector means, with all the parts on its left. steps counts
// the work down; below 0 the answer is no.
func (s *selector) matches(i int, e *element, steps *int) bool {
	*steps--
	if *steps < 0 || !s.parts[i].matches(e) {
		return false
	}
	if i == 0 {
		return true
	}
	switch s.parts[i].joint {
	case '>':
		return e.parent != nil && s.matches(i-1, e.parent, steps)
	case '+':
		b := e.before()
		return b != nil && s.matches(i-1, b, steps)
	case '~':
		for b := e.before(); b != nil; b = b.before() {
			if s.matches(i-1, b, steps) {
				return true
			}
		}
		return false
	}
	for p := e.parent; p != nil; p = p.parent {
		if s.matches(i-1, p, steps) {
			return true
		}
	}
	return false
}

// before is the element right before e in the same parent.
func (e *element) before() *element {
	if e.parent == nil || e.index == 0 {
		return nil
	}
	return e.parent.children[e.index-1]
}

func (p *part) matches(e *element) bool {
	switch {
	case p.never, p.tag != "" && p.tag != e.name, p.id != "" && p.id != e.attr("id"):
		return false
	case p.root && e.parent != nil, p.first && e.index != 0:
		return false
	case p.last && e.parent != nil && e.index != len(e.parent.children)-1:
		return false
	}
	if len(p.classes) > 0 {
		have := strings.Fields(e.attr("class"))
		for _, c := range p.classes {
			if !slices.Contains(have, c) {
				return false
			}
		}
	}
	for _, t := range p.tests {
		if !t.matches(e) {
			return false
		}
	}
	return true
}

func (t attributeTest) matches(e *element) bool {
	i := slices.IndexFunc(e.attrs, func(a attribute) bool { return a.name == t.name })
	if i < 0 {
		return false
	}
	v := e.attrs[i].value
	switch t.how {
	case css.ErrorToken:
		return true
	case css.DelimToken:
		return v == t.value
	case css.IncludeMatchToken:
		return slices.Contains(strings.Fields(v), t.value)
	case css.DashMatchToken:
		return v == t.value || strings.HasPrefix(v, t.value+"-")
	case css.PrefixMatchToken:
		return t.value != "" && strings.HasPrefix(v, t.value)
	case css.SuffixMatchToken:
		return t.value != "" && strings.HasSuffix(v, t.value)
	}
	return t.value != "" && strings.Contains(v, t.value)
}
