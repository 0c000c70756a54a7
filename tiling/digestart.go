package tiling

import (
	"crypto/sha256"
	"encoding/binary"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
)

// Picture adds what the window shows of artwork: of what is drawn, every thing whose box the shown part meets, its outline, paint and what it is
// cut down to; of a picture made of pixels, its bytes and where it stands. Frame takes the picture to the view, in whose
// millimetres shown lies.
func (d *Digester) Picture(m drawing.Mark, p *artwork.Picture, frame artwork.Matrix, shown geom.Rect) {
	d.begin('P', m, 0)
	for _, x := range [...]float64{shown.Min.X, shown.Min.Y, shown.Max.X, shown.Max.Y} {
		d.data = appendMicrons(d.data, x)
	}
	a := artDigest{d: d, frame: frame, shown: shown}
	a.nodes(p.Nodes)
	d.end()
}

// artDigest adds artwork to a digest, in its order: what lies over what is drawn.
type artDigest struct {
	d     *Digester
	frame artwork.Matrix
	shown geom.Rect
}

func (a *artDigest) nodes(nodes []artwork.Node) {
	for _, n := range nodes {
		box := BoxThrough(a.frame, artwork.Bounds(n))
		if box.Empty() || !box.Overlaps(a.shown) {
			continue
		}
		switch n := n.(type) {
		case *artwork.Group:
			a.word('g')
			a.number(n.Opacity)
			a.clip(n.Clip)
			if n.Mask != nil {
				a.word('m')
				a.d.data = append(a.d.data, flag(n.Mask.Alpha))
				a.nodes(n.Mask.Nodes)
			}
			a.nodes(n.Nodes)
			a.word('e')
		case *artwork.Shape:
			a.word('s')
			a.d.data = append(a.d.data, flag(n.StrokeFirst))
			a.paths(n.Paths)
			if n.Fill != nil {
				a.word('f')
				a.d.data = append(a.d.data, flag(n.Fill.EvenOdd))
				a.paint(&n.Fill.Paint)
			}
			if n.Stroke != nil {
				a.stroke(n.Stroke)
			}
		case *artwork.Image:
			a.word('i')
			sum := a.d.imageSum(n)
			a.d.data = append(a.d.data, sum[:]...)
			a.d.data = append(a.d.data, flag(n.Crisp))
			a.matrix(n.Frame.Then(a.frame))
			a.number(n.Opacity)
		}
	}
}

// imageSum is the SHA-256 of a picture's bytes, worked out once.
func (d *Digester) imageSum(n *artwork.Image) [sha256.Size]byte {
	if sum, ok := d.images[n]; ok {
		return sum
	}
	if d.images == nil {
		d.images = map[*artwork.Image][sha256.Size]byte{}
	}
	sum := sha256.Sum256(n.Data)
	d.images[n] = sum
	return sum
}

func (a *artDigest) word(b byte) { a.d.data = append(a.d.data, b) }

// number adds a number that is no length, to a millionth.
func (a *artDigest) number(x float64) { a.d.data = appendMicrons(a.d.data, x*1000) }

func (a *artDigest) point(p geom.Point) {
	p = a.frame.Apply(p)
	a.d.data = appendMicrons(appendMicrons(a.d.data, p.X), p.Y)
}

// matrix adds a map: where it takes the corners of the unit square.
func (a *artDigest) matrix(m artwork.Matrix) {
	for _, q := range [3]geom.Point{{}, {X: 1}, {Y: 1}} {
		q = m.Apply(q)
		a.d.data = appendMicrons(appendMicrons(a.d.data, q.X), q.Y)
	}
}

// paths adds outlines: of each segment its kind, its ends and three places between.
func (a *artDigest) paths(paths []*geom.Path) {
	for _, p := range paths {
		a.d.data = append(a.d.data, 'p', flag(p.Closed()))
		a.point(p.Start())
		for _, s := range p.Segments() {
			a.word(byte(s.Kind))
			if s.Kind != geom.Line {
				for _, t := range [3]float64{0.25, 0.5, 0.75} {
					a.point(s.Point(t))
				}
			}
			a.point(s.To)
		}
	}
}

func (a *artDigest) clip(c *artwork.Clip) {
	for ; c != nil; c = c.Clip {
		a.word('c')
		for _, o := range c.Outlines {
			a.d.data = append(a.d.data, 'o', flag(o.EvenOdd))
			a.paths(o.Paths)
			a.clip(o.Clip)
		}
		a.word('e')
	}
}

func (a *artDigest) colour(c artwork.Colour) { a.d.data = append(a.d.data, c.R, c.G, c.B) }

func (a *artDigest) paint(p *artwork.Paint) {
	a.number(p.Opacity)
	g := p.Gradient
	if g == nil {
		a.colour(p.Colour)
		return
	}
	a.d.data = append(a.d.data, 'G', flag(g.Radial), byte(g.Spread))
	m := g.Frame.Then(a.frame)
	for _, q := range [2]geom.Point{g.From, g.To} {
		q = m.Apply(q)
		a.d.data = appendMicrons(appendMicrons(a.d.data, q.X), q.Y)
	}
	a.matrix(m)
	a.number(g.R0)
	a.number(g.R1)
	for _, s := range g.Stops {
		a.number(s.At)
		a.colour(s.Colour)
		a.number(s.Opacity)
	}
}

func (a *artDigest) stroke(s *artwork.Stroke) {
	a.d.data = append(a.d.data, 'l', byte(s.Cap), byte(s.Join))
	a.paint(&s.Paint)
	for _, x := range [...]float64{s.Width, s.MiterLimit, s.Phase, s.Pen.A, s.Pen.B, s.Pen.C, s.Pen.D} {
		a.number(x)
	}
	a.d.data = binary.BigEndian.AppendUint32(a.d.data, uint32(len(s.Dashes)))
	for _, x := range s.Dashes {
		a.number(x)
	}
}
