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

// bandArea is the area on the plan, by the textbook's ring sectors and mitred strips, of what lies beside a line of lines
// and arcs to a depth on its left: each arc of radius R and sweep a has a/2·(R² − (R ∓ d)²), each line its length times d,
// less d²·tan(turn/2) for each corner to the left, more for one to the right.
func bandArea(line *geom.Path, d float64) float64 {
	a := 0.0
	var last geom.Segment
	for i, s := range line.Segments() {
		if s.Kind == geom.Arc {
			r := s.RX - math.Copysign(d, d*s.Sweep)
			a += math.Abs(s.Sweep) / 2 * math.Abs(s.RX*s.RX-r*r)
		} else {
			a += s.Length() * math.Abs(d)
		}
		if i > 0 {
			u, v := last.Tangent(1), s.Tangent(0)
			if turn := math.Atan2(u.Cross(v), u.Dot(v)); math.Abs(turn) > 1e-3 {
				a -= d * math.Abs(d) * math.Tan(turn/2)
			}
		}
		last = s
	}
	return a
}

// curvedClosing is what a curved flat comes to; its arched openings each lie on one segment.
func curvedClosing(f *set.Flat, scale, card float64) closing {
	thick := f.Thickness / scale
	if thick < 2*card+0.5 {
		n := 1.0
		if thick >= 1.5*card {
			n = 2
		}
		thick = n * card
	}
	d := thick * scale
	if f.FaceLeft {
		d = -d
	}
	c := closing{volume: bandArea(f.Line, d) * f.Height, rough: 1e-4}
	along := 0.0
	for _, s := range f.Line.Segments() {
		share := math.Abs(d)
		if s.Kind == geom.Arc {
			r := s.RX - math.Copysign(d, d*s.Sweep)
			share = math.Abs(s.RX*s.RX-r*r) / 2 / s.RX
			if card <= 0.6 { // edges of strips go straight from tab to tab
				c.loose += 2 * 0.02 * s.Length() / scale
			}
			// A chord as long as the card is thick; two ends and two jambs an opening have two each.
			c.loose += float64(8+8*len(f.Openings)) * card * card * card / 12 / (min(r, s.RX) / scale)
		}
		for _, o := range f.Openings {
			// What of the opening lies on this segment.
			if l := min(o.At+o.Width, along+s.Length()) - max(o.At, along); l > 0 {
				c.volume -= openingArea(o) * l / o.Width * share
			}
		}
		along += s.Length()
	}
	c.volume /= scale * scale * scale
	strip := *f
	strip.Thickness = math.Abs(d)
	p, err := strip.Strip(0, f.Length)
	if err != nil {
		panic(err)
	}
	b := p.Bounds()
	c.size = geom.Vec{X: b.W() / scale, Y: b.H() / scale, Z: f.Height / scale}
	return c
}

func TestCurvedFlatsClose(t *testing.T) {
	square := "    opening door at 600 size 800 x 2000\n    opening window at 2000 size 900 x 900\n        sill 900\n"
	for name, c := range map[string]struct {
		text string
		made int
	}{
		"bay":          {"along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 150\n", 30},
		"bay outside":  {"along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 150\n    face left\n", 30},
		"right":        {"along path 0,0 arc to 2400,0 radius 2000 right\n    height 2400\n    thickness 150\n", 30},
		"half":         {"along path 2000,0 arc to -2000,0 through 0,2000\n    height 2400\n    thickness 90\n", 30},
		"openings":     {"along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 200\n" + square, 25},
		"openings out": {"along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 200\n    face left\n" + square, 25},
		"jay":          {"along path 0,0 line 3500,0 arc to 5000,1500 radius 1500 left line 5000,4000\n    height 2400\n    thickness 200\n" + square, 25},
		"ess":          {"along path 0,0 arc to 2000,0 radius 1500 left arc to 4000,0 radius 1500 right\n    height 2400\n    thickness 200\n" + square, 10},
		"corner":       {"along path 0,0 line 3200,0 4400,1200\n    height 2400\n    thickness 150\n" + square, 25},
		"corner out":   {"along path 0,0 line 3200,0 4400,-1200\n    height 2400\n    thickness 150\n" + square, 25},
		"square":       {"along path 0,0 line 3200,0 3200,2000\n    height 2400\n    thickness 150\n    face left\n" + square, 25},
		"thin":         {"along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    opening arch at 400 size 800 x 2000\n        arch 300\n    opening hole at 1600 size 600 x 600\n        sill 900\n        arch 200\n", 25},
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, "flat w\n    "+c.text, c.made, func(e *set.Element, scale, card float64) closing {
				return curvedClosing(e.Shape.(*set.Flat), scale, card)
			})
		})
	}
}

// A hollow flat is made from its face: strips stand on it before the back closes it.
func TestCurvedFlatIsMadeInOrder(t *testing.T) {
	text := "flat bay\n    along path 0,0 line 1800,0 arc to 3300,1500 radius 1500 left line 3300,3000 4300,4000\n    height 2400\n    thickness 200\n" +
		"    opening door at 600 size 800 x 2000\n    opening window at 2200 size 900 x 900\n        sill 900\n"
	m, list := develop.Develop(open(t, text), develop.Options{Scale: 25, Card: 1.5})
	require.Empty(t, printed(list))
	var names []string
	for _, p := range m.Pieces {
		names = append(names, p.Name)
	}
	require.Equal(t, []string{"face, part 1", "face, part 2", "foot, part 1", "foot, part 2", "top edge",
		"reveal 1, head", "reveal 1, left jamb", "reveal 1, right jamb", "reveal 2, sill", "reveal 2, head", "reveal 2, left jamb", "reveal 2, right jamb",
		"right end", "left end", "back, part 1", "back, part 2"}, names)
	last := 0
	for _, j := range m.Joints {
		at := max(j.A.Piece, j.B.Piece)
		require.GreaterOrEqual(t, at, last, j.Label())
		last = at
	}
	m, list = develop.Develop(open(t, text), develop.Options{Scale: 25, Card: 0.5})
	require.Empty(t, printed(list))
	require.Equal(t, "face, back and ends", m.Pieces[0].Name)
	strips := len(m.Pieces) - 1
	require.Len(t, m.Joints, 2*strips+1)
	for i, j := range m.Joints {
		if i == 2*strips {
			require.Equal(t, j.A.Piece, j.B.Piece, "the seam comes last")
			continue
		}
		require.Equal(t, 1+i%strips, j.B.Piece, "each strip on the face, then the back on each strip")
	}
	for _, p := range m.Pieces {
		for _, tab := range p.Tabs {
			require.Equal(t, develop.Tabbed, m.Joints[tab.Joint-1].Treatment)
		}
	}
}

// What a hollow flat leaves open is said.
func TestCurvedFlatSaysWhatItLeavesOpen(t *testing.T) {
	text := "flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 200\n"
	for opening, want := range map[string]string{
		"opening arch at 600 size 800 x 2000":                                    "the arch of its arch is left open between face and back: ease a strip in by hand",
		"opening window view at 600 size 800 x 900\n        sill 1480":           "its window view is left open between face and back: there is no room for strips round it",
		"opening door at 20 size 800 x 2000":                                     "its door is left open between face and back: there is no room for strips round it",
		"opening hole at 600 size 800 x 900\n        sill 600\n        arch 300": "the arch of its hole is left open between face and back: ease a strip in by hand",
	} {
		m, list := develop.Develop(open(t, text+"    "+opening+"\n"), develop.Options{Scale: 25, Card: 1.5})
		require.Empty(t, printed(list))
		require.Equal(t, []develop.Note{{Element: "bay", Words: want}}, m.Notes)
		requireJoints(t, m)
	}
}

// Where a curve ends in a corner the maker is told; where it runs on smoothly there is nothing to tell.
func TestCornerOnACurveIsSaid(t *testing.T) {
	for corner, line := range map[bool]string{
		true:  "path 0,0 line 2000,0 arc to 3000,1000 radius 2000 left",
		false: "path 0,0 line 2000,0 arc to 3000,1000 radius 1000 left",
	} {
		s := open(t, "set \"T\"\n    scale 1:25\n    card 1.5\nflat w\n    along "+line+"\n    height 2400\n    thickness 100\n")
		m, _ := develop.Develop(s, develop.Options{})
		said := slices.ContainsFunc(m.Notes, func(n develop.Note) bool { return strings.Contains(n.Words, "curve ends in a corner") })
		require.Equal(t, corner, said)
	}
}
