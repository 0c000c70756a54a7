package sheet

import "markout/layout/geom"

// arrangement is how a sheet's room is shared: the plan, the title block at the lower right, columns for the rest.
type arrangement struct {
	frame   *frame
	plan    geom.Rect
	title   geom.Rect
	columns []geom.Rect
}

// Least sizes in millimetres.
const (
	columnLeast = 72.0 // width of a column of notes
	planLeast   = 85.0 // sides of what is left for the plan
)

// arrangements returns the ways to share a frame's room: a wide column at the right, a narrow one over the title block, a
// strip along the foot of several heights.
func arrangements(f *frame) []arrangement {
	const in = gap
	live := f.live
	tw := min(titleWidth, live.W())
	title := geom.Rect{Min: geom.Point{X: live.Max.X - tw, Y: live.Min.Y}, Max: geom.Point{X: live.Max.X, Y: live.Min.Y + titleHeight}}
	beside := geom.Rect{Min: live.Min.Add(geom.Point{X: in, Y: in}), Max: geom.Point{X: title.Min.X - in, Y: title.Max.Y - in}}
	var out []arrangement
	add := func(plan geom.Rect, columns ...geom.Rect) {
		if plan.W() >= planLeast && plan.H() >= planLeast {
			out = append(out, arrangement{f, plan, title, columns})
		}
	}
	if live.W()-tw >= planLeast {
		column := geom.Rect{Min: geom.Point{X: title.Min.X + in, Y: title.Max.Y + in}, Max: live.Max.Sub(geom.Point{X: in, Y: in})}
		add(geom.Rect{Min: live.Min, Max: geom.Point{X: title.Min.X, Y: live.Max.Y}}, column)
	}
	for _, w := range [...]float64{110, 90, columnLeast + in} {
		column := geom.Rect{Min: geom.Point{X: live.Max.X - w, Y: title.Max.Y + in}, Max: live.Max.Sub(geom.Point{X: in, Y: in})}
		columns := []geom.Rect{column}
		if beside.W() >= columnLeast {
			columns = append(columns, beside)
		}
		add(geom.Rect{Min: geom.Point{X: live.Min.X, Y: title.Max.Y}, Max: geom.Point{X: column.Min.X - in, Y: live.Max.Y}}, columns...)
	}
	for strip := titleHeight + gap; strip <= 0.6*live.H(); strip += 5 {
		top := live.Min.Y + strip
		plan := geom.Rect{Min: geom.Point{X: live.Min.X, Y: top}, Max: live.Max}
		// Beside the title block over the strip's whole height, and above it what the strip leaves.
		var columns []geom.Rect
		over := geom.Rect{Min: geom.Point{X: live.Min.X + in, Y: title.Max.Y + in}, Max: geom.Point{X: live.Max.X - in, Y: top - in}}
		if beside.W() >= columnLeast {
			over.Min.X = title.Min.X
			columns = append(columns, geom.Rect{Min: beside.Min, Max: geom.Point{X: beside.Max.X, Y: top - in}})
		}
		add(plan, append(columns, split(over)...)...)
	}
	return out
}

// split makes columns of a box that is wide enough for several; none of a box too low for a line.
func split(r geom.Rect) []geom.Rect {
	if r.H() < 8 {
		return nil
	}
	n := max(1, int((r.W()+gap)/(columnLeast+gap)))
	w := (r.W()+gap)/float64(n) - gap
	out := make([]geom.Rect, n)
	for i := range out {
		x := r.Min.X + float64(i)*(w+gap)
		out[i] = geom.Rect{Min: geom.Point{X: x, Y: r.Min.Y}, Max: geom.Point{X: x + w, Y: r.Max.Y}}
	}
	return out
}
