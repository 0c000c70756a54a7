package artwork

import (
	"cmp"
	"slices"
	"strings"

	"github.com/tdewolff/parse/v2/css"
)

// sheet is the rules of all style elements of a file, found by what the last part of their selector asks for.
type sheet struct {
	rules map[string][]rule // "#id", ".class", "name", or "" for any element
	order int
	steps int // left of mostSteps
}

// rule is one selector with its declarations.
type rule struct {
	selector
	order        int
	declarations []declaration
}

type declaration struct {
	property  property
	value     string
	important bool
}

// mostSteps is how much work finding rules may be.
const mostSteps = 50_000_000

// mostNesting is how deep @media may stand in @media.
const mostNesting = 16

// readSheets reads all style elements.
func (r *reader) readSheets(root *element) {
	r.sheet = sheet{rules: map[string][]rule{}, steps: mostSteps}
	stack := []*element{root}
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if e.name == "style" {
			if kind := strings.ToLower(e.attr("type")); kind != "" && kind != "text/css" {
				r.caution(r.place(e, "type"), codeLeft, "", "a style sheet that is not CSS is left out")
			} else if mediaFits(e.attr("media")) {
				r.readRules(e, cssTokens(e.text), 0)
			}
		}
		for i := len(e.children) - 1; i >= 0; i-- {
			stack = append(stack, e.children[i])
		}
	}
}

// readRules reads rules and at-rules.
func (r *reader) readRules(e *element, tokens []cssToken, depth int) {
	c := cssReader{tokens: tokens}
	for c.space(); !c.done(); c.space() {
		if t := c.peek(); t.kind == css.AtKeywordToken {
			c.next()
			r.atRule(e, strings.ToLower(t.text), &c, depth)
			continue
		}
		prelude := c.until(css.LeftBraceToken)
		if c.next().kind != css.LeftBraceToken {
			return
		}
		body := c.until(css.RightBraceToken)
		c.next()
		declarations := parseDeclarations(body)
		if len(declarations) == 0 {
			continue
		}
		names := cssReader{tokens: prelude}
		for {
			one := names.until(css.CommaToken)
			if s, ok := parseSelector(one); ok {
				r.sheet.add(s, declarations)
			} else {
				r.caution(r.tag(e), codeLeft, "give the style to a class or to the element itself", "the style for %s is left out: such a selector is not read here", quote(cssText(one)))
			}
			if names.next().kind != css.CommaToken {
				break
			}
		}
	}
}

// atRule reads what follows an at-word: the rules for a medium, or something that is stepped over.
func (r *reader) atRule(e *element, word string, c *cssReader, depth int) {
	prelude := c.until(css.SemicolonToken, css.LeftBraceToken)
	var body []cssToken
	if c.next().kind == css.LeftBraceToken {
		body = c.until(css.RightBraceToken)
		c.next()
	}
	switch word {
	case "@media":
		if depth < mostNesting && mediaFits(cssText(prelude)) {
			r.readRules(e, body, depth+1)
		}
	case "@import":
		r.fault(r.tag(e), codeOutside, "put the style sheet into the picture", "a style sheet outside the file is left out: nothing outside it is opened")
	}
}

// mediaFits reports whether a style is for what is drawn once and stands still.
func mediaFits(media string) bool {
	if strings.TrimSpace(media) == "" {
		return true
	}
	for _, m := range strings.Split(strings.ToLower(media), ",") {
		if m = strings.TrimSpace(m); m == "all" || m == "screen" {
			return true
		}
	}
	return false
}

// parseDeclarations reads the inside of a rule or of a style attribute; properties that are not read here are
// stepped over.
func parseDeclarations(tokens []cssToken) []declaration {
	var all []declaration
	c := cssReader{tokens: tokens}
	for ; !c.done(); c.next() {
		one := cssReader{tokens: c.until(css.SemicolonToken)}
		one.space()
		name := one.next()
		one.space()
		if name.kind != css.IdentToken || one.next().kind != css.ColonToken {
			continue
		}
		p, known := propertyOf[strings.ToLower(name.text)]
		if !known {
			continue
		}
		d := declaration{property: p, value: cssText(one.tokens[min(one.at, len(one.tokens)):])}
		if before, word, ok := cutLast(d.value, "!"); ok && strings.EqualFold(strings.TrimSpace(word), "important") {
			d.value, d.important = strings.TrimSpace(before), true
		}
		if d.value != "" {
			all = append(all, d)
		}
	}
	return all
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

func (s *sheet) add(sel selector, declarations []declaration) {
	last := sel.parts[len(sel.parts)-1]
	key := last.tag
	switch {
	case last.id != "":
		key = "#" + last.id
	case len(last.classes) > 0:
		key = "." + last.classes[0]
	}
	s.order++
	s.rules[key] = append(s.rules[key], rule{sel, s.order, declarations})
}

// matching returns the rules for an element, from the weakest to the strongest.
func (s *sheet) matching(e *element) []*rule {
	if len(s.rules) == 0 {
		return nil
	}
	var found []*rule
	look := func(key string) {
		rules := s.rules[key]
		for i := range rules {
			if rules[i].matches(len(rules[i].parts)-1, e, &s.steps) {
				found = append(found, &rules[i])
			}
		}
	}
	look("")
	look(e.name)
	if id := e.attr("id"); id != "" {
		look("#" + id)
	}
	classes := strings.Fields(e.attr("class"))
	slices.Sort(classes)
	for _, c := range slices.Compact(classes) {
		look("." + c)
	}
	slices.SortFunc(found, func(a, b *rule) int {
		return cmp.Or(cmp.Compare(a.weight, b.weight), cmp.Compare(a.order, b.order))
	})
	return found
}

// declare collects what an element says of itself: attributes, then rules, then its own style, then all that
// is important in the same order (CSS Cascade 3, section 6; presentation attributes by SVG 2, section 6.6).
func (r *reader) declare(e *element) *declared {
	r.work(e)
	d := &declared{}
	for _, a := range e.attrs {
		if p, ok := propertyOf[a.name]; ok && p != pMarker { // the shorthand is no attribute
			d[p] = strings.TrimSpace(a.value)
		}
	}
	rules := r.sheet.matching(e)
	if r.sheet.steps < 0 {
		r.refuse(r.tag(e), "", "the style sheets ask for too much work")
	}
	var own []declaration
	if style := e.attr("style"); style != "" {
		own = parseDeclarations(cssTokens(style))
	}
	for _, important := range []bool{false, true} {
		for _, rule := range rules {
			d.take(rule.declarations, important)
		}
		d.take(own, important)
	}
	return d
}

func (d *declared) take(all []declaration, important bool) {
	for _, one := range all {
		if one.important == important {
			d[one.property] = one.value
		}
	}
}
