package artwork

import (
	"bytes"
	"strings"
)

// mostEntityText is how many bytes all the places together may grow by at which entities stand.
const mostEntityText = 1 << 24

// entities reads the <!ENTITY NAME "TEXT"> of a document type declaration. A text is put in once, as it
// stands: an entity in an entity is not followed, and markup in one is not read as markup. Those that name
// a file stand for nothing.
func (r *reader) entities(declaration string, at int) map[string]string {
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
			r.fault(r.span(at, at), codeOutside, "", "entity %s stands outside the file and is left empty: nothing outside it is opened", quote(name))
			found[name] = ""
			continue
		}
		mark := s.text[s.at]
		s.at++
		text := s.until(func(c byte) bool { return c == mark })
		if _, twice := found[name]; !twice { // the first of a name counts
			found[name] = text
		}
		declaration = s.text[s.at:]
		if strings.ContainsRune(text, '<') {
			r.caution(r.span(at, at), codeLeft, "export the picture without entities", "entity %s holds markup, which is not drawn", quote(name))
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
