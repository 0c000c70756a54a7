package element

import (
	"markout/layout/notation"
	"markout/layout/set"
)

// platform is a level.
type platform struct{ plain }

var platformTable = kind("platform", "A level to stand on.", `platform deck
    outline  polygon 8 across 4800
    at       0, 3600
    height   450
    full-size floor
`, []notation.Attr{
	outlineRow,
	heightRow,
	sized("deck", "deck 18", "The thickness of the board on top; a flight that meets it stops under that board."),
	{Word: "closed", Example: "closed", Doc: "Its underside is a piece too."},
}, freely("floor"))

func (platform) table() *notation.Kind { return platformTable }

func (platform) shape(e *elem) (set.Shape, bool) {
	o, ok1 := e.outlineOf("outline")
	h, ok2 := e.needed("height")
	board, ok3 := e.optional("deck")
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	if board > h {
		return nil, e.errorf(e.arg("deck").Pos(), "the board is thicker than the platform is high: %s and %s", e.show(board), e.show(h))
	}
	return &set.Platform{Outline: *o, Height: h, Deck: board, Closed: e.has("closed")}, true
}
