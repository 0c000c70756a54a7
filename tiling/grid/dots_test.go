package grid_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/paper"
)

// dotted is pounce dots of 2 mm along the lines of a net, one every 12.5 mm, so that many lie on seams wherever those are.
func dotted(w, h float64) *drawing.Drawing {
	d := &drawing.Drawing{View: "artwork", Name: "harbour", Title: "harbour", Owners: []string{"harbour"}}
	dot := func(x, y float64) {
		d.Fills = append(d.Fills, drawing.Fill{
			Mark: drawing.Mark{Layer: drawing.Cut}, Region: geom.Region{Outer: geom.Circle(2).Transform(geom.Move(geom.Point{X: x, Y: y}, 0))},
		})
	}
	for x := 0.0; x <= w; x += 12.5 {
		for y := 0.0; y <= h; y += 125 {
			dot(x, y)
		}
	}
	for y := 12.5; y <= h; y += 12.5 {
		for x := 0.0; x <= w; x += 125 {
			dot(x, y)
		}
	}
	return d
}

// Every dot is whole on a page that laps over the next; with butt edges every page that it lies on draws it.
func TestDotsAreKeptAtSeams(t *testing.T) {
	for _, name := range []string{"A4", "A3", "roll 914"} {
		for _, lap := range []float64{0, 10} {
			d := dotted(1500, 900)
			plan := planOf(t, name, lap, d)
			doc, entries := plan.Document(), plan.Entries()
			var p tiling.Page
			var drawn [][]geom.Point // middles of the dots on each page, in the view's millimetres
			for _, e := range entries {
				p.Reset()
				doc.Make(e.Page-1, &p)
				var at []geom.Point
				for _, f := range p.Layers[drawing.Cut].Fills {
					b := geom.EmptyRect()
					for _, q := range f.Rings[0] {
						b = b.Include(q)
					}
					require.InDelta(t, 2, b.W(), 0.02)
					at = append(at, b.Mid().Add(geom.Point{X: e.Origin[0] - p.Clip.Min.X, Y: e.Origin[1] - p.Clip.Min.Y}))
				}
				drawn = append(drawn, at)
			}
			for i := range d.Fills {
				b := d.Fills[i].Region.Bounds()
				whole := false
				for k, e := range entries {
					o := geom.Point{X: e.Origin[0], Y: e.Origin[1]}
					window := geom.Rect{Min: o, Max: o.Add(geom.Point{X: e.Size[0], Y: e.Size[1]})}
					shown := b.Common(window)
					if shown.W() < 0.1 || shown.H() < 0.1 {
						continue
					}
					has := false
					for _, q := range drawn[k] {
						has = has || q.Dist(b.Mid()) < 0.02
					}
					require.True(t, has, "%s lap %g: page %s does not draw the dot at %v", name, lap, e.Label, b.Mid())
					whole = whole || window.Contains(b.Min) && window.Contains(b.Max)
				}
				require.True(t, whole || lap == 0, "%s lap %g: the dot at %v is whole on no page", name, lap, b.Mid())
			}
		}
	}
}

func TestArtworkSameBytesWithAnyWorkers(t *testing.T) {
	var one, three bytes.Buffer
	for out, workers := range map[*bytes.Buffer]int{&one: 1, &three: 3} {
		p, err := paper.Parse("A3")
		require.NoError(t, err)
		plan, err := grid.Build([]*drawing.Drawing{cloth(3, 2, 200), dotted(600, 600)}, info,
			grid.Options{Paper: p, Margins: paper.Margins{Left: 10, Right: 10, Bottom: 10, Top: 10}, Lap: 10})
		require.NoError(t, err)
		_, err = pdf.Write(out, plan.Document(), pdf.Options{Workers: workers})
		require.NoError(t, err)
	}
	require.Equal(t, one.Bytes(), three.Bytes())
}

func BenchmarkDots(b *testing.B) {
	d := dotted(4000, 4000)
	opt := options(b, "A3")
	for b.Loop() {
		p := build(b, info, opt, d)
		doc := p.Document()
		var page tiling.Page
		for i := range doc.Pages {
			page.Reset()
			doc.Make(i, &page)
		}
		b.ReportMetric(float64(len(d.Fills)), "dots")
		b.ReportMetric(float64(p.Count()), "pages")
	}
}
