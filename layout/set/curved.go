package set

import (
	"math"

	"markout/layout/geom"
)

// FaceLine returns the line of the flat's face at the floor, from P to Q, in its own axes.
func (f *Flat) FaceLine() *geom.Path {
	if f.Line != nil {
		return f.Line
	}
	p := geom.NewPath(geom.Point{})
	p.LineTo(geom.Point{X: f.Length})
	return p
}

// Along returns the place of the face at the floor so far along from P, in the flat's own axes, and the way the face runs
// there, length 1. At a corner it is the way in which the face leaves it.
func (f *Flat) Along(d float64) (at, ahead geom.Point) {
	if f.Line == nil {
		return geom.Point{X: d}, geom.Point{X: 1}
	}
	return geom.NewRuler(f.Line).At(d)
}

// Joints returns the lengths along the face, ascending, at which the pieces of a curved flat's line meet.
func (f *Flat) Joints() []float64 {
	if f.Line == nil {
		return nil
	}
	ends := geom.NewRuler(f.Line).Ends()
	return ends[:max(len(ends)-1, 0)]
}

// Behind returns how far to the left of its line the flat's back lies, less than 0 to the right. It is at least 1 mm, so
// that a flat without a thickness can be drawn and met.
func (f *Flat) Behind() float64 {
	d := max(f.Thickness, thinnest)
	if f.FaceLeft {
		return -d
	}
	return d
}

// Strip returns what the flat covers on the plan between two places along its face, in its own axes: closed and
// anticlockwise, its ends square to the face. The back of a curved one is the face's line offset by the thickness, arcs
// staying arcs (see geom.Parallel, whose error it returns where the line has no such back).
func (f *Flat) Strip(from, to float64) (*geom.Path, error) {
	d := f.Behind()
	if f.Line == nil {
		return box(from, min(d, 0), to, max(d, 0)), nil
	}
	face := f.Line
	if from > 0 || to < f.Length {
		face = geom.NewRuler(f.Line).Part(from, to)
	}
	return strip(face, d)
}

// strip returns the closed line that runs along face and back at the distance d to its left.
func strip(face *geom.Path, d float64) (*geom.Path, error) {
	back, err := geom.Parallel(face, d)
	if err != nil {
		return nil, err
	}
	there, home := face, back.Reverse()
	if d < 0 {
		there, home = back, face.Reverse()
	}
	p := geom.NewPath(there.Start())
	for _, s := range there.Segments() {
		p.Append(s)
	}
	if home.Len() > 0 && !p.End().Near(home.Start()) {
		p.LineTo(home.Start())
	}
	for _, s := range home.Segments() {
		p.Append(s)
	}
	p.Close()
	return p, nil
}

// flat marks the ends of a flat, of a curved one also the middle of each arc or curve and where its pieces meet, and the
// jambs of what comes down to the floor.
func (l *lister) flat(s *Flat) {
	name, n := "P", s.FaceLine().Len()
	for i, g := range s.FaceLine().Segments() {
		if g.Kind == geom.Line || g.Length() <= 4*geom.Tolerance {
			l.line(name, g, 0)
		} else {
			whole := geom.NewPath(g.From)
			whole.Append(g)
			along := geom.NewRuler(whole)
			half := along.Length() / 2
			l.line(name, along.Part(0, half).Segment(0), 0)
			l.line("middle "+itoa(i+1), along.Part(half, 2*half).Segment(0), 0)
		}
		if name = "end " + itoa(i+1); i == n-1 {
			l.add("Q", g.To, 0)
		}
	}
	count := map[string]int{}
	for _, o := range s.Openings {
		count[o.Word]++
		if o.Sill > geom.Tolerance && o.Word != "door" {
			continue
		}
		name := o.Word + " " + itoa(count[o.Word])
		near, _ := s.Along(o.At)
		far, _ := s.Along(o.At + o.Width)
		l.add(name+" near", near, 0)
		l.add(name+" far", far, 0)
	}
}

// Rim returns the cone's outline where it is so wide: a circle of that diameter, or a polygon of that size across flats
// (of an odd number of sides twice the distance of a side from the middle), side 1 facing front. It is empty where across
// is 0.
func (c *Cone) Rim(across float64) Outline {
	if c.Sides == 0 {
		return Outline{Form: "circle", Path: geom.Circle(across)}
	}
	corners := across / math.Cos(math.Pi/float64(c.Sides))
	p, err := geom.RegularPolygon(c.Sides, corners, true)
	if c.Sides%2 == 0 {
		p, err = geom.RegularPolygon(c.Sides, across, false)
	}
	if err != nil {
		p = &geom.Path{}
	}
	return Outline{Form: "polygon", Path: p}
}

// Widest returns the larger of the cone's two outlines, which is what it covers on the plan.
func (c *Cone) Widest() Outline { return c.Rim(max(c.Lower, c.Upper)) }

// Foot returns the outline that is laid on the floor: the lower one, or of a cone that stands on its point the upper one,
// plumbed down.
func (c *Cone) Foot() Outline {
	if c.Lower > geom.Tolerance {
		return c.Rim(c.Lower)
	}
	return c.Rim(c.Upper)
}
