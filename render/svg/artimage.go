package svg

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"image"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// pixelMargin is how many pixels beyond what is seen are kept, so that a reader that smooths pixels, or the thinned-out
// colour of a JPEG, finds the same neighbours.
const pixelMargin = 4

// image draws the part of a picture made of pixels that is seen. A JPEG's stays as it is coded; all other pixels are stored again
// without loss.
func (a *art) image(img *artwork.Image) {
	p, err := header(img)
	if err != nil {
		a.err = fmt.Errorf("svg: a picture made of pixels: %w", err)
		return
	}
	part, ok := storedPart(img, p, a.window)
	if !ok {
		return
	}
	kind, data, covers, err := cutOut(img, p, part)
	if err != nil {
		a.err = fmt.Errorf("svg: a picture made of pixels: %w", err)
		return
	}
	w, h := float64(p.Width), float64(p.Height)
	// Pixels of the part, y down, to the unit square of the whole.
	lay := artwork.Matrix{A: 1 / w, D: -1 / h, E: float64(covers.Min.X) / w, F: 1 - float64(covers.Min.Y)/h}.Then(img.Frame)
	a.put(`<image xmlns:xlink="http://www.w3.org/1999/xlink" preserveAspectRatio="none"`)
	a.opacity("opacity", img.Opacity)
	if img.Crisp {
		a.put(` image-rendering="pixelated"`)
	}
	a.significant(` width="`, float64(covers.Dx()))
	a.significant(`" height="`, float64(covers.Dy()))
	a.put(`"`)
	a.matrix("transform", lay)
	a.put(` xlink:href="data:image/` + kind + `;base64,`)
	a.buf = base64.StdEncoding.AppendEncode(a.buf, data)
	a.put("\"/>\n")
}

// header returns what the headers of an image say.
func header(img *artwork.Image) (*pixels.Picture, error) {
	if img.Pixels != nil {
		return img.Pixels, nil
	}
	return pixels.Open(bytes.NewReader(img.Data), int64(len(img.Data)))
}

// storedPart returns the pixels, as they are stored, that stand in a box of the artwork, with a margin.
func storedPart(img *artwork.Image, p *pixels.Picture, box geom.Rect) (image.Rectangle, bool) {
	back, ok := img.Frame.Inverse()
	if !ok {
		return image.Rectangle{}, false
	}
	unit := geom.EmptyRect()
	for _, c := range [4]geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}} {
		unit = unit.Include(back.Apply(c))
	}
	w, h := float64(p.Width), float64(p.Height)
	edge := func(v, most float64) int { return int(min(max(v, 0), most)) }
	r := image.Rect(
		edge(math.Floor(unit.Min.X*w)-pixelMargin, w), edge(math.Floor((1-unit.Max.Y)*h)-pixelMargin, h),
		edge(math.Ceil(unit.Max.X*w)+pixelMargin, w), edge(math.Ceil((1-unit.Min.Y)*h)+pixelMargin, h))
	return r, !r.Empty()
}

// cutOut returns a file with a part of a picture, its kind as in image/…, and the stored pixels that it covers. The whole of a picture
// that is upright as stored is its own file.
func cutOut(img *artwork.Image, p *pixels.Picture, part image.Rectangle) (kind string, data []byte, covers image.Rectangle, err error) {
	kind = "png"
	if p.Format == pixels.JPEG {
		kind = "jpeg"
	}
	plain := p.Orientation <= pixels.Upright && !p.Colour.Inks()
	switch {
	case plain && part == p.Bounds() && len(img.Data) > 0:
		return kind, img.Data, part, nil
	case p.Format == pixels.JPEG && !p.Colour.Inks():
		err = p.Cut([]image.Rectangle{part}, func(b pixels.Block, file []byte) error {
			data, covers = file, b.Covers
			return nil
		})
		if err == nil && data == nil {
			err = errors.New("no part could be cut off")
		}
		return kind, data, covers, err
	}
	data, err = pngPart(p, part)
	return "png", data, part, err
}
