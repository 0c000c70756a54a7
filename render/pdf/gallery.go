package pdf

import (
	"crypto/sha256"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/tiling"
)

// gallery writes the artwork of a document, before any page. Every show becomes a form in the picture's own measure, so that
// gradients, masks and groups are the same objects wherever they are shown: what has the same bytes is written once.
type gallery struct {
	file     *file
	made     map[[sha256.Size]byte]ref
	pictures map[*artwork.Picture]*hanging
	shows    map[*tiling.Show]ref // 0 where nothing shows
	sources  sources
	err      error
}

// hanging is what all shows of one picture share.
type hanging struct {
	unit      float64 // whole numbers a millimetre of the picture
	boxes     map[artwork.Node]geom.Rect
	clipMasks map[*artwork.Clip]ref
	plain     map[*artwork.Clip]bool
}

// hang writes the artwork of all shows and their pictures made of pixels.
func (d *document) hang() error {
	g := &gallery{file: d.file, made: map[[sha256.Size]byte]ref{}, pictures: map[*artwork.Picture]*hanging{}, shows: map[*tiling.Show]ref{}}
	d.gallery = g
	for _, s := range d.doc.Shows {
		if s == nil || s.Picture == nil {
			continue
		}
		h := g.pictures[s.Picture]
		if h == nil {
			h = &hanging{unit: 1, boxes: map[artwork.Node]geom.Rect{}, clipMasks: map[*artwork.Clip]ref{}, plain: map[*artwork.Clip]bool{}}
			g.pictures[s.Picture] = h
		}
		h.unit = max(h.unit, unitFor(s.Frame))
	}
	for _, s := range d.doc.Shows {
		if s == nil || s.Picture == nil {
			continue
		}
		if _, known := g.shows[s]; !known {
			g.shows[s] = g.show(s)
		}
		if g.err != nil {
			return g.err
		}
		if g.file.err != nil {
			return g.file.err
		}
	}
	return g.writePixels()
}

// unitFor is the power of ten with which a place in whole numbers is within half a micrometre of the paper.
func unitFor(m artwork.Matrix) float64 {
	scale := max(math.Hypot(m.A, m.B), math.Hypot(m.C, m.D)) * perMillimetre
	if !(scale > 1) {
		return 1
	}
	return math.Pow(10, min(math.Ceil(math.Log10(scale)), 9))
}

// show writes one show as a form and returns it, 0 where nothing of it shows.
func (g *gallery) show(s *tiling.Show) ref {
	back, ok := s.Frame.Inverse()
	if !ok || s.Window.Empty() {
		return 0
	}
	h := g.pictures[s.Picture]
	c := &canvas{gallery: g, hanging: h}
	c.window = geom.EmptyRect()
	for i, q := range corners(s.Window) {
		c.corners[i] = back.Apply(q)
		c.window = c.window.Include(c.corners[i])
	}
	box := common(c.window, geom.Rect{Max: geom.Point{X: s.Picture.W, Y: s.Picture.H}})
	if box.Empty() {
		return 0
	}
	c.window = box
	c.begin()
	if (s.Frame.B != 0 || s.Frame.C != 0) && (s.Frame.A != 0 || s.Frame.D != 0) { // the window is no upright box in the picture
		c.polygon(c.corners[:])
		c.put("W n\n")
	}
	bare := len(c.buf)
	c.nodes(s.Picture.Nodes)
	if len(c.buf) == bare {
		return 0
	}
	m := s.Frame
	k := perMillimetre / h.unit
	b := []byte("/Matrix[")
	for _, v := range []float64{m.A * k, m.B * k, m.C * k, m.D * k, m.E * perMillimetre, m.F * perMillimetre} {
		b = append(appendSignificant(b, v), ' ')
	}
	return c.form(box, string(append(b, ']')))
}

func corners(r geom.Rect) [4]geom.Point {
	return [4]geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// common is what two boxes share, an empty one where they share nothing.
func common(a, b geom.Rect) geom.Rect {
	r := geom.Rect{Min: geom.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)}, Max: geom.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)}}
	if r.Min.X > r.Max.X || r.Min.Y > r.Max.Y {
		return geom.EmptyRect()
	}
	return r
}

// box is a node's artwork.Bounds, found once.
func (h *hanging) box(n artwork.Node) geom.Rect {
	r, ok := h.boxes[n]
	if !ok {
		r = artwork.Bounds(n)
		h.boxes[n] = r
	}
	return r
}

func (h *hanging) boxOf(nodes []artwork.Node) geom.Rect {
	r := geom.EmptyRect()
	for _, n := range nodes {
		r = r.Union(h.box(n))
	}
	return r
}

// object writes an object without a stream, once for the same bytes.
func (g *gallery) object(body []byte) ref {
	key := sha256.Sum256(body)
	r, ok := g.made[key]
	if !ok {
		r = g.file.alloc(1)
		g.made[key] = r
		g.file.object(r, body)
	}
	return r
}

// stream writes an object with a stream, once for the same bytes.
func (g *gallery) stream(dict string, body []byte) ref {
	hash := sha256.New()
	hash.Write([]byte(dict))
	hash.Write([]byte("stream\n"))
	hash.Write(body)
	key := [sha256.Size]byte(hash.Sum(nil))
	r, ok := g.made[key]
	if !ok {
		r = g.file.alloc(1)
		g.made[key] = r
		g.file.stream(r, dict, g.file.z.deflate(body))
	}
	return r
}

// appendSignificant appends v to ten figures that count, never with an exponent, which PDF does not know.
func appendSignificant(b []byte, v float64) []byte {
	decimals := 0
	if a := math.Abs(v); a > 0 && a < 1e10 {
		decimals = min(max(9-int(math.Floor(math.Log10(a))), 0), 20)
	}
	return appendReal(b, v, decimals)
}
