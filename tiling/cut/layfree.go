package cut

import "slices"

// layFree puts pieces in order, each as often as it fits, where no other lies: into the largest rectangles
// that are still empty, which overlap each other, so that cuts need not run from edge to edge.
func (f *bestBoard) layFree(board rectangle, worth []float64, most, order []int, s style) laid {
	out := laid{root: waste(0, 0, board), counts: make([]int, len(f.items))}
	empty := []cell{*waste(0, 0, board)}
	for _, i := range order {
		t := f.items[i]
		for out.counts[i] < most[i] {
			at, way := -1, rectangle{}
			var least [2]int64
			for e := range empty {
				c := &empty[e]
				for _, w := range t.ways() {
					if !c.size.holds(w) {
						continue
					}
					var spare [2]int64
					switch s.parted {
					case 0: // nearest to the corner
						spare = [2]int64{c.x + w.l + c.y + w.w, c.y}
					case 1: // tightest
						a, b := c.size.l-w.l, c.size.w-w.w
						spare = [2]int64{min(a, b), max(a, b)}
					default: // lowest, then leftmost
						spare = [2]int64{c.y + w.w, c.x}
					}
					if at < 0 || slices.Compare(spare[:], least[:]) < 0 {
						at, way, least = e, w, spare
					}
				}
			}
			*f.work += int64(100 + 20*len(empty))
			if at < 0 {
				break
			}
			p := &cell{x: empty[at].x, y: empty[at].y, size: way, item: i, turned: way != t.rectangle}
			out.root.loose = append(out.root.loose, p)
			empty = without(empty, p)
			*f.work += int64(300 + 12*len(empty)*len(empty))
			out.counts[i]++
			out.worth += worth[i]
		}
	}
	return out
}

// without takes a piece out of the largest empty rectangles: those it meets are replaced by what is left of
// them on its four sides, less what lies in another.
func without(empty []cell, p *cell) []cell {
	var out []cell
	keep := func(x, y, l, w int64) {
		if l > 0 && w > 0 {
			out = append(out, *waste(x, y, rectangle{l, w}))
		}
	}
	px, py := p.x+p.size.l, p.y+p.size.w
	for _, e := range empty {
		ex, ey := e.x+e.size.l, e.y+e.size.w
		if p.x >= ex || px <= e.x || p.y >= ey || py <= e.y {
			out = append(out, e)
			continue
		}
		keep(e.x, e.y, p.x-e.x, e.size.w)
		keep(px, e.y, ex-px, e.size.w)
		keep(e.x, e.y, e.size.l, p.y-e.y)
		keep(e.x, py, e.size.l, ey-py)
	}
	in := func(a, b *cell) bool {
		return a.x >= b.x && a.y >= b.y && a.x+a.size.l <= b.x+b.size.l && a.y+a.size.w <= b.y+b.size.w
	}
	kept := out[:0:0]
	for i := range out {
		inside := false
		for j := range out {
			// Of two equal ones the first stays.
			if i != j && in(&out[i], &out[j]) && (j < i || !in(&out[j], &out[i])) {
				inside = true
				break
			}
		}
		if !inside {
			kept = append(kept, out[i])
		}
	}
	return kept
}
