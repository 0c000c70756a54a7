// Package trace makes outlines of pictures: from how much of each pixel a figure covers to closed outlines of lines and
// cubic curves, nowhere further from the pixels' edge than asked; enlarges them to a height in millimetres; and gives
// them a margin for the saw.
//
// In pixels, x runs to the right from the picture's left edge and y up from its lower edge; a pixel is 1 × 1, and
// its sample stands at its middle.
package trace

import (
	"errors"
	"math"

	"markout/layout/geom"
)

// Options say how a field is traced.
type Options struct {
	// Tolerance is the greatest distance in pixels of the outlines from the edge line, and of the edge line from them:
	// 1 where it is 0, at least 0.1. The edge line is where the coverage, interpolated between the pixels' middles, is
	// one half, and where a straight edge can be told, that edge. Under about 0.5 the outlines of a picture with hard edges follow the pixels' staircase.
	Tolerance float64
	// All keeps every body; else only the largest is kept, with its holes, and nothing that stands in a hole.
	All bool
	// Speck is the area in square pixels below which bodies and holes are dropped: 16 where it is 0; less than 0 keeps all.
	Speck float64
}

// Silhouette is what has been traced.
type Silhouette struct {
	// Regions are the bodies, the largest first: each closed, outer outlines anticlockwise, holes clockwise; none crosses
	// or touches itself or another. In pixels.
	Regions []geom.Region
	// Specks are the bodies and holes dropped as too small, Others the bodies left out for not being the largest.
	Specks, Others int
	// Edge is the area within the edge line of what is kept, in square pixels.
	Edge float64
	// Length is that of the outlines in pixels, Nodes the number of their segments.
	Length float64
	Nodes  int
}

// ErrNothing says that a picture has no figure.
var ErrNothing = errors.New("nothing of the picture stands out from its background")

// Trace returns the outlines of the field.
func Trace(f *Field, o Options) (*Silhouette, error) {
	s, err := NewScanner(f.w, f.h)
	if err != nil {
		return nil, err
	}
	buf := make([]uint16, f.w)
	for y := range f.h {
		f.row(y, buf)
		if err := s.Row(buf); err != nil {
			return nil, err
		}
	}
	return s.Trace(o)
}

// Trace returns the outlines of the field whose rows the scanner has been given, all of them.
func (s *Scanner) Trace(o Options) (*Silhouette, error) {
	if o.Tolerance == 0 {
		o.Tolerance = 1
	}
	if !(o.Tolerance >= 0.1) || math.IsInf(o.Tolerance, 1) {
		return nil, errors.New("an outline is traced to within a tenth of a pixel or more")
	}
	if o.Speck == 0 {
		o.Speck = 16
	}
	loops, err := s.loops()
	if err != nil {
		return nil, err
	}
	sil := &Silhouette{}
	kept := sil.choose(loops, o)
	if len(kept) == 0 {
		return nil, ErrNothing
	}
	sil.build(fitAll(kept, o.Tolerance))
	return sil, nil
}
