package sheet

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/render/reread"
	"markout/tiling"
	"markout/tiling/cut"
	"markout/tiling/paper"
)

// joinery is a set of parts and one ground row.
func joinery(parts ...set.Part) *set.Set {
	return &set.Set{
		Name: "Joinery", Production: "Low Tide", Letter: "A", Date: "2026-11-20", Sides: "stage",
		Boards: []set.Board{
			{Name: "ply 18", Length: 2440, Width: 1220, Thick: 17.6, Density: 620, Kerf: 3, Grain: set.GrainAlong, Count: 2},
			{Name: "foam", Length: 2440, Width: 1220, Thick: 50, Kerf: 0},
		},
		Lengths: []set.Length{{Name: "batten 44", Width: 44, Depth: 69, Long: 4800, Density: 480, Kerf: 3, Count: 1}},
		Parts:   parts,
	}
}

func laid(t testing.TB, s *set.Set, opt CuttingOptions) *Cutting {
	t.Helper()
	c, err := LayCutting(context.Background(), s, takeoff.Take(s), opt)
	require.NoError(t, err)
	require.Empty(t, c.Taken.Missing)
	return c
}

// sound holds a plan to what it promises: every piece once, inside its board or bar, the saw's width between any two of them, grain kept.
func sound(t testing.TB, c *Cutting) {
	t.Helper()
	seen := map[[2]int]int{}
	for i := range c.Boards {
		b := &c.Boards[i]
		mat := c.set.Boards[b.Board]
		var regions []geom.Region
		used := 0.0
		for _, k := range b.Cuts {
			seen[[2]int{k.Piece, k.Copy}]++
			p := &c.Taken.Pieces[k.Piece]
			require.Equal(t, b.Board, p.Board)
			r := c.lies(k)
			box := r.Outer.Bounds()
			require.True(t, box.Min.X >= -0.01 && box.Min.Y >= -0.01 && box.Max.X <= mat.Length+0.01 && box.Max.Y <= mat.Width+0.01, "%+v", box)
			if p.Outline == nil {
				require.True(t, k.Turn == 0 && p.AsIs || k.Turn == 90 && p.Turned, "%s turned %g", p.Name, k.Turn)
			}
			for _, o := range regions {
				d, _, _ := geom.Distance(r, o)
				require.GreaterOrEqual(t, d, mat.Kerf-0.01)
				require.False(t, geom.Overlaps(r, o))
			}
			regions = append(regions, r)
			used += p.Area()
		}
		require.InDelta(t, used, b.Used, 1)
	}
	for i := range c.Bars {
		b := &c.Bars[i]
		mat := c.set.Lengths[b.Bar]
		at := 0.0
		for _, k := range b.Cuts {
			seen[[2]int{k.Piece, k.Copy}]++
			if b.kept { // where a piece is gone an offcut stays
				require.GreaterOrEqual(t, k.From, at-1e-6)
			} else {
				require.InDelta(t, at, k.From, 1e-6)
			}
			at = k.From + c.Taken.Pieces[k.Piece].Length
			require.LessOrEqual(t, at, mat.Long+1e-6)
			at += mat.Kerf
		}
	}
	for i := range c.Taken.Pieces {
		for k := range c.Taken.Pieces[i].Count {
			require.Equal(t, 1, seen[[2]int{i, k}], "%s %d", c.Taken.Pieces[i].Element, k)
		}
	}
}

func TestCuttingIsSound(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for n := range 12 {
		var parts []set.Part
		for i := range 1 + r.IntN(8) {
			p := set.Part{Name: fmt.Sprintf("p%d", i), Count: 1 + r.IntN(4)}
			switch r.IntN(4) {
			case 0:
				p.Of, p.Length = "batten 44", 100+4000*r.Float64()
			case 1:
				p.Of, p.Length, p.Width = "foam", 50+1000*r.Float64(), 50+1000*r.Float64()
			default:
				p.Of, p.Length, p.Width = "ply 18", 50+1100*r.Float64(), 50+1100*r.Float64()
				p.Grain = [...]set.Grain{set.GrainFree, set.GrainAlong, set.GrainAcross}[r.IntN(3)]
			}
			parts = append(parts, p)
		}
		s := joinery(parts...)
		if n%2 == 0 {
			s.Elements = []*set.Element{{Name: "row", Kind: "shape", Copies: at(0, 0, 0, 0), Material: "ply 18", Shape: &set.Panel{
				Outline: outline(geom.Polygon([]geom.Point{{}, {X: 1500 + 1500*r.Float64()}, {X: 900, Y: 300 + 500*r.Float64()}, {Y: 200}}), "points")}}}
		}
		sound(t, laid(t, s, CuttingOptions{Effort: cut.Quick}))
		free := laid(t, s, CuttingOptions{Free: true, Effort: cut.Quick})
		sound(t, free)
		again := laid(t, s, CuttingOptions{Free: true, Effort: cut.Quick})
		require.Equal(t, free.Boards, again.Boards)
	}
}

// Traced cut-outs, which are laid by coarser outlines, lie as sound by their own.
func TestCutOutsLieSound(t *testing.T) {
	c := laid(t, sample(t, "kiosk"), CuttingOptions{Effort: cut.Quick})
	_, off := c.coarse([]int{pieceOf(c, "pilot"), pieceOf(c, "heron")})
	require.Positive(t, off)
	sound(t, c)
}

func pieceOf(c *Cutting, element string) int {
	for i := range c.Taken.Pieces {
		if p := &c.Taken.Pieces[i]; p.Element == element && p.Outline != nil {
			return i
		}
	}
	return -1
}

// Two boards hold four halves; six want a third, which is not in hand. A bar of 4800 gives five of 957.6 with a saw of 3, and four of 960.
func TestShort(t *testing.T) {
	c := laid(t, joinery(set.Part{Name: "half", Of: "ply 18", Length: 1218, Width: 1220, Count: 6, Grain: set.GrainAlong},
		set.Part{Name: "rail", Of: "batten 44", Length: 960, Count: 5}), CuttingOptions{})
	sound(t, c)
	require.Len(t, c.Boards, 3)
	require.Equal(t, []bool{false, false, true}, []bool{c.Boards[0].Short, c.Boards[1].Short, c.Boards[2].Short})
	require.Len(t, c.Bars, 2)
	require.True(t, c.Bars[1].Short)
	require.Contains(t, c.Summary(), "3 of ply 18 (1 short), 2 of batten 44 (1 short)")
	rows := c.Table().Rows
	require.Len(t, rows, 11)
	require.Equal(t, "ply 18/3", rows[5][4].Text)
	require.Equal(t, "not in hand", rows[5][9].Text)
	c = laid(t, joinery(set.Part{Name: "rail", Of: "batten 44", Length: 957.6, Count: 5}), CuttingOptions{})
	require.Len(t, c.Bars, 1)
	require.InDelta(t, 0, c.Bars[0].Offcut, 1e-6)
}

// Weights beside the published ones: a board of 2440 x 1220 x 18 at 730 kg/m³ is 39.1 kg; its two halves, less the saw, as much.
func TestCuttingWeights(t *testing.T) {
	s := joinery(set.Part{Name: "half", Of: "mdf", Length: 1218.5, Width: 1220, Count: 2}, set.Part{Name: "slab", Of: "foam", Length: 100, Width: 100, Count: 3})
	s.Boards = append(s.Boards, set.Board{Name: "mdf", Length: 2440, Width: 1220, Thick: 18, Density: 730, Kerf: 3})
	c := laid(t, s, CuttingOptions{})
	w := c.Weights()
	require.Equal(t, []string{"foam", "mdf"}, []string{w[0].Material, w[1].Material})
	require.False(t, w[0].Weighed)
	require.InDelta(t, 39.1, w[1].EachWeighs, 0.05)
	require.InDelta(t, 39.1*2437/2440, w[1].PiecesWeigh, 0.05)
	require.InDelta(t, 3.0/2440, w[1].Waste, 1e-6)
	require.Equal(t, "at least 39.1 kg; 3 pieces not weighed", c.TotalWords())
	bare := laid(t, joinery(set.Part{Name: "pad", Of: "foam", Length: 300, Width: 90, Count: 2}), CuttingOptions{})
	require.Equal(t, "an unknown amount; 2 pieces not weighed", bare.TotalWords())
}

// A board measured again out of the PDF: at 1:10 it is 244 x 122 mm, and its parts lie where the plan has them.
func TestBoardMeasuredAgain(t *testing.T) {
	c := laid(t, joinery(set.Part{Name: "a", Of: "ply 18", Length: 1500, Width: 700, Count: 1, Grain: set.GrainAlong},
		set.Part{Name: "b", Of: "ply 18", Length: 900, Width: 700, Count: 1, Grain: set.GrainAlong}), CuttingOptions{})
	require.Len(t, c.Boards, 1)
	a3, err := paper.Parse("A3")
	require.NoError(t, err)
	book, err := c.Book([]caution.Caution{{Code: "SAW", Message: "guards"}}, Options{Paper: a3, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}})
	require.NoError(t, err)
	file := written(t, book)
	var boxes []geom.Rect
	for _, p := range reread.Trace(t, file, "2") {
		for _, path := range p.Paths {
			if path.Layer != "cut" {
				continue
			}
			for _, sub := range path.Subs {
				b := geom.EmptyRect()
				for _, q := range sub.Points {
					b = b.Include(geom.Point{X: q.X, Y: q.Y})
				}
				if b.W() > 10 { // not the ring of a cut's number
					boxes = append(boxes, b)
				}
			}
		}
	}
	require.Len(t, boxes, 3)
	board := boxes[2]
	require.InDelta(t, 244, board.W(), 0.02)
	require.InDelta(t, 122, board.H(), 0.02)
	for i, k := range c.Boards[0].Cuts {
		want := c.lies(k).Outer.Bounds()
		require.InDelta(t, want.Min.X/10, boxes[i].Min.X-board.Min.X, 0.02)
		require.InDelta(t, want.W()/10, boxes[i].W(), 0.02)
		require.InDelta(t, want.H()/10, boxes[i].H(), 0.02)
	}
	text := reread.Text(t, file, 2)
	for _, words := range []string{"ply 18/1", "1500", "900", "700", "Guards and riving knife on", caution.Defer, "50 mm on this paper"} {
		require.Contains(t, strings.ReplaceAll(text, "\u00a0", " "), words)
	}
	require.NotContains(t, strings.ToLower(text), strings.Join([]string{"sa", "fe"}, ""))
}

// Every sheet says who saws and who decides, the tables too; the cover has the cautions themselves.
func TestEverySheetDefers(t *testing.T) {
	c := laid(t, joinery(set.Part{Name: "cleat", Of: "ply 18", Length: 300, Width: 90, Count: 6}), CuttingOptions{})
	a3, err := paper.Parse("A3")
	require.NoError(t, err)
	book, err := c.Book([]caution.Caution{{Code: "SAW"}}, Options{Paper: a3, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}})
	require.NoError(t, err)
	var page tiling.Page
	for i, e := range book.Entries {
		if e.Label == "cover" {
			continue
		}
		page.Reset()
		book.Document.Make(i, &page)
		var all []string
		for _, l := range page.Layers {
			for _, x := range l.Texts {
				all = append(all, x.Text)
			}
		}
		words := strings.Join(all, " ")
		require.Contains(t, words, caution.Defer, e.Label)
		if e.Label != "cautions" {
			require.Contains(t, words, "only people trained on the machine cut", e.Label)
		}
	}
}

// Where a piece has hundreds of neighbours the list goes on over further sheets, and no line is lost.
func TestLongLists(t *testing.T) {
	var parts []set.Part
	for i := range 160 {
		parts = append(parts, set.Part{Name: fmt.Sprintf("p%d", i), Of: "foam", Length: 100 + float64(i), Width: 60, Count: 1})
	}
	c := laid(t, joinery(parts...), CuttingOptions{Effort: cut.Quick})
	a4, err := paper.Parse("A4")
	require.NoError(t, err)
	book, err := c.Book(nil, Options{Paper: a4, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}})
	require.NoError(t, err)
	var all strings.Builder
	var page tiling.Page
	for i := range book.Document.Pages {
		if e := book.Entries[i]; e.View != "cutting" {
			continue
		}
		page.Reset()
		book.Document.Make(i, &page)
		for _, l := range page.Layers {
			for _, x := range l.Texts {
				all.WriteString(x.Text + "\n")
			}
		}
	}
	words := strings.Join(strings.Fields(strings.ReplaceAll(all.String(), "\u00a0", " ")), " ")
	for i, p := range c.Taken.Pieces {
		require.Contains(t, words, fmt.Sprintf("%d p%d: %s", p.Item, i, strings.ReplaceAll(c.size(p.Length, p.Width), "\u00a0", " ")))
	}
}

// A ground row's board has room for cleats: from edge to edge they take a board of their own, which is said.
func TestFreeTakesFewer(t *testing.T) {
	s := joinery(set.Part{Name: "cleat", Of: "ply 18", Length: 300, Width: 90, Count: 6})
	s.Elements = []*set.Element{{Name: "row", Kind: "shape", Copies: at(0, 0, 0, 0), Material: "ply 18", Shape: &set.Panel{
		Outline: outline(geom.Polygon([]geom.Point{{}, {X: 1500}, {X: 900, Y: 600}, {Y: 200}}), "points")}}}
	c := laid(t, s, CuttingOptions{})
	require.Len(t, c.Boards, 2)
	require.NotNil(t, c.Boards[0].Part)
	require.Nil(t, c.Boards[1].Part)
	require.Equal(t, []string{"ply 18: --free takes 1 board instead of 2"}, c.Freer)
	c = laid(t, s, CuttingOptions{Free: true})
	require.Len(t, c.Boards, 1)
	require.Empty(t, c.Freer)
	sound(t, c)
}
