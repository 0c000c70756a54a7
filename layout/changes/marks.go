package changes

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/setout"
)

// Mark is a mark to be lifted from the floor or laid on it.
type Mark struct {
	Element, Point string     // a row that it belongs to, the first where several have it
	At             geom.Point // in the axes of the set whose mark it is
	Level          float64    // of the point that is marked
	Tape           string     // as the tape table names it: white 25 mm; empty where none is named
	Row            int        // of the layout that it belongs to: the old one's of a mark to lift, the new one's of a mark to lay
}

// Marks returns the marks of old that are to be lifted, in old's order, and those of new that are to be laid, in new's
// laying order. A mark that stands at the same place on the floor with the same tape stays, whatever it is called, wherever it
// comes in the order and however it was found. Points at one place with one tape are one mark.
//
// The place is that on the plan: what is above the floor is taped on the floor straight below it, so that a point that
// changes its height alone keeps its mark, and a mark made up on a piece rises and falls with the piece. Where both sets are
// measured from stations of one hall it is the place in that hall, so that a set that is shifted in its hall is laid anew. In
// another hall everything is.
func Marks(old, new *setout.Layout) (lift, lay []Mark) {
	a, b := floors(old, new)
	was, is := a.marks(), b.marks()
	stays := twins(len(was), len(is),
		func(i int) geom.Point { return a.place(was[i].At) },
		func(j int) geom.Point { return b.place(is[j].At) },
		func(i, j int) bool { return was[i].Tape == is[j].Tape })
	if a.elsewhere {
		stays = pairs{make([]bool, len(was)), make([]bool, len(is))}
	}
	return left(was, stays.a), left(is, stays.b)
}

// floor is what is laid of one set on the floor, and where on that floor.
type floor struct {
	*setout.Layout
	back      geom.Isometry // from the set's axes to those of the floor
	elsewhere bool          // the other set is laid on another floor
}

func floors(old, new *setout.Layout) (a, b floor) {
	same := geom.Isometry{A: 1, D: 1}
	a, b = floor{Layout: old, back: same}, floor{Layout: new, back: same}
	if !old.Measured() || !new.Measured() {
		return a, b
	}
	a.back, b.back = hallAxes(old.Set.Hall), hallAxes(new.Set.Hall)
	a.elsewhere = !oneHall(old, new)
	return a, b
}

func hallAxes(e *set.Element) geom.Isometry { return e.Copies[0].Places[0].Frame.Plan().Inverse() }

// oneHall reports whether two sets are measured out in one hall: it has its name still, or a station where one was.
func oneHall(old, new *setout.Layout) bool {
	if old.Set.Hall.Name == new.Set.Hall.Name {
		return true
	}
	p, q := hallAxes(old.Set.Hall), hallAxes(new.Set.Hall)
	for _, s := range old.Stations {
		for _, t := range new.Stations {
			if p.Apply(s.At).Near(q.Apply(t.At)) {
				return true
			}
		}
	}
	return false
}

func (f floor) place(p geom.Point) geom.Point { return f.back.Apply(p) }

// marks returns the marks of a layout, each once.
func (f floor) marks() []Mark {
	var out []Mark
	seen := newSpots(len(f.Rows))
	for i := range f.Rows {
		r := &f.Rows[i]
		m := Mark{Element: r.Element, Point: r.Point, At: r.At, Level: r.Level, Tape: f.TapeName(r.Tape), Row: i}
		if seen.find(r.At, func(j int) bool { return out[j].Tape == m.Tape && out[j].At.Near(r.At) }) >= 0 {
			continue
		}
		seen.add(r.At, len(out))
		out = append(out, m)
	}
	return out
}

// spots finds things by their places. Places within the tolerance of one another are found from one another.
type spots map[[2]int64][]int

func newSpots(n int) spots { return make(spots, n) }

// spotCell is the side of the squares in which places are looked up: much more than the tolerance.
const spotCell = 1000 * geom.Tolerance

func spotOf(x, y float64) [2]int64 {
	return [2]int64{int64(math.Floor(x / spotCell)), int64(math.Floor(y / spotCell))}
}

func (s spots) add(p geom.Point, i int) {
	k := spotOf(p.X, p.Y)
	s[k] = append(s[k], i)
}

// find returns the first thing about p that fits, −1 where none does.
func (s spots) find(p geom.Point, fits func(i int) bool) int {
	var seen [4][2]int64
	n := 0
	for _, d := range [4][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
		k := spotOf(p.X+d[0]*geom.Tolerance, p.Y+d[1]*geom.Tolerance)
		again := false
		for _, c := range seen[:n] {
			again = again || c == k
		}
		if again {
			continue
		}
		seen[n] = k
		n++
		for _, i := range s[k] {
			if fits(i) {
				return i
			}
		}
	}
	return -1
}

// pairs says of each thing of two lists whether it has its like in the other.
type pairs struct{ a, b []bool }

// twins pairs things of two lists that stand at one place and are alike, one to one.
func twins(n, m int, atA, atB func(i int) geom.Point, alike func(i, j int) bool) pairs {
	p := pairs{make([]bool, n), make([]bool, m)}
	there := newSpots(m)
	for j := range m {
		there.add(atB(j), j)
	}
	for i := range n {
		at := atA(i)
		j := there.find(at, func(j int) bool { return !p.b[j] && at.Near(atB(j)) && alike(i, j) })
		if j >= 0 {
			p.a[i], p.b[j] = true, true
		}
	}
	return p
}

// left returns what has no like.
func left[T any](list []T, has []bool) []T {
	var out []T
	for i, x := range list {
		if !has[i] {
			out = append(out, x)
		}
	}
	return out
}
