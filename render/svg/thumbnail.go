package svg

import (
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/pixels"
	"markout/tiling"
)

// thumbnailSteps is how many steps the longer side of a thumbnail is divided into: finer than it is looked at.
const thumbnailSteps = 400

// Thumbnails makes the thumbnails of many pages and keeps of the pictures made of pixels that they share what that takes, some 20 MB
// each. The zero value is ready; it is for one goroutine.
type Thumbnails struct {
	minis map[*pixels.Picture]*mini
}

// Thumbnail returns the thumbnail of a single page; see Thumbnails.Of.
func Thumbnail(p *tiling.Page) (string, error) { return new(Thumbnails).Of(p) }

// Of returns a small picture of a page to stand inside an HTML page, one of many: it has no ids, which would
// clash, and no size of its own. Lines are as wide as they must be to be seen; lettering that would be too small to read and
// all of the furniture's is left out, with its forms (a key map grows with its grid, and a thumbnail stands for every
// page of it), and so is everything that is smaller than a step of its coarse grid. Artwork takes some 14 kB at most. An error is
// a form's that shows itself, or that of pixels which cannot be read.
func (thumbs *Thumbnails) Of(p *tiling.Page) (string, error) {
	long := max(p.W, p.H)
	if !(long > 0) {
		long = 1
	}
	readable := long / 40
	pic := picture{
		height: p.H, perUnit: thumbnailSteps / long, least: long / 250, coarse: true,
		text: func(t *tiling.Text) bool { return !t.Hidden && t.Height >= readable },
	}
	pic.put(`<svg xmlns="http://www.w3.org/2000/svg"`)
	pic.number(` viewBox="0 0 `, p.W)
	pic.number(" ", p.H)
	pic.put("\" font-family=\"'Go', sans-serif\">\n<path fill=\"#fff\" d=\"M0 0H")
	pic.number("", p.W)
	pic.number("V", p.H)
	pic.put("H0Z\"/>\n")
	pic.thumbArt(p, thumbs)
	pic.layers(p, drawing.Furniture, drawing.Registration)
	if p.Clip.Empty() {
		pic.layers(p, drawing.Notes, drawing.Cut)
	} else { // an inner picture cuts off what reaches over its edge
		c := p.Clip
		pic.put("<svg")
		pic.number(` x="`, c.Min.X)
		pic.number(`" y="`, p.H-c.Max.Y)
		pic.number(`" width="`, c.W())
		pic.number(`" height="`, c.H())
		pic.number(`" viewBox="`, c.Min.X)
		pic.number(" ", p.H-c.Max.Y)
		pic.number(" ", c.W())
		pic.number(" ", c.H())
		pic.put("\">\n")
		pic.layers(p, drawing.Notes, drawing.Cut)
		pic.put("</svg>\n")
	}
	pic.put("</svg>")
	return string(pic.buf), pic.err
}

// layers draws from one layer down to another.
func (pic *picture) layers(p *tiling.Page, from, to drawing.Layer) {
	letters := pic.text
	for l := int(from); l >= int(to); l-- {
		pic.text, pic.formless = letters, drawing.Layer(l) == drawing.Furniture
		if pic.formless {
			pic.text = func(*tiling.Text) bool { return false }
		}
		pic.content(&p.Layers[l], geom.Point{}, 0)
	}
	pic.text, pic.formless = letters, false
}
