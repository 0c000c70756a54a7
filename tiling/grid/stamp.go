package grid

import (
	"math"
	"runtime"
	"sync"

	"markout/layout/geom"
	"markout/tiling"
)

// stamp is the letter and date of the issue in which a page's drawing last changed; empty for this one's own.
type stamp struct{ letter, date string }

// stamp finds for every page the issue in which its drawing last changed. A page that an earlier issue has shows the seams that it
// had there, so that the paper of that issue serves as it is.
func (p *Plan) stamp() {
	for _, g := range p.grids {
		g.stamps = []stamp{{}}
		if p.opt.Stamps == nil {
			continue
		}
		g.sumPages()
		known := map[stamp]uint16{}
		had := g.was.seams()
		for i := range g.cells {
			c := &g.cells[i]
			letter, date, ok := p.opt.Stamps.Of(c.label, g.sums[i])
			if !ok {
				continue
			}
			if n, is := had[g.keyOf(c)]; is {
				g.bare = g.bare || c.near&^n.near != 0
				c.near = n.near
				if g.strips != nil {
					g.bare = g.bare || !n.sides.hold(g.strips.sides[i])
					g.strips.sides[i] = n.sides
				}
			}
			st := stamp{letter, date}
			if p.info.Trial || letter == "" { // a trial's every page says so
				continue
			}
			k, have := known[st]
			if !have {
				if len(g.stamps) > math.MaxUint16 {
					continue // more letters than there can be issues
				}
				k = uint16(len(g.stamps))
				known[st] = k
				g.stamps = append(g.stamps, st)
			}
			c.stamp = k
		}
	}
}

// sumPages works out the digest of every cell once.
func (g *grid) sumPages() {
	sums := make([][32]byte, len(g.cells))
	workers := min(runtime.GOMAXPROCS(0), 8)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			var d tiling.Digester
			var buf []geom.Point
			for i := w; i < len(g.cells); i += workers {
				sums[i], buf = g.digest(int32(i), &d, buf)
			}
		})
	}
	wg.Wait()
	g.sums = sums
}

// pageKey is a page of a record: column and row, or strip and window.
type pageKey struct {
	c, r     int
	from, to float64
}

func (g *grid) keyOf(c *cell) pageKey {
	if g.strips == nil {
		return pageKey{c: c.c + g.first[0], r: c.r + g.first[1]}
	}
	from, to := g.strips.ends(c)
	return pageKey{c: c.c + g.first[0], from: from, to: to}
}

// seams are what a page shows of its neighbours.
type seams struct {
	near uint8
	sides
}

// seams returns the seams that a record's pages show; none of no record.
func (r *GridRecord) seams() map[pageKey]seams {
	out := map[pageKey]seams{}
	switch {
	case r == nil:
	case r.Roll != nil:
		for _, s := range r.Roll.Strips {
			for _, p := range s.Parts {
				if !p.Gone {
					out[pageKey{c: s.Place, from: p.From, to: p.To}] = seams{uint8(p.Near), sides{p.Left, p.Right}}
				}
			}
		}
	default:
		for _, p := range r.Pages {
			out[pageKey{c: p[0], r: p[1]}] = seams{near: uint8(p[2])}
		}
	}
	return out
}
