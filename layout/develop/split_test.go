package develop_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

// netArea is a piece's area without its tabs.
func netArea(p *develop.Piece) float64 {
	a := p.Outline.Area()
	for _, t := range p.Tabs {
		a -= tabArea(p, t)
	}
	return a
}

// tabArea is what a tab adds: the corners between the ends of its base.
func tabArea(p *develop.Piece, t develop.Tab) float64 {
	pts := p.Outline.Outer.Vertices()
	n := len(pts)
	for i := range pts {
		a, b := pts[i], pts[(i+3)%n]
		from, to := t.Base.From, t.Base.To
		if p.Hidden {
			from, to = to, from // it runs as the outline does seen from outside
		}
		if a.Near(from) && b.Near(to) {
			return math.Abs(geom.Polygon([]geom.Point{a, pts[(i+1)%n], pts[(i+2)%n], b}).Area())
		}
	}
	return 0
}

// requireSplit checks what holds of every split model: what it was made of is all there, and every part fits.
func requireSplit(t *testing.T, whole, m *develop.Model, w, h float64) {
	t.Helper()
	up := h > w
	sum := func(m *develop.Model) (area, strips float64) {
		for i := range m.Pieces {
			if p := &m.Pieces[i]; strings.HasPrefix(p.Name, "strip behind") {
				strips += netArea(p)
			} else {
				area += netArea(p)
			}
		}
		return area, strips
	}
	before, _ := sum(whole)
	after, _ := sum(m)
	require.InDelta(t, before, after, 1e-6*before, "areas")
	labels := map[string]bool{}
	for i := range m.Pieces {
		p := &m.Pieces[i]
		b := p.Outline.Bounds()
		straight, turned := b.W() <= w+1e-5 && b.H() <= h+1e-5, b.H() <= w+1e-5 && b.W() <= h+1e-5
		if p.Grain == develop.Along {
			straight, turned = straight && up, turned && !up
		}
		require.True(t, straight || turned, "%s %s is %.3f x %.3f", p.Label(), p.Name, b.W(), b.H())
		require.False(t, labels[p.Label()], "%s twice", p.Label())
		labels[p.Label()] = true
		requireOnCard(t, p)
		for _, tab := range p.Tabs {
			require.Positive(t, tabArea(p, tab), "a tab of %s is cut", p.Name)
		}
	}
	requireJoints(t, m)
	number := map[string]int{}
	for _, j := range m.Joints {
		number[j.Element]++
		require.Equal(t, number[j.Element], j.Number, "joints in the order of making")
		for _, side := range [2]develop.Side{j.A, j.B} {
			require.Equal(t, j.Element, m.Pieces[side.Piece].Element)
			for _, q := range side.Line {
				b := m.Pieces[side.Piece].Outline.Bounds().Grow(m.Pieces[side.Piece].Thickness + 0.01)
				require.True(t, b.Contains(q), "%s %s of %s lies on it: %v in %v; to %s", j.Label(), j.Treatment, m.Pieces[side.Piece].Name, side.Line, b, m.Pieces[j.A.Piece].Name)
			}
		}
	}
	for i := range m.Pieces {
		for _, tab := range m.Pieces[i].Tabs {
			found := false
			for _, j := range m.Joints {
				if j.Element == m.Pieces[i].Element && j.Number == tab.Joint {
					found = j.A.Piece == i || j.B.Piece == i
				}
			}
			require.True(t, found, "tab of %s serves joint %d", m.Pieces[i].Label(), tab.Joint)
		}
	}
}

func TestSplitStillCloses(t *testing.T) {
	for _, c := range []struct {
		name, text  string
		scale, card float64
		w, h        float64
		least       int
		noVolume    bool
	}{
		{"deck", "platform deck\n    outline rect 9600 x 7000\n    height 450\n", 25, 1.5, 190, 277, 8, false},
		{"deck, thin", "platform deck\n    outline rect 9600 x 7000\n    height 450\n", 25, 0.3, 190, 277, 8, false},
		{"ell", "platform deck\n    outline points 0,0 9000,0 9000,3600 3600,3600 3600,8100 0,8100\n    height 450\n    closed\n", 25, 1, 190, 277, 8, false},
		{"octagon at full size", "platform deck\n    outline polygon 8 across 4800\n    height 450\n", 1, 5, 2440, 1220, 8, false},
		{"round", "platform deck\n    outline circle 9000\n    height 900\n", 25, 0.3, 190, 277, 6, true},
		{"tube", "post mast\n    diameter 2400\n    height 9000\n", 25, 1.5, 190, 277, 4, false},
		{"flight", "steps front\n    starts 0, 0 heading 90deg\n    risers 10\n    rise 170\n    going 400\n    width 6000\n", 10, 3, 277, 190, 20, false},
		{"hollow wall", "flat wall\n    from 0, 0 to 9600, 0\n    height 3600\n    thickness 300\n    opening door at 3500 size 900 x 2100\n", 25, 1.5, 277, 190, 12, true},
		{"skin", "flat wall\n    from 0, 0 to 9600, 0\n    height 3600\n    thickness 40\n    opening door at 4300 size 900 x 2100\n    opening window at 7000 size 900 x 900\n        sill 1000\n", 25, 1.5, 190, 277, 3, true},
		{"stair", halfRound + "    risers 14\n    rise 170\n", 25, 1.5, 277, 190, 31, true},
		{"stair, thin", halfRound + "    risers 14\n    rise 170\n", 25, 0.3, 277, 190, 30, true},
		{"cone", "cone spire\n    lower 4500\n    upper 900\n    height 4000\n", 25, 1.5, 277, 190, 4, true},
		{"cone, thin", "cone spire\n    lower 4500\n    upper 900\n    height 4000\n", 25, 0.3, 277, 190, 4, true},
		{"cone with sides", "cone spire\n    lower 4500\n    upper 900\n    height 4000\n    sides 6\n", 25, 0.3, 277, 190, 4, true},
		{"curved wall", "flat wall\n    along path 0,0 arc to 6000,0 radius 4000 right\n    height 3600\n    thickness 40\n    opening door at 2500 size 900 x 2100\n", 25, 1.5, 277, 190, 3, true},
		{"kerb", "ring kerb\n    outer 9000\n    inner 7800\n    height 300\n", 25, 1.5, 190, 277, 8, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := open(t, c.text)
			e := s.Elements[0]
			for _, outside := range []bool{true, false} {
				whole, list := develop.Develop(s, develop.Options{Scale: c.scale, Card: c.card, PrintOutside: outside})
				require.Empty(t, printed(list))
				before := fmt.Sprint(whole.Pieces, whole.Joints)
				m, list := develop.Split(whole, c.w, c.h, 0)
				require.Empty(t, printed(list))
				require.Equal(t, before, fmt.Sprint(whole.Pieces, whole.Joints), "the whole stays as it is")
				require.GreaterOrEqual(t, len(m.Pieces), c.least)
				requireSplit(t, whole, m, c.w, c.h)
				if c.noVolume {
					continue
				}
				switch x := e.Shape.(type) {
				case *set.Platform:
					requireClosed(t, m, upright(x.Outline.Path, x.Height, c.scale))
				case *set.Post:
					w := upright(x.Outline.Path, x.Height, c.scale)
					w.rough = 1e-3
					requireClosed(t, m, w)
				case *set.Steps:
					requireClosed(t, m, closing{volume: flightVolume(x, c.scale), size: geom.Vec{X: x.Width(0) / c.scale, Y: x.Run() / c.scale, Z: (x.Total() - x.Rises[len(x.Rises)-1]) / c.scale}})
				}
			}
		})
	}
}

// Seams keep away from openings and from thin places, and of the rest take the shortest.
func TestSeamsKeepAway(t *testing.T) {
	for _, c := range []struct {
		name, text string
		w, h       float64
		from, to   float64 // millimetres of the set between which no seam may lie
		scale      float64
	}{
		// A door from 4000 to 4900: seams in the middle, 4800, would run over it; 8 mm of card are 200.
		{"door", "flat wall\n    from 0, 0 to 9600, 0\n    height 2400\n    thickness 40\n    opening door at 4000 size 900 x 2100\n", 277, 190, 3800, 5100, 25},
		// A window is no place for a seam either, though the least card is cut there.
		{"window", "flat wall\n    from 0, 0 to 9600, 0\n    height 2400\n    thickness 40\n    opening window at 3900 size 2000 x 1500\n        sill 500\n", 277, 190, 3700, 6100, 25},
		// The waist of an hourglass is thin: nothing holds a butt there.
		{"waist", "shape glass\n    outline points 0,0 9600,0 9600,2400 5200,2400 4800,700 4400,2400 0,2400\n    thickness 40\n", 277, 190, 4200, 5400, 25},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := open(t, c.text)
			whole, list := develop.Develop(s, develop.Options{Scale: c.scale, Card: 1.5, PrintOutside: true})
			require.Empty(t, printed(list))
			m, list := develop.Split(whole, c.w, c.h, 0)
			require.Empty(t, printed(list))
			requireSplit(t, whole, m, c.w, c.h)
			seams := 0
			for _, j := range m.Joints {
				if j.Treatment == develop.Backed {
					p := &m.Pieces[j.A.Piece]
					at := p.Made(j.A.Line[0], 0)
					require.False(t, at.X*c.scale > c.from+1e-6 && at.X*c.scale < c.to-1e-6, "a seam at %v", at.X*c.scale)
					seams++
				}
			}
			require.Positive(t, seams)
		})
	}
}

// Two layers are cut at different places and hold one another.
func TestLayersAreStaggered(t *testing.T) {
	s := open(t, "flat wall\n    from 0, 0 to 9600, 0\n    height 2400\n    thickness 75\n")
	whole, list := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5})
	require.Empty(t, printed(list))
	require.Len(t, whole.Pieces, 2)
	m, list := develop.Split(whole, 277, 190, 0)
	require.Empty(t, printed(list))
	require.Len(t, m.Pieces, 4)
	requireSplit(t, whole, m, 277, 190)
	var at []float64
	for _, j := range m.Joints {
		if j.Treatment == develop.Edged {
			at = append(at, m.Pieces[j.A.Piece].Made(j.A.Line[0], 0).X)
		}
	}
	require.Len(t, at, 2)
	require.GreaterOrEqual(t, math.Abs(at[0]-at[1]), 20-1e-9)
	require.Equal(t, "wall-1/4", m.Pieces[0].Label())
	require.Equal(t, "face, part 1", m.Pieces[0].Name)
}

func TestSplitRefuses(t *testing.T) {
	s := open(t, "platform deck\n    outline rect 9600 x 7000\n    height 450\n")
	whole, list := develop.Develop(s, develop.Options{Scale: 1, Card: 5})
	require.Empty(t, printed(list))
	m, list := develop.Split(whole, 60, 25, 0)
	require.Equal(t, whole.Pieces, m.Pieces)
	require.Contains(t, printed(list), "m:1:10: error: top of `deck`, 9600 x 7000, does not fit a sheet of 60 x 25 and cannot be cut to fit it: a part that fits is too small to be of use")
	require.Contains(t, printed(list), "hint: a sheet of 9600 x 7000, inside its margins, would hold it whole")
	for _, size := range [][2]float64{{0, 0}, {-1, 5}, {math.NaN(), 5}, {math.Inf(1), 5}, {5, math.Inf(1)}} {
		_, list = develop.Split(whole, size[0], size[1], 0)
		require.True(t, list.HasErrors(), "%v", size)
	}
	// What fits is left alone.
	m, list = develop.Split(whole, 9600, 7000, 0)
	require.Empty(t, printed(list))
	require.Equal(t, whole.Pieces, m.Pieces)
	require.Equal(t, whole.Joints, m.Joints)
}

// A piece that may not be turned is cut for the sheet as it lies.
func TestSplitKeepsTurns(t *testing.T) {
	text := "shape board\n    outline rect 3000 x 6000\n    thickness 30\n"
	for turns, parts := range map[string]int{"": 1, "    turns 0 180\n": 3, "    turns 90\n": 1, "    grain along\n": 3, "    grain across\n": 1} {
		s := open(t, text+turns)
		whole, list := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5})
		require.Empty(t, printed(list))
		m, list := develop.Split(whole, 250, 130, 0)
		require.Empty(t, printed(list))
		require.Len(t, m.Pieces, parts, turns)
	}
}
