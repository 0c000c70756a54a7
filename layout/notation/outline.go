package notation

// outlineWords are the words an outline begins with.
var outlineWords = [...]string{"rect", "circle", "ellipse", "polygon", "points", "svg", "path", "sides"}

// isShapeWord reports whether word begins an outline or joins its values.
func isShapeWord(word []byte) bool {
	return isOutlineWord(word) || string(word) == "diagonal" || string(word) == "across" || string(word) == "corners"
}

func isOutlineWord(word []byte) bool {
	for _, w := range outlineWords {
		if string(word) == w {
			return true
		}
	}
	return false
}

// atOutline reports whether an outline begins at the next token.
func (p *parser) atOutline() bool {
	return p.tok.kind == tokName && isOutlineWord(p.text[p.tok.from:p.tok.to])
}

// outline reads a closed shape.
func (p *parser) outline() Node {
	if !p.atOutline() {
		p.wantOutline()
		return nil
	}
	word := p.words(p.tok)
	out := &Outline{Word: word, WordSpan: p.takeWord(word)}
	switch word {
	case "rect", "ellipse":
		out.arg("", p.size(2))
	case "circle":
		out.arg("", p.expression())
	case "polygon":
		p.polygon(out)
	case "points":
		out.arg("", p.points())
	case "svg":
		out.arg("", p.quoted())
	case "path":
		if n, ok := p.path().(*Path); ok {
			out.Path = n
		}
	case "sides":
		out.arg("", p.list(false))
		if !p.failed && p.atWord("diagonal") {
			p.next()
			out.arg("diagonal", p.expression())
		}
	}
	if p.failed {
		return nil
	}
	out.Span = p.span(int(out.WordSpan.From), p.prev.to)
	return out
}

const polygonExample = "as in `polygon 8 across 4800`"

func (p *parser) polygon(out *Outline) {
	if p.atWord("across") || p.atWord("corners") {
		p.wantAs("the number of edges", polygonExample)
		return
	}
	out.arg("", p.expression())
	switch {
	case p.failed:
	case p.atWord("across"), p.atWord("corners"):
		key := p.words(p.tok)
		p.next()
		out.arg(key, p.expression())
	default:
		p.wantAs("`across` or `corners`", polygonExample)
	}
}

func (o *Outline) arg(key string, n Node) {
	if n != nil {
		o.Args = append(o.Args, Arg{key, n})
	}
}

// shapesMeant lists what people write for an outline's word.
var shapesMeant = map[string]string{
	"rectangle": "rect", "square": "rect", "box": "rect", "round": "circle", "disc": "circle", "disk": "circle", "oval": "ellipse",
	"octagon": "polygon 8", "hexagon": "polygon 6", "pentagon": "polygon 5", "triangle": "polygon 3", "ngon": "polygon",
	"polyline": "points", "line": "path", "shape": "points",
}

func (p *parser) wantOutline() {
	if !p.failed && p.tok.kind == tokName {
		word := p.words(p.tok)
		near := shapesMeant[word]
		if near == "" {
			near = p.suggest(word, outlineWords[:])
		}
		if near != "" {
			p.fail(p.tok.from, p.tok.to, "`"+short(word)+"` is no outline", "did you mean `"+near+"`?")
			return
		}
	}
	p.want(valueForms[formOutline].called)
}
