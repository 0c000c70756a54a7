package element

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

var openingRow = notation.Attr{Word: "opening", Form: "door|window|arch|hole [NAME] at VALUE size SIZE", Several: true, Example: "opening door at 600 size 800 x 2000",
	Doc: "A hole through it: how far along the face from P to its edge nearer P, and its width and height.",
	Sub: []notation.Attr{
		{Word: "sill", Form: "VALUE", Example: "sill 900", Doc: "The height of its lower edge above the flat's foot; 0 unless said."},
		{Word: "arch", Form: "VALUE", Example: "arch 400", Doc: "The rise of an arched head, counted in the opening's height. An `arch` without it is half round."},
		{Word: "hinge", Form: "left|right [opens up|down|left|right]", Example: "hinge left opens up",
			Doc: "The side of its hinges as one looks at the face, and the way it opens as drawn on the plan."},
	}}

// openings reads the flat's openings, which lie on it and clear of one another.
func (fl flat) openings(e *elem, out *set.Flat) bool {
	var at []diag.Span
	ok := true
	for _, a := range e.st.Attributes {
		if a.Word != "opening" {
			continue
		}
		o, fine := fl.opening(e, a, out)
		if !fine {
			ok = false
			continue
		}
		for i, other := range out.Openings {
			if meet(o, other) {
				ok = e.hint(a.Span, "this opening overlaps the "+other.Word+" in line "+count(e.sc.list.Sources.Position(at[i]).Line), "%s", e.roomFor(o, out))
			}
			if o.Name != "" && o.Name == other.Name {
				ok = e.errorf(a.Span, "`%s` has two openings called `%s`", e.name, o.Name)
			}
		}
		out.Openings, at = append(out.Openings, o), append(at, a.Span)
	}
	return ok
}

// meet reports whether two openings have some area in common.
func meet(a, b set.Opening) bool {
	return a.At+a.Width > b.At+geom.Tolerance && b.At+b.Width > a.At+geom.Tolerance &&
		a.Sill+a.Height > b.Sill+geom.Tolerance && b.Sill+b.Height > a.Sill+geom.Tolerance
}

// roomFor says where along the face an opening of this size is clear of those before it, the nearest place to where it was
// put; of equals the one nearer P.
func (e *elem) roomFor(o set.Opening, f *set.Flat) string {
	places := []float64{0, f.Length - o.Width}
	for _, other := range f.Openings {
		places = append(places, other.At-o.Width, other.At+other.Width)
	}
	slices.SortFunc(places, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Abs(a-o.At), math.Abs(b-o.At)), cmp.Compare(a, b))
	})
	for _, x := range places {
		q := o
		q.At = x
		if x < 0 || x+o.Width > f.Length+geom.Tolerance || slices.ContainsFunc(f.Openings, func(other set.Opening) bool { return meet(q, other) }) {
			continue
		}
		return "at " + e.show(x) + " it is clear of the others"
	}
	return "beside the others there is no room for one " + e.show(o.Width) + " wide"
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
	return o, e.onFlat(o, f, a.Span)
}

// onFlat reports an opening that does not lie on its flat, with what would fit.
func (e *elem) onFlat(o set.Opening, f *set.Flat, at diag.Span) bool {
	short := func(mm float64) string { return unit.FormatLength(mm, e.sc.ev.Units, 0.1) }
	if end := o.At + o.Width; end > f.Length+geom.Tolerance {
		message := "this opening ends at " + e.show(end) + ", and the flat is " + e.show(f.Length) + " long"
		switch {
		case o.Width > f.Length+geom.Tolerance:
			return e.hint(at, message, "the flat has room for one %s wide", e.show(f.Length))
		case o.At >= f.Length-geom.Tolerance:
			return e.hint(at, message, "`at %s` is the furthest that fits", short(f.Length-o.Width))
		}
		return e.hint(at, message, "`at %s` fits, or a width of %s", short(f.Length-o.Width), e.show(f.Length-o.At))
	}
	if head := o.Sill + o.Height; head > f.Height+geom.Tolerance {
		message := "this opening reaches up to " + e.show(head) + ", and the flat is " + e.show(f.Height) + " high"
		switch {
		case o.Height > f.Height+geom.Tolerance:
			return e.hint(at, message, "the flat has room for one %s high", e.show(f.Height))
		case o.Sill >= f.Height-geom.Tolerance:
			return e.hint(at, message, "`sill %s` is the highest that fits", short(f.Height-o.Height))
		}
		return e.hint(at, message, "`sill %s` fits, or a height of %s", short(f.Height-o.Height), e.show(f.Height-o.Sill))
	}
	return e.clearOfCorners(o, f, at)
}

// clearOfCorners reports an opening whose edge stands so near a corner of a curved flat's line that it cuts into the
// thickness of the piece beyond.
func (e *elem) clearOfCorners(o set.Opening, f *set.Flat, at diag.Span) bool {
	if f.Line == nil {
		return true
	}
	r := geom.NewRuler(f.Line)
	for _, edge := range [...]float64{o.At, o.At + o.Width} {
		for _, side := range [...][2]float64{{0, edge}, {edge, f.Length}} {
			if side[1]-side[0] <= geom.Tolerance {
				continue
			}
			part := r.Part(side[0], side[1])
			_, err := geom.Parallel(part, f.Behind())
			bad := (*geom.ParallelError)(nil)
			if !errors.As(err, &bad) {
				continue
			}
			corner, beside := side[0], 0.0
			ends := geom.NewRuler(part).Ends()
			if side[0] == edge {
				corner += ends[min(bad.Segment, len(ends)-1)]
			} else if bad.Segment > 0 {
				corner += ends[bad.Segment-1]
			}
			beside = math.Abs(edge - corner)
			return e.hint(at, "the edge of this opening at "+e.show(edge)+" stands "+e.show(beside)+" beside a corner of the line, in the thickness of the piece beyond",
				"keep it %s from the corner at %s", e.show(max(bad.Taken, beside)), e.show(corner))
		}
	}
	return true
}
