package grid

import (
	"markout/layout/geom"
	"markout/tiling"
	"markout/tiling/paper"
)

// matchGrids finds for each grid the one of the earlier issue that it keeps. The same drawing comes first, under its own name and
// then under another, so that two pieces which only change names change no page; then the name alone, of a piece that was drawn
// otherwise.
func (p *Plan) matchGrids() {
	if len(p.opt.Since) == 0 {
		return
	}
	taken := make([]bool, len(p.opt.Since))
	match := func(is func(g *grid, r *GridRecord) bool) {
		for _, g := range p.grids {
			for i := range p.opt.Since {
				if r := &p.opt.Since[i]; g.was == nil && !taken[i] && r.View == g.view && is(g, r) {
					g.was, taken[i] = r, true
				}
			}
		}
	}
	same := func(g *grid, r *GridRecord) bool { return g.view == "floor" || r.Ink == g.inkDigest() }
	match(func(g *grid, r *GridRecord) bool { return r.Element == g.name && same(g, r) })
	match(same)
	match(func(g *grid, r *GridRecord) bool { return r.Element == g.name })
}

// laidOn reports whether a record's pages have these margins and this lap.
func (r *GridRecord) laidOn(m paper.Margins, lap float64) bool {
	for i, x := range [4]float64{m.Left, m.Right, m.Bottom, m.Top} {
		if !equal(r.Margins[i], x) {
			return false
		}
	}
	return equal(r.Lap, lap)
}

func equal(a, b float64) bool { return abs(a-b) <= geom.Tolerance }

// origin returns where a record's places are counted from.
func (r *GridRecord) origin() geom.Point { return geom.Point{X: r.Origin[0], Y: r.Origin[1]} }

// layAsBefore lays sheets as an earlier issue has them. It reports false where paper, margins or lap are others, or the drawing
// has gone too far away.
func (g *grid) layAsBefore(opt Options) (bool, error) {
	r := g.was
	if r == nil || r.Roll != nil {
		return false, nil
	}
	for _, lying := range [2]bool{false, true} {
		w, h, m := opt.Paper.W, opt.Paper.H, opt.Margins
		if lying {
			w, h, m = h, w, m.Turned()
		}
		if !equal(r.Size[0], w) || !equal(r.Size[1], h) || !r.laidOn(m, opt.Lap) {
			continue
		}
		lw, lh, err := m.Live(w, h, leastLive, leastLive)
		if err != nil {
			return false, err
		}
		g.size, g.margins, g.lap = tiling.Size{W: w, H: h}, m, opt.Lap
		g.live = geom.Point{X: lw, Y: lh}
		g.step = g.live.Sub(geom.Point{X: opt.Lap, Y: opt.Lap})
		g.base = r.origin()
		if g.far() {
			return false, nil
		}
		return true, g.settle(&sieve{}, opt)
	}
	return false, nil
}

// far reports whether the drawing lies so far from the grid's base that naming all columns and rows between makes no sense.
func (g *grid) far() bool {
	reach := g.ink.bounds.Include(g.base)
	return !(reach.W()/g.step.X < mostPlaces-2 && reach.H()/g.step.Y < mostPlaces-2)
}
