package set

// Notch is where one riser meets an edge of the flight, as lengths along that edge from the foot: of a curved edge, along it
// laid flat.
type Notch struct {
	Front float64 // of the nosing of the tread on it, which stands before the riser
	Riser float64 // its face
	Back  float64 // the back of its board
}

// Notches returns where the risers meet the flight's right edge as one climbs, or its left one, from the foot up. Nosings
// and riser boards are measured square off the riser, so that they take a little more of a curved edge and much more where
// the riser runs along a mitre. Where the edge jogs from one tread to the next, the jog is left out.
func (s *Steps) Notches(right bool) []Notch {
	out := make([]Notch, len(s.Rises))
	y, along := 0.0, 0.0
	for k := range out {
		left, x := s.Sides(min(k, max(len(s.Goings)-1, 0)))
		if !right {
			x = left
		}
		front, _ := s.Overhang(x, y, s.Nosing)
		back, _ := s.Overhang(x, y, -s.RiserBoard)
		out[k] = Notch{Front: along - front, Riser: along, Back: along - back}
		if k >= len(s.Goings) {
			break
		}
		if next := y + s.Goings[k]; s.Line == nil {
			y, along = next, next
		} else {
			along += s.Edge(x, y, next).Length()
			y = next
		}
	}
	return out
}

// Bends returns the sides of a flight that its line turns it to: whether it turns to the left, to the right.
func (s *Steps) Bends() (left, right bool) {
	if s.Line == nil {
		return false, false
	}
	l, r, _, _ := s.course().Turns()
	return l > turned, r > turned
}

// turned is the turn in radians, about a twentieth of a degree, from which a line counts as turning.
const turned = 1e-3
