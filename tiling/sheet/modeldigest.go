package sheet

import (
	"fmt"
	"strings"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// digest is of a sheet's lines and of what is said of its pieces and along their edges, each at its line. Names of elements, how many
// pieces one has, and where on a piece lettering has found room are not in it, so that a piece called otherwise changes nothing.
func (c *CardModel) digest(i int) [32]byte {
	var d tiling.Digester
	s := &c.Sheets[i]
	d.Reset("model", c.opt.ScaleWords, faceOf(c.Model), geom.Rect{Max: geom.Point{X: s.Size.W, Y: s.Size.H}})
	d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{Text: cardWords("", s.Thickness, c.set.Units)})
	var ps []geom.Point
	path := func(l drawing.Layer, pen tiling.Pen, q *geom.Path) {
		ps = q.Flatten(tiling.Flatness, ps[:0])
		kind := drawing.Continuous
		switch {
		case sameDashes(pen, foldFront):
			kind = drawing.Dashed
		case sameDashes(pen, foldBack):
			kind = drawing.LongDashDot
		case sameDashes(pen, gluePen):
			kind = drawing.Dotted
		}
		d.Line(drawing.Mark{Layer: l}, kind, pen.Width, pen.Tone, 0, q.Closed(), ps)
	}
	for _, l := range s.Places {
		var drawn tiling.CutPiece
		c.drawPiece(&drawn, l)
		drawn.Each(drawn.Bends, path)
		p, m := &c.Model.Pieces[l.Piece], l.move()
		say := func(at geom.Point, text string) {
			d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, &tiling.Text{At: m.Apply(at), Turn: l.Turn, Text: text})
		}
		copyOf := strings.TrimPrefix(p.Element, baseName(p.Element))
		say(geom.Point{}, fmt.Sprintf("%s-%d %s %s", copyOf, p.Number, p.Name, grainWords(p)))
		for _, k := range c.marksOf(l.Piece) {
			at, _ := placeOn(k.line, polyLength(k.line)/2)
			say(at, k.forms[0])
		}
	}
	return d.Sum()
}

func grainWords(p *develop.Piece) string {
	if p.Grain == develop.Along {
		return "grain"
	}
	return ""
}

func sameDashes(a, b tiling.Pen) bool {
	return len(a.Dash) == len(b.Dash) && len(a.Dash) > 0 && a.Dash[0] == b.Dash[0]
}
