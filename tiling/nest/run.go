package nest

import (
	"cmp"
	"context"
	"slices"

	"markout/layout/geom"
)

// Nest lays all pieces. Kept pieces stay where they lie, and the others go onto further sheets. Sheets are used largest first,
// a further one only when nothing more fits. The error is Faults, whose Piece is −1 where the sheets or options are wrong, or
// the context's.
func Nest(ctx context.Context, pieces []Piece, sheets []Sheet, opt Options) (*Plan, error) {
	if fs := check(pieces, sheets, opt); len(fs) > 0 {
		return nil, fs
	}
	s := newStock(pieces, opt.Gap)
	items, need := toLay(pieces, opt.Kept)
	l := newLayer(s, sheets, opt.KeptUsed, items)
	if fs := l.unfit(need); len(fs) > 0 {
		return nil, fs
	}
	beds, fs, err := l.fills(ctx, items)
	if err != nil {
		return nil, err
	}
	if len(fs) > 0 {
		return nil, fs
	}
	sr := &search{layer: l, ctx: ctx, opt: opt, tune: tuned, total: opt.trials(len(items))}
	beds = sr.run(beds)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	p := l.plan(pieces, opt, beds)
	p.Trials, p.Stopped = int(sr.done.Load()), sr.stopped.Load()
	return p, nil
}

// toLay returns the pieces that are not kept, and which kinds they are of.
func toLay(pieces []Piece, kept []Place) (items []item, kinds []int) {
	have := map[[2]int]bool{}
	for _, k := range kept {
		have[[2]int{k.Piece, k.Copy}] = true
	}
	for i, p := range pieces {
		before := len(items)
		for c := range p.Count {
			if !have[[2]int{i, c}] {
				items = append(items, item{i, c})
			}
		}
		if len(items) > before {
			kinds = append(kinds, i)
		}
	}
	return items, kinds
}

// plan writes down where everything lies: the kept pieces, then what lies in the beds.
func (l *layer) plan(pieces []Piece, opt Options, beds []*bed) *Plan {
	p := &Plan{}
	for _, u := range opt.KeptUsed {
		p.Sheets = append(p.Sheets, Used{Sheet: u.Sheet})
	}
	for _, k := range opt.Kept {
		p.Places = append(p.Places, k)
		box := pieces[k.Piece].Outline.Transform(geom.Move(geom.Point{X: k.X, Y: k.Y}, k.Turn)).Bounds()
		u := &p.Sheets[k.Sheet]
		u.Area += l.kinds[k.Piece].area
		u.Length = max(u.Length, box.Max.X+opt.Gap)
	}
	for i, b := range beds {
		u := Used{Sheet: b.sheet, Length: b.reach() + opt.Gap}
		for j, it := range b.items {
			k := l.kinds[it.kind]
			c := k.choices[b.choices[j]]
			at := b.laid[j].at.Add(c.shift)
			p.Places = append(p.Places, Place{
				Piece: it.kind, Copy: it.copy, Sheet: len(opt.KeptUsed) + i,
				X: at.X + opt.Gap/2, Y: at.Y + opt.Gap/2, Turn: c.turn,
			})
			u.Area += k.area
		}
		p.Sheets = append(p.Sheets, u)
	}
	slices.SortFunc(p.Places, func(a, b Place) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
	})
	return p
}

// trials returns how many trials are to be made for so many pieces. A trial looks at every other piece, so that where there are
// many fewer trials take as long; a long search makes all of them.
func (o Options) trials(pieces int) int {
	if o.Trials > 0 {
		return o.Trials
	}
	share := min(1, manyPieces/float64(max(pieces, 1)))
	switch o.Effort {
	case Quick:
		return int(1_000 * share)
	case Long:
		return 3_500_000
	}
	return int(8_000 * share)
}

// manyPieces is the number of pieces from which the efforts make fewer trials.
const manyPieces = 60
