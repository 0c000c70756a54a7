package element

import (
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// plain is what most kinds have in common: an outline that stands `at` a place, turned; a height; a flat top.
type plain struct{}

func (plain) stand(e *elem) (pose, bool) { return e.standAt() }

func (plain) outline(e *elem) (*set.Outline, bool) { return e.outlineOf("outline") }

func (plain) hasOutline(*elem) bool { return true }

func (plain) height(e *elem) (float64, bool) { return e.needed("height") }

func (plain) ground(e *elem, k int) (float64, bool) { return e.groundOf(k) }

func (plain) under(e *elem, k int, _ geom.Point, _ func() ([]geom.Region, bool), at diag.Span) (float64, bool) {
	return e.top(k, at)
}

func (plain) hub(*elem) (geom.Point, bool) { return geom.Point{}, true }

func (plain) measures() []string { return nil }

func (plain) measure(*elem, string) (unit.Value, bool) { return unit.Value{}, false }

func (plain) anchors() []string { return nil }

func (plain) anchor(*elem, notation.Ask) (spot, bool) { return spot{}, false }

func (plain) line(e *elem) (*geom.Path, bool) {
	o, ok := e.kind.outline(e)
	if !ok || o == nil {
		return nil, ok
	}
	return o.Path, true
}
