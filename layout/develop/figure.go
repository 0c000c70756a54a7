package develop

import (
	"fmt"
	"math"

	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
)

// figure makes a cut-out of one card, its printed face to the front, and a foot behind each of its bodies that comes down to
// what it stands on.
func (k *work) figure(f *set.Figure, by float64) error {
	// p and q are seen from the front, w comes out of the face, which is the true side.
	frame := geom.Frame{R: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}}
	loose := 0
	for i, part := range f.Bodies {
		name := "figure"
		if len(f.Bodies) > 1 {
			name = fmt.Sprintf("body %d", i+1)
		}
		if k.tooSmall(name, lesser(part.Bounds())*by) {
			continue
		}
		k.thinParts(part, name, by)
		r := geom.Region{Outer: scaled(part.Outer, by)}
		for j, h := range part.Holes {
			if !k.tooSmall(fmt.Sprintf("hole %d of the %s", j+1, name), lesser(h.Bounds())*by) {
				r.Holes = append(r.Holes, scaled(h, by))
			}
		}
		at := k.pieceOf(draft{Piece{Name: name, Outline: upright(r), body: body{frame: frame}}})
		switch {
		case f.Hung || k.held:
		case i > 0 && part.Bounds().Min.Y > f.Ground+footReach:
			loose++
		default:
			k.foot(at, r, f, by)
		}
	}
	switch {
	case f.Hung:
		k.note("it hangs: fix it from above")
	case loose == 1:
		k.note("one of its bodies stands on nothing: hold it by a strip of clear sheet")
	case loose > 1:
		k.note("%d of its bodies stand on nothing: hold them by strips of clear sheet", loose)
	}
	return nil
}

// footReach is the air in millimetres of life size under a second body up to which it has a foot of its own.
const footReach = 100

// mostThin is how many thin parts of one body are listed.
const mostThin = 5

// thinParts lists the parts of a body that are too thin to cut.
func (k *work) thinParts(r geom.Region, name string, by float64) {
	thin := figures.ThinParts(r, least/by)
	for i, p := range thin {
		if i == mostThin {
			k.note("%d more thin parts of the %s are under %s", len(thin)-mostThin, name, number(least))
			return
		}
		k.small = append(k.small, Small{Element: k.e.Name, What: fmt.Sprintf("a part of the %s, %s long, %s up", name, number1(p.Long*by), number1(p.At.Y*by)), Size: p.Wide * by})
	}
}

func number1(x float64) string { return number(math.Round(x*10) / 10) }

// foot adds a right-angled foot behind a body, where the card is whole for the longest way up from its lower end: six tenths as
// high as that, at most as high as the brace of the life-size figure, half as deep (common practice, no source).
func (k *work) foot(at int, r geom.Region, f *set.Figure, by float64) {
	t := k.card.Thickness
	b := r.Bounds()
	most := figures.BraceOf(&set.Figure{Brace: true, Ground: f.Ground, Height: f.Height, Bodies: f.Bodies}, nil, false).Upright * by
	mid, low, high := 0.0, 0.0, 0.0
	for _, wide := range [...]float64{t, 0} {
		const across = 24
		for i := range across + 1 {
			x := b.Min.X + b.W()*float64(i)/across
			from, to := k.whole(r, x, wide, most)
			if to-from > high-low+geom.Tolerance || to-from > high-low-geom.Tolerance && math.Abs(x-b.Mid().X) < math.Abs(mid-b.Mid().X) {
				mid, low, high = x, from, to
			}
		}
		if high-low >= 4*t {
			break
		}
	}
	h := min(low+0.6*(high-low), most)
	if h-low < 2*t || h-low < 2*least {
		k.note("there is no room behind it for a foot: glue it to a strip of card folded square")
		return
	}
	name := "foot"
	if f.Brace {
		name = "brace"
	}
	// p to the back, q up, w to the right, from the middle of the card to each side.
	frame := sideways(mid + t/2)
	frame.T.Y = t
	outline := geom.Polygon([]geom.Point{{}, {X: h / 2}, {Y: h}})
	i := k.pieceOf(draft{Piece{Name: name, Outline: geom.Region{Outer: outline}, body: body{frame: frame}}})
	k.drafts[i].Edges = []Edge{{Line: Line{geom.Point{Y: low}, geom.Point{Y: h}}, Treatment: Captive}}
	k.join(Captive, side(at, []geom.Point{{X: mid + t/2, Y: low}, {X: mid + t/2, Y: h}}, t),
		side(i, []geom.Point{{Y: low}, {Y: h}}, 0))
}

// whole returns the lowest stretch of the upright strip wide about x that lies in the area, up to most.
func (k *work) whole(r geom.Region, x, wide, most float64) (from, to float64) {
	const steps = 120
	b := r.Bounds()
	step := (min(b.Max.Y, most) - b.Min.Y) / steps
	if step <= 0 {
		return 0, 0
	}
	started := false
	for i := range steps {
		y := b.Min.Y + (float64(i)+0.5)*step
		in := r.Contains(geom.Point{X: x - wide/2, Y: y}) && r.Contains(geom.Point{X: x + wide/2, Y: y})
		switch {
		case in && !started:
			started, from, to = true, y-step/2, y+step/2
		case in:
			to = y + step/2
		case started:
			return from, to
		}
	}
	return from, to
}
