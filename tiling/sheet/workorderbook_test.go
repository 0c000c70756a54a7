package sheet

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/tiling"
)

// The cover says what changed since when, and what becomes of the paper; each trade has its page, named after it.
func TestWorkOrdersBook(t *testing.T) {
	s := kiosk()
	floor := floorOrder(s, 3)
	rigger := WorkOrder{Trade: "Rigger", Takes: []string{"1 piece to hang again"}, Steps: []WorkStep{{Does: "Take down", Lines: []string{"locker"}}}}
	b, err := WorkOrders(s, changeOf(floor, rigger), filed("A3"))
	require.NoError(t, err)
	var labels, titles []string
	for i, e := range b.Entries {
		labels, titles = append(labels, e.Label), append(titles, e.Title)
		require.Equal(t, i+1, e.Page)
		require.Len(t, e.Mark, 4)
	}
	require.Equal(t, []string{"cover", "floor order", "rigger order"}, labels)
	require.Equal(t, []string{"Cover", "Work order: floor", "Work order: rigger"}, titles)
	cover := said(laidPage(b, 0))
	for _, w := range []string{
		"What changed since A, 2026-11-20", "front: 3 risers → 4, rise 150 → 112.5; held: top and total",
		"41 pages to keep", "3 pages to print", "2 pages to withdraw", "floor 3C, letter A", "SUPERSEDED", "bar in the left margin", caution.Defer,
	} {
		require.Contains(t, cover, w)
	}
	require.Contains(t, said(laidPage(b, 1)), "From issue A, 2026-11-20, to issue B, 2026-11-20")
	require.NotContains(t, said(laidPage(b, 2)), "CAUTIONS", "an order with no cautions has no box")
}

// The digest is of what the order says: the paper, how much of it finds room and what a piece is called are not in it; a figure, a
// caution and the order of the lines are.
func TestWorkOrderDigest(t *testing.T) {
	s := kiosk()
	s.Called = map[string]string{"front": "deck"}
	digest := func(paper string, change func(o *WorkOrder)) [32]byte {
		o := floorOrder(s, 40)
		o.Steps[0].Lines[3] = "deck corner 3: 1087 L"
		o.Steps[1].Table.Rows[2][0] = table.T("deck corner 2")
		change(&o)
		b, err := WorkOrders(s, changeOf(o), filed(paper))
		require.NoError(t, err)
		return b.Entries[len(b.Entries)-1].Digest // behind the cover
	}
	is := digest("A3", func(*WorkOrder) {})
	require.Equal(t, is, digest("A4", func(*WorkOrder) {}))
	require.Equal(t, is, digest("A3", func(o *WorkOrder) {
		o.Steps[0].Lines[3] = "front corner 3: 1087 L"
		o.Steps[1].Table.Rows[2][0] = table.T("front corner 2")
	}))
	for name, change := range map[string]func(o *WorkOrder){
		"figure":  func(o *WorkOrder) { o.Steps[0].Lines[3] = "deck corner 3: 1088 L" },
		"cell":    func(o *WorkOrder) { o.Steps[1].Table.Rows[39][7] = table.N(1) },
		"caution": func(o *WorkOrder) { o.Cautions = o.Cautions[1:] },
		"takes":   func(o *WorkOrder) { o.Takes[1] = "14.3 m of white tape 25 mm" },
		"order":   func(o *WorkOrder) { l := o.Steps[0].Lines; l[0], l[1] = l[1], l[0] },
		"note":    func(o *WorkOrder) { o.Steps[1].Table.Notes = append(o.Steps[1].Table.Notes, "said more") },
	} {
		require.NotEqual(t, is, digest("A3", change), name)
	}
}

// The figures of a table stand aligned on their unit, under headings that are drawn again where a column of the page goes on.
func TestWorkOrderTableGoesOn(t *testing.T) {
	tab := &table.Table{Columns: []table.Column{{Heading: "Mark"}, {Heading: "Distance", Kind: table.Length, Decimals: 1}}}
	for i := range 150 {
		tab.Rows = append(tab.Rows, []table.Value{table.T("deck"), table.N(float64(i) + 0.5)})
	}
	b, err := WorkOrders(kiosk(), changeOf(WorkOrder{Trade: "Floor", Steps: []WorkStep{{Does: "Lay", Table: tab}}}), filed("A3"))
	require.NoError(t, err)
	heads, points := 0, map[float64]int{}
	for _, x := range textsOf(laidPage(b, 1)) {
		if x.Text == "Mark" {
			heads++
		}
		if whole, _, ok := strings.Cut(x.Text, ".5"); ok {
			points[round6(x.At.X+tiling.Widest(x.Height, false, whole))]++
		}
	}
	require.Greater(t, heads, 1)
	require.Len(t, points, heads, "one unit a column of the page")
}

// A figure is not parted from its side or its unit.
func TestFiguresKeepTheirSide(t *testing.T) {
	lines := numbered(60, "corner of the deck at 1087 L, 457 U, 7'-6\" D, tape 25 mm, of 8 m")
	b, err := WorkOrders(kiosk(), changeOf(WorkOrder{Trade: "Floor", Steps: []WorkStep{{Does: "Lift", Lines: lines}}}), filed("A4"))
	require.NoError(t, err)
	for _, x := range textsOf(laidPage(b, len(b.Entries)-1)) {
		require.NotRegexp(t, `^(L|U|D|mm|m)\b`, x.Text)
	}
}

// Columns fill one after another; a part's room above falls away where it begins a column, what goes over it is drawn again there.
func TestFlowParts(t *testing.T) {
	box := geom.Rect{Max: geom.Point{X: 100, Y: 50}}
	columns := columnsIn(box, 2, 10)
	require.InDelta(t, 45, columns[1].W(), geom.Tolerance)
	head := &workPart{tall: 5}
	parts := []workPart{{tall: 35, over: head}, {above: 5, tall: 5}, {above: 5, tall: 20, over: head}, {tall: 25, over: head}}
	spots, ok := flowParts(parts, columns)
	require.True(t, ok)
	var at []geom.Point
	for _, s := range spots {
		at = append(at, s.at)
	}
	require.Equal(t, []geom.Point{{X: 0, Y: 50}, {X: 0, Y: 45}, {X: 0, Y: 5}, {X: 55, Y: 50}, {X: 55, Y: 45}, {X: 55, Y: 25}}, at)
	_, ok = flowParts(append(parts, workPart{tall: 1}), columns)
	require.False(t, ok)
	same := []workPart{{tall: 10}, {tall: 10}, {tall: 10}, {tall: 10}}
	require.InDelta(t, 20, level(same, 2), 0.1)
	require.InDelta(t, 40, level(same, 1), 0.1)
	require.Equal(t, 6, greatest(9, func(n int) bool { return n <= 6 }))
	require.Equal(t, -1, greatest(9, func(int) bool { return false }))
}

// However many parts of whatever height, columns of their level hold all of them once, and lower ones do not.
func TestLevelHoldsAll(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 300 {
		parts := make([]workPart, r.IntN(40))
		for i := range parts {
			parts[i] = workPart{above: float64(r.IntN(3)), tall: 1 + 10*r.Float64()}
		}
		n := 1 + r.IntN(3)
		tall := level(parts, n)
		spots, ok := flowParts(parts, columnsIn(geom.Rect{Max: geom.Point{X: 90, Y: tall}}, n, 5))
		require.True(t, ok)
		require.Len(t, spots, len(parts))
		if _, ok = flowParts(parts, columnsIn(geom.Rect{Max: geom.Point{X: 90, Y: tall - 0.1}}, n, 5)); len(parts) > 0 && n > 1 {
			require.False(t, ok)
		}
	}
}

func BenchmarkWorkOrder(b *testing.B) {
	s := kiosk()
	w := changeOf(floorOrder(s, 5000))
	frames, err := framesOf(filed("A3"))
	require.NoError(b, err)
	for b.Loop() {
		layWorkOrder(s, w, &w.Orders[0], frames)
	}
}

// A page of very many things is drawn with no stroke outside its frame.
func TestWorkOrderStrokesWithinFrame(t *testing.T) {
	s := kiosk()
	opt := filed("A4")
	b, err := WorkOrders(s, changeOf(floorOrder(s, 300)), opt)
	require.NoError(t, err)
	live := liveOf(t, b, opt)
	c := &laidPage(b, len(b.Entries)-1).Layers[drawing.Notes]
	for _, k := range c.Strokes {
		for _, r := range k.Runs {
			for _, q := range r.Points {
				require.True(t, q.X >= live.Min.X && q.X <= live.Max.X && q.Y >= live.Min.Y+stripHeight && q.Y <= live.Max.Y, "%v", q)
			}
		}
	}
}
