package element

import (
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// dressing is furniture, a prop, a practical.
type dressing struct{ plain }

var dressingTable = orList(kind("dressing", "Furniture, props and practicals. In a room overhead each gets a tag and a row of the transfer table. The card model shows it where `model` says how: of a card as a box, or as a rod or tube.", `dressing locker
    at       1500, 3350
    size     600 x 400
    height   2050
    weight   38kg
    fixings  -200,150 200,150
`, []notation.Attr{
	{Word: "size", Form: "SIZE", Example: "size 900 x 600", Doc: "Its width and depth on the plan, in place of an outline."},
	outlineRow, heightRow,
	{Word: "weight", Form: "[all] [about] VALUE", Example: "weight about 4kg",
		Doc: "Its weight as it was measured, or `about` where it was judged; `all` of the lot of a repeat. Without it the weight is not known, and every total says so."},
	{Word: "fixings", Form: "POINTS | VALUE", Several: true, Example: "fixings -200,150 200,150",
		Doc: "The places that it is fixed at, in its own axes, or how many there are."},
	{Word: "loose", Example: "loose", Doc: "It only stands where it is, and has to be fixed before it is turned over."},
	{Word: "soft", Example: "soft", Doc: "It falls out of shape when it is turned over: cloth, cushions, paper."},
	{Word: "tag", Form: "VALUE", Example: "tag 14", Doc: "The number on its tag, of a repeated piece that of copy 1; in the file's order unless said."},
}, freely("floor")))

func (dressing) table() *notation.Kind { return dressingTable }

func (dressing) outline(e *elem) (*set.Outline, bool) {
	switch {
	case e.has("outline") && e.has("size"):
		return nil, e.clash("outline", "size", "either says how much room it takes on the plan")
	case !e.has("size"):
		return e.outlineOf("outline")
	}
	return eval.Ask(e.sc.ev, &e.outlined, e.cell("size"), e.place("size"), func() (*set.Outline, bool) {
		w, d, ok := e.size(e.arg("size"), "size")
		if !ok {
			return nil, false
		}
		return &set.Outline{Form: "rect", Path: geom.Rectangle(w, d)}, true
	})
}

// mostTag is the greatest number on a tag.
const mostTag = 99_999

func (d dressing) shape(e *elem) (set.Shape, bool) {
	out := &set.Dressing{Loose: e.has("loose"), Soft: e.has("soft")}
	o, ok := d.outline(e)
	if ok {
		out.Outline = *o
	}
	// A row of a list is looked at whole, whatever is wrong in it.
	also := func(fine bool) { ok = ok && fine }
	var fine bool
	out.Height, fine = e.needed("height")
	also(fine)
	also(d.weigh(e, out))
	if n := e.arg("tag"); n != nil {
		out.Tag, fine = e.sc.ev.Count(n, "tag", 1, mostTag)
		also(fine)
	}
	also(d.fixed(e, out))
	if !ok {
		return nil, false
	}
	return out, true
}

// weigh reads the weight of one piece, or of the lot.
func (dressing) weigh(e *elem, out *set.Dressing) bool {
	a := e.attr("weight")
	if a == nil {
		return true
	}
	var n notation.Node
	lot := false
	out.WeightIs = set.Measured
	for _, arg := range a.Args {
		switch w := word(arg.Value); {
		case w == "all":
			lot = true
		case w == "about":
			out.WeightIs = set.About
		default:
			n = arg.Value
		}
	}
	if n == nil {
		return false
	}
	v, ok := e.sc.ev.Want(n, unit.Weight, "weight")
	if !ok {
		return false
	}
	if v.X <= 0 {
		return e.hint(n.Pos(), "a weight is more than 0", "leave the line out where it is not known: every total then says so")
	}
	out.Weight = v.X
	if lot {
		c, ok := e.counts()
		if !ok {
			return false
		}
		out.Lot, out.Weight = v.X, v.X/float64(c.round*c.layers-len(c.out))
	}
	return true
}

// fixed reads the fixings: places, or how many there are.
func (dressing) fixed(e *elem, out *set.Dressing) bool {
	const most = 1000
	ok := true
	for _, a := range e.st.Attributes {
		if a.Word != "fixings" || len(a.Args) == 0 {
			continue
		}
		n := a.Args[0].Value
		switch n.(type) {
		case *notation.List, *notation.Floats, *notation.Pair:
			p, fine := e.sc.ev.Points(n, e.local)
			out.Fixings, ok = append(out.Fixings, p...), ok && fine
		default:
			c, fine := e.sc.ev.Count(n, "fixings", 1, most)
			out.Count, ok = out.Count+c, ok && fine
		}
		if ok && len(out.Fixings) > 0 && out.Count > 0 {
			return e.errorf(a.Span, "fixings are given by their places or by their number, not both")
		}
	}
	return ok
}
