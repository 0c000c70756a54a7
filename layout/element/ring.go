package element

import (
	"markout/layout/notation"
	"markout/layout/set"
)

// ring is a kerb, coaming or round bench.
type ring struct{ plain }

var ringTable = kind("ring", "A kerb, coaming or round bench.", `ring kerb
    at       0, 3600
    outer    5200
    inner    4900
    height   100
`, []notation.Attr{
	{Word: "outer", Form: "OUTLINE|VALUE", Example: "outer 5200", Doc: "Its outer edge: a diameter, or an outline."},
	{Word: "inner", Form: "OUTLINE|VALUE", Example: "inner 4900", Doc: "Its inner edge: a diameter, or an outline. Without it the ring is solid."},
	heightRow,
}, freely("floor"))

func (ring) table() *notation.Kind { return ringTable }

func (ring) outline(e *elem) (*set.Outline, bool) { return e.outlineOf("outer") }

func (ring) shape(e *elem) (set.Shape, bool) {
	outer, ok1 := e.outlineOf("outer")
	h, ok2 := e.needed("height")
	if !ok1 || !ok2 {
		return nil, false
	}
	r := &set.Ring{Outer: *outer, Height: h}
	a := e.attr("inner")
	if a == nil {
		return r, true
	}
	n := e.arg("inner")
	if n == nil {
		return nil, false
	}
	inner, ok := e.draw(n, "inner")
	if !ok {
		return nil, false
	}
	if !holdsAll(outer.Path, inner.Path) {
		return nil, e.errorf(n.Pos(), "the inner edge does not lie inside the outer one")
	}
	r.Inner = inner
	a.Args = nil
	return r, true
}
