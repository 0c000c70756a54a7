// Package drawing says what is to be drawn and nothing of paper. Places are world millimetres
// (x, y of the view); widths, lettering heights, dash lengths and offsets are paper millimetres,
// resolved in tiling, where the scale is known.
package drawing

import (
	"markout/layout/artwork"
	"markout/layout/geom"
)

// Layer is what a line is for. Its name is the optional-content layer of a PDF and the id of an SVG group.
type Layer uint8

const (
	Cut Layer = iota
	Fold
	Notes
	Registration
	Furniture
	Layers // how many there are
)

var layerNames = [Layers]string{"cut", "fold", "notes", "registration", "furniture"}

// String returns the layer's name, a contract: "cut", "fold", "notes", "registration", "furniture".
func (l Layer) String() string { return layerNames[l] }

// Role says whether a primitive counts in a page's digest: shapes and words do, names do not, so that
// renaming an element reprints nothing.
type Role uint8

const (
	Shape Role = iota
	Word
	Name
)

// LineType is a pattern of ISO 128-2 (patterns in multiples of the line width).
type LineType uint8

const (
	Continuous        LineType = iota
	Dashed                     // hidden: 12, 3
	LongDashDot                // centre lines: 24, 3, 0.5, 3
	LongDashDoubleDot          // other positions, and what is overhead: 24, 3, 0.5, 3, 0.5, 3
	Dotted                     // 0.5, 3
)

// Pattern returns the dash lengths, on and off by turns, in multiples of the line width; nil for a continuous line.
// Sources: ISO 128-2 (chain line, found in a handbook table that quotes it; the others from memory).
func (t LineType) Pattern() []float64 {
	switch t {
	case Dashed:
		return []float64{12, 3}
	case LongDashDot:
		return []float64{24, 3, 0.5, 3}
	case LongDashDoubleDot:
		return []float64{24, 3, 0.5, 3, 0.5, 3}
	case Dotted:
		return []float64{0.5, 3}
	}
	return nil
}

// Widths in paper millimetres, from the series of ISO 128-2.
const (
	WideLine   = 0.7  // what is cut or taped
	MediumLine = 0.35 // outlines on small-scale plans
	NarrowLine = 0.25 // what is folded, measured, dimensioned
	FineLine   = 0.13 // key maps
)

// Lettering heights (of capitals) in paper millimetres, from the series of ISO 3098.
const (
	Lettering20  = 20.0 // read standing
	Lettering10  = 10.0
	Lettering7   = 7.0
	Lettering5   = 5.0
	Lettering3_5 = 3.5 // read at arm's length
	Lettering2_5 = 2.5 // ticks, notes
	Lettering1_8 = 1.8 // the least that is used
)

// Tone is how dark ink is: 0 black, 1 white.
type Tone float32

const (
	Black Tone = 0
	Grey  Tone = 0.45 // what explains
)

// Mark is what every primitive carries.
type Mark struct {
	Layer Layer
	Role  Role
	Owner int32 // index of the element in Drawing.Owners, −1 for none
}

// Stroke is a line drawn along a path.
type Stroke struct {
	Mark
	Path  *geom.Path
	Type  LineType
	Width float64
	Tone  Tone
}

// Fill is an area of one tone, holes by the nonzero rule with holes running the other way.
type Fill struct {
	Mark
	Region geom.Region
	Tone   Tone
}

// Align is where a text's At lies on it.
type Align uint8

const (
	AlignLeft   Align = iota // At is the left end of the base line
	AlignCentre              // the middle of the base line
	AlignRight               // the right end of the base line
	AlignMiddle              // the middle of the text both ways
)

// Text is one line of lettering; Height is that of its capitals in paper millimetres.
type Text struct {
	Mark
	At     geom.Point
	Offset geom.Point // paper millimetres from At, before Turn
	Turn   float64    // degrees
	Height float64
	Align  Align
	Bold   bool
	Tone   Tone
	Text   string
}

// Dimension is a chain of measurements between points, measured along Direction; its line stands
// Offset paper millimetres from the first point, to the left of Direction.
type Dimension struct {
	Mark
	Points    []geom.Point
	Direction float64 // degrees
	Offset    float64
	Base      *geom.Point // where Offset is measured from instead of the first point, nil for that
	Labels    []string    // one a span where given; otherwise printed lengths, rounded so that the chain closes
	Overall   bool        // a second line with the overall figure, further out
}

// Datum says what the ticks along a sheet's edges count from and what letters they bear.
type Datum struct {
	XPlus, XMinus string // letters after a figure to the right and left: "L"/"R" by the set's `sides`, empty for none
	YPlus, YMinus string // "U" and "D", empty for none
	Says          string // "from the centre line and the setting line", "along from P, up from the floor"
}

// Picture is artwork shown: Frame takes its own millimetres to the view's world millimetres, and nothing of it is drawn
// outside Shown. It lies under everything else of its layer.
type Picture struct {
	Mark
	Picture *artwork.Picture
	Frame   artwork.Matrix
	Shown   geom.Rect // world millimetres
	// Over is boxes that together hold what of it matters, world millimetres: of a cut-out's artwork what lies within the cut. A
	// page that shows none of them needs none of it. nil for all that it paints in Shown.
	Over []geom.Rect
}

// Drawing is one view of one or several elements, in the view's own world millimetres.
type Drawing struct {
	View   string // "floor", "face", "side", "plan"
	Name   string // of the piece; empty for the common floor
	Title  string // words for people: "floor", "kiosk front, face"
	Hold   string // words on how the paper lies: "seen from above, upstage at the top"
	Datum  Datum
	Owners []string // element names, in the file's order

	Pictures   []Picture
	Strokes    []Stroke
	Fills      []Fill
	Texts      []Text
	Dimensions []Dimension
}

// Bounds returns the box of all pictures, strokes and fills, world millimetres.
func (d *Drawing) Bounds() geom.Rect {
	r := geom.EmptyRect()
	for i := range d.Pictures {
		r = r.Union(d.Pictures[i].Shown)
	}
	for i := range d.Strokes {
		r = r.Union(d.Strokes[i].Path.Bounds())
	}
	for i := range d.Fills {
		r = r.Union(d.Fills[i].Region.Outer.Bounds())
	}
	return r
}
