package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

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

func (b *builder) stringerSide(s *set.Set, sh *set.Steps) {
	b.stroke(sh.Stringer(), cut)
	treads := sh.Treads()
	below := 0.0
	for k, t := range treads {
		if sh.Tread > geom.Tolerance {
			back := t.Y1 + sh.RiserBoard
			if k == len(treads)-1 && !sh.UnderBoard() {
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
	if !sh.UnderBoard() {
		return
	}
	run, top := sh.Run(), sh.Total()
	b.stroke(polyline(geom.Point{X: run}, geom.Point{X: run, Y: top}), thinDashed)
	b.stroke(polyline(geom.Point{X: run, Y: top}, geom.Point{X: run + max(set.StringerSeat, sh.RiserBoard), Y: top}), boarding)
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
