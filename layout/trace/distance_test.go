package trace

import (
	"math"

	"markout/layout/geom"
)

// reach is how far in pixels distances are measured.
const reach = 4.0

// runsNear finds straight runs near a place, in squares of 4 pixels.
type runsNear map[[2]int][][2]geom.Point

func (n runsNear) add(pts []geom.Point) {
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		parts := max(1, int(a.Dist(b)/reach))
		for k := range parts {
			p, q := a.Lerp(b, float64(k)/float64(parts)), a.Lerp(b, float64(k+1)/float64(parts))
			x0, x1 := int(math.Floor(min(p.X, q.X)/reach)), int(math.Floor(max(p.X, q.X)/reach))
			y0, y1 := int(math.Floor(min(p.Y, q.Y)/reach)), int(math.Floor(max(p.Y, q.Y)/reach))
			for x := x0; x <= x1; x++ {
				for y := y0; y <= y1; y++ {
					n[[2]int{x, y}] = append(n[[2]int{x, y}], [2]geom.Point{p, q})
				}
			}
		}
	}
}

// distance returns how far the nearest run is, 4 where none is nearer.
func (n runsNear) distance(q geom.Point) float64 {
	best := reach
	cx, cy := int(math.Floor(q.X/reach)), int(math.Floor(q.Y/reach))
	for x := cx - 1; x <= cx+1; x++ {
		for y := cy - 1; y <= cy+1; y++ {
			for _, r := range n[[2]int{x, y}] {
				d := r[1].Sub(r[0])
				t := 0.0
				if l := d.Dot(d); l > 0 {
					t = min(max(q.Sub(r[0]).Dot(d)/l, 0), 1)
				}
				best = min(best, q.Dist(r[0].Lerp(r[1], t)))
			}
		}
	}
	return best
}

// furthest returns the greatest distance from places, a fifth of a pixel apart along the closed runs, to the runs of n.
func (n runsNear) furthest(runs ...[]geom.Point) float64 {
	worst := 0.0
	for _, pts := range runs {
		for i, a := range pts {
			b := pts[(i+1)%len(pts)]
			steps := max(1, int(a.Dist(b)/0.2))
			for k := range steps {
				worst = max(worst, n.distance(a.Lerp(b, float64(k)/float64(steps))))
			}
		}
	}
	return worst
}

// hausdorff returns the symmetric distance between two sets of closed runs.
func hausdorff(a, b [][]geom.Point) float64 {
	na, nb := runsNear{}, runsNear{}
	for _, p := range a {
		na.add(p)
	}
	for _, p := range b {
		nb.add(p)
	}
	return max(na.furthest(b...), nb.furthest(a...))
}

func flattened(regions []geom.Region) (out [][]geom.Point) {
	for _, r := range regions {
		out = append(out, r.Outer.Flatten(0.002, nil))
		for _, h := range r.Holes {
			out = append(out, h.Flatten(0.002, nil))
		}
	}
	return out
}
