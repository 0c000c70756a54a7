package view

import "markout/layout/drawing"

// LegendLine says what one line of the plan means.
type LegendLine struct {
	Type  drawing.LineType
	Width float64
	Says  string
}

// legendEntry is a pen and what is drawn with it.
type legendEntry struct {
	pen  pen
	says string
}

var legend = []legendEntry{
	{wall, "wall or pillar of the hall"},
	{planEdge, "edge of a piece, line to be taped"},
	{planDashed, "line to be taped with gaps"},
	{planRiser, "riser line, way up, edge further up"},
	{planHidden, "hidden beneath, or a nosing or head above"},
	{planMoved, "another position of a piece that moves"},
	{planOverhead, "OVERHEAD, its underside at the height written"},
	{planClear, "edge of a volume to keep clear"},
	{datumLine, "centre line, setting line"},
}

// Legend returns what the lines of a plan mean, of those that it shows.
func Legend(plan *drawing.Drawing) []LegendLine { return legendOf(legend, plan) }

// legendOf returns the entries whose pens a drawing uses.
func legendOf(list []legendEntry, d *drawing.Drawing) []LegendLine {
	var out []LegendLine
	for _, l := range list {
		for i := range d.Strokes {
			s := &d.Strokes[i]
			if s.Type == l.pen.typ && s.Width == l.pen.width && s.Layer == l.pen.layer {
				out = append(out, LegendLine{l.pen.typ, l.pen.width, l.says})
				break
			}
		}
	}
	return out
}
