package grid_test

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/render/pdf"
	"markout/tiling"
	"markout/tiling/grid"
)

// The load: 20 × 12 m with 400 rings of 64 corners on A3, about two thousand pages.

func BenchmarkBuild(b *testing.B) {
	d := rings(20, 12, 400)
	opt := options(b, "A3")
	b.ReportAllocs()
	for b.Loop() {
		p := build(b, info, opt, d)
		b.ReportMetric(float64(p.Count()), "pages")
	}
}

func BenchmarkMake(b *testing.B) {
	p := build(b, info, options(b, "A3"), rings(20, 12, 400))
	doc := p.Document()
	var page tiling.Page
	b.ReportAllocs()
	i := 1
	for b.Loop() {
		page.Reset()
		doc.Make(i, &page)
		if i++; i == doc.Pages {
			i = 1
		}
	}
}

func BenchmarkBuildAndWrite(b *testing.B) {
	d := rings(20, 12, 400)
	opt := options(b, "A3")
	for b.Loop() {
		p, err := grid.Build([]*drawing.Drawing{d}, info, opt)
		require.NoError(b, err)
		st, err := pdf.Write(io.Discard, p.Document(), pdf.Options{Workers: 1})
		require.NoError(b, err)
		b.ReportMetric(float64(st.Bytes)/float64(st.Pages), "B/page")
	}
}

func BenchmarkWords(b *testing.B) {
	p := build(b, info, options(b, "A3"), rings(20, 12, 400))
	for b.Loop() {
		p.Words()
	}
}

// A grid that stays where it was is laid no slower than anew, each with the register's digests.
func BenchmarkKeptGrid(b *testing.B) {
	d := rings(20, 12, 400)
	opt := options(b, "A3")
	kept := earlier(b, opt, build(b, info, opt, d), "A")
	for _, k := range []struct {
		name string
		opt  grid.Options
	}{{"anew", opt}, {"kept", kept}} {
		b.Run(k.name, func(b *testing.B) {
			for b.Loop() {
				build(b, info, k.opt, d).Entries()
			}
		})
	}
}
