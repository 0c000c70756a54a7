package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// dressedSides is Sides, before it is said how the patterns are laid.
func dressedSides(s *set.Set, e *set.Element) []*drawing.Drawing {
	switch sh := e.Shape.(type) {
	case *set.Steps:
		if left, right := sh.Bends(); left || right {
			return turningSides(s, e, sh)
		}
	case *set.Ramp:
	case *set.Figure:
		return figureSides(s, e, sh)
	default:
		return nil
	}
	d := &drawing.Drawing{
		View: "side", Name: e.Name, Title: e.Name + ", side",
		Hold:  "seen from the right as one climbs, foot at the left",
		Datum: drawing.Datum{Says: "along from the foot, up from the foot"},
	}
	b := newBuilder(d)
	b.own(e)
	switch sh := e.Shape.(type) {
	case *set.Steps:
		b.flightSide(s, sh, true)
	case *set.Ramp:
		b.stroke(geom.Polygon([]geom.Point{{}, {X: sh.Length}, {X: sh.Length, Y: sh.Rise}}), cut)
		b.stack(geom.Point{X: sh.Length * 2 / 3, Y: sh.Rise / 4}, word(slope(sh), drawing.Lettering7))
	}
	if len(d.Strokes) > 0 {
		b.title(d.Bounds(), e.Name)
	}
	return []*drawing.Drawing{d}
}

// flightSide draws one side of a flight or of its blocks; nothing of a flight without a tread.
func (b *builder) flightSide(s *set.Set, sh *set.Steps, right bool) {
	switch {
	case len(sh.Treads()) == 0:
	case sh.Blocks:
		b.blockSides(s, sh, sh.Notches(right))
	default:
		b.stringerSide(s, sh, right)
	}
}

func (b *builder) stringerSide(s *set.Set, sh *set.Steps, right bool) {
	b.stroke(sh.StringerUnder(right), cut)
	treads, notches := sh.Treads(), sh.Notches(right)
	below := 0.0
	for k, t := range treads {
		here, next := notches[k], notches[k+1]
		if sh.Tread > geom.Tolerance {
			back := next.Back
			if k == len(treads)-1 && !sh.UnderBoard() {
				back = next.Riser
			}
			b.stroke(box(here.Front, t.Top-sh.Tread, back, t.Top), boarding)
		}
		if sh.RiserBoard > geom.Tolerance {
			b.stroke(box(here.Riser, below, here.Back, t.Top-sh.Tread), boarding)
		}
		b.stack(geom.Point{X: (here.Riser+next.Riser)/2 + sh.RiserBoard, Y: t.Top - sh.Tread - min(inset/2, (t.Top-sh.Tread)/3)},
			word("tread "+strconv.Itoa(k+1)+"  "+level(s, t.Top), drawing.Lettering5))
		below = t.Top
	}
	if !sh.UnderBoard() {
		return
	}
	run, top := notches[len(notches)-1].Riser, sh.Total()
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
func (b *builder) blockSides(s *set.Set, sh *set.Steps, notches []set.Notch) {
	for k, t := range sh.Treads() {
		side, y0, y1 := t.Top-sh.Lid, notches[k].Riser, notches[k+1].Riser
		b.stroke(box(y0, 0, y1, side), cut)
		if sh.Lid > geom.Tolerance {
			b.stroke(box(y0, side, y1, t.Top), boarding)
		}
		b.stack(geom.Point{X: (y0 + y1) / 2, Y: side - min(inset, side/3)},
			word("block "+strconv.Itoa(k+1), drawing.Lettering5), word(level(s, t.Top), drawing.Lettering5))
	}
}
