package reread_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// onePage is a PDF of one page, 300 × 300 points, with the given content.
func onePage(content string) []byte {
	var b bytes.Buffer
	var at []int
	b.WriteString("%PDF-1.4\n")
	for i, o := range []string{
		"<</Type/Catalog/Pages 2 0 R>>", "<</Type/Pages/Kids[3 0 R]/Count 1>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 300 300]/Contents 4 0 R/Resources<<>>>>",
		fmt.Sprintf("<</Length %d>>stream\n%s\nendstream", len(content), content),
	} {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, start)
	return b.Bytes()
}

const point = 25.4 / 72

// The box of a curve is where it turns back, which no end and no handle tells; colours and pictures do not stop the reading.
func TestExtentOfCurves(t *testing.T) {
	reread.Need(t, "mutool", "pdftoppm", "pdfimages")
	file := reread.Write(t, "one.pdf", onePage(
		"1 0 0 RG 2 w 100 100 m 100 200 200 200 200 100 c S\n"+ // its top is at 175: three quarters of the handles' height
			"0.2 0.4 0.6 rg 20 20 30 40 re f\n"+
			"q 72 0 0 36 200 10 cm BI /W 2 /H 1 /BPC 8 /CS /G ID ab EI Q"))
	p := reread.Trace(t, file, "1")[0]
	require.Len(t, p.Paths, 2)
	arch := p.Extent("", func(q reread.Path) bool { return !q.Filled })
	require.InDelta(t, 100*point, arch.Min.X, 1e-4)
	require.InDelta(t, 200*point, arch.Max.X, 1e-4)
	require.InDelta(t, 175*point, arch.Max.Y, 1e-4)
	require.InDelta(t, 75*point, arch.H(), 1e-4)
	require.InDeltaSlice(t, []float64{0.2, 0.4, 0.6}, p.Paths[1].Colour, 1e-3)
	require.Len(t, p.Images, 1)
	require.Equal(t, 2, p.Images[0].W)
	require.InDelta(t, 72*point, p.Images[0].Box.W(), 1e-4)
	require.InDelta(t, 10*point, p.Images[0].Box.Min.Y, 1e-4)

	const dpi = 300
	painted := reread.Painted(reread.Raster(t, file, 1, dpi), dpi, 200, reread.Box{Min: reread.Point{X: 30, Y: 30}, Max: reread.Point{X: 80, Y: 80}})
	require.InDelta(t, 176*point, painted.Max.Y, 25.4/dpi, "half the pen above the curve")
	require.InDelta(t, 99*point, painted.Min.X, 25.4/dpi)
	colours := reread.RasterColour(t, file, 1, 72)
	require.Equal(t, []uint8{51, 102, 153, 255}, colours.Pix[colours.PixOffset(30, 260):][:4])

	list := reread.ReadImages(t, file)
	require.Len(t, list, 1)
	require.Equal(t, [2]int{2, 1}, [2]int{list[0].W, list[0].H})
	require.Len(t, reread.ExtractImages(t, file, 1, 1), 1)
}
