package pdf_test

import (
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/pdf"
	"markout/tiling"
)

func BenchmarkWrite(b *testing.B) {
	for _, size := range [][3]int{{20, 12, 400}, {60, 40, 4000}} {
		doc := newRings(size[0], size[1], size[2]).document()
		b.Run(fmt.Sprintf("rings=%d", size[2]), func(b *testing.B) {
			b.ReportAllocs()
			var stats pdf.Stats
			for b.Loop() {
				var err error
				stats, err = pdf.Write(io.Discard, doc, pdf.Options{Workers: 1})
				require.NoError(b, err)
			}
			b.ReportMetric(float64(stats.Bytes)/float64(stats.Pages), "bytes/page")
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*stats.Pages), "µs/page")
		})
	}
}

// The page's making alone, to tell what the writer adds.
func BenchmarkMakeAlone(b *testing.B) {
	doc := newRings(20, 12, 400).document()
	for b.Loop() {
		var page tiling.Page
		for i := range doc.Pages {
			page.Reset()
			doc.Make(i, &page)
		}
	}
}
