package eval

import (
	"errors"
	"math"

	"markout/layout/geom"
	"markout/layout/notation"
)

// Path draws a line. point works out its points and handles. The path is closed where the text says `close`.
func (ev *Evaluator) Path(n *notation.Path, point func(notation.Node) (geom.Point, bool)) (*geom.Path, bool) {
	start, ok := point(n.Start)
	if !ok {
		return nil, false
	}
	p := geom.NewPath(start)
	for i := range n.Steps {
		s := &n.Steps[i]
		ends := make([]geom.Point, len(s.Points))
		for k, e := range s.Points {
			at, fine := point(e)
			ends[k], ok = at, ok && fine
		}
		if !ok || len(ends) == 0 {
			return nil, false
		}
		switch s.Word {
		case "line":
			for k, e := range ends {
				if e.Near(p.End()) {
					ev.List.Errorf(s.Points[k].Pos(), "this line ends where it starts")
					return nil, false
				}
				p.LineTo(e)
			}
		case "arc":
			ok = ev.arc(p, s, ends[0], point)
		case "curve":
			c1, ok1 := point(s.C1)
			c2, ok2 := point(s.C2)
			if ok = ok1 && ok2; ok {
				p.CubicTo(c1, c2, ends[0])
			}
		}
		if !ok {
			return nil, false
		}
	}
	if p.Empty() {
		ev.List.Errorf(n.Span, "this line has a start and no end")
		return nil, false
	}
	if n.Close {
		p.Close()
	}
	return p, true
}

func (ev *Evaluator) arc(p *geom.Path, s *notation.Step, end geom.Point, point func(notation.Node) (geom.Point, bool)) bool {
	if s.Via != nil {
		via, ok := point(s.Via)
		if !ok {
			return false
		}
		centre, sweep, err := geom.ArcThrough(p.End(), via, end)
		if err != nil {
			ev.List.Errorf(s.Span, "%s", err)
			return false
		}
		p.ArcTo(centre, sweep, end)
		return true
	}
	r, ok := ev.Positive(s.Radius, "radius")
	if !ok {
		return false
	}
	centre, sweep, err := geom.ArcRadius(p.End(), end, r, s.Left, s.Long)
	if short := (*geom.LeastRadiusError)(nil); errors.As(err, &short) {
		ev.List.Hintf(s.Radius.Pos(), "an arc of this radius does not reach: its ends are "+ev.Show(2*short.Least)+" apart",
			"the least radius is %s", ev.Show(short.Least))
		return false
	}
	if err != nil {
		ev.List.Errorf(s.Span, "%s", err)
		return false
	}
	p.ArcTo(centre, sweep, end)
	return true
}

// Points works out a list of points. A flat list of literal pairs is taken as it is, in the axes that a pair counts in.
func (ev *Evaluator) Points(n notation.Node, point func(notation.Node) (geom.Point, bool)) ([]geom.Point, bool) {
	switch n := n.(type) {
	case *notation.Floats:
		k, out := ev.factor(n), make([]geom.Point, len(n.X)/2)
		for _, x := range n.X {
			if !(math.Abs(x*k) <= Furthest) {
				ev.List.Errorf(n.Span, "a coordinate here is more than 10 km, the limit")
				return nil, false
			}
		}
		for i := range out {
			out[i] = geom.Point{X: n.X[2*i] * k, Y: n.X[2*i+1] * k}
		}
		return out, n.Pairs
	case *notation.List:
		out, ok := make([]geom.Point, len(n.Items)), true
		for i, item := range n.Items {
			p, fine := point(item)
			out[i], ok = p, ok && fine
		}
		return out, ok
	}
	p, ok := point(n)
	return []geom.Point{p}, ok
}
