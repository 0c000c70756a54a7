package grid_test

import (
	"encoding/json"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling/grid"
)

// A record that was edited by hand is refused in words, or no worse than laid anew.
func TestRecordThatCannotBe(t *testing.T) {
	d := slabs(slab(0, 0, 900, 700), slab(0, 2000, 900, 2500))
	record := func(name string) grid.GridRecord {
		var opt grid.Options
		opt = earlier(t, opt, build(t, info, options(t, name), d), "A")
		require.NoError(t, opt.Since[0].Check())
		return opt.Since[0]
	}
	for _, c := range []struct {
		paper string
		words string
		edit  func(r *grid.GridRecord)
	}{
		{"A4", "apart", func(r *grid.GridRecord) { r.Step[0] = 0 }},
		{"A4", "apart", func(r *grid.GridRecord) { r.Step[1] = math.NaN() }},
		{"A4", "apart", func(r *grid.GridRecord) { r.Step[1]++ }},
		{"A4", "too far away", func(r *grid.GridRecord) { r.Origin[0] = math.Inf(1) }},
		{"A4", "too far away", func(r *grid.GridRecord) { r.Origin[1] = math.NaN() }},
		{"A4", "too far away", func(r *grid.GridRecord) { r.Origin[1] = -1e12 }},
		{"A4", "no room", func(r *grid.GridRecord) { r.Margins[1] = 1e6 }},
		{"A4", "less than nothing", func(r *grid.GridRecord) { r.Margins[0] = -10 }},
		{"A4", "less than nothing", func(r *grid.GridRecord) { r.Margins[2] = math.NaN() }},
		{"A4", "larger than any", func(r *grid.GridRecord) { r.Size[0] = 1e9 }},
		{"A4", "no room", func(r *grid.GridRecord) { r.Size = [2]float64{} }},
		{"A4", "lap", func(r *grid.GridRecord) { r.Lap = -1 }},
		{"A4", "lap", func(r *grid.GridRecord) { r.Lap = 100 }},
		{"A4", "columns that have no names", func(r *grid.GridRecord) { r.Columns = nil }},
		{"A4", "columns that are out of order, or two of them share a name", func(r *grid.GridRecord) { r.Columns = append(r.Columns, [2]int{0, 2}) }},
		{"A4", "rows that are out of order, or two of them share a name", func(r *grid.GridRecord) { r.Rows = append(r.Rows, [2]int{100, 102}) }},
		{"A4", "rows that are too many", func(r *grid.GridRecord) { r.Rows = grid.Ruling{{0, math.MaxInt}} }},
		{"A4", "in no column or row", func(r *grid.GridRecord) { r.Pages[0][0] = 1 << 40 }},
		{"A4", "in no column or row", func(r *grid.GridRecord) { r.Pages[0][2] = 256 }},
		{"A4", "a name that none", func(r *grid.GridRecord) { r.Label = "wall" }},
		{"A4", "a name that none", func(r *grid.GridRecord) { r.View = "" }},
		{"roll 610", "apart", func(r *grid.GridRecord) { r.Step[1] = -1 }},
		{"roll 610", "neither along x nor along y", func(r *grid.GridRecord) { r.Roll.Along = "z" }},
		{"roll 610", "end where none can", func(r *grid.GridRecord) { r.Roll.Each = 0 }},
		{"roll 610", "end where none can", func(r *grid.GridRecord) { r.Roll.Each = 7 }},
		{"roll 610", "end where none can", func(r *grid.GridRecord) { r.Roll.Each = math.Inf(1) }},
		{"roll 610", "out of order or have no letter", func(r *grid.GridRecord) { r.Roll.Strips = append(r.Roll.Strips, r.Roll.Strips[0]) }},
		{"roll 610", "out of order or have no letter", func(r *grid.GridRecord) { r.Roll.Strips[0].Place = -1 << 60 }},
		{"roll 610", "with one number", func(r *grid.GridRecord) { r.Roll.Strips[0].Parts[0].Number = 0 }},
		{"roll 610", "with one number", func(r *grid.GridRecord) {
			r.Roll.Strips[0].Parts = append(r.Roll.Strips[0].Parts, r.Roll.Strips[0].Parts[0])
		}},
		{"roll 610", "cannot be", func(r *grid.GridRecord) { r.Roll.Strips[0].Parts[0].To = 1e8 }},
		{"roll 610", "cannot be", func(r *grid.GridRecord) { r.Roll.Strips[0].Parts[0].Near = -1 }},
		{"roll 610", "cannot be", func(r *grid.GridRecord) { r.Roll.Strips[0].Parts[0].Left = [][2]float64{{math.Inf(-1), 0}} }},
	} {
		r := record(c.paper)
		c.edit(&r)
		opt := options(t, c.paper)
		opt.Since = []grid.GridRecord{r}
		_, err := grid.Build([]*drawing.Drawing{d}, info, opt)
		require.ErrorContains(t, err, c.words)
		require.ErrorContains(t, err, "of the earlier issue")
	}
	// A grid so far away that nothing can be named from there is laid anew.
	r := record("A4")
	r.Origin = [2]float64{-9e8, 9e8}
	opt := options(t, "A4")
	opt.Since = []grid.GridRecord{r}
	require.Equal(t, digests(build(t, info, options(t, "A4"), d)), digests(build(t, info, opt, d)))
}

// whole requires that every page has a label of its own, that the plan's own records can be, and that its pages hold all that is drawn.
func whole(t *testing.T, p *grid.Plan, d *drawing.Drawing) {
	labels := map[string]bool{}
	for _, e := range p.Entries() {
		require.False(t, labels[e.Label], e.Label)
		labels[e.Label] = true
	}
	now, err := json.Marshal(p.Grids())
	require.NoError(t, err)
	var again []grid.GridRecord
	require.NoError(t, json.Unmarshal(now, &again))
	for i := range again {
		require.NoError(t, again[i].Check())
	}
	for _, s := range d.Strokes {
		corners := s.Path.Vertices()
		for i := range 20 * len(corners) {
			q := corners[i/20].Lerp(corners[(i/20+1)%len(corners)], float64(i%20)/20)
			shown := false
			for _, e := range p.Entries() {
				win := geom.Rect{Min: pt(e.Origin[0], e.Origin[1]), Max: pt(e.Origin[0]+e.Size[0], e.Origin[1]+e.Size[1])}
				shown = shown || win.Contains(q)
			}
			require.True(t, shown, "%v", q)
		}
	}
}

// FuzzGridRecord holds that a record from outside is refused in words or used whole: every page has a label of its own, and the
// pages hold all that is drawn.
func FuzzGridRecord(f *testing.F) {
	d := boxes(pt(0, 0), pt(500, 0))
	opt := options(f, "A4")
	for _, name := range []string{"A4", "roll 610"} {
		text, err := json.Marshal(build(f, info, options(f, name), d).Grids())
		require.NoError(f, err)
		f.Add(text, name == "A4")
	}
	const sheets = `[{"label":"floor","view":"floor","size_mm":[210,297],"margins_mm":[10,10,10,10],"lap_mm":10,"origin_mm":[1e8,7.3],"step_mm":[180,267],"columns":[[0,3]],"rows":[[2,0],[-1,-4],[3,3]],"pages":[[0,0,255],[0,0,1]]}]`
	f.Add([]byte(sheets), true)
	const strips = `[{"label":"floor (7)","view":"floor","size_mm":[609.6,0],"margins_mm":[10,10,10,10],"lap_mm":10,"origin_mm":[-1e4,0.31],"step_mm":[579.6,579.6],"columns":[[0,3]],"roll":{"along":"x","each_mm":640,"strips":[{"place":0,"parts":[{"number":9,"from_mm":-300,"to_mm":600,"near":3},{"number":9,"from_mm":-300,"to_mm":600,"gone":true},{"number":2,"from_mm":-150.5,"to_mm":0.25,"left_mm":[[-100,-99]]}]},{"place":2,"parts":[]}]}}]`
	f.Add([]byte(strips), false)
	f.Fuzz(func(t *testing.T, text []byte, sheets bool) {
		opt := opt
		if !sheets {
			opt = options(t, "roll 610")
		}
		if json.Unmarshal(text, &opt.Since) != nil {
			return // no record
		}
		p, err := grid.Build([]*drawing.Drawing{d}, info, opt)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		whole(t, p, d)
	})
}

// Records with figures changed here and there are refused or used whole.
func TestEditedRecords(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 7))
	d := slabs(slab(0, 0, 900, 700), slab(-300, 2000, 900, 9500), slab(2500, 0, 2600, 400))
	figures := []float64{0, 1, -1, 2, 5, 7.25, 10, 100, 180, 640, 1e6, -1e6, 1e9, 1e15, -1e300}
	used := 0
	for i := range 600 {
		name := []string{"A4", "roll 610", "roll 914"}[i%3]
		opt := options(t, name)
		text, err := json.Marshal(build(t, info, opt, d).Grids())
		require.NoError(t, err)
		var tree any
		require.NoError(t, json.Unmarshal(text, &tree))
		var leaves []func(x float64)
		var walk func(v any, set func(any))
		walk = func(v any, set func(any)) {
			switch v := v.(type) {
			case []any:
				for i := range v {
					walk(v[i], func(x any) { v[i] = x })
				}
			case map[string]any:
				for _, k := range slices.Sorted(maps.Keys(v)) {
					walk(v[k], func(x any) { v[k] = x })
				}
			case float64:
				leaves = append(leaves, func(x float64) {
					if x < 20 && x > -20 {
						x += v
					}
					set(x)
				})
			}
		}
		walk(tree, nil)
		for range 1 + r.IntN(3) {
			leaves[r.IntN(len(leaves))](figures[r.IntN(len(figures))])
		}
		text, err = json.Marshal(tree)
		require.NoError(t, err)
		if json.Unmarshal(text, &opt.Since) != nil {
			continue // a fraction, or a figure beyond any, where a whole one stands
		}
		p, err := grid.Build([]*drawing.Drawing{d}, info, opt)
		if err != nil {
			require.ErrorContains(t, err, "of the earlier issue")
			continue
		}
		used++
		whole(t, p, d)
	}
	require.Greater(t, used, 100)
}
