package sheet

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
	"slices"
	"strconv"
)

// label writes item, name and sizes into a piece where there is room.
func (s *boardSheet) label(c *tiling.Content, k BoardCut) {
	p := &s.c.Taken.Pieces[k.Piece]
	r := s.region(k)
	b := r.Outer.Bounds()
	room := geom.Rect{Min: s.at.to(b.Min), Max: s.at.to(b.Max)}
	if p.Outline != nil {
		inside := roomiest(r)
		room = geom.Rect{Min: s.at.to(inside.Min), Max: s.at.to(inside.Max)}
	}
	lines := []cutLabel{{strconv.Itoa(p.Item), drawing.Lettering7, true}, {pieceTitle(p), drawing.Lettering3_5, false}}
	if p.Outline == nil {
		along, up := p.Length, p.Width
		if k.Turn == 90 {
			along, up = up, along
		}
		room = s.edges(c, room, along, up)
	}
	inBox(c, room, lines)
}

// edges writes a rectangle's two sizes along its lower and its left edge, and returns what is left for its name.
func (s *boardSheet) edges(c *tiling.Content, room geom.Rect, along, up float64) geom.Rect {
	const h = drawing.Lettering3_5
	const in = 1.2
	a, u := s.c.figure(along), s.c.figure(up)
	wa, wu := lettering.Width(a, h, true), lettering.Width(u, h, true)
	if wa+2*in <= room.W() && h+2*in <= room.H() {
		c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: room.Mid().X - wa/2, Y: room.Min.Y + in}, Height: h, Bold: true, Text: a})
		room.Min.Y += h + in
	}
	if wu+2*in <= room.H() && h+2*in <= room.W() {
		c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: room.Min.X + in + h, Y: room.Mid().Y - wu/2}, Turn: 90, Height: h, Bold: true, Text: u})
		room.Min.X += h + in
	}
	return room
}

// cutLabel is one line of a label: its text and the lettering it would best have.
type cutLabel struct {
	text   string
	height float64
	bold   bool
}

// inBox writes lines one under another into the middle of a box, read from below or from the right, each in the largest lettering
// that fits; lines that find no room are left out, the last first.
func inBox(c *tiling.Content, room geom.Rect, lines []cutLabel) {
	w, h, turn := room.W()-1.5, room.H()-1.5, 0.0
	if h > w*1.2 {
		w, h, turn = h, w, 90
	}
	type set struct {
		text   string
		height float64
		bold   bool
	}
	var out []set
	tall := 0.0
	for _, l := range lines {
		for _, size := range letterings {
			if size > l.height || lettering.Width(l.text, size, l.bold) > w {
				continue
			}
			next := size
			if len(out) > 0 {
				next += size * 0.5
			}
			if tall+next > h {
				continue
			}
			out, tall = append(out, set{l.text, size, l.bold}), tall+next
			break
		}
	}
	mid := room.Mid()
	down := tall / 2
	for i, l := range out {
		if i > 0 {
			down -= l.height * 0.5
		}
		down -= l.height
		t := drawing.Text{Height: l.height, Bold: l.bold, Turn: turn, Align: drawing.AlignCentre, Offset: geom.Point{Y: down}, Text: l.text}
		c.Texts = append(c.Texts, tiling.PlaceText(&t, mid))
	}
}

// roomiest returns a box within an area where its name stands well: of boxes of several heights the one in which lettering can be
// largest.
func roomiest(r geom.Region) geom.Rect {
	const rows, shape = 16, 4.0 // a name is about so many times as wide as high
	b := r.Outer.Bounds()
	step := b.H() / rows
	var bands [rows][]float64
	for k := range bands {
		y := b.Min.Y + (float64(k)+0.5)*step
		bands[k] = overlap(inside(r, y-step*0.45), overlap(inside(r, y), inside(r, y+step*0.45)))
	}
	best, score := geom.Rect{}, 0.0
	for lo := range rows {
		common := bands[lo]
		for hi := lo; hi < rows && len(common) > 0; hi++ {
			common = overlap(common, bands[hi])
			tall := float64(hi-lo+1) * step
			for i := 0; i+1 < len(common); i += 2 {
				if got := min(common[i+1]-common[i], shape*tall); got > score+geom.Tolerance {
					score = got
					best = geom.Rect{Min: geom.Point{X: common[i], Y: b.Min.Y + float64(lo)*step}, Max: geom.Point{X: common[i+1], Y: b.Min.Y + float64(hi+1)*step}}
				}
			}
		}
	}
	return best
}

// inside returns the stretches of a level line that lie in an area, as pairs of places.
func inside(r geom.Region, y float64) []float64 {
	var xs []float64
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		ring := p.Flatten(1, nil)
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			if a.Y > y != (b.Y > y) {
				xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
		}
	}
	slices.Sort(xs)
	return xs
}

// overlap returns the stretches that lie in both of two lists of them.
func overlap(a, b []float64) []float64 {
	var out []float64
	for i := 0; i+1 < len(a); i += 2 {
		for k := 0; k+1 < len(b); k += 2 {
			if lo, hi := max(a[i], b[k]), min(a[i+1], b[k+1]); lo < hi {
				out = append(out, lo, hi)
			}
		}
	}
	return out
}
