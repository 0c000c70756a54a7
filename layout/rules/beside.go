package rules

import (
	"slices"

	"markout/layout/geom"
)

// side is one straight edge of a face with what lies outside it to the right of the way from from to to.
type side struct {
	from   geom.Point
	along  geom.Point // length 1
	out    geom.Point // length 1, outwards
	length float64
}

func newSide(from, to geom.Point) side {
	d := to.Sub(from).Unit()
	return side{from, d, geom.Point{X: d.Y, Y: -d.X}, from.Dist(to)}
}

func (s side) at(u float64) geom.Point { return s.from.Add(s.along.Mul(u)) }

// interval is a stretch of an edge, in millimetres from its start.
type interval struct{ from, to float64 }

// meets appends the stretches of the edge beside which the area within rings comes into the strip that runs along the
// edge from v0 to v1 millimetres outside it (negative: inside). They are exact for straight rings: the area comes into
// the strip at u where its boundary does, or where the near line of the strip lies in it.
func (s side) meets(rings [][]geom.Point, v0, v1 float64, out []interval) []interval {
	var crossings []float64
	for _, ring := range rings {
		p := ring[len(ring)-1].Sub(s.from)
		pu, pv := p.Dot(s.along), p.Dot(s.out)
		for _, q := range ring {
			q = q.Sub(s.from)
			qu, qv := q.Dot(s.along), q.Dot(s.out)
			if a, b, ok := within(pu, pv, qu, qv, v0, v1); ok {
				out = append(out, interval{min(a, b), max(a, b)})
			}
			if (pv > v0) != (qv > v0) {
				crossings = append(crossings, pu+(qu-pu)*(v0-pv)/(qv-pv))
			}
			pu, pv = qu, qv
		}
	}
	slices.Sort(crossings)
	for i := 0; i+1 < len(crossings); i += 2 {
		out = append(out, interval{crossings[i], crossings[i+1]})
	}
	return out
}

// within returns the u of the ends of the part of the line from p to q whose v lies from v0 to v1.
func within(pu, pv, qu, qv, v0, v1 float64) (a, b float64, ok bool) {
	if max(pv, qv) < v0 || min(pv, qv) > v1 {
		return 0, 0, false
	}
	cut := func(v float64) float64 {
		v = min(max(v, v0), v1)
		if qv == pv {
			return pu
		}
		return pu + (qu-pu)*(v-pv)/(qv-pv)
	}
	if pv == qv {
		return pu, qu, true
	}
	return cut(pv), cut(qv), true
}
