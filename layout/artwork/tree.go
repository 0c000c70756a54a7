package artwork

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"markout/layout/diag"
)

// Limits of a file. They are far above what drawing programs write and keep memory within bounds.
const (
	mostBytes    = 256 << 20
	mostDepth    = 512
	mostElements = 500_000
)

const (
	svgSpace   = "http://www.w3.org/2000/svg"
	xlinkSpace = "http://www.w3.org/1999/xlink"
)

// element is one element of SVG. Those of other vocabularies are left out with all that is in them.
type element struct {
	name     string
	attrs    []attribute
	parent   *element // nil for the outermost
	children []*element
	index    int    // among its parent's children
	text     string // of a style sheet
	lettered bool   // there is more than white space in it
	from, to int    // bytes of the start tag
	size     int    // bytes of all attributes but links, which are never read twice
	read     bool   // the attributes were read before
}

type attribute struct{ name, value string }

// attr returns an attribute, empty where it is not given.
func (e *element) attr(name string) string {
	for _, a := range e.attrs {
		if a.name == name {
			return a.value
		}
	}
	return ""
}

// href returns what an element points to. The newer way to write it counts before xlink:href.
func (e *element) href() string {
	if h := e.attr("href"); h != "" {
		return strings.TrimSpace(h)
	}
	return strings.TrimSpace(e.attr("xlink:href"))
}

// tree reads the file's elements; nil after an error.
func (r *reader) tree() *element {
	if len(r.data) > mostBytes {
		r.refuse(r.span(0, 0), "", "the picture has more than %d MB", mostBytes>>20)
		return nil
	}
	if bytes.HasPrefix(r.data, []byte{0x1f, 0x8b}) {
		r.refuse(r.span(0, 0), "save it as plain SVG", "the picture is packed (SVGZ), which is not read here")
		return nil
	}
	d := xml.NewDecoder(bytes.NewReader(r.data))
	d.CharsetReader = charset
	b := treeBuilder{reader: r, decoder: d, ids: map[string]*element{}}
	for !r.failed {
		from := int(d.InputOffset())
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			r.broken(err, int(d.InputOffset()))
			return nil
		}
		b.token(token, from, int(d.InputOffset()))
	}
	r.ids = b.ids
	if r.failed {
		return nil
	}
	if b.root == nil {
		r.refuse(r.span(0, 0), "the outermost element of an SVG picture is svg", "there is no picture in this file")
	}
	return b.root
}

// broken says where the file stops being XML.
func (r *reader) broken(err error, at int) {
	at = min(at, len(r.data))
	var syntax *xml.SyntaxError
	switch {
	case errors.As(err, &syntax) && syntax.Msg == "unexpected EOF":
		r.refuse(r.span(at, at), "export it again", "the picture breaks off here: the file is not whole")
	case errors.As(err, &syntax):
		r.refuse(r.span(max(at-1, 0), at), "export it again", "this is not XML that can be read: %s", syntax.Msg)
	case errors.Is(err, errCharset):
		r.refuse(r.span(0, at), "save it as UTF-8", "the picture is written in letters that are not read here")
	default:
		r.refuse(r.span(max(at-1, 0), at), "export it again", "this is not XML that can be read: %s", err)
	}
}

// treeBuilder puts elements together.
type treeBuilder struct {
	*reader
	decoder *xml.Decoder
	root    *element
	open    *element // the innermost that has not ended
	depth   int
	foreign int // how many elements of other vocabularies are open
	count   int
	ids     map[string]*element
}

func (b *treeBuilder) token(token xml.Token, from, to int) {
	switch t := token.(type) {
	case xml.Directive:
		if !bytes.HasPrefix(t, []byte("DOCTYPE")) {
			return
		}
		entities := b.entities(string(t), from, min(to, len(b.data)))
		if grown(b.data[to:], entities) > mostEntityText {
			b.refuse(b.span(from, to), "export the picture without entities", "the entities stand for more than %d MB of text", mostEntityText>>20)
		}
		b.decoder.Entity = entities
	case xml.StartElement:
		b.start(t, from, to)
	case xml.EndElement:
		b.depth--
		if b.foreign > 0 {
			b.foreign--
		} else if b.open != nil {
			b.open = b.open.parent
		}
	case xml.CharData:
		if b.open == nil || b.foreign > 0 {
			return
		}
		if b.open.name == "style" {
			b.open.text += string(t)
		}
		b.open.lettered = b.open.lettered || len(bytes.TrimSpace(t)) > 0
	}
}

func (b *treeBuilder) start(t xml.StartElement, from, to int) {
	b.depth++
	b.count++
	switch {
	case b.depth > mostDepth:
		b.refuse(b.span(from, to), "", "elements stand more than %d deep in each other", mostDepth)
		return
	case b.count > mostElements:
		b.refuse(b.span(from, to), "", "the picture has more than %d elements", mostElements)
		return
	}
	if b.foreign > 0 || t.Name.Space != svgSpace && t.Name.Space != "" {
		b.foreign++
		return
	}
	if b.root == nil && t.Name.Local != "svg" {
		b.refuse(b.span(from, to), "", "the outermost element of an SVG picture is svg, not %s", quote(t.Name.Local))
		return
	}
	e := &element{name: t.Name.Local, parent: b.open, from: from, to: to}
	for _, a := range t.Attr {
		switch {
		case a.Name.Space == "":
			e.attrs = append(e.attrs, attribute{a.Name.Local, a.Value})
			if a.Name.Local != "href" {
				e.size += len(a.Name.Local) + len(a.Value)
			}
		case a.Name.Local == "href" && (a.Name.Space == xlinkSpace || a.Name.Space == "xlink"):
			e.attrs = append(e.attrs, attribute{"xlink:href", a.Value})
		}
	}
	if id := e.attr("id"); id != "" && b.ids[id] == nil {
		b.ids[id] = e
	}
	switch {
	case b.root == nil:
		b.root = e
	case b.open != nil:
		e.index = len(b.open.children)
		b.open.children = append(b.open.children, e)
	}
	b.open = e
}

// tag is the place of an element's start tag.
func (r *reader) tag(e *element) diag.Span { return r.span(e.from, e.to) }

// place is where an attribute's value stands, or the tag where the attribute does not stand in it. The value
// is looked for in the text of the tag, since the XML reader does not say where it was.
func (r *reader) place(e *element, name string) diag.Span {
	tag := r.data[e.from:min(e.to, len(r.data))]
	for from := 0; ; {
		i := bytes.Index(tag[from:], []byte(name))
		if i < 0 {
			return r.tag(e)
		}
		i += from
		from = i + len(name)
		rest := bytes.TrimLeft(tag[from:], " \t\r\n")
		prefixed := name == "href" && i > 0 && tag[i-1] == ':'
		if i == 0 || !isSpace(tag[i-1]) && !prefixed || len(rest) == 0 || rest[0] != '=' {
			continue
		}
		rest = bytes.TrimLeft(rest[1:], " \t\r\n")
		if len(rest) == 0 {
			return r.tag(e)
		}
		start := len(tag) - len(rest) + 1
		if n := bytes.IndexByte(rest[1:], rest[0]); n >= 0 {
			return r.span(e.from+start, e.from+start+n)
		}
	}
}

// where is the place of an attribute or property: its attribute's, or the style's that holds it, or the tag.
func (r *reader) where(e *element, name string) diag.Span {
	if e.attr(name) == "" && strings.Contains(e.attr("style"), name) {
		name = "style"
	}
	return r.place(e, name)
}

// placeIn is the place of one byte of an attribute's value, counted in the value as it was read.
func (r *reader) placeIn(e *element, name string, offset int) diag.Span {
	sp := r.place(e, name)
	value := e.attr(name)
	if string(r.data[sp.From:sp.To]) != value { // with entities or other line ends places have moved
		return sp
	}
	at := int(sp.From) + min(offset, len(value))
	return r.span(at, min(at+1, int(sp.To)))
}
