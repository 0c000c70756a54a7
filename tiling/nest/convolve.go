package nest

import (
	"slices"

	"markout/layout/geom"
)

// convolution returns runs among which is all of the border of the Minkowski sum of a, of b turned by half a turn, and of the disc's
// polygon of radius gap. An edge of one outline is on that border only where it stands on a corner of the other that bulges
// outwards, and has the direction of one of that corner's supporting lines (the reduced convolution: Behar and Lien 2011);
// what of the runs lies inside the sum is for the caller to cut off.
func convolution(a, b []ring, gap float64) []edge {
	b = slices.Clone(b)
	for i, r := range b {
		b[i] = r.turnedAbout()
	}
	var d []ring
	if gap > 0 {
		d = []ring{disc(gap)}
	}
	ca, cb, cd := bulges(a), bulges(b), bulges(d)
	var out []edge
	for i, edges := range [3][]ring{a, b, d} {
		first, second := cb, cd
		switch i {
		case 1:
			first = ca
		case 2:
			first, second = ca, cb
		}
		if gap == 0 {
			second = []bulge{{}}
		}
		for _, r := range edges {
			for k := range r {
				e := edge{r[k], r[(k+1)%len(r)]}
				v := e.b.Sub(e.a)
				for _, p := range first {
					if !p.bears(v) {
						continue
					}
					for _, q := range second {
						if gap > 0 && !q.bears(v) {
							continue
						}
						at := p.at.Add(q.at)
						out = append(out, edge{e.a.Add(at), e.b.Add(at)})
					}
				}
			}
		}
	}
	return out
}

// bulge is a corner that bulges outwards, and the directions in which one comes and leaves, walking with the material on the left.
type bulge struct{ at, come, leave geom.Point }

func bulges(rs []ring) []bulge {
	var out []bulge
	for _, r := range rs {
		n := len(r)
		for i, p := range r {
			come, leave := p.Sub(r[(i+n-1)%n]).Unit(), r[(i+1)%n].Sub(p).Unit()
			if come.Cross(leave) > 0 {
				out = append(out, bulge{p, come, leave})
			}
		}
	}
	return out
}

// bears reports whether an edge of direction v touches the corner from outside.
func (b bulge) bears(v geom.Point) bool {
	near := -1e-9 * v.Len()
	return b.come.Cross(v) >= near && v.Cross(b.leave) >= near
}
