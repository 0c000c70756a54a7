package solid

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// stretch is an upright part of a piece that is whole from one height to another, in the piece's own axes.
type stretch struct {
	region     geom.Region
	under, top float64
	stood      bool // it can be stood on
}

// stretches cuts a flat at its openings: beside, beneath and above them. An arched head counts at its crown.
func stretches(f *set.Flat) []stretch {
	cuts := []float64{0, f.Length}
	for _, o := range f.Openings {
		cuts = append(cuts, min(max(o.At, 0), f.Length), min(max(o.At+o.Width, 0), f.Length))
	}
	slices.Sort(cuts)
	var out []stretch
	for i := range len(cuts) - 1 {
		x0, x1 := cuts[i], cuts[i+1]
		if x1-x0 <= geom.Tolerance {
			continue
		}
		mid := (x0 + x1) / 2
		var through []set.Opening
		for _, o := range f.Openings {
			if mid > o.At && mid < o.At+o.Width {
				through = append(through, o)
			}
		}
		slices.SortStableFunc(through, func(a, b set.Opening) int { return cmp.Compare(a.Sill, b.Sill) })
		strip, err := f.Strip(x0, x1)
		if err != nil {
			continue
		}
		z := 0.0
		whole := func(to float64) {
			if to > z+geom.Tolerance {
				out = append(out, stretch{region: geom.Region{Outer: strip}, under: z, top: to})
			}
		}
		for _, o := range through {
			whole(min(o.Sill, f.Height))
			z = max(z, o.Sill+o.Height)
		}
		whole(f.Height)
	}
	return out
}

// slabs is into how many upright parts of equal height a tapered piece is cut: each is as wide as the piece gets in it, so
// that the piece is never taken for less than it is, and nowhere reaches more than an eighth of its height too far.
const slabs = 8

// tapered cuts a cone into upright parts from the foot up, and adds its upper face where it has one.
func tapered(c *set.Cone) []stretch {
	n := slabs
	if math.Abs(c.Upper-c.Lower) <= geom.Tolerance {
		n = 1
	}
	wide := func(k int) float64 { return c.Lower + (c.Upper-c.Lower)*float64(k)/float64(n) }
	var out []stretch
	for k := range n {
		out = append(out, stretch{
			region: geom.Region{Outer: c.Rim(max(wide(k), wide(k+1))).Path},
			under:  c.Height * float64(k) / float64(n), top: c.Height * float64(k+1) / float64(n),
		})
	}
	switch {
	case c.Upper > c.Lower+geom.Tolerance:
		out[n-1].stood = true
	case c.Upper > geom.Tolerance:
		out = append(out, stretch{region: geom.Region{Outer: c.Rim(c.Upper).Path}, top: c.Height, stood: true})
	}
	return out
}
