package view

import (
	"cmp"
	"math"
	"slices"

	"github.com/peterstace/simplefeatures/rtree"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/solid"
)

var (
	headroomLine = pen{drawing.Notes, drawing.Dashed, drawing.MediumLine, drawing.Black}
	person       = pen{drawing.Notes, drawing.Continuous, planNarrow, drawing.Black}
)

var sectionLegend = []legendEntry{
	{hungEdge, "edge of a piece as it hangs, floor of the room"},
	{hiddenEdge, "hidden behind a nearer piece"},
	{groundLine, "walking floor"},
	{headroomLine, "headroom wanted"},
	{person, "a person"},
	{datumLine, "the room's middle line"},
}

// SectionLegend returns what the lines of a section mean, of those that it shows.
func SectionLegend(d *drawing.Drawing) []LegendLine { return legendOf(sectionLegend, d) }

// Section returns the section through a room overhead in the room's own axes, looking from its front wall to its back or, alongside,
// from its right to its left: the walking floor with a person on it, the room's floor overhead, every piece as it hangs with the
// level of its lowest point, the headroom wanted. x runs across the room from its middle line, or up its depth from its front wall; y
// is the level over the set's 0. What is hidden behind a nearer piece is dashed, by the near side of each.
func Section(s *set.Set, r *transfer.Room, sc *solid.Scene, alongside bool) Elevation {
	d := &drawing.Drawing{View: "section", Name: r.Element.Name}
	c := &sectioner{builder: newBuilder(d), s: s, r: r, alongside: alongside, back: r.Frame.Plan().Inverse()}
	box := r.Shape.Outline.Path.Bounds()
	c.left, c.right = box.Min.X, box.Max.X
	v := Elevation{Drawing: d, Element: r.Element.Name, Seen: "across"}
	v.Says = []string{"Looking up the room from its front wall as it lies on the plan; left and right are those of the plan."}
	if alongside {
		c.left, c.right, v.Seen = box.Min.Y, box.Max.Y, "along"
		v.Says = []string{"Looking across the room from its plan-right side; its front wall, as it lies on the plan, is at the left."}
	}
	d.Title = r.Element.Name + ": section " + v.Seen
	c.gather(sc)
	c.floors()
	c.bodies()
	c.stands()
	c.measures()
	v.Says = append([]string{transfer.Note}, append(v.Says, "Levels are over the set's 0. The person is "+figure(s, c.tall)+" tall, without shoes (ANSUR II 2012, 50th percentile of men).")...)
	return v
}

// sectioner draws one section.
type sectioner struct {
	*builder
	s           *set.Set
	r           *transfer.Room
	alongside   bool
	back        geom.Isometry // plan to the room's own axes
	left, right float64       // ends of the room
	solids      []profile     // the nearest first
	of          [][]int       // by piece: its profiles
	tall        float64
}

// profile is a solid as the section shows it: a convex outline, anticlockwise, and how far its near side is.
type profile struct {
	piece int // in the room's pieces
	near  float64
	edge  []geom.Point
	box   geom.Rect
}

// gather takes the profiles of all that hangs in the room, the nearest first.
func (c *sectioner) gather(sc *solid.Scene) {
	at := make(map[string]int, len(c.r.Pieces))
	first := make([]int, len(c.r.Pieces))    // of the stack that a piece is in
	stacked := make([]bool, len(c.r.Pieces)) // a stack of several is shown as one
	for _, g := range Stacks(c.r) {
		for _, i := range g {
			at[c.r.Pieces[i].Name], first[i], stacked[i] = i, g[0], len(g) > 1
		}
	}
	of := map[int]int{} // by the first piece of a stack of several: its profile
	for i := range sc.Solids {
		n := &sc.Solids[i]
		q := &sc.Pieces[n.Piece]
		if !n.Hung || q.Position != "" || q.Place.Over == nil || q.Place.Over.Room != c.r.Element.Name {
			continue
		}
		k, ok := at[q.Element.CopyName(q.Element.Copies[q.Copy])]
		if !ok {
			continue
		}
		stack := first[k]
		p := profile{piece: stack, near: math.Inf(1), box: geom.EmptyRect()}
		var ps []geom.Point
		have, again := of[stack]
		if again {
			p, ps = c.solids[have], c.solids[have].edge
		}
		for _, w := range n.Rings[0] {
			o := c.back.Apply(w)
			x, near := o.X, o.Y
			if c.alongside {
				x, near = o.Y, -o.X
			}
			p.near = min(p.near, near)
			ps = append(ps, geom.Point{X: x, Y: n.Bottom(w)}, geom.Point{X: x, Y: n.Top(w)})
		}
		if p.edge = geom.Hull(ps); len(p.edge) < 2 {
			continue
		}
		for _, e := range p.edge {
			p.box = p.box.Include(e)
		}
		if again {
			c.solids[have] = p
			continue
		}
		if stacked[k] {
			of[stack] = len(c.solids)
		}
		c.solids = append(c.solids, p)
	}
	slices.SortStableFunc(c.solids, func(a, b profile) int { return cmp.Compare(a.near, b.near) })
	c.of = make([][]int, len(c.r.Pieces))
	for k := range c.solids {
		c.of[c.solids[k].piece] = append(c.of[c.solids[k].piece], k)
	}
}

// bodies draws the profiles, each side split where nearer ones hide it.
func (c *sectioner) bodies() {
	items := make([]rtree.BulkItem, len(c.solids))
	for i := range c.solids {
		b := c.solids[i].box
		items[i] = rtree.BulkItem{Box: rtree.Box{MinX: b.Min.X, MinY: b.Min.Y, MaxX: b.Max.X, MaxY: b.Max.Y}, RecordID: i}
	}
	tree := rtree.BulkLoad(items)
	for _, g := range Stacks(c.r) {
		c.own(c.r.Pieces[g[0]].Element)
		for _, i := range g {
			for _, k := range c.of[i] {
				c.body(tree, k)
			}
		}
		c.words(tree, g)
	}
	c.nobody()
}

// nearer returns the profiles of other pieces that may hide a part of profile k, in their order.
func (c *sectioner) nearer(tree *rtree.RTree, k int) []int {
	p := &c.solids[k]
	var over []int
	_ = tree.RangeSearch(rtree.Box{MinX: p.box.Min.X, MinY: p.box.Min.Y, MaxX: p.box.Max.X, MaxY: p.box.Max.Y}, func(i int) error { // which never fails
		if c.solids[i].near < p.near-geom.Tolerance && c.solids[i].piece != p.piece {
			over = append(over, i)
		}
		return nil
	})
	slices.Sort(over)
	return over
}

// body draws one profile.
func (c *sectioner) body(tree *rtree.RTree, k int) {
	p := &c.solids[k]
	over := c.nearer(tree, k)
	if len(over) == 0 {
		c.stroke(geom.Polygon(p.edge), hungEdge)
		return
	}
	for i, a := range p.edge {
		b := p.edge[(i+1)%len(p.edge)]
		seen := 0.0
		for _, h := range c.hidden(a, b, over) {
			if h[0] > seen {
				c.stroke(polyline(a.Lerp(b, seen), a.Lerp(b, h[0])), hungEdge)
			}
			c.stroke(polyline(a.Lerp(b, h[0]), a.Lerp(b, h[1])), hiddenEdge)
			seen = h[1]
		}
		if seen < 1 {
			c.stroke(polyline(a.Lerp(b, seen), b), hungEdge)
		}
	}
}

// hidden returns the shares of the side from a to b that lie inside nearer profiles, joined and in order.
func (c *sectioner) hidden(a, b geom.Point, over []int) [][2]float64 {
	var in [][2]float64
	for _, i := range over {
		from, to := 0.0, 1.0
		edge := c.solids[i].edge
		for k, e := range edge {
			side := edge[(k+1)%len(edge)].Sub(e).Unit()
			da, db := side.Cross(a.Sub(e)), side.Cross(b.Sub(e))
			if da <= geom.Tolerance && db <= geom.Tolerance {
				from, to = 1, 0
				break
			}
			if t := da / (da - db); da <= 0 {
				from = max(from, t)
			} else if db <= 0 {
				to = min(to, t)
			}
		}
		if to-from > 1e-9 {
			in = append(in, [2]float64{from, to})
		}
	}
	slices.SortFunc(in, func(x, y [2]float64) int { return cmp.Or(cmp.Compare(x[0], y[0]), cmp.Compare(x[1], y[1])) })
	var out [][2]float64
	for _, h := range in {
		if n := len(out); n > 0 && h[0] <= out[n-1][1] {
			out[n-1][1] = max(out[n-1][1], h[1])
			continue
		}
		out = append(out, h)
	}
	return out
}

// stands puts a person on the walking floor where most room is overhead, clear of the words at its left end; of equals nearest to those.
func (c *sectioner) stands() {
	man := develop.People(1)[0]
	c.tall = man.Height
	const tries, half = 24, 300.0
	best, most := c.left, math.Inf(-1)
	for i := range tries {
		x := c.left + (c.right-c.left)*(0.55+0.35*float64(i)/tries)
		room := c.r.Shape.Overhead
		for k := range c.solids {
			if b := &c.solids[k].box; b.Max.X > x-half && b.Min.X < x+half {
				room = min(room, b.Min.Y)
			}
		}
		if room > most+geom.Tolerance {
			best, most = x, room
		}
	}
	c.stroke(man.Outline.Transform(geom.Move(geom.Point{X: best, Y: c.r.Shape.Stand}, 0)), person)
}

// measures adds the chains: the room's ends below, and at the right the floors and the lowest point of all.
func (c *sectioner) measures() {
	sh := c.r.Shape
	beyond := (c.right - c.left) * 0.08
	low := math.Inf(1)
	for k := range c.solids {
		low = min(low, c.solids[k].box.Min.Y)
	}
	var xs, ys []place
	for _, x := range []float64{c.left, 0, c.right} {
		xs = insert(xs, place{x, geom.Point{X: x, Y: sh.Stand}})
	}
	base := geom.Point{X: c.right + beyond, Y: sh.Stand}
	for _, z := range []float64{sh.Stand, low, sh.Overhead} {
		if !math.IsInf(z, 0) {
			ys = insert(ys, place{z, geom.Point{X: base.X, Y: z}})
		}
	}
	v := &elevator{builder: c.builder}
	v.chain(xs, 0, base, -chainFirst)
	v.chain(ys, 90, base, -chainFirst)
	if sh.Headroom > 0 {
		v.chain([]place{{sh.Stand, base}, {sh.Stand + sh.Headroom, geom.Point{X: base.X, Y: sh.Stand + sh.Headroom}}}, 90, base, -chainFirst-2*chainStep)
	}
}
