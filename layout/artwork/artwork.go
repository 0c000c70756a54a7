// Package artwork reads pictures that artists hand over. What comes out is the same for whoever prints it or
// traces it: a tree of groups, outlines with their paints, and pictures made of pixels, in millimetres.
//
// # The frame
//
// x runs right and y runs up from the picture's lower left corner. Every outline stands in it as it is drawn:
// no transform is left but a Stroke's pen, a Gradient's and an Image's frame.
//
// # SVG
//
// ReadSVG draws by SVG 1.1 (second edition) and, where it is newer, SVG 2, with styles by CSS (selectors of
// level 3 without state, no layout). Drawn are paths, basic shapes, groups, nested svg, use, symbol, switch,
// clip paths, masks, gradients, patterns on areas, markers, and pictures that are embedded as data or, where whoever reads allows it
// (ReadSVGBeside), lie beside the file. Left out, with a caution at the place, are text, filters, patterns on lines and blending. What
// else lies outside the file is an error, and so is what has no end: uses of themselves, numbers out of reach. Nothing else outside the file
// is ever opened.
package artwork

import (
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/pixels"
)

// Picture is artwork that has been read.
type Picture struct {
	W, H  float64 // size of the frame in millimetres; everything is clipped to it
	Nodes []Node  // from the back to the front
}

// Node is a *Group, a *Shape or an *Image.
type Node interface{ node() }

// Group draws its nodes together: over each other, then clipped and masked, then as a whole through Opacity. It
// stands only where it has a clip or a mask or is not opaque.
type Group struct {
	Opacity float64 // more than 0, at most 1
	Clip    *Clip   // nil for none; nodes clipped in the same way share one
	Mask    *Mask   // nil for none
	Nodes   []Node
}

// Mask lets through as much as its nodes, drawn on nothing, are light and opaque: by their luminance in sRGB times
// their opacity, or by their opacity alone.
type Mask struct {
	Alpha bool // by opacity alone
	Nodes []Node
}

// Clip lets through what lies inside one of its outlines. It has at least one. The same Clip may stand in many places,
// also inside others: what is made of it should be made once.
type Clip struct {
	Outlines []Outline
	Clip     *Clip // a further clip that what is let through lies in, nil for none
}

// Outline is an area: the inside of its paths taken together by a fill rule.
type Outline struct {
	Paths   []*geom.Path // an open one counts as closed
	EvenOdd bool         // otherwise the inside is where the winding is not zero
	Clip    *Clip        // what the area is cut down to, nil for none
}

// Shape is one outline painted. It has a fill, a stroke or both.
type Shape struct {
	Paths       []*geom.Path // subpaths that belong together
	Fill        *Fill        // nil for none; open paths are filled as if closed
	Stroke      *Stroke      // nil for none
	StrokeFirst bool         // the stroke lies under the fill
	Span        diag.Span    // the element's tag
}

// Image is a picture made of pixels, its bytes as they stood in the file.
type Image struct {
	Data          []byte
	Format        Format
	Width, Height int             // pixels, as the file's own header says; the orientation of EXIF is not applied
	Pixels        *pixels.Picture // its headers, from which its pixels are read in strips and parts
	// Frame takes the unit square to where the picture stands: 0,0 is its lower left corner, 1,1 its upper right.
	Frame   Matrix
	Opacity float64 // more than 0, at most 1
	Crisp   bool    // pixels are to keep their edges when enlarged
	Span    diag.Span
}

// Format is how an Image's bytes are to be read.
type Format uint8

const (
	PNG Format = iota
	JPEG
)

func (*Group) node() {}
func (*Shape) node() {}
func (*Image) node() {}
