package takeoff

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

func (w *work) platform(p *set.Platform) {
	r := geom.Region{Outer: p.Outline.Path}
	w.cutOut(r, spec{name: "deck", word: "deck", thick: p.Deck, count: 1})
	if p.Closed {
		w.cutOut(r, spec{name: "underside", count: 1})
	}
}

// ramp takes off the board that is walked on and the sides under it: the ramp's wedge, lower by the board.
func (w *work) ramp(r *set.Ramp) {
	slope := math.Hypot(r.Length, r.Rise)
	w.sheet(r.Width, slope, spec{name: "deck", count: 1, note: "along the slope"})
	if w.board < 0 || r.Rise <= geom.Tolerance {
		return
	}
	thick := w.set.Boards[w.board].Thick * slope / r.Length // measured upright
	if thick >= r.Rise {
		return
	}
	toe := r.Length * thick / r.Rise
	side := geom.Polygon([]geom.Point{{X: toe}, {X: r.Length}, {X: r.Length, Y: r.Rise - thick}})
	w.cutOut(geom.Region{Outer: side}, spec{name: "side", count: 2, note: "runs out to a point at the toe"})
}

// flat takes off its facing. Of a curved one the openings lie where they do before it is bent.
func (w *work) flat(f *set.Flat) {
	outer, holes := f.CutFace()
	note := ""
	if f.Line != nil {
		note = "as it lies flat, to be bent to its line"
	}
	if w.board >= 0 && f.Thickness > geom.Tolerance && w.set.Boards[w.board].Thick > f.Thickness+hairThick {
		w.missing("facing", "the flat is "+w.size(f.Thickness)+" thick, and \""+w.e.Material+"\" is "+w.size(w.set.Boards[w.board].Thick))
		return
	}
	w.cutOut(geom.Region{Outer: outer, Holes: holes}, spec{name: "facing", count: 1, note: note})
}

func (w *work) panel(p *set.Panel) {
	r := geom.Region{Outer: p.Outline.Path}
	for _, h := range p.Holes {
		r.Holes = append(r.Holes, h.Path)
	}
	w.cutOut(r, spec{name: "shape", word: "thickness", thick: p.Thickness, count: 1})
	if p.Brace {
		w.missing("brace", "nothing says its sizes; `part` does")
	}
}

// ring takes off the top, and upright boards under straight edges; a ring no higher than its board is the top alone.
func (w *work) ring(r *set.Ring) {
	top := geom.Region{Outer: r.Outer.Path}
	if r.Inner != nil {
		top.Holes = []*geom.Path{r.Inner.Path}
	}
	thick := 0.0
	if w.board >= 0 {
		thick = w.set.Boards[w.board].Thick
	}
	if math.Abs(r.Height-thick) <= max(offLeast, offShare*r.Height) {
		w.cutOut(top, spec{name: "ring", word: "height", thick: r.Height, count: 1})
		return
	}
	w.cutOut(top, spec{name: "top", count: 1})
	w.walls(&r.Outer, "outer wall", r.Height-thick)
	if r.Inner != nil {
		w.walls(r.Inner, "inner wall", r.Height-thick)
	}
}

// mitred is said of upright boards that meet at their edges.
const mitred = "ends mitred, this is the outside"

// walls takes off the upright boards of an outline's straight edges, each as long as its edge.
func (w *work) walls(o *set.Outline, name string, height float64) {
	if !o.Path.Straight() {
		w.missing(name, "it is bent: "+w.size(o.Path.Length())+" long, "+w.size(height)+" high; `markout model` develops it")
		return
	}
	for i, s := range o.Path.Segments() {
		w.sheet(s.Length(), height, spec{name: nth(name, i+1, o.Path.Len()), count: 1, note: mitred})
	}
}

// cone takes off the faces of one with sides: side across·tan(180°/n) at each end, as far apart as the slant is long.
func (w *work) cone(c *set.Cone) {
	if c.Sides == 0 {
		w.missing("all of it", "it is bent from thin board; `markout model` develops it")
		return
	}
	t := math.Tan(math.Pi / float64(c.Sides))
	low, high, slant := c.Lower*t, c.Upper*t, math.Hypot(c.Height, (c.Lower-c.Upper)/2)
	wide := max(low, high) / 2
	points := []geom.Point{{X: wide - low/2}, {X: wide + low/2}, {X: wide + high/2, Y: slant}, {X: wide - high/2, Y: slant}}
	if low <= geom.Tolerance {
		points = points[1:]
	} else if high <= geom.Tolerance {
		points = points[:3]
	}
	w.cutOut(geom.Region{Outer: geom.Polygon(points)}, spec{name: "face", count: c.Sides, note: "outside sizes, edges mitred"})
}

// post takes off a post's height from a length.
func (w *work) post(p *set.Post) {
	box := p.Outline.Path.Bounds()
	if w.board >= 0 {
		w.missing("all of it", "a post is cut from a length, and \""+w.e.Material+"\" is a board")
		return
	}
	if w.bar < 0 {
		w.loose(p.Height, box.W(), spec{name: "post", thick: box.H(), count: 1}, "")
		return
	}
	l := &w.set.Lengths[w.bar]
	note := ""
	if !fitsSection(box.W(), box.H(), l.Width, l.Depth) {
		note = "the post is " + w.size(box.W()) + " x " + w.size(box.H()) + " on plan, \"" + l.Name + "\" " + w.size(l.Width) + " x " + w.size(l.Depth)
	}
	if p.Height > l.Long+geom.Tolerance {
		w.missing("post", "it is "+w.size(p.Height)+" long, and \""+l.Name+"\" is "+w.size(l.Long))
		return
	}
	w.q.Pieces = append(w.q.Pieces, Piece{Element: w.e.Name, Name: "post", Board: -1, Bar: w.bar, Length: p.Height, Width: l.Width,
		Thickness: l.Depth, Count: w.n, Note: note, Span: w.e.NameSpan})
}

// fitsSection reports whether a section fits a post, either way round.
func fitsSection(a, b, c, d float64) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= max(offLeast, offShare*x) }
	return near(a, c) && near(b, d) || near(a, d) && near(b, c)
}
