package trace

import (
	"math"

	"markout/layout/geom"
)

// Between two samples alone an edge is not placed well: of the row 1, 1, ¼, 0 it stands ¾ past the second centre, not
// where the straight line from 1 to ¼ passes one half. But where an edge runs across the whole of a row, the row's sum is
// where it stands on average, and of a straight edge that is where it crosses the row's middle. So where the samples two
// away are wholly in and wholly out, the crossing is placed by the sum (the partial area effect: Trujillo-Pino and others,
// "Accurate subpixel edge location based on partial area effect", 2013). Crossings that lie flat against the grid have no
// such samples; they are put on the line between their neighbours.

// whole is the least sample that counts as wholly in; as much less than nothing is wholly out.
const whole = full - full/100

// placed returns the share of the way from the second of four samples in a line to the third at which the edge stands,
// and whether the sum tells.
func placed(a, b, c, d uint16) (t float64, ok bool) {
	sum := float64(a) + float64(b) + float64(c) + float64(d)
	switch {
	case a >= whole && d <= full-whole:
		t = sum/full - 1.5
	case d >= whole && a <= full-whole:
		t = 2.5 - sum/full
	default:
		return 0, false
	}
	return t, true
}

// settle puts those crossings of a loop that no sum has placed on the line between the nearest on both sides that have
// been, where they are near. They stay between the same two centres.
func settle(pts []geom.Point, told []bool) {
	const near = 3
	n := len(pts)
	known := func(i, step int) (geom.Point, bool) {
		for k := 1; k <= near && k < n; k++ {
			if j := ((i+k*step)%n + n) % n; told[j] {
				return pts[j], true
			}
		}
		return geom.Point{}, false
	}
	for i := range pts {
		if told[i] {
			continue
		}
		p, before := known(i, -1)
		q, after := known(i, 1)
		if !before || !after {
			continue
		}
		d := q.Sub(p)
		at := &pts[i]
		if at.Y-math.Floor(at.Y) == 0.5 { // in a row
			if d.Y != 0 {
				at.X = between(at.X, p.X+d.X*(at.Y-p.Y)/d.Y)
			}
		} else if d.X != 0 {
			at.Y = between(at.Y, p.Y+d.Y*(at.X-p.X)/d.X)
		}
	}
}

// between moves the coordinate of a crossing to v, or as near to it as the centres beside it allow.
func between(was, v float64) float64 {
	low := math.Floor(was-0.5) + 0.5
	return min(max(v, low+apart), low+1-apart)
}
