package element

import (
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// flat is a straight wall piece.
type flat struct{ plain }

var flatTable = kind("flat", "A wall piece with openings. The line from P to Q is its face at the floor: who stands at P and looks to Q has the face on the right, and the thickness goes behind. "+
	"Spread around a circle or along a line, its middle comes to lie there.", `flat back_wall
    from     -2400, 3000 to 2400, 3000
    height   2400
    thickness 60
    opening  door at 600 size 800 x 2000
        hinge left opens up
    opening  window at 2000 size 900 x 1000
        sill 900
    full-size face
`, []notation.Attr{
	{Word: "from", Form: "POINT to POINT", Example: "from -2400, 3000 to 2400, 3000", Doc: "P and Q, the ends of its face at the floor."},
	heightRow,
	sized("thickness", "thickness 60", "How thick it is; it lies behind the face."),
	{Word: "face", Form: "left|right", Example: "face left", Doc: "The side of the line that is seen, as one looks from P to Q; right unless said."},
	{Word: "opening", Form: "door|window|arch|hole [NAME] at VALUE size SIZE", Several: true, Example: "opening door at 600 size 800 x 2000",
		Doc: "A hole through it: how far along the face from P to its edge nearer P, and its width and height.",
		Sub: []notation.Attr{
			{Word: "sill", Form: "VALUE", Example: "sill 900", Doc: "The height of its lower edge above the flat's foot; 0 unless said."},
			{Word: "arch", Form: "VALUE", Example: "arch 400", Doc: "The rise of an arched head, counted in the opening's height. An `arch` without it is half round."},
			{Word: "hinge", Form: "left|right [opens up|down|left|right]", Example: "hinge left opens up",
				Doc: "The side of its hinges as one looks at the face, and the way it opens as drawn on the plan."},
		}},
}, placed("floor|face"))

func (flat) table() *notation.Kind { return flatTable }

func (e *elem) faceLeft() bool {
	a := e.attr("face")
	return a != nil && len(a.Args) > 0 && word(a.Args[0].Value) == "left"
}

func (flat) outline(*elem) (*set.Outline, bool) { return nil, true }

func (flat) hasOutline(*elem) bool { return false }

// ends is the place and the length of the flat.
func (flat) ends(e *elem) (pose, float64, bool) {
	if _, ok := e.need("from"); !ok {
		return pose{}, 0, false
	}
	return e.twoPoints("from")
}

func (f flat) stand(e *elem) (pose, bool) {
	p, _, ok := f.ends(e)
	return p, ok
}

func (f flat) hub(e *elem) (geom.Point, bool) {
	_, run, ok := f.ends(e)
	return geom.Point{X: run / 2}, ok
}

func (f flat) line(e *elem) (*geom.Path, bool) {
	_, run, ok := f.ends(e)
	return straightLine(run), ok
}

func (f flat) shape(e *elem) (set.Shape, bool) {
	_, run, ok1 := f.ends(e)
	h, ok2 := e.needed("height")
	thick, ok3 := e.optional("thickness")
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	out := &set.Flat{Length: run, Height: h, Thickness: thick, FaceLeft: e.faceLeft()}
	var at []diag.Span
	ok := true
	for _, a := range e.st.Attributes {
		if a.Word != "opening" {
			continue
		}
		o, fine := f.opening(e, a, out)
		if !fine {
			ok = false
			continue
		}
		for i, other := range out.Openings {
			if apart := o.At+o.Width <= other.At+geom.Tolerance || other.At+other.Width <= o.At+geom.Tolerance ||
				o.Sill+o.Height <= other.Sill+geom.Tolerance || other.Sill+other.Height <= o.Sill+geom.Tolerance; !apart {
				ok = e.errorf(a.Span, "this opening overlaps the %s in line %d", other.Word, e.sc.list.Sources.Position(at[i]).Line)
			}
			if o.Name != "" && o.Name == other.Name {
				ok = e.errorf(a.Span, "`%s` has two openings called `%s`", e.name, o.Name)
			}
		}
		out.Openings, at = append(out.Openings, o), append(at, a.Span)
	}
	return out, ok
}

// opening works out one opening and checks that it lies on the flat.
func (flat) opening(e *elem, a *notation.Attribute, f *set.Flat) (o set.Opening, ok bool) {
	if len(a.Args) == 0 {
		return o, false
	}
	o.Word = word(a.Args[0].Value)
	if len(a.Args) > 1 && a.Args[1].Key == "" {
		o.Name = word(a.Args[1].Value)
	}
	at, size := a.Args.Get("at"), a.Args.Get("size")
	var ok1, ok2 bool
	if o.At, ok1 = e.sc.ev.NotNegative(at, "at"); !ok1 {
		return o, false
	}
	if o.Width, o.Height, ok2 = e.size(size, "size"); !ok2 {
		return o, false
	}
	arched := o.Word == "arch"
	for _, s := range a.Sub {
		if len(s.Args) == 0 {
			return o, false
		}
		switch v := s.Args[0].Value; s.Word {
		case "sill":
			o.Sill, ok = e.sc.ev.NotNegative(v, "sill")
		case "arch":
			arched = false
			o.Arch, ok = e.sc.ev.Positive(v, "arch")
			if ok && o.Arch > o.Height+geom.Tolerance {
				ok = e.errorf(v.Pos(), "the arch rises %s, and the opening is only %s high", e.show(o.Arch), e.show(o.Height))
			}
		case "hinge":
			o.Hinge, o.Opens, ok = word(v), word(s.Args.Get("opens")), true
		}
		if !ok {
			return o, false
		}
	}
	if arched {
		o.Arch = o.Width / 2
		if o.Arch > o.Height+geom.Tolerance {
			return o, e.hint(size.Pos(), "a half-round arch "+e.show(o.Width)+" wide is "+e.show(o.Arch)+" high, more than the opening", "say how far the head rises: `arch %s` beneath", unit.FormatLength(o.Height, e.sc.ev.Units, 0.1))
		}
	}
	switch {
	case o.At+o.Width > f.Length+geom.Tolerance:
		return o, e.errorf(a.Span, "this opening ends at %s, and the flat is %s long", e.show(o.At+o.Width), e.show(f.Length))
	case o.Sill+o.Height > f.Height+geom.Tolerance:
		return o, e.errorf(a.Span, "this opening reaches up to %s, and the flat is %s high", e.show(o.Sill+o.Height), e.show(f.Height))
	}
	return o, true
}

func (flat) measures() []string { return []string{"length"} }

func (f flat) measure(e *elem, _ string) (unit.Value, bool) {
	_, run, ok := f.ends(e)
	return lengthOf(run), ok
}

func (flat) anchors() []string { return []string{"start", "end", "along"} }

func (f flat) anchor(e *elem, ask notation.Ask) (spot, bool) {
	_, run, ok := f.ends(e)
	if !ok {
		return spot{}, false
	}
	return e.between(run, ask)
}
