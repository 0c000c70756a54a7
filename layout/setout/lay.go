package setout

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// Lay works out the tape table of s. A point is taped from two stations wherever two serve: tapes long enough,
// crossing between LeastCrossing and MostCrossing, of several pairs the one with the least error. Where none does, laid
// points serve with the stations: at most 24 of them, the nearest three in each of eight directions; first the pair with
// the fewest links back to a station, of equals the least error, then by name.
//
// A point that can only be found from marks laid later comes after them. A point at the place of an earlier one is
// that one's mark and has its figures.
func Lay(s *set.Set) *Layout {
	l := &Layout{Set: s}
	l.Stations, l.Longest, l.Class = stations(s)
	rows := inOrder(s)
	if !l.Measured() {
		l.Rows = rows
		return l
	}
	w := newLayer(l, rows)
	w.run(rows)
	return l
}

// start is a place that a tape can start from.
type start struct {
	name  string
	at    geom.Point
	level float64
	row   int     // in Layout.Rows, −1 for a station
	links int     // tapes back to a station; 0 for a station itself
	err   float64 // how far the mark may lie from its place
}

// layer lays rows one after another.
type layer struct {
	*Layout
	fixed []start // the stations
	laid  *field
	marks map[[2]int64]int // laid rows by place
	tried map[[2]int64]int // how many rows were laid in a square of the floor, by which a waiting row knows that another try is worth while
	side  float64          // of those squares
	rays  []ray            // room for what one point sees
}

func newLayer(l *Layout, rows []Row) *layer {
	w := &layer{Layout: l, marks: make(map[[2]int64]int, len(rows)), tried: map[[2]int64]int{}}
	bounds := geom.EmptyRect()
	for i := range rows {
		bounds = bounds.Include(rows[i].At)
	}
	for _, s := range l.Stations {
		bounds = bounds.Include(s.At)
		w.fixed = append(w.fixed, start{name: s.Name, at: s.At, row: -1})
	}
	w.laid = newField(bounds)
	w.side = w.reach()
	if math.IsInf(w.side, 1) {
		w.side = max(bounds.W(), bounds.H()) + 1
	}
	w.rays = make([]ray, 0, len(w.fixed)+directions*nearest)
	l.Rows = make([]Row, 0, len(rows))
	return w
}

// reach is the length of the longest tape.
func (w *layer) reach() float64 {
	if w.Longest <= 0 {
		return math.Inf(1)
	}
	return w.Longest + geom.Tolerance
}

// reaches reports whether a tape can run so far.
func (w *layer) reaches(dist float64) bool { return dist <= w.reach() }

// waiting is a row that nothing served when so many rows were laid about it.
type waiting struct{ row, seen int }

// soon is how many of the waiting rows are tried again after each piece; all of them are after the last one.
const soon = 64

// run lays the rows in order. Those that nothing serves yet wait: the latest of them are tried after each piece, so that a
// piece is finished where it can be, and in the end all, from the last to the first and back as long as that lays any: a line
// of points far from the stations is found from its near end.
func (w *layer) run(rows []Row) {
	var wait []waiting
	for i := range rows {
		if i > 0 && rows[i].Element != rows[i-1].Element {
			from := max(len(wait)-soon, 0)
			wait = append(wait[:from], w.again(rows, wait[from:])...)
		}
		if !w.lay(&rows[i]) {
			wait = append(wait, waiting{i, w.laidAbout(rows[i].At)})
		}
	}
	for n := len(rows) + 1; len(wait) < n; {
		n = len(wait)
		slices.Reverse(wait)
		wait = w.again(rows, wait)
		slices.Reverse(wait)
		wait = w.again(rows, wait)
	}
	for _, t := range wait {
		r := &rows[t.row]
		r.Best = w.survey(w.laidRays(w.stationRays(r.At), r.At, math.Inf(1)))
		w.Unlaid = append(w.Unlaid, len(w.Rows))
		w.Rows = append(w.Rows, rows[t.row])
	}
}

// again tries the waiting rows about which something was laid, in their order, and returns those that go on waiting.
func (w *layer) again(rows []Row, wait []waiting) []waiting {
	rest := make([]waiting, 0, len(wait))
	for _, t := range wait {
		r := &rows[t.row]
		if now := w.laidAbout(r.At); now != t.seen {
			if w.lay(r) {
				continue
			}
			t.seen = now
		}
		rest = append(rest, t)
	}
	return rest
}

// lay finds the starts of r and puts it at the end of the table; it reports false where nothing serves yet.
func (w *layer) lay(r *Row) bool {
	if i, ok := w.markAt(r.At); ok {
		w.same(r, i)
	} else if !w.choose(r) {
		return false
	} else {
		w.mark(r)
	}
	r.How = w.how(r)
	w.Rows = append(w.Rows, *r)
	return true
}

// same gives r the figures of row i, whose mark stands at its place.
func (w *layer) same(r *Row, i int) {
	s := &w.Rows[i]
	r.Starts, r.Side, r.Crossing, r.Error, r.Links, r.Stations, r.Same = s.Starts, s.Side, s.Crossing, s.Error, s.Links, s.Stations, i
}

// mark makes r, which is about to become the last row, a start for later ones.
func (w *layer) mark(r *Row) {
	n := len(w.Rows)
	w.laid.add(start{name: r.Name(), at: r.At, level: r.Level, row: n, links: r.Links, err: r.Error})
	w.marks[cellOf(r.At, markCell)] = n
	w.tried[cellOf(r.At, w.side)]++
}

func (w *layer) how(r *Row) How {
	if math.Abs(r.Level) <= geom.Tolerance {
		return OnFloor
	}
	for _, t := range r.Starts[:2] {
		if t.Row < 0 {
			return Plumbed
		}
		if s := &w.Rows[t.Row]; math.Abs(s.Level-r.Level) > geom.Tolerance && math.Abs(s.Top-r.Level) > geom.Tolerance {
			return Plumbed
		}
	}
	return OnLevel
}

// markCell is the side of the squares in which laid marks are looked up: much more than the tolerance.
const markCell = 1000 * geom.Tolerance

func cellOf(p geom.Point, side float64) [2]int64 {
	return [2]int64{int64(math.Floor(p.X / side)), int64(math.Floor(p.Y / side))}
}

// markAt returns the row whose mark stands at p.
func (w *layer) markAt(p geom.Point) (int, bool) {
	for _, d := range [4]geom.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: 1, Y: 1}} {
		if i, ok := w.marks[cellOf(p.Add(d.Mul(geom.Tolerance)), markCell)]; ok && w.Rows[i].At.Near(p) {
			return i, true
		}
	}
	return 0, false
}

// laidAbout counts the rows laid within a tape's length of p, and some further ones.
func (w *layer) laidAbout(p geom.Point) int {
	c, n := cellOf(p, w.side), 0
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			n += w.tried[[2]int64{c[0] + dx, c[1] + dy}]
		}
	}
	return n
}
