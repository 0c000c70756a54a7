package element

import (
	"slices"

	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/unit"
)

func (steps) measures() []string {
	return []string{"risers", "rise", "total", "going", "run", "length", "height", "heading", "top_heading"}
}

func (s steps) measure(e *elem, word string) (unit.Value, bool) {
	var x float64
	var ok bool
	switch word {
	case "risers":
		n, ok := s.risers(e)
		return unit.Value{X: float64(n)}, ok
	case "rise":
		x, ok = s.rise(e)
	case "total", "height":
		x, ok = s.total(e)
	case "going":
		if e.has("going") {
			x, ok = e.needed("going")
			break
		}
		g, landings, fine := s.goings(e)
		for _, k := range slices.Backward(landings) {
			g = slices.Delete(g, k-1, k)
		}
		x, ok = e.only(g, "going", fine)
	case "run", "length":
		x, ok = s.run(e)
	case "heading":
		return s.heading(e, 0)
	case "top_heading":
		run, fine := s.run(e)
		if !fine {
			return unit.Value{}, false
		}
		return s.heading(e, run)
	}
	return lengthOf(x), ok
}

// heading is the way one climbs at y along the line, as `starts … heading` says it.
func (s steps) heading(e *elem, y float64) (unit.Value, bool) {
	p, ok1 := e.planOf(1)
	st, ok2 := s.onLine(e)
	if !ok1 || !ok2 {
		return unit.Value{}, false
	}
	return unit.Value{Kind: unit.Angle, X: p.turn + degrees(st.Ahead(y))}, true
}

func (steps) anchors() []string { return []string{"foot", "landing", "start", "end", "along"} }

// anchor is the middle of the first riser's foot, which looks back down, or of the last riser, which looks on; or a place
// of the line that the flight is along, or of the middle of a straight one.
func (s steps) anchor(e *elem, ask notation.Ask) (spot, bool) {
	st, ok := s.onLine(e)
	if !ok {
		return spot{}, false
	}
	switch ask.Word {
	case "foot":
		at, ok := s.footAt(e)
		return spot{at: at, outward: st.Ahead(0).Mul(-1)}, ok
	case "start":
		return spot{at: st.Way(0, 0)}, true
	}
	run, ok := s.run(e)
	if !ok {
		return spot{}, false
	}
	switch ask.Word {
	case "landing":
		at, ok := s.landsAt(e)
		return spot{at: at, outward: st.Ahead(run)}, ok
	case "end":
		return spot{at: st.Way(0, run)}, true
	}
	line := st.Line
	if line == nil {
		line = straightUp(run)
	}
	return e.alongPath(line, ask)
}

// straightUp is the middle of a straight flight in its own axes.
func straightUp(run float64) *geom.Path {
	p := geom.NewPath(geom.Point{})
	p.LineTo(geom.Point{Y: run})
	return p
}
