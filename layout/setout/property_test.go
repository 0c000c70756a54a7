package setout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// scattered is a floor of n square platforms and posts at pseudo-random places of a hall w by d millimetres.
func scattered(n int, w, d, tape float64, seed uint64) *set.Set {
	rnd := rand.New(rand.NewPCG(seed, 7))
	s := &set.Set{Name: "scattered"}
	o := rect(w, d)
	s.Hall = &set.Element{Name: "hall", Copies: at(0, 0, 0, 0), Shape: &set.Hall{Outline: o, TapeLong: tape, Class: 1 + int(seed%3), Stations: []set.Station{
		{Name: "A", At: pt(-w/3, -d/3)}, {Name: "B", At: pt(w/3, -d/3)}, {Name: "C", At: pt(w/4, d/3)},
	}}}
	s.Elements = append(s.Elements, s.Hall)
	for i := range n {
		e := &set.Element{Name: fmt.Sprintf("piece%d", i)}
		x, y := (rnd.Float64()-0.5)*w, (rnd.Float64()-0.5)*d
		level := float64(rnd.IntN(3)) * 300
		if i%3 == 0 {
			e.Shape = &set.Post{Outline: circle(100), Diameter: 100, Height: 900}
		} else {
			e.Shape = &set.Platform{Outline: rect(200+rnd.Float64()*900, 200+rnd.Float64()*900), Height: 300}
		}
		e.Copies = at(x, y, level, rnd.Float64()*360)
		s.Elements = append(s.Elements, e)
	}
	return s
}

// Whatever the floor, every row that is served keeps the rules, its place is found again from the printed figures to within a
// millimetre, its starts are laid before it, and no pair of stations that would serve was passed over.
func TestRowsKeepTheRules(t *testing.T) {
	for seed := range uint64(12) {
		tape := []float64{0, 8000, 5000, 15000}[seed%4]
		l := Lay(scattered(120, 24000, 16000, tape, seed))
		unlaid := map[int]bool{}
		for _, i := range l.Unlaid {
			unlaid[i] = true
		}
		for i := range l.Rows {
			r := &l.Rows[i]
			require.Equal(t, unlaid[i], len(r.Starts) == 0)
			if unlaid[i] {
				continue
			}
			requireServed(t, l, r)
			stationsOnly := r.Starts[0].Row < 0 && r.Starts[1].Row < 0
			require.Equal(t, r.Stations.Serves, stationsOnly, r.Name())
			if stationsOnly {
				require.InDelta(t, r.Stations.Error, r.Error, 1e-6, "the least error of all pairs")
			}
			for _, tie := range r.Starts {
				require.Less(t, tie.Row, i)
			}
			if r.How == OnLevel {
				for _, tie := range r.Starts[:2] {
					from := l.Rows[tie.Row]
					require.Contains(t, []float64{from.Level, from.Top}, r.Level)
				}
			}
		}
		again := Lay(scattered(120, 24000, 16000, tape, seed))
		require.Equal(t, l.Table(), again.Table())
	}
}

// Of pairs with laid points the one with the fewest links is taken, of equals the one with the least error: checked against
// every pair of the candidates.
func TestFewestLinksThenLeastError(t *testing.T) {
	l := Lay(scattered(60, 24000, 16000, 8000, 1))
	checked := 0
	for i := range l.Rows {
		r := &l.Rows[i]
		if len(r.Starts) == 0 || r.Same >= 0 || r.Starts[1].Row < 0 {
			continue
		}
		var list []start
		for _, s := range l.Stations {
			list = append(list, start{name: s.Name, at: s.At, row: -1})
		}
		bounds := geom.EmptyRect()
		for k := range l.Rows {
			bounds = bounds.Include(l.Rows[k].At)
		}
		f := newField(bounds)
		for k := range i {
			if p := &l.Rows[k]; p.Same < 0 && len(p.Starts) > 0 {
				f.add(start{name: p.Name(), at: p.At, row: k, links: p.Links, err: p.Error})
			}
		}
		q := f.around(r.At, 8000)
		for k := range directions {
			for _, h := range q.near[k][:q.n[k]] {
				list = append(list, f.starts[h.start])
			}
		}
		for a := range list {
			for b := range a {
				da, db := list[a].at.Dist(r.At), list[b].at.Dist(r.At)
				g := Crossing(r.At, list[a].at, list[b].at)
				if da > 8000 || db > 8000 || g < LeastCrossing || g > MostCrossing {
					continue
				}
				links := 1 + max(list[a].links, list[b].links)
				require.GreaterOrEqual(t, links, r.Links)
				if links == r.Links {
					e := CrossingError(Allowed(l.Class, da)+list[a].err, Allowed(l.Class, db)+list[b].err, g)
					require.GreaterOrEqual(t, e, r.Error-1e-6)
				}
				checked++
			}
		}
	}
	require.Greater(t, checked, 1000)
}

// Twice the points should cost about twice the time. Ring upon ring of a floor as dense as the full-size benchmark's, from
// stations in its middle: with short tapes most points are found from laid ones, many links away.
func BenchmarkLay(b *testing.B) {
	for _, n := range []int{5000, 10000, 20000} {
		for _, tape := range []float64{0, 8000} {
			w := 50 * math.Sqrt(float64(n)*60)
			s := scattered(n/3, w, w, tape, 1)
			s.Hall.Shape.(*set.Hall).Stations = []set.Station{{Name: "A", At: pt(-3000, 0)}, {Name: "B", At: pt(3000, 0)}}
			b.Run(fmt.Sprintf("%d points, tape %v", n, tape), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					Lay(s)
				}
			})
		}
	}
}
