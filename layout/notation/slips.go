package notation

import (
	"fmt"
	"strings"

	"markout/layout/unit"
)

// mistyped reports the slips at a number that readers of it would call something else: a unit that does not touch, and
// a comma for the decimal point.
func (p *parser) mistyped() bool {
	if p.prev.kind != tokNumber {
		return false
	}
	number := p.words(p.prev)
	if p.tok.kind == tokNumber && p.prev.value.Kind == unit.Length && p.tok.value.Kind == unit.Length &&
		endsWith(number, "'", "′", "’") && endsWith(p.words(p.tok), `"`, "″", "”") {
		p.fail(p.prev.from, p.tok.to, "these are two values", fmt.Sprintf("write `%s-%s` for feet and inches", number, p.words(p.tok)))
		return true
	}
	if !p.prev.bare {
		return false
	}
	switch {
	case p.tok.kind == tokName && unit.IsUnit(p.words(p.tok)):
		p.fail(p.prev.from, p.tok.to, "a unit touches its number", fmt.Sprintf("write `%s%s`", number, p.words(p.tok)))
	case p.sign(',') && !p.tok.space:
		hint := unit.CommaHint(number, string(p.text[p.tok.from:p.lineEnd(p.tok.from)]))
		if hint == "" {
			return false
		}
		end := p.tok.to
		for end < p.end && p.text[end]-'0' <= 9 {
			end++
		}
		p.fail(p.prev.from, end, "a number has a decimal point, not a comma", hint)
	default:
		return false
	}
	return true
}

func endsWith(s string, ends ...string) bool {
	for _, e := range ends {
		if strings.HasSuffix(s, e) {
			return true
		}
	}
	return false
}

// lineEndTrimmed is lineEnd without what ends a line: blanks and a comment.
func (p *parser) lineEndTrimmed(i int) int { return trimEnd(p.text, i, p.contentEnd(i)) }

// lineEnd returns where the line that holds i ends within the text being read.
func (p *parser) lineEnd(i int) int {
	for i < p.end && p.text[i] != '\n' {
		i++
	}
	return i
}
