package develop

import (
	"math"

	"markout/layout/geom"
)

// teeth are tabs along a curved edge at the slant s, to be glued under a disc of so large a radius; in the order in which
// the outline runs. There are none where they would be too narrow.
func (b *coneBend) teeth(s, half, radius float64) []tabCut {
	n, _ := teeth(2*half*s, s, offCut, 0, false)
	inside := b.up > 0 // the edge nearer to the point, which the outline runs back along
	var cuts []tabCut
	for i := range n {
		x, y := -half+2*half*float64(i)/float64(n), -half+2*half*float64(i+1)/float64(n)
		if b.up < 0 {
			x, y = -x, -y
		}
		if inside {
			x, y = -x, -y
		}
		from, to := b.flat(s, x), b.flat(s, y)
		wide := from.Dist(to)
		deep := min(tabDeep/2, 0.6*radius)
		in := wide*deep/(2*radius) + 0.1 // they come together under the disc
		if inside {
			in = max(in, deep*math.Tan(half/float64(n))+0.1) // and towards the point
		}
		if wide-2*in < tabLeast/3 || deep < tabLeast/2 {
			return nil
		}
		u := to.Sub(from).Unit()
		out := u.Left().Mul(-deep)
		cuts = append(cuts, tabCut{from, to, []geom.Point{from.Add(u.Mul(in)).Add(out), to.Sub(u.Mul(in)).Add(out)}})
	}
	return cuts
}

// outline is what is cut of a round side, anticlockwise: its far edge, an end, its near edge and the other end, with tabs
// along one edge and one end.
func (b *coneBend) outline(inner, outer *Rim, half float64, top *Rim, teeth []tabCut, seam *tabCut) *geom.Path {
	dir := b.up // which way the far edge is run along
	p := geom.NewPath(b.flat(outer.Radius, -half*dir))
	arc := func(r *Rim, turn float64) {
		if r == top && teeth != nil {
			for _, c := range teeth {
				for _, q := range append(c.pts, c.to) {
					p.LineTo(q)
				}
			}
			return
		}
		p.ArcTo(geom.Point{}, turn, b.flat(r.Radius, turn/2*dir))
	}
	end := func(to geom.Point) {
		if seam != nil && seam.to.Near(to) {
			for _, q := range seam.pts {
				p.LineTo(q)
			}
		}
		p.LineTo(to)
	}
	arc(outer, 2*half)
	end(b.flat(inner.Radius, half*dir))
	if inner.Radius > geom.Tolerance {
		arc(inner, -2*half)
	}
	if seam != nil && seam.from.Near(p.End()) {
		end(b.flat(outer.Radius, -half*dir))
	}
	p.Close()
	return p
}

// coneRelief half-cuts thick card along its slant, so that it rolls.
func (d *draft) coneRelief(b *coneBend, near, far, half float64) {
	n := int(math.Ceil(2 * half * 180 / math.Pi / b.sin / reliefTurn))
	n = max(1, min(n, int(2*half*far/leastRelief)))
	step := 2 * half / float64(n)
	from := max(near, leastRelief/2/step) // nearer to the point they would run into each other
	if from >= far {
		return
	}
	for i := range n {
		turn := -half + step*(float64(i)+0.5)
		d.Relief = append(d.Relief, Relief{Line: Line{b.flat(from, turn), b.flat(far, turn)}})
	}
}
