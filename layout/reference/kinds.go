package reference

import (
	"strings"

	"markout/layout/caution"
	"markout/layout/element"
	"markout/layout/notation"
	"markout/layout/rules"
	"markout/layout/unit"
)

// kinds returns the tables of all statements: what opens and joins files first, then the elements.
func kinds() []notation.Kind {
	var statements, elements []notation.Kind
	seen := map[string]bool{}
	for _, k := range append(element.Kinds(), notation.Shared()...) {
		if seen[k.Word] {
			continue
		}
		seen[k.Word] = true
		if k.Named && k.Word != "let" {
			elements = append(elements, k)
		} else {
			statements = append(statements, k)
		}
	}
	return append(statements, elements...)
}

// headOf is a statement's first line as a form.
func headOf(k *notation.Kind) string {
	parts := []string{k.Word}
	if k.Named {
		parts = append(parts, "NAME")
	}
	if k.Head != "" {
		parts = append(parts, k.Head)
	}
	if k.Listed {
		parts = append(parts, "|", notation.ListedForm)
	}
	return strings.Join(parts, " ")
}

// formOf is an attribute's line as a form.
func formOf(a *notation.Attr) string {
	if a.Form == "" {
		return a.Word
	}
	return a.Word + " " + a.Form
}

func kindPage(k *notation.Kind) page {
	p := page{topic: k.Word, title: k.Word + ": " + lower(firstSentence(k.Doc))}
	p.blocks = append(p.blocks, block{form: headOf(k)})
	if rest := strings.TrimSpace(strings.TrimPrefix(k.Doc, firstSentence(k.Doc))); rest != "" {
		p.blocks = append(p.blocks, say(rest))
	}
	if k.Example != "" {
		p.blocks = append(p.blocks, example(k.Example))
	}
	common := commonAttributes()
	var rows []row
	for i := range k.Attributes {
		a := &k.Attributes[i]
		if common[meaningOf(a)] {
			rows = append(rows, row{a.Word, firstSentence(a.Doc)})
			continue
		}
		p.blocks = append(p.blocks, section(k.Word+"."+a.Word))
		p.blocks = append(p.blocks, attributeBlocks(a)...)
	}
	if len(rows) > 0 {
		p.blocks = append(p.blocks, section("What many kinds take"), block{rows: rows, head: row{"attribute", "what it says"}})
	}
	return p
}

// meaning is what makes two kinds' attributes of one word the same.
type meaning struct{ word, form, doc string }

func meaningOf(a *notation.Attr) meaning { return meaning{a.Word, a.Form, a.Doc} }

// commonAttributes returns the attributes that at least three kinds take in the same way: a kind's page only lists them.
func commonAttributes() map[meaning]bool {
	count := map[meaning]int{}
	for _, k := range kinds() {
		for i := range k.Attributes {
			count[meaningOf(&k.Attributes[i])]++
		}
	}
	out := map[meaning]bool{}
	for m, n := range count {
		out[m] = n >= 3
	}
	return out
}

// commonPage says of each attribute that many kinds take what there is to say.
func commonPage() page {
	common := commonAttributes()
	p := page{topic: "attributes", title: "Attributes: what many kinds take"}
	for _, k := range kinds() {
		for i := range k.Attributes {
			if a := &k.Attributes[i]; common[meaningOf(a)] {
				common[meaningOf(a)] = false
				p.blocks = append(p.blocks, section(a.Word))
				p.blocks = append(p.blocks, attributeBlocks(a)...)
			}
		}
	}
	return p
}

func attributePage(k *notation.Kind, word string) (page, bool) {
	for i := range k.Attributes {
		if a := &k.Attributes[i]; a.Word == word {
			p := page{topic: k.Word + "." + word, title: k.Word + "." + word}
			p.blocks = attributeBlocks(a)
			return p, true
		}
	}
	return page{}, false
}

// sharedPage is the page of an attribute that is looked for without a kind: said once for the kinds that mean the same by it.
func sharedPage(word string) (page, bool) {
	var order []meaning
	attrs := map[meaning]*notation.Attr{}
	of := map[meaning][]string{}
	for _, k := range kinds() {
		for i := range k.Attributes {
			a := &k.Attributes[i]
			if a.Word != word {
				continue
			}
			m := meaningOf(a)
			if attrs[m] == nil {
				attrs[m] = a
				order = append(order, m)
			}
			of[m] = append(of[m], k.Word)
		}
	}
	p := page{topic: word, title: word}
	for _, m := range order {
		if len(of[m]) > mostInTitle {
			p.blocks = append(p.blocks, section("Of many kinds"), say("Taken by "+strings.Join(of[m], ", ")+"."))
		} else {
			p.blocks = append(p.blocks, section("Of "+strings.Join(of[m], ", ")))
		}
		p.blocks = append(p.blocks, attributeBlocks(attrs[m])...)
	}
	return p, len(order) > 0
}

// mostInTitle is how many kinds a section names in its title.
const mostInTitle = 10

func attributeBlocks(a *notation.Attr) []block {
	doc := a.Doc
	if a.Several {
		doc += " May stand several times."
	}
	if a.Measured {
		doc += " Can be asked of the element by this word"
		if a.Wants != unit.Number {
			doc += ": " + article(a.Wants.String())
		}
		doc += "."
	}
	out := []block{{form: formOf(a)}, say(doc)}
	if a.Example != "" {
		out = append(out, block{line: a.Example})
	}
	for i := range a.Sub {
		s := &a.Sub[i]
		out = append(out, say("Under it, indented deeper:"), block{form: formOf(s)}, say(s.Doc))
		if s.Example != "" {
			out = append(out, block{line: s.Example})
		}
	}
	return out
}

func article(noun string) string {
	if strings.ContainsRune("aeiou", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

func firstSentence(s string) string {
	if i := strings.Index(s, ". "); i >= 0 {
		return s[:i+1]
	}
	return s
}

// lower starts a sentence in small letters, as it stands after a colon, and ends it without a point.
func lower(s string) string {
	s = strings.TrimSuffix(s, ".")
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

func codePage(c rules.Code) page {
	text := c.Text()
	p := page{topic: c.Code, title: text[0]}
	for _, t := range text[1:] {
		p.blocks = append(p.blocks, say(t))
	}
	return p
}

func lengthRows() []row {
	var out []row
	for _, w := range written {
		out = append(out, row{w.text, unit.FormatNumber(w.mm, 0.01) + " mm"})
	}
	return out
}

func cautionsChapter() page {
	p := page{topic: "cautions", title: "Cautions: what is worth a second look", blocks: []block{
		say("A caution does not stop the work. It gives the figure found, the figure published and where it is published, and it never " +
			"decides. `markout explain CODE` says more of each:"),
	}}
	var rows []row
	for _, c := range rules.Codes() {
		rows = append(rows, row{c.Code, c.Title})
	}
	p.blocks = append(p.blocks, block{rows: rows, head: row{"code", "what it says"}}, say(caution.Defer))
	return p
}

func kindsChapter() page {
	p := page{topic: "kinds", title: "Kinds: the statements and elements", blocks: []block{
		say("The first word of a statement says what it is. `markout explain KIND` lists its attributes, `markout explain KIND.attribute` " +
			"says more of one."),
	}}
	var rows []row
	for _, k := range kinds() {
		rows = append(rows, row{k.Word, lower(firstSentence(k.Doc))})
	}
	p.blocks = append(p.blocks, block{rows: rows, head: row{"word", "what it is"}})
	return p
}

// contents is what is said without a topic.
func contents() page {
	p := page{title: "markout explain TOPIC", blocks: []block{section("Topics")}}
	var rows []row
	for _, c := range chapters() {
		_, what, _ := strings.Cut(c.title, ": ")
		if what == "" {
			what = lower(c.title)
		}
		rows = append(rows, row{c.topic, what})
	}
	p.blocks = append(p.blocks, terms(rows...), section("Statements and elements"))
	rows = nil
	for _, k := range kinds() {
		rows = append(rows, row{k.Word, lower(firstSentence(k.Doc))})
	}
	p.blocks = append(p.blocks, terms(rows...),
		say("Also KIND.attribute (platform.height), an attribute alone (repeat), and the code of a caution (STEP-RISE)."))
	return p
}
