package sheet

import (
	"slices"

	"github.com/peterstace/simplefeatures/rtree"

	"markout/layout/drawing"
	"markout/layout/geom"
)

// plot is a closed outline on the sheet: ground that belongs to one piece.
type plot struct {
	owner int32
	box   geom.Rect    // on paper
	edge  []geom.Point // on paper, curves as runs of lines
}

// plotFlatness is the greatest distance in millimetres on paper between a plot's curves and their lines.
const plotFlatness = 0.1

func (p *plot) small() bool { return min(p.box.W(), p.box.H()) < smallPiece }

// contains reports whether a place on paper lies in the plot: it has an odd number of edges to its right.
func (p *plot) contains(q geom.Point) bool {
	if !p.box.Contains(q) {
		return false
	}
	in := false
	a := p.edge[len(p.edge)-1]
	for _, b := range p.edge {
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
		a = b
	}
	return in
}

// holds reports whether a box lies in the plot with all its corners.
func (p *plot) holds(b geom.Rect) bool {
	return p.contains(b.Min) && p.contains(b.Max) &&
		p.contains(geom.Point{X: b.Min.X, Y: b.Max.Y}) && p.contains(geom.Point{X: b.Max.X, Y: b.Min.Y})
}

// plots knows whose ground a place on the sheet is.
type plots struct {
	list []plot
	tree *rtree.RTree
	all  bool   // whether labels are kept out of strange plots
	hall string // name of the room worked in, which is nobody's ground

	buffer []int
}

// mostStrange is the number of outlines up to which labels are kept out of pieces that they do not name; with more there
// is no ground that is nobody's.
const mostStrange = 2000

// plotsOf gathers the outlines of pieces, those of the element named hall left aside.
func (j projection) plotsOf(d *drawing.Drawing, hall string) *plots {
	ps := &plots{hall: hall}
	var items []rtree.BulkItem
	for i := range d.Strokes {
		s := &d.Strokes[i]
		if s.Layer != drawing.Cut || !s.Path.Closed() || s.Owner < 0 || d.Owners[s.Owner] == hall {
			continue
		}
		b := s.Path.Bounds()
		p := plot{owner: s.Owner, box: geom.Rect{Min: j.to(b.Min), Max: j.to(b.Max)}}
		p.edge = s.Path.Flatten(plotFlatness*j.scale, nil)
		for k := range p.edge {
			p.edge[k] = j.to(p.edge[k])
		}
		items = append(items, rtree.BulkItem{
			Box:      rtree.Box{MinX: p.box.Min.X, MinY: p.box.Min.Y, MaxX: p.box.Max.X, MaxY: p.box.Max.Y},
			RecordID: len(ps.list),
		})
		ps.list = append(ps.list, p)
	}
	ps.tree = rtree.BulkLoad(items)
	ps.all = len(ps.list) <= mostStrange
	return ps
}

// under appends the indices of the plots about a place, in the drawing's order.
func (ps *plots) under(q geom.Point, dst []int) []int {
	from := len(dst)
	_ = ps.tree.RangeSearch(rtree.Box{MinX: q.X, MinY: q.Y, MaxX: q.X, MaxY: q.Y}, func(i int) error { // nothing in it fails
		if ps.list[i].contains(q) {
			dst = append(dst, i)
		}
		return nil
	})
	slices.Sort(dst[from:])
	return dst
}

// home returns the smallest plot of an owner among those about a place, nil where there is none.
func (ps *plots) home(about []int, owner int32) *plot {
	var best *plot
	for _, i := range about {
		p := &ps.list[i]
		if p.owner == owner && (best == nil || p.box.W()*p.box.H() < best.box.W()*best.box.H()) {
			best = p
		}
	}
	return best
}

// strange counts the plots about the place q that are not among those about the place that is named.
func (ps *plots) strange(q geom.Point, about []int) int {
	if !ps.all {
		return 0
	}
	ps.buffer = ps.under(q, ps.buffer[:0])
	n := 0
	for _, i := range ps.buffer {
		if !slices.Contains(about, i) {
			n++
		}
	}
	return n
}
