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
	o := p.Orientation.Matrix(float64(p.Width), float64(p.Height)) // stored pixels to upright ones, y down
	turn := Matrix{A: o[0], B: o[1], C: o[2], D: o[3], E: o[4], F: o[5]}
	img := &Image{Data: data, Format: PNG, Width: p.Width, Height: p.Height, Pixels: p, Opacity: 1}
	if p.Format == pixels.JPEG {
		img.Format = JPEG
	}
	unit := Matrix{A: float64(p.Width), D: -float64(p.Height), F: float64(p.Height)} // the unit square, y up, to stored pixels, y down
	img.Frame = unit.Then(turn).Then(Matrix{A: 1, D: -1, F: float64(h)})
	return &Picture{W: float64(w), H: float64(h), Nodes: []Node{img}}, p, nil
}
