package element

import (
	"markout/layout/notation"
	"markout/layout/set"
)

// reserve is a volume to keep clear.
type reserve struct{ plain }

var reserveTable = kind("reserve", "A volume to keep clear: a turning circle, a door's sweep, a run-up.", `reserve turning
    outline  circle 1500
    at       0, 1200
    height   2000
`, []notation.Attr{outlineRow, heightRow}, unmade(freely("floor")))

func (reserve) table() *notation.Kind { return reserveTable }

func (reserve) shape(e *elem) (set.Shape, bool) {
	o, ok1 := e.outlineOf("outline")
	h, ok2 := e.needed("height")
	if !ok1 || !ok2 {
		return nil, false
	}
	return &set.Reserve{Outline: *o, Height: h}, true
}
