package cut

// values are what rectangles of a board are worth at most, where pieces may be taken any number of times and
// cuts run from edge to edge (Gilmore and Gomory 1966). inside is of a rectangle at the places (i, j),
// beside of all that can be built around one that already stands in the corner (Viswanathan and Bagchi
// 1993).
type values struct {
	x, y   *axis
	inside []float64
	beside []float64
	single []int32 // by (i, j): the way that is the best single piece there, -1 none
	ways   []way
}

// way is an item lying one way.
type way struct {
	rectangle
	item  int
	worth float64
}

// newValues answers nil where a piece is too small for the axes to see it.
func newValues(board rectangle, ways []way, most []int, work *int64) *values {
	var ls, ws []int64
	var ns []int
	for _, w := range ways {
		ls, ws, ns = append(ls, w.l), append(ws, w.w), append(ns, most[w.item])
	}
	v := &values{x: newAxis(board.l, ls, ns), y: newAxis(board.w, ws, ns), ways: ways}
	nx, ny := len(v.x.places), len(v.y.places)
	v.inside = make([]float64, nx*ny)
	v.single = make([]int32, nx*ny)
	for i := range v.single {
		v.single[i] = -1
	}
	for k, w := range ways {
		if v.x.own(w.l) == 0 || v.y.own(w.w) == 0 {
			return nil
		}
		i, j := v.x.first(v.x.own(w.l)), v.y.first(v.y.own(w.w))
		if s := v.single[i*ny+j]; s < 0 || ways[s].worth < w.worth {
			v.single[i*ny+j] = int32(k)
		}
	}
	for i := range nx {
		for j := range ny {
			s := v.single[i*ny+j]
			better := func(t int32) {
				if t >= 0 && (s < 0 || ways[t].worth > ways[s].worth) {
					s = t
				}
			}
			if i > 0 {
				better(v.single[(i-1)*ny+j])
			}
			if j > 0 {
				better(v.single[i*ny+j-1])
			}
			v.single[i*ny+j] = s
			best := 0.0
			if s >= 0 {
				best = ways[s].worth
			}
			for a := 1; 2*v.x.places[a] <= v.x.places[i] && a < i; a++ {
				best = max(best, v.inside[a*ny+j]+v.inside[int(v.x.less[i*nx+a])*ny+j])
			}
			for a := 1; 2*v.y.places[a] <= v.y.places[j] && a < j; a++ {
				best = max(best, v.inside[i*ny+a]+v.inside[i*ny+int(v.y.less[j*ny+a])])
			}
			v.inside[i*ny+j] = best
		}
	}
	*work += int64(nx * ny * (nx + ny))
	return v
}

// around computes beside.
func (v *values) around(work *int64) {
	nx, ny := len(v.x.places), len(v.y.places)
	v.beside = make([]float64, nx*ny)
	for i := nx - 1; i >= 0; i-- {
		for j := ny - 1; j >= 0; j-- {
			best := 0.0
			// What is added to the right is no wider than the place it grows to less this one.
			for k := i + 1; k < nx; k++ {
				best = max(best, v.beside[k*ny+j]+v.inside[v.gap(v.x, i, k)*ny+j])
			}
			for k := j + 1; k < ny; k++ {
				best = max(best, v.beside[i*ny+k]+v.inside[i*ny+v.gap(v.y, j, k)])
			}
			v.beside[i*ny+j] = best
		}
	}
	*work += int64(2 * nx * ny * (nx + ny))
}

// gap is the place of what fits between places i and k of an axis. Between even parts both ends may be
// rounded, the near one down by almost a part.
func (v *values) gap(a *axis, i, k int) int { return int(a.less[k*len(a.places)+i]) }

// whole is what the whole board is worth at most.
func (v *values) whole() float64 { return v.inside[len(v.inside)-1] }

// exact says whether inside is reached by layouts, counts aside.
func (v *values) exact() bool { return v.x.exact && v.y.exact }

// layout cuts c, whose size is at the places (i, j), into what makes up inside.
func (v *values) layout(c *cell, i, j int, items []item) {
	nx, ny := len(v.x.places), len(v.y.places)
	best := v.inside[i*ny+j]
	if best == 0 {
		return
	}
	if s := v.single[i*ny+j]; s >= 0 && v.ways[s].worth >= best {
		w := v.ways[s]
		c.set(items[w.item], w.item, w.rectangle, Across, nil)
		return
	}
	for a := 1; 2*v.x.places[a] <= v.x.places[i] && a < i; a++ {
		if b := int(v.x.less[i*nx+a]); v.inside[a*ny+j]+v.inside[b*ny+j] >= best {
			near := c.part(Across, v.x.places[a])
			v.layout(near, a, j, items)
			v.layout(c.far, b, j, items)
			return
		}
	}
	for a := 1; 2*v.y.places[a] <= v.y.places[j] && a < j; a++ {
		if b := int(v.y.less[j*ny+a]); v.inside[i*ny+a]+v.inside[i*ny+b] >= best {
			near := c.part(Along, v.y.places[a])
			v.layout(near, i, a, items)
			v.layout(c.far, i, b, items)
			return
		}
	}
}
