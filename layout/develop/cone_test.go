package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

func init() { builders = append(builders, rolledCone, roundTop, foldedCone) }

// coneFacets is how many flat parts stand for a whole round.
const coneFacets = 720

// rolledCone rebuilds the side of a round tapered piece from its two rims and the point of its development.
func rolledCone(p *develop.Piece) (solid, bool) {
	if p.Taper == nil || len(p.Rims) != 2 {
		return solid{}, false
	}
	down := 1.0
	if p.Outline.Bounds().Mid().Y < p.Taper.Apex.Y {
		down = -1
	}
	in, out := p.Rims[0], p.Rims[1]
	half := p.Taper.Sector / 2 * math.Pi / 180
	s := solid{name: p.Label() + " " + p.Name}
	at := func(r, turn, depth float64) geom.Vec {
		sn, cs := math.Sincos(turn)
		r = max(r, 1e-7) // the point itself lies in no direction
		return p.Made(p.Taper.Apex.Add(geom.Point{X: r * sn, Y: down * r * cs}), depth)
	}
	face := func(a, b, r0, r1, depth float64) []geom.Vec {
		return []geom.Vec{at(r0, a, depth), at(r1, a, depth), at(r1, b, depth), at(r0, b, depth)}
	}
	for i := range coneFacets {
		a, b := -half+2*half*float64(i)/coneFacets, -half+2*half*float64(i+1)/coneFacets
		s.cells = append(s.cells, cell{
			front: [][]geom.Vec{face(a, b, in.Radius+in.Front, out.Radius-out.Front, 0)},
			back:  [][]geom.Vec{face(a, b, in.Radius+in.Back, out.Radius-out.Back, p.Thickness)},
		})
	}
	return s, true
}

// roundTop rebuilds a disc with a bevelled rim.
func roundTop(p *develop.Piece) (solid, bool) {
	if p.Taper != nil || len(p.Rims) != 1 {
		return solid{}, false
	}
	r := p.Rims[0]
	face := func(radius, depth float64) []geom.Vec {
		var out []geom.Vec
		for i := range coneFacets {
			out = append(out, p.Made(r.Centre.Add(geom.Polar(radius, 2*math.Pi*float64(i)/coneFacets-math.Pi/2)), depth))
		}
		return out
	}
	return solid{name: p.Label(), cells: []cell{{
		front: [][]geom.Vec{face(r.Radius-r.Front, 0)}, back: [][]geom.Vec{face(r.Radius-r.Back, p.Thickness)},
	}}}, true
}

// foldedCone rebuilds a strip of sides that taper, folded at their edges.
func foldedCone(p *develop.Piece) (solid, bool) {
	if p.Name != "sides" {
		return solid{}, false
	}
	var foot, head []develop.Edge
	for _, e := range p.Edges[:len(p.Edges)-2] { // the last two meet at the seam
		if e.Treatment == develop.Open {
			foot = append(foot, e)
		} else {
			head = append(head, e)
		}
	}
	if len(foot) == 0 {
		foot, head = head, nil
	}
	angle := 0.0
	for _, f := range p.Folds {
		if !isTab(p, f.Line) {
			angle = f.Angle
		}
	}
	in := p.Thickness * math.Tan(angle/2*math.Pi/180)
	outer := 0.0
	if p.Hidden {
		outer = p.Thickness
	}
	s := solid{name: p.Label() + " sides"}
	for i, f := range foot {
		pts := []geom.Point{f.Line.From, f.Line.To}
		by := [2][]float64{{f.Front, 0}, {f.Back, in}}
		if p.Hidden {
			by = [2][]float64{{f.Back, 0}, {f.Front, in}}
		}
		if len(head) == len(foot) {
			pts = append(pts, head[i].Line.To, head[i].Line.From)
			if p.Hidden {
				by[0], by[1] = append(by[0], head[i].Back, 0), append(by[1], head[i].Front, in)
			} else {
				by[0], by[1] = append(by[0], head[i].Front, 0), append(by[1], head[i].Back, in)
			}
		} else {
			pts = append(pts, apexOf(p))
			by[0], by[1] = append(by[0], 0), append(by[1], in)
		}
		mid := geom.Point{}
		for _, q := range pts {
			mid = mid.Add(q.Mul(1 / float64(len(pts))))
		}
		var c cell
		for face, depth := range [2]float64{outer, p.Thickness - outer} {
			o := p.Made(mid, depth)
			x := minus(p.Made(mid.Add(geom.Point{X: 0.01}), depth), o)
			y := minus(p.Made(mid.Add(geom.Point{Y: 0.01}), depth), o)
			var l []geom.Vec
			for _, q := range movedIn(pts, by[face]) {
				d := q.Sub(mid)
				l = append(l, plus(o, plus(times(x, d.X*100), times(y, d.Y*100))))
			}
			if face == 0 {
				c.front = [][]geom.Vec{l}
			} else {
				c.back = [][]geom.Vec{l}
			}
		}
		s.cells = append(s.cells, c)
	}
	return s, true
}

// apexOf is where the folds of a strip meet.
func apexOf(p *develop.Piece) geom.Point {
	var l []develop.Line
	for _, f := range p.Folds {
		if !isTab(p, f.Line) {
			l = append(l, f.Line)
		}
	}
	u, v := l[0].To.Sub(l[0].From).Unit(), l[1].To.Sub(l[1].From).Unit()
	return l[0].From.Add(u.Mul(l[1].From.Sub(l[0].From).Cross(v) / u.Cross(v)))
}

// movedIn moves edge i of an outline, from corner i on, inwards by so much.
func movedIn(pts []geom.Point, by []float64) []geom.Point {
	hand := 1.0
	if geom.Polygon(pts).Area() < 0 {
		hand = -1
	}
	n := len(pts)
	out := make([]geom.Point, n)
	for i, q := range pts {
		h := (i + n - 1) % n
		u, v := q.Sub(pts[h]).Unit(), pts[(i+1)%n].Sub(q).Unit()
		a, b := q.Add(u.Left().Mul(hand*by[h])), q.Add(v.Left().Mul(hand*by[i]))
		out[i] = a.Add(u.Mul(b.Sub(a).Cross(v) / u.Cross(v)))
	}
	return out
}

// Volume of a frustum: h/3·(A + B + √AB), Euclid XII for the whole ones; what the round point of card lacks by formula.
func coneClosing(e *set.Element, scale, card float64) closing {
	c := e.Shape.(*set.Cone)
	area := func(across float64) float64 {
		if c.Sides == 0 {
			return math.Pi * across * across / 4
		}
		return float64(c.Sides) * across * across / 4 * math.Tan(math.Pi/float64(c.Sides))
	}
	a, b := area(c.Lower), area(c.Upper)
	k := scale * scale * scale
	box := c.Widest().Path.Bounds()
	w := closing{volume: c.Height / 3 * (a + b + math.Sqrt(a*b)) / k, size: geom.Vec{X: box.W() / scale, Y: box.H() / scale, Z: c.Height / scale}}
	if c.Sides == 0 {
		w.rough = 1e-4
		if min(c.Lower, c.Upper) == 0 {
			half := math.Atan(max(c.Lower, c.Upper) / 2 / c.Height)
			r := card / 2 * math.Cos(half)
			w.size.Z -= r / math.Tan(half) // up to where the outer face ends, so wide; the dent in it is gone round
			w.volume -= math.Pi * r * r / 3 * r / math.Tan(half)
		}
	}
	return w
}

func TestConesClose(t *testing.T) {
	for name, text := range map[string]string{
		"round":            "cone spire\n    lower 1800\n    upper 900\n    height 1500\n",
		"round funnel":     "cone funnel\n    lower 900\n    upper 1500\n    height 1200\n",
		"round point":      "cone spire\n    lower 1500\n    upper 0\n    height 1800\n",
		"round on a point": "cone top\n    lower 0\n    upper 1800\n    height 1200\n",
		"flat":             "cone tent\n    lower 3000\n    upper 1500\n    height 400\n",
		"square":           "cone plinth\n    lower 1800\n    upper 1200\n    height 1500\n    sides 4\n",
		"square planter":   "cone planter\n    lower 900\n    upper 1500\n    height 1200\n    sides 4\n",
		"pyramid":          "cone roof\n    lower 2400\n    upper 0\n    height 1500\n    sides 4\n",
		"hexagon":          "cone turret\n    lower 2400\n    upper 1200\n    height 1800\n    sides 6\n",
		"pentagon":         "cone cup\n    lower 1200\n    upper 2000\n    height 1800\n    sides 5\n",
		"on its point":     "cone hopper\n    lower 0\n    upper 2400\n    height 1800\n    sides 8\n",
		"tube":             "cone drum\n    lower 1200\n    upper 1200\n    height 900\n",
		"box":              "cone bin\n    lower 1200\n    upper 1200\n    height 900\n    sides 6\n",
	} {
		t.Run(name, func(t *testing.T) { everyWay(t, text, 22, coneClosing) })
	}
}

// The side of a round piece is as large as the published development of its middle, within its bevels; the worked frustum of ceemrr.com
// (DrawingsNets6), ten times as large: D 80, d 50, h 40, radii 71.2 and 113.9, sector 126.4°.
func TestConeDevelopment(t *testing.T) {
	s := open(t, "cone bucket\n    lower 80\n    upper 50\n    height 40\n")
	for _, outside := range []bool{true, false} {
		m, list := develop.Develop(s, develop.Options{Scale: 1, Card: 0.01, PrintOutside: outside})
		require.Empty(t, printed(list))
		require.Len(t, m.Pieces, 2)
		side := m.Pieces[1]
		require.Equal(t, "side", side.Name)
		require.InDelta(t, 126.4, side.Taper.Sector, 0.05)
		require.InDelta(t, 71.2, side.Rims[0].Radius, 0.06)
		require.InDelta(t, 113.9, side.Rims[1].Radius, 0.06)
		require.Equal(t, outside, side.Taper.Away)
	}
	// Thick card has bevels of the slope: atan(15/40).
	m, list := develop.Develop(s, develop.Options{Scale: 1, Card: 1.5})
	require.Empty(t, printed(list))
	require.InDelta(t, math.Atan(15.0/40)*180/math.Pi, m.Pieces[0].Rims[0].Bevel, 1e-9)
	require.NotEmpty(t, m.Pieces[1].Relief)
	require.Empty(t, m.Pieces[1].Tabs)
	thin, list := develop.Develop(s, develop.Options{Scale: 1, Card: 0.3})
	require.Empty(t, printed(list))
	require.Greater(t, len(thin.Pieces[1].Tabs), 10)
}

// The square frustum 200/100/150 of check values worked out beforehand: face 158.113883 high along its middle, edges
// 165.831240.
func TestTaperedSquare(t *testing.T) {
	s := open(t, "cone plinth\n    lower 200\n    upper 100\n    height 150\n    sides 4\n")
	m, list := develop.Develop(s, develop.Options{Scale: 1, Card: 1, PrintOutside: true})
	require.Empty(t, printed(list))
	require.Len(t, m.Pieces, 5)
	lean := math.Atan(50.0 / 150)
	for _, p := range m.Pieces[1:] {
		require.InDelta(t, 200, p.Outline.Bounds().W(), 1e-9)
		// To the top's underside and, inside, the bevel more.
		require.InDelta(t, 158.113883-1/math.Cos(lean)+math.Tan(lean), p.Outline.Bounds().H(), 1e-6)
	}
	m, list = develop.Develop(s, develop.Options{Scale: 1, Card: 0.3, PrintOutside: true})
	require.Empty(t, printed(list))
	require.Len(t, m.Pieces, 2)
	for _, f := range m.Pieces[1].Folds[:3] {
		require.InDelta(t, (165.831240)*(1-0.3/150)+0.3*math.Tan(lean)*165.831240/158.113883, f.Line.From.Dist(f.Line.To), 1e-5)
	}
}

func TestSlenderConesAreRods(t *testing.T) {
	for text, rods := range map[string]int{
		"cone finial\n    lower 150\n    upper 20\n    height 900\n":                       1,
		"cone spire\n    lower 900\n    upper 20\n    height 900\n    model rod\n":         1,
		"cone spire\n    lower 900\n    upper 20\n    height 900\n    model no\n":          0,
		"cone drum\n    lower 150\n    upper 20\n    height 900\n    repeat 3 by 500, 0\n": 3,
	} {
		m, list := develop.Develop(open(t, text), develop.Options{Scale: 25, Card: 1.5})
		require.Empty(t, printed(list))
		require.Len(t, m.Rods, rods, text)
		require.Empty(t, m.Pieces)
		for _, r := range m.Rods {
			require.Equal(t, "tapered", r.Section)
			require.InDelta(t, 36, r.Length, 1e-9)
		}
	}
}

func FuzzCone(f *testing.F) {
	f.Add(1800.0, 900.0, 1500.0, 0, 25.0, 1.5)
	f.Add(900.0, 0.0, 1500.0, 4, 25.0, 0.3)
	f.Add(0.0, 3000.0, 20.0, 7, 1.0, 5.0)
	f.Add(5400.0, 98.0, 1500.0, 4, 47.0, 0.3) // tabs about a small top
	f.Add(952.0, 55.56, 239.7375, 0, 11.0, 0.6)
	f.Fuzz(func(t *testing.T, lower, upper, height float64, sides int, scale, card float64) {
		for _, x := range []float64{lower, upper, height, scale, card} {
			if math.IsNaN(x) || math.Abs(x) > 1e5 {
				return
			}
		}
		if lower < 0 || upper < 0 || lower+upper < 1 || height < 1 || sides < 0 || sides > 60 || sides == 1 || sides == 2 || scale < 0.5 || card < 0.01 {
			return
		}
		c := &set.Cone{Lower: lower, Upper: upper, Height: height, Sides: sides}
		e := &set.Element{Name: "c", Kind: "cone", Shape: c, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}}}
		m, _ := develop.Develop(&set.Set{Elements: []*set.Element{e}}, develop.Options{Scale: scale, Card: card})
		requireJoints(t, m)
		for i := range m.Pieces {
			requireOnCard(t, &m.Pieces[i])
		}
	})
}
