package trace

import (
	"math"
	"slices"

	"markout/layout/geom"
)

// bands holds chords by the strips of rows that they reach into.
type bands struct {
	chords []chord
	first  int
	rows   [][]int32
}

func newBands(chords []chord) *bands {
	b := &bands{chords: chords}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range chords {
		lo, hi = min(lo, c.a.Y, c.b.Y), max(hi, c.a.Y, c.b.Y)
	}
	if len(chords) == 0 {
		return b
	}
	b.first = int(math.Floor(lo / cell))
	b.rows = make([][]int32, int(math.Floor(hi/cell))-b.first+1)
	for i, c := range chords {
		for y := int(math.Floor(min(c.a.Y, c.b.Y)/cell)) - b.first; y <= int(math.Floor(max(c.a.Y, c.b.Y)/cell))-b.first; y++ {
			b.rows[y] = append(b.rows[y], int32(i))
		}
	}
	return b
}

// around returns the rings, in order, that q lies in.
func (b *bands) around(q geom.Point) []int32 {
	y := int(math.Floor(q.Y/cell)) - b.first
	if y < 0 || y >= len(b.rows) {
		return nil
	}
	var crossed []int32
	for _, i := range b.rows[y] {
		c := &b.chords[i]
		if (c.a.Y <= q.Y) == (c.b.Y <= q.Y) {
			continue
		}
		if x := c.a.X + (q.Y-c.a.Y)/(c.b.Y-c.a.Y)*(c.b.X-c.a.X); x > q.X {
			crossed = append(crossed, c.ring)
		}
	}
	slices.Sort(crossed)
	var in []int32
	for i := 0; i < len(crossed); {
		j := i
		for j < len(crossed) && crossed[j] == crossed[i] {
			j++
		}
		if (j-i)%2 == 1 {
			in = append(in, crossed[i])
		}
		i = j
	}
	return in
}

// misplaced returns the rings that do not lie in the rings that they should: without crossing it, a fitted outline may
// jump over a body or a hole as small as the tolerance. With each come those that it lies wrong to.
func misplaced(chords []chord, os []outline) [][]int {
	b := newBands(chords)
	var out [][]int
	place := map[*loop]int32{}
	for i := range os {
		place[os[i].ring.loop] = int32(i)
	}
	for i := range os {
		own := int32(i)
		in := slices.DeleteFunc(b.around(os[i].pieces[0].cubic[0]), func(k int32) bool { return k == own })
		var should []int32
		for l := os[i].ring.loop.around; l != nil; l = l.around {
			should = append(should, place[l])
		}
		slices.Sort(should)
		if slices.Equal(in, should) {
			continue
		}
		wrong := []int{i}
		for _, k := range append(in, should...) {
			if slices.Contains(in, k) != slices.Contains(should, k) {
				wrong = append(wrong, int(k))
			}
		}
		out = append(out, wrong)
	}
	return out
}
