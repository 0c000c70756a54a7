package cut

import "math"

// sparse is a column of the linear program: its cost and what it puts into which row, rows rising.
type sparse struct {
	cost float64
	rows []int
	vals []float64
}

// program is a linear program in rows "at least" and "at most" with right sides that are not negative,
// solved by the revised simplex method with an explicit inverse. Columns may be added between calls of
// improve. Unknowns are basic columns; the others are 0.
//
// Basic variables are named by codes: a column's number; -1-2i, what row i has over or to spare;
// -2-2i, what row i still lacks.
//
// The right sides are loosened by a hair, each by another, so that corners in which many rows meet come apart and
// pivots move on; amounts are off by as little.
type program struct {
	m     int
	right []float64
	least []bool // row i is "at least"
	cols  []sparse

	inverse []float64 // m × m, row by row
	basis   []int
	value   []float64
	inBasis []bool // by column

	duals    []float64
	feasible bool // nothing is lacking any more: costs count
	since    int  // pivots since the inverse was last made anew
	stalls   int  // pivots in a row that moved nothing
	entering []float64
	work     *int64
	budget   int64
}

const (
	pivotLeast  = 1e-9
	reducedZero = 1e-9
	lackZero    = 1e-7
	loosened    = 1e-8
)

func newProgram(right []float64, least []bool, work *int64, budget int64) *program {
	m := len(right)
	loose := make([]float64, m)
	for i, r := range right {
		by := loosened * (1 + math.Mod(float64(i+1)*0.6180339887498949, 1))
		if least[i] {
			by = -by
		}
		loose[i] = max(0, r+by)
	}
	p := &program{
		m: m, right: loose, least: least, work: work, budget: budget,
		inverse: make([]float64, m*m), basis: make([]int, m), value: make([]float64, m),
		duals: make([]float64, m), entering: make([]float64, m),
	}
	for i := range m {
		p.inverse[i*m+i] = 1
		p.value[i] = loose[i]
		p.basis[i] = -1 - 2*i
		if least[i] {
			p.basis[i] = -2 - 2*i
		}
	}
	p.feasible = p.lacking() <= lackZero
	return p
}

func (p *program) add(c sparse) {
	p.cols = append(p.cols, c)
	p.inBasis = append(p.inBasis, false)
}

// lacking is by how much the rows "at least" are not met yet.
func (p *program) lacking() float64 {
	sum := 0.0
	for i, b := range p.basis {
		if isLack(b) {
			sum += p.value[i]
		}
	}
	return sum
}

func isLack(code int) bool { return code < 0 && code%2 == 0 }

// cost is what a basic variable costs in the phase under way: first what is lacking, then the columns' own.
func (p *program) cost(code int) float64 {
	switch {
	case code >= 0 && p.feasible:
		return p.cols[code].cost
	case isLack(code) && !p.feasible:
		return 1
	}
	return 0
}

// total is the cost of what the basis holds in the phase under way.
func (p *program) total() float64 {
	sum := 0.0
	for i, b := range p.basis {
		sum += p.cost(b) * p.value[i]
	}
	return sum
}

// price sets the duals: what one more of each row's right side would cost.
func (p *program) price() {
	for j := range p.duals {
		p.duals[j] = 0
	}
	for i, b := range p.basis {
		c := p.cost(b)
		if c == 0 {
			continue
		}
		row := p.inverse[i*p.m : (i+1)*p.m]
		for j, v := range row {
			p.duals[j] += c * v
		}
	}
	*p.work += int64(p.m * p.m)
}

// reduced is the reduced cost of a column at the duals.
func (p *program) reduced(c *sparse) float64 {
	d := 0.0
	if p.feasible {
		d = c.cost
	}
	for k, r := range c.rows {
		d -= c.vals[k] * p.duals[r]
	}
	return d
}

// improve pivots until no column at hand lowers the cost, first of what is lacking, then of the columns. It
// says whether it came to an end; it does not where the work runs out or rounding keeps it going in circles.
func (p *program) improve() bool {
	for n := range 2000 + 200*p.m {
		if *p.work >= p.budget && n > 0 {
			return false
		}
		p.price()
		in, code := p.choose()
		if !in {
			if !p.feasible && p.lacking() <= lackZero {
				p.feasible = true
				continue
			}
			return true
		}
		if !p.pivot(code) {
			return true
		}
		if !p.feasible && p.lacking() <= lackZero {
			p.feasible = true
		}
	}
	return false
}

// choose finds the variable that comes into the basis: the one of least reduced cost, or after many
// pivots that moved nothing the first of any, which cannot go in circles (Bland 1977).
func (p *program) choose() (found bool, code int) {
	bland := p.stalls > 30+p.m
	least := -reducedZero
	for j := range p.cols {
		if p.inBasis[j] {
			continue
		}
		if d := p.reduced(&p.cols[j]); d < least {
			least, code, found = d, j, true
			if bland {
				return
			}
		}
	}
	*p.work += int64(4 * len(p.cols))
	for i := range p.m {
		// Over in "at least" enters with -1, to spare in "at most" with +1; either costs nothing.
		d := -p.duals[i]
		if p.least[i] {
			d = p.duals[i]
		}
		if d < least {
			least, code, found = d, -1-2*i, true
			if bland {
				return
			}
		}
	}
	return
}

// pivot brings a variable into the basis; false where nothing bounds it, which costs that are not negative
// rule out but for rounding.
func (p *program) pivot(code int) bool {
	m := p.m
	e := p.entering
	for i := range e {
		e[i] = 0
	}
	if code >= 0 {
		c := &p.cols[code]
		for i := range m {
			row := p.inverse[i*m : (i+1)*m]
			sum := 0.0
			for k, r := range c.rows {
				sum += row[r] * c.vals[k]
			}
			e[i] = sum
		}
	} else {
		j := (-1 - code) / 2
		sign := 1.0
		if p.least[j] {
			sign = -1
		}
		for i := range m {
			e[i] = sign * p.inverse[i*m+j]
		}
	}
	out, step := -1, math.Inf(1)
	for i, v := range e {
		var s float64
		switch {
		case p.feasible && isLack(p.basis[i]) && math.Abs(v) > pivotLeast:
			s = 0 // what lacks nothing must stay so
		case v > pivotLeast:
			s = max(0, p.value[i]) / v
		default:
			continue
		}
		switch {
		case out < 0 || s < step-1e-12:
			out, step = i, s
		case s <= step+1e-12 && p.better(i, out):
			out, step = i, min(s, step)
		}
	}
	if out < 0 {
		return false
	}
	if step <= 1e-12 {
		p.stalls++
	} else {
		p.stalls = 0
	}
	p.swap(out, code, step)
	return true
}

// better says whether row i rather than k leaves the basis where both bound the step alike: what is lacking
// first, then the larger pivot, which rounds less; in a stall the lower code, as Bland's rule wants.
func (p *program) better(i, k int) bool {
	a, b := p.basis[i], p.basis[k]
	if isLack(a) != isLack(b) {
		return isLack(a)
	}
	if p.stalls > 30+p.m {
		return a < b
	}
	return math.Abs(p.entering[i]) > math.Abs(p.entering[k])
}

func (p *program) swap(out, code int, step float64) {
	m, e := p.m, p.entering
	pivotRow := p.inverse[out*m : (out+1)*m]
	by := 1 / e[out]
	for j := range pivotRow {
		pivotRow[j] *= by
	}
	for i := range m {
		if i == out || e[i] == 0 {
			continue
		}
		f := e[i]
		row := p.inverse[i*m : (i+1)*m]
		for j, v := range pivotRow {
			row[j] -= f * v
		}
		p.value[i] -= f * step
		if p.value[i] < 0 && p.value[i] > -1e-10 {
			p.value[i] = 0
		}
	}
	p.value[out] = step
	if b := p.basis[out]; b >= 0 {
		p.inBasis[b] = false
	}
	p.basis[out] = code
	if code >= 0 {
		p.inBasis[code] = true
	}
	*p.work += int64(m * m)
	if p.since++; p.since >= 60 {
		p.refresh()
	}
}

// refresh makes the inverse anew from the basis, so that rounding does not add up.
func (p *program) refresh() {
	m := p.m
	p.since = 0
	a := make([]float64, m*m)
	for k, code := range p.basis {
		switch {
		case code >= 0:
			c := &p.cols[code]
			for t, r := range c.rows {
				a[r*m+k] = c.vals[t]
			}
		case isLack(code):
			a[(-2-code)/2*m+k] = 1
		default:
			j := (-1 - code) / 2
			a[j*m+k] = 1
			if p.least[j] {
				a[j*m+k] = -1
			}
		}
	}
	inv := make([]float64, m*m)
	for i := range m {
		inv[i*m+i] = 1
	}
	for k := range m {
		best := k
		for i := k + 1; i < m; i++ {
			if math.Abs(a[i*m+k]) > math.Abs(a[best*m+k]) {
				best = i
			}
		}
		if math.Abs(a[best*m+k]) < 1e-12 {
			return // the updated inverse serves on
		}
		if best != k {
			for j := range m {
				a[k*m+j], a[best*m+j] = a[best*m+j], a[k*m+j]
				inv[k*m+j], inv[best*m+j] = inv[best*m+j], inv[k*m+j]
			}
		}
		by := 1 / a[k*m+k]
		for j := range m {
			a[k*m+j] *= by
			inv[k*m+j] *= by
		}
		for i := range m {
			f := a[i*m+k]
			if i == k || f == 0 {
				continue
			}
			for j := range m {
				a[i*m+j] -= f * a[k*m+j]
				inv[i*m+j] -= f * inv[k*m+j]
			}
		}
	}
	copy(p.inverse, inv)
	for i := range m {
		sum := 0.0
		for j := range m {
			sum += p.inverse[i*m+j] * p.right[j]
		}
		p.value[i] = max(0, sum)
	}
	*p.work += int64(m * m * m)
}
