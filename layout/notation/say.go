package notation

import (
	"fmt"
	"slices"
	"strings"
)

// want reports that something else is wanted at the next token, or is missing at the end.
func (p *parser) want(what string) { p.wantAs(what, p.example()) }

// wantAs is want with a hint for where no word was nearly right.
func (p *parser) wantAs(what, hint string) {
	if p.failed || p.mistyped() {
		return
	}
	if p.tok.kind == tokEnd {
		before := short(p.words(p.prev))
		p.fail(p.prev.from, p.prev.to, fmt.Sprintf("%s is missing after `%s`", what, before), hint)
		return
	}
	word := p.words(p.tok)
	if p.tok.kind == tokName {
		if near := p.suggest(word, named(what)); near != "" {
			hint = fmt.Sprintf("did you mean `%s`?", near)
		}
	}
	p.fail(p.tok.from, p.tok.to, fmt.Sprintf("%s is wanted here, not `%s`", what, short(word)), hint)
}

// leftover reports what stands after the end of all that the form takes.
func (p *parser) leftover() {
	if p.failed || p.mistyped() {
		return
	}
	if len(p.form.root.branches) == 1 && len(p.form.root.branches[0]) == 0 && p.attr != nil && p.attr.Word != "" {
		p.fail(p.tok.from, p.lineEndTrimmed(p.tok.from), fmt.Sprintf("`%s` stands alone", p.attr.Word), "")
		return
	}
	word := p.words(p.tok)
	if p.tok.kind == tokName {
		word = string(p.text[p.tok.from : p.tok.from+wordLength(p.text[p.tok.from:p.end])])
	}
	hint := p.example()
	if near := p.suggest(word, append(slices.Clone(p.form.words), p.beneath...)); near != "" {
		hint = fmt.Sprintf("did you mean `%s`?", near)
	}
	if p.sign(',') && p.prev.kind == tokNumber {
		hint = "a point has two values, and a decimal has a point: `1.5`"
	}
	p.fail(p.tok.from, p.tok.from+len(word), fmt.Sprintf("`%s` is not expected here", short(word)), hint)
}

// named returns the words that a message has in quotes.
func named(what string) []string {
	var out []string
	for i, part := range strings.Split(what, "`") {
		if i%2 == 1 {
			out = append(out, part)
		}
	}
	return out
}

// short cuts a long text for a message.
func short(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}

// beginnings lists what a choice can begin with, for a message.
func (p *parser) beginnings(c *choice) string {
	var words []string
	add := func(w string) {
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	var walk func(c *choice)
	walk = func(c *choice) {
		for _, s := range c.branches {
			for i := range s {
				for _, a := range s[i].atoms {
					if a.word != "" {
						add("`" + a.word + "`")
					} else {
						add(valueForms[a.value].called)
					}
				}
				if s[i].group != nil {
					walk(s[i].group)
				}
				if !s[i].skippable() {
					break
				}
			}
		}
	}
	walk(c)
	return either(words)
}

// either joins words as a person says them: a, b or c.
func either(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
