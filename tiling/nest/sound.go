package nest

import "markout/layout/geom"

// apart reports whether two outlines at their places overlap nowhere by more than tol: whether for any two of their convex parts
// some side of one has the other wholly outside it (separating axes). It knows nothing of no-fit polygons.
func apart(a, b laid, tol float64) bool {
	d := b.at.Sub(a.at)
	if d.X >= a.w-tol || d.Y >= a.h-tol || -d.X >= b.w-tol || -d.Y >= b.h-tol {
		return true
	}
	for i := range a.parts {
		for j := range b.parts {
			if !sideBetween(&a.parts[i], &b.parts[j], d, tol) && !sideBetween(&b.parts[j], &a.parts[i], geom.Point{X: -d.X, Y: -d.Y}, tol) {
				return false
			}
		}
	}
	return true
}

// sideBetween reports whether a side of a has all of b, shifted by d, on its outer side.
func sideBetween(a, b *part, d geom.Point, tol float64) bool {
	for _, s := range a.sides {
		outside := true
		for _, p := range b.ring {
			if s.nx*(p.X+d.X)+s.ny*(p.Y+d.Y)-s.d > tol {
				outside = false
				break
			}
		}
		if outside {
			return true
		}
	}
	return false
}

// inRoom reports whether the outline lies in the room.
func inRoom(a laid, room geom.Point, tol float64) bool {
	return a.at.X >= -tol && a.at.Y >= -tol && a.at.X+a.w <= room.X+tol && a.at.Y+a.h <= room.Y+tol
}

// sound reports whether all outlines lie in the room and apart from each other.
func sound(ls []laid, room geom.Point, tol float64) bool {
	for i, a := range ls {
		if !inRoom(a, room, tol) {
			return false
		}
		for _, b := range ls[:i] {
			if !apart(a, b, tol) {
				return false
			}
		}
	}
	return true
}
