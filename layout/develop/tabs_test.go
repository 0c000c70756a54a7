package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
)

// Card that folds has tabs along every glued edge, curved ones too, where there are as many as keep to the curve; folded
// under, none lies on its neighbour.
func TestTabsOnCurves(t *testing.T) {
	bay := "flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 200\n"
	for name, c := range map[string]struct {
		text, piece string
		radius      float64 // of the glued edge
		edges       int
		inward      bool // the tabs come to lie on the inside of the curve
	}{
		"drum":       {"platform drum\n    outline circle 2400\n    height 450\n", "wall", 48, 1, true},
		"tube":       {"post p\n    diameter 300\n    height 2000\n", "tube", 6, 1, true},
		"kerb":       {"ring kerb\n    outer 5200\n    inner 4400\n    height 300\n", "wall", 104, 2, true},
		"kerb, hole": {"ring kerb\n    outer 5200\n    inner 4400\n    height 300\n", "inner wall", 88, 2, false},
		"bay's top":  {bay, "top edge", 80, 2, false},
	} {
		t.Run(name, func(t *testing.T) {
			m, list := develop.Develop(open(t, c.text), develop.Options{Scale: 25, Card: 0.3, PrintOutside: true})
			require.Empty(t, printed(list))
			p := pieceOf(t, m, c.piece)
			pts := p.Outline.Outer.Vertices()
			feet := 0.0
			for _, tab := range p.Tabs {
				foot := tab.Base.From.Dist(tab.Base.To)
				if foot > 16 || tab.Base.From.X == tab.Base.To.X {
					continue // an end, or a seam
				}
				feet += foot
				require.LessOrEqual(t, foot*foot/8/c.radius, 0.2, "off the curve")
				for i, q := range pts {
					if !q.Near(tab.Base.From) || !pts[(i+3)%len(pts)].Near(tab.Base.To) {
						continue
					}
					a, b := pts[(i+1)%len(pts)], pts[(i+2)%len(pts)]
					deep := math.Abs(tab.Base.To.Sub(q).Unit().Cross(a.Sub(q)))
					require.GreaterOrEqual(t, deep, 1.5-1e-9)
					require.GreaterOrEqual(t, a.Dist(b), 1.5-1e-9)
					if c.inward {
						require.Less(t, a.Dist(b), foot*(c.radius-deep)/c.radius, "tips lie on one another")
					}
				}
			}
			long := float64(c.edges) * 2 * math.Pi * c.radius
			if c.piece == "top edge" {
				long = math.Pi / 2 * (80 - 0.3 + 72 + 0.3)
			}
			require.InDelta(t, long, feet, 0.03*long)
		})
	}
}

// An edge that has no room for a tab is glued edge to edge, and its joint says so.
func TestJointsSayWhetherThereAreTabs(t *testing.T) {
	for _, text := range []string{
		"flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 60\n    opening window at 600 size 800 x 900\n        sill 900\n",
		"steps up\n    starts 0, 0 heading 90deg\n    risers 3\n    rise 150\n    going 300\n    width 900\n",
	} {
		m, list := develop.Develop(open(t, text), develop.Options{Scale: 25, Card: 0.3})
		require.Empty(t, printed(list))
		tabs := map[int]bool{}
		for _, p := range m.Pieces {
			for _, tab := range p.Tabs {
				tabs[tab.Joint] = true
			}
		}
		for _, j := range m.Joints {
			require.Equal(t, j.Treatment == develop.Tabbed, tabs[j.Number], "%s: %s on %s", j.Label(), m.Pieces[j.B.Piece].Name, m.Pieces[j.A.Piece].Name)
		}
	}
}
