package develop

import (
	"fmt"
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// A tapered piece has a side and, where its upper end is not a point, a top; it has no underside. The top runs through and
// the side stands under it; both ends of the side and the rim of the top are bevelled by the slope, so that the outside
// is true. A round side is one piece, developed on the middle of the card and rolled, its seam at the back: a butt, or a
// tab of card that folds. Of one with flat sides thin card makes one folded strip, thicker card a piece a side, mitred.

// Taper says that a piece is rolled to a cone. Its curved edges are circles about Apex.
type Taper struct {
	Apex   geom.Point // of the development, on the card, usually beside the piece
	Sector float64    // degrees of the development
	Away   bool       // the printed side comes to lie outside
}

// Rim is a curved edge of a piece, along a circle about Centre. It is cut like an Edge.
type Rim struct {
	Centre      geom.Point
	Radius      float64 // of the cut line
	Treatment   Treatment
	Bevel       float64
	Front, Back float64
}

// Words says how the edge is cut, as of an Edge.
func (r Rim) Words() string { return Edge{Treatment: r.Treatment, Bevel: r.Bevel}.Words() }

// bevelled is the bevel in degrees of an edge whose faces stop short by so much of one another; thin card has none.
func (k *work) bevelled(by float64) float64 {
	if k.folds() {
		return 0
	}
	return math.Atan(math.Abs(by)/k.card.Thickness) * 180 / math.Pi
}

// taper is a tapered piece at the model's scale, its foot at z = 0: radii, or distances of the sides from the middle.
type taper struct {
	lower, upper, h float64
	slope           float64 // radians by which the side leans in from the vertical; less than 0 where it leans out
	z1              float64 // where the side ends, below the top if there is one
}

func (s *taper) at(z float64) float64 { return s.lower - z*math.Tan(s.slope) }

func (k *work) cone(s *set.Cone, by float64) error {
	t, h := k.card.Thickness, s.Height*by
	lower, upper := s.Lower*by, s.Upper*by
	if lower > 0 && k.tooSmall("its lower end", lower) {
		lower = 0
	}
	if upper > 0 && k.tooSmall("its upper end", upper) {
		upper = 0
	}
	if math.Abs(lower-upper) <= fineness { // a cylinder, as near as a knife keeps
		name := wallName
		if s.Sides == 0 {
			name = func(*loop, *wall) string { return "tube" }
		}
		rim := set.Cone{Sides: s.Sides}
		return k.box(geom.Region{Outer: rim.Rim(lower).Path}, h, plan, "top", "", name)
	}
	c := &taper{lower: lower / 2, upper: upper / 2, h: h, slope: math.Atan2((lower-upper)/2, h), z1: h}
	if upper > 0 {
		c.z1 -= t
	}
	if c.z1 < least {
		return fmt.Errorf("it is only %.2f high", h)
	}
	if s.Sides == 0 {
		return k.roundCone(c)
	}
	return k.flatCone(c, s.Sides)
}

// coneRod returns the rod that a slender cone, or one modelled as a rod, is turned from.
func coneRod(e *set.Element, s *set.Cone, by float64) *Rod {
	d := max(s.Lower, s.Upper) * by
	if d < least || s.Height*by < least || e.Model != "rod" && d >= tubeLeast-geom.Tolerance {
		return nil
	}
	return &Rod{Section: tapered, Diameter: d, Length: s.Height * by}
}

// coneBend rolls a development to a cone: its apex at 0,0, the sector about −y where the cone tapers upwards, about +y
// where downwards.
type coneBend struct {
	t, sin, cos float64 // of half the angle at the point, which is not negative
	apex        float64 // z of the point of the outer face
	up          float64 // 1 where the point is above, −1 where it is below
}

func (c *coneBend) at(q geom.Point, depth float64) geom.Vec {
	slant := q.Len() + c.t/2*c.cos/c.sin // along the outer face
	sn, cs := math.Sincos(math.Atan2(q.X, -q.Y*c.up) / c.sin)
	r := slant*c.sin - depth*c.cos
	return geom.Vec{X: r * sn, Y: -r * cs, Z: c.apex - c.up*(slant*c.cos+depth*c.sin)}
}

// flat is the place of the development at so many radians of its sector.
func (c *coneBend) flat(s, turn float64) geom.Point {
	sn, cs := math.Sincos(turn)
	return geom.Point{X: s * sn, Y: -s * cs * c.up}
}

// roundCone makes the side of a round piece, and its top.
func (k *work) roundCone(c *taper) error {
	t := k.card.Thickness
	tan := math.Abs(math.Tan(c.slope))
	b := &coneBend{t: t, sin: math.Abs(math.Sin(c.slope)), cos: math.Cos(c.slope), apex: c.lower / math.Tan(c.slope), up: math.Copysign(1, c.slope)}
	// Slants on the development of the outer face's two ends; the inner face ends nearer to the point by t·tan.
	slantAt := func(z float64) float64 { return (b.apex-z)*b.up/b.cos - t/2*b.cos/b.sin }
	far, near := slantAt(0), slantAt(c.z1)
	if b.up < 0 {
		far, near = near, far
	}
	point := min(c.lower, c.upper) <= 0
	inner := Rim{Radius: near - t*tan, Front: t * tan, Bevel: k.bevelled(t * tan)}
	outer := Rim{Radius: far, Back: t * tan, Bevel: inner.Bevel}
	switch {
	case point:
		// The middle of the card comes to a point; the inner face stops before it.
		inner = Rim{Back: t / 2 * b.cos / b.sin}
		k.note("its point is %.1f short: card of %s can be rolled no nearer", t/2*b.cos*b.cos/b.sin, number(t))
	case inner.Radius-t/2*b.cos/b.sin <= geom.Tolerance:
		return errNarrow
	}
	if far-t*tan <= inner.Radius+inner.Back+least {
		return errShort
	}
	half := math.Pi * b.sin
	d := draft{Piece: Piece{Name: "side", Grain: Along, Taper: &Taper{Sector: 2 * half * 180 / math.Pi, Away: true}}}
	d.body = body{frame: geom.Identity(), bent: b}
	topRim := &inner
	if b.up < 0 {
		topRim = &outer
	}
	var teeth []tabCut
	cap, seam := -1, 1
	if c.upper > 0 {
		topRim.Treatment = Stands
		cap, seam = k.pieceOf(k.disc(c)), 2
		if k.folds() {
			teeth = b.teeth(topRim.Radius, half, c.at(c.z1))
			if teeth != nil {
				topRim.Treatment = Tabbed
			}
		}
	}
	seamTab := k.coneSeam(b, &d, inner.Radius, far, half)
	d.Outline.Outer = b.outline(&inner, &outer, half, topRim, teeth, seamTab)
	if inner.Radius > 0 {
		d.Rims = append(d.Rims, inner)
	} else {
		d.Rims = append(d.Rims, Rim{Treatment: Mitre, Bevel: k.bevelled(inner.Back), Back: inner.Back})
	}
	d.Rims = append(d.Rims, outer)
	for _, x := range teeth {
		base := Line{x.from, x.to}
		angle := 90 - c.slope*180/math.Pi
		d.Tabs = append(d.Tabs, Tab{Base: base, Angle: angle, Joint: 1})
		d.Folds = append(d.Folds, Fold{Line: base, Angle: angle, Away: true, Front: true})
	}
	for i := range d.Tabs {
		if seamTab != nil && d.Tabs[i].Base == (Line{seamTab.from, seamTab.to}) {
			d.Tabs[i].Joint = seam
		}
	}
	if !k.folds() {
		d.coneRelief(b, inner.Radius, far, half)
	}
	side := k.pieceOf(d)
	top := near
	if b.up < 0 {
		top = far
	}
	if cap >= 0 {
		k.rimJoint(b, cap, side, top, half, c.at(c.z1), topRim.Treatment)
	}
	how := Captive
	if seamTab != nil {
		how = Tabbed
	}
	from := near
	if point {
		from = 0
	}
	k.join(how, Side{side, []geom.Point{b.flat(from, half), b.flat(far, half)}, 0}, Side{side, []geom.Point{b.flat(from, -half), b.flat(far, -half)}, 0})
	return nil
}

// disc is the top of a round piece: its rim leans as the side does.
func (k *work) disc(c *taper) draft {
	t := k.card.Thickness
	by := t * math.Tan(c.slope)
	d := draft{Piece: Piece{Name: "top"}}
	r := Rim{Radius: c.upper + max(by, 0), Treatment: Through, Front: max(by, 0), Back: max(-by, 0), Bevel: k.bevelled(by)}
	d.Outline.Outer = geom.Circle(2 * r.Radius)
	d.Rims = []Rim{r}
	d.body.frame = geom.Identity()
	d.body.frame.T.Z = c.h
	return d
}

// rimJoint joins the side to the disc on it.
func (k *work) rimJoint(b *coneBend, plate, side int, slant, half, radius float64, how Treatment) {
	const steps = 180
	var on, off []geom.Point
	for i := range steps + 1 {
		turn := -half + 2*half*float64(i)/steps
		sn, cs := math.Sincos(turn / b.sin)
		off = append(off, geom.Point{X: radius * sn, Y: -radius * cs})
		on = append(on, b.flat(slant, turn))
	}
	k.join(how, Side{plate, off, k.card.Thickness}, Side{side, on, 0})
}

// coneSeam says how the side's two straight edges meet, and returns the tab on one of them, nil of a butt.
func (k *work) coneSeam(b *coneBend, d *draft, near, far, half float64) *tabCut {
	line := func(turn float64) Line { return Line{b.flat(near, turn), b.flat(far, turn)} }
	if !k.folds() {
		d.Edges = append(d.Edges, Edge{Line: line(-half), Treatment: Through}, Edge{Line: line(half), Treatment: Captive})
		return nil
	}
	d.Edges = append(d.Edges, Edge{Line: line(-half), Treatment: Tabbed}, Edge{Line: line(half), Treatment: Tabbed})
	from, to := b.flat(far, half), b.flat(near, half)
	if b.up < 0 {
		from, to = to, from
	}
	deep := min(tabDeep, far*b.sin/2)
	in := seamSlant(deep, near, 2*math.Pi-2*half)
	pts, ok := trapezoid(from, to, deep, deep/4, in)
	if b.up < 0 {
		pts, ok = trapezoid(from, to, deep, in, deep/4)
	}
	if !ok {
		return nil
	}
	d.Tabs = append(d.Tabs, Tab{Base: Line{from, to}})
	d.Folds = append(d.Folds, Fold{Line: Line{from, to}, Away: true, Front: true})
	return &tabCut{from, to, pts}
}

// settleTaper turns what is said of curved edges to the piece as it lies on the card.
func (p *Piece) settleTaper(m geom.Isometry, outside bool) {
	for i, r := range p.Rims {
		r.Centre = m.Apply(r.Centre)
		if !outside {
			r.Front, r.Back = r.Back, r.Front
		}
		p.Rims[i] = r
	}
	if p.Taper != nil {
		t := *p.Taper
		t.Apex, t.Away = m.Apply(t.Apex), t.Away == outside
		p.Taper = &t
	}
}

// seamSlant is how far the end of a seam's tab nearer to the point of the development, so far off it, slants in: so that the
// tab stays in the gap, radians, that the development leaves about its point.
func seamSlant(deep, near, gap float64) float64 {
	in := deep / 2
	if gap *= 0.8; gap < math.Pi/2 {
		in = max(in, deep/math.Tan(gap)-near)
	}
	return in
}
