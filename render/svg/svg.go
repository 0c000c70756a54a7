// Package svg writes a page as a picture in SVG 1.1: one for other programs, in millimetres, and a small one for lists of
// sheets.
//
// The page's y runs up and SVG's down; everything is turned over here and nowhere else. The only colour is black, a lighter tone
// being black that lets the paper through, and the white of areas that are kept blank; artwork that is shown keeps its own. Each layer is a group with the
// layer's name as its id: furniture first and cut last, so that nothing covers a line that is cut; artwork, in a group of its own, before
// all of them.
package svg

import (
	"fmt"
	"io"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// deepest is how many forms may stand in one another; more is a form that shows itself.
const deepest = 32

// Write writes a page at full size. Places are exact to half a micrometre; text stays text, in Go Regular and Go Bold or
// what the reader has instead, held to the width that it has in those. Of artwork only what its window shows is written,
// of a picture made of pixels the part that is seen. An error is w's own, that of pixels which cannot be read, or a form's that shows
// itself.
func Write(w io.Writer, p *tiling.Page) error {
	pic := picture{height: p.H, perUnit: 1000, decimals: 3, text: allText}
	pic.open(p)
	clipped := !p.Clip.Empty()
	if clipped {
		c := p.Clip
		pic.put(`<clipPath id="page-clip"><rect`)
		pic.number(` x="`, c.Min.X)
		pic.number(`" y="`, p.H-c.Max.Y)
		pic.number(`" width="`, c.W())
		pic.number(`" height="`, c.H())
		pic.put("\"/></clipPath>\n")
	}
	pic.artwork(p, clipped)
	for l := int(drawing.Layers) - 1; l >= 0; l-- {
		layer := drawing.Layer(l)
		if empty(&p.Layers[l]) {
			continue
		}
		pic.put(`<g id="` + layer.String() + `"`)
		if clipped && layer <= drawing.Notes {
			pic.put(` clip-path="url(#page-clip)"`)
		}
		pic.put(">\n")
		pic.content(&p.Layers[l], geom.Point{}, 0)
		pic.put("</g>\n")
	}
	pic.put("</svg>\n")
	if pic.err != nil {
		return pic.err
	}
	_, err := w.Write(pic.buf)
	return err
}

// picture is the bytes of one SVG in the making.
type picture struct {
	buf      []byte
	height   float64 // of the page, to turn y over
	perUnit  float64 // steps of the grid that places are rounded to, a millimetre
	decimals int     // digits of a step's number after the point
	text     func(*tiling.Text) bool
	least    float64 // the narrowest line, so that it still shows
	coarse   bool    // paths in few bytes: relative, without points that hardly matter
	formless bool    // forms are left out
	named    int     // ids given to what artwork is drawn with
	err      error
}

func allText(*tiling.Text) bool { return true }

// open begins the file: the paper's size, the page's label as its title, and the pen that all lines share.
func (pic *picture) open(p *tiling.Page) {
	pic.put(`<svg xmlns="http://www.w3.org/2000/svg"`)
	pic.number(` width="`, p.W)
	pic.number(`mm" height="`, p.H)
	pic.number(`mm" viewBox="0 0 `, p.W)
	pic.number(" ", p.H)
	pic.put("\" xml:space=\"preserve\" font-family=\"'Go', 'Go Regular', 'Liberation Sans', Helvetica, Arial, sans-serif\">\n")
	if p.Label != "" {
		pic.put("<title>")
		pic.escaped(p.Label)
		pic.put("</title>\n")
	}
}

func empty(c *tiling.Content) bool {
	return len(c.Fills)+len(c.Uses)+len(c.Strokes)+len(c.Texts) == 0
}

// content draws one layer or form with its own 0,0 at a place of the page.
func (pic *picture) content(c *tiling.Content, at geom.Point, depth int) {
	if depth > deepest {
		pic.err = fmt.Errorf("svg: a form shows itself")
		return
	}
	if depth > 0 { // a page's own artwork is drawn beneath every layer
		pic.shows(c, at)
	}
	for i := range c.Fills {
		pic.area(&c.Fills[i], at)
	}
	for i := range c.Uses {
		if u := &c.Uses[i]; u.Form != nil && pic.err == nil && !pic.formless {
			pic.content(&u.Form.Content, at.Add(u.At), depth+1)
		}
	}
	for i := range c.Strokes {
		pic.line(&c.Strokes[i], at)
	}
	for i := range c.Texts {
		if pic.text(&c.Texts[i]) {
			pic.lettering(&c.Texts[i], at)
		}
	}
}

// lettering writes one line of text.
func (pic *picture) lettering(t *tiling.Text, at geom.Point) {
	if t.Text == "" || !(t.Height > 0) {
		return
	}
	at = at.Add(t.At)
	pic.put("<text")
	if t.Turn == 0 {
		pic.number(` x="`, at.X)
		pic.number(`" y="`, pic.height-at.Y)
	} else {
		pic.number(` transform="translate(`, at.X)
		pic.number(" ", pic.height-at.Y)
		pic.put(") rotate(")
		pic.buf = appendFixed(pic.buf, -t.Turn, 6)
		pic.put(")")
	}
	pic.number(`" font-size="`, lettering.Em(t.Height))
	if w := lettering.Width(t.Text, t.Height, t.Bold); w > 0 {
		pic.number(`" textLength="`, w)
		pic.put(`" lengthAdjust="spacingAndGlyphs`)
	}
	if t.Bold {
		pic.put(`" font-weight="bold`)
	}
	pic.put(`"`)
	if t.Hidden {
		pic.put(` fill="none"`)
	} else {
		pic.tone("fill", float64(t.Tone))
	}
	pic.put(">")
	pic.escaped(t.Text)
	pic.put("</text>\n")
}

// tone adds what a tone needs beside the black that areas and text have unless said: how much of the paper shows through.
// White alone is a colour of its own, because it covers.
func (pic *picture) tone(what string, t float64) {
	switch {
	case !(t > 0):
	case t >= 1:
		pic.put(" " + what + `="#fff"`)
	default:
		pic.put(" " + what + `-opacity="`)
		pic.buf = append(appendFixed(pic.buf, 1-t, 3), '"')
	}
}
