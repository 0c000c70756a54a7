package figures

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

func degrees(deg float64) string { return unit.FormatAngle(deg, 0.1) }

// sawn is how near, in millimetres, the straight runs of a head's outline come to its curves.
const sawn = 0.01

// Head is the head alone: what of a figure lies between its crown and so far below it, cut straight there. Of a hung figure the
// crown is below and the cut above.
type Head struct {
	Region geom.Region // the largest part, or the one with the eyes
	Cut    float64     // height of the straight cut on the face
	Others int         // parts of the figure on the same side of the cut that are not the head: a raised hand
	Pole   Pole
}

// poleThick is about as thick as poles for heads are, millimetres: common practice, no source.
const poleThick = 30

// Pole carries a head where the whole figure would have it.
type Pole struct {
	X      float64 // along the face
	Top    float64 // height of its upper end on the face: the eye line, or the head's middle where none is given
	Length float64 // from the floor, or from what the figure stands on, to its upper end
	Behind float64 // how much of its upper end lies behind the head
}

// HeadOf returns the head of a figure whose own z 0 lies so high above the floor (see Above); nil where none is asked for, or where
// nothing of the figure is there. The error says that the outline cannot be cut.
func HeadOf(f *set.Figure, above float64) (*Head, error) {
	if f.Head <= 0 || f.Box().Empty() {
		return nil, nil
	}
	box := f.Box().Grow(1)
	h := &Head{}
	part := box
	if f.Hung {
		h.Cut = f.Ground + f.Head
		part.Max.Y = h.Cut
	} else {
		h.Cut = f.Ground + f.Height - f.Head
		part.Min.Y = h.Cut
	}
	got, err := geom.Intersect(f.Bodies, []geom.Region{{Outer: geom.Polygon([]geom.Point{
		part.Min, {X: part.Max.X, Y: part.Min.Y}, part.Max, {X: part.Min.X, Y: part.Max.Y}})}}, sawn)
	if err != nil || len(got) == 0 {
		return nil, err
	}
	eyes, looks := f.Eyes()
	best := 0
	for i, r := range got {
		if r.Area() > got[best].Area() {
			best = i
		}
	}
	if looks {
		for i, r := range got {
			if r.Contains(eyes) {
				best = i
			}
		}
	}
	h.Region, h.Others = got[best], len(got)-1
	h.pole(f, above)
	return h, nil
}

// pole puts the pole where the head is whole behind it, as near as may be to the eyes, or to the head's middle.
func (h *Head) pole(f *set.Figure, above float64) {
	box := h.Region.Bounds()
	top, want := box.Mid().Y, h.Region.Outer.Centroid().X
	if eyes, ok := f.Eyes(); ok {
		want = eyes.X
		if eyes.Y > box.Min.Y && eyes.Y < box.Max.Y {
			top = eyes.Y
		}
	}
	h.Pole = Pole{X: want, Top: top, Length: above + top, Behind: top - box.Min.Y}
	best := math.Inf(-1)
	for k := range 2*steps + 1 {
		x := box.Min.X + box.W()*float64(k)/(2*steps)
		if k == 2*steps {
			x = want // last, so that it wins over what is no better
		}
		got := behind([]geom.Region{h.Region}, x, poleThick, box.Min.Y, top) - 0.2*h.Pole.Behind*math.Abs(x-want)/max(box.W(), geom.Tolerance)
		if got >= best-geom.Tolerance {
			best, h.Pole.X = max(got, best), x
		}
	}
}
