package element

import (
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// flat is a wall piece, straight or curved in plan.
type flat struct{ plain }

var flatTable = kind("flat", "A wall piece with openings, straight or curved in plan. The line from P to Q is its face at the floor: who stands at P and looks to Q has the face on the right, and the thickness goes behind. "+
	"Spread around a circle or along a line, its middle comes to lie there.", `flat back_wall
    from     -2400, 3000 to 2400, 3000
    height   2400
    thickness 60
    opening  door at 600 size 800 x 2000
        hinge left opens up
    opening  window at 2000 size 900 x 1000
        sill 900
    full-size face

flat bay
    along    path 0,0 arc to 2400,0 radius 2000 right
    at       -1200, 0
    height   2400
    thickness 60
    opening  window at 800 size 900 x 1000
        sill 900
    full-size floor face
`, []notation.Attr{
	{Word: "from", Form: "POINT to POINT", Example: "from -2400, 3000 to 2400, 3000", Doc: "P and Q, the ends of its face at the floor, of a straight one."},
	{Word: "along", Form: "PATH|REF", Example: "along path 0,0 arc to 2400,0 radius 2000 right",
		Doc: "The line of its face at the floor from P to Q, of a curved one: drawn in the flat's own axes, which `at` and `turn` place, or that of a piece made along a line. Its corners are mitred."},
	heightRow,
	sized("thickness", "thickness 60", "How thick it is; it lies behind the face."),
	{Word: "face", Form: "left|right", Example: "face left", Doc: "The side of the line that is seen, as one looks from P to Q; right unless said."},
	openingRow,
}, freely("floor|face"))

func (flat) table() *notation.Kind { return flatTable }

func (e *elem) faceLeft() bool {
	a := e.attr("face")
	return a != nil && len(a.Args) > 0 && word(a.Args[0].Value) == "left"
}

func (flat) outline(*elem) (*set.Outline, bool) { return nil, true }

func (flat) hasOutline(*elem) bool { return false }

// stand is where P stands and the flat's line runs from there, or where the own axes of a drawn line stand, or those of the
// piece whose line it is.
func (f flat) stand(e *elem) (pose, bool) {
	curved, ok := f.curved(e)
	if !ok {
		return pose{}, false
	}
	if !curved {
		p, _, ok := e.twoPoints("from")
		return p, ok
	}
	if ref, ok := e.arg("along").(*notation.Ref); ok {
		other, k, ok := e.sc.element(ref)
		if !ok {
			return pose{}, false
		}
		return other.planOf(k)
	}
	return e.standAt()
}

func (f flat) hub(e *elem) (geom.Point, bool) {
	line, ok := f.line(e)
	if !ok {
		return geom.Point{}, false
	}
	at, _ := line.At(line.Length() / 2)
	return at, true
}

// line is the line of its face.
func (f flat) line(e *elem) (*geom.Path, bool) {
	curved, ok := f.curved(e)
	if !ok {
		return nil, false
	}
	if curved {
		return f.faceLine(e)
	}
	_, run, ok := e.twoPoints("from")
	return straightLine(run), ok
}

func (f flat) shape(e *elem) (set.Shape, bool) {
	curved, ok := f.curved(e)
	if !ok {
		return nil, false
	}
	line, ok1 := f.line(e)
	h, ok2 := e.needed("height")
	thick, ok3 := e.optional("thickness")
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	out := &set.Flat{Length: line.Length(), Height: h, Thickness: thick, FaceLeft: e.faceLeft()}
	if curved {
		out.Line = line
		if !f.thickEnough(e, out) {
			return nil, false
		}
	}
	return out, f.openings(e, out)
}

func (flat) measures() []string { return []string{"length"} }

func (f flat) measure(e *elem, _ string) (unit.Value, bool) {
	line, ok := f.line(e)
	if !ok {
		return unit.Value{}, false
	}
	return lengthOf(line.Length()), true
}

func (flat) anchors() []string { return []string{"start", "end", "along"} }

func (f flat) anchor(e *elem, ask notation.Ask) (spot, bool) {
	line, ok := f.line(e)
	if !ok {
		return spot{}, false
	}
	return e.onLine(line, ask)
}
