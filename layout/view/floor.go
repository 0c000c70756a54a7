package view

import (
	"markout/layout/drawing"
	"markout/layout/set"
)

// Pens of full-size paper. The line drawn is the piece's true line; the outside edge of the tape lies on it.
var (
	taped       = pen{drawing.Cut, drawing.Continuous, drawing.WideLine, drawing.Black}
	tapedDashed = pen{drawing.Cut, drawing.Dashed, drawing.WideLine, drawing.Black}
	moved       = pen{drawing.Cut, drawing.LongDashDoubleDot, drawing.NarrowLine, drawing.Black}
	keptClear   = pen{drawing.Notes, drawing.Dotted, drawing.MediumLine, drawing.Black}
	thinDashed  = pen{drawing.Notes, drawing.Dashed, drawing.NarrowLine, drawing.Black}
	thin        = pen{drawing.Notes, drawing.Continuous, drawing.NarrowLine, drawing.Black}
)

// floorPens are the pens of a piece's traces where it stands first.
var floorPens = [...]pen{
	edge: taped, riser: taped, covered: thinDashed, axis: thin, arrow: thin,
	crossing: taped, line: taped, dashed: tapedDashed, clear: keptClear, strip: taped, ridge: thin,
}

// Floor returns the full-size drawing of everything that asks for `full-size floor`, in the plan's axes seen from
// above: x from the centre line, y from the setting line. A piece's other positions are drawn by long dashes and
// double dots. The drawing is empty where nothing asks for it.
func Floor(s *set.Set) *drawing.Drawing {
	d := &drawing.Drawing{
		View: "floor", Title: "floor",
		Hold:  "seen from above, upstage at the top",
		Datum: planDatum(s),
	}
	b := newBuilder(d)
	z := fullSize
	z.feet = s.Units.Imperial()
	for _, e := range s.Elements {
		if !wants(e, "floor") {
			continue
		}
		own := z.traces(e.Shape)
		if len(own) == 0 {
			continue
		}
		b.own(e)
		for _, c := range e.Copies {
			for _, pl := range c.Places {
				m := pl.Frame.Plan()
				for _, t := range own {
					n := floorPens[t.kind]
					if pl.Position != "" && n.layer == drawing.Cut {
						n = moved
					}
					b.stroke(t.path.Transform(m), n)
				}
				b.floorLabels(s, e, c, pl)
			}
		}
	}
	return d
}

func planDatum(s *set.Set) drawing.Datum {
	sides := s.SideNames()
	return drawing.Datum{
		XPlus: sides.Plus, XMinus: sides.Minus, YPlus: "U", YMinus: "D",
		Says: "from the centre line and the setting line",
	}
}
