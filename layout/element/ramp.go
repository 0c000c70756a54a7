package element

import (
	"math"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// ramp rises evenly over its length.
type ramp struct{ plain }

var rampTable = kind("ramp", "A ramp. Where it `meets` a deck, its rise is the deck's top less what its foot stands on, unless given; with `rise` given too, the level of its foot follows.", `platform deck
    outline  rect 3600 x 2400
    height   450

ramp up
    meets    deck.back
    length   3600
    width    1200
`, []notation.Attr{
	{Word: "meets", Form: "POINT", Example: "meets deck.back", Doc: "The edge that it climbs to, square on: the middle of its upper edge lies there."},
	{Word: "starts", Form: "POINT heading VALUE", Example: "starts 0, 9600 heading 270deg", Doc: "Where the middle of its lower edge lies, and the way it climbs."},
	sized("length", "length 3600", "Its length on plan."),
	{Word: "slope", Form: "VALUE", Example: "slope 1:12", Measured: true, Wants: unit.Slope, Doc: "Its rise for its length on plan, in place of `length`."},
	sized("rise", "rise 450", "How far it rises."),
	sized("width", "width 1200", "Its width."),
}, placed("floor|side"))

func (ramp) table() *notation.Kind { return rampTable }

// rise returns how far the ramp rises.
func (r ramp) rise(e *elem) (float64, bool) {
	if e.has("rise") || !e.has("meets") {
		return e.needed("rise")
	}
	v, ok := e.value("rise", e.place("meets"), func() (unit.Value, bool) {
		top, ok1 := e.meetsTop()
		foot, ok2 := e.footLevel()
		if ok1 && ok2 && top-foot <= geom.Tolerance {
			return unit.Value{}, e.errorf(e.place("meets"), "the ramp does not climb: its foot stands at %s and its top at %s", e.show(foot), e.show(top))
		}
		return lengthOf(top - foot), ok1 && ok2
	})
	return v.X, ok
}

// length returns the ramp's length on plan.
func (r ramp) length(e *elem) (float64, bool) {
	switch {
	case e.has("length") && e.has("slope"):
		return 0, e.clash("length", "slope", "its rise leads from one to the other")
	case e.has("length") || !e.has("slope"):
		return e.needed("length")
	}
	v, ok := e.value("length", e.place("slope"), func() (unit.Value, bool) {
		s, ok1 := e.needed("slope")
		if ok1 && s <= 0 {
			return unit.Value{}, e.hint(e.place("slope"), "a ramp's slope is more than 0", "write `slope 1:12`")
		}
		rise, ok2 := r.rise(e)
		if ok1 && ok2 && rise/s > eval.Furthest {
			return unit.Value{}, e.errorf(e.place("slope"), "this makes the ramp longer than 10 km, the limit")
		}
		return lengthOf(rise / s), ok1 && ok2
	})
	return v.X, ok
}

func (r ramp) stand(e *elem) (pose, bool) {
	return e.climb(func() (geom.Point, bool) {
		l, ok := r.length(e)
		return geom.Point{Y: l}, ok
	})
}

// outline is the ramp on the plan, its lower edge to the front.
func (r ramp) outline(e *elem) (*set.Outline, bool) {
	return eval.Ask(e.sc.ev, &e.outlined, eval.Name{}, e.st.NameSpan, func() (*set.Outline, bool) {
		l, ok1 := r.length(e)
		w, ok2 := e.needed("width")
		if !ok1 || !ok2 {
			return nil, false
		}
		mid := geom.Point{Y: l / 2}
		return &set.Outline{Form: "rect", Path: geom.Rectangle(w, l).Transform(geom.Isometry{A: 1, D: 1, T: mid}), Centre: mid}, true
	})
}

func (r ramp) height(e *elem) (float64, bool) { return r.rise(e) }

func (r ramp) ground(e *elem, k int) (float64, bool) {
	if e.has("meets") && e.has("rise") {
		return e.hangs(func() (float64, bool) { return r.rise(e) })
	}
	return e.footLevelOf(k)
}

func (r ramp) shape(e *elem) (set.Shape, bool) {
	l, ok1 := r.length(e)
	rise, ok2 := r.rise(e)
	w, ok3 := e.needed("width")
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	out := &set.Ramp{Length: l, Rise: rise, Width: w}
	return out, e.meetsInto(&out.Meets, nil)
}

// under is the level of the ramp's highest point under the footprint; of what covers nothing, under its place.
func (r ramp) under(e *elem, k int, p geom.Point, foot func() ([]geom.Region, bool), at diag.Span) (float64, bool) {
	sh, ok := r.shape(e)
	if !ok {
		return 0, false
	}
	f, ok := e.frame(k)
	if !ok {
		return 0, false
	}
	covers, ok := foot()
	if !ok {
		return 0, false
	}
	s, back := sh.(*set.Ramp), f.Plan().Inverse()
	up := math.Inf(-1)
	if q := back.Apply(p); len(covers) == 0 && over(s, q) {
		up = q.Y
	}
	for _, c := range covers {
		up = max(up, highest(c.Outer.Transform(back), s))
	}
	if math.IsInf(up, -1) {
		return 0, e.errorf(at, "this does not stand over `%s`", e.name)
	}
	return f.T.Z + up*s.Rise/s.Length, true
}

// highest returns how far up the ramp, in its own axes, the part of an area reaches that lies over it; −∞ where none does.
func highest(area *geom.Path, s *set.Ramp) float64 {
	b := area.Bounds()
	ramp := geom.Rect{Min: geom.Point{X: -s.Width / 2}, Max: geom.Point{X: s.Width / 2, Y: s.Length}}
	if ramp.Grow(geom.Tolerance).Contains(b.Min) && ramp.Grow(geom.Tolerance).Contains(b.Max) {
		return min(b.Max.Y, s.Length)
	}
	both, err := geom.Intersect([]geom.Region{{Outer: area}}, []geom.Region{{Outer: geom.Rectangle(s.Width, s.Length).
		Transform(geom.Isometry{A: 1, D: 1, T: geom.Point{Y: s.Length / 2}})}}, geom.Flatness)
	up := math.Inf(-1)
	if err != nil {
		return up
	}
	for _, r := range both {
		up = max(up, min(r.Bounds().Max.Y, s.Length))
	}
	return up
}

func (ramp) measures() []string {
	return []string{"rise", "length", "run", "slope", "height", "heading"}
}

func (r ramp) measure(e *elem, word string) (unit.Value, bool) {
	switch word {
	case "rise", "height":
		x, ok := r.rise(e)
		return lengthOf(x), ok
	case "length", "run":
		x, ok := r.length(e)
		return lengthOf(x), ok
	case "slope":
		rise, ok1 := r.rise(e)
		l, ok2 := r.length(e)
		return unit.Value{Kind: unit.Slope, X: rise / max(l, geom.Tolerance)}, ok1 && ok2
	}
	p, ok := e.planOf(1)
	return unit.Value{Kind: unit.Angle, X: p.turn + 90}, ok
}

func (ramp) anchors() []string { return []string{"foot", "landing"} }

func (r ramp) anchor(e *elem, ask notation.Ask) (spot, bool) {
	if ask.Word == "foot" {
		return spot{outward: geom.Point{Y: -1}}, true
	}
	l, ok := r.length(e)
	return spot{at: geom.Point{Y: l}, outward: geom.Point{Y: 1}}, ok
}

// over reports whether a place in the ramp's own axes lies on it.
func over(s *set.Ramp, q geom.Point) bool {
	return geom.Rect{Min: geom.Point{X: -s.Width / 2}, Max: geom.Point{X: s.Width / 2, Y: s.Length}}.Grow(geom.Tolerance).Contains(q)
}
