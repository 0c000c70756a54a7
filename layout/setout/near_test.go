package setout

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func TestSector(t *testing.T) {
	for k := range directions {
		for _, off := range []float64{-22, 0, 22} {
			require.Equal(t, k, sector(geom.Polar(1000, (float64(k)*45+off)*math.Pi/180)), "%d %v", k, off)
		}
	}
}

// A box is looked into in every direction in which it holds a point.
func TestSectorsOfBox(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		p := pt(rnd.Float64()*100, rnd.Float64()*100)
		box := geom.EmptyRect().Include(pt(rnd.Float64()*100, rnd.Float64()*100)).Include(pt(rnd.Float64()*100, rnd.Float64()*100))
		m := sectorsOf(box, p)
		for range 20 {
			q := pt(box.Min.X+rnd.Float64()*box.W(), box.Min.Y+rnd.Float64()*box.H())
			require.NotZero(t, m&(1<<sector(q.Sub(p))), "%v from %v in %v", q, p, box)
		}
	}
}

// The field finds what looking at every point finds.
func TestFieldAgainstAll(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for round := range 60 {
		n := 1 + rnd.IntN(300)
		lattice := round%2 == 0 // many equal distances
		place := func() geom.Point {
			if lattice {
				return pt(float64(rnd.IntN(20))*250, float64(rnd.IntN(12))*250)
			}
			return pt(rnd.NormFloat64()*3000, rnd.NormFloat64()*2000)
		}
		bounds := geom.EmptyRect()
		var all []start
		seen := map[geom.Point]bool{}
		for i := range n {
			p := place()
			if seen[p] {
				continue
			}
			seen[p] = true
			all = append(all, start{name: fmt.Sprintf("piece.%d corner 1", i), at: p})
			bounds = bounds.Include(p)
		}
		f := newField(bounds)
		for _, s := range all {
			f.add(s)
		}
		for range 20 {
			p, within := place(), math.Inf(1)
			if rnd.IntN(2) == 0 {
				within = 1500
			}
			var want [directions][]string
			order := slices.Clone(all)
			slices.SortFunc(order, func(a, b start) int {
				return cmp.Or(cmp.Compare(steps(a.at.Dist(p)), steps(b.at.Dist(p))), cmp.Compare(a.name, b.name))
			})
			for _, s := range order {
				k := sector(s.at.Sub(p))
				if d := s.at.Dist(p); d > geom.Tolerance && d <= within && len(want[k]) < nearest {
					want[k] = append(want[k], s.name)
				}
			}
			q := f.around(p, within)
			for k := range directions {
				var got []string
				for _, h := range q.near[k][:q.n[k]] {
					got = append(got, f.starts[h.start].name)
				}
				require.Equal(t, want[k], got)
			}
		}
	}
}

// Points at one place but for less than a float64 tells apart do not split a leaf for ever.
func TestFieldOfOnePlace(t *testing.T) {
	f := newField(geom.EmptyRect().Include(pt(0, 0)).Include(pt(1, 1)))
	for range 50 {
		f.add(start{at: pt(0.5, 0.5)})
	}
	require.Less(t, len(f.nodes), 4*maxDepth+2)
}
