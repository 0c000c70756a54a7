package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// beyond is how far lines are drawn outside a page's window; a reader cuts them off there.
const beyond = 10.0

// clip hands on the parts of a run of a track that lie in a box, in the view's millimetres: each a polyline, closed where the
// whole track is inside, and how far along the track's dashes it begins. The points are good until the next call.
func (g *grid) clip(t *track, r run, box geom.Rect, buf []geom.Point, put func(points []geom.Point, closed bool, phase float64)) []geom.Point {
	k := &g.ink
	from, whole := r.from, t.closed && r.n == t.segments()
	if whole {
		out := int32(-1)
		for i := range r.n {
			if !box.Contains(k.at(t, from+i)) {
				out = i
				break
			}
		}
		if out < 0 {
			buf = buf[:0]
			for i := range r.n {
				buf = append(buf, k.at(t, from+i))
			}
			put(buf, true, k.gone(t, from))
			return buf
		}
		from += out // so that no polyline is cut in two at the track's start
	}
	n := t.to - t.from
	wrap := func(i int32) int32 {
		if i >= n {
			return i - n
		}
		return i
	}
	from = wrap(from)
	buf = buf[:0]
	phase := 0.0
	a := k.at(t, from)
	in := box.Contains(a)
	if in {
		buf, phase = append(buf, a), k.gone(t, from)
	}
	for i := range r.n {
		b := k.at(t, wrap(from+i+1))
		bIn := box.Contains(b)
		if in && bIn {
			buf = append(buf, b)
		} else if t0, t1, ok := tiling.ClipSegment(a, b, box); ok {
			if !in {
				buf, phase = append(buf[:0], tiling.OnEdge(a.Lerp(b, t0), box)), k.gone(t, wrap(from+i))+t0*a.Dist(b)
			}
			if bIn {
				buf = append(buf, b)
			} else {
				buf = append(buf, tiling.OnEdge(a.Lerp(b, t1), box))
				put(buf, false, phase)
				buf = buf[:0]
			}
		}
		a, in = b, bIn
	}
	if len(buf) > 1 {
		put(buf, false, phase)
	}
	return buf
}

// gone returns how far along a dashed track vertex i lies; 0 of a continuous one.
func (k *ink) gone(t *track, i int32) float64 {
	if t.along < 0 {
		return 0
	}
	return k.along[t.along+i]
}

// phaseOf returns a place along a dash pattern.
func phaseOf(gone float64, pen *tiling.Pen) float64 {
	if pen.Dash == nil {
		return 0
	}
	return math.Mod(gone, pen.Period())
}

// piece is an element on a page: its longest line there, along which its name can stand.
type piece struct {
	owner  int32
	length float64
	line   []geom.Point // on the page
	name   tiling.Text  // the only name that the drawing gives it on this page, held back until a larger one has been tried
	names  int
}

// pieceOf returns the record of an owner on this page.
func (m *maker) pieceOf(owner int32) *piece {
	for i := range m.pieces {
		if m.pieces[i].owner == owner {
			return &m.pieces[i]
		}
	}
	m.pieces = append(m.pieces, piece{owner: owner})
	return &m.pieces[len(m.pieces)-1]
}

// showInk draws what a page shows of its drawings, takes its room, and notes which pieces it belongs to.
func (m *maker) showInk() {
	g, p := m.g, m.page
	box := m.cell.win.Grow(beyond)
	for _, r := range g.bins.of(m.ci) {
		t := &g.ink.tracks[r.track]
		content := &p.Layers[t.mark.Layer]
		m.buf = g.clip(t, r, box, m.buf, func(ps []geom.Point, closed bool, phase float64) {
			own := p.Arena(len(ps))
			for i, q := range ps {
				own[i] = q.Add(m.shift)
			}
			s := content.Stroke(t.pen)
			s.Runs = append(s.Runs, tiling.Run{Points: own, Closed: closed, Phase: phaseOf(phase, &t.pen)})
			beside := t.width/2 + clearance
			length := 0.0
			for i := 1; i < len(own); i++ {
				m.room.takeLine(own[i-1], own[i], beside)
				length += own[i-1].Dist(own[i])
			}
			if closed {
				m.room.takeLine(own[len(own)-1], own[0], beside)
			}
			if t.mark.Owner >= 0 && t.mark.Layer == drawing.Cut {
				if pc := m.pieceOf(t.mark.Owner); length > pc.length {
					pc.length, pc.line = length, own
				}
			}
		})
	}
	if g.bins.areas != nil {
		for _, i := range g.bins.areas[m.ci] {
			m.showArea(&g.ink.areas[i], box)
		}
	}
	if g.bins.words != nil {
		for _, i := range g.bins.words[m.ci] {
			if w := &g.ink.words[i]; counts(w) {
				m.showWord(w)
			}
		}
	}
}

func (m *maker) showArea(a *area, box geom.Rect) {
	f := tiling.Fill{Tone: a.tone, EvenOdd: true}
	for _, ring := range a.rings {
		cut := clipRing(ring, box)
		if len(cut) < 3 {
			continue
		}
		own := m.page.Arena(len(cut))
		taken := geom.EmptyRect()
		for i, q := range cut {
			own[i] = q.Add(m.shift)
			taken = taken.Include(own[i])
		}
		m.room.take(taken.Grow(clearance))
		f.Rings = append(f.Rings, own)
	}
	if len(f.Rings) > 0 {
		c := &m.page.Layers[a.mark.Layer]
		c.Fills = append(c.Fills, f)
	}
}

func (m *maker) showWord(w *word) {
	t := w.text
	t.At = t.At.Add(m.shift)
	c := &m.page.Layers[w.mark.Layer]
	c.Texts = append(c.Texts, t)
	m.takeWord(w)
}

// showGivenNames shows the names that the drawing writes on this page. They are furniture: they print nothing anew, and a part of one
// says nothing. The only one of a piece is held back, to be written larger. One that would stand on a tick or a bar is left to be
// written elsewhere.
func (m *maker) showGivenNames() {
	if m.g.bins.words == nil {
		return
	}
	f := &m.page.Layers[drawing.Furniture]
	for _, i := range m.g.bins.words[m.ci] {
		w := &m.g.ink.words[i]
		if counts(w) || !m.cell.win.Contains(w.box.Min) || !m.cell.win.Contains(w.box.Max) || m.kept(w.box.Move(m.shift)) {
			continue
		}
		t := w.text
		t.At = t.At.Add(m.shift)
		m.takeWord(w)
		if w.mark.Owner < 0 {
			f.Texts = append(f.Texts, t)
			continue
		}
		pc := m.pieceOf(w.mark.Owner)
		switch pc.names++; pc.names {
		case 1:
			pc.name = t
		case 2:
			f.Texts = append(f.Texts, pc.name, t)
		default:
			f.Texts = append(f.Texts, t)
		}
	}
}

func (m *maker) takeWord(w *word) {
	m.room.take(geom.Rect{Min: w.box.Min.Add(m.shift), Max: w.box.Max.Add(m.shift)}.Grow(1))
}

// clipRing returns a closed ring cut off at a box: what lies outside an edge is moved on to it, edge by edge.
func clipRing(ring []geom.Point, box geom.Rect) []geom.Point {
	in := ring
	for side := range 4 {
		var out []geom.Point
		depth := func(p geom.Point) float64 {
			switch side {
			case 0:
				return p.X - box.Min.X
			case 1:
				return box.Max.X - p.X
			case 2:
				return p.Y - box.Min.Y
			}
			return box.Max.Y - p.Y
		}
		for i, b := range in {
			a := in[(i+len(in)-1)%len(in)]
			da, db := depth(a), depth(b)
			if (da >= 0) != (db >= 0) {
				out = append(out, a.Lerp(b, da/(da-db)))
			}
			if db >= 0 {
				out = append(out, b)
			}
		}
		in = out
	}
	return in
}

// sumOf returns the digest of what a cell shows.
func (g *grid) sumOf(ci int32, d *tiling.Digester, buf []geom.Point) ([32]byte, []geom.Point) {
	if g.sums != nil {
		return g.sums[ci], buf
	}
	return g.digest(ci, d, buf)
}

// digest works out the digest of what a cell shows, lines with half their width.
func (g *grid) digest(ci int32, d *tiling.Digester, buf []geom.Point) ([32]byte, []geom.Point) {
	win := g.cells[ci].win
	d.Reset(g.view, g.info.scaleWords(), g.info.Sides.PlusWord, win)
	for _, r := range g.bins.of(ci) {
		t := &g.ink.tracks[r.track]
		if t.mark.Role == drawing.Name {
			continue
		}
		buf = g.clip(t, r, win.Grow(t.width/2), buf, func(ps []geom.Point, closed bool, phase float64) {
			d.Line(t.mark, t.line, t.width, t.tone, phaseOf(phase, &t.pen), closed, ps)
		})
	}
	if g.bins.pictures != nil {
		for _, i := range g.bins.pictures[ci] {
			s := &g.ink.pictures[i]
			d.Picture(s.Mark, s.art, s.Shown.Common(win))
		}
	}
	if g.bins.areas != nil {
		for _, i := range g.bins.areas[ci] {
			a := &g.ink.areas[i]
			var rings [][]geom.Point
			for _, r := range a.rings {
				if cut := clipRing(r, win); len(cut) > 2 {
					rings = append(rings, cut)
				}
			}
			d.Area(a.mark, a.tone, rings)
		}
	}
	if g.bins.words != nil {
		for _, i := range g.bins.words[ci] {
			if w := &g.ink.words[i]; counts(w) {
				d.Word(w.mark, &w.text)
			}
		}
	}
	return d.Sum(), buf
}
