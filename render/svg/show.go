package svg

import (
	"math"
	"strconv"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// art draws one picture of artwork in the picture's own millimetres, y up, inside a group that lays it on the page.
type art struct {
	*picture
	window   geom.Rect // what of the picture can be seen
	decimals int       // of places in the picture, so that they are as exact on the page as all others
	clips    map[*artwork.Clip]link
}

// artwork draws what the layers of a page show, in one group beneath all of them.
func (pic *picture) artwork(p *tiling.Page, clipped bool) {
	start := len(pic.buf)
	pic.put("<g id=\"artwork\">\n")
	open := len(pic.buf)
	for l := int(drawing.Layers) - 1; l >= 0; l-- {
		before := len(pic.buf)
		if clipped && drawing.Layer(l) <= drawing.Notes {
			pic.put("<g clip-path=\"url(#page-clip)\">\n")
		} else {
			pic.put("<g>\n")
		}
		inner := len(pic.buf)
		pic.shows(&p.Layers[l], geom.Point{})
		if len(pic.buf) == inner {
			pic.buf = pic.buf[:before]
			continue
		}
		pic.put("</g>\n")
	}
	if len(pic.buf) == open {
		pic.buf = pic.buf[:start]
		return
	}
	pic.put("</g>\n")
}

func (pic *picture) shows(c *tiling.Content, at geom.Point) {
	for _, s := range c.Shows {
		if pic.err == nil {
			pic.show(s, at)
		}
	}
}

// show draws artwork with the 0,0 of its content at a place of the page. The colours are the artwork's own.
func (pic *picture) show(s *tiling.Show, at geom.Point) {
	if s == nil || s.Picture == nil || s.Window.Empty() {
		return
	}
	window := geom.Rect{Min: s.Window.Min.Add(at), Max: s.Window.Max.Add(at)}
	lay := s.Frame.Then(artwork.Matrix{A: 1, D: -1, E: at.X, F: pic.height - at.Y})
	a := art{picture: pic, clips: map[*artwork.Clip]link{}}
	var ok bool
	if a.window, ok = seen(s); !ok {
		return
	}
	a.decimals = placesFor(lay)
	all := geom.EmptyRect()
	for _, n := range s.Picture.Nodes {
		if a.seen(n) {
			all = all.Union(artwork.Bounds(n))
		}
	}
	if all.Empty() {
		return
	}
	sheet := pic.name("window")
	pic.put(`<clipPath id="` + sheet + `"><rect`)
	pic.box(window.Min.X, pic.height-window.Max.Y, window.W(), window.H())
	pic.put("/></clipPath>\n")
	frame := ""
	if all.Min.X < 0 || all.Min.Y < 0 || all.Max.X > s.Picture.W || all.Max.Y > s.Picture.H {
		frame = pic.name("frame")
		pic.put(`<clipPath id="` + frame + `"><rect width="`)
		pic.buf = appendFixed(pic.buf, s.Picture.W, a.decimals)
		pic.put(`" height="`)
		pic.buf = appendFixed(pic.buf, s.Picture.H, a.decimals)
		pic.put("\"/></clipPath>\n")
	}
	pic.put(`<g`)
	pic.link("clip-path", sheet)
	pic.put("><g")
	pic.matrix("transform", lay)
	if frame != "" {
		pic.link("clip-path", frame)
	}
	pic.put(">\n")
	a.nodes(s.Picture.Nodes)
	pic.put("</g></g>\n")
}

// seen returns the part of a picture, in its own millimetres, that its window may show; ok is false where there is none, or no
// number for it.
func seen(s *tiling.Show) (geom.Rect, bool) {
	back, ok := s.Frame.Inverse()
	if !ok {
		return geom.Rect{}, false
	}
	box := geom.EmptyRect()
	w := s.Window
	for _, c := range [4]geom.Point{w.Min, {X: w.Max.X, Y: w.Min.Y}, w.Max, {X: w.Min.X, Y: w.Max.Y}} {
		p := back.Apply(c)
		if !finite(p.X, p.Y) {
			return geom.Rect{}, false
		}
		box = box.Include(p)
	}
	box = geom.Rect{
		Min: geom.Point{X: max(box.Min.X, 0), Y: max(box.Min.Y, 0)},
		Max: geom.Point{X: min(box.Max.X, s.Picture.W), Y: min(box.Max.Y, s.Picture.H)},
	}
	return box, box.Max.X > box.Min.X && box.Max.Y > box.Min.Y
}

// placesFor returns how many decimals keep places within half a micrometre when m has enlarged them.
func placesFor(m artwork.Matrix) int {
	most := math.Sqrt(m.A*m.A + m.B*m.B + m.C*m.C + m.D*m.D)
	return int(min(max(3+math.Ceil(math.Log10(most)), 0), 9))
}

func (a *art) seen(n artwork.Node) bool { return artwork.Bounds(n).Overlaps(a.window) }

// nodes draws those that the window may show.
func (a *art) nodes(nodes []artwork.Node) {
	for _, n := range nodes {
		if a.err != nil {
			return
		}
		if !a.seen(n) {
			continue
		}
		switch n := n.(type) {
		case *artwork.Group:
			a.group(n)
		case *artwork.Shape:
			a.shape(n)
		case *artwork.Image:
			a.image(n)
		}
	}
}

func (a *art) group(g *artwork.Group) {
	var through []link
	if g.Clip != nil {
		through = a.through(g.Clip, nil)
	}
	if g.Mask != nil {
		through = append(through, link{"mask", a.mask(g.Mask)})
	}
	opened := a.enter(through, g.Opacity)
	a.nodes(g.Nodes)
	a.leave(opened)
}

// link is a clip or a mask that has been written: the attribute that asks for it and its name.
type link struct{ attribute, name string }

// through writes the clips that what is clipped by c passes, and appends them to out, the outermost first. Readers differ on clips
// that are clipped themselves; groups in groups all of them know.
func (a *art) through(c *artwork.Clip, out []link) []link {
	if c.Clip != nil {
		out = a.through(c.Clip, out)
	}
	l, ok := a.clips[c]
	if !ok {
		l = a.clip(c)
		a.clips[c] = l
	}
	return append(out, l)
}

// enter opens the groups that draw through clips and masks, the innermost with an opacity, and returns how many.
func (a *art) enter(through []link, opacity float64) (opened int) {
	for i := 0; i < len(through) || opened == 0; opened++ {
		a.put("<g")
		if i < len(through) {
			a.link(through[i].attribute, through[i].name)
			i++
		}
		if i == len(through)-1 && i > 0 && through[i-1].attribute != through[i].attribute {
			a.link(through[i].attribute, through[i].name)
			i++
		}
		if i >= len(through) {
			a.opacity("opacity", opacity)
		}
		a.put(">\n")
	}
	return opened
}

func (a *art) leave(opened int) {
	for range opened {
		a.put("</g>")
	}
	a.put("\n")
}

// clip writes a clip by itself: a clipPath, or where one of its outlines is cut down by another clip, a mask of white areas.
func (a *art) clip(c *artwork.Clip) link {
	cut := make([][]link, len(c.Outlines))
	l := link{"clip-path", a.name("clip")}
	for i, o := range c.Outlines {
		if o.Clip != nil {
			cut[i], l.attribute = a.through(o.Clip, nil), "mask"
		}
	}
	tag, rule := "clipPath", "clip-rule"
	if l.attribute == "mask" {
		tag, rule = "mask", "fill-rule"
		a.openMask(l.name)
	} else {
		a.put(`<clipPath id="` + l.name + `"`)
	}
	a.put(">")
	for i, o := range c.Outlines {
		opened := 0
		if len(cut[i]) > 0 {
			opened = a.enter(cut[i], 1)
		}
		a.put("<path")
		if tag == "mask" {
			a.put(` fill="#fff"`)
		}
		if o.EvenOdd {
			a.put(" " + rule + `="evenodd"`)
		}
		a.paths(o.Paths, artwork.Identity())
		a.put("/>")
		if opened > 0 {
			a.leave(opened)
		}
	}
	a.put("</" + tag + ">\n")
	return l
}

// mask writes a mask and returns its name.
func (a *art) mask(m *artwork.Mask) string {
	name := a.name("mask")
	a.openMask(name)
	if m.Alpha {
		a.put(` mask-type="alpha"`)
	}
	a.put(">\n")
	a.nodes(m.Nodes)
	a.put("</mask>\n")
	return name
}

// openMask begins a mask whose region is the picture's window: outside it nothing is seen anyway.
func (a *art) openMask(name string) {
	a.put(`<mask id="` + name + `" maskUnits="userSpaceOnUse"`)
	w := a.window.Grow(max(a.window.W(), a.window.H()) / 100) // so that the region's own edge cuts no pixel at the window's
	a.significant(` x="`, w.Min.X)
	a.significant(`" y="`, w.Min.Y)
	a.significant(`" width="`, w.W())
	a.significant(`" height="`, w.H())
	a.put(`"`)
}

// name returns an id that no other thing of the file has.
func (pic *picture) name(kind string) string {
	pic.named++
	return kind + "-" + strconv.Itoa(pic.named)
}

func (pic *picture) link(attribute, id string) { pic.put(" " + attribute + `="url(#` + id + `)"`) }

// box writes a rect's place on the page.
func (pic *picture) box(x, y, w, h float64) {
	pic.number(` x="`, x)
	pic.number(`" y="`, y)
	pic.number(`" width="`, w)
	pic.number(`" height="`, h)
	pic.put(`"`)
}

// opacity writes an opacity that is less than 1.
func (pic *picture) opacity(attribute string, v float64) {
	if v >= 1 {
		return
	}
	pic.put(" " + attribute + `="`)
	pic.buf = append(appendFixed(pic.buf, v, 6), '"')
}

// matrix writes an affine map with twelve significant digits: a millionth of a millimetre in a kilometre.
func (pic *picture) matrix(attribute string, m artwork.Matrix) {
	pic.put(" " + attribute + `="matrix(`)
	for i, v := range [6]float64{m.A, m.B, m.C, m.D, m.E, m.F} {
		if i > 0 {
			pic.put(" ")
		}
		pic.buf = appendSignificant(pic.buf, v, 12)
	}
	pic.put(`)"`)
}

// significant adds words and a number with nine significant digits.
func (pic *picture) significant(before string, v float64) {
	pic.put(before)
	pic.buf = appendSignificant(pic.buf, v, 9)
}

// appendSignificant appends a number with so many significant digits, 0 for what is no number.
func appendSignificant(b []byte, v float64, digits int) []byte {
	if !finite(v) || v == 0 {
		return append(b, '0')
	}
	return strconv.AppendFloat(b, v, 'g', digits, 64)
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
