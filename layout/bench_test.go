package layout_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"markout/layout"
)

// manyPieces is a set of n pieces that lean on one another in short chains.
func manyPieces(n int) string {
	var b strings.Builder
	b.WriteString("let rise = 150mm\n")
	for i := 0; i < n; i += 4 {
		x, y := (i/4)%70*3000-105000, (i/4)/70*3000
		fmt.Fprintf(&b, "platform d%d\n    outline rect 1200 x 900\n    at %d, %d\n    height 3 * rise\n", i, x, y)
		fmt.Fprintf(&b, "steps s%d\n    meets d%d.front\n    risers 3\n    going 300\n    width 900\n", i, i)
		fmt.Fprintf(&b, "post p%d\n    on d%d at centre + (10, 20)\n    diameter 60\n    height d%d.height\n", i, i, i)
		fmt.Fprintf(&b, "mark m%d\n    point d%d.corner(2)\n", i, i)
	}
	return b.String()
}

// manyRings is n solid rings of 64 literal points, all wanted full size.
func manyRings(n int) string {
	var b strings.Builder
	b.WriteString("set \"Rings\"\nhall floor\n    outline rect 60000 x 40000\n    at 0, 20000\n")
	for i := range n {
		fmt.Fprintf(&b, "ring r%d\n    at %d, %d\n    outer points", i, i*37%19000-9500, i*91%11000)
		for k := range 64 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / 64)
			fmt.Fprintf(&b, " %.3f,%.3f", c*float64(300+i%600), s*float64(300+i%600))
		}
		b.WriteString("\n    height 100\n    full-size floor\n")
	}
	return b.String()
}

func benchmarkOpen(b *testing.B, text string) {
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, list := layout.Open(texts{"m": text}, "m", layout.Options{}); list.HasErrors() {
			b.Fatal(printed(list))
		}
	}
}

func BenchmarkPieces5000(b *testing.B)  { benchmarkOpen(b, manyPieces(5000)) }
func BenchmarkPieces10000(b *testing.B) { benchmarkOpen(b, manyPieces(10000)) }
func BenchmarkPieces20000(b *testing.B) { benchmarkOpen(b, manyPieces(20000)) }
func BenchmarkRings400(b *testing.B)    { benchmarkOpen(b, manyRings(400)) }
func BenchmarkRings4000(b *testing.B)   { benchmarkOpen(b, manyRings(4000)) }
