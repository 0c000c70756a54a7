package develop

import (
	"math"

	"markout/layout/geom"
)

// capKind is how a prism is closed at one of its ends.
type capKind int

const (
	noCap   capKind = iota
	through         // the cap runs through, the walls stand between
	captive         // the walls run through, the cap stands between them
)

// prism is what every modelled kind comes down to: a profile carried along its third axis, made of walls that stand on
// the profile's edges and of caps at its two ends. A platform is the prism of its outline, open below; a flight of
// steps the prism of its side; a thick wall the prism of its face.
type prism struct {
	region  geom.Region // in model millimetres, axes p and q
	h       float64     // its extent along w
	frame   geom.Frame  // p, q, w in the piece's own axes at the model's scale
	near    capKind     // at w = 0
	far     capKind     // at w = h
	nearCap string      // their names
	farCap  string
	fold    bool // thin enough to fold
	open    func(geom.Segment) bool
	rank    func(geom.Segment) float64    // of two walls at a butt the one of the lower rank runs through
	meets   func(l *loop, i int) joinKind // how walls meet at corner i; nil by rank and by the turn there
	name    func(l *loop, w *wall) string
	upward  bool                              // the walls are made in the order opposite to the outline's
	nosing  func(l *loop, w *wall) [2]float64 // how far a wall stands out past its two ends
}

// pieceOf adds a piece to the work and returns its index.
func (k *work) pieceOf(d draft) int {
	k.drafts = append(k.drafts, d)
	return len(k.drafts) - 1
}

// build makes the prism's pieces and joints. The error says why card this thick cannot make it.
func (k *work) build(p *prism) error {
	t := k.card.Thickness
	loops := loopsOf(p.region, p.open)
	inner, err := insetRegion(loops, t)
	if err != nil {
		return err
	}
	k.tabDepth = min(tabDeep, 0.9*p.region.Area()/around(loops))
	lo, hi := 0.0, p.h
	if p.near == through {
		lo += t
	}
	if p.far == through {
		hi -= t
	}
	caps := [2]int{-1, -1}
	capAt := func(end int) {
		kind, name := p.near, p.nearCap
		if end == 1 {
			kind, name = p.far, p.farCap
		}
		if kind == noCap {
			return
		}
		region := p.region
		if kind == captive {
			region = inner
		}
		caps[end] = k.pieceOf(p.plate(region, end, name, t))
	}
	// The top is made first and the walls are stood on it; a cap that closes the box comes last.
	if p.far != noCap {
		capAt(1)
	}
	if p.near == captive {
		capAt(0)
	}
	for _, l := range loops {
		if err := k.raise(p, l, lo, hi, caps, t); err != nil {
			return err
		}
	}
	if p.near == through {
		capAt(0)
		for _, d := range k.standing {
			k.capJoint(p, d.loop, d.wall, caps[0], 0, t)
		}
	}
	k.standing = nil
	return nil
}

// around is the length of all loops.
func around(loops []*loop) float64 {
	l := 0.0
	for _, x := range loops {
		for _, s := range x.segs {
			l += s.Length()
		}
	}
	return l
}

// plate is the cap at an end of the prism, seen from outside.
func (p *prism) plate(region geom.Region, end int, name string, t float64) draft {
	d := draft{Piece: Piece{Name: name}}
	if end == 1 {
		d.Outline = upright(region)
		f := geom.Identity()
		f.T.Z = p.h
		d.body.frame = f.Then(p.frame)
		return d
	}
	d.Outline = upright(region.Transform(geom.Isometry{A: -1, D: 1}))
	d.body.frame = geom.Frame{R: [3][3]float64{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}}}.Then(p.frame)
	return d
}

// upright returns the area with its outer edge anticlockwise.
func upright(r geom.Region) geom.Region {
	if r.Outer.Area() < 0 {
		r.Outer = r.Outer.Reverse()
	}
	return r
}

// onPlate is a place of the profile in the coordinates of the cap at an end.
func onPlate(end int, q geom.Point) geom.Point {
	if end == 0 {
		q.X = -q.X
	}
	return q
}

// raise stands the walls on a loop.
func (k *work) raise(p *prism, l *loop, lo, hi float64, caps [2]int, t float64) error {
	walls, err := p.walls(l, t)
	if err != nil {
		return err
	}
	order := make([]*wall, len(walls))
	for i, w := range walls {
		if p.upward {
			order[len(walls)-1-i] = w
		} else {
			order[i] = w
		}
	}
	endsAt := map[int]*wall{}   // corner → the wall that ends there
	startsAt := map[int]*wall{} // corner → the wall that starts there
	for _, w := range order {
		w.v = [2]float64{lo, hi}
		w.piece = k.pieceOf(k.wallDraft(p, l, w, t))
		endsAt[w.corner[1]], startsAt[w.corner[0]] = w, w
		for end, kind := range [2]capKind{p.near, p.far} {
			if caps[end] >= 0 && (kind == captive || end == 1) {
				k.capJoint(p, l, w, caps[end], end, t)
			}
		}
		for _, c := range w.corner {
			a, b := endsAt[c], startsAt[c]
			if a != nil && b != nil && (a == w || b == w) {
				k.wallJoint(p, l, c, a, b, t)
				if a == b {
					break
				}
			}
		}
		k.standing = append(k.standing, stood{l, w})
	}
	return nil
}

// wallJoint joins wall a, which ends at corner c, to wall b, which starts there.
func (k *work) wallJoint(p *prism, l *loop, c int, a, b *wall, t float64) {
	kind := p.kindAt(l, c)
	place := l.segs[c].To
	tail, head := &a.spans[len(a.spans)-1], &b.spans[0]
	xa, da, xb, db := a.outer[1], 0.0, b.outer[0], 0.0
	how := Mitre
	outward := turnAt(l.segs[c], l.segs[l.next(c)]) > 0
	switch {
	case kind == aRuns && outward:
		xa, da, how = a.inner[1], t, Captive
	case kind == aRuns:
		xa, how = tail.flat(place), Captive
	case kind == bRuns && outward:
		xb, db, how = b.inner[0], t, Captive
	case kind == bRuns:
		xb, how = head.flat(place), Captive
	}
	if a == b && p.fold {
		how = Tabbed
	}
	line := func(w *wall, x float64) []geom.Point {
		return []geom.Point{{X: x, Y: w.v[0]}, {X: x, Y: w.v[1]}}
	}
	k.join(how, side(a.piece, line(a, xa), da), side(b.piece, line(b, xb), db))
	if how == Tabbed {
		k.seamTab(a, len(k.joints), turnAt(l.segs[c], l.segs[l.next(c)]))
	}
}

// capJoint joins a wall to the cap at an end.
func (k *work) capJoint(p *prism, l *loop, w *wall, plate, end int, t float64) {
	kind := p.near
	if end == 1 {
		kind = p.far
	}
	var on, off []geom.Point
	for i := range w.spans {
		from, to := w.outerOf(i)
		depth := 0.0
		if kind == captive {
			from, to = w.innerOf(i)
			if i > 0 {
				from = max(from, w.spans[i].x0) // past an inward fold the card is no longer this panel's
			}
			if i < len(w.spans)-1 {
				to = min(to, w.spans[i].x1())
			}
			depth = t
		}
		y := w.v[end]
		if kind == captive {
			y = float64(end) * p.h
		}
		for _, x := range w.samples(i, from, to, nil) {
			on = append(on, geom.Point{X: x, Y: y})
			off = append(off, onPlate(end, w.spans[i].at(x, depth)))
		}
	}
	how, dw, dp := Stands, 0.0, t
	if kind == captive {
		how, dw, dp = Captive, t, 0
	}
	if p.fold {
		how = Tabbed
	}
	k.join(how, side(plate, off, dp), side(w.piece, on, dw))
	switch {
	case !p.fold:
	case kind == captive:
		k.capTabs(plate, off, len(k.joints))
	default:
		k.wallTabs(w, end, len(k.joints), t)
	}
}

// wallDraft is the wall as it is cut, seen from outside.
func (k *work) wallDraft(p *prism, l *loop, w *wall, t float64) draft {
	if p.nosing != nil {
		w.past = p.nosing(l, w)
	}
	d := draft{Piece: Piece{Name: p.name(l, w)}}
	x0, x1 := w.box()
	y0, y1 := w.v[0], w.v[1]
	d.Outline.Outer = geom.Polygon([]geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
	d.body = body{frame: p.frame, spans: w.spans}
	for i, x := range [2]float64{x0, x1} {
		out := w.past[i]
		if i == 0 {
			out = -out
		}
		e := Edge{
			Line: Line{geom.Point{X: x, Y: y0}, geom.Point{X: x, Y: y1}}, Treatment: w.joins[i],
			Front: math.Abs(w.outer[i] + out - x), Back: math.Abs(w.inner[i] + out - x),
		}
		if p.fold {
			// A knife leaves edges of card this thin as they must be: nobody bevels them.
			if w.round {
				e.Treatment = Tabbed
			}
		} else {
			e.Bevel = math.Atan(math.Abs(e.Front-e.Back)/t) * 180 / math.Pi
		}
		d.Edges = append(d.Edges, e)
	}
	for end, kind := range [2]capKind{p.near, p.far} {
		if kind == noCap {
			continue
		}
		e := Edge{Line: Line{geom.Point{X: x0, Y: w.v[end]}, geom.Point{X: x1, Y: w.v[end]}}, Treatment: Stands}
		switch {
		case kind == captive:
			e.Treatment = Through
		case p.fold:
			e.Treatment = Tabbed
		}
		d.Edges = append(d.Edges, e)
	}
	for _, f := range w.folds {
		d.Folds = append(d.Folds, Fold{
			Line:  Line{geom.Point{X: f.x, Y: y0}, geom.Point{X: f.x, Y: y1}},
			Angle: math.Abs(f.turn) * 180 / math.Pi, Away: f.turn > 0, Front: f.turn > 0,
		})
	}
	for i := range w.spans {
		if w.spans[i].seg.Kind == geom.Arc {
			d.roll(w, i, p.fold)
		}
	}
	return d
}
