package element

import (
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// cloth is artwork enlarged.
type cloth struct{ plain }

var clothTable = kind("cloth", "Artwork enlarged, tiled or squared up: a painted cloth, a poster, a floor. It stands about the middle of its lower edge, its face looking downstage.", `cloth harbour
    artwork  "harbour.svg"
    width    9000
    allow    top 100 bottom 200 sides 50
    at       0, 5500
    grid     500
`, []notation.Attr{
	artworkRow,
	sized("width", "width 9000", "Its finished width; from the artwork's proportions where only the height is given."),
	sized("height", "height 4800", "Its finished height; from the artwork's proportions where only the width is given."),
	{Word: "within", Form: "SIZE", Example: "within 9000 x 5000", Doc: "The largest that fits into this, in place of a width and a height."},
	{Word: "fit", Form: "whole|fill|stretch", Example: "fit fill", Doc: "Where width and height are given and the artwork has other proportions: all of it, with margins; so much of it as fills the cloth; or drawn out of its proportions."},
	{Word: "crop", Form: "from PAIR [size SIZE]", Example: "crop from 20, 10", Doc: "The part of the artwork that is used, from its lower left corner, in the artwork's own measure: millimetres of SVG, pixels of PNG and JPEG. Without a size, so much as the cloth's proportions take, or all that is left."},
	{Word: "allow", Form: "[top VALUE] [bottom VALUE] [sides VALUE] [left VALUE] [right VALUE]", Example: "allow top 100 bottom 200 sides 50", Doc: "What it has beyond its finished size, for hems and webbing. The artwork goes on over it as far as there is any."},
	{Word: "grid", Form: "VALUE { fine VALUE in PAIR size SIZE }", Example: "grid 500 fine 100 in -400, 900 size 800 x 600", Doc: "Squaring up: a grid from its centre line and its lower edge, and a finer one over a part, whose middle of the lower edge is given on the cloth."},
	sized("pounce", "pounce 20", "Dots along the lines of the artwork, so far apart, for a pounce pattern."),
}, freely("floor|face"))

func (cloth) table() *notation.Kind { return clothTable }

func (cloth) outline(*elem) (*set.Outline, bool) { return nil, true }

func (cloth) hasOutline(*elem) bool { return false }

func (cloth) line(*elem) (*geom.Path, bool) { return nil, true }

func (cloth) anchors() []string { return faceAnchors }

func (cloth) anchor(e *elem, ask notation.Ask) (spot, bool) {
	sh, ok := e.shape()
	if !ok {
		return spot{}, false
	}
	return faceAnchor(sh.(*set.Cloth).Finished(), ask), true
}

func (cloth) back(*elem) (geom.Point, bool) { return geom.Point{}, true }

func (cloth) height(e *elem) (float64, bool) {
	sh, ok := e.shape()
	if !ok {
		return 0, false
	}
	return sh.(*set.Cloth).Height, true
}

// measures are those that its artwork says where the text does not.
func (cloth) measures() []string { return []string{"width", "height"} }

func (cloth) measure(e *elem, word string) (unit.Value, bool) {
	sh, ok := e.shape()
	if !ok {
		return unit.Value{}, false
	}
	if word == "width" {
		return lengthOf(sh.(*set.Cloth).Width), true
	}
	return lengthOf(sh.(*set.Cloth).Height), true
}

func (c cloth) shape(e *elem) (set.Shape, bool) {
	art, ok := e.artwork()
	if !ok {
		return nil, false
	}
	out := &set.Cloth{Art: art}
	if out.Crop, ok = c.crop(e, art); !ok {
		return nil, false
	}
	if a := e.attr("fit"); a != nil && len(a.Args) > 0 {
		out.Fit = word(a.Args[0].Value)
	}
	if !c.allow(e, out) || !c.size(e, out) {
		return nil, false
	}
	c.lay(e, out)
	ok = c.grid(e, out)
	var fine bool
	if out.Pounce, fine = e.given0("pounce"); fine && out.Pounce > 0 && out.Pounce < leastPounce {
		fine = e.hint(e.arg("pounce").Pos(), "dots "+e.show(out.Pounce)+" apart run into one another", "at least %s are wanted", e.show(leastPounce))
	}
	return out, ok && fine
}

// leastPounce is the least distance of dots in millimetres: a dot is about 1 mm wide (common practice, no source).
const leastPounce = 3

// given0 is the length of an attribute that may be missing and is more than nothing; 0 where it is.
func (e *elem) given0(word string) (float64, bool) {
	n := e.arg(word)
	if n == nil {
		return 0, !e.has(word)
	}
	return e.sc.ev.Positive(n, word)
}

// crop is the part of the artwork that is asked for, in its own frame; all of it where nothing is said. Where only its corner is
// given it reaches to the artwork's upper right corner.
func (cloth) crop(e *elem, art *set.Artwork) (geom.Rect, bool) {
	whole := geom.Rect{Max: geom.Point{X: art.Picture.W, Y: art.Picture.H}}
	a := e.attr("crop")
	if a == nil {
		return whole, true
	}
	from, ok := e.sc.own(a.Args.Get("from"), art)
	if !ok {
		return whole, false
	}
	r := geom.Rect{Min: from, Max: whole.Max}
	if n, sized := a.Args.Get("size").(*notation.Size); sized {
		if len(n.Values) != 2 {
			return whole, e.hint(n.Span, "a part has a width and a height", "write `crop from 20, 10 size 300 x 200`")
		}
		w, ok1 := e.sc.ownLength(n.Values[0], art)
		h, ok2 := e.sc.ownLength(n.Values[1], art)
		if !ok1 || !ok2 {
			return whole, false
		}
		r.Max = from.Add(geom.Point{X: w, Y: h})
	}
	const slack = 1e-6
	if r.Min.X < -slack || r.Min.Y < -slack || r.Max.X > whole.Max.X*(1+slack) || r.Max.Y > whole.Max.Y*(1+slack) || r.W() <= 0 || r.H() <= 0 {
		return whole, e.errorf(a.Span, "this part does not lie in the artwork, which is %s by %s %s", unit.FormatNumber(whole.Max.X, 0.1), unit.FormatNumber(whole.Max.Y, 0.1), measureOf(art))
	}
	return r, true
}

// measureOf names what a picture's own unit is.
func measureOf(art *set.Artwork) string {
	if art.Drawn {
		return "mm"
	}
	return "pixels"
}

// own is a place in a picture: of plain numbers in its own measure.
func (sc *scene) own(n notation.Node, art *set.Artwork) (geom.Point, bool) {
	p, ok := n.(*notation.Pair)
	if !ok {
		return geom.Point{}, false
	}
	x, ok1 := sc.ownLength(p.X, art)
	y, ok2 := sc.ownLength(p.Y, art)
	return geom.Point{X: x, Y: y}, ok1 && ok2
}

// ownLength is a length in a picture's own measure: a plain number, or of drawn artwork a length too.
func (sc *scene) ownLength(n notation.Node, art *set.Artwork) (float64, bool) {
	v, ok := sc.ev.Value(n)
	if !ok || v.Kind == unit.Number || v.Kind == unit.Length && art.Drawn || v.Kind == unit.Pixels && !art.Drawn {
		return v.X, ok
	}
	sc.list.Add(diag.Diagnostic{Span: n.Pos(), Message: "a part of this artwork is measured in " + measureOf(art), Hint: "write plain numbers"})
	return 0, false
}

func (cloth) allow(e *elem, out *set.Cloth) bool {
	a := e.attr("allow")
	if a == nil {
		return true
	}
	ok := len(a.Args) > 0
	if !ok {
		return e.hint(a.Span, "`allow` says where and how much", "write `allow top 100 bottom 200 sides 50`")
	}
	for _, arg := range a.Args {
		v, fine := e.sc.ev.NotNegative(arg.Value, arg.Key)
		ok = ok && fine
		switch arg.Key {
		case "top":
			out.Allow.Top = v
		case "bottom":
			out.Allow.Bottom = v
		case "sides":
			out.Allow.Left, out.Allow.Right = v, v
		}
	}
	for _, side := range [...]struct {
		word string
		to   *float64
	}{{"left", &out.Allow.Left}, {"right", &out.Allow.Right}} {
		if n := a.Args.Get(side.word); n != nil && ok {
			*side.to, _ = e.sc.ev.NotNegative(n, side.word)
		}
	}
	return ok
}

// grid reads the grid and the finer ones.
func (cloth) grid(e *elem, out *set.Cloth) bool {
	a := e.attr("grid")
	if a == nil {
		return true
	}
	if len(a.Args) == 0 {
		return false
	}
	const least = 5 // millimetres
	step := func(n notation.Node, what string) (float64, bool) {
		v, ok := e.sc.ev.Small(n, what)
		if ok && (v < least || max(out.Whole().W(), out.Whole().H())/v > 2000) {
			ok = e.errorf(n.Pos(), "a grid of %s is too close for a cloth of %s by %s", e.show(v), e.show(out.Width), e.show(out.Height))
		}
		return v, ok
	}
	var ok bool
	if out.Grid, ok = step(a.Args[0].Value, "grid"); !ok {
		return false
	}
	var g set.FineGrid
	var at geom.Point
	for _, arg := range a.Args[1:] {
		fine := true
		switch arg.Key {
		case "fine":
			g.Step, fine = step(arg.Value, "fine")
		case "in":
			at, fine = e.sc.ev.Pair(arg.Value)
		case "size":
			var w, h float64
			if w, h, fine = e.size(arg.Value, "size"); fine {
				g.Over = geom.Rect{Min: at.Sub(geom.Point{X: w / 2}), Max: at.Add(geom.Point{X: w / 2, Y: h})}
				f := out.Whole()
				if g.Over.Min.X < f.Min.X || g.Over.Max.X > f.Max.X || g.Over.Min.Y < f.Min.Y || g.Over.Max.Y > f.Max.Y {
					fine = e.errorf(arg.Value.Pos(), "this part does not lie on the cloth")
				}
				out.Fine = append(out.Fine, g)
			}
		}
		ok = ok && fine
	}
	return ok
}
