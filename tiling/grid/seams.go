package grid

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// Seams lie at the same places of the view on both pages that meet there, and so does everything that stands on them:
// crosses, letters. A page's left and lower seams lie seamInset inside its live area, its right and upper ones a step
// further. The page is trimmed along its left and lower seam and laid on its neighbours' dashed lines.

// crossApart is the greatest distance between crosses along a sheet's seam.
const crossApart = 200.0

// letterRoom is half the side of the box about the place of a pair of letters.
const letterRoom = 5.0

// lapPen is the line that the next page is laid on. Its dashes are long: a reader draws each of them, and on a large sheet
// those of an ISO 128 hidden line are most of what the page costs.
var lapPen = tiling.Pen{Width: drawing.NarrowLine, Dash: []float64{40, 5}}

// crossArm returns how long a cross's arms are: they stay on every page that shows it, where the lap is wide enough.
func crossArm(lap float64) float64 { return max(0.9*seamInset(lap), 2.5) }

// frame draws the seams of a sheet whose live area begins at 0,0 and which has these neighbours: crosses on shared corners and
// along shared edges, where it is trimmed, where the next ones are laid.
func (g *grid) frame(near uint8) *tiling.Form {
	f := &tiling.Form{W: g.live.X, H: g.live.Y}
	a, arm := seamInset(g.lap), crossArm(g.lap)
	lo, hi := geom.Point{X: a, Y: a}, geom.Point{X: a + g.step.X, Y: a + g.step.Y}
	is := func(bits uint8) bool { return near&bits != 0 }
	for _, c := range [4]struct {
		at   geom.Point
		near uint8
	}{
		{lo, nearLeft | nearBelow | nearLeftBelow},
		{geom.Point{X: hi.X, Y: lo.Y}, nearRight | nearBelow | nearRightBelow},
		{geom.Point{X: lo.X, Y: hi.Y}, nearLeft | nearAbove | nearLeftAbove},
		{hi, nearRight | nearAbove | nearRightAbove},
	} {
		if is(c.near) {
			f.Cross(nil, c.at, arm)
		}
	}
	for _, y := range between(lo.Y, hi.Y) {
		if is(nearLeft) {
			f.Cross(nil, geom.Point{X: lo.X, Y: y}, arm)
		}
		if is(nearRight) {
			f.Cross(nil, geom.Point{X: hi.X, Y: y}, arm)
		}
	}
	for _, x := range between(lo.X, hi.X) {
		if is(nearBelow) {
			f.Cross(nil, geom.Point{X: x, Y: lo.Y}, arm)
		}
		if is(nearAbove) {
			f.Cross(nil, geom.Point{X: x, Y: hi.Y}, arm)
		}
	}
	if is(nearLeft) {
		f.Line(nil, tiling.Thin, lo.X, 0, lo.X, g.live.Y)
	}
	if is(nearBelow) {
		f.Line(nil, tiling.Thin, 0, lo.Y, g.live.X, lo.Y)
	}
	// Butt edges are trimmed on every side.
	pen := lapPen
	if g.lap == 0 {
		pen = tiling.Thin
	}
	if is(nearRight) {
		f.Line(nil, pen, hi.X, 0, hi.X, g.live.Y)
	}
	if is(nearAbove) {
		f.Line(nil, pen, 0, hi.Y, g.live.X, hi.Y)
	}
	return f
}

// between returns the places of the crosses between two corners.
func between(from, to float64) []float64 {
	n := int(math.Ceil((to - from) / crossApart))
	var out []float64
	for k := 1; k < n; k++ {
		out = append(out, from+(to-from)*float64(k)/float64(n))
	}
	return out
}

// pair returns the form of two equal letters astride a seam; it is shown with its middle's lower left corner at letterRoom from
// the seam's place.
func pair(letter string, upright bool) *tiling.Form {
	f := &tiling.Form{W: 2 * letterRoom, H: 2 * letterRoom}
	const h = drawing.Lettering3_5
	w := lettering.Width(letter, h, false)
	for _, side := range [2]float64{-1, 1} {
		x, y := letterRoom, letterRoom
		if upright {
			x += side * letterRoom / 2
		} else {
			y += side * letterRoom / 2
		}
		f.Write(geom.Point{X: x - w/2, Y: y - h/2}, h, false, letter)
	}
	return f
}

// letterPlaces are where along a sheet's seam its letters may stand, as shares of a step: the first that is clear of lines.
var letterPlaces = [...]float64{0.3, 0.7, 0.4, 0.6, 0.2, 0.8, 0.12, 0.88}

// showLetters draws a pair of letters astride each of a sheet's seams.
func (m *maker) showLetters() {
	g, c := m.g, m.cell
	// A seam has the letter of the page to its left, or below it; neighbouring seams have different ones.
	upright := func(col, row int) int { return 2 * (col + g.first[0] + 5*(row+g.first[1])) }
	level := func(col, row int) int { return 2*(col+g.first[0]+5*(row+g.first[1])) + 1 }
	lo := c.win.Min.Add(geom.Point{X: seamInset(g.lap), Y: seamInset(g.lap)})
	hi := lo.Add(g.step)
	if c.near&nearLeft != 0 {
		m.letters(upright(c.c-1, c.r), true, lo.X, lo.Y)
	}
	if c.near&nearRight != 0 {
		m.letters(upright(c.c, c.r), true, hi.X, lo.Y)
	}
	if c.near&nearBelow != 0 {
		m.letters(level(c.c, c.r-1), false, lo.Y, lo.X)
	}
	if c.near&nearAbove != 0 {
		m.letters(level(c.c, c.r), false, hi.Y, lo.X)
	}
}

// letters draws the pair of a seam at so much across, which begins at so much along.
func (m *maker) letters(letter int, upright bool, across, along float64) {
	g := m.g
	step := g.step.X
	if upright {
		step = g.step.Y
	}
	var at geom.Point
	for i, share := range letterPlaces {
		p := geom.Point{X: across, Y: along + share*step}
		if !upright {
			p.X, p.Y = p.Y, p.X
		}
		if i == 0 {
			at = p
		}
		// Only where both pages see the same lines about the place can both choose alike.
		if g.lap < 2*letterRoom {
			break
		}
		if m.clear(geom.Rect{Min: p, Max: p}.Grow(letterRoom)) {
			at = p
			break
		}
	}
	m.showPair(letter, upright, at)
}

// clear reports whether no line of the page meets a box of its view.
func (m *maker) clear(box geom.Rect) bool {
	k := &m.g.ink
	for _, r := range m.g.bins.of(m.ci) {
		t := &k.tracks[r.track]
		n := t.to - t.from
		at := r.from
		a := k.at(t, at)
		for range r.n {
			if at++; at >= n {
				at -= n
			}
			b := k.at(t, at)
			if min(a.X, b.X) <= box.Max.X && max(a.X, b.X) >= box.Min.X && min(a.Y, b.Y) <= box.Max.Y && max(a.Y, b.Y) >= box.Min.Y {
				if _, _, ok := tiling.ClipSegment(a, b, box); ok {
					return false
				}
			}
			a = b
		}
	}
	return true
}

// showPair draws a pair of letters at a place of the view: of a page without a lap, only the one that it has room for.
func (m *maker) showPair(letter int, upright bool, at geom.Point) {
	at = at.Add(m.shift)
	reg := &m.page.Layers[drawing.Registration]
	box := geom.Rect{Min: at, Max: at}.Grow(letterRoom)
	if m.live.Min.X-box.Min.X < 0.5 && m.live.Min.Y-box.Min.Y < 0.5 && box.Max.X-m.live.Max.X < 0.5 && box.Max.Y-m.live.Max.Y < 0.5 {
		k := m.g.kit.pairs(letter, upright)
		reg.Uses = append(reg.Uses, tiling.Use{Form: k, At: box.Min})
		m.room.take(box)
		return
	}
	const h = drawing.Lettering3_5
	text := tiling.Letter(letter)
	w := lettering.Width(text, h, false)
	for _, side := range [2]float64{-1, 1} {
		p := at
		if upright {
			p.X += side * letterRoom / 2
		} else {
			p.Y += side * letterRoom / 2
		}
		own := geom.Rect{Min: geom.Point{X: p.X - w/2, Y: p.Y - h/2}, Max: geom.Point{X: p.X + w/2, Y: p.Y + h/2}}
		if m.live.Contains(own.Min) && m.live.Contains(own.Max) {
			reg.Write(own.Min, h, false, text)
			m.room.take(own.Grow(0.5))
		}
	}
}
