package nest

import (
	"math"

	"markout/layout/geom"
)

// rasterSide is the number of cells along each side of a raster.
const rasterSide = 16

// raster divides a no-fit polygon's box into cells and lists for each which runs of the border may be nearest to a place in it,
// so that depths are measured to few of them. It changes no depth.
type raster struct {
	x0, y0, kx, ky float64 // lower left corner, cells per millimetre
	cells          [rasterSide * rasterSide]cell
	lists          []uint8 // of each cell runs, then parts
}

// cell says where in lists the runs that may be nearest to its places are and the parts that may hold them, and where all of it lies.
type cell struct {
	from        uint16
	runs, parts uint8
	lies        lie
}

type lie uint8

const (
	across  lie = iota // the border runs through it, or may
	outside            // all of it is free
	deep               // all of it is in the polygon
)

// rasterise makes the raster of a gauge; nil where that has too many runs or so few that it does not pay.
func rasterise(g *gauge, b geom.Rect, eps float64) *raster {
	if len(g.runs) > 250 || len(g.spans) > 250 || len(g.spans) < 2 {
		return nil
	}
	r := &raster{x0: b.Min.X, y0: b.Min.Y, kx: rasterSide / b.W(), ky: rasterSide / b.H()}
	half := math.Hypot(b.W(), b.H())/rasterSide/2 + 2*eps
	away := make([]float64, len(g.runs))
	for cy := range rasterSide {
		for cx := range rasterSide {
			x, y := b.Min.X+(float64(cx)+0.5)/r.kx, b.Min.Y+(float64(cy)+0.5)/r.ky
			least := math.Inf(1)
			for k := range g.runs {
				away[k] = math.Sqrt(g.runs[k].away(x, y))
				least = min(least, away[k])
			}
			c := &r.cells[cy*rasterSide+cx]
			in := g.least(x, y, eps) > 0
			switch {
			case least > half && !in:
				c.lies = outside
				continue
			case least > half:
				c.lies = deep
			}
			if len(r.lists) > math.MaxUint16-512 {
				return nil
			}
			c.from = uint16(len(r.lists))
			for k, d := range away {
				if d <= least+2*half {
					r.lists = append(r.lists, uint8(k))
				}
			}
			c.runs = uint8(len(r.lists) - int(c.from))
			if c.lies == across {
				at := r.lists
				for k := range g.spans {
					if g.near(k, x, y, half) {
						at = append(at, uint8(k))
					}
				}
				c.parts = uint8(len(at) - len(r.lists))
				r.lists = at
			}
		}
	}
	return r
}

// depth is the gauge's depth.
func (r *raster) depth(g *gauge, x, y, eps float64) float64 {
	cx, cy := int((x-r.x0)*r.kx), int((y-r.y0)*r.ky)
	if uint(cx) >= rasterSide || uint(cy) >= rasterSide {
		return g.depth(x, y, eps)
	}
	c := &r.cells[cy*rasterSide+cx]
	if c.lies == outside {
		return 0
	}
	list := r.lists[c.from:]
	if c.lies == across && !g.inAny(list[c.runs:int(c.runs)+int(c.parts)], x, y, eps) {
		return 0
	}
	d2 := math.Inf(1)
	for _, k := range list[:c.runs] {
		if v := g.runs[k].away(x, y); v < d2 {
			d2 = v
		}
	}
	if d2 <= eps*eps {
		return 0
	}
	return math.Sqrt(d2)
}

// near reports whether a place lies in a part or at most so far outside each of its sides.
func (g *gauge) near(part int, x, y, far float64) bool {
	p := &g.spans[part]
	for _, s := range g.sides[p.from:p.to] {
		if s.nx*x+s.ny*y-s.d < -far {
			return false
		}
	}
	return true
}

// inAny reports whether a place lies in one of the parts listed.
func (g *gauge) inAny(parts []uint8, x, y, eps float64) bool {
next:
	for _, k := range parts {
		p := &g.spans[k]
		for i := p.from; i < p.to; i++ {
			s := &g.sides[i]
			if s.nx*x+s.ny*y-s.d <= eps {
				continue next
			}
		}
		return true
	}
	return false
}
