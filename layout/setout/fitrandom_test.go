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

// fitScene is a hall, convex or an L, with pillars or without, and a few pieces in it.
func fitScene(rnd *rand.Rand, pieces int) *set.Set {
	o := rect(2500+rnd.Float64()*1500, 2500+rnd.Float64()*1500)
	if rnd.IntN(3) == 0 {
		o = moved(corner(3000+rnd.Float64()*1500, 1500+rnd.Float64()*1000), -1500, -1500)
	}
	var pillars []set.Outline
	for range rnd.IntN(3) {
		p := rect(300, 500)
		if rnd.IntN(2) == 0 {
			p = circle(400)
		}
		pillars = append(pillars, moved(p, rnd.Float64()*3000-1500, rnd.Float64()*3000-1500))
	}
	s := fitSet(hallOf(o, pillars...))
	spread := 500 + rnd.Float64()*2000
	for i := range pieces {
		p := rect(300+rnd.Float64()*1500, 300+rnd.Float64()*800)
		if rnd.IntN(3) == 0 {
			p = circle(100 + rnd.Float64()*900)
		}
		e := deckOf(p, (rnd.Float64()-0.5)*spread, (rnd.Float64()-0.5)*spread, rnd.Float64()*360)
		e.Name = fmt.Sprintf("piece%d", i)
		s.Elements = append(s.Elements, e)
	}
	return s
}

// fitApart is how far the set, moved by m, is from walls and pillars, by the general distance of areas; −1 where it is not free of
// them. Once it is less than enough, how much less is not looked for.
func fitApart(s *set.Set, m geom.Isometry, enough float64) float64 {
	h := s.Hall.Shape.(*set.Hall)
	ring := h.Outline.Path.Vertices()
	d := math.Inf(1)
	for _, b := range bodies(s) {
		if b.element == s.Hall {
			continue
		}
		for _, r := range b.regions {
			r = r.Transform(m)
			if !h.Outline.Path.Contains(r.Outer.Start()) {
				return -1
			}
			for i, p := range ring {
				wall := geom.NewPath(p)
				wall.LineTo(ring[(i+1)%len(ring)])
				x, _, _ := geom.Distance(geom.Region{Outer: wall}, r)
				if d = min(d, x); d < enough {
					return d
				}
			}
			for _, p := range h.Pillars {
				x, _, _ := geom.Distance(geom.Region{Outer: p.Outline.Path}, r)
				d = min(d, x)
			}
		}
	}
	if d == 0 {
		return -1
	}
	return d
}

// What is said to fit does, by another way of measuring; and what a coarse search over turns and shifts finds is never denied, nor
// found at a lesser turn or, at that turn, with a lesser shift.
func TestFitAgainstABruteSearch(t *testing.T) {
	const n = 60
	fits, turned, not := 0, 0, 0
	for seed := range uint64(n) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		s := fitScene(rnd, 1+rnd.IntN(5))
		const margin = 100.0
		got := FitHall(s, margin)
		if got.Fits {
			m := geom.Move(geom.Point{}, got.Turn)
			m.T = got.Shift
			require.GreaterOrEqual(t, fitApart(s, m, 0), margin-0.1, "seed %d: %+v", seed, got)
			require.InDelta(t, fitApart(s, m, 0), got.Clear, 0.1)
		}
		switch {
		case !got.Fits:
			not++
		case got.Turn != 0:
			turned++
		default:
			fits++
		}
		for range 300 {
			turn := math.Round(rnd.Float64()*3600-1800) / 10
			if rnd.IntN(2) == 0 {
				turn = got.Turn
			}
			m := geom.Move(geom.Point{}, turn)
			m.T = pt(rnd.Float64()*3000-1500, rnd.Float64()*3000-1500)
			if got.Fits && rnd.IntN(2) == 0 {
				m.T = got.Shift.Mul(rnd.Float64()).Add(pt(rnd.Float64()*200-100, rnd.Float64()*200-100))
			}
			if got.Fits && (math.Abs(turn) > math.Abs(got.Turn)+1e-9 || math.Abs(turn) > math.Abs(got.Turn)-1e-9 && m.T.Len() > got.Shift.Len()-3) {
				continue
			}
			require.Less(t, fitApart(s, m, margin), margin, "seed %d: at %g° and %v: %+v", seed, turn, m.T, got)
		}
	}
	t.Log(fits, "as they are turned,", turned, "turned,", not, "not")
	require.Positive(t, min(fits, turned, not))
}

func TestFitSaysTheSameTwice(t *testing.T) {
	for seed := range uint64(6) {
		make := func() *set.Set { return fitScene(rand.New(rand.NewPCG(seed, 9)), 12) }
		require.Equal(t, FitHall(make(), 100), FitHall(make(), 100))
	}
}

func BenchmarkFit(b *testing.B) {
	for _, n := range []int{300, 20_000} {
		for name, room := range map[string]*set.Element{
			"rect":    hallOf(rect(30000, 26000)),
			"round":   hallOf(circle(34000)),
			"pillars": hallOf(rect(30000, 26000), moved(circle(400), 4000, 3000), moved(circle(400), -4000, 3000)),
			"L":       hallOf(moved(corner(36000, 28000), -16000, -16000)),
			"small":   hallOf(rect(22000, 17000), moved(circle(400), 4000, 3000)),
		} {
			b.Run(fmt.Sprint(name, n), func(b *testing.B) {
				s := scattered(n, 24000, 16000, 0, 1)
				s.Elements[0], s.Hall = room, room
				for b.Loop() {
					f := FitHall(s, 100)
					b.ReportMetric(f.Clear, "mm")
				}
			})
		}
	}
}
