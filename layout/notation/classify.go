package notation

import (
	"fmt"
	"slices"
)

// word returns the word that the row's content begins with.
func (r *row) word(text []byte) []byte {
	content := text[r.from:r.to]
	return content[:wordLength(content)]
}

// classify gives each row its role by indentation and tables. With report it says what is wrong with indentation and with
// words that are not known.
func (p *parser) classify(rows []row, t *tables, report bool) {
	var (
		in       *table // of the statement that is open
		known    bool   // its word is known
		open     *Attr  // attribute that is open
		base     int32  // indentation of the first attribute, 0 for none yet
		baseRow  int
		orphaned bool
	)
	for i := range rows {
		r := &rows[i]
		if r.from == r.to {
			continue
		}
		if r.indent == 0 {
			r.role, open, base, orphaned = roleStatement, nil, 0, false
			r.table = t.byKey[string(r.word(p.text))]
			if r.table == nil && report {
				r.table = p.unknownStatement(r, t)
			}
			in, known = r.table, true
			continue
		}
		switch {
		case !known:
			r.role = roleLost
			if report && !orphaned {
				p.complain(r, int(r.from), int(r.to), "an indented line stands under no statement", "a statement begins in the first column")
			}
			orphaned = true
			continue
		case in == nil:
			r.role = roleLost
			continue
		case len(in.attrs) == 0, base > 0 && r.indent > base && open == nil:
			r.role = roleMore
			continue
		case base > 0 && r.indent > base:
			if a := open.sub(string(r.word(p.text))); a != nil {
				r.role, r.attr = roleSub, a
			} else {
				r.role = roleMore
			}
			continue
		case base == 0:
			base, baseRow = r.indent, i
		case r.indent < base && report && !p.hasTab(r):
			p.complain(r, int(r.from), int(r.from)+max(1, len(r.word(p.text))), "this line is indented less than the first attribute",
				fmt.Sprintf("indent it by %d spaces, as line %d", base, baseRow+1))
		}
		r.role = roleAttribute
		r.attr = in.attrs[string(r.word(p.text))]
		if r.attr == nil && report {
			r.attr = p.unknownAttribute(r, in)
		}
		open = r.attr
	}
}

// hasTab reports whether a tab stands in the row's indentation, which has been said.
func (p *parser) hasTab(r *row) bool {
	return slices.Contains(p.text[r.start:r.from], '\t')
}

// complain reports an error in a row unless a broken character explains it.
func (p *parser) complain(r *row, from, to int, message, hint string) {
	if !p.isBroken(int(r.start), int(r.to)) {
		p.error(from, to, message, hint)
	}
}

// unknownStatement reports a statement's word that no table has, and returns the table of the word that was meant.
func (p *parser) unknownStatement(r *row, t *tables) *table {
	word := string(r.word(p.text))
	if word == "" {
		p.enter(int(r.from), int(r.to))
		message, hint := "a statement begins with a word", "such as `platform deck`"
		if p.failed {
			message, hint = p.failure.message, p.failure.hint
		}
		p.complain(r, int(r.from), max(p.tok.to, int(r.from)+1), message, hint)
		return nil
	}
	near := p.suggest(word, t.words)
	hint := ""
	if near != "" {
		hint = fmt.Sprintf("did you mean `%s`?", near)
	} else if where := t.having(word); where != "" {
		hint = fmt.Sprintf("`%s` is an attribute of `%s`: indent it under one", word, where)
	}
	p.complain(r, int(r.from), int(r.from)+len(word), fmt.Sprintf("`%s` is no statement", short(word)), hint)
	return t.byKey[near]
}

// having returns the first kind that takes an attribute of that word.
func (t *tables) having(word string) string {
	for _, w := range t.words {
		if t.byKey[w].attrs[word] != nil {
			return w
		}
	}
	return ""
}

// unknownAttribute reports an attribute's word that its table does not have, and returns the attribute that was meant.
func (p *parser) unknownAttribute(r *row, in *table) *Attr {
	word := string(r.word(p.text))
	if word == "" {
		p.enter(int(r.from), int(r.to))
		message, hint := "an attribute begins with a word", ""
		if p.failed {
			message, hint = p.failure.message, p.failure.hint
		}
		p.complain(r, int(r.from), max(p.tok.to, int(r.from)+1), message, hint)
		return nil
	}
	near := p.suggest(word, in.words)
	hint := ""
	if near != "" {
		hint = fmt.Sprintf("did you mean `%s`?", near)
		if word == "treads" && near == "risers" {
			hint += " A flight of n risers has n − 1 treads"
		}
	}
	p.complain(r, int(r.from), int(r.from)+len(word), fmt.Sprintf("`%s` takes no `%s`", in.kind.Word, short(word)), hint)
	return in.attrs[near]
}
