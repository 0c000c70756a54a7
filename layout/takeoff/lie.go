package takeoff

import (
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// lies reports whether a piece's own x may run along a board's length, and whether across it: by the grain of both, or by the
// turns that the piece allows.
func lies(board set.Grain, lie set.Lie) (asIs, turned bool) {
	switch {
	case lie.Grain == set.GrainFree && lie.Turns != nil:
		for _, t := range lie.Turns {
			switch r := math.Mod(math.Abs(t), 180); {
			case r == 0:
				asIs = true
			case r == 90:
				turned = true
			}
		}
		return asIs, turned
	case lie.Grain == set.GrainFree || board == set.GrainFree:
		return true, true
	}
	same := lie.Grain == board
	return same, !same
}

// turns returns how an outline may be turned on a board, nil for any way.
func turns(board set.Grain, lie set.Lie) []float64 {
	if lie.Grain == set.GrainFree && lie.Turns != nil {
		return lie.Turns
	}
	switch asIs, turned := lies(board, lie); {
	case asIs && turned:
		return nil
	case asIs:
		return []float64{0, 180}
	}
	return []float64{90, 270}
}

// Nominal thickness: a board may be so much off what it is sold as (common practice, no source). What is further off is
// another board.
const (
	offLeast = 1.0
	offShare = 0.1
)

// hairThick is the least difference of thickness that is worth a word, in millimetres.
const hairThick = 0.05

// use returns the board that a piece which the set has so thick is cut from, −1 where there is none; 0 is not said. word is the
// attribute that says it. It is the element's own board, and a board that is a little off is noted. A flight has boards of
// several thicknesses and one material: what is not as thick as that comes from the board of the file which is nearest to it.
func (w *work) use(word string, said float64) (board int, note string) {
	if w.board < 0 {
		return -1, ""
	}
	own := &w.set.Boards[w.board]
	if said <= geom.Tolerance {
		return w.board, ""
	}
	board = w.board
	if !serves(own, said) {
		note = w.size(said) + " thick, and \"" + own.Name + "\" is " + w.size(own.Thick)
		if board = w.other(word, said); board < 0 {
			if ofFlight(word) {
				note += "; a `board` of that thickness in the file would serve"
			}
			return -1, note
		}
		note = w.size(said) + " thick, so not of \"" + own.Name + "\""
	}
	b := &w.set.Boards[board]
	if math.Abs(b.Thick-said) > hairThick {
		t := Thick{Element: w.e.Name, Word: word, Said: said, Has: b.Thick, Board: b.Name, Span: w.e.NameSpan}
		if sp, ok := w.e.Spans[word]; ok {
			t.Span = sp
		}
		if !slices.Contains(w.q.Thick, t) {
			w.q.Thick = append(w.q.Thick, t)
		}
	}
	return board, note
}

// serves reports whether a board is what a thickness is sold as.
func serves(b *set.Board, said float64) bool {
	return math.Abs(b.Thick-said) <= max(offLeast, offShare*said)
}

// ofFlight reports whether a word is a thickness that only flights and blocks have, which have several.
func ofFlight(word string) bool { return word == "tread" || word == "riser_board" || word == "lid" }

// other returns the board of the file that is nearest to a thickness of a flight, of equals the first, −1 where none serves.
func (w *work) other(word string, said float64) int {
	best := -1
	if !ofFlight(word) {
		return best
	}
	for i := range w.set.Boards {
		b := &w.set.Boards[i]
		if serves(b, said) && (best < 0 || math.Abs(b.Thick-said) < math.Abs(w.set.Boards[best].Thick-said)-geom.Tolerance) {
			best = i
		}
	}
	return best
}

// size prints a length as the set's people read it: to 0.1 mm, or 1/64".
func (w *work) size(mm float64) string {
	if w.set.Units.Imperial() {
		return unit.FormatMeasure(mm, w.set.Units, unit.Sixteenth/4)
	}
	return unit.FormatMeasure(mm, w.set.Units, 0.1)
}

// spec is one piece as an element has it.
type spec struct {
	name  string
	word  string  // the attribute that says its thickness
	thick float64 // said, 0 where not
	count int     // in one copy of the element
	note  string
	board int // in set.Boards, what use found for it
}

// sheet takes off a rectangle.
func (w *work) sheet(length, width float64, p spec) {
	if length <= geom.Tolerance || width <= geom.Tolerance {
		return
	}
	board, why := w.use(p.word, p.thick)
	if board < 0 {
		w.loose(length, width, p, why)
		return
	}
	p.board, p.note = board, joined(p.note, why)
	b := &w.set.Boards[board]
	xs, ys, ok := w.cells(length, width, b)
	if !ok {
		w.missing(p.name, "it would take more than a thousand boards")
		return
	}
	n := len(xs) * len(ys)
	if n == 1 {
		w.add(Piece{Name: p.name, Length: length, Width: width, Note: p.note}, p)
		return
	}
	for j, y := range ys {
		for i, x := range xs {
			at := span(xs[:i])
			up := span(ys[:j])
			w.add(Piece{Name: nth(p.name, j*len(xs)+i+1, n), Length: x, Width: y,
				Note: joined(p.note, "lies "+w.size(at)+" to "+w.size(at+x)+" along, "+w.size(up)+" to "+w.size(up+y)+" across; "+butt)}, p)
		}
	}
}

// butt is how boards meet (common practice, no source).
const butt = "butts its neighbours over a bearer"

// add adds a piece of a board.
func (w *work) add(p Piece, s spec) {
	b := &w.set.Boards[s.board]
	p.Element, p.Board, p.Bar, p.Thickness, p.Count, p.Span = w.e.Name, s.board, -1, b.Thick, s.count*w.n, w.e.NameSpan
	p.AsIs, p.Turned = lies(b.Grain, w.e.Lie)
	if p.Outline != nil {
		p.Turns = turns(b.Grain, w.e.Lie)
	} else if !p.Turned {
		p.AsIs = true // what may only lie at a slant lies square all the same
	}
	w.q.Pieces = append(w.q.Pieces, p)
}

func (w *work) loose(length, width float64, p spec, why string) {
	w.q.Loose = append(w.q.Loose, Loose{Element: w.e.Name, Name: p.name, Length: length, Width: width, Thickness: p.thick,
		Count: p.count * w.n, Note: joined(p.note, why)})
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}
