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

// use says whether a piece that the set has so thick is cut from the element's board; 0 is not said. word is the attribute that
// says it. A board that is a little off is noted.
func (w *work) use(word string, said float64) (cut bool, note string) {
	if w.board < 0 {
		return false, ""
	}
	b := &w.set.Boards[w.board]
	if said <= geom.Tolerance {
		return true, ""
	}
	off := math.Abs(b.Thick - said)
	if off > max(offLeast, offShare*said) {
		return false, w.size(said) + " thick, and \"" + b.Name + "\" is " + w.size(b.Thick)
	}
	if off > hairThick {
		t := Thick{Element: w.e.Name, Word: word, Said: said, Has: b.Thick, Board: b.Name, Span: w.e.NameSpan}
		if sp, ok := w.e.Spans[word]; ok {
			t.Span = sp
		}
		if !slices.Contains(w.q.Thick, t) {
			w.q.Thick = append(w.q.Thick, t)
		}
	}
	return true, ""
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
}

// sheet takes off a rectangle.
func (w *work) sheet(length, width float64, p spec) {
	if length <= geom.Tolerance || width <= geom.Tolerance {
		return
	}
	cut, why := w.use(p.word, p.thick)
	if !cut {
		w.loose(length, width, p, why)
		return
	}
	b := &w.set.Boards[w.board]
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

// add adds a piece of the element's board.
func (w *work) add(p Piece, s spec) {
	b := &w.set.Boards[w.board]
	p.Element, p.Board, p.Bar, p.Thickness, p.Count, p.Span = w.e.Name, w.board, -1, b.Thick, s.count*w.n, w.e.NameSpan
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
