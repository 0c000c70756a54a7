package tiling

import "markout/layout/drawing"

// penWidths are the widths that have their dash lengths worked out beforehand.
var penWidths = [...]float64{drawing.FineLine, drawing.NarrowLine, drawing.MediumLine, drawing.WideLine}

// dashes holds the dash lengths of each line type at each of penWidths, shared by all pens.
var dashes = func() (d [drawing.Dotted + 1][len(penWidths)][]float64) {
	for t := range d {
		for i, w := range penWidths {
			d[t][i] = dashLengths(drawing.LineType(t), w)
		}
	}
	return d
}()

// dashLengths returns a line type's pattern at a width, in millimetres; nil for a continuous line.
func dashLengths(t drawing.LineType, width float64) []float64 {
	pattern := t.Pattern()
	if pattern == nil {
		return nil
	}
	d := make([]float64, len(pattern))
	for i, k := range pattern {
		d[i] = k * width
	}
	return d
}

// PenOf returns the pen of a line type at a width in paper millimetres.
func PenOf(t drawing.LineType, width float64, tone drawing.Tone) Pen {
	pen := Pen{Width: width, Tone: tone}
	if t == drawing.Continuous || int(t) >= len(dashes) {
		return pen
	}
	for i, w := range penWidths {
		if w == width {
			pen.Dash = dashes[t][i]
			return pen
		}
	}
	pen.Dash = dashLengths(t, width)
	return pen
}

// Period returns the length of the pen's dash pattern, 0 for a continuous line.
func (p Pen) Period() float64 {
	s := 0.0
	for _, d := range p.Dash {
		s += d
	}
	return s
}
