package geom

import "math"

// Distance returns the clear distance between two areas and the places pa of a and pb of b where it is: 0
// where they overlap, touch or one lies in the other, but not where one lies in a hole of the other. Curves
// are followed to within 0.0005 mm each, so that the distance is right to 0.001 mm, and as little as that
// counts as touching where there are curves. It is infinite where an area is empty.
func Distance(a, b Region) (d float64, pa, pb Point) {
	if a.Outer.Empty() || b.Outer.Empty() {
		return math.Inf(1), Point{}, Point{}
	}
	if !a.Bounds().Overlaps(b.Bounds()) { // neither can lie in a hole of the other
		a.Holes, b.Holes = nil, nil
	}
	if d, pa, pb, ok := roundDistance(a, b); ok {
		return d, pa, pb
	}
	if d, pb, pa, ok := roundDistance(b, a); ok {
		return d, pa, pb
	}
	if q := a.Outer.Start(); b.Contains(q) {
		return 0, q, q
	}
	if q := b.Outer.Start(); a.Contains(q) {
		return 0, q, q
	}
	best := nearestPair{dist: math.Inf(1)}
	nearest(a.tree(), b.tree(), 1, 1, &best)
	touching := Tolerance
	if a.curved() || b.curved() {
		touching = 2 * fineness
	}
	if best.dist <= touching {
		best.dist = 0
	}
	return best.dist, best.p, best.q
}

// tree returns the chords of all the area's boundaries; those of outlines without size are one place.
func (r Region) tree() *chordTree {
	var cs []chord
	for _, p := range r.paths() {
		n := len(cs)
		if cs = p.chords(fineness, true, cs); len(cs) == n && !p.Empty() {
			cs = append(cs, chord{a: p.Start(), b: p.Start()})
		}
	}
	return newChordTree(cs)
}

// Overlaps reports whether two areas share more than their boundaries: whether some part that both hold is
// wider on average than Tolerance, or than twice Flatness where one has curves.
func Overlaps(a, b Region) bool {
	if !a.Bounds().Overlaps(b.Bounds()) {
		return false
	}
	width := Tolerance
	if a.curved() || b.curved() {
		width = 2 * Flatness
	}
	if d, _, _ := Distance(a, b); d > width {
		return false
	}
	common, err := Intersect([]Region{a}, []Region{b}, Flatness)
	if err != nil {
		return true // boundaries too entangled to tell apart do meet
	}
	for _, r := range common {
		if !r.sliver(width) {
			return true
		}
	}
	return false
}

// sliver reports whether the area is on average no wider than width.
func (r Region) sliver(width float64) bool {
	round := 0.0
	for _, p := range r.paths() {
		round += p.Length()
	}
	return r.Area() <= width*round/2
}
