// Package silhouette makes outlines of artwork: what a saw follows round a figure, and the lines that a scenic artist
// pounces through.
package silhouette

import (
	"errors"

	"markout/layout/artwork"
	"markout/layout/geom"
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

var errNotYet = errors.New("silhouettes are not made yet")

// Of returns the silhouette of artwork: of what is drawn, the union of all that is painted (strokes by their width, with
// clips and masks; of see-through paint all of it); of a picture made of pixels, its traced edge.
func Of(p *artwork.Picture, opt Options) (*Outline, error) { return nil, errNotYet }

// Lines returns the picture as lines without areas, to save ink and to be pounced: the outlines of everything painted, in black,
// width wide in the picture's own units. A picture made of pixels gives the traced edge between its light and its dark.
func Lines(p *artwork.Picture, width float64) (*artwork.Picture, error) { return nil, errNotYet }
