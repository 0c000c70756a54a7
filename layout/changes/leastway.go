package changes

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// most is how many things are paired by the least way in all; of more each goes where the first one in order is wanted, which is the least
// way too for what is all moved alike.
const most = 400

// never is the way between things that do not serve: more than most ways within the reach of a set.
const never = 1e11

// leastWay pairs n things with m places, each with one at most: as many as fit, and those by the least way in all; of equals the
// earlier with the earlier. It is the assignment of least cost (H. W. Kuhn, The Hungarian method for the assignment problem, Naval
// Research Logistics Quarterly 2, 1955), by shortest augmenting paths with potentials.
func leastWay(n, m int, way func(i, j int) (far float64, fits bool)) []swap {
	if n == 0 || m == 0 {
		return nil
	}
	if min(n, m) > most || max(n, m) > 5*most {
		return inOrder(n, m, way)
	}
	out := assign(n, m, func(i, j int) float64 {
		if far, fits := way(i, j); fits {
			return far
		}
		return never
	})
	earlier(out, n, way)
	return out
}

// assign pairs the fewer of the two with the more.
func assign(n, m int, way func(i, j int) float64) []swap {
	if n > m { // rows are the fewer
		turned := assign(m, n, func(i, j int) float64 { return way(j, i) })
		for k, p := range turned {
			turned[k] = swap{p.new, p.old}
		}
		slices.SortFunc(turned, func(a, b swap) int { return cmp.Compare(a.old, b.old) })
		return turned
	}
	cost := make([]float64, n*m)
	for i := range n {
		for j := range m {
			cost[i*m+j] = way(i, j)
		}
	}
	u, v := make([]float64, n+1), make([]float64, m+1)
	of, from := make([]int, m+1), make([]int, m+1) // of a column: its row, and the column before it on the path; 0 is none
	for i := 1; i <= n; i++ {
		of[0] = i
		at := 0
		slack := make([]float64, m+1)
		for j := range slack {
			slack[j] = math.Inf(1)
		}
		used := make([]bool, m+1)
		for of[at] != 0 {
			used[at] = true
			row, step, next := of[at], math.Inf(1), 0
			for j := 1; j <= m; j++ {
				if used[j] {
					continue
				}
				if c := cost[(row-1)*m+j-1] - u[row] - v[j]; c < slack[j] {
					slack[j], from[j] = c, at
				}
				if slack[j] < step {
					step, next = slack[j], j
				}
			}
			for j := range used {
				if used[j] {
					u[of[j]] += step
					v[j] -= step
				} else {
					slack[j] -= step
				}
			}
			at = next
		}
		for at != 0 {
			of[at] = of[from[at]]
			at = from[at]
		}
	}
	var out []swap
	for j := 1; j <= m; j++ {
		if of[j] > 0 && cost[(of[j]-1)*m+j-1] < never {
			out = append(out, swap{of[j] - 1, j - 1})
		}
	}
	slices.SortFunc(out, func(a, b swap) int { return cmp.Compare(a.old, b.old) })
	return out
}

// earlier exchanges pairs and takes earlier things where the way is not longer for it.
func earlier(pairs []swap, n int, way func(i, j int) (far float64, fits bool)) {
	serves := make([]bool, n)
	for _, p := range pairs {
		serves[p.old] = true
	}
	far := func(i, j int) float64 {
		if d, fits := way(i, j); fits {
			return d
		}
		return never
	}
	for k := range pairs {
		p := &pairs[k]
		for i := range p.old {
			if !serves[i] && far(i, p.new) <= far(p.old, p.new)+geom.Tolerance {
				serves[i], serves[p.old] = true, false
				p.old = i
				break
			}
		}
	}
	slices.SortFunc(pairs, func(a, b swap) int { return cmp.Compare(a.old, b.old) })
	for k := range pairs {
		for l := k + 1; l < len(pairs); l++ {
			p, q := &pairs[k], &pairs[l]
			if p.new > q.new && far(p.old, q.new)+far(q.old, p.new) <= far(p.old, p.new)+far(q.old, q.new)+geom.Tolerance {
				p.new, q.new = q.new, p.new
			}
		}
	}
}

// inOrder gives each place in turn the first thing that is left and fits.
func inOrder(n, m int, way func(i, j int) (far float64, fits bool)) []swap {
	gone := make([]bool, n)
	var out []swap
	first := 0
	for j := range m {
		for first < n && gone[first] {
			first++
		}
		for i := first; i < n; i++ {
			if _, fits := way(i, j); fits && !gone[i] {
				gone[i] = true
				out = append(out, swap{i, j})
				break
			}
		}
	}
	return out
}
