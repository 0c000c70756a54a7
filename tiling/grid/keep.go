package grid

import (
	"fmt"
	"runtime"
	"sync"

	"markout/layout/geom"
	"markout/tiling"
	"markout/tiling/paper"
)

// stamp is the letter and date of the issue in which a page's drawing last changed; empty for this one's own.
type stamp struct{ letter, date string }

// matchGrids finds for each grid the one of the earlier issue that it keeps: that of the same view and name, otherwise one of the
// same view whose whole drawing was the same, and whose piece has another name now.
func (p *Plan) matchGrids() {
	taken := make([]bool, len(p.opt.Since))
	for _, g := range p.grids {
		for i := range p.opt.Since {
			if r := &p.opt.Since[i]; !taken[i] && r.View == g.view && r.Element == g.name {
				g.was, taken[i] = r, true
				break
			}
		}
	}
	for _, g := range p.grids {
		if g.was != nil || len(p.opt.Since) == 0 || g.view == "floor" {
			continue
		}
		ink := g.inkDigest()
		for i := range p.opt.Since {
			if r := &p.opt.Since[i]; !taken[i] && r.View == g.view && r.Ink == ink {
				g.was, taken[i] = r, true
				break
			}
		}
	}
}

// sameMargins reports whether a record has these margins.
func sameMargins(r *GridRecord, m paper.Margins) bool {
	return r.Margins == [4]float64{m.Left, m.Right, m.Bottom, m.Top}
}

// layAsBefore lays sheets as an earlier issue has them. It reports false where paper, margins or lap are others.
func (g *grid) layAsBefore(opt Options) (bool, error) {
	r := g.was
	if r.Along != "" || r.Lap != opt.Lap {
		return false, nil
	}
	for _, lying := range [2]bool{false, true} {
		w, h, m := opt.Paper.W, opt.Paper.H, opt.Margins
		if lying {
			w, h, m = h, w, m.Turned()
		}
		if r.Size != [2]float64{w, h} || !sameMargins(r, m) {
			continue
		}
		lw, lh, err := m.Live(w, h, leastLive, leastLive)
		if err != nil {
			return false, err
		}
		g.size, g.margins, g.lap = tiling.Size{W: w, H: h}, m, opt.Lap
		g.live = geom.Point{X: lw, Y: lh}
		g.step = g.live.Sub(geom.Point{X: opt.Lap, Y: opt.Lap})
		if g.step != (geom.Point{X: r.Step[0], Y: r.Step[1]}) {
			return false, nil
		}
		g.origin = geom.Point{X: r.Origin[0], Y: r.Origin[1]}
		if g.far() {
			return false, fmt.Errorf("%s: the drawing lies more than 40 km from where its page grid was", g.title)
		}
		var s sieve
		s.reset(g.live, opt.Lap, g.ink.half, g.ink.bounds, &g.origin)
		s.walk(&g.ink)
		f, err := s.solve(g.ink.bounds)
		if err != nil {
			return false, tooMany(opt)
		}
		g.cells = make([]cell, len(f.cells))
		for i, c := range f.cells {
			g.cells[i] = cell{c: c[0] + s.moved[0], r: c[1] + s.moved[1]}
		}
		return true, nil
	}
	return false, nil
}

// far reports whether the drawing lies so far from the grid's origin that naming all columns and rows between makes no sense.
func (g *grid) far() bool {
	reach := g.ink.bounds.Include(g.origin)
	return !(reach.W()/g.step.X < mostPlaces/2 && reach.H()/g.step.Y < mostPlaces/2)
}

// stamp finds for every page the issue in which its drawing last changed. A page that an earlier issue has shows the seams that it
// had there, so that the paper of that issue serves as it is.
func (p *Plan) stamp() {
	for _, g := range p.grids {
		g.stamps = []stamp{{}}
		if p.opt.Stamps == nil {
			continue
		}
		known := map[stamp]uint16{}
		near := map[[2]int]uint8{}
		if g.was != nil {
			for i := 0; i+2 < len(g.was.Pages); i += 3 {
				near[[2]int{g.was.Pages[i], g.was.Pages[i+1]}] = uint8(g.was.Pages[i+2])
			}
		}
		sums := g.digests()
		for i := range g.cells {
			c := &g.cells[i]
			letter, date, ok := p.opt.Stamps.Of(c.label, sums[i])
			if !ok {
				continue
			}
			if n, had := near[[2]int{c.c + g.first[0], c.r + g.first[1]}]; had {
				c.near = n
			}
			if p.info.Trial {
				continue // whose every page says so
			}
			st := stamp{letter, date}
			k, have := known[st]
			if !have {
				k = uint16(len(g.stamps))
				if len(g.stamps) == 1<<16 {
					continue // more letters than there can be issues
				}
				known[st] = k
				g.stamps = append(g.stamps, st)
			}
			c.stamp = k
		}
	}
}

// digests works out the digest of every cell.
func (g *grid) digests() [][32]byte {
	out := make([][32]byte, len(g.cells))
	workers := min(runtime.GOMAXPROCS(0), 8)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			var d tiling.Digester
			var buf []geom.Point
			for i := w; i < len(g.cells); i += workers {
				out[i], buf = g.digest(int32(i), &d, buf)
			}
		})
	}
	wg.Wait()
	return out
}

// parts names the parts of strips as an earlier grid has them.
type parts struct {
	known map[partKey]int
	next  int
}

type partKey struct {
	strip    int
	from, to float64
}

func newParts(r *GridRecord) *parts {
	p := &parts{known: map[partKey]int{}}
	if r == nil {
		return p
	}
	p.next = r.Rows.First + len(r.Rows.Names)
	for i := 0; i+2 < len(r.Pages); i += 3 {
		p.known[partKey{r.Pages[i], r.Parts[i/3*2], r.Parts[i/3*2+1]}] = r.Pages[i+1]
	}
	return p
}

// name returns the place of a part among the rows: its own where the earlier grid has it, else the next one that none ever had.
func (p *parts) name(strip int, s stretch) int {
	k := partKey{strip, s.from, s.to}
	r, ok := p.known[k]
	if !ok {
		r = p.next
		p.next++
	}
	delete(p.known, k)
	return r
}
