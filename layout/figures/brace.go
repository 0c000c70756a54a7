// Package figures works out what goes with a life-size cut-out: the brace that it stands by, the pole that carries a head
// alone, and the eye lines that people and other figures meet.
//
// A figure's own axes are those of set.Figure: x along its face from left to right as seen from the front, z up from what it
// stands on. Lengths are millimetres.
package figures

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// Proportions of a brace: common practice, no source. Whether a figure stands is for a competent person to decide.
const (
	uprightShare = 2.0 / 3 // of the figure's reach above the floor
	uprightLeast = 600.0   // of a low figure, up to nine tenths of its reach
	footShare    = 0.4     // of the figure's reach above the floor
	footLeast    = 450.0
	strutUp      = 0.75   // of the upright, where the strut's middle meets it
	strutOut     = 0.75   // of the foot, where it meets that
	apart        = 1200.0 // a figure has a brace for each such width
)

// Practice is what stands beside every size that is reckoned here.
const Practice = "common practice, no source"

// section is the timber of braces for figures up to some reach, thickness by depth.
type section struct{ reach, thick, deep float64 }

const inch = 25.4

// Sections that are sold by the millimetre and by the inch (common practice, no source; 3/4 and 1 1/2 in are what is left of 1 and
// 2 in, from memory).
var (
	sections       = [...]section{{1200, 25, 50}, {2400, 38, 63}, {math.Inf(1), 47, 97}}
	sectionsInFeet = [...]section{{1200, 0.75 * inch, 2.5 * inch}, {2400, 1.5 * inch, 2.5 * inch}, {math.Inf(1), 1.5 * inch, 3.5 * inch}}
)

// Brace is a right-angled frame of three timbers behind a figure: an upright against its back, a foot on the floor and a
// strut between them.
type Brace struct {
	Upright float64 // height of the upright's head above the floor
	Foot    float64 // how far the foot reaches behind the back
	// Thick and Deep are the timber's section; Deep lies in the brace's own plane.
	Thick, Deep float64
	Length      int // index in the set's lengths that it is cut from, −1 where none serves
	Count       int // how many there are: one for each strip of the figure's width
	// Strut's four corners in the brace's plane, x behind the back and y above the floor, anticlockwise: the lower on the upright, the
	// inner and the outer on the foot, the upper on the upright.
	Strut [4]geom.Point
	Slope float64 // degrees of the strut above the floor

	of *set.Figure
}

// BraceOf returns the brace of a figure, nil where none is asked for. The timber is the thinnest of lengths that is at least as
// thick and as deep as is usual, otherwise the usual one. In feet its sizes are whole half inches, otherwise whole centimetres.
func BraceOf(f *set.Figure, lengths []set.Length, feet bool) *Brace {
	if !f.Brace || f.Box().Empty() {
		return nil
	}
	reach := f.Ground + f.Height
	b := &Brace{
		Upright: even(min(max(uprightShare*reach, uprightLeast), 0.9*reach), feet),
		Foot:    even(max(footShare*reach, footLeast), feet),
		Length:  -1,
		Count:   max(1, int(math.Ceil(f.Box().W()/apart-geom.Tolerance))),
		of:      f,
	}
	timbers := sections
	if feet {
		timbers = sectionsInFeet
	}
	for _, s := range timbers {
		if reach <= s.reach {
			b.Thick, b.Deep = s.thick, s.deep
			break
		}
	}
	b.timber(lengths)
	b.Deep = min(b.Deep, b.Upright/4) // of a figure no higher than a hand
	b.strut()
	return b
}

// even rounds a size up to whole centimetres or half inches, what is no larger than two of those to a tenth of one.
func even(mm float64, feet bool) float64 {
	step := 10.0
	if feet {
		step = inch / 2
	}
	if mm < 2*step {
		step /= 10
	}
	return math.Ceil(mm/step-geom.Tolerance) * step
}

// timber chooses the length that serves with the least section.
func (b *Brace) timber(lengths []set.Length) {
	thick, deep := b.Thick, b.Deep
	least := math.Inf(1)
	for i := range lengths {
		t, d := min(lengths[i].Width, lengths[i].Depth), max(lengths[i].Width, lengths[i].Depth)
		if t >= thick-geom.Tolerance && d >= deep-geom.Tolerance && t*d < least-geom.Tolerance {
			least, b.Length, b.Thick, b.Deep = t*d, i, t, d
		}
	}
}

// strut lays the strut between the back of the upright and the top of the foot.
func (b *Brace) strut() {
	w := b.Deep
	up, out := geom.Point{X: w, Y: strutUp * b.Upright}, geom.Point{X: strutOut * b.Foot, Y: w}
	along := out.Sub(up).Unit()
	off := along.Left().Mul(w / 2) // away from the corner of upright and foot
	at := func(side geom.Point, x float64, upright bool) geom.Point {
		p := up.Add(side)
		if upright {
			return p.Add(along.Mul((x - p.X) / along.X))
		}
		return p.Add(along.Mul((x - p.Y) / along.Y))
	}
	b.Strut = [4]geom.Point{at(off.Mul(-1), w, true), at(off.Mul(-1), w, false), at(off, w, false), at(off, w, true)}
	b.Slope = math.Atan2(-along.Y, along.X) * 180 / math.Pi
}

// WeightAt returns where a sandbag or a stage weight lies on the foot, in the brace's plane: at its outer end, outside the strut.
func (b *Brace) WeightAt() geom.Rect {
	from := max(b.Strut[2].X, 0.6*b.Foot)
	return geom.Rect{Min: geom.Point{X: from, Y: b.Deep}, Max: geom.Point{X: b.Foot, Y: b.Deep + 0.15*b.Upright}}
}

// StrutLong returns the length of the strut along its longer edge, where it is measured.
func (b *Brace) StrutLong() float64 { return b.Strut[2].Dist(b.Strut[3]) }

// Timber is one of the three timbers of a brace.
type Timber struct {
	Name   string
	Length float64 // over all
	Note   string  // how its ends are cut
}

// Timbers returns what one brace is cut from, ends included. The upright stands on the foot.
func (b *Brace) Timbers() []Timber {
	return []Timber{
		{"brace upright", b.Upright - b.Deep, "stands on the foot"},
		{"brace foot", b.Foot, ""},
		{"brace strut", b.StrutLong(), "along its longer edge; ends cut " + degrees(b.Slope) + " off square at the upright, " + degrees(90-b.Slope) + " at the foot"},
	}
}

// steps is at how many places in its strip of the face a brace is tried.
const steps = 24

// Places returns where along the face the middle of each brace goes: in its strip of the width where the figure is whole for the
// most of the upright's height, so that the least of the timber is seen; of equals the nearest to the strip's middle.
func (b *Brace) Places() []float64 {
	box, n, high := b.of.Box(), b.Count, b.Upright
	out := make([]float64, n)
	for i := range out {
		from, wide := box.Min.X+box.W()*float64(i)/float64(n), box.W()/float64(n)
		mid, best := from+wide/2, math.Inf(-1)
		for k := range steps + 1 {
			x := from + wide*(0.1+0.8*float64(k)/steps)
			got := behind(b.of.Bodies, x, b.Thick, box.Min.Y, high) - 0.2*high*math.Abs(x-mid)/wide
			if got > best+geom.Tolerance {
				best, out[i] = got, x
			}
		}
	}
	return out
}

// behind returns how much of an upright thick wide about x, from low to high, has the areas before its whole width.
func behind(areas []geom.Region, x, thick, low, high float64) float64 {
	const parts = 64
	n := 0
	for i := range parts {
		y := low + (high-low)*(float64(i)+0.5)/parts
		if within(areas, geom.Point{X: x - thick/2, Y: y}) && within(areas, geom.Point{X: x + thick/2, Y: y}) {
			n++
		}
	}
	return (high - low) * float64(n) / parts
}

func within(areas []geom.Region, p geom.Point) bool {
	for _, r := range areas {
		if r.Contains(p) {
			return true
		}
	}
	return false
}
