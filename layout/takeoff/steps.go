package takeoff

import (
	"math"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
)

const stringNote = "one at each end, under the treads; wide treads want more between"

// flight takes off treads, riser boards and strings as Stringer has them: a tread reaches back under the riser board that
// stands on it, the last to the deck, or under the board that stands at the deck's edge.
func (w *work) flight(s *set.Steps) {
	if s.Line != nil {
		w.curved(s)
		return
	}
	treads := s.Treads()
	below := 0.0
	for k, t := range treads {
		back := t.Y1 + s.RiserBoard
		if k == len(treads)-1 && !s.UnderBoard() {
			back = t.Y1
		}
		if s.Tread > geom.Tolerance {
			w.sheet(t.Width, back-t.Y0+s.Nosing, spec{name: number("tread", k), word: "tread", thick: s.Tread, count: 1})
		}
		if s.RiserBoard > geom.Tolerance {
			w.sheet(t.Width, t.Top-s.Tread-below, spec{name: number("riser board", k), word: "riser_board", thick: s.RiserBoard, count: 1})
		}
		below = t.Top
	}
	if s.UnderBoard() && s.RiserBoard > geom.Tolerance {
		last := len(s.Rises) - 1
		w.sheet(s.Width(last), s.Total()-s.DeckBoard-below, spec{name: number("riser board", last), word: "riser_board", thick: s.RiserBoard, count: 1})
	}
	if len(treads) == 0 {
		return
	}
	if s.Tread <= geom.Tolerance {
		w.missing("treads and strings", "`tread` does not say how thick they are")
		return
	}
	if !alike(s.Widths) || !alike(s.Shifts) {
		w.missing("strings", "the treads are not all alike, so that the strings do not run straight")
		return
	}
	w.cutOut(geom.Region{Outer: s.Stringer()}, spec{name: "string", count: 2, note: stringNote})
}

// curved takes off a flight along a line: its tapered treads, which reach back under the riser board that stands on them, the
// riser boards, which stand straight across, and the strings.
func (w *work) curved(s *set.Steps) {
	below := 0.0
	treads := s.Treads()
	for k, t := range treads {
		if s.Tread > geom.Tolerance {
			w.cutOut(geom.Region{Outer: s.TreadCut(k).Outer.Transform(square(s, t.Y0))}, spec{name: number("tread", k), word: "tread", thick: s.Tread, count: 1})
		}
		if s.RiserBoard > geom.Tolerance {
			left, right := s.RiserLine(k)
			w.sheet(left.Dist(right), t.Top-s.Tread-below, spec{name: number("riser board", k), word: "riser_board", thick: s.RiserBoard, count: 1})
		}
		below = t.Top
	}
	if s.UnderBoard() && s.RiserBoard > geom.Tolerance {
		last := len(s.Rises) - 1
		left, right := s.RiserLine(last)
		w.sheet(left.Dist(right), s.Total()-s.DeckBoard-below, spec{name: number("riser board", last), word: "riser_board", thick: s.RiserBoard, count: 1})
	}
	switch {
	case len(treads) == 0:
	case s.Tread <= geom.Tolerance:
		w.missing("treads and strings", "`tread` does not say how thick they are")
	case !alike(s.Widths) || !alike(s.Shifts):
		w.missing("strings", "the treads are not all alike, so that the strings do not run beside the line")
	default:
		w.strings(s)
	}
}

// square turns a flight's own axes so that a riser at y lies along x.
func square(s *set.Steps, y float64) geom.Isometry {
	return geom.Move(geom.Point{}, 90-s.Ahead(y).Angle()*180/math.Pi)
}

// strings takes off the two strings of a flight along a line, each to the lengths of its own edge. One that runs straight is cut
// from the board; one that turns is bent, built up or mitred, from what nothing says: it is given with its sizes as it lies flat.
func (w *work) strings(s *set.Steps) {
	left, right := s.Bends()
	for _, side := range []struct {
		name  string
		right bool
	}{{"left string", false}, {"right string", true}} {
		r := geom.Region{Outer: s.StringerUnder(side.right)}
		if !left && !right {
			w.cutOut(r, spec{name: side.name, count: 1, note: stringNote})
			continue
		}
		box := r.Outer.Bounds()
		w.loose(box.W(), box.H(), spec{name: side.name, count: 1, note: "notched, as it lies flat; it turns with its line: bent, built up or mitred"}, "")
	}
}

func number(name string, k int) string { return name + " " + strconv.Itoa(k+1) }

func alike(list []float64) bool {
	return !slices.ContainsFunc(list, func(x float64) bool { return x-list[0] > geom.Tolerance || list[0]-x > geom.Tolerance })
}

// blocks takes off loose blocks: with stock the tops and their lids, otherwise boxes of boards.
func (w *work) blocks(s *set.Steps) {
	if w.bar >= 0 {
		w.missing("all of it", "\""+w.e.Material+"\" is bought by the length, and blocks are cut from boards")
		return
	}
	stock := len(w.set.Stock) > 0
	if stock && s.Line != nil {
		w.missing("boxes under the blocks", "blocks along a line taper, and stacks of boxes are reckoned under square tops alone")
	}
	for k, t := range s.Treads() {
		name := number("block", k)
		lid := s.Lid
		board, _ := w.use("lid", s.Lid)
		if board >= 0 && (!stock || s.Lid > geom.Tolerance) {
			lid = w.set.Boards[board].Thick
		}
		switch {
		case s.Line != nil:
			w.tapered(s, k, lid, stock)
		case stock:
			top := Top{Element: w.e.Name, Name: name, Length: t.Width, Width: t.Y1 - t.Y0, Height: t.Top - lid, Count: w.n, Lid: -1}
			if lid > geom.Tolerance {
				w.sheet(t.Width, t.Y1-t.Y0, spec{name: name + " lid", word: "lid", thick: s.Lid, count: 1})
				top.Lid = board
			}
			w.q.Tops = append(w.q.Tops, top)
		default:
			w.box(name, t, s.Lid, lid)
		}
	}
}

// box takes off a block built of boards: a lid that is said to be so thick, 0 for not, and is as thick as lid, and four walls.
func (w *work) box(name string, t set.Tread, said, lid float64) {
	depth, thick := t.Y1-t.Y0, 0.0
	if w.board >= 0 {
		thick = w.set.Boards[w.board].Thick
	}
	w.sheet(t.Width, depth, spec{name: name + " lid", word: "lid", thick: said, count: 1})
	w.sheet(t.Width, t.Top-lid, spec{name: name + " front and back", count: 2})
	w.sheet(depth-2*thick, t.Top-lid, spec{name: name + " end", count: 2, note: "between front and back"})
}

// tapered takes off a block along a line: its lid to its outline, as thick as lid, and without stock a wall under each of its
// edges.
func (w *work) tapered(s *set.Steps, k int, lid float64, stock bool) {
	t := s.Treads()[k]
	name := number("block", k)
	path := s.TreadOutline(k).Outer.Transform(square(s, t.Y0))
	if !stock || lid > geom.Tolerance {
		w.cutOut(geom.Region{Outer: path}, spec{name: name + " lid", word: "lid", thick: s.Lid, count: 1})
	}
	if stock {
		return
	}
	for i, edge := range path.Segments() {
		if edge.Kind != geom.Line {
			w.missing(nth(name+" wall", i+1, path.Len()), "it is bent: "+w.size(edge.Length())+" long, "+w.size(t.Top-lid)+" high; `markout model` develops it")
			continue
		}
		w.sheet(edge.Length(), t.Top-lid, spec{name: nth(name+" wall", i+1, path.Len()), count: 1, note: mitred})
	}
}
