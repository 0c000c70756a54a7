package grid_test

import (
	"io"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/tiling"
	"markout/tiling/grid"
)

// cloth is w × h metres of artwork: a ground, ten bands across it, and n small things.
func cloth(w, h float64, n int) *drawing.Drawing {
	const wide = 900.0
	tall := wide * h / w
	r := rand.New(rand.NewPCG(7, 11))
	nodes := []artwork.Node{box(0, 0, wide, tall, 200)}
	for i := range 10 {
		y := tall * float64(i) / 10
		nodes = append(nodes, box(0, y, wide, y+tall/20, uint8(20*i)))
	}
	for range n {
		x, y, s := r.Float64()*wide, r.Float64()*tall, 1+r.Float64()*8
		nodes = append(nodes, box(x, y, x+s, y+s, uint8(r.IntN(256))))
	}
	k := w * 1000 / wide
	return &drawing.Drawing{
		View: "artwork", Name: "harbour", Title: "harbour", Owners: []string{"harbour"},
		Pictures: []drawing.Picture{{
			Mark: drawing.Mark{Layer: drawing.Notes}, Picture: &artwork.Picture{W: wide, H: tall, Nodes: nodes},
			Frame: artwork.Matrix{A: k, D: k, E: -w * 500}, Shown: geom.Rect{Min: geom.Point{X: -w * 500}, Max: geom.Point{X: w * 500, Y: h * 1000}},
		}},
	}
}

func benchmarkCloth(b *testing.B, w, h float64, n int) {
	d := cloth(w, h, n)
	opt := options(b, "A3")
	b.ReportAllocs()
	for b.Loop() {
		p := build(b, info, opt, d)
		p.Entries()
		doc := p.Document()
		var page tiling.Page
		for i := range doc.Pages {
			page.Reset()
			doc.Make(i, &page)
		}
		b.ReportMetric(float64(p.Count()), "pages")
	}
}

func BenchmarkArtworkOfACloth(b *testing.B)    { benchmarkCloth(b, 9, 5, 5000) }
func BenchmarkArtworkOfManyPages(b *testing.B) { benchmarkCloth(b, 60, 33, 5000) }

func BenchmarkArtworkBuild(b *testing.B) {
	d := cloth(60, 33, 5000)
	opt := options(b, "A3")
	b.ReportAllocs()
	for b.Loop() {
		build(b, info, opt, d).Words()
	}
}

func BenchmarkArtworkWrite(b *testing.B) {
	d := cloth(9, 5, 5000)
	opt := options(b, "A3")
	for b.Loop() {
		p, err := grid.Build([]*drawing.Drawing{d}, info, opt)
		require.NoError(b, err)
		st, err := pdf.Write(io.Discard, p.Document(), pdf.Options{Workers: 1})
		require.NoError(b, err)
		b.ReportMetric(float64(st.Bytes)/float64(st.Pages), "B/page")
	}
}
