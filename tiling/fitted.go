package tiling

import (
	"markout/layout/artwork"
	"markout/layout/geom"
)

// Fitted shows a part of a picture, in the picture's own millimetres, as large as it fits into a box of a page, in the box's middle and true
// in its proportions. The show goes into a layer of the page and into the document's list; scale is how many millimetres of the page one of the picture takes. The show is nil where part or box has no extent.
func Fitted(p *artwork.Picture, part, box geom.Rect) (show *Show, scale float64) {
	if !(part.W() > 0 && part.H() > 0 && box.W() > 0 && box.H() > 0) {
		return nil, 0
	}
	scale = min(box.W()/part.W(), box.H()/part.H())
	at := box.Mid().Sub(part.Mid().Mul(scale))
	half := geom.Point{X: part.W() / 2, Y: part.H() / 2}.Mul(scale)
	return &Show{
		Picture: p,
		Frame:   artwork.Matrix{A: scale, D: scale, E: at.X, F: at.Y},
		Window:  geom.Rect{Min: box.Mid().Sub(half), Max: box.Mid().Add(half)},
	}, scale
}
