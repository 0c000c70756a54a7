package set

import (
	"markout/layout/artwork"
	"markout/layout/diag"
	"markout/layout/geom"
)

// Artwork is a picture that the text names, read.
type Artwork struct {
	File    string    // as the set's files have it
	Span    diag.Span // of its name in the text
	SHA256  [32]byte  // of its bytes
	Picture *artwork.Picture
	// Drawn says that it was drawn in lines (SVG): its measure is the millimetre. Otherwise it is made of pixels, upright as its
	// file asks, and one unit of its frame is one pixel.
	Drawn bool
}

// Figure is a life-size cut-out. Its own axes are those of a standing piece: x runs along its face from left to right as
// seen from the front, 0 under the middle of the drawn figure's box; its thickness goes to +y, behind; z goes up from
// what it stands on. Its face is laid in x and z: what is said to be on the face has z as its y.
type Figure struct {
	Art *Artwork
	// Frame takes the artwork's picture to the face, as it is printed for the front: scaled, mirrored where Flipped,
	// turned half round where Hung.
	Frame artwork.Matrix
	// Bodies are the figure as it is cut, on the face, the largest first: outer outlines anticlockwise, holes clockwise, of lines, arcs
	// and cubics. Their box is Height high from Ground up. With a Margin the cut goes so far outside the drawn figure.
	Bodies []geom.Region
	// Drawn is the drawn figure itself, without the margin; the same regions where there is none.
	Drawn  []geom.Region
	Width  float64 // of the drawn figure's box
	Height float64 // of the drawn figure, feet to crown, whatever the frame of its picture
	Ground float64 // air between its lowest point and what it stands on
	// Thickness is that of its board, 0 where not said.
	Thickness float64
	Margin    float64
	Eye       float64 // height of the eyes above the figure's own lowest point when upright; 0 where not given
	Facing    string  // the way the figure looks in its artwork as seen from the front: left, right, front; empty where not given
	Flipped   bool    // mirrored, left for right
	Hung      bool    // upside down: turned half round in its face, not mirrored
	BothSides bool    // printed for the back too
	Brace     bool
	Head      float64 // `show head`: how far its head reaches down from the crown; 0 where it is not asked for
	LookAt    *Look
	// Tolerance is the greatest distance in pixels of the outline from the pixels' edge, of a picture made of pixels.
	Tolerance float64
	Others    int // bodies of the artwork that were left out because they are not part of the largest
}

// Look is what a figure looks at.
type Look struct {
	Words string   // as they stand in the text
	At    geom.Vec // in the set's axes; of another figure its eyes
}

// EyeLine returns the height of the eyes on the face; ok is false where no eye line is given.
func (f *Figure) EyeLine() (z float64, ok bool) {
	switch {
	case f.Eye <= 0:
		return 0, false
	case f.Hung:
		return f.Ground + f.Height - f.Eye, true
	}
	return f.Ground + f.Eye, true
}

// Looks returns the way the figure looks as it is cut, seen from the front: left, right, front or empty.
func (f *Figure) Looks() string {
	if f.Flipped != f.Hung { // turned half round, what looked left looks right
		switch f.Facing {
		case "left":
			return "right"
		case "right":
			return "left"
		}
	}
	return f.Facing
}

// Cloth is artwork enlarged. Own axes: x along its face from left to right as seen from the front, 0 at its middle; z up from
// its lower edge, both finished, without what is allowed for hems and nets; it is as thin as paper and its face looks to −y.
// What is said to be on the face has z as its y.
type Cloth struct {
	Art           *Artwork
	Width, Height float64 // finished
	Fit           string  // whole, fill or stretch; empty where the artwork's proportions are the cloth's
	// Frame takes the artwork's picture to the face. What of it is not in Shown is not printed.
	Frame artwork.Matrix
	// Shown is the part of the face that the artwork covers, its allowance among it where the artwork reaches so far.
	Shown geom.Rect
	// Crop is the part of the artwork that was asked for, in its own frame; the whole of it where nothing was said.
	Crop  geom.Rect
	Allow Allowance
	Grid  float64 // of squaring-up, 0 where not asked for
	Fine  []FineGrid
	// Pounce is the distance of the dots along lines, 0 where not asked for.
	Pounce float64
}

// Allowance is what a cloth has beyond its finished size.
type Allowance struct{ Top, Bottom, Left, Right float64 }

// FineGrid is a closer grid over a part of the face.
type FineGrid struct {
	Step float64
	Over geom.Rect // on the face
}

// Whole returns the box of the cloth with what is allowed around it, on its face.
func (c *Cloth) Whole() geom.Rect {
	return geom.Rect{
		Min: geom.Point{X: -c.Width/2 - c.Allow.Left, Y: -c.Allow.Bottom},
		Max: geom.Point{X: c.Width/2 + c.Allow.Right, Y: c.Height + c.Allow.Top},
	}
}

// Finished returns the box of the finished cloth on its face.
func (c *Cloth) Finished() geom.Rect {
	return geom.Rect{Min: geom.Point{X: -c.Width / 2}, Max: geom.Point{X: c.Width / 2, Y: c.Height}}
}

func (*Figure) Kind() string { return "figure" }
func (*Cloth) Kind() string  { return "cloth" }
