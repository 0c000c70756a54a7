package develop

import (
	"math"

	"markout/layout/geom"
)

const (
	// tangent is the greatest turn, radians, between segments that run on as one.
	tangent = 1e-4
	// soft is the greatest turn that card over the folding limit takes at a half-cut (common practice, no source).
	soft = 12.5 * math.Pi / 180
	// square is the least turn at which a butt has a smaller bevel than a mitre: |90° − turn| < turn/2.
	square = 60.5 * math.Pi / 180
)

// turnAt is the angle by which b runs on from a, radians, positive towards the material.
func turnAt(a, b geom.Segment) float64 {
	in, out := a.Tangent(1), b.Tangent(0)
	return math.Atan2(in.Cross(out), in.Dot(out))
}

// meet returns the place nearest to the corner c at which the parallel of a at depth da meets that of b at depth db;
// depths are counted to the left. Segments are lines or circular arcs, taken on beyond their ends.
func meet(a geom.Segment, da float64, b geom.Segment, db float64, c geom.Point) (geom.Point, bool) {
	if math.Abs(turnAt(a, b)) <= tangent {
		return c.Add(a.Tangent(1).Left().Mul((da + db) / 2)), true
	}
	switch {
	case a.Kind == geom.Line && b.Kind == geom.Line:
		u, v := a.Tangent(0), b.Tangent(0)
		p, q := a.To.Add(u.Left().Mul(da)), b.From.Add(v.Left().Mul(db))
		k := u.Cross(v)
		if k == 0 {
			return c, false
		}
		return p.Add(u.Mul(q.Sub(p).Cross(v) / k)), true
	case a.Kind == geom.Line:
		return lineMeetsCircle(a, da, b, db, c)
	case b.Kind == geom.Line:
		return lineMeetsCircle(b, db, a, da, c)
	}
	r, s := reach(a, da), reach(b, db)
	d := b.Centre.Sub(a.Centre)
	l := d.Len()
	if l == 0 || r <= 0 || s <= 0 {
		return c, false
	}
	along := (l*l + r*r - s*s) / (2 * l)
	h := r*r - along*along
	if h < 0 {
		return c, false
	}
	foot := a.Centre.Add(d.Mul(along / l))
	return nearer(foot, d.Unit().Left().Mul(math.Sqrt(h)), c), true
}

// reach is the radius of the parallel of an arc at a depth to its left.
func reach(arc geom.Segment, depth float64) float64 {
	return arc.RX - math.Copysign(depth, depth*arc.Sweep)
}

func lineMeetsCircle(line geom.Segment, dl float64, arc geom.Segment, da float64, c geom.Point) (geom.Point, bool) {
	u, r := line.Tangent(0), reach(arc, da)
	p := line.From.Add(u.Left().Mul(dl))
	foot := p.Add(u.Mul(arc.Centre.Sub(p).Dot(u)))
	d := foot.Dist(arc.Centre)
	if r <= 0 || d > r {
		return c, false
	}
	return nearer(foot, u.Mul(math.Sqrt(r*r-d*d)), c), true
}

// nearer returns foot + off or foot − off, whichever is nearer to c.
func nearer(foot, off, c geom.Point) geom.Point {
	p, q := foot.Add(off), foot.Sub(off)
	if p.Dist(c) <= q.Dist(c) {
		return p
	}
	return q
}

// end is where one wall ends at a corner: the places of the profile at which its outer and inner faces stop.
type end struct {
	outer, inner geom.Point
	treatment    Treatment
}

// joinKind is how two walls meet at a corner.
type joinKind int

const (
	mitred joinKind = iota
	aRuns           // a butt: the first runs through
	bRuns           // a butt: the second runs through
	aAlone          // nothing stands on the second
	bAlone          // nothing stands on the first
)

// corner works out how walls of card t along a and along b, which follow one another, end where they meet.
//
// Through walls end on the other's far face: of an outward corner its outer face, of an inward one its inner face.
// Captive ones end on the near face of the one that runs through, so that the outside sizes are true.
func corner(a, b geom.Segment, t float64, kind joinKind) (of [2]end, ok bool) {
	c := a.To
	at := func(da, db float64) geom.Point {
		p, fine := meet(a, da, b, db, c)
		ok = ok && fine
		return p
	}
	ok = true
	outward := turnAt(a, b) > 0
	switch kind {
	case mitred:
		in := at(t, t)
		of[0] = end{c, in, Mitre}
		of[1] = of[0]
	case aAlone:
		of[0] = end{c, at(t, 0), Open}
	case bAlone:
		of[1] = end{c, at(0, t), Open}
	case aRuns:
		if outward {
			of[0] = end{c, at(t, 0), Through}
			of[1] = end{at(t, 0), at(t, t), Captive}
		} else {
			of[0] = end{at(0, t), at(t, t), Through}
			of[1] = end{c, at(0, t), Captive}
		}
	case bRuns:
		if outward {
			of[1] = end{c, at(0, t), Through}
			of[0] = end{at(0, t), at(t, t), Captive}
		} else {
			of[1] = end{at(t, 0), at(t, t), Through}
			of[0] = end{c, at(t, 0), Captive}
		}
	}
	return of, ok
}
