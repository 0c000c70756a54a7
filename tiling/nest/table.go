package nest

import "sync/atomic"

// table keeps no-fit polygons, made once for each pair of outlines when they are first asked for.
type table struct {
	n        int
	gap, eps float64
	outs     []*outline
	fine     bool // with rasters, for many trials
	nfps     []atomic.Pointer[nofit]
}

// mostKept is the number of outlines up to which a table keeps its polygons; with more it makes them again each time.
const mostKept = 2048

func newTable(s *stock) *table {
	t := &table{n: len(s.outlines), outs: s.outlines, gap: s.gap, eps: s.eps}
	if t.n <= mostKept {
		t.nfps = make([]atomic.Pointer[nofit], t.n*t.n)
	}
	return t
}

// of returns the no-fit polygon of outline moving about outline fixed. Several searches may ask at once: what two of them make
// is the same.
func (t *table) of(fixed, moving *outline) *nofit {
	if t.nfps == nil {
		return t.newNofit(fixed, moving)
	}
	p := &t.nfps[fixed.id*t.n+moving.id]
	n := p.Load()
	if n == nil {
		n = t.newNofit(fixed, moving)
		p.Store(n)
	}
	return n
}

// newNofit makes one of two polygons that mirror each other through 0,0 out of the other: always the same one, so that it does
// not matter which is asked for first.
func (t *table) newNofit(fixed, moving *outline) *nofit {
	var n *nofit
	if fixed.id > moving.id {
		n = t.of(moving, fixed).turnedAbout()
	} else {
		n = newNofit(fixed, moving, t.gap, t.eps)
	}
	return n
}

// gauge returns the polygon's gauge, made when it is first asked for: what is only laid beside other pieces needs none.
func (t *table) gauge(n *nofit) *gauge {
	g := n.gauge.Load()
	if g == nil {
		made := newGauge(n)
		if t.fine {
			made.cells = rasterise(&made, n.box, t.eps)
		}
		g = &made
		n.gauge.Store(g)
	}
	return g
}

// at is of by the fixed outline's number.
func (t *table) at(fixed int, moving *outline) *nofit {
	if t.nfps != nil {
		if n := t.nfps[fixed*t.n+moving.id].Load(); n != nil {
			return n
		}
	}
	return t.of(t.outs[fixed], moving)
}
