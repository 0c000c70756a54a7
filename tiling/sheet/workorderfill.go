package sheet

import (
	"cmp"
	"slices"

	"markout/layout/geom"
)

// place sets one block, of its things the first so many, in n columns, its top at y. What is left out is counted under them.
func (b *workBody) place(k *workBlock, things, n int, y float64) (spots []workSpot, foot float64) {
	left := b.box.Min.X
	spots, y = stackParts(k.head, left, y, nil)
	if things > 0 {
		parts := k.ways[n-1][:things]
		tall := level(parts, n)
		set, _ := flowParts(parts, columnsIn(geom.Rect{Min: geom.Point{X: left, Y: y - tall}, Max: geom.Point{X: b.box.Max.X, Y: y}}, n, workApart))
		spots, y = append(spots, set...), y-tall
	}
	if hidden := k.all - things; hidden > 0 {
		spots, y = stackParts([]workPart{b.more(hidden, k.thing)}, left, y, spots)
	}
	return stackParts(k.foot, left, y, spots)
}

// columns is in how many columns a block's first things are least tall, of equals the fewest.
func (k *workBlock) columns(things, most int) int {
	best, least := 1, 0.0
	for n := 1; n <= most; n++ {
		if len(k.ways[n-1]) < things {
			continue
		}
		if tall := level(k.ways[n-1][:things], n); n == 1 || tall < least-geom.Tolerance {
			best, least = n, tall
		}
	}
	return best
}

// lay sets the blocks of the first steps, of each the first so many things as caps has; ok is false where they do not find room.
func (b *workBody) lay(steps int, caps []int, most int) (spots []workSpot, ok bool) {
	y := b.box.Max.Y
	for i := range b.blocks {
		k := &b.blocks[i]
		if k.step >= steps {
			break
		}
		var set []workSpot
		set, y = b.place(k, caps[i], k.columns(caps[i], most), y)
		spots = append(spots, set...)
		if y < b.box.Min.Y-geom.Tolerance {
			return nil, false
		}
	}
	if hidden := b.steps - steps; hidden > 0 {
		spots, y = stackParts([]workPart{b.more(hidden, "step")}, b.box.Min.X, y, spots)
	}
	return spots, y >= b.box.Min.Y-geom.Tolerance
}

// whole sets all there is, in as few columns as give it room; ok is false where even the most do not.
func (b *workBody) whole() (spots []workSpot, ok bool) {
	caps := make([]int, len(b.blocks))
	for i := range b.blocks {
		if caps[i] = b.blocks[i].all; caps[i] > len(b.blocks[i].ways[0]) {
			return nil, false
		}
	}
	for most := 1; most <= workColumns; most++ {
		if spots, ok := b.lay(b.steps, caps, most); ok {
			return spots, true
		}
	}
	return nil, false
}

// fill sets as much as finds room: of every step one thing, then one more and so on, steps with few things first. Where not even the
// headings find room, the last steps are left out. It returns of how many blocks something is shown, and how many things.
func (b *workBody) fill() (spots []workSpot, said, things int) {
	caps := make([]int, len(b.blocks))
	steps := b.steps
	fits := func() bool { _, ok := b.lay(steps, caps, workColumns); return ok }
	if !fits() {
		steps = max(0, greatest(b.steps, func(n int) bool { steps = n; return fits() }))
	}
	var few []int // the blocks, those with few things first
	for i := range b.blocks {
		if b.blocks[i].step < steps {
			few = append(few, i)
		}
	}
	slices.SortStableFunc(few, func(i, k int) int { return cmp.Compare(b.blocks[i].all, b.blocks[k].all) })
	for more := true; more; {
		more = false
		for _, i := range few {
			if caps[i] == len(b.blocks[i].ways[0]) {
				continue
			}
			if caps[i]++; fits() { // what found no room may find some once another block is whole and counts nothing more
				more = true
			} else {
				caps[i]--
			}
		}
	}
	for _, n := range caps {
		said, things = said+min(n, 1), things+n
	}
	spots, _ = b.lay(steps, caps, workColumns)
	return spots, said, things
}
