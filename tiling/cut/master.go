package cut

import (
	"math"
	"slices"
)

// wholeSlack is how far from a whole number an amount of the linear program still is one.
const wholeSlack = 1e-6

// master is the linear program of one node: rows for what is demanded, for resources and for columns that
// may be taken only so often.
type master struct {
	*search
	residue

	rowOf    []int // by item, -1 where nothing of it is left
	right    []float64
	resource int // first resource row
	capRow   map[int]int
	lp       *program
	inLP     []int // columns by the program's numbers
	known    map[int]bool
}

type amount struct {
	col    int
	amount float64
}

// relaxation is what the linear program says: amounts above 0 by column, and a bound on the cost, both
// in the program's scale.
type relaxation struct {
	amounts    []amount
	bound      float64
	infeasible bool
	gaveUp     bool
}

func (r *relaxation) whole() bool {
	for _, a := range r.amounts {
		if math.Abs(a.amount-math.Round(a.amount)) > wholeSlack {
			return false
		}
	}
	return true
}

// branch chooses the column to branch on: of amounts that are no whole numbers the one that is nearest to
// the next, of equals the lower column.
func (r *relaxation) branch() amount {
	best, most := amount{}, -1.0
	for _, a := range r.amounts {
		f := a.amount - math.Floor(a.amount)
		if f < wholeSlack || f > 1-wholeSlack {
			continue
		}
		if f > most+1e-9 {
			best, most = a, f
		}
	}
	return best
}

func (m *master) relax() relaxation {
	rows := m.build()
	if rows == 0 {
		return relaxation{}
	}
	best := math.Inf(-1)
	for {
		if m.work >= m.budget {
			return m.giveUp(best)
		}
		if !m.lp.improve() {
			return m.giveUp(best)
		}
		if found, _ := m.price(true); found {
			continue
		}
		found, bound := m.price(false)
		if m.lp.feasible {
			best = max(best, bound)
			whole := wholeUp(best * m.scale)
			if m.spent+whole >= m.least {
				return relaxation{bound: best}
			}
			if whole >= math.Ceil(m.lp.total()*m.scale-wholeSlack) {
				break // more columns could not raise what is proved
			}
		} else if bound > 1e-6 {
			return relaxation{infeasible: true}
		}
		if !found {
			if !m.lp.feasible { // lacking, but not by enough to be sure: leave it undecided
				return m.giveUp(best)
			}
			break
		}
	}
	return relaxation{bound: max(0, best), amounts: m.amounts()}
}

// giveUp is what is known before the program came to its end; its amounts are good to round, no more.
func (m *master) giveUp(bound float64) relaxation {
	r := relaxation{bound: max(0, bound), gaveUp: true}
	if m.lp.feasible {
		r.amounts = m.amounts()
	}
	return r
}

func (m *master) amounts() []amount {
	var out []amount
	for i, b := range m.lp.basis {
		if b >= 0 && m.lp.value[i] > wholeSlack {
			out = append(out, amount{m.inLP[b], m.lp.value[i]})
		}
	}
	slices.SortFunc(out, func(a, b amount) int { return a.col - b.col })
	return out
}

// build makes the rows and gives the program every column that fits what is left.
func (m *master) build() int {
	m.rowOf = make([]int, len(m.demand()))
	var right []float64
	var least []bool
	for i, d := range m.demand() {
		m.rowOf[i] = -1
		if d > 0 {
			m.rowOf[i] = len(right)
			right, least = append(right, float64(d)), append(least, true)
		}
	}
	if len(right) == 0 {
		return 0
	}
	m.resource = len(right)
	for _, h := range m.residue.have {
		right, least = append(right, max(0, h)), append(least, false)
	}
	m.capRow = map[int]int{}
	capped := make([]int, 0, len(m.caps))
	for c := range m.caps {
		capped = append(capped, c)
	}
	slices.Sort(capped)
	for _, c := range capped {
		if m.caps[c] > 0 && m.usable(c) {
			m.capRow[c] = len(right)
			right, least = append(right, float64(m.caps[c])), append(least, false)
		}
	}
	m.right = right
	m.lp = newProgram(right, least, &m.work, m.budget)
	m.known = map[int]bool{}
	for c := range m.cols {
		if m.usable(c) {
			m.enter(c)
		}
	}
	return len(right)
}

func (m *master) demand() []int { return m.residue.demand }

// usable says whether a column is one that a way of cutting exactly what is left can hold.
func (m *master) usable(c int) bool {
	if most, ok := m.caps[c]; ok && most <= 0 {
		return false
	}
	col := &m.cols[c]
	return fits(col.counts, m.demand()) && m.kinds[col.kind].fits(m.residue.have)
}

func (m *master) enter(c int) {
	if m.known[c] {
		return
	}
	m.known[c] = true
	col := &m.cols[c]
	k := &m.kinds[col.kind]
	s := sparse{cost: k.cost / m.scale}
	put := func(row int, v float64) {
		s.rows, s.vals = append(s.rows, row), append(s.vals, v)
	}
	for i, n := range col.counts {
		if n > 0 {
			put(m.rowOf[i], float64(n))
		}
	}
	for r, u := range k.use {
		if u != 0 {
			put(m.resource+r, u)
		}
	}
	if row, ok := m.capRow[c]; ok {
		put(row, 1)
	}
	m.lp.add(s)
	m.inLP = append(m.inLP, c)
}

// price fills one bar of each kind at the program's prices. It says whether a column came that lowers the
// cost, and gives Lagrange's bound on the cost of the phase under way: the prices' worth of the right
// sides, less what any bar could still save times the number of bars there can be.
// A rough pricing only looks for columns.
func (m *master) price(rough bool) (found bool, bound float64) {
	m.lp.price()
	duals := m.lp.duals
	worth := make([]float64, len(m.rowOf))
	pieces := 0
	for i, row := range m.rowOf {
		if row >= 0 {
			worth[i] = max(0, duals[row])
			bound += worth[i] * m.right[row]
			pieces += m.demand()[i]
		}
	}
	for row := m.resource; row < m.lp.m; row++ {
		bound += min(0, duals[row]) * m.right[row]
	}
	for j, c := range m.inLP {
		if row, ok := m.capRow[c]; ok {
			bound += min(0, m.lp.reduced(&m.lp.cols[j])) * m.right[row]
		}
	}
	for k := range m.kinds {
		kd := &m.kinds[k]
		if !kd.fits(m.residue.have) {
			continue
		}
		floor := 0.0
		if m.lp.feasible {
			floor = kd.cost / m.scale
		}
		times := pieces
		for r, u := range kd.use {
			floor -= min(0, duals[m.resource+r]) * u
			if u > 0 {
				times = min(times, int((m.residue.have[r]+fitSlack)/u))
			}
		}
		f := m.fill.fill(k, worth, m.demand(), floor+reducedZero, func(counts []int) bool {
			c, ok := m.byKey[key(k, counts)]
			if !ok {
				return false
			}
			_, capped := m.caps[c]
			return capped
		}, rough)
		bound -= max(0, f.upper-floor) * float64(times)
		if f.counts != nil {
			c := m.column(filled{k, f.counts, f.layout})
			if !m.known[c] {
				found = true
			}
			m.enter(c)
		}
	}
	return found, bound
}
