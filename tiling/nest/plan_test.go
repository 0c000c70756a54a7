package nest_test

import (
	"testing"

	overlay "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling/nest"
)

// polygon writes an area laid at its place for the overlay library.
func polygon(t testing.TB, r geom.Region, m geom.Isometry) overlay.Geometry {
	rings := make([]overlay.LineString, 0, 1+len(r.Holes))
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		var xy []float64
		pts := p.Transform(m).Flatten(1e-4, nil)
		for _, q := range append(pts, pts[0]) {
			xy = append(xy, q.X, q.Y)
		}
		rings = append(rings, overlay.NewLineString(overlay.NewSequence(xy, overlay.DimXY)))
	}
	return overlay.NewPolygon(rings).AsGeometry()
}

// requireSound holds a plan to all that a plan promises: every piece is laid once at an allowed turn, inside its sheet with the
// gap to its edges, and no two overlap or are nearer than the gap. Overlaps are measured by another library.
func requireSound(t testing.TB, pieces []nest.Piece, sheets []nest.Sheet, opt nest.Options, plan *nest.Plan) {
	t.Helper()
	want := 0
	for _, p := range pieces {
		want += p.Count
	}
	require.Len(t, plan.Places, want)
	seen := map[[2]int]bool{}
	type put struct {
		g    overlay.Geometry
		box  geom.Rect
		size float64
		kept bool
	}
	on := make([][]put, len(plan.Sheets))
	length, area := make([]float64, len(plan.Sheets)), make([]float64, len(plan.Sheets))
	for i, at := range plan.Places {
		require.False(t, seen[[2]int{at.Piece, at.Copy}])
		seen[[2]int{at.Piece, at.Copy}] = true
		p := pieces[at.Piece]
		require.True(t, at.Copy >= 0 && at.Copy < p.Count)
		if len(p.Turns) > 0 {
			require.Contains(t, p.Turns, at.Turn)
		}
		m := geom.Move(geom.Point{X: at.X, Y: at.Y}, at.Turn)
		box := p.Outline.Transform(m).Bounds()
		size := box.W() + box.H()
		sheet := sheets[plan.Sheets[at.Sheet].Sheet]
		tol := 1e-6 * size
		require.GreaterOrEqual(t, box.Min.X, opt.Gap-tol)
		require.GreaterOrEqual(t, box.Min.Y, opt.Gap-tol)
		require.LessOrEqual(t, box.Max.Y, sheet.Height-opt.Gap+tol)
		if sheet.Width > 0 {
			require.LessOrEqual(t, box.Max.X, sheet.Width-opt.Gap+tol)
		}
		length[at.Sheet] = max(length[at.Sheet], box.Max.X+opt.Gap)
		area[at.Sheet] += p.Outline.Area()
		g := polygon(t, p.Outline, m)
		for _, o := range on[at.Sheet] {
			if !o.box.Grow(opt.Gap).Overlaps(box) {
				continue
			}
			small := 1e-6 * (size + o.size)
			if opt.Gap > 0 {
				d, ok := overlay.Distance(g, o.g)
				require.True(t, ok)
				require.GreaterOrEqual(t, d, opt.Gap-small-2e-4, "piece %d, place %d", at.Piece, i)
			}
			both, err := overlay.Intersection(g, o.g)
			require.NoError(t, err)
			require.LessOrEqual(t, both.Area(), small*(size+o.size), "piece %d, place %d", at.Piece, i)
		}
		on[at.Sheet] = append(on[at.Sheet], put{g: g, box: box, size: size})
	}
	counts := make([]int, len(sheets))
	for i, u := range plan.Sheets {
		counts[u.Sheet]++
		require.InDelta(t, length[i], u.Length, 1e-6*(1+length[i])+1e-3*geom.Flatness+opt.Gap*0.05+slackOfCurves(pieces))
		require.InDelta(t, area[i], u.Area, 1e-9*(1+area[i]))
	}
	for i, s := range sheets {
		if s.Count > 0 {
			require.LessOrEqual(t, counts[i], s.Count)
		}
	}
}

// slackOfCurves is how far outlines with curves may be taken to reach further than they do.
func slackOfCurves(pieces []nest.Piece) float64 {
	d := 0.0
	for _, p := range pieces {
		for _, path := range append([]*geom.Path{p.Outline.Outer}, p.Outline.Holes...) {
			if !path.Straight() {
				d = max(d, 0.01*(path.Bounds().W()+path.Bounds().H()))
			}
		}
	}
	return d
}
