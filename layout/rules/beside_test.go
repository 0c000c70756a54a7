package rules

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/solid"
)

// Along an edge, what meets says is what a look at each place of the strip says: at u the area comes into the strip where
// some place of the line across the strip at u lies in it.
func TestMeetsAgreesWithALookAtEachPlace(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 9))
	for trial := range 200 {
		var pts []geom.Point
		n := 3 + rnd.IntN(9)
		for k := range n {
			pts = append(pts, geom.Polar(100+400*rnd.Float64(), 2*math.Pi*float64(k)/float64(n)).Add(geom.Point{X: 300, Y: -150}))
		}
		path := geom.Polygon(pts)
		e := newSide(geom.Point{X: 20 * rnd.Float64()}, geom.Point{X: 600 + 100*rnd.Float64(), Y: 200*rnd.Float64() - 100})
		v0, v1 := -100*rnd.Float64(), 5+100*rnd.Float64()
		found := e.meets([][]geom.Point{solid.Turned(path.Flatten(solid.Flatness, nil), false)}, v0, v1, nil)
		for range 60 {
			u := e.length * rnd.Float64()
			want, near := false, false
			for v := v0; v <= v1; v += 0.25 {
				want = want || path.Contains(e.at(u).Add(e.out.Mul(v)))
			}
			got := false
			for _, iv := range found {
				got = got || u >= iv.from && u <= iv.to
				near = near || math.Abs(u-iv.from) < 1 || math.Abs(u-iv.to) < 1
			}
			if !near {
				require.Equal(t, want, got, "trial %d at %g", trial, u)
			}
		}
	}
}

// many is a floor of n platforms in rows, each with a flight, a wall and a post.
func many(n int) *set.Set {
	var list []*set.Element
	for i := range n / 4 {
		x, y := float64(i%100)*4000, float64(i/100)*6000
		name := func(s string) string { return fmt.Sprintf("%s%d", s, i) }
		list = append(list,
			element(name("deck"), deckOf(3000, 2000, 600), place(x, y, 0, 0)),
			element(name("steps"), even(4, 150, 280), place(x, y-1000-840, 0, 0)),
			element(name("wall"), &set.Flat{Length: 3000, Height: 2400, Thickness: 45}, place(x-1500, y+1000, 0, 0)),
			element(name("post"), &set.Post{Outline: circle(89), Diameter: 89, Height: 2400}, place(x, y, 600, 0)))
	}
	return of(list...)
}

func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{2500, 5000, 10000, 20000} {
		s := many(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Check(s)
			}
		})
	}
}

// rings is a floor of n kerbs, each drawn by 64 corners.
func rings(n int) *set.Set {
	rnd := rand.New(rand.NewPCG(3, 4))
	var list []*set.Element
	for i := range n {
		pts := make([]geom.Point, 64)
		for k := range pts {
			pts[k] = geom.Polar(300+600*float64(i%7)/7, 2*math.Pi*float64(k)/64)
		}
		outer := set.Outline{Form: "points", Path: geom.Polygon(pts)}
		list = append(list, element(fmt.Sprint("ring", i), &set.Ring{Outer: outer, Height: 100},
			place(rnd.Float64()*20000, rnd.Float64()*12000, 0, 0)))
	}
	return of(list...)
}

func BenchmarkRings(b *testing.B) {
	s := rings(400)
	b.ReportAllocs()
	for b.Loop() {
		Check(s)
	}
}
