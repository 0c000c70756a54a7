package sheet

import (
	"math"

	"markout/layout/geom"
	"markout/tiling"
)

// breakLines takes out of a page's lines what lies in boxes, so that no line strikes through the labels there: fills, forms and lettering
// stay. A dashed line goes on behind a box where its pattern would have been.
func breakLines(p *tiling.Page, boxes []geom.Rect) {
	for l := range p.Layers {
		strokes := p.Layers[l].Strokes
		for i := range strokes {
			var runs []tiling.Run
			for _, r := range strokes[i].Runs {
				runs = append(runs, outside(r, boxes)...)
			}
			strokes[i].Runs = runs
		}
	}
}

// outside returns the parts of a line outside boxes: the line itself where none meets it.
func outside(r tiling.Run, boxes []geom.Rect) []tiling.Run {
	around := geom.EmptyRect()
	for _, q := range r.Points {
		around = around.Include(q)
	}
	parts := []tiling.Run{r}
	for _, b := range boxes {
		if b.Max.X < around.Min.X || b.Min.X > around.Max.X || b.Max.Y < around.Min.Y || b.Min.Y > around.Max.Y {
			continue
		}
		var left []tiling.Run
		for _, k := range parts {
			left = append(left, without(k, b)...)
		}
		parts = left
	}
	return parts
}

// without returns the parts of a line outside one box.
func without(r tiling.Run, box geom.Rect) []tiling.Run {
	ps := r.Points
	if r.Closed && len(ps) > 0 {
		ps = append(ps[:len(ps):len(ps)], ps[0])
	}
	var out []tiling.Run
	gone, met := r.Phase, false
	open := false // the last part goes on
	put := func(a, b geom.Point, phase float64) {
		if !open {
			out = append(out, tiling.Run{Points: []geom.Point{a}, Phase: phase})
		}
		last := &out[len(out)-1]
		last.Points = append(last.Points, b)
		open = true
	}
	for i := 1; i < len(ps); i++ {
		a, b := ps[i-1], ps[i]
		length := a.Dist(b)
		t0, t1, ok := tiling.ClipSegment(a, b, box)
		if !ok || length == 0 {
			put(a, b, gone)
			gone += length
			continue
		}
		met = true
		if t0 > 0 {
			put(a, a.Lerp(b, t0), gone)
		}
		open = false
		if t1 < 1 {
			put(a.Lerp(b, t1), b, gone+t1*length)
		}
		gone += length
	}
	if !met {
		return []tiling.Run{r}
	}
	return joined(r, out)
}

// joined makes one part of the first and the last of a closed line, which meet where it began.
func joined(r tiling.Run, parts []tiling.Run) []tiling.Run {
	n := len(parts)
	if !r.Closed || n < 2 {
		return parts
	}
	first, last := parts[0], parts[n-1]
	if first.Points[0] != r.Points[0] || last.Points[len(last.Points)-1] != r.Points[0] {
		return parts
	}
	last.Points = append(last.Points, first.Points[1:]...)
	parts[0] = last
	return parts[:n-1]
}

// lettered shrinks a label's box a little, so that its own leader still reaches it.
func lettered(b geom.Rect) geom.Rect { return b.Grow(-math.Min(0.3, math.Min(b.W(), b.H())/4)) }
