package notation

import (
	"slices"
	"strings"
)

// match reads the text from p.tok to its end by a form. What was read of a broken one is not returned.
func (p *parser) match(f *Form) (Args, bool) {
	p.form = f
	p.args = p.args[:0]
	if len(f.root.branches) > 1 || len(f.root.branches[0]) > 0 {
		p.choice(f.root, "", false)
	}
	if !p.failed && p.tok.kind != tokEnd {
		p.leftover()
	}
	if p.failed || len(p.args) == 0 {
		return nil, !p.failed
	}
	return p.kept(p.args), true
}

// strength says how the next token can begin a part of a form.
type strength uint8

const (
	cannot   strength = iota
	nothing           // the part may be left out
	byValue           // it can begin the part's value
	byItself          // it is the word that the part begins with
)

func (p *parser) starts(s sequence) strength {
	for i := range s {
		it := &s[i]
		best := cannot
		for _, a := range it.atoms {
			if a.word != "" && p.atWord(a.word) {
				return byItself
			}
			if a.word == "" && p.startsValue(a.value) {
				best = byValue
			}
		}
		if it.group != nil {
			best = p.startsChoice(it.group)
		}
		if best > nothing || best == cannot && !it.skippable() {
			return best
		}
	}
	return nothing
}

func (p *parser) startsChoice(c *choice) strength {
	best := cannot
	for _, b := range c.branches {
		best = max(best, p.starts(b))
	}
	return best
}

// choice reads one of the branches. key and direct say which word stands before it, and whether directly.
func (p *parser) choice(c *choice, key string, direct bool) {
	if len(c.branches) == 1 {
		p.sequence(c.branches[0], key, direct)
		return
	}
	var by []sequence
	for _, b := range c.branches {
		switch p.starts(b) {
		case byItself:
			p.sequence(b, key, direct)
			return
		case byValue, nothing:
			by = append(by, b)
		}
	}
	switch len(by) {
	case 0:
		p.want(p.beginnings(c))
	case 1:
		p.sequence(by[0], key, direct)
	default:
		ways := make([]func(), len(by))
		for i, b := range by {
			ways[i] = func() { p.sequence(b, key, direct) }
		}
		p.firstThatFits(ways)
	}
}

// firstThatFits tries ways of reading from the same place. The first that fits stands; where none does, the error of
// the one that came furthest.
func (p *parser) firstThatFits(ways []func()) {
	start, args := p.mark(), len(p.args)
	var furthest *failure
	for _, way := range ways {
		way()
		if !p.failed {
			return
		}
		if furthest == nil || p.failure.from > furthest.from {
			f := p.failure
			furthest = &f
		}
		p.reset(start)
		p.args = p.args[:args]
	}
	p.failed, p.failure = true, *furthest
}

// sequence reads its items in order.
func (p *parser) sequence(s sequence, key string, direct bool) {
	for i := 0; i < len(s); i++ {
		it := &s[i]
		if p.failed && p.tok.kind == tokBad && it.raw() {
			p.failed = false // what is no token to others is text to the one who reads it raw
		}
		if p.failed {
			return
		}
		switch word, one := it.word(); {
		case one && !it.skippable():
			if !p.atWord(word) {
				p.want("`" + wordsFrom(s[i:]) + "`")
				return
			}
			sp := p.takeWord(word)
			if standsAlone(s[i+1:]) {
				own := word
				if direct {
					own = key
				}
				p.args = append(p.args, Arg{own, &Word{sp, word}})
			}
			key, direct = word, true
		case it.optional:
			j := i
			for j+1 < len(s) && s[j+1].optional {
				j++
			}
			p.inAnyOrder(s[i:j+1], key, direct)
			i, direct = j, false
		case it.repeated:
			for p.startsChoice(it.group) > nothing && !p.failed {
				at := p.tok.from
				p.choice(it.group, key, direct)
				if p.tok.from == at {
					break
				}
			}
			direct = false
		case it.group != nil:
			p.choice(it.group, key, direct)
			direct = false
		default:
			p.oneOf(it, key, direct)
			direct = false
		}
	}
}

// wordsFrom returns the words that a sequence begins with: `at least` of at least VALUE.
func wordsFrom(s sequence) string {
	var out []string
	for i := range s {
		w, one := s[i].word()
		if !one || s[i].skippable() {
			break
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// standsAlone reports whether nothing must follow a word, so that the word itself is the news.
func standsAlone(rest sequence) bool {
	for i := range rest {
		if !rest[i].skippable() {
			return false
		}
	}
	return true
}

// inAnyOrder reads parts that may be left out, each at most once.
func (p *parser) inAnyOrder(parts sequence, key string, direct bool) {
	var done uint64
	for !p.failed {
		best, at := nothing, -1
		for i := range parts {
			if done>>i&1 == 0 {
				if s := p.startsChoice(parts[i].group); s > best {
					best, at = s, i
				}
			}
		}
		if at < 0 {
			return
		}
		done |= 1 << at
		p.choice(parts[at].group, key, direct)
		direct = false
	}
}

// oneOf reads a word out of several, or a value.
func (p *parser) oneOf(it *item, key string, direct bool) {
	var values []valueForm
	for _, a := range it.atoms {
		if a.word == "" {
			values = append(values, a.value)
			continue
		}
		if p.atWord(a.word) {
			own := a.word
			if direct {
				own = key
			}
			p.args = append(p.args, Arg{own, &Word{p.takeWord(a.word), a.word}})
			return
		}
	}
	if len(it.atoms) > 1 {
		values = slices.DeleteFunc(values, func(v valueForm) bool { return !p.startsValue(v) })
	}
	read := func(v valueForm) {
		if n := p.value(v); !p.failed {
			p.args = append(p.args, Arg{key, n})
		}
	}
	switch len(values) {
	case 0:
		p.want(p.beginnings(&choice{branches: []sequence{{*it}}}))
	case 1:
		read(values[0])
	default:
		ways := make([]func(), len(values))
		for i, v := range values {
			// A value of a choice must reach a place where the form can go on, or it is not the one meant.
			ways[i] = func() {
				read(v)
				if !p.failed && p.tok.kind != tokEnd && !p.stops() {
					p.leftover()
				}
			}
		}
		p.firstThatFits(ways)
	}
}

// stops reports whether a word stands next that the form itself holds, or the word of an outline where the form has
// outlines: lists end there.
func (p *parser) stops() bool {
	if p.tok.kind != tokName {
		return false
	}
	for _, w := range p.form.words {
		if p.atWord(w) {
			return true
		}
	}
	word := p.text[p.tok.from:p.tok.to]
	return isJoining(word) || p.form.shapes && isShapeWord(word)
}

// startsValue reports whether the next token can begin a value of the given form.
func (p *parser) startsValue(v valueForm) bool {
	switch v {
	case formText:
		return p.tok.kind == tokText
	case formRaw:
		return p.tok.kind != tokEnd
	case formName, formRef, formNames:
		return p.tok.kind == tokName && !p.stops()
	case formOutline:
		return p.atOutline()
	case formPath:
		return p.atWord("path") || p.startsExpression()
	}
	return p.startsExpression()
}

func (p *parser) startsExpression() bool {
	switch p.tok.kind {
	case tokNumber:
		return true
	case tokName:
		return !p.stops()
	}
	return p.sign('(') || p.sign('-') || p.sign('+')
}

// value reads a value of the given form.
func (p *parser) value(v valueForm) Node {
	switch v {
	case formPoint:
		return p.point()
	case formPair:
		return p.pair()
	case formSize:
		return p.size(3)
	case formList:
		return p.list(true)
	case formNumbers:
		return p.list(false)
	case formPoints:
		return p.points()
	case formNames:
		return p.nameList()
	case formOutline:
		return p.outline()
	case formPath:
		if p.atWord("path") {
			p.next()
		}
		return p.path()
	case formText:
		return p.quoted()
	case formName:
		return p.newName()
	case formRef:
		return p.elementRef()
	case formRaw:
		return p.raw()
	case formCards:
		return p.cards()
	}
	return p.expression()
}
