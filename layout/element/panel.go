package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// panel is any flat piece to be cut; it lies, or stands as a ground row.
type panel struct{ plain }

var panelTable = kind("shape", "Any flat piece to be cut. It lies, or with `stands` it stands as a ground row on the line from P to Q, its face to the right of who looks from P to Q; "+
	"the lowest point of its outline is then at its foot, a drawn outline's 0 at P, any other in the middle of the line.", `shape roofs
    outline  path 0,0 line 0,600 900,1100 1800,600 3000,600 3000,0 close
    stands   from -1500, 2000 to 1500, 2000
    thickness 18
    full-size face
`, []notation.Attr{
	outlineRow,
	{Word: "hole", Form: "OUTLINE [at PAIR]", Several: true, Example: "hole circle 300 at 400, 200",
		Doc: "A hole, in the outline's own axes; `at` moves it there."},
	sized("thickness", "thickness 18", "The thickness of its board; lying, what is on it stands so much higher."),
	{Word: "stands", Form: "from POINT to POINT", Example: "stands from -1500, 2000 to 1500, 2000", Doc: "Stands it on the line from P to Q."},
	{Word: "brace", Example: "brace", Doc: "A brace holds it up from behind."},
}, freely("floor|face"))

func (panel) table() *notation.Kind { return panelTable }

// upright reports whether the piece stands: on the line from P to Q, or hung on a flat's face; and how long the line is
// that it stands on, of a hung one its own width.
func (panel) upright(e *elem) (run float64, stands, ok bool) {
	if e.has("stands") {
		_, run, ok := e.twoPoints("stands")
		return run, true, ok
	}
	if hung, ok := e.hung(); !ok || !hung {
		return 0, false, ok
	}
	o, ok := e.outlineOf("outline")
	if !ok {
		return 0, true, false
	}
	return o.Path.Bounds().W(), true, true
}

func (panel) stand(e *elem) (pose, bool) {
	if !e.has("stands") {
		return e.standAt()
	}
	for _, w := range [...]string{"at", "turn"} {
		if e.has(w) {
			return pose{}, e.clash("stands", w, "P and Q say where it stands")
		}
	}
	p, _, ok := e.twoPoints("stands")
	return p, ok
}

func (p panel) outline(e *elem) (*set.Outline, bool) {
	o, _, ok := p.settled(e)
	return o, ok
}

// settled returns the outline where it stands or lies in the piece's own axes, and by how much that has moved it.
func (p panel) settled(e *elem) (*set.Outline, geom.Isometry, bool) {
	by := geom.Isometry{A: 1, D: 1}
	o, ok1 := e.outlineOf("outline")
	run, stands, ok2 := p.upright(e)
	if !ok1 || !ok2 || !stands {
		return o, by, ok1 && ok2
	}
	switch o.Form {
	case "rect", "circle", "ellipse", "polygon":
		by.T.X = run / 2
	default:
		if !e.has("stands") { // a hung one's width begins at its left end, not at its own 0,0
			by.T.X = -o.Path.Bounds().Min.X
		}
	}
	by.T.Y = -o.Path.Bounds().Min.Y
	up := *o
	up.Path, up.Centre = o.Path.Transform(by), by.Apply(o.Centre)
	return &up, by, true
}

func (p panel) hasOutline(e *elem) bool {
	_, stands, ok := p.upright(e)
	return ok && !stands
}

// line is the outline of a lying piece, the way from P to Q of a standing one.
func (p panel) line(e *elem) (*geom.Path, bool) {
	if run, stands, ok := p.upright(e); stands || !ok {
		return straightLine(run), ok
	}
	return p.plain.line(e)
}

func straightLine(run float64) *geom.Path {
	p := geom.NewPath(geom.Point{})
	p.LineTo(geom.Point{X: run})
	return p
}

func (p panel) hub(e *elem) (geom.Point, bool) {
	run, stands, ok := p.upright(e)
	if !stands {
		return geom.Point{}, ok
	}
	return geom.Point{X: run / 2}, ok
}

func (p panel) height(e *elem) (float64, bool) {
	if _, stands, ok := p.upright(e); !ok {
		return 0, false
	} else if !stands {
		return e.optional("thickness")
	}
	o, ok := p.outline(e)
	if !ok {
		return 0, false
	}
	return o.Path.Bounds().Max.Y, true
}

func (p panel) shape(e *elem) (set.Shape, bool) {
	o, by, ok1 := p.settled(e)
	thick, ok2 := e.optional("thickness")
	if !ok1 || !ok2 {
		return nil, false
	}
	run, stands, ok := p.upright(e)
	if !ok {
		return nil, false
	}
	out := &set.Panel{Outline: *o, Thickness: thick, Stands: stands, Run: run, Brace: e.has("brace")}
	if out.Brace && !e.has("stands") {
		how := "lying"
		if stands {
			how = "hung"
		}
		return nil, e.hint(e.place("brace"), "a "+how+" piece has no brace", "write `stands from P to Q`")
	}
	return out, p.holes(e, out, by)
}

// holes cuts the holes, which lie inside the outline and clear of one another.
func (panel) holes(e *elem, s *set.Panel, by geom.Isometry) bool {
	for _, a := range e.st.Attributes {
		if a.Word != "hole" {
			continue
		}
		if len(a.Args) == 0 {
			return false
		}
		h, ok := e.draw(a.Args[0].Value, "hole")
		if !ok {
			return false
		}
		m := by
		if n := a.Args.Get("at"); n != nil {
			at, ok := e.sc.ev.Pair(n)
			if !ok {
				return false
			}
			m.T = m.T.Add(at)
		}
		h.Path, h.Centre = h.Path.Transform(m), m.Apply(h.Centre)
		if !holdsAll(s.Outline.Path, h.Path) {
			return e.errorf(a.Span, "this hole does not lie inside the outline")
		}
		for i, other := range s.Holes {
			if d, _, _ := geom.Distance(geom.Region{Outer: other.Path}, geom.Region{Outer: h.Path}); d <= 0 {
				return e.errorf(a.Span, "this hole runs into %s", "hole "+count(i+1))
			}
		}
		s.Holes = append(s.Holes, *h)
		a.Args = nil
	}
	return true
}

func (panel) anchors() []string { return []string{"start", "end", "along"} }

func (p panel) anchor(e *elem, ask notation.Ask) (spot, bool) {
	run, stands, ok := p.upright(e)
	if !ok {
		return spot{}, false
	}
	if !stands {
		return spot{}, e.hint(ask.Span, "`"+e.name+"` lies, and is made along no line", "its places are centre, front, back, left, right, edge and corner")
	}
	return e.between(run, ask)
}

func (panel) measures() []string { return []string{"length", "height"} }

func (p panel) measure(e *elem, word string) (v unit.Value, ok bool) {
	if word == "height" {
		h, ok := p.height(e)
		return lengthOf(h), ok
	}
	run, stands, ok := p.upright(e)
	if ok && !stands {
		return v, e.errorf(e.st.NameSpan, "`%s` lies, and has no one length", e.name)
	}
	return lengthOf(run), ok
}

// between is start, end or along(d) of a piece that runs straight from P to Q.
func (e *elem) between(run float64, ask notation.Ask) (spot, bool) {
	out := geom.Point{Y: -1}
	switch ask.Word {
	case "start":
		return spot{outward: out}, true
	case "end":
		return spot{at: geom.Point{X: run}, outward: out}, true
	}
	return e.alongPath(straightLine(run), ask)
}
