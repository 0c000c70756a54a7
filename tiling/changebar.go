package tiling

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

// Band is a stretch of a page from bottom to top, in its millimetres.
type Band struct{ From, To float64 }

const (
	barWide  = 1.4  // of a change bar, millimetres on paper
	barLeast = 6.0  // a shorter one is hard to see from a table's distance
	barJoin  = 8.0  // bars nearer to one another than this are one
	touching = 0.02 // so little of a line's width on the page is not seen
)

// Changed returns where a page differs from an earlier one of the same grid, from the bottom up: wherever a line, an area, a word or
// artwork stands on one and not on the other. Furniture and what the page is laid by are left out. A nil earlier page gives the whole
// page.
func Changed(was, is *Page) []Band {
	whole := geom.Rect{Max: geom.Point{X: is.W, Y: is.H}}
	if !is.Clip.Empty() {
		whole = is.Clip
	}
	if was == nil {
		return []Band{{whole.Min.Y, whole.Max.Y}}
	}
	old, now := marksOf(was), marksOf(is)
	var bands []Band
	only := func(a, b map[string]part) {
		for k, p := range a {
			if q := b[k]; p.count != q.count {
				lo, hi := max(p.from, whole.Min.Y), min(p.to, whole.Max.Y)
				if lo <= hi {
					bands = append(bands, Band{lo, hi})
				}
			}
		}
	}
	only(old, now)
	only(now, old)
	slices.SortFunc(bands, func(a, b Band) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	var out []Band
	for _, b := range bands {
		if short := barLeast - (b.To - b.From); short > 0 {
			b.From, b.To = max(whole.Min.Y, b.From-short/2), min(whole.Max.Y, b.To+short/2)
		}
		if n := len(out); n > 0 && b.From <= out[n-1].To+barJoin {
			out[n-1].To = max(out[n-1].To, b.To)
			continue
		}
		out = append(out, b)
	}
	return out
}

// MarkChanged draws a bar in the left margin beside each band, and beside the lowest what the page is compared with.
func (p *Page) MarkChanged(bands []Band, words string) {
	c := &p.Layers[drawing.Furniture]
	left := 10.0
	if !p.Clip.Empty() {
		left = p.Clip.Min.X
	}
	x := left - 2.5
	if left < 8 { // a printer's own margin prints nothing
		x = left + 1
	}
	for i, b := range bands {
		c.Fills = append(c.Fills, Fill{Rings: [][]geom.Point{Box(geom.Rect{Min: geom.Point{X: x - barWide/2, Y: b.From}, Max: geom.Point{X: x + barWide/2, Y: b.To}})}})
		const h = drawing.Lettering1_8
		if i == 0 {
			y := min(b.From, p.H-lettering.Width(words, h, false)-2)
			c.Texts = append(c.Texts, Text{At: geom.Point{X: x - barWide/2 - 0.8, Y: max(y, 2)}, Turn: 90, Height: h, Text: words})
		}
	}
}

// part is how often something stands on a page, and over which stretch.
type part struct {
	count    int
	from, to float64
}

// marksOf lists what a page draws, lines cut into their segments so that a change in one part of an outline is told from the rest.
func marksOf(p *Page) map[string]part {
	m := marker{parts: map[string]part{}, clip: p.Clip}
	for _, l := range [...]drawing.Layer{drawing.Cut, drawing.Fold, drawing.Notes} {
		m.layer = byte(l)
		m.content(&p.Layers[l], geom.Point{})
	}
	return m.parts
}

type marker struct {
	layer byte
	clip  geom.Rect // what lies outside it is not shown; empty for none
	parts map[string]part
	key   []byte
}

func (m *marker) begin(kind byte, values ...float64) {
	m.key = append(m.key[:0], m.layer, kind)
	m.add(values...)
}

func (m *marker) add(values ...float64) {
	for _, v := range values {
		m.key = binary.BigEndian.AppendUint64(m.key, uint64(int64(math.Round(v*1000))))
	}
}

func (m *marker) end(from, to float64) {
	p, ok := m.parts[string(m.key)]
	if !ok {
		p = part{from: from, to: to}
	}
	p.count++
	m.parts[string(m.key)] = part{p.count, min(p.from, from), max(p.to, to)}
}

func (m *marker) content(c *Content, at geom.Point) {
	for i := range c.Strokes {
		k := &c.Strokes[i]
		for _, r := range k.Runs {
			n := len(r.Points)
			for j := range r.Points {
				a, b := r.Points[j].Add(at), r.Points[(j+1)%n].Add(at)
				if j == n-1 && !r.Closed {
					break
				}
				if b.X < a.X || b.X == a.X && b.Y < a.Y { // the way that a line was walked is not seen
					a, b = b, a
				}
				if !m.clip.Empty() {
					shown := m.clip.Grow(k.Pen.Width/2 - touching)
					t0, t1, ok := ClipSegment(a, b, shown)
					if !ok {
						continue
					}
					a, b = OnEdge(a.Lerp(b, t0), shown), OnEdge(a.Lerp(b, t1), shown)
				}
				m.begin('l', k.Pen.Width, float64(k.Pen.Tone), a.X, a.Y, b.X, b.Y)
				m.add(k.Pen.Dash...)
				m.end(min(a.Y, b.Y), max(a.Y, b.Y))
			}
		}
	}
	for _, f := range c.Fills {
		box := geom.EmptyRect()
		m.begin('f', float64(f.Tone))
		for _, ring := range f.Rings {
			for _, q := range ring {
				q = q.Add(at)
				box = box.Include(q)
				m.add(q.X, q.Y)
			}
		}
		m.end(box.Min.Y, box.Max.Y)
	}
	for _, t := range c.Texts {
		m.begin('t', t.At.X+at.X, t.At.Y+at.Y, t.Turn, t.Height, float64(t.Tone))
		m.key = append(m.key, t.Text...)
		along := geom.Point{X: lettering.Width(t.Text, t.Height, t.Bold)}
		box := geom.EmptyRect()
		turned := geom.Move(t.At.Add(at), t.Turn)
		for _, q := range [...]geom.Point{{}, along, {Y: t.Height}, along.Add(geom.Point{Y: t.Height})} {
			box = box.Include(turned.Apply(q))
		}
		m.end(box.Min.Y, box.Max.Y)
	}
	for _, u := range c.Uses {
		m.content(&u.Form.Content, at.Add(u.At))
	}
	for _, s := range c.Shows {
		f := s.Frame
		m.begin('a', f.A, f.B, f.C, f.D, f.E, f.F, s.Window.Min.X, s.Window.Min.Y, s.Window.Max.X, s.Window.Max.Y)
		m.end(s.Window.Min.Y, s.Window.Max.Y)
	}
}
