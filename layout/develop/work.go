package develop

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// foldable is the thickest card in millimetres that is folded and has tabs (common practice, no source).
const foldable = 0.6

// work is one element while it is made, in its own axes at the model's scale. Its drafts are seen from outside.
type work struct {
	e        *set.Element
	card     set.Card
	drafts   []draft
	joints   []draftJoint
	standing []stood // walls that a cap is still to close
	small    []Small
	notes    []string
	tabDepth float64 // of the prism at hand
	held     bool    // a wall holds it, so that it has no foot of its own
}

// draft is a piece seen from outside: the fields named Front mean the outer face, depths count inwards from it.
type draft struct{ Piece }

type draftJoint struct {
	how  Treatment
	a, b Side
}

// stood is a wall on its loop.
type stood struct {
	loop *loop
	wall *wall
}

func (k *work) folds() bool { return k.card.Thickness <= foldable+geom.Tolerance }

func side(piece int, line []geom.Point, depth float64) Side {
	return Side{Piece: piece, Line: line, Depth: depth}
}

func (k *work) join(how Treatment, a, b Side) {
	k.joints = append(k.joints, draftJoint{how, a, b})
}

// reliefTurn is the turn in degrees of the card from one relief cut to the next, and leastRelief the least distance
// between two (common practice, no source).
const (
	reliefTurn  = 5
	leastRelief = 2
)

// roll notes that span i of the wall is rolled; card too thick to roll by itself is half-cut on the hidden side.
func (d *draft) roll(w *wall, i int, thin bool) {
	s := &w.spans[i]
	from, to := w.outerOf(i)
	d.Rolls = append(d.Rolls, Roll{
		From: from, To: to, Radius: s.seg.RX, Sweep: (to - from) / s.middle() * 180 / math.Pi, Away: s.hand() > 0,
	})
	d.Grain = Along
	if thin {
		return
	}
	n := int(math.Ceil((to - from) / s.middle() * 180 / math.Pi / reliefTurn))
	n = max(1, min(n, int((to-from)/leastRelief)))
	for c := range n {
		x := from + (to-from)*(float64(c)+0.5)/float64(n)
		d.Relief = append(d.Relief, Relief{Line: Line{geom.Point{X: x, Y: w.v[0]}, geom.Point{X: x, Y: w.v[1]}}})
	}
}

// settle turns a draft into the piece as it lies on the card with the printed side up and its box at 0,0.
func (k *work) settle(d draft, outside bool) Piece {
	p := d.Piece
	p.Thickness, p.Card, p.Hidden = k.card.Thickness, k.card.Name, !outside
	b := p.Outline.Bounds()
	p.body.low, p.body.width = b.Min, b.W()
	m := geom.Isometry{A: 1, D: 1, T: b.Min.Mul(-1)}
	if p.Hidden {
		m = geom.Isometry{A: -1, D: 1, T: geom.Point{X: b.Max.X, Y: -b.Min.Y}}
	}
	line := func(l Line) Line { return Line{m.Apply(l.From), m.Apply(l.To)} }
	p.Outline = upright(p.Outline.Transform(m))
	for i, e := range p.Edges {
		e.Line = line(e.Line)
		if p.Hidden {
			e.Front, e.Back = e.Back, e.Front
		}
		p.Edges[i] = e
	}
	for i, f := range p.Folds {
		f.Line = line(f.Line)
		f.Front, f.Away = f.Front == outside, f.Away == outside
		p.Folds[i] = f
	}
	for i, r := range p.Relief {
		r.Line = line(r.Line)
		r.Front = r.Front == outside
		p.Relief[i] = r
	}
	for i, r := range p.Rolls {
		r.From, r.To = m.Apply(geom.Point{X: r.From}).X, m.Apply(geom.Point{X: r.To}).X
		if p.Hidden {
			r.From, r.To = r.To, r.From
		}
		r.Away = r.Away == outside
		p.Rolls[i] = r
	}
	for i, t := range p.Tabs {
		p.Tabs[i].Base = line(t.Base)
	}
	p.settleTaper(m, outside)
	return p
}

// settleSide is settle for a joint's line on a settled piece.
func settleSide(s Side, p *Piece, first int) Side {
	out := Side{Piece: first + s.Piece, Depth: s.Depth, Line: make([]geom.Point, len(s.Line))}
	for i, q := range s.Line {
		q = q.Sub(p.body.low)
		if p.Hidden {
			q.X = p.body.width - q.X
		}
		out.Line[i] = q
	}
	if p.Hidden {
		out.Depth = p.Thickness - s.Depth
	}
	return out
}

// clone returns a draft that shares no list with d, so that each copy can be settled by itself.
func (d draft) clone() draft {
	d.Edges = append([]Edge(nil), d.Edges...)
	d.Folds = append([]Fold(nil), d.Folds...)
	d.Rolls = append([]Roll(nil), d.Rolls...)
	d.Relief = append([]Relief(nil), d.Relief...)
	d.Tabs = append([]Tab(nil), d.Tabs...)
	d.Rims = append([]Rim(nil), d.Rims...)
	return d
}
