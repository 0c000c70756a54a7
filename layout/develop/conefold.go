package develop

import (
	"math"

	"markout/layout/geom"
)

// fan lays the sides of a tapered piece side by side about the point where they would meet, which is 0,0.
type fan struct {
	*sideOfCone
	corner float64 // radians of one side at the point
	apex   float64 // y of the point in a side's own axes
	up     float64 // 1 where the point is above, −1 where it is below
}

func fanOf(s *sideOfCone) *fan {
	sn := math.Sin(s.slope)
	return &fan{s, 2 * math.Atan(math.Tan(s.half)*math.Abs(sn)), s.lower / sn, math.Copysign(1, sn)}
}

// turned is how far panel p, counted from the left, is turned about the point.
func (f *fan) turned(p int) float64 {
	return f.up * (float64(p) - float64(f.n-1)/2) * f.corner
}

// sideAt is the side that panel p is: the front one is in the middle, or just right of it.
func (f *fan) sideAt(p int) int { return (p - f.n/2 + f.n) % f.n }

// flat is the place in the development of a place of panel p.
func (f *fan) flat(p int, q geom.Point) geom.Point {
	return geom.Move(geom.Point{}, f.turned(p)*180/math.Pi).Apply(geom.Point{X: q.X, Y: q.Y - f.apex})
}

// at bends the development along its folds.
func (f *fan) at(q geom.Point, depth float64) geom.Vec {
	turn := math.Atan2(q.X, -q.Y*f.up)
	p := max(0, min(f.n-1, int(math.Floor(turn/f.corner+float64(f.n)/2))))
	own := geom.Move(geom.Point{}, -f.turned(p)*180/math.Pi).Apply(q)
	return f.frame(f.sideAt(p)).Apply(geom.Vec{X: own.X, Y: own.Y + f.apex, Z: -depth})
}

// foldedCone makes all sides of thin card in one strip, folded at their edges, its seam at the back.
func (k *work) foldedCone(s *sideOfCone, cap int) error {
	f := fanOf(s)
	if f.corner*float64(s.n) > 2*math.Pi-0.05 {
		return errNarrow
	}
	turn, _ := s.turn()
	low, high := s.ends()
	d := draft{Piece: Piece{Name: "sides"}}
	d.body = body{frame: geom.Identity(), bent: f}
	var foot, head []geom.Point
	corner := func(p int, hand, y float64) geom.Point { return f.flat(p, geom.Point{X: hand * s.width(y), Y: y}) }
	for p := range s.n {
		foot = append(foot, corner(p, -1, low))
		head = append(head, corner(p, -1, high))
		if p > 0 {
			d.Folds = append(d.Folds, Fold{Line: Line{foot[p], head[p]}, Angle: turn * 180 / math.Pi, Away: true, Front: true})
		}
	}
	foot, head = append(foot, corner(s.n-1, 1, low)), append(head, corner(s.n-1, 1, high))
	pts := onlyOnce(append(append([]geom.Point(nil), foot...), backwards(head)...))
	d.Outline.Outer = geom.Polygon(pts)
	for p := range s.n {
		if !foot[p].Near(foot[p+1]) {
			d.Edges = append(d.Edges, s.levelEdge(Line{foot[p], foot[p+1]}, Open, k))
		}
		if !head[p].Near(head[p+1]) {
			e := s.levelEdge(Line{head[p], head[p+1]}, Tabbed, k)
			e.Front, e.Back = e.Back, e.Front
			d.Edges = append(d.Edges, e)
		}
	}
	d.Edges = append(d.Edges, Edge{Line: Line{foot[0], head[0]}, Treatment: Tabbed}, Edge{Line: Line{foot[s.n], head[s.n]}, Treatment: Tabbed})
	piece := k.pieceOf(d)
	var cuts []tabCut
	tab := func(from, to geom.Point, deep, ea, eb, angle float64) {
		pts, ok := trapezoid(from, to, deep, ea, eb)
		if !ok {
			return
		}
		cuts = append(cuts, tabCut{from, to, pts})
		base := Line{from, to}
		d.Tabs = append(d.Tabs, Tab{Base: base, Angle: angle, Joint: len(k.joints)})
		d.Folds = append(d.Folds, Fold{Line: base, Angle: angle, Away: true, Front: true})
	}
	if cap >= 0 {
		deep := min(tabDeep, 0.6*s.upper)
		in := slant(deep, math.Pi-2*s.half)
		for p := range s.n {
			k.sideTop(s, cap, piece, f.sideAt(p), Tabbed, func(q geom.Point) geom.Point { return f.flat(p, q) })
			tab(head[p+1], head[p], deep, in, in, 90-s.slope*180/math.Pi)
		}
	}
	seam := func(p int, hand float64) []geom.Point {
		return []geom.Point{corner(p, hand, 0), corner(p, hand, s.top())}
	}
	k.join(Tabbed, Side{piece, seam(s.n-1, 1), 0}, Side{piece, seam(0, -1), 0})
	deep := min(tabDeep, 0.8*max(s.width(0), s.width(s.top())))
	gap := 2*math.Pi - float64(s.n)*f.corner
	ea, eb := deep/4, seamSlant(deep, head[s.n].Len(), gap)
	if f.up < 0 {
		ea, eb = seamSlant(deep, foot[s.n].Len(), gap), deep/4
	}
	tab(foot[s.n], head[s.n], deep, ea, eb, turn*180/math.Pi)
	d.Outline.Outer = withTabs(d.Outline.Outer, cuts)
	k.drafts[piece] = d
	return nil
}

func backwards(pts []geom.Point) []geom.Point {
	out := make([]geom.Point, len(pts))
	for i, q := range pts {
		out[len(pts)-1-i] = q
	}
	return out
}

// onlyOnce leaves out what is the same place as the one before: at a point all corners are.
func onlyOnce(pts []geom.Point) []geom.Point {
	var out []geom.Point
	for _, q := range pts {
		if len(out) == 0 || !out[len(out)-1].Near(q) {
			out = append(out, q)
		}
	}
	if len(out) > 1 && out[0].Near(out[len(out)-1]) {
		out = out[:len(out)-1]
	}
	return out
}
