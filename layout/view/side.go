package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// seat is how far a stringer that stops under the deck's board goes in beneath it, millimetres
// (common practice, no source).
const seat = 100.0

// Side returns the side of e as a carpenter cuts it: the stringer of a flight, the sides of loose blocks, the wedge of
// a ramp. x runs from the foot the way one climbs, y up from the foot; it is seen from the right as one climbs, the foot
// at the left. A flight of one riser has no tread and so no side: its drawing is empty. It returns nil for a kind of piece
// that has no such side.
func Side(s *set.Set, e *set.Element) *drawing.Drawing {
	d := &drawing.Drawing{
		View: "side", Name: e.Name, Title: e.Name + ", side",
		Hold:  "seen from the right as one climbs, foot at the left",
		Datum: drawing.Datum{Says: "along from the foot, up from the foot"},
	}
	b := newBuilder(d)
	b.own(e)
	switch sh := e.Shape.(type) {
	case *set.Steps:
		switch {
		case len(sh.Treads()) == 0:
			return d
		case sh.Blocks:
			b.blockSides(s, sh)
		default:
			b.stringerSide(s, sh)
		}
	case *set.Ramp:
		b.stroke(geom.Polygon([]geom.Point{{}, {X: sh.Length}, {X: sh.Length, Y: sh.Rise}}), cut)
		b.stack(geom.Point{X: sh.Length * 2 / 3, Y: sh.Rise / 4}, word(slope(sh), drawing.Lettering7))
	default:
		return nil
	}
	b.title(d.Bounds(), e.Name)
	return d
}

// stringer returns the profile of a flight's stringer, closed, solid down to the foot: what is left of the flight when
// the treads and the riser boards are taken off. The first notch is short by the tread, the others rise as the flight
// does. Where the deck's board is known the stringer goes on under it, its last notch rising by the last riser plus the
// tread less that board, and bears along seat; otherwise it ends against the deck below the last tread.
func stringer(s *set.Steps) *geom.Path {
	treads := s.Treads()
	run := s.Run()
	p := geom.NewPath(geom.Point{X: s.RiserBoard})
	// The foot's line comes first, so that the profile runs anticlockwise and starts at the toe.
	end := run
	if underBoard(s) {
		end += max(seat, s.RiserBoard)
		p.LineTo(geom.Point{X: end})
		p.LineTo(geom.Point{X: end, Y: s.Total() - s.DeckBoard})
		p.LineTo(geom.Point{X: run + s.RiserBoard, Y: s.Total() - s.DeckBoard})
	} else {
		p.LineTo(geom.Point{X: end})
	}
	for k := len(treads) - 1; k >= 0; k-- {
		t := treads[k]
		back := t.Y1 + s.RiserBoard
		if k == len(treads)-1 && !underBoard(s) {
			back = run
		}
		p.LineTo(geom.Point{X: back, Y: t.Top - s.Tread})
		p.LineTo(geom.Point{X: t.Y0 + s.RiserBoard, Y: t.Top - s.Tread})
	}
	p.Close()
	return p
}

// underBoard reports whether the stringer stops under the board of the deck that the flight meets.
func underBoard(s *set.Steps) bool {
	return s.Meets != "" && s.DeckBoard > geom.Tolerance && s.Total()-s.DeckBoard > s.Total()-s.Rises[len(s.Rises)-1]-s.Tread+geom.Tolerance
}

func (b *builder) stringerSide(s *set.Set, sh *set.Steps) {
	b.stroke(stringer(sh), cut)
	treads := sh.Treads()
	below := 0.0
	for k, t := range treads {
		if sh.Tread > geom.Tolerance {
			back := t.Y1 + sh.RiserBoard
			if k == len(treads)-1 && !underBoard(sh) {
				back = t.Y1
			}
			b.stroke(box(t.Y0-sh.Nosing, t.Top-sh.Tread, back, t.Top), boarding)
		}
		if sh.RiserBoard > geom.Tolerance {
			b.stroke(box(t.Y0, below, t.Y0+sh.RiserBoard, t.Top-sh.Tread), boarding)
		}
		b.stack(geom.Point{X: (t.Y0+t.Y1)/2 + sh.RiserBoard, Y: t.Top - sh.Tread - min(inset/2, (t.Top-sh.Tread)/3)},
			word("tread "+strconv.Itoa(k+1)+"  "+level(s, t.Top), drawing.Lettering5))
		below = t.Top
	}
	if !underBoard(sh) {
		return
	}
	run, top := sh.Run(), sh.Total()
	b.stroke(polyline(geom.Point{X: run}, geom.Point{X: run, Y: top}), thinDashed)
	b.stroke(polyline(geom.Point{X: run, Y: top}, geom.Point{X: run + max(seat, sh.RiserBoard), Y: top}), boarding)
	if sh.RiserBoard > geom.Tolerance {
		b.stroke(box(run, below, run+sh.RiserBoard, top-sh.DeckBoard), boarding)
	}
	t := word("edge of "+sh.Meets+": stop here where it is closed in", drawing.Lettering3_5)
	t.At, t.Turn, t.Align, t.Offset = geom.Point{X: run, Y: 10}, 90, drawing.AlignLeft, geom.Point{Y: -6}
	b.text(t)
}

// blockSides draws each block's side under its lid, as they stand in a row.
func (b *builder) blockSides(s *set.Set, sh *set.Steps) {
	for k, t := range sh.Treads() {
		side := t.Top - sh.Lid
		b.stroke(box(t.Y0, 0, t.Y1, side), cut)
		if sh.Lid > geom.Tolerance {
			b.stroke(box(t.Y0, side, t.Y1, t.Top), boarding)
		}
		b.stack(geom.Point{X: (t.Y0 + t.Y1) / 2, Y: side - min(inset, side/3)},
			word("block "+strconv.Itoa(k+1), drawing.Lettering5), word(level(s, t.Top), drawing.Lettering5))
	}
}
