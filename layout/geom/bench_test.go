package geom

import (
	"math"
	"testing"
)

// coast is a closed outline of n straight segments that does not cross itself.
func coast(n int) *Path {
	r := seeded(20)
	pts := make([]Point, n)
	for i := range pts {
		pts[i] = Polar(5000+200*math.Sin(float64(i)/9)+2*r.Float64(), 2*math.Pi*float64(i)/float64(n))
	}
	return Polygon(pts)
}

// comb is a closed outline of about n segments with long teeth, so that most of its box is criss-crossed.
func comb(n int) *Path {
	p := NewPath(Point{0, -10})
	p.LineTo(Point{float64(n), -10})
	for i := n / 4; i > 0; i-- {
		x := 4 * float64(i)
		p.LineTo(Point{x, 0})
		p.LineTo(Point{x, 9000})
		p.LineTo(Point{x - 2, 9000})
		p.LineTo(Point{x - 2, 0})
	}
	p.Close()
	return p
}

func BenchmarkFlattenPoints(b *testing.B) {
	p := coast(10_000)
	var dst []Point
	b.ReportAllocs()
	for b.Loop() {
		dst = p.Flatten(Flatness, dst[:0])
	}
}

func BenchmarkFlattenCurves(b *testing.B) {
	p := randomPath(seeded(21), 1000)
	var dst []Point
	b.ReportAllocs()
	for b.Loop() {
		dst = p.Flatten(Flatness, dst[:0])
	}
	b.ReportMetric(float64(len(dst)), "points")
}

func BenchmarkFrontEdge(b *testing.B) {
	p := coast(10_000)
	b.ReportAllocs()
	for b.Loop() {
		FrontEdge(p)
	}
}

func BenchmarkFrontEdge64(b *testing.B) {
	p := coast(64)
	b.ReportAllocs()
	for b.Loop() {
		FrontEdge(p)
	}
}

func BenchmarkSelfCrossing(b *testing.B) {
	for name, p := range map[string]*Path{"coast": coast(10_000), "comb": comb(10_000)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, _, _, crosses := p.SelfCrossing(); crosses {
					b.Fatal("it does not cross itself")
				}
			}
		})
	}
}

func BenchmarkContains(b *testing.B) {
	p := coast(10_000)
	for b.Loop() {
		p.Contains(Point{100, 100})
	}
}

func BenchmarkDistance(b *testing.B) {
	p, q := Region{Outer: coast(10_000)}, Region{Outer: coast(10_000).Transform(Move(Point{12000, 500}, 30))}
	b.ReportAllocs()
	for b.Loop() {
		Distance(p, q)
	}
}

func BenchmarkParsePathData(b *testing.B) {
	d := pathData([]*Path{randomPath(seeded(22), 1000)})
	b.SetBytes(int64(len(d)))
	for b.Loop() {
		if _, err := ParsePathData(d); err != nil {
			b.Fatal(err)
		}
	}
}
