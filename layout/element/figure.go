package element

import (
	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/silhouette"
	"markout/layout/unit"
)

// figure is a life-size cut-out from artwork.
type figure struct{ plain }

var figureTable = orList(kind("figure", "A life-size cut-out from artwork: a flat figure that stands in for a performer or a drawn character. Its outline is that of what is drawn, whatever the frame around it.", `figure pilot
    artwork   "pilot.svg"
    height    1780
    eye       1660
    facing    left
    at        0, 3600
    thickness 9
    brace
    full-size face
`, []notation.Attr{
	artworkRow,
	sized("height", "height 1780", "The height of the drawn figure itself, from its lowest point to its highest."),
	sized("ground", "ground 40", "Air between its lowest point and what it stands on."),
	sized("eye", "eye 1660", "The height of its eyes above its own lowest point, upright: the eye line is drawn."),
	{Word: "facing", Form: "left|right|front", Example: "facing left", Doc: "The way the figure looks in its artwork, seen from the front; the sheets say how it looks once it is flipped or hung."},
	{Word: "flipped", Example: "flipped", Doc: "Its artwork mirrored, left for right."},
	{Word: "hung", Example: "hung", Doc: "Upside down: turned half round in its face, not mirrored. Its height, `ground` and `level` then count from its lowest point as it hangs."},
	{Word: "brace", Example: "brace", Doc: "A brace with a foot holds it up from behind."},
	{Word: "both", Form: "sides", Example: "both sides", Doc: "Its back is printed too."},
	{Word: "show", Form: "head [VALUE]", Example: "show head 260", Doc: "Its head alone is printed, on a pole: so far down from the crown, or twice as far as from the crown to the eyes, which stand half way down a head (common practice, no source)."},
	{Word: "look", Form: "at POINT [level VALUE]", Example: "look at 0, -2000 level 1600", Doc: "What it looks at: a place and how high it is, as high as its own eyes unless said; or another figure, into its eyes."},
	{Word: "within", Form: "VALUE", Example: "within 1px", Doc: "How near its outline keeps to the pixels' edge, of a picture made of pixels; 1px unless said."},
	{Word: "background", Form: "alpha|light|dark|border [VALUE]", Example: "background light", Doc: "What of a picture made of pixels is not the figure: what is transparent, lighter, darker, or of the colour of the border; and from what share of the difference on, 0 to 1, where the program is not to find it. Transparent unless said, or the border's colour where nothing is."},
	{Word: "bodies", Form: "largest|all", Example: "bodies all", Doc: "Whether only the largest body is cut, or all that the artwork has."},
	sized("thickness", "thickness 9", "The thickness of its board."),
	sized("margin", "margin 5", "How far outside the drawn figure it is cut, for the saw."),
}, append([]notation.Attr{atRow, turnRow}, placed("floor|face|side")...)))

var artworkRow = notation.Attr{Word: "artwork", Form: "TEXT", Example: `artwork "pilot.svg"`,
	Doc: "The picture, by its path from this file's folder: SVG, PNG or JPEG."}

func (figure) table() *notation.Kind { return figureTable }

func (figure) outline(*elem) (*set.Outline, bool) { return nil, true }

func (figure) hasOutline(*elem) bool { return false }

// height is how far it reaches above what it stands on.
func (figure) height(e *elem) (float64, bool) {
	h, ok1 := e.needed("height")
	g, ok2 := e.optional("ground")
	return g + h, ok1 && ok2
}

func (figure) line(*elem) (*geom.Path, bool) { return nil, true }

func (figure) anchors() []string { return faceAnchors }

func (figure) anchor(e *elem, ask notation.Ask) (spot, bool) {
	sh, ok := e.shape()
	if !ok {
		return spot{}, false
	}
	return faceAnchor(sh.(*set.Figure).Box(), ask), true
}

func (figure) measures() []string { return []string{"width"} }

func (figure) measure(e *elem, _ string) (unit.Value, bool) {
	sh, ok := e.shape()
	if !ok {
		return unit.Value{}, false
	}
	return lengthOf(sh.(*set.Figure).Width), true
}

// back is the place in its own axes that comes to lie on a wall's face.
func (figure) back(e *elem) (geom.Point, bool) {
	t, ok := e.optional("thickness")
	return geom.Point{Y: t}, ok
}

// artwork reads the picture that the element names.
func (e *elem) artwork() (*set.Artwork, bool) {
	n, ok := e.need("artwork")
	if !ok || e.sc.picture == nil {
		return nil, false
	}
	t, ok := n.(*notation.Text)
	if !ok {
		return nil, false
	}
	return e.sc.picture(t)
}

func (f figure) shape(e *elem) (set.Shape, bool) {
	art, ok := e.artwork()
	out := &set.Figure{Art: art, Flipped: e.has("flipped"), Hung: e.has("hung"), BothSides: e.has("both"), Brace: e.has("brace"), Tolerance: 1}
	var fine bool
	if out.Height, fine = e.needed("height"); !fine {
		ok = false
	}
	for _, v := range [...]struct {
		word string
		to   *float64
	}{{"ground", &out.Ground}, {"eye", &out.Eye}, {"thickness", &out.Thickness}, {"margin", &out.Margin}} {
		if *v.to, fine = e.optional(v.word); !fine {
			ok = false
		}
	}
	if a := e.attr("facing"); a != nil && len(a.Args) > 0 {
		out.Facing = word(a.Args[0].Value)
	}
	opt, fine := f.options(e)
	if !fine {
		ok = false
	}
	if !ok {
		return nil, false
	}
	out.Tolerance = opt.Tolerance
	if out.Eye > out.Height {
		return nil, e.errorf(e.arg("eye").Pos(), "the eyes are at %s, above the figure's own height of %s", e.show(out.Eye), e.show(out.Height))
	}
	if !f.head(e, out) || !f.held(e) {
		return nil, false
	}
	return out, f.cut(e, out, opt)
}

// held reports a brace behind a figure that a wall holds.
func (figure) held(e *elem) bool {
	onWall, ok := e.hung()
	if ok && onWall && e.has("brace") {
		return e.hint(e.place("brace"), "a figure on a wall's face has no brace", "leave `brace` out")
	}
	return ok
}

// options says how the outline is found.
func (figure) options(e *elem) (silhouette.Options, bool) {
	opt, ok := silhouette.Options{Tolerance: 1}, true
	if n := e.arg("within"); n != nil {
		v, fine := e.sc.ev.Want(n, unit.Pixels, "within")
		switch {
		case !fine:
			ok = false
		case v.X < 0.1 || v.X > 100:
			ok = e.hint(n.Pos(), "an outline keeps within 0.1 to 100 pixels of the edge", "write `within 1px`")
		}
		opt.Tolerance = v.X
	}
	if a := e.attr("background"); a != nil && len(a.Args) > 0 {
		opt.Background = silhouette.Background(word(a.Args[0].Value))
		if len(a.Args) > 1 {
			n := a.Args[1].Value
			v, fine := e.sc.ev.Want(n, unit.Number, "background")
			switch {
			case !fine:
				ok = false
			case v.X <= 0 || v.X >= 1:
				ok = e.errorf(n.Pos(), "a background ends at a share between 0 and 1, and this is %s", unit.FormatNumber(v.X, 0))
			}
			opt.Threshold = v.X
		}
	}
	if a := e.attr("bodies"); a != nil && len(a.Args) > 0 {
		opt.All = word(a.Args[0].Value) == "all"
	}
	return opt, ok
}

// head works out how far the head reaches down from the crown.
func (figure) head(e *elem, out *set.Figure) bool {
	a := e.attr("show")
	if a == nil {
		return true
	}
	for _, arg := range a.Args {
		if _, said := arg.Value.(*notation.Word); said {
			continue
		}
		h, ok := e.sc.ev.Positive(arg.Value, "head")
		if ok && h >= out.Height {
			ok = e.errorf(arg.Value.Pos(), "the head is %s long, and the whole figure %s", e.show(h), e.show(out.Height))
		}
		out.Head = h
		return ok
	}
	if out.Eye == 0 || out.Eye >= out.Height-geom.Tolerance {
		return e.hint(a.Span, "how far the head of `"+e.name+"` reaches down is not known", "give its eye line, `eye 1660`, or the head's length, `show head 260`")
	}
	out.Head = min(2*(out.Height-out.Eye), out.Height)
	return true
}

// cut lays the silhouette on the figure's face.
func (figure) cut(e *elem, out *set.Figure, opt silhouette.Options) bool {
	drawn, ok := e.sc.silhouette(e, out.Art, opt)
	if !ok {
		return false
	}
	box := geom.EmptyRect()
	for _, r := range drawn.Bodies {
		box = box.Union(r.Bounds())
	}
	k := out.Height / box.H()
	out.Frame = artwork.Matrix{A: k, D: k, E: -k * box.Mid().X, F: out.Ground - k*box.Min.Y}
	if out.Flipped {
		out.Frame = out.Frame.Then(artwork.Matrix{A: -1, D: 1})
	}
	if out.Hung {
		out.Frame = out.Frame.Then(artwork.Matrix{A: -1, D: -1, F: 2*out.Ground + out.Height})
	}
	out.Width, out.Others = k*box.W(), drawn.Others
	for _, r := range drawn.Bodies {
		out.Drawn = append(out.Drawn, out.Frame.Region(r))
	}
	out.Bodies = out.Drawn
	if out.Margin > 0 {
		var err error
		if out.Bodies, err = silhouette.Margin(out.Drawn, out.Margin); err != nil {
			return e.hint(e.place("margin"), "no margin of "+e.show(out.Margin)+" can be drawn about this outline: "+err.Error(), "a smaller margin may do")
		}
	}
	return true
}
