package figures

import (
	"math"
	"testing"

	"markout/layout/geom"
)

// BenchmarkThinParts looks at a bird with a ragged outline of 400 curves, 1780 high.
func BenchmarkThinParts(b *testing.B) {
	const n = 400
	at := func(i int) geom.Point {
		a := 2 * math.Pi * float64(i%n) / n
		return geom.Polar(600+200*math.Sin(5*a)+float64(i%2)*25, a).Add(geom.Point{Y: 890})
	}
	p := geom.NewPath(at(0))
	for i := range n {
		from, to := at(i), at(i+1)
		off := to.Sub(from).Left().Mul(0.3)
		p.CubicTo(from.Lerp(to, 0.3).Add(off), from.Lerp(to, 0.7).Sub(off), to)
	}
	p.Close()
	r := geom.Region{Outer: p}
	for b.Loop() {
		ThinParts(r, 30)
	}
}
