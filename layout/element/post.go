package element

import (
	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/notation"
	"markout/layout/set"
)

// post is a mast, column or bollard.
type post struct{ plain }

var postTable = kind("post", "A mast, column or bollard.", `post bollard
    repeat   12 around 0, 3600 radius 4200 from 15deg
    diameter 60
    height   700
`, []notation.Attr{
	sized("diameter", "diameter 60", "Of a round post."),
	outlineRow,
	heightRow,
}, freely("floor"))

func (post) table() *notation.Kind { return postTable }

func (post) outline(e *elem) (*set.Outline, bool) {
	switch {
	case e.has("outline") && e.has("diameter"):
		return nil, e.clash("outline", "diameter", "either says how thick it is")
	case e.has("outline"):
		return e.outlineOf("outline")
	}
	d, ok := e.needed("diameter")
	if !ok {
		return nil, false
	}
	return eval.Ask(e.sc.ev, &e.outlined, eval.Name{}, diag.Span{}, func() (*set.Outline, bool) { return circle(d), true })
}

func (p post) shape(e *elem) (set.Shape, bool) {
	o, ok1 := p.outline(e)
	h, ok2 := e.needed("height")
	if !ok1 || !ok2 {
		return nil, false
	}
	d, ok := e.optional("diameter")
	return &set.Post{Outline: *o, Height: h, Diameter: d}, ok
}
