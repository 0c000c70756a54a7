package sheet

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// footLine is a line of a footprint on the base sheet, flattened.
type footLine struct {
	box    geom.Rect
	points []geom.Point
	closed bool
}

func (c *CardModel) footLines() []footLine {
	var out []footLine
	for _, f := range c.Model.Base {
		for _, r := range f.Areas {
			for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
				out = append(out, footLine{p.Bounds(), p.Flatten(tiling.Flatness, nil), p.Closed()})
			}
		}
	}
	return out
}

// boxLine is the outline of a box.
func boxLine(b geom.Rect) footLine { return footLine{b, tiling.Box(b), true} }

// textLine is the box of a text.
func textLine(t *drawing.Text) footLine {
	placed := tiling.PlaceText(t, t.At)
	return boxLine(include(geom.EmptyRect(), placed.Corners()))
}

// intoOne returns the least shift that brings a box into one of the windows; none where no window is so large.
func intoOne(b geom.Rect, windows []geom.Rect) geom.Point {
	var best geom.Point
	least := math.Inf(1)
	for _, w := range windows {
		if b.W() > w.W() || b.H() > w.H() {
			continue
		}
		d := geom.Point{
			X: max(0, w.Min.X-b.Min.X) - max(0, b.Max.X-w.Max.X),
			Y: max(0, w.Min.Y-b.Min.Y) - max(0, b.Max.Y-w.Max.Y),
		}
		if l := d.Len(); l < least {
			best, least = d, l
		}
	}
	return best
}

// crosses reports whether the line goes through a box.
func (l *footLine) crosses(box geom.Rect) bool {
	if b := l.box; b.Max.X < box.Min.X || b.Min.X > box.Max.X || b.Max.Y < box.Min.Y || b.Min.Y > box.Max.Y {
		return false
	}
	for i, p := range l.points {
		if i == 0 && !l.closed {
			continue
		}
		if _, _, ok := tiling.ClipSegment(l.points[(i+len(l.points)-1)%len(l.points)], p, box); ok {
			return true
		}
	}
	return false
}

// besideFootprint is where lettering of a width and height starts beside a small footprint whose box is b: at its right, at its
// left, over or under it, the first of these that crosses no line of a footprint and neither of the lines that places count from;
// at its right where all do.
func besideFootprint(b geom.Rect, lines []footLine, width, height float64) geom.Point {
	mid := b.Mid()
	places := [...]geom.Point{
		{X: b.Max.X + 1, Y: mid.Y - height/2}, {X: b.Min.X - 1 - width, Y: mid.Y - height/2},
		{X: mid.X - width/2, Y: b.Max.Y + 1}, {X: mid.X - width/2, Y: b.Min.Y - 1 - height},
	}
	for _, at := range places {
		if box := (geom.Rect{Min: at, Max: at.Add(geom.Point{X: width, Y: height})}).Grow(lineClear); !crossed(box, lines) {
			return at
		}
	}
	return places[0]
}

func crossed(box geom.Rect, lines []footLine) bool {
	if box.Min.X < 0 && box.Max.X > 0 || box.Min.Y < 0 && box.Max.Y > 0 {
		return true
	}
	for i := range lines {
		if lines[i].crosses(box) {
			return true
		}
	}
	return false
}
