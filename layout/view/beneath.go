package view

import (
	"github.com/peterstace/simplefeatures/rtree"

	"markout/layout/geom"
	"markout/layout/set"
)

// overheadFrom is how far above what lies beneath it a piece's underside is when the plan draws it as overhead,
// millimetres (common practice, no source; the headroom of Approved Document K is the same figure).
const overheadFrom = 2000.0

// ground answers what lies under and over a place: the faces that can be stood on of every piece where it stands first.
type ground struct {
	faces []face
	tree  *rtree.RTree
}

// face is one face that can be stood on and the underside of the piece that has it.
type face struct {
	set.Surface
	bottom float64
}

func newGround(s *set.Set) *ground {
	g := &ground{}
	var items []rtree.BulkItem
	for _, e := range s.Elements {
		for _, c := range e.Copies {
			if len(c.Places) == 0 {
				continue
			}
			for _, f := range set.Surfaces(e, c.Places[0]) {
				b := f.Region.Outer.Bounds()
				if b.Empty() {
					continue
				}
				items = append(items, rtree.BulkItem{
					Box:      rtree.Box{MinX: b.Min.X, MinY: b.Min.Y, MaxX: b.Max.X, MaxY: b.Max.Y},
					RecordID: len(g.faces),
				})
				g.faces = append(g.faces, face{f, c.Places[0].Level()})
			}
		}
	}
	g.tree = rtree.BulkLoad(items)
	return g
}

// at calls see with the height of every face over the plan place p.
func (g *ground) at(p geom.Point, see func(f *face, z float64)) {
	_ = g.tree.RangeSearch(rtree.Box{MinX: p.X, MinY: p.Y, MaxX: p.X, MaxY: p.Y}, func(i int) error { // see never fails
		f := &g.faces[i]
		if !f.Region.Outer.Contains(p) {
			return nil
		}
		for _, h := range f.Region.Holes {
			if h.Contains(p) {
				return nil
			}
		}
		see(f, f.Z(p))
		return nil
	})
}

// standing tells how a piece appears on the plan.
type standing uint8

const (
	seen     standing = iota
	under             // wholly beneath something that is not itself overhead
	overhead          // its underside overheadFrom or more above all that lies beneath
)

// stands tells how the piece e appears where it stands at pl, judged at the samples, plan places on it.
func (g *ground) stands(e *set.Element, pl set.Place, samples []geom.Point) standing {
	switch {
	case pl.Over != nil:
		return overhead
	case len(samples) == 0:
		return seen
	}
	bottom, top := underside(e, pl), set.Top(e, pl)
	below, hidden := 0.0, true
	for _, p := range samples {
		roof := false
		g.at(p, func(f *face, z float64) {
			switch {
			case f.Owner == e.Name:
			case z <= bottom+geom.Tolerance:
				below = max(below, z)
			case z > top+geom.Tolerance && f.bottom < bottom+overheadFrom:
				roof = true
			}
		})
		hidden = hidden && roof
	}
	switch {
	case bottom-below >= overheadFrom-geom.Tolerance:
		return overhead
	case hidden:
		return under
	}
	return seen
}

// samples returns plan places on a piece by which it is judged: the middle of its box and at most eight of its ends; of a
// flight, whose box may have its middle off it, the middles of at most nine treads.
func samples(sh set.Shape, own []trace, m geom.Isometry) []geom.Point {
	if len(own) == 0 {
		return nil
	}
	out := make([]geom.Point, 0, 9)
	if s, ok := sh.(*set.Steps); ok && s.Line != nil {
		treads := s.Treads()
		step := max(1, (len(treads)+8)/9)
		for k := 0; k < len(treads); k += step {
			out = append(out, m.Apply(s.Way(treads[k].Mid, (treads[k].Y0+treads[k].Y1)/2)))
		}
		return out
	}
	p := own[0].path
	out = append(out, m.Apply(p.Bounds().Mid()))
	step := max(1, (p.Len()+7)/8)
	for i := 0; i < p.Len(); i += step {
		out = append(out, m.Apply(p.Segment(i).From))
	}
	return out
}
