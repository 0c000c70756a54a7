package notation

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"markout/layout/diag"
)

// rings is a set of n outlines of 64 points.
func rings(n int) []byte {
	var out strings.Builder
	out.WriteString("set \"Rings\"\n    production \"Low Tide\"\n    units      mm\n")
	for i := range n {
		r := float64(300 + i*7%601)
		fmt.Fprintf(&out, "\nplatform r%d\n    at       %d, %d\n    outline  points", i, i*37%20000, i*91%12000)
		for k := range 64 {
			t := 2 * math.Pi * float64(k) / 64
			fmt.Fprintf(&out, "  %.3f,%.3f", r*math.Cos(t), r*math.Sin(t))
		}
		out.WriteString("\n    height   100\n    full-size floor\n")
	}
	return []byte(out.String())
}

func benchmarkParse(b *testing.B, text []byte) {
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		list := &diag.List{Sources: &diag.Sources{}}
		Parse(list.Sources.Add("a", text), "a", text, sampleKinds, list)
		if list.HasErrors() {
			b.Fatal(said(list)[0])
		}
	}
}

func BenchmarkParse400Outlines(b *testing.B)  { benchmarkParse(b, rings(400)) }
func BenchmarkParse4000Outlines(b *testing.B) { benchmarkParse(b, rings(4000)) }

// Many small statements, as a set without drawn outlines is.
func BenchmarkParsePosts(b *testing.B) {
	var out strings.Builder
	for i := range 20_000 {
		fmt.Fprintf(&out, "\npost p%d\n    at       %d, 3 * rise + 5  # here\n    diameter 60\n    height   deck.top\n", i, i)
	}
	benchmarkParse(b, []byte(out.String()))
}

func BenchmarkFormat400Outlines(b *testing.B) {
	text := rings(400)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		Format("a", text, sampleKinds)
	}
}
