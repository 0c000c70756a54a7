package cli

import (
	"errors"
	"fmt"
	"image"

	"markout/layout/artwork"
	"markout/layout/pixels"
	"markout/layout/set"
)

// stripRows is how many rows of a picture are read at a time where it is looked through for damage.
const stripRows = 64

// ofPicture names the file of an error that stands deep in a picture made of pixels, and shows only when its pixels are written. Which of a
// set's pictures it is, is found by reading them once more.
func ofPicture(s *set.Set, err error) error {
	if bad := (*pixels.Error)(nil); !errors.As(err, &bad) {
		return err
	}
	if bad := damaged(s); bad != nil {
		return bad
	}
	return err
}

// damaged reads all pictures made of pixels of a set through, and names the file of the first that is damaged deep inside; nil where none is.
func damaged(s *set.Set) error {
	seen := map[*set.Artwork]bool{}
	for _, e := range s.Elements {
		art := artworkOf(e)
		if art == nil || seen[art] {
			continue
		}
		seen[art] = true
		if bad := damage(art.Picture.Nodes); bad != nil {
			return fmt.Errorf("%s: %w; nothing was written", art.File, bad)
		}
	}
	return nil
}

// artworkOf returns the artwork of an element; nil for one that has none.
func artworkOf(e *set.Element) *set.Artwork {
	switch k := e.Shape.(type) {
	case *set.Cloth:
		return k.Art
	case *set.Figure:
		return k.Art
	}
	return nil
}

// damage returns the first error met in reading the pictures made of pixels among nodes; nil where all can be read.
func damage(nodes []artwork.Node) error {
	for _, n := range nodes {
		var err error
		switch n := n.(type) {
		case *artwork.Group:
			err = damage(n.Nodes)
		case *artwork.Image:
			if n.Pixels != nil {
				err = n.Pixels.Strips(stripRows, func(image.Image) error { return nil })
			}
		}
		if err != nil {
			return err
		}
	}
	return nil
}
