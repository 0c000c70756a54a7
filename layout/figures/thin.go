package figures

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

// Thin is a part of an outline that is thinner than some width.
type Thin struct {
	At   geom.Point // the middle of its box
	Long float64    // the greater side of its box
	Wide float64    // its area over that: about how thick it is
}

// ThinParts returns the parts of an area that are thinner than width, the longest first: what is lost when its outline is moved
// inwards by half of that and outwards again (an opening with a disc), where that is longer than width itself. Corners are
// rounded by it and not thin. Its curves are taken within a sixtieth of width. The error says that the outline crosses itself or that
// its boundaries lie too near each other to be told apart.
func ThinParts(r geom.Region, width float64) ([]Thin, error) {
	if width <= geom.Tolerance || r.Outer.Empty() {
		return nil, nil
	}
	fine := width / 60
	r = straight(r, fine)
	core, err := grown([]geom.Region{r}, -width/2)
	if err != nil {
		return nil, err
	}
	// A hair more, so that rounding leaves no film along the edges.
	open, err := grown(core, width/2+2*fine)
	if err != nil {
		return nil, err
	}
	lost, err := geom.Difference([]geom.Region{r}, open, fine)
	if err != nil {
		return nil, err
	}
	var out []Thin
	for _, l := range lost {
		b := l.Bounds()
		if long := max(b.W(), b.H()); long > width {
			out = append(out, Thin{b.Mid(), long, l.Area() / long})
		}
	}
	slices.SortStableFunc(out, func(a, b Thin) int { return cmp.Compare(b.Long, a.Long) })
	return out, nil
}

// straight returns an area in straight runs; what encloses nothing of it is left out.
func straight(r geom.Region, tol float64) geom.Region {
	out := geom.Region{Outer: geom.Polygon(r.Outer.Flatten(tol, nil))}
	for _, h := range r.Holes {
		if math.Abs(h.Area()) > tol*tol {
			out.Holes = append(out.Holes, geom.Polygon(h.Flatten(tol, nil)))
		}
	}
	return out
}

// grown moves the boundary of areas outwards by d, or inwards where d is less than 0.
func grown(areas []geom.Region, d float64) ([]geom.Region, error) {
	var whole, holes []geom.Region
	for _, r := range areas {
		outer, err := geom.Offset(r.Outer, d)
		if err != nil {
			return nil, err
		}
		for _, p := range outer {
			if p.Area() > 0 {
				whole = append(whole, geom.Region{Outer: p})
			} else { // between the arms of a curl that has closed
				holes = append(holes, geom.Region{Outer: p})
			}
		}
		for _, h := range r.Holes {
			inner, err := geom.Offset(h, -d)
			if err != nil {
				return nil, err
			}
			for _, p := range inner {
				if p.Area() > 0 {
					holes = append(holes, geom.Region{Outer: p})
				}
			}
		}
	}
	return geom.Difference(whole, holes, geom.Flatness)
}
