package artwork

import (
	"bytes"

	"markout/layout/pixels"
)

// ReadPixels reads a PNG or JPEG file: a picture of one image, upright as the file asks, whose frame has one unit a
// pixel. An error is a *pixels.Error that says the byte.
func ReadPixels(data []byte) (*Picture, *pixels.Picture, error) {
	p, err := pixels.Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, nil, err
	}
	w, h := p.Upright()
	img := &Image{Data: data, Format: PNG, Width: p.Width, Height: p.Height, Pixels: p, Opacity: 1}
	if p.Format == pixels.JPEG {
		img.Format = JPEG
	}
	img.Frame = upright(p).Then(Matrix{A: 1, D: -1, F: float64(h)})
	return &Picture{W: float64(w), H: float64(h), Nodes: []Node{img}}, p, nil
}

// upright takes the unit square, y up, in which a picture's pixels stand as they are stored, to the pixels of the picture
// turned as its file asks, y down (image-orientation: from-image, CSS Images Module Level 3, which is what SVG 2 has).
func upright(p *pixels.Picture) Matrix {
	w, h := float64(p.Width), float64(p.Height)
	o := p.Orientation.Matrix(w, h)
	return Matrix{A: w, D: -h, F: h}.Then(Matrix{A: o[0], B: o[1], C: o[2], D: o[3], E: o[4], F: o[5]})
}
