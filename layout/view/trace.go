package view

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// trace is one line that a piece draws on the plan, in the piece's own axes.
type trace struct {
	path *geom.Path
	kind traceKind
}

type traceKind uint8

const (
	edge     traceKind = iota // the outline, an inner edge, the edge of a hole
	riser                     // a riser line within a flight
	covered                   // what lies above or beneath: nosings, heads of openings
	axis                      // a centre cross
	arrow                     // the way up
	crossing                  // a marked point
	line                      // a line on the floor
	dashed                    // a line on the floor that is asked for dashed
	clear                     // the edge of a volume to keep clear
	strip                     // a wall in plan
	ridge                     // an edge further up that is seen from above: the upper rim of a tapered piece
)

// sizes are of what marks a place, millimetres in the world.
type sizes struct {
	centreArm float64 // of a centre cross, at most half the radius
	crossArm  float64 // of a marked point
	cornerLeg float64 // of a marked corner, at most a third of its side
	head      float64 // of an arrow
	feet      bool    // the set's people read feet and inches: what is sized for them is even in those
}

// fullSize can be laid by hand and found on the floor.
var fullSize = sizes{centreArm: 50, crossArm: 50, cornerLeg: 150, head: 90}

// traces returns what a piece draws on the plan, once for all its places.
func (z sizes) traces(sh set.Shape) []trace {
	switch s := sh.(type) {
	case *set.Hall:
		return append(z.outlined(s.Outline, edge), pillars(s)...)
	case *set.Platform:
		return z.outlined(s.Outline, edge)
	case *set.Post:
		return z.outlined(s.Outline, edge)
	case *set.Reserve:
		return []trace{{s.Outline.Path, clear}}
	case *set.Ring:
		t := z.outlined(s.Outer, edge)
		if s.Inner != nil {
			t = append(t, trace{s.Inner.Path, edge})
		}
		return t
	case *set.Panel:
		if s.Stands {
			return onEdge(s)
		}
		t := z.outlined(s.Outline, edge)
		for _, h := range s.Holes {
			t = append(t, z.outlined(h, edge)...)
		}
		return t
	case *set.Steps:
		if s.Blocks {
			return z.blocks(s)
		}
		return z.flight(s)
	case *set.Ramp:
		return []trace{
			{box(-s.Width/2, 0, s.Width/2, s.Length), edge},
			{z.arrowUp(geom.Point{}, geom.Point{Y: s.Length}), arrow},
		}
	case *set.Cone:
		return z.tapered(s)
	case *set.Flat:
		return wallTraces(s)
	case *set.Figure:
		return z.figureTraces(s)
	case *set.Cloth:
		b := s.Whole()
		return []trace{{polyline(geom.Point{X: b.Min.X}, geom.Point{X: b.Max.X}), strip}}
	case *set.Dressing:
		return z.outlined(s.Outline, edge)
	case *set.Room:
		return []trace{{s.Outline.Path, covered}}
	case *set.Walk:
		if s.Path != nil {
			return []trace{{s.Path, dashed}}
		}
	case *set.Mark:
		return z.marked(s)
	}
	return nil
}

// outlined returns an outline and, where it is round, the cross of its centre.
func (z sizes) outlined(o set.Outline, kind traceKind) []trace {
	t := []trace{{o.Path, kind}}
	if o.Form == "circle" || o.Form == "ellipse" {
		b := o.Path.Bounds()
		t = append(t, cross(o.Centre, min(z.centreArm, min(b.W(), b.H())/4), axis)...)
	}
	return t
}

func cross(at geom.Point, arm float64, kind traceKind) []trace {
	return []trace{
		{polyline(at.Sub(geom.Point{X: arm}), at.Add(geom.Point{X: arm})), kind},
		{polyline(at.Sub(geom.Point{Y: arm}), at.Add(geom.Point{Y: arm})), kind},
	}
}

func pillars(s *set.Hall) []trace {
	var t []trace
	for _, p := range s.Pillars {
		t = append(t, trace{p.Outline.Path, edge})
	}
	return t
}

// mostHips is the greatest number of sides of which a tapered piece shows the edges between them; more turn its plan black.
const mostHips = 24

// tapered is the outline that a cone is laid by, its other rim, and of one with few sides the edges between them.
func (z sizes) tapered(s *set.Cone) []trace {
	t := z.outlined(s.Foot(), edge)
	if s.Lower <= geom.Tolerance { // it stands on its point, under the middle of the rim
		if s.Sides > 0 {
			t = append(t, cross(geom.Point{}, min(z.centreArm, s.Upper/4), axis)...)
		}
	} else if upper := s.Rim(s.Upper).Path; !upper.Empty() && math.Abs(s.Upper-s.Lower) > geom.Tolerance {
		t = append(t, trace{upper, ridge})
	}
	if s.Sides == 0 || s.Sides > mostHips || math.Abs(s.Upper-s.Lower) <= geom.Tolerance {
		return t
	}
	hip := ridge
	if s.Upper > s.Lower {
		hip = covered // beneath its own rim
	}
	share := min(s.Lower, s.Upper) / max(s.Lower, s.Upper)
	for _, v := range s.Widest().Path.Vertices() {
		t = append(t, trace{polyline(v, v.Mul(share)), hip})
	}
	return t
}

// onEdge is a panel on edge: the strip of its thickness, or its face line where that is not given.
func onEdge(s *set.Panel) []trace {
	b := s.Outline.Path.Bounds()
	return []trace{stripOf(b.Min.X, b.Max.X, 0, s.Thickness)}
}

func stripOf(x0, x1, y0, y1 float64) trace {
	if y1-y0 <= geom.Tolerance {
		return trace{polyline(geom.Point{X: x0}, geom.Point{X: x1}), strip}
	}
	return trace{box(x0, y0, x1, y1), strip}
}

// marked is what a mark puts on the floor: a cross a point, its paths, or the corners of those alone.
func (z sizes) marked(s *set.Mark) []trace {
	var t []trace
	for _, p := range s.Points {
		t = append(t, cross(p, z.crossArm, crossing)...)
	}
	kind := line
	if s.Dashed {
		kind = dashed
	}
	for _, p := range s.Paths {
		if s.Corner {
			t = append(t, z.corners(p, kind)...)
			continue
		}
		t = append(t, trace{p, kind})
	}
	return t
}

// corners returns the legs that leave each vertex of a path along the segments that meet there.
func (z sizes) corners(p *geom.Path, kind traceKind) []trace {
	var t []trace
	for _, s := range p.Segments() {
		length := s.Length()
		if length <= geom.Tolerance {
			continue
		}
		share := min(z.cornerLeg, length/3) / length
		for _, ends := range [2][2]float64{{0, share}, {1 - share, 1}} {
			leg := s.Split(ends[0], ends[1])
			q := geom.NewPath(leg.From)
			q.Append(leg)
			t = append(t, trace{q, kind})
		}
	}
	return t
}

// arrowUp is a line with an open head at its end, as one path.
func (z sizes) arrowUp(from, to geom.Point) *geom.Path {
	d := to.Sub(from)
	head := min(z.head, d.Len()/3)
	u := d.Unit().Mul(head)
	wing := u.Left().Mul(math.Tan(math.Pi / 9)) // half an angle of 40°
	return polyline(from, to, to.Sub(u).Add(wing), to, to.Sub(u).Sub(wing))
}
