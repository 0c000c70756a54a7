package setout

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// FitMargin is how far in millimetres a set is wanted to stay clear of walls and pillars unless said otherwise (common
// practice, no source).
const FitMargin = 100.0

// Fit says whether a set fits the hall worked in, without scaling, and where.
type Fit struct {
	Hall   string
	Fits   bool
	Turn   float64    // degrees, anticlockwise, about the set's own 0,0
	Shift  geom.Point // after the turn, in the axes as they stand
	Margin float64    // wanted, millimetres
	// Clear is how far the set stays from walls and pillars at that turn and shift: less than the margin where it does not fit,
	// less than 0 by the worst overhang.
	Clear   float64
	Outside []Outside // at that turn and shift, the worst first
	// AsItStands is what is outside where the set stands now, and Stands how far it stays clear there, as Clear.
	AsItStands []Outside
	Stands     float64
	NoTurn     bool // of one that does not fit: every turn is ruled out, not only those that were tried
	// Needs is the least width of what is too wide for the hall at any turn, and Width the hall's; 0 where nothing is. Wide is the
	// element, its copies together, that is so by the most; empty where only all of them together are.
	Wide         string
	Needs, Width float64
	Inside       int // elements that were placed in the hall's own axes, and are moved with the rest
	Braced       int // elements with a brace, which is not counted
}

// Outside is a piece, by its copy and position, that reaches beyond a wall or into a pillar.
type Outside struct {
	Element string
	By      float64 // millimetres
}

// FitHall looks whether s fits the hall worked in with margin. What counts is every piece that stands on the plan, in all its
// positions, a reserve too; not marks, ways, and what hangs in a room overhead. Everything moves as one. It is nil where there
// is no hall.
//
// Where the set does not fit as it stands, the turn nearest to 0 is looked for, and at it the shortest shift. In a convex hall
// without pillars the shifts of a turn are exact; otherwise a margin may be missed by 0.05 mm, and a shift may be 1 mm longer than
// the shortest. Places are in whole millimetres and tenths of a degree wherever such a place fits. Where none
// does, the least worst overhang is found within 0.2 mm, past pillars within 1 mm; of a search that ends before it is through, the best so far.
func FitHall(s *set.Set, margin float64) *Fit {
	h := hallOfSet(s)
	if h == nil {
		return nil
	}
	out := &Fit{Hall: s.Hall.Name, Margin: margin}
	for _, e := range s.Elements {
		out.note(e, s.Hall.Name)
	}
	f := newFitter(newFitRoom(s.Hall, h), fitPieces(s))
	if len(f.spots) == 0 {
		out.Fits, out.Clear, out.Stands = true, math.Inf(1), math.Inf(1)
		return out
	}
	asIs := geom.Move(geom.Point{}, 0)
	out.AsItStands, out.Stands = f.outside(asIs)
	if out.Clear = out.Stands; out.Clear >= margin-geom.Tolerance {
		out.Fits = true
		return out
	}
	turn, shift, found, noTurn := f.fits(margin)
	out.NoTurn = noTurn
	if !found {
		out.Wide, out.Needs, out.Width = f.tooWide(margin)
		out.NoTurn = out.NoTurn || out.Needs > 0
		step := fitStep
		if len(f.room.obstacles) > 0 {
			step = 1 // squares of shifts are many where little is asked of each
		}
		turn, shift = f.nearest(step)
	}
	if turn == -180 {
		turn = 180
	}
	out.Fits, out.Turn = found, turn
	out.Shift = f.whole(turn, shift.Sub(f.still(turn)), margin, found)
	out.Outside, out.Clear = f.outside(f.pose(turn, out.Shift.Add(f.still(turn))))
	return out
}

// fits looks for the turn nearest to 0 at which the set fits, see `turns`, and the shortest shift at it.
func (f *fitter) fits(margin float64) (turn float64, shift geom.Point, found, closed bool) {
	if t, ok := f.shift(0, margin, false, 0); ok {
		return 0, t, true, false
	}
	return f.turns(margin)
}

// FitsHall is the short answer of FitHall: whether s fits at any place that was found.
func FitsHall(s *set.Set, margin float64) (fits, asked bool) {
	h := hallOfSet(s)
	if h == nil {
		return false, false
	}
	f := newFitter(newFitRoom(s.Hall, h), fitPieces(s))
	if len(f.spots) == 0 || f.tree.clear(f.room, geom.Move(geom.Point{}, 0), margin, margin) >= margin-geom.Tolerance {
		return true, true
	}
	_, _, fits, _ = f.fits(margin)
	return fits, true
}

// hallOfSet is the hall worked in, nil where there is none.
func hallOfSet(s *set.Set) *set.Hall {
	if s.Hall == nil || len(s.Hall.Copies) == 0 {
		return nil
	}
	h, ok := s.Hall.Shape.(*set.Hall)
	if !ok || h.Outline.Path.Empty() {
		return nil
	}
	return h
}

func newFitter(r *fitRoom, pieces []fitPiece) *fitter {
	f := &fitter{room: r, tree: newFitTree(pieces), spots: spotsOf(pieces)}
	f.pivot, f.long = hullCircle(f.spots)
	return f
}

// note counts what has to be said of an element.
func (f *Fit) note(e *set.Element, hall string) {
	braced := false
	switch sh := e.Shape.(type) {
	case *set.Hall:
		return
	case *set.Figure:
		braced = sh.Brace
	case *set.Panel:
		braced = sh.Brace
	}
	if braced {
		f.Braced++
	}
	for _, c := range e.Copies {
		for _, pl := range c.Places {
			if pl.In == hall {
				f.Inside++
				return
			}
		}
	}
}

// whole returns the shortest shift in whole millimetres, or else in tenths, next to shift at which the set still stays as clear.
func (f *fitter) whole(turn float64, shift geom.Point, margin float64, fits bool) geom.Point {
	still := f.still(turn)
	wanted := margin - geom.Tolerance
	if !fits {
		wanted = f.clear(turn, shift.Add(still), math.Inf(1), math.Inf(-1)) - fitStep
	}
	about := func(x, step float64) []float64 {
		k := math.Round(x / step)
		return []float64{0, (k - 2) * step, (k - 1) * step, k * step, (k + 1) * step, (k + 2) * step}
	}
	for _, step := range [2]float64{1, 0.1} {
		best, least := geom.Point{}, math.Inf(1)
		for _, x := range about(shift.X, step) {
			for _, y := range about(shift.Y, step) {
				p := geom.Point{X: unit.Round(x, step), Y: unit.Round(y, step)}
				if p.Len() < least && f.clear(turn, p.Add(still), wanted, wanted) >= wanted {
					best, least = p, p.Len()
				}
			}
		}
		if !math.IsInf(least, 1) {
			return best
		}
	}
	return shift
}

// outside returns what reaches outside where the set is moved by m, and how far the set stays clear.
func (f *fitter) outside(m geom.Isometry) (list []Outside, clear float64) {
	clear = f.tree.clear(f.room, m, math.Inf(1), math.Inf(-1))
	if clear >= -geom.Tolerance {
		return nil, max(clear, 0)
	}
	by := map[string]float64{}
	for i := range f.tree.pieces {
		p := &f.tree.pieces[i]
		if d := p.over(f.room, m); d > geom.Tolerance {
			by[p.name] = max(by[p.name], d)
		}
	}
	for name, d := range by {
		list = append(list, Outside{name, d})
		clear = min(clear, -d)
	}
	slices.SortFunc(list, func(a, b Outside) int {
		return cmp.Or(cmp.Compare(steps(b.By), steps(a.By)), cmp.Compare(a.Element, b.Element))
	})
	return list, clear
}

// tooWide returns the element whose least width, with the margin on either side, exceeds that of the hall's hull by the most. Where no
// element does and all of them together do it has no name; where they do not either, needs is 0.
func (f *fitter) tooWide(margin float64) (name string, needs, width float64) {
	var walls []fitSpot
	for _, p := range f.room.outline {
		walls = append(walls, fitSpot{centre: p})
	}
	width = leastWidth(walls)
	pieces := map[*set.Element][]fitPiece{}
	for _, p := range f.tree.pieces {
		pieces[p.element] = append(pieces[p.element], p)
	}
	for e, list := range pieces {
		// No least width is more than a box's.
		spots := spotsOf(list)
		x, y := geom.Point{X: 1}, geom.Point{Y: 1}
		box := min(reach(spots, x)+reach(spots, x.Mul(-1)), reach(spots, y)+reach(spots, y.Mul(-1)))
		if box <= width-2*margin+geom.Tolerance {
			continue
		}
		w := leastWidth(spots)
		if w > width-2*margin+geom.Tolerance && (w > needs || w == needs && e.Name < name) {
			name, needs = e.Name, w
		}
	}
	if name == "" {
		if w := leastWidth(f.spots); w > width-2*margin+geom.Tolerance {
			needs = w
		}
	}
	if needs == 0 {
		width = 0
	}
	return name, needs, width
}
