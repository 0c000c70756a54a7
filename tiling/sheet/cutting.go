package sheet

import (
	"context"
	"errors"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/layout/unit"
	"markout/tiling/cut"
)

// CuttingOptions are the choices of LayCutting. The zero value serves.
type CuttingOptions struct {
	// Free lets pieces lie so that no edge-to-edge cut parts them, for a router or a jigsaw: then rectangles lie among outlines too.
	Free     bool
	Effort   cut.Effort
	Progress func(done, total int)
	Stop     func() bool
	Since    *Cuts // what an earlier issue has cut from what, which stays; nil for none
}

// Cutting is what is cut from which board, bar and stock box.
type Cutting struct {
	Taken  *takeoff.Quantities // with the packing of the blocks
	Boards []CutBoard          // every board that is cut: by material, then number
	Bars   []CutBar            // every bar
	Blocks *cut.BlockPlan      // nil where no blocks stand on stock

	Stopped  bool     // a search was stopped early: the plan serves, and a longer run may find a better one
	Unproven []string // materials of which fewer boards or bars may do
	Freer    []string // where --free takes fewer boards, in words
	Kept     int      // how many pieces lie where the earlier issue has them
	Patched  []string // materials of which fewer boards or bars may do where what is kept is laid anew

	set          *set.Set
	opt          CuttingOptions
	boards, bars []stockState // of set.Boards, set.Lengths
	left, first  []int        // of each piece: how many are still to be laid, and the copy that is next
	lastItem     int
	strips       int   // how many places of bars have been given out
	lists        int   // how many cutting lists there have been
	topItems     []int // of Blocks.Tops
	topRecords   []int // of Blocks.Tops: which of the earlier issue's each is, −1 for none
	rough        bool  // fewer stock boxes may do
	restacked    bool  // fewer stock boxes may do where what is kept is stacked anew
}

// CutBoard is one board and what is cut from it.
type CutBoard struct {
	Board  int // in set.Boards
	Number int // from 1, of its material
	Short  bool
	Cuts   []BoardCut // in the order in which they are freed
	Part   *cut.Part  // how edge-to-edge cuts part it; nil where pieces lie free
	Used   float64    // mm² of pieces

	kept  bool // it is the earlier issue's
	sheet int  // the number of the first of the boards that one drawing shows
	list  int  // which of the cutting lists has it, from 1
}

// BoardCut is one piece on a board.
type BoardCut struct {
	Piece, Copy int        // of Taken.Pieces, from 0
	At          geom.Point // of a rectangle its lower left corner, of an outline where its own 0,0 comes to lie
	Turn        float64    // degrees; a rectangle lies at 0 or, turned, at 90
}

// CutBar is one bar and its cuts from the datum end.
type CutBar struct {
	Bar, Number int
	Short       bool
	Cuts        []BarCut
	Offcut      float64 // what is left at its end

	kept  bool
	strip int // the place of its drawing on the sheets of bars, which bars cut alike share
	list  int
}

// BarCut is one piece of a bar: it begins From along it.
type BarCut struct {
	Piece, Copy int
	From        float64
}

// LayCutting works out what is cut from what. Where there is an earlier issue, pieces of the same material and shape keep their item
// numbers, boards, bars and places, and what is new or has changed is laid on further boards and bars; a material whose size, kerf or
// grain has changed is laid anew on further ones. What cannot be laid goes to Missing of what was taken off.
func LayCutting(ctx context.Context, s *set.Set, q *takeoff.Quantities, opt CuttingOptions) (*Cutting, error) {
	c := &Cutting{Taken: q, set: s, opt: opt}
	c.since()
	c.stack()
	earlier := c.match()
	c.numberTops()
	for b := range s.Boards {
		c.keepBoards(earlier, b)
		if err := c.board(ctx, b); err != nil {
			return nil, err
		}
	}
	for b := range s.Lengths {
		c.keepBars(earlier, b)
		c.sawBars(b)
	}
	c.tell()
	c.arrange()
	return c, nil
}

// Empty reports whether nothing is cut and no box is stacked.
func (c *Cutting) Empty() bool { return len(c.Boards)+len(c.Bars) == 0 && c.Blocks == nil }

// boxName is what a stock box is called.
func (c *Cutting) boxName(i int) string {
	b := &c.set.Stock[i]
	return "box " + c.length(b.Length) + " x " + c.length(b.Width) + " x " + c.length(b.Height)
}

// length prints a length without its unit's word, to 0.1 mm or 1/64".
func (c *Cutting) length(mm float64) string {
	if c.set.Units.Imperial() {
		return unit.FormatLength(mm, c.set.Units, unit.Sixteenth/4)
	}
	return unit.FormatLength(mm, c.set.Units, 0.1)
}

// of lists the pieces of a board that are still to be laid, outlines apart from rectangles.
func (c *Cutting) of(b int) (rects, outlines []int) {
	for i := range c.Taken.Pieces {
		switch p := &c.Taken.Pieces[i]; {
		case p.Board != b || c.left[i] == 0:
		case p.Outline != nil:
			outlines = append(outlines, i)
		default:
			rects = append(rects, i)
		}
	}
	return rects, outlines
}

// board lays what is still to be laid of one board: rectangles first, outlines on further boards. Where pieces may lie free all lie
// together.
func (c *Cutting) board(ctx context.Context, b int) error {
	s := &c.boards[b]
	rects, outlines := c.of(b)
	first := len(c.Boards)
	if c.opt.Free && len(outlines) > 0 {
		rects, outlines = nil, slices.Sorted(slices.Values(slices.Concat(rects, outlines)))
	}
	boxed, err := c.nest(ctx, b, outlines)
	if err != nil {
		return err
	}
	nested := slices.Clone(c.Boards[first:])
	c.Boards = c.Boards[:first]
	proven := c.saw(b, slices.Concat(rects, boxed))
	c.Boards = append(c.Boards, nested...)
	switch {
	case len(c.Boards) == first:
	case s.kept > 0:
		s.patched, s.free = true, 0
	default:
		s.unproven = !proven
		if len(rects) > 0 && len(nested) > 0 {
			if s.free, err = c.freer(ctx, b, slices.Concat(rects, outlines), len(c.Boards)-first); err != nil {
				return err
			}
		}
	}
	for i := range c.Boards[first:] {
		s.last++
		c.Boards[first+i].Number = s.last
	}
	for n := range c.Boards[first-s.kept:] {
		c.Boards[first-s.kept+n].Short = c.set.Boards[b].Count > 0 && n >= c.set.Boards[b].Count
	}
	return nil
}

// freer looks how many boards do where rectangles may lie among outlines: 0 where no fewer do.
func (c *Cutting) freer(ctx context.Context, b int, pieces []int, boards int) (int, error) {
	try := Cutting{Taken: c.Taken, set: c.set, left: c.left, first: c.first, opt: CuttingOptions{Effort: cut.Quick, Stop: c.opt.Stop}}
	boxed, err := try.nest(ctx, b, slices.Sorted(slices.Values(pieces)))
	if err != nil || len(boxed) > 0 || len(try.Boards) >= boards {
		return 0, err
	}
	return len(try.Boards), nil
}

// saw lays rectangles, and outlines by their box, so that boards come apart by cuts from edge to edge. It reports whether fewer boards
// are known not to do.
func (c *Cutting) saw(b int, pieces []int) (proven bool) {
	board := &c.set.Boards[b]
	var rects []cut.Rect
	var of []int
	for _, i := range pieces {
		p := &c.Taken.Pieces[i]
		r := cut.Rect{ID: strconv.Itoa(p.Item), Length: p.Length, Width: p.Width, Count: c.left[i], Turn: p.AsIs && p.Turned}
		if !p.AsIs {
			r.Length, r.Width = r.Width, r.Length
		}
		rects, of = append(rects, r), append(of, i)
	}
	var plan *cut.BoardPlan
	for len(rects) > 0 {
		var err error
		plan, err = cut.Boards([]cut.Board{{Name: board.Name, Length: board.Length, Width: board.Width, Count: inHand(board.Count, c.boards[b].kept)}}, rects, board.Kerf,
			cut.BoardOptions{Options: cut.Options{Effort: c.opt.Effort}, Free: c.opt.Free})
		if err == nil {
			break
		}
		plan = nil
		if rects, of = c.without(rects, of, err); rects == nil {
			return true
		}
	}
	if plan == nil {
		return true
	}
	copies := make([]int, len(rects))
	for n, i := range of {
		copies[n] = c.first[i]
	}
	for i := range plan.Boards {
		k := &plan.Boards[i]
		out := CutBoard{Board: b, Part: k.Part, Used: k.Used}
		for _, pl := range k.Placed {
			p := of[pl.Piece]
			laid := BoardCut{Piece: p, Copy: copies[pl.Piece], At: geom.Point{X: pl.X, Y: pl.Y}}
			if pl.Turned != !c.Taken.Pieces[p].AsIs {
				laid.Turn = 90
				if c.Taken.Pieces[p].Outline != nil { // which turns about its own 0,0
					laid.At.X += c.Taken.Pieces[p].Width
				}
			}
			copies[pl.Piece]++
			out.Cuts = append(out.Cuts, laid)
		}
		c.Boards = append(c.Boards, out)
	}
	return plan.Proven
}

// inHand is how many boards or bars a plan may count on: none left is any number, since all are to be bought.
func inHand(count, taken int) int { return max(0, count-taken) }

// without takes out what a plan refuses and says why it is not taken off. It returns nothing where nothing can be taken out.
func (c *Cutting) without(rects []cut.Rect, of []int, err error) ([]cut.Rect, []int) {
	var faults cut.Faults
	bad := map[int]string{}
	if errors.As(err, &faults) {
		for _, f := range faults {
			if f.Piece >= 0 {
				bad[f.Piece] = joinedWords(f.Text, f.Hint)
			}
		}
	}
	if len(bad) == 0 {
		c.Taken.Missing = append(c.Taken.Missing, takeoff.Missing{What: "boards", Why: err.Error()})
		return nil, nil
	}
	var keep []cut.Rect
	var ofKeep []int
	for i := range rects {
		if why, ok := bad[i]; ok {
			p := &c.Taken.Pieces[of[i]]
			c.Taken.Missing = append(c.Taken.Missing, takeoff.Missing{Element: p.Element, What: p.Name, Why: why})
			continue
		}
		keep, ofKeep = append(keep, rects[i]), append(ofKeep, of[i])
	}
	return keep, ofKeep
}

func joinedWords(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}
