package changes

import (
	"cmp"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/setout"
)

// Line is a line, arc or curve of tape to be lifted from the floor or laid on it.
type Line struct {
	Element, Point string     // the row that it starts from
	From, To       geom.Point // in the axes of the set whose line it is
	Length         float64
	Tape           string // as the tape table names it; empty where none is named
	Dashed         bool
	Row            int // where it starts, of the old layout of a line to lift and of the new one of a line to lay

	along [2]geom.Point // the places a third and two thirds of the way
}

// Lines returns the lines of tape of old that are to be lifted, in old's order, and those of new that are to be laid, in new's.
// A line stays that runs the same way between the same places, from either end, with the same tape. A line may change where
// the marks at one or both of its ends stay. A line common to two pieces is taped for each, on either side, and is a line of
// each; those of copies stacked on one another are taped once. Marks of which only the corners are marked have none. The places are those of Marks.
func Lines(old, new *setout.Layout) (lift, lay []Line) {
	a, b := floors(old, new)
	was, is := a.lines(), b.lines()
	stays := twins(len(was), len(is),
		func(i int) geom.Point { return a.first(&was[i]) },
		func(j int) geom.Point { return b.first(&is[j]) },
		func(i, j int) bool { return alikeLines(a, &was[i], b, &is[j]) })
	if a.elsewhere {
		stays = pairs{make([]bool, len(was)), make([]bool, len(is))}
	}
	return left(was, stays.a), left(is, stays.b)
}

func (f floor) lines() []Line {
	var out []Line
	seen := newSpots(len(f.Rows))
	for i := range f.Rows {
		r := &f.Rows[i]
		m, mark := r.Of.Shape.(*set.Mark)
		if r.Run <= 0 || mark && m.Corner {
			continue
		}
		l := Line{
			Element: r.Element, Point: r.Point, From: r.At, To: r.Along[2], Length: r.Run, Tape: f.TapeName(r.Tape),
			Dashed: mark && m.Dashed, Row: i, along: [2]geom.Point{r.Along[0], r.Along[1]},
		}
		mid := f.first(&l)
		if seen.find(mid, func(j int) bool { return f.Rows[out[j].Row].Of == r.Of && alikeLines(f, &out[j], f, &l) }) >= 0 {
			continue
		}
		seen.add(mid, len(out))
		out = append(out, l)
	}
	return out
}

// first is a place of the line that is the same from either end.
func (f floor) first(l *Line) geom.Point {
	return f.place(l.From).Add(f.place(l.To)).Mul(0.5)
}

func alikeLines(a floor, l *Line, b floor, m *Line) bool {
	if l.Tape != m.Tape || l.Dashed != m.Dashed {
		return false
	}
	through := func(f floor, x *Line) [4]geom.Point {
		return [4]geom.Point{f.place(x.From), f.place(x.along[0]), f.place(x.along[1]), f.place(x.To)}
	}
	p, q := through(a, l), through(b, m)
	same := func(at func(k int) int) bool {
		for k := range p {
			if !p[k].Near(q[at(k)]) {
				return false
			}
		}
		return true
	}
	return same(func(k int) int { return k }) || same(func(k int) int { return 3 - k })
}

// TapeMetres is how much of one tape lines take.
type TapeMetres struct {
	Tape   string // empty where none is named
	Metres float64
}

// Metres adds lines up by tape, in the order of the tapes' names, what no tape is named for last. A dashed line counts whole.
func Metres(lines []Line) []TapeMetres {
	var out []TapeMetres
	at := map[string]int{}
	for _, l := range lines {
		i, ok := at[l.Tape]
		if !ok {
			i = len(out)
			at[l.Tape] = i
			out = append(out, TapeMetres{Tape: l.Tape})
		}
		out[i].Metres += l.Length / 1000
	}
	slices.SortFunc(out, func(a, b TapeMetres) int {
		if (a.Tape == "") != (b.Tape == "") {
			return -cmp.Compare(a.Tape, b.Tape)
		}
		return cmp.Compare(a.Tape, b.Tape)
	})
	return out
}
