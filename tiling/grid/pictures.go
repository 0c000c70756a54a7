package grid

import (
	"cmp"
	"slices"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// shown is artwork of a drawing.
type shown struct {
	drawing.Picture
	art   *tiling.Art
	boxes []geom.Rect // together they hold all that is painted, in the view's millimetres
}

// mostHolders is how many of the largest boxes of a picture the others are held against.
const mostHolders = 16

// addPictures takes in a drawing's artwork.
func (k *ink) addPictures(d *drawing.Drawing, owners []int32) {
	for i := range d.Pictures {
		s := shown{Picture: d.Pictures[i]}
		s.Owner = translate(owners, s.Owner)
		if k.sums == nil {
			k.sums = tiling.ImageSums{}
		}
		s.art = tiling.NewArt(s.Picture.Picture, s.Frame, k.sums)
		take := func(box geom.Rect) {
			if box = box.Common(s.Shown); !box.Empty() && box.W() > 0 && box.H() > 0 {
				s.boxes = append(s.boxes, box)
			}
		}
		for _, box := range s.Over {
			take(box)
		}
		if s.Over == nil {
			s.art.Painted(take)
		}
		s.boxes = outermost(s.boxes)
		if len(s.boxes) == 0 {
			continue
		}
		for _, b := range s.boxes {
			k.bounds = k.bounds.Union(b)
		}
		k.pictures = append(k.pictures, s)
	}
}

// outermost drops boxes that lie in one of the largest.
func outermost(boxes []geom.Rect) []geom.Rect {
	slices.SortFunc(boxes, func(a, b geom.Rect) int { return cmp.Compare(b.W()*b.H(), a.W()*a.H()) })
	out := boxes[:0]
	for _, b := range boxes {
		held := slices.ContainsFunc(out[:min(len(out), mostHolders)], func(o geom.Rect) bool { return o.Contains(b.Min) && o.Contains(b.Max) })
		if !held {
			out = append(out, b)
		}
	}
	return out
}

// ringOf returns a box as a ring.
func ringOf(b geom.Rect) []geom.Point {
	return []geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
}

// binPictures sorts a grid's artwork by page.
func (g *grid) binPictures() {
	if len(g.ink.pictures) == 0 {
		return
	}
	g.bins.pictures = make([][]int32, len(g.cells))
	var hits []int32
	for i := range g.ink.pictures {
		for _, b := range g.ink.pictures[i].boxes {
			hits = g.over(b, hits[:0])
			for _, c := range hits {
				list := g.bins.pictures[c]
				if n := len(list); n > 0 && list[n-1] == int32(i) {
					continue
				}
				if win := b.Common(g.cells[c].win); win.W() > 0 && win.H() > 0 {
					g.bins.pictures[c] = append(list, int32(i))
				}
			}
		}
	}
}

// showsOf makes what a cell's page shows of artwork.
func (g *grid) showsOf(ci int32) []*tiling.Show {
	if g.bins.pictures == nil {
		return nil
	}
	win := g.cells[ci].win
	by := g.shiftOf(&g.cells[ci])
	var out []*tiling.Show
	for _, i := range g.bins.pictures[ci] {
		s := &g.ink.pictures[i]
		out = append(out, &tiling.Show{
			Picture: s.Picture.Picture,
			Frame:   s.Frame.Then(artwork.Matrix{A: 1, D: 1, E: by.X, F: by.Y}),
			Window:  s.Shown.Common(win).Move(by),
		})
	}
	return out
}

// shiftOf takes the view to a cell's page.
func (g *grid) shiftOf(c *cell) geom.Point {
	return geom.Point{X: g.margins.Left, Y: g.margins.Bottom}.Sub(c.win.Min)
}

// makeShows makes what all pages show of artwork, in their order.
func (p *Plan) makeShows() {
	p.shows = make([][]*tiling.Show, len(p.pages))
	for i, r := range p.pages {
		p.shows[i] = p.grids[r.grid].showsOf(r.cell)
	}
}

// showPictures puts the page's artwork under everything else.
func (m *maker) showPictures(shows []*tiling.Show) {
	for i, s := range shows {
		c := &m.page.Layers[m.g.ink.pictures[m.g.bins.pictures[m.ci][i]].Layer]
		c.Shows = append(c.Shows, s)
	}
}

// keepOff takes the artwork's room, so that what the page says keeps off it; where that would leave none for label, words and map, they
// are laid over it, on white and small.
func (m *maker) keepOff(shows []*tiling.Show, count string) {
	if len(shows) == 0 {
		return
	}
	w, h, _ := m.plateSize(count)
	m.bare = append(m.bare[:0], m.room.rows...)
	for _, i := range m.g.bins.pictures[m.ci] {
		for _, b := range m.g.ink.pictures[i].boxes {
			if in := b.Common(m.cell.win); in.W() > 0 && in.H() > 0 {
				m.room.take(in.Move(m.shift))
			}
		}
	}
	_, ok := m.room.find(w+2, h+2)
	m.onArt = !ok
}

// findOnArt finds room for a box where no line and nothing placed before is, over the artwork, and lays white under it.
func (m *maker) findOnArt(w, h float64) (geom.Point, bool) {
	m.swapRoom()
	at, ok := m.room.find(w, h)
	m.swapRoom()
	if ok {
		f := &m.page.Layers[drawing.Furniture]
		box := geom.Rect{Min: at, Max: at.Add(geom.Point{X: w, Y: h})}
		f.Fills = append(f.Fills, tiling.Fill{Tone: tiling.White, Rings: [][]geom.Point{ringOf(box)}})
	}
	return at, ok
}

// take takes a box, and takes it too from the room over artwork, so that what is laid there keeps off it.
func (m *maker) take(box geom.Rect) {
	m.room.take(box)
	if m.onArt {
		m.swapRoom()
		m.room.take(box)
		m.swapRoom()
	}
}

// swapRoom changes the room beside artwork for the room over it, or back.
func (m *maker) swapRoom() { m.room.rows, m.bare = m.bare, m.room.rows }

// setOff lays white under the lines and words of a page with artwork, so that they are seen on dark paint too.
func (m *maker) setOff() {
	for l := range m.page.Layers {
		tiling.SetOff(&m.page.Layers[l])
	}
}

// setOff lays white under what pages with artwork are laid by.
func (k *kit) setOff() {
	for _, f := range k.frames {
		if f != nil {
			tiling.SetOff(&f.Content)
		}
	}
	for _, pair := range k.letter {
		tiling.SetOff(&pair[0].Content)
		tiling.SetOff(&pair[1].Content)
	}
	for _, bars := range [2][]bar{k.xBars, k.yBars} {
		for _, b := range bars {
			tiling.SetOff(&b.form.Content)
		}
	}
}
