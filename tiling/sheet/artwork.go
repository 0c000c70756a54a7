package sheet

import (
	"markout/layout/artwork"
	"markout/layout/caution"
	"markout/layout/enlarge"
	"markout/layout/set"
)

// ArtworkOptions say which sheets are made of cloths and what the cover says of what comes with them.
type ArtworkOptions struct {
	Options
	Squaring, Grid bool // the artwork small under a lettered grid; the cloth's large grid to snap, and its list
	// Picture is what is shown at 1:reduced in place of a cloth's own artwork; nil for that.
	Picture        func(reduced float64) (*artwork.Picture, error)
	Comes          []string // what else the document holds: tiles, a pounce pattern
	Takes          []string // what that takes
	Tiled, Pounced bool     // tiles, pounce patterns are among it
	Cautions       []caution.Caution
}

// Artwork makes the sheets of cloths: a cover, and for each cloth its artwork squared up and the grid that is snapped on the cloth
// itself, both with the same letters and numbers, and the list of its lines. The error says what does not fit the paper, or is a *pixels.Error.
func Artwork(s *set.Set, cloths []*set.Element, opt ArtworkOptions) (*Book, error) {
	frames, err := framesOf(opt.Options)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames, stamps: opt.Stamps}
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		if opt.Squaring {
			k, err := layCloth(s, e, c, false, opt.Picture, frames)
			if err != nil {
				return nil, err
			}
			b.cloth(k)
		}
		if !opt.Grid {
			continue
		}
		k, err := layCloth(s, e, c, true, nil, frames)
		if err != nil {
			return nil, err
		}
		b.cloth(k)
		t, err := layTable(enlarge.Snaps(e.Name, c, enlarge.GridStep(c, s.Units), s.Units), true, frames)
		if err != nil {
			return nil, err
		}
		b.table(e.Name+" lines", "Lines to snap", t)
	}
	if len(opt.Cautions) > 0 {
		t, err := layTable(cautionTable(opt.Cautions), true, frames)
		if err != nil {
			return nil, err
		}
		b.table("cautions", "Cautions", t)
	}
	b.artworkCover(cloths, opt)
	return b.bind(s.Name + ", artwork"), nil
}
