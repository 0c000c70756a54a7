package element

import (
	"errors"
	"math"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// fits reports treads that do not fit round the turns of their line.
func (s steps) fits(e *elem, st *set.Steps) bool {
	c := geom.NewCourse(st.Line)
	ruler := geom.NewRuler(st.Line)
	tight := math.Inf(1)
	var cramped int
	for k, t := range st.Treads() {
		left, right := st.Sides(k)
		for _, x := range [2]float64{left, right} {
			_, err := c.Beside(x, t.Y0, t.Y1)
			switch {
			case err == nil:
			case errors.Is(err, geom.ErrRadius):
				_, _, toLeft, toRight := geom.NewCourse(ruler.Part(t.Y0, t.Y1)).Turns()
				r := toLeft
				if x > 0 {
					r = toRight
				}
				if most := r / math.Abs(x) * t.Width; most < tight {
					tight, cramped = most, k
				}
			default:
				return s.cornered(e, c, k, t, x)
			}
		}
	}
	if !math.IsInf(tight, 1) {
		t := st.Treads()[cramped]
		at := s.widthPlace(e)
		if slant := t.Mid != 0 && st.LineIs == "centre"; slant {
			return e.hint(at, "tread "+count(cramped+1)+" reaches to the middle about which its line turns, or beyond it", "make it narrower, or `shift` it the other way")
		}
		return e.hint(at, "tread "+count(cramped+1)+" is "+e.show(t.Width)+" wide and reaches to the middle about which its line turns, or beyond it",
			"less than %s fits there", e.show(tight))
	}
	return s.apart(e, st) && s.boardsFit(e, st)
}

func (steps) widthPlace(e *elem) diag.Span {
	if e.has("widths") {
		return e.place("widths")
	}
	return e.place("width")
}

// cornered says at which corner of the line tread k has no room.
func (steps) cornered(e *elem, c *geom.Course, k int, t set.Tread, x float64) bool {
	for _, corner := range c.Corners() {
		if corner.Along < t.Y0-geom.Tolerance || corner.Along > t.Y1+geom.Tolerance {
			continue
		}
		at, _ := c.Way(0, corner.Along)
		where := e.show(at.X) + ", " + e.show(at.Y)
		if corner.Curved {
			return e.hint(e.place("along"), "the line has a corner at "+where+" where an arc or a curve begins or ends, and tread "+count(k+1)+" does not fit round it",
				"let the arc run on smoothly there, or put a straight piece before it")
		}
		return e.hint(e.place("along"), "tread "+count(k+1)+" does not fit round the corner of the line at "+where,
			"a riser stands on the corner, or at least %s before or after it; or draw the corner as an arc", e.show(math.Abs(x*math.Tan(corner.Turn/2))))
	}
	return e.errorf(e.place("along"), "tread %d does not fit along the line", k+1)
}

// apart reports treads that would lie over one another where the line comes back near itself.
func (s steps) apart(e *elem, st *set.Steps) bool {
	areas := set.Footprints(st)
	boxes := make([]geom.Rect, len(areas))
	for i, r := range areas {
		boxes[i] = r.Bounds()
	}
	for i := range areas {
		for j := i + 2; j < len(areas); j++ {
			if boxes[i].Overlaps(boxes[j]) && geom.Overlaps(areas[i], areas[j]) {
				return e.hint(s.widthPlace(e), "treads "+count(i+1)+" and "+count(j+1)+" would lie over one another, where the line comes back to itself",
					"make the flight narrower, or two flights of it")
			}
		}
	}
	return true
}

// boardsFit checks the nosing and the riser boards where the treads are narrowest.
func (steps) boardsFit(e *elem, st *set.Steps) bool {
	treads := st.Treads()
	for k, t := range treads {
		left, right := st.Sides(k)
		for _, x := range [2]float64{left, right} {
			if k > 0 && st.Nosing > 0 {
				room := st.Edge(x, treads[k-1].Y0, t.Y0).Length()
				if past, ok := st.Overhang(x, t.Y0, st.Nosing); !ok || past >= room {
					return e.errorf(e.place("nosing"), "the nosing is %s, and at its narrow end tread %d is only %s deep", e.show(st.Nosing), k, e.show(room))
				}
			}
			if st.RiserBoard > 0 {
				room := st.Edge(x, t.Y0, t.Y1).Length()
				if past, ok := st.Overhang(x, t.Y0, -st.RiserBoard); !ok || -past >= room {
					return e.errorf(e.place("riser_board"), "the riser board is %s thick, and at its narrow end tread %d is only %s deep", e.show(st.RiserBoard), k+1, e.show(room))
				}
			}
		}
	}
	return true
}
