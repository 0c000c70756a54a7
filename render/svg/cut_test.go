package svg_test

import (
	"bytes"
	"image/png"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/reread"
	"markout/render/svg"
	"markout/tiling"
)

// curvedSheet has a piece of every kind of curve, and one with an opening and a fold.
func curvedSheet() *tiling.CutSheet {
	curved := geom.NewPath(pt(20, 20))
	curved.LineTo(pt(60, 20))
	curved.ArcTo(pt(60, 35), math.Pi, pt(60, 50)) // half a circle
	curved.CubicTo(pt(50, 70), pt(35, 70), pt(30, 55))
	curved.EllipseTo(pt(30, 40), 20, 15, 0, math.Pi/2, math.Pi/2, pt(10, 40))
	curved.Close()
	fold := geom.NewPath(pt(120, 25))
	fold.LineTo(pt(120, 75))
	s := &tiling.CutSheet{W: 210, H: 148, Label: "model 1", Pieces: []tiling.CutPiece{
		{Name: "roof-1/2", Cut: []*geom.Path{curved}, Pen: tiling.CutPen},
		{
			Name: "front & back-2/2", Pen: tiling.CutPen,
			Cut:   []*geom.Path{geom.Polygon([]geom.Point{pt(90, 20), pt(180, 20), pt(180, 80), pt(90, 80)}), geom.Circle(20).Transform(geom.Move(pt(150, 50), 0))},
			Folds: []tiling.PathLine{{Path: fold, Pen: tiling.PenOf(drawing.Dashed, drawing.NarrowLine, drawing.Black)}},
			Lines: []tiling.PathLine{{Path: fold.Transform(geom.Move(pt(10, 0), 0)), Pen: tiling.Thin}},
		},
	}}
	s.Pieces[1].Notes.Write(pt(100, 40), 3.5, false, "J3 to 1: tab")
	s.Registration.Line(nil, tiling.Thin, 10, 5, 110, 5)
	return s
}

func writeCut(t testing.TB, s *tiling.CutSheet) string {
	var b bytes.Buffer
	require.NoError(t, svg.WriteCut(&b, s))
	return b.String()
}

func TestCutSheet(t *testing.T) {
	text := writeCut(t, curvedSheet())
	require.Equal(t, text, writeCut(t, curvedSheet()))
	require.Equal(t, []string{"notes", "registration", "fold", "cut"}, groups(t, text))
	require.Contains(t, text, `width="210mm" height="148mm" viewBox="0 0 210 148"`)
	require.Equal(t, 1, strings.Count(text, `<g data-piece="roof-1/2">`), "each piece is one group")
	require.Equal(t, 1, strings.Count(text, `<g data-piece="front &amp; back-2/2">`))
	for _, colour := range regexp.MustCompile(`#[0-9a-f]+"`).FindAllString(text, -1) {
		require.Equal(t, `#000"`, colour)
	}
	require.NotContains(t, text, "opacity")
	for _, empty := range []*tiling.CutSheet{{W: 10, H: 10}} {
		require.Equal(t, []string{"notes", "registration", "fold", "cut"}, groups(t, writeCut(t, empty)))
	}
}

// What a cutting program reads is the same outline: arcs stay arcs and cubics cubics, its length and its area are the piece's. An
// outline read back is y down.
func TestCurvesStayCurves(t *testing.T) {
	s := curvedSheet()
	text := writeCut(t, s)
	cut := text[strings.Index(text, `<g id="cut">`):]
	data := regexp.MustCompile(` d="([^"]+)"`).FindAllStringSubmatch(cut, -1)
	require.Len(t, data, 3)
	kinds := map[geom.SegmentKind]int{}
	wanted := []*geom.Path{s.Pieces[0].Cut[0], s.Pieces[1].Cut[1], s.Pieces[1].Cut[0]} // openings first
	for i, d := range data {
		paths, err := geom.ParsePathData(d[1])
		require.NoError(t, err)
		require.Len(t, paths, 1)
		require.True(t, paths[0].Closed())
		require.InDelta(t, wanted[i].Length(), paths[0].Length(), 0.01)
		require.InDelta(t, math.Abs(wanted[i].Area()), math.Abs(paths[0].Area()), 0.1)
		for _, seg := range paths[0].Segments() {
			kinds[seg.Kind]++
		}
	}
	require.Equal(t, 1, kinds[geom.Cubic])
	require.Equal(t, 1, kinds[geom.EllipticalArc])
	require.Equal(t, 6, kinds[geom.Arc], "half circles are written in two")
	require.Regexp(t, `A15 15 0 0 0 `, cut)
	require.Regexp(t, `C50 78 35 78 30 93`, cut)
}

// The sheet for a machine and the page for eyes are the same picture.
func TestCutSheetIsThePage(t *testing.T) {
	reread.Need(t, "rsvg-convert")
	s := curvedSheet()
	for i := range s.Pieces {
		s.Pieces[i].Notes.Texts = nil
	}
	p := &tiling.Page{}
	p.Reset()
	s.Draw(p)
	const perMillimetre = 6
	draw := func(text string) (ink int, dark func(x, y int) bool) {
		img, err := png.Decode(bytes.NewReader(reread.RasterSVG(t, reread.Write(t, "page.svg", []byte(text)), perMillimetre)))
		require.NoError(t, err)
		dark = func(x, y int) bool { r, _, _, _ := img.At(x, y).RGBA(); return r < 0x8000 }
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				if dark(x, y) {
					ink++
				}
			}
		}
		return ink, dark
	}
	a, darkA := draw(writeCut(t, s))
	b, darkB := draw(write(t, p))
	require.Greater(t, a, 5000)
	require.InEpsilon(t, b, a, 0.02)
	far := 0
	for y := range 148 * perMillimetre {
		for x := range 210 * perMillimetre {
			if darkA(x, y) != darkB(x, y) {
				far++
			}
		}
	}
	require.Less(t, far, a/20)
}
