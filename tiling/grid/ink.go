package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// micro is a place in whole micrometres from its track's origin. Every vertex is rounded once, so that all pages that show
// it show it at the same place, and their digests are exact.
type micro struct{ x, y int32 }

// reach is how far in millimetres a track's vertices may lie from its origin: within an int32 of micrometres.
const reach = 2e6

// longest is how long one straight line of a track may be; longer ones are split.
const longest = 1e6

// track is one stroke of a drawing as a run of straight lines, or a part of one that is more than reach long.
type track struct {
	mark     drawing.Mark
	line     drawing.LineType
	width    float64
	tone     drawing.Tone
	pen      tiling.Pen
	origin   geom.Point // whole millimetres
	from, to int32      // its vertices in ink.pts
	along    int32      // of a dashed one, where in ink.along the distance to each vertex stands; −1
	closed   bool
}

// segments returns how many straight lines the track has.
func (t *track) segments() int32 {
	if t.closed {
		return t.to - t.from
	}
	return t.to - t.from - 1
}

// area is a filled region, its rings as straight lines.
type area struct {
	mark  drawing.Mark
	tone  drawing.Tone
	rings [][]geom.Point
	box   geom.Rect
}

// word is a text of a drawing where it stands, in the view's millimetres.
type word struct {
	mark    drawing.Mark
	text    tiling.Text
	corners [4]geom.Point // of its ink
	ink     geom.Rect     // their box
	box     geom.Rect     // of its line, tails and accents allowed for
}

// ink is everything that a grid's drawings put on paper, at 1:1 in the view's millimetres.
type ink struct {
	tracks   []track
	pts      []micro
	along    []float64
	areas    []area
	words    []word
	pictures []shown
	sums     tiling.ImageSums // of the pictures' images; nil for none yet
	half     float64          // half the widest line
	bounds   geom.Rect
}

// at returns the place of vertex i of a track, counted round a closed one.
func (k *ink) at(t *track, i int32) geom.Point {
	n := t.to - t.from
	if i >= n {
		i -= n
	}
	p := k.pts[t.from+i]
	return geom.Point{X: t.origin.X + float64(p.x)*1e-3, Y: t.origin.Y + float64(p.y)*1e-3}
}

// add flattens a drawing. owners translates its owners' numbers.
func (k *ink) add(d *drawing.Drawing, owners []int32, buf []geom.Point) []geom.Point {
	k.addPictures(d, owners)
	for i := range d.Strokes {
		s := &d.Strokes[i]
		if s.Path.Empty() {
			continue
		}
		buf = s.Path.Flatten(geom.Flatness, buf[:0])
		m := s.Mark
		m.Owner = translate(owners, m.Owner)
		k.trace(track{
			mark: m, line: s.Type, width: s.Width, tone: s.Tone,
			pen: tiling.PenOf(s.Type, s.Width, s.Tone), closed: s.Path.Closed(), along: -1,
		}, buf)
	}
	for i := range d.Fills {
		f := &d.Fills[i]
		if f.Region.Outer.Empty() {
			continue
		}
		a := area{mark: f.Mark, tone: f.Tone, box: f.Region.Bounds()}
		a.mark.Owner = translate(owners, f.Owner)
		a.rings = append(a.rings, f.Region.Outer.Flatten(geom.Flatness, nil))
		for _, h := range f.Region.Holes {
			a.rings = append(a.rings, h.Flatten(geom.Flatness, nil))
		}
		k.areas = append(k.areas, a)
		k.bounds = k.bounds.Union(a.box)
	}
	for i := range d.Texts {
		t := &d.Texts[i]
		if t.Text == "" {
			continue
		}
		w := word{mark: t.Mark, text: tiling.PlaceText(t, t.At), box: geom.EmptyRect(), ink: geom.EmptyRect()}
		w.mark.Owner = translate(owners, t.Owner)
		w.corners = w.text.Ink()
		for i, c := range w.text.Corners() {
			w.box, w.ink = w.box.Include(c), w.ink.Include(w.corners[i])
		}
		if t.Role == drawing.Word {
			k.bounds = k.bounds.Union(w.ink)
		}
		k.words = append(k.words, w)
	}
	return buf
}

func translate(owners []int32, o int32) int32 {
	if o < 0 || int(o) >= len(owners) {
		return -1
	}
	return owners[o]
}

// trace stores a polyline as one track, or as several that follow one another where it is longer than a track can be.
func (k *ink) trace(t track, pts []geom.Point) {
	if t.closed && len(pts) < 3 {
		t.closed = false
	}
	box := geom.EmptyRect()
	for _, p := range pts {
		box = box.Include(p)
	}
	k.bounds = k.bounds.Union(box)
	k.half = max(k.half, t.width/2)
	long := max(box.W(), box.H()) > reach/2
	if long && t.closed {
		pts, t.closed = append(pts, pts[0]), false
	}
	t.origin = geom.Point{X: math.Round(pts[0].X), Y: math.Round(pts[0].Y)}
	t.from = int32(len(k.pts))
	dashed := t.pen.Dash != nil
	if dashed {
		t.along = int32(len(k.along))
	}
	last, gone := pts[0], 0.0
	put := func(p geom.Point) {
		m := micro{int32(math.Round((p.X - t.origin.X) * 1000)), int32(math.Round((p.Y - t.origin.Y) * 1000))}
		gone += last.Dist(p)
		last = p
		if n := int32(len(k.pts)); n > t.from && k.pts[n-1] == m {
			return
		}
		k.pts = append(k.pts, m)
		if dashed {
			k.along = append(k.along, gone)
		}
	}
	if !long {
		for _, p := range pts {
			put(p)
		}
		k.finish(t)
		return
	}
	put(pts[0])
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		n := max(1, int(math.Ceil(a.Dist(b)/longest)))
		for j := 1; j <= n; j++ {
			p := a.Lerp(b, float64(j)/float64(n))
			if math.Abs(p.X-t.origin.X) > reach || math.Abs(p.Y-t.origin.Y) > reach {
				k.finish(t)
				t.origin = geom.Point{X: math.Round(last.X), Y: math.Round(last.Y)}
				t.from = int32(len(k.pts))
				if dashed {
					t.along = int32(len(k.along))
				}
				put(last)
			}
			put(p)
		}
	}
	k.finish(t)
}

// finish closes a track's run of vertices and drops one that has no length.
func (k *ink) finish(t track) {
	t.to = int32(len(k.pts))
	if t.closed && t.to-t.from > 1 && k.pts[t.to-1] == k.pts[t.from] {
		k.pts = k.pts[:t.to-1]
		t.to--
		if t.along >= 0 {
			k.along = k.along[:len(k.along)-1]
		}
	}
	switch n := t.to - t.from; {
	case n < 2:
		k.pts = k.pts[:t.from]
		if t.along >= 0 {
			k.along = k.along[:t.along]
		}
		return
	case n < 3:
		t.closed = false
	}
	k.tracks = append(k.tracks, t)
}
