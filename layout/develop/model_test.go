package develop_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

func sample(t testing.TB, name string) *set.Set {
	t.Helper()
	const folder = "../../samples/"
	files := texts{}
	all, err := os.ReadDir(folder + name)
	require.NoError(t, err)
	for _, f := range all {
		data, err := os.ReadFile(folder + name + "/" + f.Name())
		require.NoError(t, err)
		files[f.Name()] = string(data)
	}
	s, list := layout.Open(files, name+".markout", layout.Options{})
	require.Empty(t, printed(list))
	return s
}

func TestSamples(t *testing.T) {
	for _, name := range []string{"kiosk", "crates", "backing"} {
		t.Run(name, func(t *testing.T) {
			s := sample(t, name)
			m, list := develop.Develop(s, develop.Options{})
			require.Empty(t, printed(list))
			require.Equal(t, s.Scale, m.Scale)
			requireJoints(t, m)
			for i := range m.Pieces {
				requireOnCard(t, &m.Pieces[i])
			}
			again, _ := develop.Develop(s, develop.Options{})
			require.Equal(t, m, again, "the same set, the same pieces")
		})
	}
}

func TestKiosk(t *testing.T) {
	s := sample(t, "kiosk")
	m, _ := develop.Develop(s, develop.Options{})
	// RUN: 1:25 of Ø89 is 3.56, of Ø60 2.4, both under 8: rods, the bollards in holes of the base sheet, the canopy's
	// posts in holes of the deck's top. 12 + 8 rods.
	require.Len(t, m.Rods, 20)
	canopy, bollard := m.Rods[0], m.Rods[8]
	require.Equal(t, "canopy.1 round deck-1/9", canopy.Element+" "+canopy.Section+" "+canopy.Piece)
	require.InDelta(t, 3.56, canopy.Diameter, 1e-9)
	require.InDelta(t, 96, canopy.Length, 1e-9, "2850 - 450 over the deck's top")
	require.False(t, canopy.Hole)
	require.Equal(t, "bollard.1 round ", bollard.Element+" "+bollard.Section+" "+bollard.Piece)
	require.InDelta(t, 28, bollard.Length, 1e-9)
	require.True(t, bollard.Hole)
	var deck, first *develop.Footprint
	for i := range m.Base {
		switch m.Base[i].Element {
		case "deck":
			deck = &m.Base[i]
		case "bollard.1":
			first = &m.Base[i]
		}
	}
	require.InDelta(t, 4800.0/25, deck.Areas[0].Bounds().W(), 1e-9)
	require.True(t, first.Hole)
	mid := first.Areas[0].Bounds().Mid()
	require.InDelta(t, 4056.9/25, mid.X, 0.05/25)
	require.InDelta(t, 4687.0/25, mid.Y, 0.05/25)
	// The deck's top is at 450/25 above the base sheet, its middle at 0, 3600/25.
	for _, p := range m.Pieces {
		if p.Element == "deck" && p.Name == "top" {
			require.Len(t, p.Outline.Holes, 8)
			// The first post stands at 2350/25 from the middle, 22.5° round.
			hole := p.Outline.Holes[0].Bounds()
			require.InDelta(t, 3.56, hole.W(), 1e-9)
			at := p.Made(hole.Mid(), p.Thickness)
			require.InDelta(t, 94*math.Cos(math.Pi/8), at.X, 1e-9)
			require.InDelta(t, 144+94*math.Sin(math.Pi/8), at.Y, 1e-9)
			b := p.Outline.Bounds()
			v := p.Made(b.Mid(), p.Thickness)
			require.InDelta(t, 0, v.X, 1e-9)
			require.InDelta(t, 144, v.Y, 1e-9)
			require.InDelta(t, 18, v.Z, 1e-9, "printed on the hidden side, so the other side is on top")
		}
	}
}

func TestOutsidePrinting(t *testing.T) {
	s := open(t, "flat wall\n    from 0, 0 to 2400, 0\n    height 2400\n    opening door at 300 size 800 x 2000\n")
	in, _ := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5})
	out, _ := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5, PrintOutside: true})
	// Looking at the face from P to Q, P and the door nearer to it are on the left; on the hidden side on the right.
	door := geom.Point{X: 400 / 25.0, Y: 40}
	require.False(t, out.Pieces[0].Outline.Contains(door))
	require.True(t, in.Pieces[0].Outline.Contains(door))
	require.False(t, in.Pieces[0].Outline.Contains(geom.Point{X: 96 - door.X, Y: door.Y}))
	require.True(t, in.Pieces[0].Hidden)
	require.False(t, out.Pieces[0].Hidden)
}

func TestTooSmall(t *testing.T) {
	s := open(t, "flat wall\n    from 0, 0 to 2400, 0\n    height 2400\n    opening hole at 300 size 10 x 2000\n        sill 100\n    opening door at 900 size 800 x 2000\n"+
		"platform mat\n    outline rect 900 x 900\n    height 20\n"+
		"steps up\n    starts 0, 0 heading 90deg\n    risers 3\n    rise 150\n    going 300\n    width 900\n    nosing 20\n"+
		"platform jog\n    outline points 0,0 3000,0 3000,1000 3020,1000 3020,2000 0,2000\n    height 450\n")
	m, list := develop.Develop(s, develop.Options{Scale: 50, Card: 1})
	require.Empty(t, printed(list))
	for i := range m.Small {
		m.Small[i].Size = math.Round(m.Small[i].Size*1e6) / 1e6
	}
	require.Equal(t, []develop.Small{
		{Element: "wall", What: "hole", Size: 0.2}, {Element: "mat", What: "its height", Size: 0.4},
		{Element: "up", What: "its nosing", Size: 0.4}, {Element: "jog", What: "edge 3 of its outline", Size: 0.4},
	}, m.Small)
}

// What is printed on a folded and rolled strip is enough to fold it: walked from one end, straight between folds, turned
// at folds and round along rolls, it comes to where the piece says its places lie.
func TestPrintedFoldsAndRolls(t *testing.T) {
	for _, text := range []string{
		"platform deck\n    outline rect 3600 x 2400\n    height 450\n",
		"platform deck\n    outline points 0,0 3000,0 3000,1200 1200,1200 1200,2700 0,2700\n    height 450\n",
		"platform bite\n    outline path 0,0 line 3000,0 3000,2400 2200,2400 arc to 800,2400 radius 900 right line 0,2400 close\n    height 450\n",
		"post mast\n    diameter 600\n    height 3000\n",
		"platform egg\n    outline ellipse 2400 x 1200\n    height 450\n",
	} {
		s := open(t, text)
		m, list := develop.Develop(s, develop.Options{Scale: 25, Card: 0.5, PrintOutside: true})
		require.Empty(t, printed(list))
		p := &m.Pieces[1]
		x, y := 0.0, 1.0
		at := p.Made(geom.Point{X: x, Y: y}, 0).Plan()
		dir := p.Made(geom.Point{X: 1e-3, Y: y}, 0).Plan().Sub(at).Unit()
		if len(p.Rolls) > 0 && p.Rolls[0].From < 1e-6 {
			half := 1e-3 / (p.Rolls[0].Radius * 2)
			if !p.Rolls[0].Away {
				half = -half
			}
			dir = geom.Polar(1, dir.Angle()-half)
		}
		for {
			// To the next fold or roll.
			next, roll, fold := p.Edges[1].Line.From.X, -1, -1
			for i, f := range p.Folds {
				if f.Line.From.X == f.Line.To.X && f.Line.From.X >= x-1e-9 && f.Line.From.X <= next && f.Line != p.Edges[1].Line {
					next, fold = f.Line.From.X, i
				}
			}
			for i, r := range p.Rolls {
				if r.From >= x-1e-9 && r.From < next-1e-9 {
					next, roll, fold = r.From, i, -1
				}
			}
			at = at.Add(dir.Mul(next - x))
			x = next
			turn := func(a float64, away bool) float64 {
				if !away {
					a = -a
				}
				return a * math.Pi / 180
			}
			if fold >= 0 {
				require.InDelta(t, 0, at.Dist(p.Made(geom.Point{X: x, Y: y}, 0).Plan()), 1e-5, "%s at fold %v", text, x)
				dir = geom.Polar(1, dir.Angle()+turn(p.Folds[fold].Angle, p.Folds[fold].Away))
				p.Folds[fold].Line.From.X = -1
				continue
			}
			if roll < 0 {
				require.InDelta(t, 0, at.Dist(p.Made(geom.Point{X: x, Y: y}, 0).Plan()), 1e-5, "%s at its end", text)
				break
			}
			r := p.Rolls[roll]
			a := turn(r.Sweep, r.Away)
			side := dir.Left().Mul(math.Copysign(r.Radius, a))
			centre := at.Add(side)
			at = centre.Add(geom.Polar(r.Radius, side.Mul(-1).Angle()+a))
			dir = geom.Polar(1, dir.Angle()+a)
			x = r.To
		}
	}
}

func TestBrace(t *testing.T) {
	s := open(t, "shape p\n    outline path 0,0 line 0,600 900,1100 1800,600 3000,600 3000,0 close\n    stands from -1500, 2000 to 1500, 2000\n    thickness 18\n    brace\n")
	for _, card := range thicknesses {
		m, list := develop.Develop(s, develop.Options{Scale: 25, Card: card})
		require.Empty(t, printed(list))
		requireJoints(t, m)
		last := m.Pieces[len(m.Pieces)-1]
		require.Equal(t, "brace", last.Name)
		require.Greater(t, last.Outline.Bounds().H(), 1.9*last.Outline.Bounds().W())
	}
}

func FuzzCards(f *testing.F) {
	f.Add(25.0, 1.5)
	f.Add(1.0, 900.0)
	f.Add(1e-300, 1e300)
	var sets []*set.Set
	for _, name := range []string{"kiosk", "crates", "backing"} {
		sets = append(sets, sample(f, name))
	}
	f.Fuzz(func(t *testing.T, scale, card float64) {
		for _, s := range sets {
			m, _ := develop.Develop(s, develop.Options{Scale: scale, Card: card})
			for i := range m.Pieces {
				b := m.Pieces[i].Outline.Bounds()
				require.False(t, math.IsNaN(b.W()+b.H()))
				require.Positive(t, b.W())
			}
		}
	})
}

func BenchmarkKiosk(b *testing.B) {
	s := sample(b, "kiosk")
	for b.Loop() {
		develop.Develop(s, develop.Options{})
	}
}
