package trace

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// rounds is how often outlines that come too near one another are fitted again more closely. By then the limit there is
// nothing and they follow the edge line itself, which keeps clear of itself.
const rounds = 16

// least is the length in pixels of an edge line that is worth a fit: a shorter one is a few pixels' and is kept as it is.
const least = 12

// fitAll fits the loops so that no outline crosses another or itself, all lie in one another as the loops do, and each
// has its loop's area.
func fitAll(loops []*loop, tol float64) []outline {
	os := make([]outline, len(loops))
	for i, l := range loops {
		os[i].ring = newRing(l, tol)
		os[i].fit(6)
	}
	total, miss := 0.0, 0.0
	for i := range os {
		total += os[i].ring.loop.area
		miss += os[i].miss
	}
	if math.Abs(miss) > 0.0005*total {
		for i := range os {
			os[i].strict = true
			os[i].fit(6)
		}
	}
	for round := range rounds {
		share := 0.25
		if round >= rounds/5 {
			share = 0
		}
		var chords []chord
		for i := range os {
			chords = os[i].flatten(i, chords)
		}
		again := make([]bool, len(os))
		found := clashes(chords, os)
		for _, c := range found {
			os[c.a.ring].tighten(int(c.a.piece), c.at, share)
			os[c.b.ring].tighten(int(c.b.piece), c.at, share)
			again[c.a.ring], again[c.b.ring] = true, true
		}
		if len(found) == 0 {
			for _, wrong := range misplaced(chords, os) {
				at := os[wrong[0]].ring.edge
				for n, i := range wrong {
					again[i] = true
					if n == 0 {
						os[i].ring.tighten(0, len(at)-1, at[0], math.Inf(1), share)
						continue
					}
					os[i].ring.tightenBy(at, share)
				}
			}
		}
		if !slices.Contains(again, true) {
			break
		}
		for i := range os {
			if again[i] {
				os[i].fit(1)
			}
		}
	}
	return os
}

// fit fits the ring, more closely while its area is not that of the edge line: within half a thousandth or, where it need
// not be strict, a small share of a pixel all along; and what true corners have more that the coverage rounds off. It is fitted
// at most so many times.
func (o *outline) fit(tries int) {
	r := o.ring
	want := r.loop.area
	length := r.step * float64(len(r.p))
	slack := max(0.0005*math.Abs(want), r.rough/6*length)
	if o.strict {
		slack = max(0.0005*math.Abs(want), r.rough/24*length)
	}
	if length < least {
		r.tighten(0, len(r.edge)-1, r.edge[0], math.Inf(1), 0)
	}
	for range tries {
		o.pieces = r.fitted()
		have, corners := o.area(), 0
		for i, p := range o.pieces {
			q := o.pieces[(i+1)%len(o.pieces)]
			u, v := p.cubic[3].Sub(p.cubic[2]), q.cubic[1].Sub(q.cubic[0])
			if math.Abs(u.Cross(v)) > 0.3*u.Len()*v.Len() {
				corners++
			}
		}
		o.miss = have - want
		gain := math.Copysign(1, want) * o.miss
		if gain >= -slack && gain <= min(slack+0.15*float64(corners), math.Abs(want)/8) {
			return
		}
		r.tighten(0, len(r.edge)-1, r.edge[0], math.Inf(1), 0.5)
	}
}

// tighten takes the limit of the part of the ring under a piece that is near q times share.
func (o *outline) tighten(i int, q geom.Point, share float64) {
	p := o.pieces[i]
	o.ring.tighten(o.ring.vertex(p.i), o.ring.vertex(p.j), q, 6, share)
}

// tightenBy takes the limit times share where the ring is within a few pixels of the places.
func (r *ring) tightenBy(places []geom.Point, share float64) {
	box := geom.EmptyRect()
	for _, q := range places {
		box = box.Include(q)
	}
	box = box.Grow(3)
	for i, q := range r.edge {
		if box.Contains(q) {
			r.tighten(i, i, q, 1, share)
		}
	}
}

// area returns what the pieces enclose.
func (o *outline) area() float64 {
	sum, at := 0.0, o.pieces[0].cubic[0]
	for _, p := range o.pieces {
		a, b := p.cubic[0].Sub(at), p.cubic[3].Sub(at)
		sum += a.Cross(b) / 2
		if !p.line {
			u, v, w := p.cubic[1].Sub(p.cubic[0]), p.cubic[2].Sub(p.cubic[0]), p.cubic[3].Sub(p.cubic[0])
			sum += 3 * (u.Cross(v) + u.Cross(w) + 2*v.Cross(w)) / 20
		}
	}
	return sum
}

// path returns the outline as a closed path.
func (o *outline) path() *geom.Path {
	p := geom.NewPath(o.pieces[0].cubic[0])
	for _, s := range o.pieces {
		if s.line {
			p.LineTo(s.cubic[3])
		} else {
			p.CubicTo(s.cubic[1], s.cubic[2], s.cubic[3])
		}
	}
	p.Close()
	return p
}

// build makes regions of the outlines, the largest first.
func (sil *Silhouette) build(os []outline) {
	region := map[*loop]int{}
	for i := range os {
		if l := os[i].ring.loop; l.area > 0 {
			region[l] = len(sil.Regions)
			sil.Regions = append(sil.Regions, geom.Region{Outer: os[i].path()})
		}
	}
	for i := range os {
		if l := os[i].ring.loop; l.area < 0 {
			r := &sil.Regions[region[l.around]]
			r.Holes = append(r.Holes, os[i].path())
		}
		sil.Nodes += len(os[i].pieces)
		sil.Length += os[i].length
	}
	slices.SortStableFunc(sil.Regions, func(a, b geom.Region) int { return -cmp.Compare(a.Outer.Area(), b.Outer.Area()) })
}
