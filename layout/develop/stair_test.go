package develop_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

func init() { builders = append(builders, steppedSide) }

// steppedSide rebuilds a side that is rolled and stepped, column by column between its upright edges.
func steppedSide(p *develop.Piece) (solid, bool) {
	if p.Name != "left side" && p.Name != "right side" || len(p.Rolls) == 0 {
		return solid{}, false
	}
	var cuts []develop.Edge
	for _, e := range p.Edges {
		if math.Abs(e.Line.From.X-e.Line.To.X) < 1e-9 {
			cuts = append(cuts, e)
		}
	}
	slices.SortFunc(cuts, func(a, b develop.Edge) int {
		if a.Line.From.X < b.Line.From.X {
			return -1
		}
		return 1
	})
	n := len(cuts) - 1
	high := make([]float64, n)
	pts := untabbed(p)
	for i := range high {
		mid := (cuts[i].Line.From.X + cuts[i+1].Line.From.X) / 2
		for k, a := range pts {
			if b := pts[(k+1)%len(pts)]; (a.X-mid)*(b.X-mid) <= 0 && math.Abs(a.Y-b.Y) < 1e-9 {
				high[i] = max(high[i], a.Y)
			}
		}
	}
	at := func(i int, in float64) float64 { // where a face ends at cut i
		switch {
		case i == 0, i < n && high[i] > high[i-1]:
			return cuts[i].Line.From.X + in
		}
		return cuts[i].Line.From.X - in
	}
	s := solid{name: p.Label() + " " + p.Name}
	for i := range n {
		f0, f1 := at(i, cuts[i].Front), at(i+1, cuts[i+1].Front)
		b0, b1 := at(i, cuts[i].Back), at(i+1, cuts[i+1].Back)
		shares := []float64{0, 1}
		for _, r := range p.Rolls {
			steps := int(math.Ceil(r.Sweep / facet))
			for k := range steps + 1 {
				x := r.From + (r.To-r.From)*float64(k)/float64(steps)
				if share := (x - f0) / (f1 - f0); share > 0 && share < 1 {
					shares = append(shares, share)
				}
			}
		}
		slices.Sort(shares)
		for k := 1; k < len(shares); k++ {
			face := func(x0, x1, depth float64) []geom.Vec {
				a, b := x0+(x1-x0)*shares[k-1], x0+(x1-x0)*shares[k]
				var out []geom.Vec
				for _, q := range []geom.Point{{X: a}, {X: b}, {X: b, Y: high[i]}, {X: a, Y: high[i]}} {
					out = append(out, p.Made(q, depth))
				}
				return out
			}
			s.cells = append(s.cells, cell{front: [][]geom.Vec{face(f0, f1, 0)}, back: [][]geom.Vec{face(b0, b1, p.Thickness)}})
		}
	}
	return s, true
}

// windingClosing is what a flight along a line comes to: each tread's outline as high as it lies.
func windingClosing(e *set.Element, scale, card float64) closing {
	s := e.Shape.(*set.Steps)
	c := closing{rough: 1e-4}
	box := geom.EmptyRect()
	plan := e.Copies[0].Places[0].Frame.Plan()
	treads := s.Treads()
	for i, t := range treads {
		o := s.TreadOutline(i)
		c.volume += o.Area() * t.Top / (scale * scale * scale)
		box = box.Union(o.Transform(plan).Bounds())
	}
	c.size = geom.Vec{X: box.W() / scale, Y: box.H() / scale, Z: treads[len(treads)-1].Top / scale}
	return c
}

const halfRound = "steps stair\n    along path 2000,0 arc to -2000,0 radius 2000 left centre\n    width 1200\n"

func TestWindingFlightsClose(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		made int
	}{
		"half round": {halfRound + "    risers 14\n    rise 170\n", 20},
		"uneven":     {halfRound + "    rises 140 165 150 190 120 175 160 205 155 150 160 170\n", 20},
		"landings":   {halfRound + "    risers 12\n    rise 180\n    landing after 4 depth 1100\n    landing after 8 depth 1100\n", 20},
		"inner":      {"steps stair\n    along path 0,0 line 0,1500 arc to 1500,3000 radius 1500 right line 4000,3000 inner\n    width 1200\n    risers 16\n    rise 170\n", 20},
		"ess":        {"steps stair\n    along path 0,0 arc to 2000,2000 radius 2000 right arc to 4000,4000 radius 2000 left centre\n    width 900\n    risers 16\n    rise 170\n", 20},
		"curve":      {"steps stair\n    along path 0,0 curve to 4000,3000 handles 0,2500 2500,3000 centre\n    width 1000\n    risers 15\n    rise 170\n", 20},
		"blocks":     {halfRound + "    rises 140 165 150 190 120 175 160 205 155\n    built blocks\n", 20},
		"corner":     {"steps stair\n    along path 0,0 line 0,2000 line 2000,2000 centre\n    width 900\n    risers 9\n    rise 180\n", 15},
	} {
		t.Run(name, func(t *testing.T) { everyWay(t, c.text, c.made, windingClosing) })
	}
}

// A half turn of radius 2000, width 1200, 14 risers: each tread turns by 180°/13, its outline is a part of a ring,
// (2600² − 1400²)/2 times that angle; the right side is as long as the middle of the card along it.
func TestWindingFlightPieces(t *testing.T) {
	s := open(t, halfRound+"    risers 14\n    rise 170\n")
	m, list := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5, PrintOutside: true})
	require.Empty(t, printed(list))
	var names []string
	for _, p := range m.Pieces {
		names = append(names, p.Name)
	}
	require.Len(t, names, 2+13*2+1)
	require.Equal(t, "right side, left side, riser 1, tread 1, riser 2, tread 2", strings.Join(names[:6], ", "))
	require.Equal(t, "back", names[len(names)-1])
	right := m.Pieces[0]
	// It starts behind the first riser and ends before the back, each 1.5 of card along the outer face or nearly so.
	outer := 2600.0 / 25
	turn := math.Pi - 2*math.Asin(1.5/outer)
	require.InDelta(t, (outer-0.75)*turn, right.Outline.Bounds().W(), 0.05)
	require.Equal(t, develop.Along, right.Grain)
	last := m.Pieces[len(m.Pieces)-2]
	require.Equal(t, "tread 13", last.Name)
	ring := (2600.0*2600 - 1400*1400) / 2 * math.Pi / 13 / 625
	require.InDelta(t, ring, last.Outline.Area(), 1e-6*ring)
	for _, p := range m.Pieces {
		if strings.HasPrefix(p.Name, "riser") {
			require.InDelta(t, 1200.0/25, p.Outline.Bounds().W(), 0.05, "a riser is straight")
		}
	}
}

// What meets a deck is open at its back; a nosing stands out before each riser, as deep as the tread's board with its nosing
// is more than without.
func TestWindingFlightThatLands(t *testing.T) {
	s := open(t, halfRound+"    risers 14\n    rise 170\n    nosing 25\n")
	c := *s.Elements[0].Shape.(*set.Steps)
	c.Meets = "gallery"
	e := *s.Elements[0]
	e.Shape = &c
	for _, card := range []float64{1, 1.5, 3} {
		m, list := develop.Develop(&set.Set{Elements: []*set.Element{&e}, Sources: s.Sources}, develop.Options{Scale: 25, Card: card})
		require.Empty(t, printed(list))
		require.Len(t, m.Pieces, 2+13*2)
		want := windingClosing(&e, 25, card)
		for i := range c.Treads() {
			want.volume += (c.TreadBoard(i).Area() - c.TreadOutline(i).Area()) / 625 * card
		}
		want.size.Y += 1
		want.shut = []geom.Region{{Outer: boxPath(-200, -1, -20, 0)}}
		requireClosed(t, m, want)
	}
}

// Lines that no flight can be made along are errors in words; of all others the joints meet.
func FuzzWindingFlight(f *testing.F) {
	f.Add(2000.0, 180.0, 1200.0, 14, 170.0, 25.0, 1.5)
	f.Add(900.0, 300.0, 1700.0, 20, 100.0, 50.0, 3.0)
	f.Add(865.0, 300.0, 1730.0, 31, 100.0, 50.0, 72.0) // its inner edge is one place
	f.Add(-1500.0, 90.0, 800.0, 5, 200.0, 10.0, 0.3)
	f.Fuzz(func(t *testing.T, radius, turn, width float64, risers int, rise, scale, card float64) {
		for _, x := range []float64{radius, turn, width, rise, scale, card} {
			if math.IsNaN(x) || math.Abs(x) > 1e5 {
				return
			}
		}
		if math.Abs(radius) < 1 || turn < 1 || turn > 350 || width < 1 || risers < 2 || risers > 40 || rise < 1 || scale < 1 || card < 0.01 {
			return
		}
		sweep := math.Copysign(turn*math.Pi/180, radius)
		r := math.Abs(radius)
		from := math.Copysign(r, radius)
		line := geom.NewPath(geom.Point{X: from})
		centre := geom.Point{}
		end := geom.Polar(r, geom.Point{X: from}.Angle()+sweep)
		line.ArcTo(centre, sweep, end)
		s := &set.Steps{Line: line, LineIs: "centre", Widths: []float64{width}, Shifts: []float64{0}}
		for i := range risers {
			s.Rises = append(s.Rises, rise)
			if i > 0 {
				s.Goings = append(s.Goings, line.Length()/float64(risers-1))
			}
		}
		e := &set.Element{Name: "stair", Kind: "steps", Shape: s, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}}}
		m, _ := develop.Develop(&set.Set{Elements: []*set.Element{e}}, develop.Options{Scale: scale, Card: card})
		requireJoints(t, m)
		for i := range m.Pieces {
			requireOnCard(t, &m.Pieces[i])
		}
	})
}
