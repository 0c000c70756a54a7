package layout_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/set"
)

// stair opens a text and returns its flight f.
func stair(t *testing.T, text string) (*set.Element, *set.Steps) {
	t.Helper()
	e := open(t, text).Find("f")
	return e, e.Shape.(*set.Steps)
}

const halfWay = "along path 2000,0 arc to -2000,0 radius 2000 left "

// A half circle of radius 2000 is π·2000 long; twelve treads share it, or what two landings leave of it.
func TestTreadsShareTheirLine(t *testing.T) {
	_, s := stair(t, lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 900"))
	require.Len(t, s.Goings, 12)
	for _, g := range s.Goings {
		require.InDelta(t, math.Pi*2000/12, g, 1e-9)
	}
	require.InDelta(t, math.Pi*2000, s.Run(), 1e-9)
	_, s = stair(t, lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 900", "landing after 4 depth 900", "landing after 8 depth 1000"))
	require.Equal(t, []int{4, 8}, s.Landings)
	require.Equal(t, 900.0, s.Goings[3])
	require.Equal(t, 1000.0, s.Goings[7])
	require.InDelta(t, (math.Pi*2000-1900)/10, s.Goings[0], 1e-9)
	require.InDelta(t, math.Pi*2000, s.Run(), 1e-9)
}

// A shorter flight ends where its treads end: four of 300 and a landing of 900 along a half circle of 2000.
func TestAFlightEndsWhereItsTreadsEnd(t *testing.T) {
	e, s := stair(t, lines("steps f", halfWay+"centre", "at 100, 3000", "risers 6", "rise 150", "width 900", "going 300", "landing after 2 depth 900"))
	require.InDelta(t, 2100, s.Line.Length(), 1e-9)
	a := 2100.0 / 2000
	require.InDelta(t, 0, s.Line.End().Dist(geom.Point{X: 2000 * math.Cos(a), Y: 2000 * math.Sin(a)}), 1e-9)
	top := open(t, lines("steps f", halfWay+"centre", "at 100, 3000", "risers 6", "rise 150", "width 900", "going 300", "landing after 2 depth 900")+
		lines("post p", "at f.landing", "diameter 9", "height 9")+lines("post q", "at f.along(300)", "diameter 9", "height 9")+
		lines("steps g", "starts f.landing heading f.top_heading", "level f.top", "risers 3", "rise 150", "going 300", "width 900"))
	require.InDelta(t, 0, plan(top, "p", 1).Dist(geom.Point{X: 100 + 2000*math.Cos(a), Y: 3000 + 2000*math.Sin(a)}), 1e-9)
	require.InDelta(t, 0, plan(top, "q", 1).Dist(geom.Point{X: 100 + 2000*math.Cos(0.15), Y: 3000 + 2000*math.Sin(0.15)}), 1e-9)
	g := top.Find("g").Copies[0].Places[0].Frame
	require.InDelta(t, 900, g.T.Z, 1e-9)
	require.InDelta(t, a*180/math.Pi, g.TurnDeg(), 1e-9, "the flight goes on square to the last riser")
	require.Equal(t, "floor", s.FootOn)
	require.InDelta(t, 0, e.Copies[0].Places[0].Frame.T.Plan().Dist(geom.Point{X: 100, Y: 3000}), 1e-9)
}

// Riser k of n stands at k/n of the half circle, its ends 450 off the line of 2000.
func TestRisersStandSquareToTheLine(t *testing.T) {
	for word, radii := range map[string][2]float64{"centre": {1550, 2450}, "inner": {2000, 2900}, "outer": {1100, 2000}} {
		for _, way := range []string{"left", "right"} {
			line := "along path 2000,0 arc to -2000,0 radius 2000 " + way + " " + word
			e, s := stair(t, lines("steps f", line, "risers 13", "rise 150", "width 900"))
			require.Equal(t, word, s.LineIs)
			points := set.FloorPoints(e, e.Copies[0].Places[0])
			require.Len(t, points, 26)
			for k := range 13 {
				a := math.Pi * float64(k) / 12
				left, right := radii[0], radii[1]
				if way == "right" {
					a, left, right = -a, radii[1], radii[0]
				}
				c, sn := math.Cos(a), math.Sin(a)
				require.InDelta(t, 0, points[2*k].At.Dist(geom.Point{X: left * c, Y: left * sn}), 1e-9, "%s %s riser %d left", word, way, k+1)
				require.InDelta(t, 0, points[2*k+1].At.Dist(geom.Point{X: right * c, Y: right * sn}), 1e-9, "%s %s riser %d right", word, way, k+1)
				require.InDelta(t, 150*float64(k), points[2*k].Level, 1e-9)
				require.InDelta(t, 900, points[2*k].Run, 1e-9)
			}
		}
	}
}

// A tread is an exact sector of an annulus: half the angle times the difference of the squared radii; together they are
// the half annulus.
func TestTreadsAreSectors(t *testing.T) {
	_, s := stair(t, lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 900", "landing after 4 depth 900"))
	all := 0.0
	for k, r := range set.Footprints(s) {
		angle := s.Goings[k] / 2000
		require.InDelta(t, angle*(2450*2450-1550*1550)/2, r.Outer.Area(), 1e-6)
		require.Equal(t, 4, r.Outer.Len(), "two radial ends and two arcs")
		all += r.Outer.Area()
	}
	require.InDelta(t, math.Pi/2*(2450*2450-1550*1550), all, 1e-5)
	left, right := s.Sides(0)
	require.InDelta(t, math.Pi*1550, s.Edge(left, 0, s.Run()).Length(), 1e-9)
	require.InDelta(t, math.Pi*2450, s.Edge(right, 0, s.Run()).Length(), 1e-9)
}

// A straight line gives the same treads as a straight flight.
func TestAStraightLineIsAStraightFlight(t *testing.T) {
	rest := []string{"rises 150 160 140 155 150 145", "goings 300 280 310 290", "landing after 3 depth 900", "widths 900 by -50", "shift 0 20 -30 10 0", "nosing 25", "tread 18"}
	a, one := stair(t, lines("steps f", append([]string{"starts 700, 900 heading 120deg"}, rest...)...))
	c, sn := math.Cos(120*math.Pi/180), math.Sin(120*math.Pi/180)
	to := geom.Point{X: 700 + 2080*c, Y: 900 + 2080*sn}
	b, two := stair(t, lines("steps f", append([]string{"along l centre"}, rest...)...)+
		lines("mark l", "path 700, 900 line "+fmt.Sprintf("%.12f, %.12f", to.X, to.Y)))
	require.Equal(t, one.Goings, two.Goings)
	p, q := set.Surfaces(a, a.Copies[0].Places[0]), set.Surfaces(b, b.Copies[0].Places[0])
	require.Len(t, q, len(p))
	for k := range p {
		require.Equal(t, p[k].A, q[k].A)
		v, w := p[k].Region.Outer.Vertices(), q[k].Region.Outer.Vertices()
		require.Len(t, w, len(v))
		for i := range v {
			require.InDelta(t, 0, v[i].Dist(w[i]), 1e-6)
		}
	}
	at, bt := set.FloorPoints(a, a.Copies[0].Places[0]), set.FloorPoints(b, b.Copies[0].Places[0])
	for i := range at {
		require.Equal(t, at[i].Name, bt[i].Name)
		require.InDelta(t, 0, at[i].At.Dist(bt[i].At), 1e-6)
	}
}

// A riser on a corner runs along the mitre; the treads on both sides share it and cover the corner without a gap.
func TestARiserOnACorner(t *testing.T) {
	_, s := stair(t, lines("steps f", "along path 0,0 line 0,1200 -1200,1200 centre", "risers 3", "rise 150", "width 800"))
	left, right := s.RiserLine(1)
	require.InDelta(t, 0, left.Dist(geom.Point{X: -400, Y: 800}), 1e-9)
	require.InDelta(t, 0, right.Dist(geom.Point{X: 400, Y: 1600}), 1e-9)
	require.InDelta(t, 800*1200, s.TreadOutline(0).Area(), 1e-6, "as much is lost inside the corner as is won outside")
	// Its nosing stands 25 square off the mitre, which is 25·√2 along either edge, and so does the front of the tread.
	e, s := stair(t, lines("steps f", "along path 0,0 line 0,1200 -1200,1200 centre", "risers 3", "rise 150", "width 800", "nosing 25", "riser_board 9"))
	for _, x := range []float64{-400, 400} {
		past, ok := s.Overhang(x, 1200, 25)
		require.True(t, ok)
		require.InDelta(t, 25*math.Sqrt2, past, 1e-9)
		past, ok = s.Overhang(x, 1200, -9)
		require.True(t, ok)
		require.InDelta(t, -9*math.Sqrt2, past, 1e-9)
	}
	front := set.Surfaces(e, e.Copies[0].Places[0])[1].Region.Outer.Segment(0)
	require.InDelta(t, 0, front.From.Dist(geom.Point{X: -400, Y: 800 - 25*math.Sqrt2}), 1e-9)
	require.InDelta(t, 0, front.To.Dist(geom.Point{X: 400, Y: 1600 - 25*math.Sqrt2}), 1e-9)
	// A landing round the corner.
	_, s = stair(t, lines("steps f", "along path 0,0 line 0,1200 -1200,1200 centre", "risers 4", "rise 150", "width 800", "landing after 2 depth 1200"))
	require.Equal(t, 600.0, s.Goings[0])
	require.Equal(t, 6, s.TreadOutline(1).Outer.Len())
	require.InDelta(t, 800*1200, s.TreadOutline(1).Area(), 1e-6)
}

// The front of a nosing stands in line with its riser, by the nosing before it at both ends.
func TestNosingsOfTaperedTreads(t *testing.T) {
	e, s := stair(t, lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 1800", "nosing 25"))
	for k, f := range set.Surfaces(e, e.Copies[0].Places[0]) {
		left, right := s.RiserLine(k)
		ahead := right.Sub(left).Left().Unit()
		v := f.Region.Outer.Vertices()
		require.InDelta(t, -25, v[0].Sub(left).Dot(ahead), 1e-6)
		require.InDelta(t, -25, v[1].Sub(left).Dot(ahead), 1e-6)
		if k > 0 {
			require.InDelta(t, 1100, v[0].Len(), 1e-6, "the left end stays on the inner edge")
			require.InDelta(t, 2900, v[1].Len(), 1e-6)
		}
	}
}

func TestStairsStandOnTheirNamedLine(t *testing.T) {
	text := lines("mark way", "path 2000,0 arc to -2000,0 radius 2000 left", "at 500, 4000", "turn 90deg") +
		lines("steps f", "along way inner", "risers 13", "rise 150", "width 900") +
		lines("post rail", "repeat 3 along f", "diameter 40", "height 900")
	s := open(t, text)
	require.Equal(t, []string{"1: 500 4000 0 turn 90"}, where(s.Find("f")))
	require.InDelta(t, 0, plan(s, "rail", 2).Dist(geom.Point{X: 500 - 2000, Y: 4000}), 1e-9)
	require.InDelta(t, 450, s.Find("f").Shape.(*set.Steps).Shifts[0], 1e-9)
	// On a level the foot, and not the line's 0,0, says how high it stands.
	on := lines("platform low", "outline rect 1000 x 1000", "at 2000, 0", "height 300")
	_, list := layout.Open(texts{"m": on + lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 900", "on low")}, "m", layout.Options{})
	require.Empty(t, printed(list))
}

// A curve that is no arc is climbed along arcs within 0.0005 mm of it: every riser stands at its length along the curve.
func TestStairsAlongACurve(t *testing.T) {
	line := "path 0,0 curve to 3000,3000 handles 0,1800 1200,3000"
	_, s := stair(t, lines("steps f", "along "+line+" outer", "risers 16", "rise 150", "width 900"))
	p := geom.NewPath(geom.Point{})
	p.CubicTo(geom.Point{Y: 1800}, geom.Point{X: 1200, Y: 3000}, geom.Point{X: 3000, Y: 3000})
	y := 0.0
	for _, g := range s.Goings {
		y += g
		at, ahead := p.At(y)
		require.InDelta(t, 0, s.Way(0, y).Dist(at), 0.001)
		require.InDelta(t, 1, s.Ahead(y).Dot(ahead), 1e-6)
	}
	require.InDelta(t, p.Length(), y, 1e-4)
	require.InDelta(t, 450, s.Shifts[0], 1e-9, "the line turns to the right, and is the edge on the left")
}

func TestStairsThatDoNotFit(t *testing.T) {
	arc := halfWay + "centre"
	for name, c := range map[string]struct{ text, want, hint string }{
		"too long":      {lines("steps f", arc, "risers 25", "rise 150", "going 300", "width 900"), "the treads and landings take 7200 mm, and the line is 6283.2 mm long", "a `going` of 261.8 mm fits"},
		"goings":        {lines("steps f", arc, "risers 3", "rise 150", "goings 300 6300", "width 900"), "take 6600 mm, and the line is 6283.2 mm long", "may be 6283.2"},
		"landings":      {lines("steps f", arc, "risers 4", "rise 150", "landing after 1 depth 6283.2", "width 900"), "the other 2 treads are left with nothing", "less than 6283.2"},
		"one riser":     {lines("steps f", arc, "risers 1", "rise 150", "width 900"), "a flight of one riser", "starts"},
		"wide":          {lines("steps f", arc, "risers 13", "rise 150", "width 4000"), "tread 1 is 4000 mm wide and reaches to the middle", "less than 4000 mm fits"},
		"wide outer":    {lines("steps f", halfWay+"outer", "risers 13", "rise 150", "width 2001"), "is 2001 mm wide and reaches to the middle", "less than 2000 mm fits"},
		"closed":        {lines("steps f", "along path 0,0 line 900,0 900,900 0,0", "risers 13", "rise 150", "width 900"), "ends where it starts", "open line"},
		"closed circle": {lines("post p", "diameter 2000", "height 9") + lines("steps f", "along p", "risers 13", "rise 150", "width 900"), "ends where it starts", "open line"},
		"crossing":      {lines("steps f", "along path 0,0 line 900,0 900,900 500,-300", "risers 3", "rise 150", "width 90"), "crosses or touches itself at 600 mm, 0 mm", "two flights"},
		"both ways":     {lines("steps f", "along path 0,0 arc to 0,3000 radius 2000 left arc to 0,6000 radius 2000 right inner", "risers 3", "rise 150", "width 900"), "turns to both sides, so neither edge is the inner one", "`centre`"},
		"straight":      {lines("steps f", "along path 0,0 line 0,3000 outer", "risers 3", "rise 150", "width 900"), "the line is straight", "`centre`"},
		"shift":         {lines("steps f", halfWay+"inner", "risers 3", "rise 150", "width 900", "shift 5"), "so they lie beside it already", "centre"},
		"meets":         {deck + lines("steps f", arc, "meets deck.front", "risers 3", "rise 150", "width 900"), "do not go together", ""},
		"at":            {lines("steps f", "at 0, 0", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "going 300", "width 900"), "this one is straight", "starts"},
		"named and at":  {lines("mark m", "path 0,0 line 0,3000") + lines("steps f", "along m", "at 0, 0", "risers 3", "rise 150", "width 900"), "do not go together", ""},
		"itself":        {lines("steps f", "along f", "risers 3", "rise 150", "width 900"), "cannot climb along itself", ""},
		"no line":       {lines("reserve r", "outline rect 9 x 9", "height 9") + lines("mark m", "point 0, 0") + lines("steps f", "along m", "risers 3", "rise 150", "width 900"), "is no line along which a flight can climb", ""},
		"corner":        {lines("steps f", "along path 0,0 line 0,1300 -1100,1300 centre", "risers 3", "rise 150", "width 900"), "does not fit round the corner of the line at 0 mm, 1300 mm", "at least 450 mm before or after it"},
		"sharp arc":     {lines("steps f", "along path 0,0 line 0,1300 arc to -2000,1300 radius 1300 left", "risers 3", "rise 150", "width 900"), "where an arc or a curve begins or ends", "smoothly"},
		"over itself":   {lines("steps f", "along path 0,0 line 0,3000 arc to -2000,3000 radius 1000 left line -2000,1500 arc to -800,1500 radius 600 left line -800,2500", "risers 31", "rise 150", "width 1100"), "would lie over one another", "narrower"},
		"narrow nosing": {lines("steps f", arc, "risers 41", "rise 150", "width 3800", "nosing 25"), "at its narrow end tread 1 is only 7.9 mm deep", ""},
		"narrow riser":  {lines("steps f", arc, "risers 41", "rise 150", "width 3800", "riser_board 9"), "at its narrow end tread 1 is only 7.9 mm deep", ""},
	} {
		t.Run(name, func(t *testing.T) {
			_, list := layout.Open(texts{"m": c.text}, "m", layout.Options{})
			got := printed(list)
			require.Contains(t, got, c.want)
			require.Contains(t, got, c.hint)
		})
	}
}

// A tread as it is cut reaches under the riser board that stands on it: 9 square off the next riser, the last to the last riser.
func TestTreadsAsTheyAreCut(t *testing.T) {
	_, s := stair(t, lines("steps f", halfWay+"centre", "risers 13", "rise 150", "width 900", "nosing 20", "riser_board 9"))
	for k := range s.Goings {
		left, right := s.RiserLine(k + 1)
		ahead := right.Sub(left).Left().Unit()
		v := s.TreadCut(k).Outer.Vertices()
		behind := 9.0
		if k == len(s.Goings)-1 {
			behind = 0
		}
		back := v[2:]
		if k == 0 { // whose nosing stands before the line, straight on from both edges
			back = v[3:]
		}
		require.InDelta(t, behind, back[0].Sub(right).Dot(ahead), 1e-6)
		require.InDelta(t, behind, back[1].Sub(left).Dot(ahead), 1e-6)
	}
	_, s = stair(t, lines("steps f", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "going 300", "width 900", "nosing 20", "riser_board 9"))
	require.Equal(t, geom.Rect{Min: geom.Point{X: -450, Y: 280}, Max: geom.Point{X: 450, Y: 600}}, s.TreadCut(1).Bounds())
	require.Equal(t, 309.0, s.TreadCut(0).Bounds().Max.Y)
}

// Whatever line is drawn, either what is wrong is said, or the treads share the line, each has its neighbour's riser, and
// together they cover what runs beside the line: width times length, and the turn times half the difference of the squared
// distances of both edges (Steiner's formula for parallel curves).
func TestStairsAlongRandomLines(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 11))
	whole := 0
	for i := range 400 {
		path, at := "path 0,0", geom.Point{}
		for range 1 + r.IntN(3) {
			to := at.Add(geom.Polar(1000+3000*r.Float64(), r.Float64()*3))
			switch r.IntN(3) {
			case 0:
				path += fmt.Sprintf(" line %.1f,%.1f", to.X, to.Y)
			case 1:
				path += fmt.Sprintf(" arc to %.1f,%.1f radius %.1f %s", to.X, to.Y, at.Dist(to)*(0.6+r.Float64()), []string{"left", "right"}[r.IntN(2)])
			default:
				a, b := at.Add(geom.Polar(2000*r.Float64(), r.Float64()*3)), to.Add(geom.Polar(2000*r.Float64(), -r.Float64()*3))
				path += fmt.Sprintf(" curve to %.1f,%.1f handles %.1f,%.1f %.1f,%.1f", to.X, to.Y, a.X, a.Y, b.X, b.Y)
			}
			at = to
		}
		text := lines("steps f", "along "+path+" "+[]string{"inner", "centre", "outer"}[r.IntN(3)], fmt.Sprintf("risers %d", 2+r.IntN(14)), "rise 150",
			fmt.Sprintf("width %.1f", 200+1200*r.Float64()), fmt.Sprintf("turn %.1fdeg", 360*r.Float64()), fmt.Sprintf("nosing %d", 20*r.IntN(2)))
		s, list := layout.Open(texts{"m": text}, "m", layout.Options{})
		if list.HasErrors() {
			require.Nil(t, s.Find("f"))
			continue
		}
		whole++
		st := s.Find("f").Shape.(*set.Steps)
		require.InDelta(t, st.Line.Length(), st.Run(), 1e-6, text)
		left, right := st.Sides(0)
		width := right - left
		c := geom.NewCourse(st.Line)
		leftTurn, rightTurn, _, _ := c.Turns()
		turn := leftTurn - rightTurn
		for _, corner := range c.Corners() { // a mitre reaches out further than a rounding
			turn += 2*math.Tan(corner.Turn/2) - corner.Turn
		}
		area := 0.0
		for k, f := range set.Footprints(st) {
			area += f.Outer.Area()
			_, _, where, crosses := f.Outer.SelfCrossing()
			require.False(t, crosses, "%d: tread %d crosses itself at %v\n%s", i, k+1, where, text)
			a, b := st.RiserLine(k)
			front := f.Outer.Segment(0)
			require.InDelta(t, 0, a.Dist(front.From)+b.Dist(front.To), 1e-6, text)
		}
		require.InEpsilon(t, width*st.Run()+turn*(right*right-left*left)/2, area, 1e-6, "%d\n%s", i, text)
	}
	require.Greater(t, whole, 50)
}
