package develop

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// A flight along a line is made as a straight one is: treads run through over the risers, each riser stands on the tread
// below it, which goes on under it to its back, and the sides stand between the risers and under the treads, so that
// the outside is true. A riser is straight and square to the line; a side is rolled along the edge of the treads, and where
// it ends behind a riser it is cut to the riser's back. What meets a deck is open at its back.

// scaledSteps is a flight at the model's scale.
func scaledSteps(s *set.Steps, by float64) *set.Steps {
	c := *s
	c.Line = scaled(s.Line, by)
	times := func(list []float64) []float64 {
		out := make([]float64, len(list))
		for i, x := range list {
			out[i] = x * by
		}
		return out
	}
	c.Rises, c.Goings, c.Widths, c.Shifts = times(s.Rises), times(s.Goings), times(s.Widths), times(s.Shifts)
	c.Tread, c.RiserBoard, c.Nosing, c.Lid = s.Tread*by, s.RiserBoard*by, s.Nosing*by, s.Lid*by
	return &c
}

// stepsAlong makes a flight along a line: as a flight where all its treads are as wide and stand in one line, otherwise,
// where its line has corners and where it is built of blocks, a box a tread.
func (k *work) stepsAlong(s *set.Steps, by float64) error {
	c := scaledSteps(s, by)
	treads := c.Treads()
	nosing := c.Nosing
	if nosing > 0 && k.tooSmall("its nosing", nosing) {
		nosing = 0
	}
	even := true
	for i := range treads {
		even = even && math.Abs(treads[i].Width-treads[0].Width) <= geom.Tolerance && math.Abs(treads[i].Mid-treads[0].Mid) <= geom.Tolerance
	}
	switch {
	case s.Blocks:
	case !even:
		k.note("its treads are not all alike, so each stands on a box of its own")
	case hasCorners(c.Line):
		k.note("its line has corners, so each tread stands on a box of its own")
	default:
		return k.windingFlight(c, treads, nosing)
	}
	if nosing > 0 && !s.Blocks {
		k.note("its nosing, %.1f, is left out", nosing)
	}
	return k.windingBlocks(c, treads)
}

// hasCorners reports whether a line turns at once anywhere.
func hasCorners(p *geom.Path) bool {
	return len(geom.NewCourse(p).Corners()) > 0
}

// windingBlocks makes a box of each tread's outline.
func (k *work) windingBlocks(s *set.Steps, treads []set.Tread) error {
	for i, t := range treads {
		what := "step"
		if s.Blocks {
			what = "block"
		}
		called := func(name string) string { return fmt.Sprintf("%s %d, %s", what, i+1, name) }
		err := k.box(s.TreadOutline(i), t.Top, plan, called("top"), "", func(l *loop, w *wall) string { return called(wallName(l, w)) })
		if err != nil {
			return fmt.Errorf("%s %d: %w", what, i+1, err)
		}
	}
	return nil
}

// winding is a flight along a smooth line while it is made.
type winding struct {
	*set.Steps
	k      *work
	t      float64
	treads []set.Tread
	left   *stringSide
	right  *stringSide
	nosing float64
	lands  bool // it is open at its back
}

// plane is an upright plane square to the line: n points uphill.
type plane struct{ o, n geom.Point }

// planeAt is the plane by behind the front of the riser at y, before it where by is less than 0.
func (w *winding) planeAt(y, by float64) plane {
	n := w.Ahead(y)
	return plane{w.Way(0, y).Add(n.Mul(by)), n}
}

// right is the way to the right as one climbs through the plane.
func (p plane) right() geom.Point { return p.n.Left().Mul(-1) }

// riserY is where riser i stands along the line; the last is where the flight ends.
func (w *winding) riserY(i int) float64 {
	if i < len(w.treads) {
		return w.treads[i].Y0
	}
	return w.treads[len(w.treads)-1].Y1
}

func (k *work) windingFlight(s *set.Steps, treads []set.Tread, nosing float64) error {
	w := &winding{Steps: s, k: k, t: k.card.Thickness, treads: treads, nosing: nosing, lands: s.Meets != ""}
	if treads[0].Width <= 2*w.t {
		return fmt.Errorf("it is only %.2f wide", treads[0].Width)
	}
	for i, r := range s.Rises[:len(treads)] {
		if r-w.t < least {
			return fmt.Errorf("riser %d is only %.2f high", i+1, r)
		}
	}
	l, r := s.Sides(0)
	run := w.riserY(len(treads))
	w.right = newStringSide(s.Edge(r, 0, run), w.t, 1)
	w.left = newStringSide(s.Edge(l, 0, run).Reverse(), w.t, -1)
	for _, x := range [2]struct {
		side *stringSide
		off  float64
	}{{w.right, r}, {w.left, l}} {
		if err := x.side.fit(w, x.off); err != nil {
			return err
		}
	}
	w.right.make(w, "right side")
	w.left.make(w, "left side")
	below := -1
	for i := range treads {
		riser := w.riser(i, below)
		below = w.tread(i, riser)
	}
	if !w.lands {
		w.back(below)
	}
	return nil
}

// riser makes riser i, which stands on the piece below, or on the floor where that is −1.
func (w *winding) riser(i, below int) int {
	front, back := w.planeAt(w.riserY(i), 0), w.planeAt(w.riserY(i), w.t)
	lo, hi := 0.0, w.treads[i].Top-w.t
	if i > 0 {
		lo = w.treads[i-1].Top
	}
	d, x := w.board(fmt.Sprintf("riser %d", i+1), front, back, front.right(), front.n.Mul(-1), lo, hi, i, false)
	piece := w.k.pieceOf(d)
	if below >= 0 {
		line := []geom.Point{{X: x[0][0], Y: lo}, {X: x[0][1], Y: lo}}
		w.k.join(Stands, Side{below, w.onPlan(front, front.right(), line), 0}, Side{piece, line, 0})
	}
	w.joinSides(piece, i, i, lo, hi, x[1])
	return piece
}

// back makes the wall behind the last tread.
func (w *winding) back(tread int) {
	n := len(w.treads)
	front, back := w.planeAt(w.riserY(n), 0), w.planeAt(w.riserY(n), -w.t)
	hi := w.treads[n-1].Top - w.t
	d, x := w.board("back", front, back, front.right().Mul(-1), front.n, 0, hi, n, true)
	piece := w.k.pieceOf(d)
	line := []geom.Point{{X: x[0][0], Y: hi}, {X: x[0][1], Y: hi}}
	w.under(piece, tread, line, front, front.right().Mul(-1))
	w.joinSides(piece, n, n, 0, hi, x[1])
}

// board is an upright piece square to the line: its outer face in one plane, its inner in another. The x that come back
// are the ends of the outer face and of the inner one.
func (w *winding) board(name string, outer, inner plane, across, out geom.Point, lo, hi float64, at int, behind bool) (draft, [2][2]float64) {
	d := draft{Piece: Piece{Name: name}}
	d.body.frame = geom.Frame{R: [3][3]float64{{across.X, 0, out.X}, {across.Y, 0, out.Y}, {0, 1, 0}}, T: geom.Vec{X: outer.o.X, Y: outer.o.Y}}
	var x [2][2]float64
	for end, s := range [2]*stringSide{w.left, w.right} {
		if behind {
			end = 1 - end
		}
		x[0][end] = s.place(s.front[at], 0).Sub(outer.o).Dot(across)
		x[1][end] = s.place(s.outer[at], 0).Sub(outer.o).Dot(across)
	}
	from, to := min(x[0][0], x[1][0]), max(x[0][1], x[1][1])
	d.Outline.Outer = geom.Polygon([]geom.Point{{X: from, Y: lo}, {X: to, Y: lo}, {X: to, Y: hi}, {X: from, Y: hi}})
	for end, cut := range [2]float64{from, to} {
		e := Edge{
			Line: Line{geom.Point{X: cut, Y: lo}, geom.Point{X: cut, Y: hi}}, Treatment: Through,
			Front: math.Abs(x[0][end] - cut), Back: math.Abs(x[1][end] - cut),
		}
		e.Bevel = w.k.bevelled(e.Front - e.Back)
		d.Edges = append(d.Edges, e)
	}
	how := Stands
	if w.k.folds() {
		how = Tabbed
	}
	d.Edges = append(d.Edges, Edge{Line: Line{geom.Point{X: from, Y: hi}, geom.Point{X: to, Y: hi}}, Treatment: how})
	return d, x
}

// onPlan turns places of an upright board into those of a tread.
func (w *winding) onPlan(p plane, across geom.Point, line []geom.Point) []geom.Point {
	out := make([]geom.Point, len(line))
	for i, q := range line {
		out[i] = p.o.Add(across.Mul(q.X))
	}
	return out
}

// joinSides joins a board to both sides, which end against its inner face at the places of their list.
func (w *winding) joinSides(piece, at, number int, lo, hi float64, x [2]float64) {
	ends := [2]*stringSide{w.left, w.right}
	if number == len(w.treads) {
		ends = [2]*stringSide{w.right, w.left}
	}
	for end, s := range ends {
		line := func(x float64) []geom.Point { return []geom.Point{{X: x, Y: lo}, {X: x, Y: hi}} }
		w.k.join(Captive, Side{piece, line(x[end]), w.t}, Side{s.piece, line(s.outer[at]), 0})
	}
}

// under joins a board's upper edge to the tread on it, with a tab of card that folds.
func (w *winding) under(piece, tread int, line []geom.Point, p plane, across geom.Point) {
	how := Stands
	if w.k.folds() {
		how = Tabbed
	}
	w.k.join(how, Side{tread, w.onPlan(p, across, line), w.t}, Side{piece, line, 0})
	if how != Tabbed {
		return
	}
	d := &w.k.drafts[piece]
	b := d.Outline.Outer.Bounds()
	from, to := geom.Point{X: b.Max.X, Y: b.Max.Y}, geom.Point{X: b.Min.X, Y: b.Max.Y}
	deep := min(tabDeep, 0.4*w.least())
	pts, ok := trapezoid(from, to, deep, deep+w.t, deep+w.t)
	if !ok {
		return
	}
	d.Tabs = append(d.Tabs, Tab{Base: Line{from, to}, Angle: 90, Joint: len(w.k.joints)})
	d.Folds = append(d.Folds, Fold{Line: Line{from, to}, Angle: 90, Away: true, Front: true})
	d.Outline.Outer = withTabs(d.Outline.Outer, []tabCut{{from, to, pts}})
}

// least is the least going along either side.
func (w *winding) least() float64 {
	l := math.Inf(1)
	for _, s := range [2]*stringSide{w.left, w.right} {
		for i := 1; i < len(s.outer); i++ {
			l = min(l, math.Abs(s.outer[i]-s.outer[i-1]))
		}
	}
	return l
}

// tread makes tread i over a riser.
func (w *winding) tread(i, riser int) int {
	name := "tread"
	if slices.Contains(w.Landings, i+1) {
		name = "landing"
	}
	d := draft{Piece: Piece{Name: fmt.Sprintf("%s %d", name, i+1)}}
	d.body.frame = geom.Identity()
	d.body.frame.T.Z = w.treads[i].Top
	front := [2]float64{w.left.front[i], w.right.front[i]}
	if w.nosing > 0 {
		p := w.planeAt(w.riserY(i), -w.nosing)
		for side, s := range [2]*stringSide{w.left, w.right} {
			if x, ok := s.meets(p, front[side], 0, w.nosing); ok {
				front[side] = x
			}
		}
	}
	back := func(s *stringSide) float64 {
		if i+1 < len(w.treads) {
			return s.outer[i+1]
		}
		return s.front[i+1]
	}
	p := geom.NewPath(w.left.place(front[0], 0))
	p.LineTo(w.right.place(front[1], 0))
	for _, s := range w.right.face(front[1], back(w.right)) {
		p.Append(s)
	}
	p.LineTo(w.left.place(back(w.left), 0))
	for _, s := range w.left.face(back(w.left), front[0]) {
		p.Append(s)
	}
	p.Close()
	d.Outline.Outer = p
	piece := w.k.pieceOf(d)
	f := w.planeAt(w.riserY(i), 0)
	ends := [2]float64{w.left.place(w.left.front[i], 0).Sub(f.o).Dot(f.right()), w.right.place(w.right.front[i], 0).Sub(f.o).Dot(f.right())}
	hi := w.treads[i].Top - w.t
	w.under(riser, piece, []geom.Point{{X: ends[0], Y: hi}, {X: ends[1], Y: hi}}, f, f.right())
	for _, s := range [2]*stringSide{w.right, w.left} {
		s.joinTread(w, i, piece)
	}
	return piece
}
