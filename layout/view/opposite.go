package view

import (
	"markout/layout/drawing"
	"markout/layout/set"
)

// Face returns the face of e as it is cut, seen from the front: a flat with its openings, a panel with its holes. x
// runs along from P, y up from the piece's foot. Who stands at P and looks to Q has the face on the right, so that from
// the front P is at the left; with `face left` it is at the right and x runs from −length to 0. Of a curved flat it is the
// face laid flat: x is the true length along its line, and a thin line stands where the line's pieces meet.
// A lying panel is seen from above, in its own axes; a cloth's face is its artwork. It returns nil for a piece that has no face to cut.
func Face(s *set.Set, e *set.Element) *drawing.Drawing {
	d := dressedFace(s, e)
	if d != nil {
		sayOpposite(d, e)
	}
	return d
}

// Sides returns the sides of e as a carpenter cuts them: the stringer of a flight, the sides of loose blocks, the wedge of a
// ramp, the brace of a cut-out. x runs from the foot the way one climbs, y up from the foot; it is seen from the right as one climbs, the foot at the
// left. Most pieces have one; a flight whose line turns has two, the inner and the outer (of one that turns both ways the
// left and the right), each laid flat in its true length. A flight of one riser has no tread and so no side: its drawing is
// empty. There is none for a kind of piece that has no such side.
func Sides(s *set.Set, e *set.Element) []*drawing.Drawing {
	all := dressedSides(s, e)
	for _, d := range all {
		sayOpposite(d, e)
	}
	return all
}

// mirrored reports whether an element hangs in a room that is mirrored, and so has to be made opposite-handed.
func mirrored(e *set.Element) bool {
	if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
		return false
	}
	over := e.Copies[0].Places[0].Over
	return over != nil && over.Mirrored
}

// sayOpposite says on a pattern of a piece that is to be opposite-handed how it is laid: it is drawn as the piece is dressed.
func sayOpposite(d *drawing.Drawing, e *set.Element) {
	if mirrored(e) {
		d.Hold += "; OPPOSITE-HANDED: lay it face down"
	}
}
