package grid_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/paper"
)

// box is a filled rectangle of a picture.
func box(x0, y0, x1, y1 float64, tone uint8) *artwork.Shape {
	return &artwork.Shape{
		Paths: []*geom.Path{geom.Polygon([]geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})},
		Fill:  &artwork.Fill{Paint: artwork.Paint{Colour: artwork.Colour{R: tone}, Opacity: 1}},
	}
}

// enlarged is a picture of 300 × 200 shown ten times as large, all but its edges of 5.
func enlarged(nodes ...artwork.Node) *drawing.Drawing {
	return &drawing.Drawing{
		View: "artwork", Name: "harbour", Title: "harbour", Owners: []string{"harbour"},
		Pictures: []drawing.Picture{{
			Mark: drawing.Mark{Layer: drawing.Notes}, Picture: &artwork.Picture{W: 300, H: 200, Nodes: nodes},
			Frame: artwork.Matrix{A: 10, D: 10, E: -1500}, Shown: geom.Rect{Min: geom.Point{X: -1450, Y: 50}, Max: geom.Point{X: 1450, Y: 1950}},
		}},
	}
}

func planOf(t testing.TB, name string, lap float64, d *drawing.Drawing) *grid.Plan {
	t.Helper()
	p, err := paper.Parse(name)
	require.NoError(t, err)
	plan, err := grid.Build([]*drawing.Drawing{d}, grid.Info{Set: "x"}, grid.Options{Paper: p, Margins: paper.Margins{Left: 10, Right: 10, Bottom: 10, Top: 10}, Lap: lap})
	require.NoError(t, err)
	return plan
}

// Every place of the artwork is on a page, at the place at which every page that shows it has it.
func TestArtworkIsCoveredByItsPages(t *testing.T) {
	for _, name := range []string{"A4", "A3", "roll 914"} {
		for _, lap := range []float64{0, 10} {
			plan := planOf(t, name, lap, enlarged(box(0, 0, 300, 200, 9)))
			doc, entries := plan.Document(), plan.Entries()
			require.Len(t, doc.Shows, len(entries), "%s %g", name, lap)
			covered := 0.0
			for x := -1449.5; x < 1450; x += 41.3 {
				for y := 50.5; y < 1950; y += 41.3 {
					n := 0
					for i, e := range entries {
						s := doc.Shows[i]
						at := s.Frame.Apply(geom.Point{X: (x + 1500) / 10, Y: y / 10})
						want := geom.Point{X: x - e.Origin[0], Y: y - e.Origin[1]}
						require.InDelta(t, want.X+10, at.X, 1e-9)
						require.InDelta(t, want.Y+10, at.Y, 1e-9)
						if s.Window.Contains(at) {
							n++
						}
					}
					require.Positive(t, n, "%s lap %g: %g, %g is on no page", name, lap, x, y)
					covered++
				}
			}
			require.Positive(t, covered)
			var p tiling.Page
			doc.Make(doc.Pages-1, &p)
			require.Len(t, p.Layers[drawing.Notes].Shows, 1)
			require.Same(t, doc.Shows[len(doc.Shows)-1], p.Layers[drawing.Notes].Shows[0])
		}
	}
}

// Where nothing is painted nothing is printed, and what is painted elsewhere changes no page.
func TestArtworkPagesAndDigests(t *testing.T) {
	whole := planOf(t, "A4", 10, enlarged(box(0, 0, 300, 200, 9)))
	corners := enlarged(box(10, 10, 20, 20, 9), box(280, 180, 290, 190, 9))
	plan := planOf(t, "A4", 10, corners)
	require.Less(t, plan.Count(), whole.Count()/4)
	before := digests(plan)
	moved := enlarged(box(10, 10, 20, 20, 9), box(281, 180, 290, 190, 9))
	after := digests(planOf(t, "A4", 10, moved))
	same, other := 0, 0
	for label, d := range before {
		if after[label] == d {
			same++
		} else {
			other++
		}
	}
	require.Positive(t, same)
	require.Positive(t, other)
	require.NotEqual(t, before, digests(planOf(t, "A4", 10, enlarged(box(10, 10, 20, 20, 8), box(280, 180, 290, 190, 9)))))
}

// A label says what side of a figure its page is of, whatever else is printed.
func TestLabelsOfFiguresAndCloths(t *testing.T) {
	first := func(views ...string) []string {
		var ds []*drawing.Drawing
		for _, v := range views {
			d := enlarged(box(0, 0, 10, 10, 9))
			d.View, d.Name = v, "pilot"
			ds = append(ds, d)
		}
		var out []string
		for _, e := range build(t, info, options(t, "A4"), ds...).Entries() {
			out = append(out, e.Label)
		}
		return out
	}
	require.Equal(t, []string{"pilot 1A", "pilot back 1A", "pilot head 1A"}, first("face", "back", "head"))
	require.Equal(t, []string{"pilot head 1A"}, first("head"))
	require.Equal(t, []string{"pilot 1A"}, first("artwork"))
}

// Where artwork leaves a little room, some of what a page says stands there and some over the artwork, and none on other words.
func TestLetteringOverArtworkDoesNotCollide(t *testing.T) {
	for _, bare := range []float64{40, 70, 100, 130} {
		d := enlarged(box(bare/10, 0, 20, 200, 9), box(30, 0, 300-bare/10, 190, 9))
		d.Name, d.Owners = "front", []string{"front"}
		keepsApart(t, read(t, build(t, careful(), options(t, "A4"), d)))
	}
}
