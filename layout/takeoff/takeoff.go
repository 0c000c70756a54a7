// Package takeoff takes off quantities: from a resolved set it lists the pieces that a carpenter cuts, each with its exact sizes,
// what it is cut from and how many there are. It chooses no board and draws nothing.
//
// What is taken off, by kind:
//
//   - platform: the deck's board, to its outline; with `closed` the underside too
//   - steps, a flight: treads and riser boards, as long as the flight is wide, which run over the strings; two strings, notched.
//     A tread reaches from its nosing to behind the riser board that stands on it. Strings that turn with their line are given
//     with their sizes alone
//   - steps, blocks: for stacks of stock boxes the tops and their lids; without stock a lid that runs through, front and back as
//     wide as the block, and ends between them; of blocks along a line the lid, and without stock a wall under each edge
//   - ramp: its deck and the two sides beneath it
//   - flat: one facing, openings cut out; of a curved one as it lies flat before it is bent to its line
//   - ring: its top, and the upright boards of straight sides
//   - cone with sides: its faces, outside sizes, edges mitred
//   - shape: as it is
//   - figure: each of its bodies, and the timbers of its brace; of one whose head alone is wanted the head and its pole
//   - post: its height, off a length
//   - every part
//
// What is larger than its board is split over boards. Frames, legs, the braces of shapes and whatever else no element says are not taken off;
// `part` adds them.
package takeoff

import (
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// Piece is one piece, or several alike, to be cut from a board or a length.
type Piece struct {
	Item    int    // from 1, in the order of the file: what is written on the piece
	Element string // whose it is; of a part the part's name
	Name    string // "tread 2", "deck 1 of 4"
	Board   int    // in set.Boards, −1 for a piece of a length
	Bar     int    // in set.Lengths, −1 for a piece of a board

	// Length lies along the piece's own x. Of a piece of a length Width and Thickness are its section.
	Length, Width, Thickness float64
	Count                    int
	AsIs, Turned             bool         // whether Length may lie along the board's length, and across it
	Outline                  *geom.Region // of a piece that is no rectangle; its box lies from 0,0 to Length, Width
	Turns                    []float64    // how Outline may be turned on a board, degrees; nil for any
	Note                     string
	Span                     diag.Span
}

// Region returns the piece's outline in its own axes, its box from 0,0 to Length, Width.
func (p *Piece) Region() geom.Region {
	if p.Outline != nil {
		return *p.Outline
	}
	return geom.Region{Outer: geom.Polygon([]geom.Point{{}, {X: p.Length}, {X: p.Length, Y: p.Width}, {Y: p.Width}})}
}

// Area returns the area of the piece in mm².
func (p *Piece) Area() float64 {
	if p.Outline != nil {
		return p.Outline.Area()
	}
	return p.Length * p.Width
}

// Volume returns the volume of one such piece in mm³.
func (p *Piece) Volume() float64 {
	if p.Bar >= 0 {
		return p.Length * p.Width * p.Thickness
	}
	return p.Area() * p.Thickness
}

// Loose is a piece that nothing says a material of. Sizes that are not known are 0.
type Loose struct {
	Element, Name            string
	Length, Width, Thickness float64
	Count                    int
	Note                     string
}

// Missing is what was not taken off, and why.
type Missing struct{ Element, What, Why string }

// Top is the top of a block that a stack of stock boxes carries: Length across the step, Width along its going, Height from the
// foot to the underside of its lid.
type Top struct {
	Element, Name         string
	Length, Width, Height float64
	Count                 int
	Lid                   int // the board its lid is cut from, −1 where it has none
}

// Thick is a board that is not as thick as the set says.
type Thick struct {
	Element   string
	Word      string  // the attribute that says it: deck, tread, lid …
	Said, Has float64 // millimetres
	Board     string
	Span      diag.Span
}

// Quantities is everything that was taken off.
type Quantities struct {
	Pieces  []Piece
	Tops    []Top
	Loose   []Loose
	Missing []Missing
	Thick   []Thick
}

// Take takes off a set. Its numbers follow the file's order.
func Take(s *set.Set) *Quantities {
	q := &Quantities{}
	for _, e := range s.Elements {
		w := work{set: s, q: q, e: e, n: len(e.Copies), board: -1, bar: -1}
		w.material()
		w.element()
	}
	for i := range s.Parts {
		q.part(s, &s.Parts[i])
	}
	for i := range q.Pieces {
		q.Pieces[i].Item = i + 1
	}
	return q
}

// work takes off one element.
type work struct {
	set        *set.Set
	q          *Quantities
	e          *set.Element
	n          int // copies
	board, bar int // what it is of, −1 for neither
}

func (w *work) material() {
	if w.e.Material == "" {
		return
	}
	w.board = slices.IndexFunc(w.set.Boards, func(b set.Board) bool { return b.Name == w.e.Material })
	w.bar = slices.IndexFunc(w.set.Lengths, func(l set.Length) bool { return l.Name == w.e.Material })
}

func (w *work) element() {
	switch sh := w.e.Shape.(type) {
	case *set.Hall, *set.Mark, *set.Reserve:
		return
	case *set.Post:
		w.post(sh)
		return
	case *set.Steps:
		if sh.Blocks {
			w.blocks(sh)
			return
		}
	}
	if w.bar >= 0 {
		w.missing("all of it", "\""+w.e.Material+"\" is bought by the length, and a "+w.e.Kind+" is cut from boards; `part` says its battens")
		return
	}
	switch sh := w.e.Shape.(type) {
	case *set.Platform:
		w.platform(sh)
	case *set.Steps:
		w.flight(sh)
	case *set.Ramp:
		w.ramp(sh)
	case *set.Flat:
		w.flat(sh)
	case *set.Ring:
		w.ring(sh)
	case *set.Panel:
		w.panel(sh)
	case *set.Cone:
		w.cone(sh)
	case *set.Figure:
		w.figure(sh)
	default:
		w.missing("all of it", "a "+w.e.Kind+" is not taken off")
	}
}

func (w *work) missing(what, why string) {
	w.q.Missing = append(w.q.Missing, Missing{w.e.Name, what, why})
}

// PartName is the name of a piece that is a part of the file.
const PartName = "part"

// part takes off a part.
func (q *Quantities) part(s *set.Set, p *set.Part) {
	out := Piece{Element: p.Name, Name: PartName, Board: -1, Bar: -1, Length: p.Length, Width: p.Width, Count: p.Count, Span: p.Span}
	if i := slices.IndexFunc(s.Lengths, func(l set.Length) bool { return l.Name == p.Of }); i >= 0 {
		out.Bar, out.Width, out.Thickness = i, s.Lengths[i].Width, s.Lengths[i].Depth
		q.Pieces = append(q.Pieces, out)
		return
	}
	i := slices.IndexFunc(s.Boards, func(b set.Board) bool { return b.Name == p.Of })
	if i < 0 {
		return // the file's error says so
	}
	out.Board, out.Thickness = i, s.Boards[i].Thick
	out.AsIs, out.Turned = lies(s.Boards[i].Grain, set.Lie{Grain: p.Grain})
	q.Pieces = append(q.Pieces, out)
}
