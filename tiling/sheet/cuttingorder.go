package sheet

import (
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/unit"
	"markout/tiling/cut"
)

// sawCut is one cut from edge to edge: its number in the order of cutting, its line on the board and what it is in words.
type sawCut struct {
	number int
	a, b   geom.Point // the middle of the kerf
	words  string
}

// sawCuts lists a board's cuts in their order, and its offcuts.
func (c *Cutting) sawCuts(b *CutBoard) (cuts []sawCut, waste []*cut.Part) {
	kerf := c.set.Boards[b.Board].Kerf
	var walk func(p *cut.Part)
	walk = func(p *cut.Part) {
		if p == nil {
			return
		}
		if p.Cut == cut.None {
			if p.Placed < 0 {
				waste = append(waste, p)
			}
			return
		}
		k := sawCut{number: len(cuts) + 1}
		left := ""
		if p.Far != nil {
			left = ", leaves " + c.size(p.Far.Length, p.Far.Width)
		}
		from := c.size(p.Length, p.Width)
		if p.Cut == cut.Across {
			x := p.X + p.At + kerf/2
			k.a, k.b = geom.Point{X: x, Y: p.Y}, geom.Point{X: x, Y: p.Y + p.Width}
			k.words = "across at " + c.figure(p.At) + " of " + from + left
		} else {
			y := p.Y + p.At + kerf/2
			k.a, k.b = geom.Point{X: p.X, Y: y}, geom.Point{X: p.X + p.Length, Y: y}
			k.words = "along at " + c.figure(p.At) + " of " + from + left
		}
		cuts = append(cuts, k)
		walk(p.Near)
		walk(p.Far)
	}
	walk(b.Part)
	return cuts, waste
}

// figure is a length to be measured by, without its unit's word: to half a millimetre, or to 1/32". It stays on one line.
func (c *Cutting) figure(mm float64) string {
	if c.set.Units.Imperial() {
		return strings.ReplaceAll(unit.FormatLength(mm, c.set.Units, unit.Sixteenth/2), " ", "\u00a0")
	}
	return unit.FormatLength(mm, c.set.Units, 0.5)
}

func (c *Cutting) size(length, width float64) string {
	return c.figure(length) + " x " + c.figure(width)
}

// alike says how many boards or bars from number on are one drawing: "ply 18/3", "ply 18/3 to 5".
func alike(name string, number, n int) string {
	s := from(name, number)
	if n > 1 {
		s += " to " + strconv.Itoa(number+n-1)
	}
	return s
}

// sameBoard reports whether two boards are cut alike.
func sameBoard(a, b *CutBoard) bool {
	if a.Board != b.Board || a.Short != b.Short || len(a.Cuts) != len(b.Cuts) {
		return false
	}
	for i, x := range a.Cuts {
		y := b.Cuts[i]
		if x.Piece != y.Piece || x.Turn != y.Turn || !x.At.Near(y.At) {
			return false
		}
	}
	return true
}

// sameBar reports whether two bars are cut alike.
func sameBar(a, b *CutBar) bool {
	if a.Bar != b.Bar || a.Short != b.Short || len(a.Cuts) != len(b.Cuts) {
		return false
	}
	for i, x := range a.Cuts {
		if x.Piece != b.Cuts[i].Piece {
			return false
		}
	}
	return true
}
