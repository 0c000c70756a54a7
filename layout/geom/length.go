package geom

import (
	"math"
	"slices"
)

// Length returns the length of the segment: lines and circular arcs in closed form, elliptical arcs and
// cubics by adaptive quadrature to 1e-9 of their length.
func (s Segment) Length() float64 {
	switch s.Kind {
	case Line:
		return s.From.Dist(s.To)
	case Arc:
		return s.RX * math.Abs(s.Sweep)
	}
	return s.lengthTo(1)
}

// lengthTo returns the length from the start to share t.
func (s Segment) lengthTo(t float64) float64 {
	switch s.Kind {
	case Line, Arc:
		return s.Length() * t
	}
	// The speed of a flat ellipse has kinks at its vertices; panels that end there are smooth inside.
	var buf [16]float64
	cuts := buf[:0]
	if s.Kind == EllipticalArc {
		axis := s.tilt(Point{1, 0})
		cuts = s.extrema(axis.Left(), s.extrema(axis, cuts))
		slices.Sort(cuts)
	}
	total, a := 0.0, 0.0
	for _, b := range append(cuts, t) {
		b = min(b, t)
		if b > a {
			whole := s.gauss(a, b)
			total += s.refine(a, b, whole, 1e-11*whole, 40)
			a = b
		}
	}
	return total
}

// refine returns the length between shares a and b, whose one-panel value is whole, halving the panel
// until both agree within eps.
func (s Segment) refine(a, b, whole, eps float64, depth int) float64 {
	m := (a + b) / 2
	l, r := s.gauss(a, m), s.gauss(m, b)
	if depth == 0 || math.Abs(l+r-whole) <= eps {
		return l + r
	}
	return s.refine(a, m, l, eps, depth-1) + s.refine(m, b, r, eps, depth-1)
}

// The positive nodes and the weights of Gauss–Legendre quadrature with ten points on −1..1
// (Abramowitz and Stegun, table 25.4).
var gaussNodes = [5][2]float64{
	{0.14887433898163122, 0.29552422471475287},
	{0.43339539412924719, 0.26926671930999635},
	{0.67940956829902441, 0.21908636251598204},
	{0.86506336668898451, 0.14945134915058059},
	{0.97390652851717172, 0.06667134430868814},
}

// gauss returns the ten-point value of the length between shares a and b.
func (s Segment) gauss(a, b float64) float64 {
	m, h := (a+b)/2, (b-a)/2
	sum := 0.0
	for _, n := range gaussNodes {
		sum += n[1] * (s.derivative(m-h*n[0]).Len() + s.derivative(m+h*n[0]).Len())
	}
	return sum * h
}

// shareAt returns the share of the segment at length d from its start, total being its whole length.
func (s Segment) shareAt(d, total float64) float64 {
	if d <= 0 || total <= 0 {
		return 0
	}
	if d >= total {
		return 1
	}
	t := d / total
	if s.Kind == Line || s.Kind == Arc {
		return t
	}
	// Newton's steps, kept between bounds that close in by halving.
	lo, hi := 0.0, 1.0
	for range 80 {
		miss := s.lengthTo(t) - d
		if math.Abs(miss) <= 1e-10*total {
			break
		}
		if miss > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - miss/s.derivative(t).Len()
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if next == t {
			break
		}
		t = next
	}
	return t
}

// Length returns the length of the path.
func (p *Path) Length() float64 {
	sum := 0.0
	if p.Straight() {
		for i := range p.Len() {
			sum += p.pts[i].Dist(p.pts[i+1])
		}
		return sum
	}
	for _, s := range p.Segments() {
		sum += s.Length()
	}
	return sum
}

// At returns the place at length d along the path from its start and the direction there, length 1.
// Before the start and past the end it is the end itself. At a corner the direction is that of the segment
// that leaves it. Many places of one path are found faster with a Ruler.
func (p *Path) At(d float64) (at, tangent Point) { return NewRuler(p).At(d) }

// Ruler finds places by their length along a path.
type Ruler struct {
	path *Path
	ends []float64 // length from the start to each segment's end
	from []int32   // where each segment starts among the path's points
}

// NewRuler measures p, which must not change afterwards.
func NewRuler(p *Path) *Ruler {
	r := &Ruler{path: p, ends: make([]float64, 0, p.Len()), from: make([]int32, 0, p.Len())}
	sum, k := 0.0, 0
	for _, s := range p.Segments() {
		sum += s.Length()
		r.ends = append(r.ends, sum)
		r.from = append(r.from, int32(k))
		k += s.Kind.width()
	}
	return r
}

// Length returns the length of the path.
func (r *Ruler) Length() float64 {
	if len(r.ends) == 0 {
		return 0
	}
	return r.ends[len(r.ends)-1]
}

// At is Path.At.
func (r *Ruler) At(d float64) (at, tangent Point) {
	n := len(r.ends)
	if n == 0 {
		return r.path.Start(), Point{}
	}
	d = min(max(d, 0), r.Length())
	// The first segment that ends beyond d; a place within Tolerance of a corner is the corner.
	i, _ := slices.BinarySearchFunc(r.ends, d, func(end, d float64) int {
		if end <= d+Tolerance {
			return -1
		}
		return 1
	})
	if i == n {
		// The end of the path: of its last segment that has a direction.
		for i--; i > 0 && r.ends[i]-r.ends[i-1] <= 0; i-- {
		}
		s := r.segment(i)
		return r.path.End(), s.Tangent(1)
	}
	start := 0.0
	if i > 0 {
		start = r.ends[i-1]
	}
	s := r.segment(i)
	t := 0.0
	if d-start > Tolerance {
		t = s.shareAt(d-start, r.ends[i]-start)
	}
	return s.Point(t), s.Tangent(t)
}

func (r *Ruler) segment(i int) Segment { return r.path.read(r.path.verbs[i], int(r.from[i])) }
