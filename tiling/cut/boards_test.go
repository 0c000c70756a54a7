package cut

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// boardCase is one of testdata's board-*.json.
type boardCase struct {
	Board  [2]float64
	Fixed  float64 `json:"optimum_value_fixed"`
	Turned float64 `json:"optimum_value_turned"`
	Pieces []struct {
		Size  [2]float64
		Count *int
		Value float64
	}
}

func TestOneBoardReachesThePublishedValue(t *testing.T) {
	for _, name := range []string{"board-gcut1", "board-cgcut1"} {
		for _, turn := range []bool{false, true} {
			t.Run(fmt.Sprint(name, turn), func(t *testing.T) {
				c := readCase[boardCase](t, name)
				board := rectangle{int64(c.Board[0]), int64(c.Board[1])}
				f := &bestBoard{boards: []rectangle{board}, work: new(int64)}
				var worth []float64
				var most []int
				for _, p := range c.Pieces {
					size := rectangle{int64(p.Size[0]), int64(p.Size[1])}
					f.items = append(f.items, item{size, turn})
					worth = append(worth, p.Value)
					if p.Count != nil {
						most = append(most, *p.Count)
					} else {
						most = append(most, int(board.area()/size.area()))
					}
				}
				got := f.fill(0, worth, most, 0, nil, false)
				want := c.Fixed
				if turn {
					want = c.Turned
				}
				require.Equal(t, want, got.worth)
				require.Equal(t, want, got.upper, "proved")
				checkCells(t, got.layout.(*cell), f.items, got.counts, most)
				sum := 0.0
				for i, n := range got.counts {
					sum += float64(n) * worth[i]
				}
				require.Equal(t, want, sum)
			})
		}
	}
}

// checkCells holds a layout's cells against their own cuts and the pieces' sizes.
func checkCells(t testing.TB, root *cell, items []item, counts, most []int) {
	got := make([]int, len(items))
	var walk func(c *cell)
	walk = func(c *cell) {
		if c.item >= 0 {
			got[c.item]++
			size := items[c.item].rectangle
			if c.turned {
				require.True(t, items[c.item].turn)
				size = size.turned()
			}
			require.Equal(t, size, c.size)
			require.Equal(t, None, c.cut)
			return
		}
		switch c.cut {
		case Across:
			require.Equal(t, c.size.l, c.near.size.l+c.far.size.l)
			require.Equal(t, c.near.x+c.near.size.l, c.far.x)
		case Along:
			require.Equal(t, c.size.w, c.near.size.w+c.far.size.w)
			require.Equal(t, c.near.y+c.near.size.w, c.far.y)
		default:
			return
		}
		require.Positive(t, min(c.near.size.l, c.near.size.w, c.far.size.l, c.far.size.w))
		walk(c.near)
		walk(c.far)
	}
	walk(root)
	require.Equal(t, counts, got)
	for i := range got {
		require.LessOrEqual(t, got[i], most[i])
	}
}

// everyGuillotine is the most that can be cut from a board, by trying every cut at every whole place and
// every way to divide the pieces between the two sides.
type everyGuillotine struct {
	items []item
	worth []float64
	seen  map[string]float64
}

func (e *everyGuillotine) best(l, w int64, most []int) float64 {
	k := fmt.Sprint(l, w, most)
	if v, ok := e.seen[k]; ok {
		return v
	}
	best := 0.0
	for i, t := range e.items {
		if most[i] > 0 {
			for _, way := range t.ways() {
				if (rectangle{l, w}).holds(way) {
					best = max(best, e.worth[i])
				}
			}
		}
	}
	near := make([]int, len(most))
	var split func(i int, f func(a, b []int))
	split = func(i int, f func(a, b []int)) {
		if i == len(most) {
			b := make([]int, len(most))
			for k := range b {
				b[k] = most[k] - near[k]
			}
			f(append([]int(nil), near...), b)
			return
		}
		for n := 0; n <= most[i]; n++ {
			near[i] = n
			split(i+1, f)
		}
		near[i] = 0
	}
	for at := int64(1); 2*at <= l; at++ {
		split(0, func(a, b []int) { best = max(best, e.best(at, w, a)+e.best(l-at, w, b)) })
	}
	for at := int64(1); 2*at <= w; at++ {
		split(0, func(a, b []int) { best = max(best, e.best(l, at, a)+e.best(l, w-at, b)) })
	}
	e.seen[k] = best
	return best
}

func TestOneBoardIsTheBestOfEveryGuillotine(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 5))
	for n := range 60 {
		board := rectangle{int64(4 + rnd.IntN(7)), int64(4 + rnd.IntN(5))}
		f := &bestBoard{boards: []rectangle{board}, work: new(int64)}
		var worth []float64
		var most []int
		for range 2 + rnd.IntN(2) {
			f.items = append(f.items, item{rectangle{int64(1 + rnd.IntN(5)), int64(1 + rnd.IntN(5))}, rnd.IntN(2) == 0})
			worth = append(worth, float64(1+rnd.IntN(20)))
			most = append(most, 1+rnd.IntN(3))
		}
		e := everyGuillotine{f.items, worth, map[string]float64{}}
		want := e.best(board.l, board.w, most)
		got := f.fill(0, worth, most, 0, nil, false)
		require.Equal(t, want, got.worth, "case %d: %v %v %v %v", n, board, f.items, worth, most)
		require.Equal(t, want, got.upper)
		if got.counts != nil {
			checkCells(t, got.layout.(*cell), f.items, got.counts, most)
		}
	}
}

// checkBoardPlan holds a plan against what was asked: pieces as often as wanted, inside, a kerf apart, not
// turned against their grain; of edge-to-edge layouts every part against its cuts.
func checkBoardPlan(t testing.TB, stock []Board, pieces []Rect, kerf float64, p *BoardPlan) {
	t.Helper()
	const near = 1e-4
	got := make([]int, len(pieces))
	used := make([]int, len(stock))
	waiting := make([]int, len(pieces))
	buy := 0
	for _, b := range p.Boards {
		require.NotEmpty(t, b.Placed)
		require.Equal(t, stock[b.Stock].Length, b.Length)
		require.Equal(t, stock[b.Stock].Width, b.Width)
		if b.Buy {
			buy++
		} else {
			used[b.Stock]++
		}
		for i, a := range b.Placed {
			q := pieces[a.Piece]
			got[a.Piece]++
			if b.Buy {
				waiting[a.Piece]++
			}
			l, w := q.Length, q.Width
			if a.Turned {
				require.True(t, q.Turn)
				l, w = w, l
			}
			require.Equal(t, [2]float64{l, w}, [2]float64{a.Length, a.Width})
			require.GreaterOrEqual(t, min(a.X, a.Y), 0.0)
			require.LessOrEqual(t, a.X+a.Length, b.Length+near)
			require.LessOrEqual(t, a.Y+a.Width, b.Width+near)
			for _, o := range b.Placed[:i] {
				apart := max(o.X-a.X-a.Length, a.X-o.X-o.Length, o.Y-a.Y-a.Width, a.Y-o.Y-o.Width)
				require.GreaterOrEqual(t, apart, kerf-near)
			}
		}
		if b.Part != nil {
			checkParts(t, &b, kerf)
		}
	}
	for i, q := range pieces {
		require.Equal(t, q.Count, got[i])
	}
	for i, s := range stock {
		if s.Count > 0 {
			require.LessOrEqual(t, used[i], s.Count)
		}
	}
	for _, s := range p.Short {
		require.Equal(t, waiting[s.Piece], s.Count)
		waiting[s.Piece] = 0
	}
	for _, n := range waiting {
		require.Zero(t, n)
	}
	require.Equal(t, buy, p.Buy)
	require.LessOrEqual(t, p.Bound, len(p.Boards))
}

func checkParts(t testing.TB, b *CutBoard, kerf float64) {
	const near = 1e-4
	placed := 0
	var walk func(p *Part)
	walk = func(p *Part) {
		require.Positive(t, p.Length)
		require.Positive(t, p.Width)
		if p.Placed >= 0 {
			require.Equal(t, placed, p.Placed, "pieces stand in the order of the cuts")
			placed++
			a := b.Placed[p.Placed]
			require.InDelta(t, a.X, p.X, near)
			require.InDelta(t, a.Y, p.Y, near)
			require.InDelta(t, a.Length, p.Length, near)
			require.InDelta(t, a.Width, p.Width, near)
			require.Equal(t, None, p.Cut)
			return
		}
		switch p.Cut {
		case Across:
			require.InDelta(t, p.At, p.Near.Length, near)
			require.Less(t, p.At, p.Length)
			if p.Far != nil {
				require.InDelta(t, p.Length, p.At+kerf+p.Far.Length, near)
				require.InDelta(t, p.X+p.At+kerf, p.Far.X, near)
			} else {
				require.LessOrEqual(t, p.Length, p.At+kerf+near)
			}
		case Along:
			require.InDelta(t, p.At, p.Near.Width, near)
			require.Less(t, p.At, p.Width)
			if p.Far != nil {
				require.InDelta(t, p.Width, p.At+kerf+p.Far.Width, near)
				require.InDelta(t, p.Y+p.At+kerf, p.Far.Y, near)
			} else {
				require.LessOrEqual(t, p.Width, p.At+kerf+near)
			}
		default:
			return
		}
		walk(p.Near)
		if p.Far != nil {
			walk(p.Far)
		}
	}
	walk(b.Part)
	require.Len(t, b.Placed, placed)
}

func TestBoardsKeepWhatWasAsked(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 1))
	for n := range 24 {
		var stock []Board
		for i := range 1 + rnd.IntN(2) {
			stock = append(stock, Board{Name: string(rune('a' + i)), Length: 2440 - 600*float64(i), Width: 1220, Count: rnd.IntN(4)})
		}
		var pieces []Rect
		for i := range 1 + rnd.IntN(6) {
			p := Rect{ID: fmt.Sprint(i), Length: 100 + math.Floor(rnd.Float64()*1500), Width: 100 + rnd.Float64()*1000, Count: 1 + rnd.IntN(6), Turn: rnd.IntN(2) == 0}
			if rnd.IntN(2) == 0 {
				p.Width = math.Floor(p.Width)
			}
			pieces = append(pieces, p)
		}
		kerf := []float64{0, 3, 3.2}[rnd.IntN(3)]
		opt := BoardOptions{Free: n%3 == 0}
		opt.Effort = Quick
		p, err := Boards(stock, pieces, kerf, opt)
		require.NoError(t, err)
		checkBoardPlan(t, stock, pieces, kerf, p)
		require.Equal(t, opt.Free, p.Boards[0].Part == nil)
	}
}

// fewestBoards tries every way of sharing pieces out, and every guillotine on each board.
func fewestBoards(board rectangle, items []item, counts []int) int {
	var single []int
	for i, n := range counts {
		for range n {
			single = append(single, i)
		}
	}
	ones := make([]float64, len(items))
	for i := range ones {
		ones[i] = 1
	}
	e := everyGuillotine{items, ones, map[string]float64{}}
	best := len(single)
	var on [][]int
	var place func(i int)
	place = func(i int) {
		if len(on) >= best {
			return
		}
		if i == len(single) {
			best = len(on)
			return
		}
		for b := 0; b <= len(on); b++ {
			fresh := b == len(on)
			if fresh {
				on = append(on, make([]int, len(items)))
			}
			on[b][single[i]]++
			sum := 0
			for _, n := range on[b] {
				sum += n
			}
			if e.best(board.l, board.w, on[b]) == float64(sum) {
				place(i + 1)
			}
			on[b][single[i]]--
			if fresh {
				on = on[:b]
			}
		}
	}
	place(0)
	return best
}

func TestBoardsAreTheFewestOfEveryWay(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 4))
	for n := range 80 {
		board := rectangle{int64(5 + rnd.IntN(4)), int64(4 + rnd.IntN(4))}
		stock := []Board{{Name: "b", Length: float64(board.l), Width: float64(board.w)}}
		var pieces []Rect
		var items []item
		var counts []int
		for i := range 3 {
			p := Rect{ID: fmt.Sprint(i), Length: float64(1 + rnd.IntN(int(board.l))), Width: float64(1 + rnd.IntN(int(board.w))), Count: 1 + rnd.IntN(2), Turn: rnd.IntN(2) == 0}
			pieces = append(pieces, p)
			items = append(items, item{rectangle{int64(p.Length), int64(p.Width)}, p.Turn})
			counts = append(counts, p.Count)
		}
		p, err := Boards(stock, pieces, 0, BoardOptions{})
		require.NoError(t, err)
		checkBoardPlan(t, stock, pieces, 0, p)
		require.True(t, p.Proven, "case %d: %v %v", n, stock, pieces)
		require.Len(t, p.Boards, fewestBoards(board, items, counts), "case %d: %v %v", n, stock, pieces)
		free, err := Boards(stock, pieces, 0, BoardOptions{Free: true})
		require.NoError(t, err)
		checkBoardPlan(t, stock, pieces, 0, free)
		require.LessOrEqual(t, free.Bound, p.Bound)
	}
}
