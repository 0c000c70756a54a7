package grid

import (
	"math"

	"markout/layout/geom"
	"markout/tiling"
)

// cell is one page of a grid.
type cell struct {
	c, r  int       // column and row of its grid; of a roll, strip and its part
	win   geom.Rect // what its live area shows, in the view's millimetres
	label string
	near  uint8  // which of the eight pages around it are printed, a bit each: see around
	stamp uint16 // of grid.stamps
	part  int32  // of a roll, the part's number; r is its place along the strip
}

// liveOf returns the size of a cell's window, exactly the same for all of one grid's sheets.
func (g *grid) liveOf(c *cell) geom.Point {
	if g.strips == nil {
		return g.live
	}
	from, _ := g.strips.alongOf(c.win.Min)
	to, _ := g.strips.alongOf(c.win.Max)
	_, across := g.strips.alongOf(g.live)
	return g.strips.point(math.Round(to-from), across)
}

// sizeOf returns the size of a cell's page.
func (g *grid) sizeOf(c *cell) tiling.Size {
	live := g.liveOf(c)
	return tiling.Size{W: live.X + g.margins.Left + g.margins.Right, H: live.Y + g.margins.Bottom + g.margins.Top}
}

// run is consecutive segments of a track that touch a page: from segment from, n of them, round a closed track's end.
type run struct{ track, from, n int32 }

// bins holds what each page shows.
type bins struct {
	start    []int32 // cell i has runs start[i] to start[i+1]
	runs     []run
	words    [][]int32 // of cells that show any; nil where no cell does
	areas    [][]int32
	pictures [][]int32
}

type binned struct {
	cell int32
	run
}

// open is the last run begun on a page.
type open struct{ track, seg, at int32 }

// bin sorts the runs of a grid's ink by page, in one walk over the segments.
func (g *grid) bin() {
	n := len(g.cells)
	last := make([]open, n)
	first := make([]int32, n) // where the track's run that begins at its segment 0 stands
	for i := range last {
		last[i].track = -1
	}
	list := make([]binned, 0, len(g.ink.pts)/4+n)
	var hits []int32
	for ti := range g.ink.tracks {
		t := &g.ink.tracks[ti]
		segs := t.segments()
		half := t.width / 2
		a := g.ink.at(t, 0)
		for s := range segs {
			b := g.ink.at(t, s+1)
			hits = g.touch(a, b, half, hits[:0])
			for _, c := range hits {
				if o := &last[c]; o.track == int32(ti) && o.seg == s-1 {
					list[o.at].n++
					o.seg = s
					continue
				}
				last[c] = open{int32(ti), s, int32(len(list))}
				if s == 0 {
					first[c] = int32(len(list))
				}
				list = append(list, binned{c, run{int32(ti), s, 1}})
			}
			a = b
		}
		if t.closed {
			// What ends with the last segment goes on with the first.
			for _, c := range hits {
				f := first[c]
				if int(f) < len(list) && list[f].cell == c && list[f].track == int32(ti) && list[f].from == 0 && f != last[c].at {
					list[f].from = list[last[c].at].from
					list[f].n += list[last[c].at].n
					list[last[c].at].n = 0
				}
			}
		}
	}
	g.bins.start = make([]int32, n+1)
	for i := range list {
		if list[i].n > 0 {
			g.bins.start[list[i].cell+1]++
		}
	}
	for i := range n {
		g.bins.start[i+1] += g.bins.start[i]
	}
	g.bins.runs = make([]run, g.bins.start[n])
	at := make([]int32, n)
	for i := range list {
		if b := &list[i]; b.n > 0 {
			g.bins.runs[g.bins.start[b.cell]+at[b.cell]] = b.run
			at[b.cell]++
		}
	}
	if len(g.ink.words) > 0 {
		g.bins.words = make([][]int32, n)
		for i := range g.ink.words {
			hits = g.over(g.ink.words[i].ink, hits[:0])
			for _, c := range hits {
				g.bins.words[c] = append(g.bins.words[c], int32(i))
			}
		}
	}
	if len(g.ink.areas) > 0 {
		g.bins.areas = make([][]int32, n)
		for i := range g.ink.areas {
			hits = g.over(g.ink.areas[i].box, hits[:0])
			for _, c := range hits {
				if meets(g.ink.areas[i].rings, g.cells[c].win) {
					g.bins.areas[c] = append(g.bins.areas[c], int32(i))
				}
			}
		}
	}
	g.binPictures()
}

// of returns a cell's runs.
func (b *bins) of(c int32) []run { return b.runs[b.start[c]:b.start[c+1]] }

// touch appends the pages whose windows a line of so much half width touches.
func (g *grid) touch(a, b geom.Point, half float64, dst []int32) []int32 {
	if g.strips != nil {
		dst = g.over(geom.EmptyRect().Include(a).Include(b).Grow(half), dst)
		kept := dst[:0]
		for _, c := range dst {
			if _, _, ok := tiling.ClipSegment(a, b, g.cells[c].win.Grow(half)); ok {
				kept = append(kept, c)
			}
		}
		return kept
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	x0, x1 := min(a.X, b.X), max(a.X, b.X)
	r0 := int(math.Ceil((a.Y-half-g.live.Y-g.base.Y)/g.step.Y)) - g.first[1]
	r1 := int(math.Floor((b.Y+half-g.base.Y)/g.step.Y)) - g.first[1]
	for r := r0; r <= r1; r++ {
		xa, xb := x0, x1
		if r0 != r1 && b.Y > a.Y {
			bottom := g.base.Y + float64(r+g.first[1])*g.step.Y - half
			k := (b.X - a.X) / (b.Y - a.Y)
			from := a.X + k*(max(a.Y, bottom)-a.Y)
			to := a.X + k*(min(b.Y, bottom+g.live.Y+2*half)-a.Y)
			xa, xb = min(from, to), max(from, to)
		}
		dst = g.inRow(r, xa-half, xb+half, dst)
	}
	return dst
}

// inRow appends the printed pages of row r whose windows touch x0 to x1.
func (g *grid) inRow(r int, x0, x1 float64, dst []int32) []int32 {
	c0 := int(math.Ceil((x0-g.live.X-g.base.X)/g.step.X)) - g.first[0]
	c1 := int(math.Floor((x1-g.base.X)/g.step.X)) - g.first[0]
	for c := c0; c <= c1; c++ {
		if i := g.place.get(c, r); i >= 0 {
			dst = append(dst, i)
		}
	}
	return dst
}

// over appends the pages whose windows a box touches.
func (g *grid) over(box geom.Rect, dst []int32) []int32 {
	if g.strips != nil {
		return g.strips.over(g, box, dst)
	}
	r0 := int(math.Ceil((box.Min.Y-g.live.Y-g.base.Y)/g.step.Y)) - g.first[1]
	r1 := int(math.Floor((box.Max.Y-g.base.Y)/g.step.Y)) - g.first[1]
	for r := r0; r <= r1; r++ {
		dst = g.inRow(r, box.Min.X, box.Max.X, dst)
	}
	return dst
}

// meets reports whether a filled area shows in a box.
func meets(rings [][]geom.Point, box geom.Rect) bool {
	for _, r := range rings {
		for i, a := range r {
			if _, _, ok := tiling.ClipSegment(a, r[(i+1)%len(r)], box); ok {
				return true
			}
		}
	}
	// No edge shows: the box lies wholly inside or wholly outside.
	cuts := crossings(rings, box.Mid().Y, nil)
	n := 0
	for _, x := range cuts {
		if x < box.Mid().X {
			n++
		}
	}
	return n%2 == 1
}
