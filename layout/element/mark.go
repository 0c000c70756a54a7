package element

import (
	"slices"

	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// mark is a spike, a pin to tape from, or a line on the floor.
type mark struct{ plain }

var markTable = kind("mark", "A spike, a pin to tape from, or a line or curve on the floor. A mark of one point is laid first.", `mark pin
    point    0, 3600

mark edge
    path     -2400,0 line 2400,0
    tape     "red" 25mm
`, []notation.Attr{
	{Word: "point", Form: "POINTS", Example: "point 0, 3600", Doc: "The point, or several."},
	{Word: "path", Form: "PATH", Example: "path -2400,0 line 2400,0", Doc: "A line in the mark's own axes; closed only where it says `close`."},
	{Word: "dashed", Example: "dashed", Doc: "The line is taped with gaps."},
	{Word: "corners", Example: "corners", Doc: "Only the corners of the line are marked."},
}, slices.DeleteFunc(unmade(freely("floor")), func(a notation.Attr) bool { return a.Word == "stack" }))

func (mark) table() *notation.Kind { return markTable }

func (mark) outline(*elem) (*set.Outline, bool) { return nil, true }

func (mark) hasOutline(*elem) bool { return false }

func (mark) height(*elem) (float64, bool) { return 0, true }

// points returns the points in the set's axes, of a mark that lists them.
func (mark) points(e *elem) ([]geom.Point, bool) {
	ax, ok := e.from()
	n := e.arg("point")
	if !ok || n == nil {
		return nil, false
	}
	if f, ok := n.(*notation.Floats); ok {
		list, ok := e.sc.ev.Points(f, nil)
		for i, p := range list {
			list[i] = ax.m.Apply(p)
		}
		return list, ok
	}
	return e.sc.ev.Points(n, func(p notation.Node) (geom.Point, bool) {
		at, ok := e.sc.ev.Place(p, ax.m)
		return at.At, ok
	})
}

// stand is where the first point or the path's own 0,0 lies.
func (m mark) stand(e *elem) (pose, bool) {
	p, ok := e.standAt()
	if !ok || !e.has("point") {
		return p, ok
	}
	for _, w := range [...]string{"at", "path"} {
		if e.has(w) {
			return p, e.clash("point", w, "either says where the mark is")
		}
	}
	points, ok := m.points(e)
	if !ok || len(points) == 0 {
		return p, false
	}
	p.at = points[0]
	return p, true
}

func (m mark) shape(e *elem) (set.Shape, bool) {
	out := &set.Mark{Dashed: e.has("dashed"), Corner: e.has("corners")}
	switch {
	case e.has("path"):
		line, ok := m.line(e)
		if !ok {
			return nil, false
		}
		out.Paths = []*geom.Path{line}
	case e.has("point"):
		points, ok := m.points(e)
		if !ok {
			return nil, false
		}
		p, ok := e.stand()
		if !ok {
			return nil, false
		}
		// The points stand where they were written at the mark's turn 0, and turn about the first.
		ax, ok := e.from()
		back := geom.Move(p.at, ax.turn).Inverse()
		for _, q := range points {
			out.Points = append(out.Points, back.Apply(q))
		}
		if !ok {
			return nil, false
		}
	case e.has("at"), e.has("on"), e.has("repeat"):
		out.Points = []geom.Point{{}}
	default:
		return nil, e.hint(e.st.NameSpan, "`"+e.name+"` needs its `point` or its `path`", "write `point 0, 3600`")
	}
	if len(out.Paths) == 0 && (out.Dashed || out.Corner) {
		w := "dashed"
		if out.Corner {
			w = "corners"
		}
		return nil, e.errorf(e.place(w), "`%s` is of a line, and this mark has none", w)
	}
	return out, true
}

// line is the mark's path in its own axes, nil where it has points only.
func (mark) line(e *elem) (*geom.Path, bool) {
	if !e.has("path") {
		return nil, true
	}
	return eval.Ask(e.sc.ev, &e.drawnOn, e.cell("path"), e.place("path"), func() (*geom.Path, bool) {
		n, ok := e.arg("path").(*notation.Path)
		if !ok {
			return nil, false
		}
		return e.sc.ev.Path(n, e.local)
	})
}

func (mark) anchors() []string { return []string{"centre", "start", "end", "along"} }

func (m mark) anchor(e *elem, ask notation.Ask) (spot, bool) {
	line, ok := m.line(e)
	if !ok {
		return spot{}, false
	}
	if line == nil {
		if ask.Word != "centre" {
			return spot{}, e.hint(ask.Span, "`"+e.name+"` is made along no line", "its place is `%s.centre`", e.name)
		}
		if n, ok := e.arg("point").(*notation.List); ok && len(n.Items) > 1 {
			return spot{}, e.errorf(ask.Span, "`%s` has %d points, and none is its middle", e.name, len(n.Items))
		}
		return spot{}, true
	}
	switch ask.Word {
	case "centre":
		return spot{}, e.hint(ask.Span, "a line has no middle of its own", "its places are `%s.start`, `%s.end` and `%s.along(1200)`", e.name, e.name, e.name)
	case "start":
		return spot{at: line.Start()}, true
	case "end":
		return spot{at: line.End()}, true
	}
	return e.alongPath(line, ask)
}

func (mark) measures() []string { return []string{"length"} }

func (m mark) measure(e *elem, _ string) (unit.Value, bool) {
	line, ok := m.line(e)
	if !ok {
		return unit.Value{}, false
	}
	if line == nil {
		return unit.Value{}, e.errorf(e.st.NameSpan, "`%s` is a point, and has no length", e.name)
	}
	return lengthOf(line.Length()), true
}
