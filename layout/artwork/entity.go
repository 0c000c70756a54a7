package artwork

import (
	"bytes"
	"strings"

	"markout/layout/diag"
)

// mostEntityText is how many bytes all the places together may grow by at which entities stand.
const mostEntityText = 1 << 24

// entities reads the <!ENTITY NAME "TEXT"> of a document type declaration at a range of bytes of the file. A text is put in once, as it
// stands: an entity in an entity is not followed, which is an error, and markup in one is not read as markup. Those that name
// a file stand for nothing.
func (r *reader) entities(declaration string, from, to int) map[string]string {
	found := map[string]string{}
	for {
		_, rest, ok := strings.Cut(declaration, "<!ENTITY")
		if !ok {
			return found
		}
		declaration = rest
		s := scanner{text: rest}
		s.space()
		if s.take('%') {
			continue // read only inside declarations, of which none is
		}
		name := s.until(isSpace)
		s.space()
		if s.done() || s.text[s.at] != '"' && s.text[s.at] != '\'' {
			r.fault(r.entity(name, from, to), codeOutside, "", "entity %s stands outside the file and is left empty: nothing outside it is opened", quote(name))
			found[name] = ""
			continue
		}
		mark := s.text[s.at]
		s.at++
		text := s.until(func(c byte) bool { return c == mark })
		declaration = s.text[s.at:]
		if inner := entityIn(text, found); inner != "" {
			r.fault(r.entity(name, from, to), codeLeft, "export the picture without entities", "entity %s stands for entity %s in turn, which is not put in", quote(name), quote(inner))
		}
		if strings.ContainsRune(text, '<') {
			r.caution(r.entity(name, from, to), codeLeft, "export the picture without entities", "entity %s holds markup, which is not drawn", quote(name))
		}
		if _, twice := found[name]; !twice { // the first of a name counts
			found[name] = text
		}
	}
}

// entityIn returns the first of the entities known that stands in a text.
func entityIn(text string, known map[string]string) string {
	for {
		_, rest, ok := strings.Cut(text, "&")
		if !ok {
			return ""
		}
		text = rest
		if name, _, ok := strings.Cut(rest, ";"); ok {
			if _, is := known[name]; is {
				return name
			}
		}
	}
}

// entity is the place of an entity's name in the declaration at a range of bytes. It is looked for in the text, since the XML reader takes
// comments out of declarations.
func (r *reader) entity(name string, from, to int) diag.Span {
	for at := from; ; {
		i := bytes.Index(r.data[at:to], []byte("<!ENTITY"))
		if i < 0 {
			return r.span(from, from)
		}
		at += i + len("<!ENTITY")
		rest := bytes.TrimLeft(r.data[at:to], " \t\r\n")
		if n := to - len(rest); bytes.HasPrefix(rest, []byte(name)) && len(rest) > len(name) && isSpace(rest[len(name)]) {
			return r.span(n, n+len(name))
		}
	}
}

// until reads up to the first byte that ends it.
func (s *scanner) until(end func(byte) bool) string {
	from := s.at
	for !s.done() && !end(s.text[s.at]) {
		s.at++
	}
	return s.text[from:s.at]
}

// grown is by how much a text grows when its entities are put in.
func grown(data []byte, entities map[string]string) int {
	sum := 0
	for {
		_, rest, ok := bytes.Cut(data, []byte{'&'})
		if !ok {
			return sum
		}
		data = rest
		name := rest[:min(len(rest), 256)]
		if i := bytes.IndexByte(name, ';'); i >= 0 {
			sum += len(entities[string(name[:i])])
		}
	}
}
