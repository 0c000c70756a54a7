package element

import (
	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// mostSides is the greatest number of flat sides of a cone: one a degree.
const mostSides = 360

// cone is a tapered piece, round or with flat sides.
type cone struct{ plain }

var coneTable = kind("cone", "A tapered piece, round or with flat sides: a funnel, a spire, a planter. It stands about its own 0,0; its edges, corners and middle are those of its wider end.", `cone spire
    at       0, 3600
    lower    900
    upper    0
    height   1800

cone planter
    at       1800, 3600
    sides    4
    lower    300
    upper    450
    height   420
    full-size floor
`, []notation.Attr{
	sized("lower", "lower 900", "Its diameter at the foot; of one with `sides` from flat to flat (of an odd number twice the distance of a side from the middle). 0 is a point."),
	sized("upper", "upper 300", "The same at the top."),
	heightRow,
	{Word: "sides", Form: "VALUE", Example: "sides 4", Measured: true, Wants: unit.Number, Doc: "How many flat sides it has, 3 to 360, side 1 looking to the front; round unless said."},
}, freely("floor"))

func (cone) table() *notation.Kind { return coneTable }

// taper works out the whole piece, its height left aside: what is asked of its outline must not wait for that.
func (cone) taper(e *elem) (*set.Cone, bool) {
	lower, ok1 := e.needed("lower")
	upper, ok2 := e.needed("upper")
	c := &set.Cone{Lower: lower, Upper: upper}
	if e.has("sides") {
		n := e.arg("sides")
		if n == nil {
			return nil, false
		}
		var ok bool
		if c.Sides, ok = e.sc.ev.Count(n, "sides", 3, mostSides); !ok {
			return nil, false
		}
	}
	if !ok1 || !ok2 {
		return nil, false
	}
	if lower == 0 && upper == 0 {
		at, other := e.attr("lower"), e.attr("upper")
		if other.Span.From > at.Span.From {
			at = other
		}
		return nil, e.hint(at.Span, "`lower` and `upper` are both 0, and nothing is left between them", "one of them may be 0: `lower 900` and `upper 0` is a spire")
	}
	return c, true
}

func (c cone) outline(e *elem) (*set.Outline, bool) {
	return eval.Ask(e.sc.ev, &e.outlined, eval.Name{}, diag.Span{}, func() (*set.Outline, bool) {
		t, ok := c.taper(e)
		if !ok {
			return nil, false
		}
		o := t.Widest()
		return &o, true
	})
}

func (c cone) shape(e *elem) (set.Shape, bool) {
	out, ok1 := c.taper(e)
	h, ok2 := e.needed("height")
	if !ok1 || !ok2 {
		return nil, false
	}
	out.Height = h
	return out, true
}

// under is the level of its upper face, which a spire does not have.
func (c cone) under(e *elem, k int, p geom.Point, foot func() ([]geom.Region, bool), at diag.Span) (float64, bool) {
	if upper, ok := e.needed("upper"); !ok || upper == 0 {
		if ok {
			e.errorf(at, "`%s` ends in a point, and nothing stands on it", e.name)
		}
		return 0, false
	}
	return c.plain.under(e, k, p, foot, at)
}
