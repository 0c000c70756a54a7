package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
)

// faceAnchors are the places of a piece that is a face standing on its edge: the middle of its foot, and its two ends, left and
// right as seen from the front.
var faceAnchors = []string{"centre", "start", "end"}

// faceAnchor is one of those places, of a face of the given box.
func faceAnchor(box geom.Rect, ask notation.Ask) spot {
	s := spot{outward: geom.Point{Y: -1}}
	switch ask.Word {
	case "start":
		s.at.X = box.Min.X
	case "end":
		s.at.X = box.Max.X
	default:
		s.outward = geom.Point{}
	}
	return s
}
