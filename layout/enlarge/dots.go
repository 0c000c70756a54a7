package enlarge

import (
	"math"

	"markout/layout/geom"
)

// onCorner is how far in millimetres from a corner a dot may lie that does for it: less than a dot's own radius.
const onCorner = 0.5

// dots spreads dots over lines: the corners of all lines first, so that no corner goes without, then what lies between.
type dots struct {
	spacing float64
	lines   []dotted
	out     []geom.Point
	near    map[[2]int][]geom.Point // of out, by squares of a quarter of the spacing
}

// dotted is a line that gets dots: where it turns sharply, as distances along it, and where it shows.
type dotted struct {
	ruler   *geom.Ruler
	corners []float64
	shows   func(geom.Point) bool
}

func newDots(spacing float64) *dots {
	return &dots{spacing: spacing, near: map[[2]int][]geom.Point{}}
}

// line takes in one line.
func (d *dots) line(p *geom.Path, shows func(geom.Point) bool) {
	if p.Empty() {
		return
	}
	r := geom.NewRuler(p)
	l := dotted{ruler: r, corners: []float64{0}, shows: shows}
	var before geom.Point
	for i, s := range p.Segments() {
		if i > 0 {
			if t := s.Tangent(0); math.Abs(math.Atan2(before.Cross(t), before.Dot(t))) > bend {
				l.corners = append(l.corners, r.Ends()[i-1])
			}
		}
		before = s.Tangent(1)
	}
	l.corners = append(l.corners, r.Length())
	d.lines = append(d.lines, l)
}

// place puts the dots down and returns them.
func (d *dots) place() []geom.Point {
	for _, l := range d.lines {
		for _, at := range l.corners {
			if p, _ := l.ruler.At(at); l.shows(p) {
				if _, ok := d.nearest(p, onCorner); !ok {
					d.put(p)
				}
			}
		}
	}
	for _, l := range d.lines {
		for k := 1; k < len(l.corners); k++ {
			d.between(&l, l.corners[k-1], l.corners[k])
		}
	}
	return d.out
}

// between puts dots on a line between two of its corners, where it shows. A dot that lies near does for one here if neither of the
// gaps beside it becomes wider than the spacing.
func (d *dots) between(l *dotted, from, to float64) {
	a, _ := l.ruler.At(from)
	b, _ := l.ruler.At(to)
	last, off := d.corner(a)
	_, off2 := d.corner(b)
	n := max(1, int(math.Ceil((to-from)/(d.spacing-off-off2)-geom.Tolerance)))
	at := func(i int) geom.Point {
		p, _ := l.ruler.At(from + (to-from)*float64(i)/float64(n))
		return p
	}
	for i := 1; i < n; i++ {
		p := at(i)
		if !l.shows(p) {
			last = p
			continue
		}
		if q, ok := d.nearest(p, d.spacing/4); ok && q.Dist(last) <= d.spacing+geom.Tolerance && q.Dist(at(i+1)) <= d.spacing-off2+geom.Tolerance {
			last = q
			continue
		}
		d.put(p)
		last = p
	}
}

// corner returns the dot that does for a corner, the corner itself where it does not show, and how far it lies off.
func (d *dots) corner(p geom.Point) (geom.Point, float64) {
	if q, ok := d.nearest(p, onCorner); ok {
		return q, p.Dist(q)
	}
	return p, 0
}

// nearest returns the dot nearest to a place, no further off than within, which is a quarter of the spacing at most.
func (d *dots) nearest(p geom.Point, within float64) (near geom.Point, ok bool) {
	x, y := d.square(p)
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			for _, q := range d.near[[2]int{x + i, y + j}] {
				if r := p.Dist(q); r <= within {
					near, ok, within = q, true, r
				}
			}
		}
	}
	return near, ok
}

func (d *dots) put(p geom.Point) {
	x, y := d.square(p)
	d.near[[2]int{x, y}] = append(d.near[[2]int{x, y}], p)
	d.out = append(d.out, p)
}

func (d *dots) square(p geom.Point) (x, y int) {
	each := d.spacing / 4
	return int(math.Floor(p.X / each)), int(math.Floor(p.Y / each))
}
