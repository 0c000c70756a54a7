// Package silhouette makes outlines of artwork: what a saw follows round a figure, and the lines that a scenic artist
// pounces through.
package silhouette

import (
	"errors"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/trace"
)

// Background says what of a picture made of pixels is not the figure.
type Background string

const (
	Auto   Background = ""       // Alpha where the picture has any, otherwise Border
	Alpha  Background = "alpha"  // what is transparent
	Light  Background = "light"  // what is lighter than the figure
	Dark   Background = "dark"   // what is darker
	Border Background = "border" // what has the colour of the picture's border
)

// Options say how an outline is made.
type Options struct {
	Background Background
	Threshold  float64 // 0 to 1 where the figure begins; 0 for one that is found from the picture
	All        bool    // every body; otherwise the largest with its holes
	Tolerance  float64 // in pixels, of a picture made of pixels; 1 where it is 0
}

// Outline is a silhouette in the frame of its picture: x right, y up from its lower left corner, in its own units (pixels
// of a picture made of pixels, otherwise millimetres).
type Outline struct {
	Bodies []geom.Region // the largest first: outer outlines anticlockwise, holes clockwise
	Others int           // bodies left out
}

// ErrNothing says that nothing stands out from the background.
var ErrNothing = errors.New("nothing of the picture stands out from its background")

// Of returns the silhouette of artwork: of what is drawn, the union of all that is painted (strokes by their width, with
// clips and masks; of see-through paint all of it); of a picture made of pixels, its traced edge.
func Of(p *artwork.Picture, opt Options) (*Outline, error) {
	sil, m, err := outlined(p, opt)
	switch {
	case errors.Is(err, trace.ErrNothing):
		return nil, ErrNothing
	case err != nil:
		return nil, err
	}
	out := &Outline{Others: sil.Others}
	for _, r := range sil.Regions {
		out.Bodies = append(out.Bodies, m.Region(r))
	}
	return out, nil
}

// outlined traces a picture, and returns what takes the silhouette's pixels to the picture's frame.
func outlined(p *artwork.Picture, opt Options) (*trace.Silhouette, artwork.Matrix, error) {
	if img := pixelsOf(p); img != nil {
		f, err := field(img, opt)
		if err != nil {
			return nil, artwork.Matrix{}, err
		}
		sil, err := trace.Trace(f, trace.Options{Tolerance: opt.Tolerance, All: opt.All})
		w, h := f.Size()
		return sil, artwork.Matrix{A: 1 / float64(w), D: 1 / float64(h)}.Then(img.Frame), err
	}
	c, err := newCanvas(p)
	if err != nil {
		return nil, artwork.Matrix{}, err
	}
	scanner, err := c.scan(p)
	if err != nil {
		return nil, artwork.Matrix{}, err
	}
	sil, err := scanner.Trace(trace.Options{Tolerance: drawnTolerance, All: opt.All})
	return sil, c.back, err
}

// pixelsOf returns the image of a picture that is nothing but one, whole.
func pixelsOf(p *artwork.Picture) *artwork.Image {
	if len(p.Nodes) != 1 {
		return nil
	}
	img, _ := p.Nodes[0].(*artwork.Image)
	return img
}

// Margin returns the areas that reach d millimetres beyond the bodies of a silhouette, for the saw; see trace.Margin.
func Margin(bodies []geom.Region, d float64) ([]geom.Region, error) { return trace.Margin(bodies, d) }
