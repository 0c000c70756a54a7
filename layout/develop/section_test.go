package develop_test

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// cut is a straight edge of a section. Round each cell's cuts the inside is told from the outside by odd and even.
type cut struct {
	a, b        geom.Point // a below b
	solid, cell int
}

// shutting is the solid of what stands beside the model and closes it: it holds nothing.
const shutting = -1

// leak is the width in millimetres from which a gap is one.
const leak = 1e-3

// cutsOf appends the edges in which the cell meets the level z.
func (c cell) cutsOf(z float64, solid, number int, dst []cut) []cut {
	var at []geom.Point
	face := func(loops ...[]geom.Vec) {
		at = at[:0]
		for _, l := range loops {
			for i, a := range l {
				b := l[(i+1)%len(l)]
				if (a.Z > z) == (b.Z > z) {
					continue
				}
				if a.Z > b.Z { // the same place from both sides of an edge
					a, b = b, a
				}
				at = append(at, lerp(a, b, (z-a.Z)/(b.Z-a.Z)).Plan())
			}
		}
		if len(at) < 2 {
			return
		}
		if len(at) > 2 { // all lie on one line, along which the face is entered and left by turns
			far := slices.MaxFunc(at, func(p, q geom.Point) int { return cmp.Compare(p.Dist(at[0]), q.Dist(at[0])) })
			u := far.Sub(at[0])
			slices.SortFunc(at, func(p, q geom.Point) int { return cmp.Compare(p.Dot(u), q.Dot(u)) })
		}
		for i := 0; i+1 < len(at); i += 2 {
			a, b := at[i], at[i+1]
			if a.Y > b.Y {
				a, b = b, a
			}
			dst = append(dst, cut{a, b, solid, number})
		}
	}
	face(c.front...)
	face(c.back...)
	for l := range c.front {
		f, b := c.front[l], c.back[l]
		for i := range f {
			j := (i + 1) % len(f)
			face([]geom.Vec{f[i], f[j], b[j], b[i]})
		}
	}
	return dst
}

// cutsOfRegion appends the edges of an area.
func cutsOfRegion(r geom.Region, solid, number int, dst []cut) []cut {
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		pts := p.Flatten(geom.Flatness, nil)
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			if a.Y > b.Y {
				a, b = b, a
			}
			dst = append(dst, cut{a, b, solid, number})
		}
	}
	return dst
}

// like reports whether two cuts of one edge at two levels are the same.
func (c cut) like(d cut) bool { return c.a.Dist(d.a) < 1e-9 && c.b.Dist(d.b) < 1e-9 }

func (c *cut) at(y float64) float64 {
	if c.b.Y == c.a.Y {
		return c.a.X
	}
	return c.a.X + (c.b.X-c.a.X)*(y-c.a.Y)/(c.b.Y-c.a.Y)
}

// areas are what a section comes to in square millimetres: of all solids one by one, of all together, and that with the
// hollows they go round, which belong to what is enclosed where inside says so (everywhere where it is nil).
type areas struct{ sum, together, enclosed float64 }

// run is a stretch of a level line that is filled, or, between two, one that is empty. Its ends are on the cuts l and r.
type run struct {
	from, to    float64
	l, r, solid int
	part        int // of an empty one, its part in the sweep
}

// areasOf sweeps the section from its lowest corner up, strip by strip between the levels of its corners: within a
// strip no edges cross but where solids overlap, so that the line through its middle tells what lies in it.
// Empty places of two strips one over the other belong together where more than a leak joins them.
func areasOf(cuts []cut, inside func(geom.Point) bool) areas {
	var ys []float64
	for _, c := range cuts {
		ys = append(ys, c.a.Y, c.b.Y)
	}
	slices.Sort(ys)
	levels := ys[:0]
	for _, y := range ys {
		if len(levels) == 0 || y-levels[len(levels)-1] > 1e-6 {
			levels = append(levels, y)
		}
	}
	level := func(y float64) int {
		i, found := slices.BinarySearch(levels, y)
		if !found {
			i--
		}
		return i
	}
	starts := make([][]int, len(levels))
	ends := make([]int, len(cuts))
	for i, c := range cuts {
		from, to := level(c.a.Y), level(c.b.Y)
		if from < to {
			starts[from] = append(starts[from], i)
			ends[i] = to
		}
	}
	var out areas
	var parts hollows
	outside := parts.add(0, geom.Point{})
	var active []int
	var below, above, filled []run
	var buf []place
	for s := 0; s+1 < len(levels); s++ {
		active = slices.DeleteFunc(active, func(i int) bool { return ends[i] <= s })
		active = append(active, starts[s]...)
		y, high := (levels[s]+levels[s+1])/2, levels[s+1]-levels[s]
		filled, buf = filledAt(cuts, active, y, filled[:0], buf[:0])
		slices.SortFunc(filled, func(a, b run) int {
			if a.solid != b.solid {
				return a.solid - b.solid
			}
			return cmp.Compare(a.from, b.from)
		})
		out.sum += high * covered(filled, true)
		slices.SortFunc(filled, func(a, b run) int { return cmp.Compare(a.from, b.from) })
		out.together += high * covered(filled, false)
		empty := emptyBetween(filled, above[:0])
		for i := range empty {
			e := &empty[i]
			e.part = outside
			if e.l >= 0 && e.r >= 0 {
				e.part = parts.add((e.to-e.from)*high, geom.Point{X: (e.from + e.to) / 2, Y: y})
			}
		}
		if s == 0 {
			below = []run{{l: -1, r: -1, part: outside}}
		}
		joinParts(cuts, below, empty, levels[s], &parts)
		below, above = empty, below
	}
	joinParts(cuts, below, []run{{l: -1, r: -1, part: outside}}, levels[len(levels)-1], &parts)
	out.enclosed = out.together + parts.within(outside, inside)
	return out
}

// place is where the line at some level meets a cut.
type place struct {
	x    float64
	i, c int
}

// filledAt appends the stretches of the line at y that cells fill to out; at is room to work in.
func filledAt(cuts []cut, active []int, y float64, out []run, at []place) ([]run, []place) {
	for _, i := range active {
		at = append(at, place{cuts[i].at(y), i, cuts[i].cell})
	}
	slices.SortFunc(at, func(a, b place) int {
		if a.c != b.c {
			return a.c - b.c
		}
		return cmp.Compare(a.x, b.x)
	})
	for k := 0; k+1 < len(at); k++ {
		if at[k].c == at[k+1].c {
			out = append(out, run{from: at[k].x, to: at[k+1].x, l: at[k].i, r: at[k+1].i, solid: cuts[at[k].i].solid})
			k++
		}
	}
	return out, at
}

// covered is the length that runs, sorted by their starts, cover, of each solid by itself or together.
func covered(runs []run, apart bool) float64 {
	l, end, of := 0.0, math.Inf(-1), shutting
	for _, r := range runs {
		if r.solid == shutting {
			continue
		}
		if apart && r.solid != of {
			end, of = math.Inf(-1), r.solid
		}
		l += max(0, r.to-max(r.from, end))
		end = max(end, r.to)
	}
	return l
}

// emptyBetween are the stretches between the filled ones and on both sides of them; −1 marks no cut.
func emptyBetween(filled, out []run) []run {
	out = append(out, run{from: math.Inf(-1), l: -1})
	end := math.Inf(-1)
	last := -1
	for _, r := range filled {
		if r.from > end+leak {
			e := &out[len(out)-1]
			if last >= 0 {
				out = append(out, run{from: end, l: last})
				e = &out[len(out)-1]
			}
			e.to, e.r = r.from, r.l
		}
		if r.to > end {
			end, last = r.to, r.r
		}
	}
	if last < 0 {
		out[0].r = -1
		return out
	}
	return append(out, run{from: end, to: math.Inf(1), l: last, r: -1})
}

// joinParts joins the empty stretches of two strips that meet at y.
func joinParts(cuts []cut, below, above []run, y float64, parts *hollows) {
	ends := func(r run) (lo, hi float64) {
		lo, hi = math.Inf(-1), math.Inf(1)
		if r.l >= 0 {
			lo = cuts[r.l].at(y)
		}
		if r.r >= 0 {
			hi = cuts[r.r].at(y)
		}
		return lo, hi
	}
	for i, k := 0, 0; i < len(below) && k < len(above); {
		a0, a1 := ends(below[i])
		b0, b1 := ends(above[k])
		if min(a1, b1)-max(a0, b0) > leak {
			parts.join(below[i].part, above[k].part)
		}
		if a1 < b1 {
			i++
		} else {
			k++
		}
	}
}
