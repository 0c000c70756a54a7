package cut

import (
	"slices"

	"markout/layout/geom"
)

func (j *blockJob) plan() *BlockPlan {
	p := &BlockPlan{Used: make([]int, len(j.stock)), Assumed: j.assumed()}
	var ways [][]stack // of each top, every one of a kind by itself
	grids := make([][]Layer, len(j.tops))
	bare := make([]bool, len(j.tops))
	for i, t := range j.tops {
		grids[i] = j.layers(t)
		var w []stack
		w, bare[i] = j.stacks(t, grids[i])
		for range t.Count {
			ways = append(ways, w)
		}
	}
	picked := j.pick(ways)
	var takes [mostLines]int
	for i, t := range j.tops {
		for k := range t.Count {
			s := ways[k][picked[k]]
			for l, n := range s.takes {
				takes[l] += n
			}
			if n := len(p.Tops); k > 0 && picked[k] == picked[k-1] {
				p.Tops[n-1].Count++
				continue
			}
			out := TopPlan{Top: i, ID: t.ID, Count: 1, Boxes: s.boxes(), Packing: s.packing, Bare: bare[i]}
			for _, l := range s.layers {
				out.Layers = append(out.Layers, grids[i][l])
			}
			out.Plates, out.Left = packing(s.packing, j.opt.Plates)
			p.Tops = append(p.Tops, out)
		}
		ways, picked = ways[t.Count:], picked[t.Count:]
	}
	for i := range j.stock {
		p.Used[i] = takes[i]
		p.Boxes += takes[i]
	}
	p.Short, _ = j.short(takes)
	p.Proven = j.proven
	return p
}

// mostSums is how many sums of plates are looked at.
const mostSums = 4000

// shim is what may be left to wedges and slips of veneer, in millimetres: no further plates are stacked for its sake (common
// practice, no source).
const shim = 3.0

// packing makes up a height from plates, thick to thin: with the fewest that come as near from below as plates can, or within a
// shim of that; of equals the nearest.
func packing(height float64, plates []float64) (out []float64, left float64) {
	type sum struct {
		height int64
		plates []float64
	}
	whole := units(height)
	nearest := int64(0)
	all := []sum{{}}
	// One plate more each round, so that a sum is first met with the fewest.
	round := []sum{{}}
	seen := map[int64]bool{0: true}
	for len(round) > 0 && len(seen) < mostSums {
		var next []sum
		for _, s := range round {
			for _, p := range plates {
				// Plates never grow thicker, so that each set of them is met once.
				if n := len(s.plates); n > 0 && p > s.plates[n-1] || units(p) < 1 {
					continue
				}
				h := s.height + units(p)
				if h > whole || seen[h] {
					continue
				}
				seen[h] = true
				t := sum{h, append(slices.Clone(s.plates), p)}
				nearest = max(nearest, h)
				next = append(next, t)
			}
		}
		all = append(all, next...)
		round = next
	}
	best := sum{height: -1}
	for _, s := range all { // the fewest plates first
		if s.height < nearest-units(shim) || best.height >= 0 && len(s.plates) > len(best.plates) {
			continue
		}
		if s.height > best.height {
			best = s
		}
	}
	if left = height - float64(best.height)*geom.Tolerance; left <= geom.Tolerance {
		left = 0
	}
	return best.plates, left
}
