package pdf

import (
	"math"
	"slices"

	"markout/layout/drawing"
	"markout/tiling"
)

// content is a stream of drawing operators in the making, and what of the graphics state it knows.
type content struct {
	buf    []byte
	codes  *codeTable
	used   usage
	forms  []*tiling.Form // shown by the stream, by the order of their names: X0, X1 …
	shows  []*tiling.Show // likewise: A0, A1 …
	hung   map[*tiling.Show]ref
	layers [drawing.Layers]bool

	x, y int64 // where the 0,0 of what is being added lies

	width     int64   // of lines; −1 unknown
	stroke    float64 // tone of lines; −1 unknown
	fill      float64 // tone of areas and text; −1 unknown
	dash      []float64
	phase     int64
	dashKnown bool
	hidden    bool
	font      textFont
}

// begin empties the stream. The graphics state is a page's: black, continuous; or not known, inside a form.
func (c *content) begin(form bool) {
	c.buf, c.forms, c.shows = c.buf[:0], c.forms[:0], c.shows[:0]
	c.layers = [drawing.Layers]bool{}
	c.x, c.y = 0, 0
	c.width, c.stroke, c.fill = -1, 0, 0
	c.dash, c.phase, c.dashKnown = nil, 0, true
	c.hidden = false
	c.font = textFont{}
	if form {
		c.stroke, c.fill, c.dashKnown = -1, -1, false
	}
}

// page appends the artwork of a page and then its layers, furniture first. What is clipped comes last, so that the clip needs no end.
func (c *content) page(p *tiling.Page) {
	for l := int(drawing.Layers) - 1; l >= 0; l-- {
		if len(p.Layers[l].Shows) > 0 {
			c.layer(drawing.Layer(l), func() { c.art(p.Layers[l].Shows) })
		}
	}
	clip := !p.Clip.Empty()
	for l := int(drawing.Layers) - 1; l >= 0; l-- {
		layer := drawing.Layer(l)
		if onlyArt(&p.Layers[l]) {
			continue
		}
		if clip && layer <= drawing.Notes {
			x, y := units(p.Clip.Min.X), units(p.Clip.Min.Y)
			c.int(x)
			c.int(y)
			c.int(units(p.Clip.Max.X) - x)
			c.int(units(p.Clip.Max.Y) - y)
			c.buf = append(c.buf, "re W n\n"...)
			clip = false
		}
		c.layer(layer, func() { c.add(&p.Layers[l]) })
	}
}

// layer appends what draw appends as content of a layer.
func (c *content) layer(l drawing.Layer, draw func()) {
	c.layers[l] = true
	c.buf = append(c.buf, "/OC/"...)
	c.buf = append(c.buf, layerKey(l), ' ')
	c.buf = append(c.buf, "BDC\n"...)
	draw()
	c.buf = append(c.buf, "EMC\n"...)
}

// onlyArt reports whether there is nothing besides artwork.
func onlyArt(c *tiling.Content) bool {
	return len(c.Fills)+len(c.Uses)+len(c.Strokes)+len(c.Texts) == 0
}

// art appends shown artwork.
func (c *content) art(shows []*tiling.Show) {
	for _, s := range shows {
		if r, known := c.hung[s]; known && r == 0 {
			continue // nothing of it shows
		}
		c.buf = append(c.buf, "/A"...)
		c.int(int64(len(c.shows)))
		c.buf = append(c.buf, "Do\n"...)
		c.shows = append(c.shows, s)
	}
}

// add appends one layer's or form's content, artwork apart.
func (c *content) add(from *tiling.Content) {
	for i := range from.Fills {
		c.area(&from.Fills[i])
	}
	for i := range from.Uses {
		c.use(&from.Uses[i])
	}
	for i := range from.Strokes {
		c.line(&from.Strokes[i])
	}
	c.texts(from.Texts)
}

func (c *content) int(v int64) { c.buf = appendInt(c.buf, v) }

// smallForm is the size up to which a form is drawn again wherever it is shown: about the bytes that showing it would
// take, and a reader's trouble of opening it besides.
const smallForm = 60

// small reports whether a form is drawn again wherever it is shown.
func small(f *tiling.Form) bool {
	if len(f.Uses)+len(f.Shows) > 0 {
		return false
	}
	size := 0
	for i := range f.Fills {
		for _, ring := range f.Fills[i].Rings {
			if size += 12 * len(ring); size > smallForm {
				return false // a key map grows with its grid: it must not be walked for every page
			}
		}
	}
	for i := range f.Strokes {
		for k := range f.Strokes[i].Runs {
			if size += 12 * len(f.Strokes[i].Runs[k].Points); size > smallForm {
				return false
			}
		}
	}
	for i := range f.Texts {
		size += 15 + len(f.Texts[i].Text)
	}
	return size <= smallForm
}

// use shows a form.
func (c *content) use(u *tiling.Use) {
	if u.Form == nil {
		return
	}
	x, y := units(u.At.X)+c.x, units(u.At.Y)+c.y
	if small(u.Form) {
		fromX, fromY := c.x, c.y
		c.x, c.y = x, y
		c.add(&u.Form.Content)
		c.x, c.y = fromX, fromY
		return
	}
	n := slices.Index(c.forms, u.Form)
	if n < 0 {
		n = len(c.forms)
		c.forms = append(c.forms, u.Form)
	}
	moved := x != 0 || y != 0
	if moved {
		c.buf = append(c.buf, "q 1 0 0 1 "...)
		c.int(x)
		c.int(y)
		c.buf = append(c.buf, "cm"...)
	}
	c.buf = append(c.buf, "/X"...)
	c.int(int64(n))
	c.buf = append(c.buf, "Do\n"...)
	if moved {
		c.buf = append(c.buf, "Q\n"...)
	}
}

// tone returns a tone within 0 and 1 to a thousandth.
func tone(t float64) float64 {
	if !(t > 0) {
		return 0
	}
	return math.Round(min(t, 1)*1000) / 1000
}

func (c *content) fillTone(t float64) {
	if t = tone(t); t != c.fill {
		c.fill = t
		c.buf = append(appendReal(c.buf, t, 3), " g "...)
	}
}

func (c *content) strokeTone(t float64) {
	if t = tone(t); t != c.stroke {
		c.stroke = t
		c.buf = append(appendReal(c.buf, t, 3), " G "...)
	}
}

// area appends a fill.
func (c *content) area(f *tiling.Fill) {
	drawn := false
	for _, ring := range f.Rings {
		if len(ring) < 3 {
			continue
		}
		if !drawn {
			c.fillTone(float64(f.Tone))
			drawn = true
		}
		c.points(ring, true)
	}
	if !drawn {
		return
	}
	if f.EvenOdd {
		c.buf = append(c.buf, "f*\n"...)
	} else {
		c.buf = append(c.buf, "f\n"...)
	}
}
