package artwork

import "markout/layout/geom"

// Colour is red, green and blue in sRGB.
type Colour struct{ R, G, B uint8 }

// Paint is what an area is covered with: a colour, or a gradient where that is not nil.
type Paint struct {
	Colour   Colour
	Gradient *Gradient
	Opacity  float64 // more than 0, at most 1
}

// Fill paints the inside of a shape.
type Fill struct {
	Paint
	EvenOdd bool // otherwise the inside is where the winding is not zero
}

// Cap is how an open line ends.
type Cap uint8

const (
	Butt Cap = iota
	RoundCap
	Square
)

// Join is how a line goes round a corner.
type Join uint8

const (
	Miter Join = iota
	RoundJoin
	Bevel
)

// Stroke paints a line along a shape's paths. Widths, dashes and the phase are in the pen's own measure: a
// millimetre of it is what Pen makes of one.
type Stroke struct {
	Paint
	Width      float64 // more than 0
	Cap        Cap
	Join       Join
	MiterLimit float64 // greatest length of a corner's point as a multiple of the width; at least 1
	// Dashes holds lengths on and off by turns, an even number of them; nil for a line without gaps. None is
	// below 0, their sum is more than 0. Phase is how far into them every subpath begins, at least 0. Dashes
	// may have no length at all: with round and square caps they show as dots.
	Dashes []float64
	Phase  float64
	// Pen shows a pen that is not round: the linear part of the map, of area 1, from a place where the line is
	// even in width to the picture. It is the identity for every line that was only moved, turned, mirrored and
	// scaled alike in both directions. To draw with another pen, take the paths back by the pen's inverse, draw
	// the line, and bring it forward.
	Pen Matrix
}

// Spread is what a gradient does beyond its ends.
type Spread uint8

const (
	Pad     Spread = iota // keeps the colour of the end
	Reflect               // runs back and forth
	Repeat                // begins again
)

// Gradient is a paint that changes along a line, or between two circles. Its places are in its own frame,
// which Frame takes to the picture.
type Gradient struct {
	Radial bool
	// From and To are the ends of the line on which the colours lie; colours do not change square to it. Of a
	// radial gradient they are the centres of the two circles: the inner (the focus) and the outer.
	From, To geom.Point
	R0, R1   float64 // radii of the two circles, 0 <= R0 < R1; the inner lies in the outer
	Frame    Matrix
	Spread   Spread
	Stops    []Stop // two or more, in order
}

// Stop is a colour at a share of the way, 0 to 1. Two stops at the same place make an edge.
type Stop struct {
	At      float64
	Colour  Colour
	Opacity float64 // 0 to 1
}

// Opaque reports whether nothing shows through the gradient.
func (g *Gradient) Opaque() bool {
	for _, s := range g.Stops {
		if s.Opacity < 1 {
			return false
		}
	}
	return true
}
