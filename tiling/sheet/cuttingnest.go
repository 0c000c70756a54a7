package sheet

import (
	"context"
	"errors"
	"markout/layout/geom"
	"markout/tiling/cut"
	"markout/tiling/nest"
	"math"
)

// nest lays outlines. A piece may touch the board's edge, and between two the saw takes its kerf. What cannot be nested is
// returned, to be laid by its box.
func (c *Cutting) nest(ctx context.Context, b int, pieces []int) (boxed []int, err error) {
	if len(pieces) == 0 {
		return nil, nil
	}
	board := &c.set.Boards[b]
	sheet := nest.Sheet{Name: board.Name, Width: board.Length + 2*board.Kerf, Height: board.Width + 2*board.Kerf}
	outlines, off := c.coarse(pieces)
	opt := nest.Options{Gap: board.Kerf + 2*off, Effort: nestEffort(c.opt.Effort), Progress: c.opt.Progress, Stop: c.opt.Stop}
	var kinds []nest.Piece
	area := 0.0
	for n, i := range pieces {
		p := &c.Taken.Pieces[i]
		area += p.Area() * float64(c.left[i])
		k := nest.Piece{Name: p.Element + " " + p.Name, Count: c.left[i], Turns: p.Turns}
		k.Outline = outlines[n]
		switch {
		case p.Outline == nil:
			k.Turns = nil
			if p.AsIs {
				k.Turns = append(k.Turns, 0)
			}
			if p.Turned {
				k.Turns = append(k.Turns, 90)
			}
		case k.Turns == nil:
			k.Turns = []float64{0, 90, 180, 270} // a carpenter marks out square to the board
		}
		kinds = append(kinds, k)
	}
	plan, err := nestFew(ctx, kinds, sheet, opt, area/(board.Length*board.Width))
	var faults nest.Faults
	if errors.As(err, &faults) {
		bad := map[int]bool{}
		for _, f := range faults {
			if f.Piece < 0 {
				return pieces, nil
			}
			bad[f.Piece] = true
		}
		var rest []int
		for n, i := range pieces {
			if bad[n] {
				boxed = append(boxed, i)
			} else {
				rest = append(rest, i)
			}
		}
		if len(boxed) == 0 {
			return pieces, nil
		}
		more, err := c.nest(ctx, b, rest)
		return append(boxed, more...), err
	}
	if err != nil {
		return nil, err
	}
	c.Stopped = c.Stopped || plan.Stopped
	laid := make([]CutBoard, len(plan.Sheets))
	for i := range laid {
		laid[i].Board = b
	}
	for _, pl := range plan.Places {
		k := &laid[pl.Sheet]
		p := pieces[pl.Piece]
		one := BoardCut{Piece: p, Copy: c.first[p] + pl.Copy, At: geom.Point{X: pl.X - board.Kerf, Y: pl.Y - board.Kerf}, Turn: pl.Turn}
		if c.Taken.Pieces[p].Outline == nil { // a rectangle lies by its lower left corner
			low := c.Taken.Pieces[p].Region().Transform(geom.Move(one.At, one.Turn)).Outer.Bounds().Min
			one.At, one.Turn = low, math.Mod(one.Turn, 180)
		}
		k.Cuts = append(k.Cuts, one)
		k.Used += c.Taken.Pieces[p].Area()
	}
	c.Boards = append(c.Boards, laid...)
	return nil, nil
}

// fineCorners is how many corners all outlines of a board may have together to be laid by their own: what laying them takes grows with
// the square of it. Traced outlines have more than a saw can tell apart; they are laid by coarser ones, and so much farther apart.
const fineCorners = 400

// coarsenesses are tried from the finest on, in millimetres.
var coarsenesses = [...]float64{0.5, 1, 2, 3, 4}

// coarse returns the outlines by which pieces are laid, and how far they may be from the pieces' own: 0 for these themselves.
func (c *Cutting) coarse(pieces []int) (out []geom.Region, off float64) {
	corners := func() (n int) {
		for _, r := range out {
			for _, path := range append([]*geom.Path{r.Outer}, r.Holes...) {
				n += len(path.Flatten(flatness, nil))
			}
		}
		return n
	}
	for _, i := range pieces {
		out = append(out, c.Taken.Pieces[i].Region())
	}
	for _, tol := range coarsenesses {
		if corners() <= fineCorners {
			break
		}
		off = tol
		for n, i := range pieces {
			out[n], _ = c.Taken.Pieces[i].Region().Coarse(tol)
		}
	}
	return out, off
}

// nestFew nests quickly, and only where fewer boards than that may do (their area says at least how many) as thoroughly as asked.
func nestFew(ctx context.Context, kinds []nest.Piece, sheet nest.Sheet, opt nest.Options, atLeast float64) (*nest.Plan, error) {
	asked := opt.Effort
	opt.Effort = nest.Quick
	plan, err := nest.Nest(ctx, kinds, []nest.Sheet{sheet}, opt)
	if err != nil || asked == nest.Quick || float64(len(plan.Sheets)) < math.Ceil(atLeast)+1 {
		return plan, err
	}
	opt.Effort = asked
	return nest.Nest(ctx, kinds, []nest.Sheet{sheet}, opt)
}

func nestEffort(e cut.Effort) nest.Effort {
	switch e {
	case cut.Quick:
		return nest.Quick
	case cut.Long:
		return nest.Long
	}
	return nest.Normal
}
