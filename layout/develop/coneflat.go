package develop

import (
	"fmt"
	"math"

	"markout/layout/geom"
)

// sideOfCone is one flat side of a tapered piece, in axes of its own: x along its foot to the right, seen from outside, y up
// its slope, 0,0 in the middle of its foot.
type sideOfCone struct {
	*taper
	n    int
	half float64 // radians between the middle of a side and its corner, seen from above
	t    float64
}

// width is half the width of the outer face at y.
func (s *sideOfCone) width(y float64) float64 {
	return (s.lower - y*math.Sin(s.slope)) * math.Tan(s.half)
}

// top is the y at which the outer face ends.
func (s *sideOfCone) top() float64 { return s.z1 / math.Cos(s.slope) }

// lean is how much further up its slope the inner face ends at a level edge than the outer one.
func (s *sideOfCone) lean() float64 { return s.t * math.Tan(s.slope) }

// ends are the heights on the slope at which what is cut of a side ends: where the face that reaches further does. A side
// that comes to a point ends there.
func (s *sideOfCone) ends() (low, high float64) {
	low, high = min(0, s.lean()), s.top()+max(0, s.lean())
	if s.width(s.top()) <= geom.Tolerance {
		high = s.top()
	}
	if s.width(0) <= geom.Tolerance {
		low = 0
	}
	return low, high
}

// turn is the angle in radians between two sides, and in how far the inner face ends from the outer one at their edge.
func (s *sideOfCone) turn() (turn, in float64) {
	sn, cs := math.Sincos(s.slope)
	turn = math.Acos(cs*cs*math.Cos(2*s.half) + sn*sn)
	return turn, s.t * math.Tan(turn/2)
}

// frame stands side i on its place; side 0 looks to the front.
func (s *sideOfCone) frame(i int) geom.Frame {
	sn, cs := math.Sincos(s.slope)
	a := -math.Pi/2 + 2*s.half*float64(i)
	out := geom.Polar(1, a)
	along := out.Left()
	f := geom.Frame{R: [3][3]float64{
		{along.X, -sn * out.X, cs * out.X},
		{along.Y, -sn * out.Y, cs * out.Y},
		{0, cs, sn},
	}}
	f.T = geom.Vec{X: s.lower * out.X, Y: s.lower * out.Y}
	return f
}

// check says why card this thick makes no such sides.
func (s *sideOfCone) check() error {
	_, in := s.turn()
	sec := 1 / math.Cos(math.Atan2(math.Abs(math.Sin(s.slope))*math.Tan(s.half), 1)) // of the lean of a side's edge in its face
	for _, y := range [2]float64{0, s.top()} {
		point := s.width(y) <= geom.Tolerance
		if inner := s.width(y+s.lean()) - in*sec; !point && inner <= geom.Tolerance {
			return errNarrow
		}
	}
	if s.top() <= math.Abs(s.lean())*2+least {
		return errShort
	}
	return nil
}

// flatCone makes the sides of a piece with flat sides, and its top.
func (k *work) flatCone(c *taper, n int) error {
	s := &sideOfCone{taper: c, n: n, half: math.Pi / float64(n), t: k.card.Thickness}
	if err := s.check(); err != nil {
		return err
	}
	cap := -1
	if c.upper > 0 {
		cap = k.pieceOf(k.polygonTop(s))
	}
	if k.folds() {
		return k.foldedCone(s, cap)
	}
	turn, in := s.turn()
	for i := range n {
		d := draft{Piece: Piece{Name: fmt.Sprintf("side %d", i+1)}}
		d.body.frame = s.frame(i)
		low, high := s.ends()
		corners := s.corners(low, high)
		d.Outline.Outer = geom.Polygon(corners)
		for j, a := range corners {
			e := Edge{Line: Line{a, corners[(j+1)%len(corners)]}, Treatment: Mitre, Bevel: turn / 2 * 180 / math.Pi, Back: in}
			switch level := math.Abs(e.Line.From.Y-e.Line.To.Y) <= geom.Tolerance; {
			case level && a.Y < high/2:
				e = s.levelEdge(e.Line, Open, k)
			case level:
				e = s.levelEdge(e.Line, Stands, k)
				e.Front, e.Back = e.Back, e.Front
			}
			d.Edges = append(d.Edges, e)
		}
		piece := k.pieceOf(d)
		if cap >= 0 {
			k.sideTop(s, cap, piece, i, Stands, func(q geom.Point) geom.Point { return q })
		}
		if i > 0 {
			k.join(Mitre, Side{piece - 1, s.edge(1), 0}, Side{piece, s.edge(-1), 0})
		}
		if i == n-1 {
			k.join(Mitre, Side{piece, s.edge(1), 0}, Side{piece - n + 1, s.edge(-1), 0})
		}
	}
	return nil
}

// corners of a side between two heights, anticlockwise from its foot's left end: three where it comes to a point.
func (s *sideOfCone) corners(low, high float64) []geom.Point {
	var pts []geom.Point
	for _, c := range [4][2]float64{{-1, low}, {1, low}, {1, high}, {-1, high}} {
		q := geom.Point{X: c[0] * s.width(c[1]), Y: c[1]}
		if len(pts) == 0 || !pts[len(pts)-1].Near(q) && !pts[0].Near(q) {
			pts = append(pts, q)
		}
	}
	return pts
}

// levelEdge is the lower edge of a side: the face that ends lower reaches further.
func (s *sideOfCone) levelEdge(l Line, how Treatment, k *work) Edge {
	by := s.lean()
	return Edge{Line: l, Treatment: how, Bevel: k.bevelled(by), Front: max(-by, 0), Back: max(by, 0)}
}

// edge is the line of a side's outer face where it meets the next, or with −1 the one before.
func (s *sideOfCone) edge(hand float64) []geom.Point {
	return []geom.Point{{X: hand * s.width(0)}, {X: hand * s.width(s.top()), Y: s.top()}}
}

// polygonTop is the top of a piece with flat sides.
func (k *work) polygonTop(s *sideOfCone) draft {
	by := s.lean()
	d := draft{Piece: Piece{Name: "top"}}
	r := (s.upper + max(by, 0)) / math.Cos(s.half)
	pts := make([]geom.Point, s.n)
	for i := range pts {
		pts[i] = geom.Polar(r, -math.Pi/2+(2*float64(i)-1)*s.half)
	}
	d.Outline.Outer = geom.Polygon(pts)
	for i, a := range pts {
		d.Edges = append(d.Edges, Edge{
			Line: Line{a, pts[(i+1)%s.n]}, Treatment: Through, Bevel: k.bevelled(by), Front: max(by, 0), Back: max(-by, 0),
		})
	}
	d.body.frame = geom.Identity()
	d.body.frame.T.Z = s.h
	return d
}

// sideTop joins the upper edge of side i to the top; at brings its places to where they lie on the piece.
func (k *work) sideTop(s *sideOfCone, plate, piece, i int, how Treatment, at func(geom.Point) geom.Point) {
	r := s.at(s.z1) / math.Cos(s.half)
	y := s.top()
	var on, under []geom.Point
	for _, hand := range [2]float64{-1, 1} {
		on = append(on, at(geom.Point{X: hand * s.width(y), Y: y}))
		under = append(under, geom.Polar(r, -math.Pi/2+(2*float64(i)+hand)*s.half))
	}
	k.join(how, Side{plate, under, s.t}, Side{piece, on, 0})
}
