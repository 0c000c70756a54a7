package pdf

import (
	"math"
	"slices"
	"strconv"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// canvas is the content of one form of artwork in the making, in whole numbers of the picture's own unit.
type canvas struct {
	*gallery
	*hanging
	window  geom.Rect     // what of the picture shows, in its millimetres
	corners [4]geom.Point // of the paper's window, taken back
	coarse  bool          // numbers are written in units that are coarser
	grey    bool          // colours are written as their luminance: the form makes a mask

	buf      []byte
	now      painting
	saved    []painting
	names    map[byte][]ref // what the content names: G graphics states, P patterns, X forms and pictures
	coloured bool           // shows pictures of colours, which no mask of greys takes
}

// painting is what is known of the graphics state, as the operators that set it.
type painting struct {
	fill, stroke, line     string
	fillAlpha, strokeAlpha float64
}

func (c *canvas) begin() {
	c.buf, c.saved, c.names = nil, nil, map[byte][]ref{}
	c.now = painting{fillAlpha: 1, strokeAlpha: 1}
}

// child is an empty canvas for a form that this one shows.
func (c *canvas) child() *canvas {
	k := &canvas{gallery: c.gallery, hanging: c.hanging, window: c.window, corners: c.corners, grey: c.grey}
	k.begin()
	return k
}

func (c *canvas) put(s string) { c.buf = append(c.buf, s...) }

func (c *canvas) push() {
	c.put("q\n")
	c.saved = append(c.saved, c.now)
}

func (c *canvas) pop() {
	c.put("Q\n")
	c.now = c.saved[len(c.saved)-1]
	c.saved = c.saved[:len(c.saved)-1]
}

// number appends a length of the picture in whole units; what is beyond integers of PDF as a real.
func (c *canvas) number(mm float64) {
	if c.coarse {
		v := min(max(math.Floor(mm*c.unit+0.5), -1e15), 1e15)
		c.buf = append(appendReal(c.buf, v/coarser, 3), ' ')
		return
	}
	c.buf = c.appendUnits(c.buf, mm)
}

// coarser is by how much the units are larger in which what a gradient paints is written: at low resolutions Poppler takes a matrix whose
// units are as small as ours for one that flattens, and leaves the gradient out.
const coarser = 1000

// coarsen goes over to those units up to the next pop; draw draws in them.
func (c *canvas) coarsen(draw func()) {
	c.put("1000 0 0 1000 0 0 cm\n")
	c.coarse = true
	draw()
	c.coarse = false
}

func (h *hanging) appendUnits(b []byte, mm float64) []byte {
	v := math.Floor(mm*h.unit + 0.5)
	switch {
	case math.IsNaN(v):
		return append(b, '0', ' ')
	case math.Abs(v) < furthest:
		return appendInt(b, int64(v))
	}
	v = min(max(v, -1e15), 1e15)
	return append(strconv.AppendFloat(b, v, 'f', 1, 64), ' ')
}

func (c *canvas) point(p geom.Point) {
	c.number(p.X)
	c.number(p.Y)
}

// matrix appends cm with a map of the picture's millimetres whose units are given: of what it maps from, in whole units a one.
func (c *canvas) matrix(m artwork.Matrix, from float64) {
	k := c.unit / from
	for _, v := range [4]float64{m.A * k, m.B * k, m.C * k, m.D * k} {
		c.buf = append(appendSignificant(c.buf, v), ' ')
	}
	c.buf = append(appendSignificant(c.buf, m.E*c.unit), ' ')
	c.buf = append(appendSignificant(c.buf, m.F*c.unit), ' ')
	c.put("cm\n")
}

// name appends the name of an object and keeps it among the resources.
func (c *canvas) name(kind byte, r ref) {
	if !slices.Contains(c.names[kind], r) {
		c.names[kind] = append(c.names[kind], r)
	}
	c.buf = append(append(c.buf, '/', kind), strconv.Itoa(int(r))...)
	c.buf = append(c.buf, ' ')
}

func (c *canvas) do(r ref) {
	c.name('X', r)
	c.put("Do\n")
}

// state sets an entry of the graphics state.
func (c *canvas) state(dict string) {
	c.name('G', c.object([]byte(dict)))
	c.put("gs\n")
}

func (c *canvas) setFillAlpha(a float64) {
	if a = alpha(a); a != c.now.fillAlpha {
		c.now.fillAlpha = a
		c.state("<</ca " + string(appendReal(nil, a, 4)) + ">>")
	}
}

func (c *canvas) setStrokeAlpha(a float64) {
	if a = alpha(a); a != c.now.strokeAlpha {
		c.now.strokeAlpha = a
		c.state("<</CA " + string(appendReal(nil, a, 4)) + ">>")
	}
}

func alpha(a float64) float64 {
	if !(a > 0) {
		return 0
	}
	return math.Round(min(a, 1)*1e4) / 1e4
}

// colour returns the operands of a colour and whether it is a grey.
func (c *canvas) colour(v artwork.Colour) (operands string, grey bool) {
	if c.grey {
		return string(appendReal(nil, luminance(v), 4)), true
	}
	b := appendReal(nil, float64(v.R)/255, 4)
	if v.R == v.G && v.G == v.B {
		return string(b), true
	}
	b = appendReal(append(b, ' '), float64(v.G)/255, 4)
	return string(appendReal(append(b, ' '), float64(v.B)/255, 4)), false
}

// luminance is a colour's weight in a mask, 0 to 1: linear in the values of sRGB, with the coefficients of SVG 1.1, section
// 14.4 (luminanceToAlpha). PDF's own are others, but a grey stays what it is.
func luminance(v artwork.Colour) float64 {
	return (0.2125*float64(v.R) + 0.7154*float64(v.G) + 0.0721*float64(v.B)) / 255
}

func (c *canvas) setFill(v artwork.Colour) {
	s, grey := c.colour(v)
	if s += " rg\n"; grey {
		s = s[:len(s)-4] + " g\n"
	}
	if s != c.now.fill {
		c.now.fill = s
		c.put(s)
	}
}

func (c *canvas) setStroke(v artwork.Colour) {
	s, grey := c.colour(v)
	if s += " RG\n"; grey {
		s = s[:len(s)-4] + " G\n"
	}
	if s != c.now.stroke {
		c.now.stroke = s
		c.put(s)
	}
}

// group is the entry that makes a form be composed by itself before it is laid over what is there. Masks of greys are
// composed in grey.
func (c *canvas) group() string {
	if c.grey && !c.coloured {
		return "/Group<</S/Transparency/I true/CS/DeviceGray>>"
	}
	return "/Group<</S/Transparency/I true/CS/DeviceRGB>>"
}

// form writes the content as a form; box is what it may paint on, in the picture's millimetres.
func (c *canvas) form(box geom.Rect, entries string) ref {
	if box.Empty() {
		box = geom.Rect{}
	}
	b := []byte("/Type/XObject/Subtype/Form/BBox[")
	for _, v := range [2]geom.Point{box.Min, box.Max} {
		b = c.appendUnits(c.appendUnits(b, v.X), v.Y)
	}
	b = append(append(b, ']'), entries...)
	b = append(b, "/Resources<<"...)
	for _, kind := range []struct {
		letter byte
		name   string
	}{{'G', "/ExtGState"}, {'P', "/Pattern"}, {'X', "/XObject"}} {
		if len(c.names[kind.letter]) == 0 {
			continue
		}
		b = append(append(b, kind.name...), "<<"...)
		for _, r := range c.names[kind.letter] {
			b = append(append(b, '/', kind.letter), strconv.Itoa(int(r))...)
			b = appendRef(append(b, ' '), r)
		}
		b = append(b, ">>"...)
	}
	return c.stream(string(append(b, ">>"...)), c.buf)
}
