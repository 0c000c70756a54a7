package takeoff

import (
	"math"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
)

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
	w.cutOut(geom.Region{Outer: s.Stringer()}, spec{name: "string", count: 2, note: "one at each end, under the treads; wide treads want more between"})
}

// curved takes off what is flat of a flight along a line: its tapered treads, from the nosing to the next riser, and the riser
// boards, which stand straight across.
func (w *work) curved(s *set.Steps) {
	note := ""
	if s.RiserBoard > geom.Tolerance {
		note = "to the face of the next riser; its back goes " + w.size(s.RiserBoard) + " further, under the riser board"
	}
	below := 0.0
	for k, t := range s.Treads() {
		square := geom.Move(geom.Point{}, 90-s.Ahead(t.Y0).Angle()*180/math.Pi) // its riser then lies along its own x
		w.cutOut(s.TreadBoard(k).Transform(square), spec{name: number("tread", k), word: "tread", thick: s.Tread, count: 1, note: note})
		if s.RiserBoard > geom.Tolerance {
			left, right := s.RiserLine(k)
			w.sheet(left.Dist(right), t.Top-s.Tread-below, spec{name: number("riser board", k), word: "riser_board", thick: s.RiserBoard, count: 1})
		}
		below = t.Top
	}
	w.missing("strings", "they run along a curve and are bent or built up")
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
	if s.Line != nil {
		w.missing("all of it", "blocks along a line are not taken off")
		return
	}
	stock := len(w.set.Stock) > 0
	for k, t := range s.Treads() {
		name := number("block", k)
		depth := t.Y1 - t.Y0
		lid := s.Lid
		cut, _ := w.use("lid", s.Lid)
		if cut && (!stock || s.Lid > geom.Tolerance) {
			lid = w.set.Boards[w.board].Thick
		}
		if stock {
			top := Top{Element: w.e.Name, Name: name, Length: t.Width, Width: depth, Height: t.Top - lid, Count: w.n, Lid: -1}
			if lid > geom.Tolerance {
				w.sheet(t.Width, depth, spec{name: name + " lid", word: "lid", thick: s.Lid, count: 1})
				if cut {
					top.Lid = w.board
				}
			}
			w.q.Tops = append(w.q.Tops, top)
			continue
		}
		thick := 0.0
		if cut {
			thick = w.set.Boards[w.board].Thick
		}
		w.sheet(t.Width, depth, spec{name: name + " lid", word: "lid", thick: s.Lid, count: 1})
		w.sheet(t.Width, t.Top-lid, spec{name: name + " front and back", count: 2})
		w.sheet(depth-2*thick, t.Top-lid, spec{name: name + " end", count: 2, note: "between front and back"})
	}
}
