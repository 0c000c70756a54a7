package tiling

import (
	"crypto/sha256"
	"encoding/binary"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// Art is artwork in a view, made ready for the digests of many pages: what it paints, in its order, each with its box and the digest of
// its outline, paint and what it is cut down to, so that a page is known by what lies on it without walking the rest.
type Art struct {
	frame  artwork.Matrix
	leaves []leaf
	groups []group
}

// leaf is a shape or image of artwork.
type leaf struct {
	box   geom.Rect // of all that it paints, in the view's millimetres
	sum   [sha256.Size]byte
	group int32 // -1 for none
	mask  bool  // it is part of what masks a group
}

// group is a group of artwork, or what masks it.
type group struct {
	parent, depth int32 // depth from 1
}

// ImageSums keeps the digests of images' bytes, each worked out once.
type ImageSums map[*artwork.Image][sha256.Size]byte

func (s ImageSums) of(n *artwork.Image) [sha256.Size]byte {
	sum, ok := s[n]
	if !ok {
		sum = sha256.Sum256(n.Data)
		s[n] = sum
	}
	return sum
}

// NewArt makes a picture ready. Frame takes its millimetres to the view's.
func NewArt(p *artwork.Picture, frame artwork.Matrix, sums ImageSums) *Art {
	a := &Art{frame: frame}
	w := artWriter{art: a, sums: sums, frame: frame}
	w.nodes(p.Nodes, within{bounds: geom.Rect{Max: geom.Point{X: p.W, Y: p.H}}, group: -1})
	return a
}

// Painted visits the boxes of all that is painted, in the view's millimetres.
func (a *Art) Painted(visit func(geom.Rect)) {
	for i := range a.leaves {
		if l := &a.leaves[i]; !l.mask {
			visit(l.box)
		}
	}
}

// Picture adds what of artwork meets the shown part of it, in the view's millimetres.
func (d *Digester) Picture(m drawing.Mark, a *Art, shown geom.Rect) {
	d.begin('P', m, 0)
	for _, x := range [...]float64{shown.Min.X, shown.Min.Y, shown.Max.X, shown.Max.Y} {
		d.data = appendMicrons(d.data, x)
	}
	last := int32(-1)
	for i := range a.leaves {
		l := &a.leaves[i]
		if !l.box.Overlaps(shown) {
			continue
		}
		// In how many groups it stands together with what came before: groups are not in the order of things otherwise.
		d.data = binary.BigEndian.AppendUint32(d.data, uint32(a.shared(last, l.group)))
		d.data = append(d.data, l.sum[:]...)
		last = l.group
	}
	d.end()
}

// shared is how many groups hold both.
func (a *Art) shared(g, h int32) int32 {
	depth := func(k int32) int32 {
		if k < 0 {
			return 0
		}
		return a.groups[k].depth
	}
	for g != h {
		if depth(g) >= depth(h) {
			g = a.groups[g].parent
		} else {
			h = a.groups[h].parent
		}
	}
	return depth(g)
}

// within is where nodes stand.
type within struct {
	bounds geom.Rect         // nothing is painted outside, in the picture's millimetres
	group  int32             // -1 for none
	sum    [sha256.Size]byte // of the groups around
	mask   bool
}

// artWriter takes in the nodes of artwork.
type artWriter struct {
	art   *Art
	sums  ImageSums
	frame artwork.Matrix
	data  []byte
}

func (w *artWriter) nodes(nodes []artwork.Node, in within) {
	for _, n := range nodes {
		if g, ok := n.(*artwork.Group); ok {
			w.group(g, in)
			continue
		}
		box := artwork.Bounds(n).Common(in.bounds)
		if box.Empty() {
			continue
		}
		w.data = append(w.data[:0], in.sum[:]...)
		switch n := n.(type) {
		case *artwork.Shape:
			w.shape(n)
		case *artwork.Image:
			sum := w.sums.of(n)
			w.data = append(append(w.data, 'i', flag(n.Crisp)), sum[:]...)
			w.matrix(n.Frame.Then(w.frame))
			w.number(n.Opacity)
		}
		w.art.leaves = append(w.art.leaves, leaf{box: BoxThrough(w.frame, box), sum: sha256.Sum256(w.data), group: in.group, mask: in.mask})
	}
}

// group takes in a group: what masks it, then what it holds.
func (w *artWriter) group(g *artwork.Group, in within) {
	bounds := in.bounds
	if g.Clip != nil {
		bounds = bounds.Common(artwork.Bounds(g))
	}
	if bounds.Empty() {
		return
	}
	w.data = append(append(w.data[:0], in.sum[:]...), 'g')
	w.number(g.Opacity)
	w.clip(g.Clip)
	if g.Mask != nil {
		w.word('m', flag(g.Mask.Alpha))
	}
	inside := within{bounds: bounds, group: w.enter(in.group), sum: sha256.Sum256(w.data), mask: in.mask}
	if g.Mask != nil {
		masking := inside
		masking.group, masking.mask = w.enter(inside.group), true
		masking.sum = sha256.Sum256(append(append(w.data[:0], inside.sum[:]...), 'M'))
		w.nodes(g.Mask.Nodes, masking)
	}
	w.nodes(g.Nodes, inside)
}

// enter returns a new group in another one, or in none.
func (w *artWriter) enter(parent int32) int32 {
	depth := int32(1)
	if parent >= 0 {
		depth = w.art.groups[parent].depth + 1
	}
	w.art.groups = append(w.art.groups, group{parent, depth})
	return int32(len(w.art.groups) - 1)
}

func (w *artWriter) shape(n *artwork.Shape) {
	w.word('s', flag(n.StrokeFirst))
	w.paths(n.Paths)
	if n.Fill != nil {
		w.word('f', flag(n.Fill.EvenOdd))
		w.paint(&n.Fill.Paint)
	}
	if n.Stroke != nil {
		w.stroke(n.Stroke)
	}
}

func (w *artWriter) word(b ...byte) { w.data = append(w.data, b...) }

// number adds a number that is no length, to a millionth.
func (w *artWriter) number(x float64) { w.data = appendMicrons(w.data, x*1000) }

// point adds a place of the view.
func (w *artWriter) point(p geom.Point) {
	w.data = appendMicrons(appendMicrons(w.data, p.X), p.Y)
}

// matrix adds a map: where it takes the corners of the unit square.
func (w *artWriter) matrix(m artwork.Matrix) {
	for _, q := range [3]geom.Point{{}, {X: 1}, {Y: 1}} {
		w.point(m.Apply(q))
	}
}

// paths adds outlines: of each segment its kind, its ends and three places between.
func (w *artWriter) paths(paths []*geom.Path) {
	for _, p := range paths {
		w.word('p', flag(p.Closed()))
		w.point(w.frame.Apply(p.Start()))
		for _, s := range p.Segments() {
			w.word(byte(s.Kind))
			if s.Kind != geom.Line {
				for _, t := range [3]float64{0.25, 0.5, 0.75} {
					w.point(w.frame.Apply(s.Point(t)))
				}
			}
			w.point(w.frame.Apply(s.To))
		}
	}
}

func (w *artWriter) clip(c *artwork.Clip) {
	for ; c != nil; c = c.Clip {
		w.word('c')
		for _, o := range c.Outlines {
			w.word('o', flag(o.EvenOdd))
			w.paths(o.Paths)
			w.clip(o.Clip)
		}
		w.word('e')
	}
}

func (w *artWriter) colour(c artwork.Colour) { w.word(c.R, c.G, c.B) }

func (w *artWriter) paint(p *artwork.Paint) {
	w.number(p.Opacity)
	g := p.Gradient
	if g == nil {
		w.colour(p.Colour)
		return
	}
	w.word('G', flag(g.Radial), byte(g.Spread))
	m := g.Frame.Then(w.frame)
	w.point(m.Apply(g.From))
	w.point(m.Apply(g.To))
	w.matrix(m)
	w.number(g.R0)
	w.number(g.R1)
	for _, s := range g.Stops {
		w.number(s.At)
		w.colour(s.Colour)
		w.number(s.Opacity)
	}
}

// stroke adds a line: its measures are the picture's, so the scale of the frame is added to them.
func (w *artWriter) stroke(s *artwork.Stroke) {
	w.word('l', byte(s.Cap), byte(s.Join))
	w.paint(&s.Paint)
	w.matrix(artwork.Matrix{A: w.frame.A, B: w.frame.B, C: w.frame.C, D: w.frame.D})
	for _, x := range [...]float64{s.Width, s.MiterLimit, s.Phase, s.Pen.A, s.Pen.B, s.Pen.C, s.Pen.D} {
		w.number(x)
	}
	w.data = binary.BigEndian.AppendUint32(w.data, uint32(len(s.Dashes)))
	for _, x := range s.Dashes {
		w.number(x)
	}
}
