package notation

import "markout/layout/diag"

// ParseAttribute reads the value of one attribute from a text of its own, such as a change typed on the command line: of
// `front.risers=8`, from is where the 8 begins and word is `risers`. The text is a file of list's sources with the number id, so that
// errors show it. The attribute is marked Bad where the kind does not take the word or the value is wrong.
func ParseAttribute(id diag.FileID, text []byte, from int, kind Kind, word string, list *diag.List) *Attribute {
	p := &parser{id: id, text: text, diags: list}
	p.checkBytes()
	from = min(max(from, 0), len(text))
	a := &Attribute{Word: word, WordSpan: p.span(wordBefore(text, from, word)), Span: p.span(0, len(text))}
	t := newTable(&kind)
	row := t.attrs[word]
	if row == nil {
		hint := ""
		if near := Suggest(word, t.words); near != "" {
			hint = "did you mean `" + near + "`?"
		}
		p.error(int(a.WordSpan.From), int(a.WordSpan.To), "`"+kind.Word+"` takes no `"+short(word)+"`", hint)
		a.Bad = true
		return a
	}
	p.read(a, row, from, trimEnd(text, from, len(text)))
	return a
}

// ParseForm reads a text of its own by a form; ok is false where it does not fit, which has been reported.
func ParseForm(id diag.FileID, text []byte, from int, form string, list *diag.List) (args Args, ok bool) {
	p := &parser{id: id, text: text, diags: list}
	p.checkBytes()
	from = min(max(from, 0), len(text))
	a := &Attribute{WordSpan: p.span(0, from), Span: p.span(0, len(text))}
	p.read(a, &Attr{Form: form}, from, trimEnd(text, from, len(text)))
	return a.Args, !a.Bad
}

// wordBefore returns where word stands last before from, or all that stands there.
func wordBefore(text []byte, from int, word string) (int, int) {
	for i := from - len(word); i >= 0; i-- {
		if string(text[i:i+len(word)]) == word {
			return i, i + len(word)
		}
	}
	return 0, from
}
