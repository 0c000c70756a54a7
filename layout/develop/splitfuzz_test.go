package develop_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

// Whatever is cut is all there, fits, and meets at its seams; what cannot be cut stays as it is.
func FuzzSplit(f *testing.F) {
	f.Add(uint64(1), 9000.0, 450.0, 25.0, 1.5, 190.0, 277.0)
	f.Add(uint64(2), 20000.0, 900.0, 10.0, 0.3, 277.0, 190.0)
	f.Add(uint64(3), 5000.0, 300.0, 1.0, 5.0, 2440.0, 1220.0)
	f.Add(uint64(4), 6000.0, 100.0, 24.0, 1.0, 60.0, 90.0)
	f.Fuzz(func(t *testing.T, seed uint64, across, height, scale, card, w, h float64) {
		for _, x := range []float64{across, height, scale, card, w, h} {
			if !(x > 0.01 && x < 1e5) {
				return
			}
		}
		rnd := rand.New(rand.NewPCG(seed, 1))
		pts := make([]geom.Point, 3+rnd.IntN(9))
		for i := range pts {
			pts[i] = geom.Polar(across/2*(0.5+0.5*rnd.Float64()), 2*math.Pi*float64(i)/float64(len(pts)))
		}
		var o set.Outline
		o.Path = geom.Polygon(pts)
		if rnd.IntN(4) == 0 {
			o = set.Outline{Form: "circle", Path: geom.Circle(across)}
		}
		var shape set.Shape = &set.Platform{Outline: o, Height: height, Closed: rnd.IntN(2) == 0}
		if rnd.IntN(4) == 0 {
			in := set.Outline{Form: "circle", Path: geom.Circle(across * 0.4)}
			shape = &set.Ring{Outer: o, Inner: &in, Height: height}
		}
		e := &set.Element{Name: "e", Kind: "platform", Shape: shape, Copies: []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Identity()}}}}}
		whole, list := develop.Develop(&set.Set{Elements: []*set.Element{e}}, develop.Options{Scale: scale, Card: card, PrintOutside: rnd.IntN(2) == 0})
		if list.HasErrors() {
			return
		}
		m, list := develop.Split(whole, w, h, 0)
		if !list.HasErrors() {
			requireSplit(t, whole, m, w, h)
		}
	})
}
