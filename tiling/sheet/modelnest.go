package sheet

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"markout/layout/develop"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/nest"
	"markout/tiling/paper"
)

// bed is a sheet and where on it pieces may lie.
type bed struct {
	size  tiling.Size
	area  geom.Rect
	lo    geom.Point // of the bands of paper
	roll  bool
	board bool
	name  string
	big   lettersOf
}

// bedOf works out the sheet that pieces are laid on: the board from edge to edge, or the paper inside its margins and beside
// the bands for its check bar and its words.
func bedOf(opt ModelOptions) (bed, error) {
	if opt.Board.H > 0 {
		b := opt.Board
		return bed{
			size: tiling.Size{W: b.W, H: b.H}, area: geom.Rect{Max: geom.Point{X: b.W, Y: b.H}},
			roll: b.Roll, board: true, name: b.Name, big: lettersFor(b),
		}, nil
	}
	p, m := opt.Paper, opt.Margins
	if p.Roll {
		return bed{}, errors.New("pieces are laid on a roll with --sheet, not with --paper")
	}
	lo := geom.Point{X: m.Left, Y: m.Bottom}
	if !opt.OwnMargins { // the house's margins are wider than what printers leave blank
		lo = geom.Point{X: max(0, m.Left-printed), Y: max(0, m.Bottom-printed)}
	}
	area := geom.Rect{
		Min: geom.Point{X: max(m.Left, lo.X+bandLeft), Y: max(m.Bottom, lo.Y+bandFoot)},
		Max: geom.Point{X: p.W - m.Right, Y: p.H - m.Top},
	}
	if area.W() < leastArea || area.H() < leastArea {
		return bed{}, fmt.Errorf("%s inside its margins has no room for pieces", p.Name)
	}
	return bed{size: tiling.Size{W: p.W, H: p.H}, area: area, lo: lo, name: p.Name + " " + paper.Lie(p.W, p.H), big: paperLetters}, nil
}

// reach is how far beyond its area pieces and the gap about them may go: on paper what is laid may touch the edge of the area, which
// is not the paper's.
func (b bed) reach(gap float64) float64 {
	if b.board {
		return 0
	}
	return gap
}

// room is the size of the sheet that pieces keep the gap to the edge of.
func (b bed) room(gap float64) geom.Point {
	d := 2 * b.reach(gap)
	w := b.area.W() + d
	if b.roll {
		w = paper.Longest
	}
	return geom.Point{X: w, Y: b.area.H() + d}
}

// withTurns returns the model with every piece allowed just these turns.
func withTurns(m *develop.Model, turns []float64) *develop.Model {
	own := *m
	own.Pieces = slices.Clone(m.Pieces)
	for i := range own.Pieces {
		own.Pieces[i].Lie = set.Lie{Turns: turns}
		own.Pieces[i].Grain = develop.Free
	}
	return &own
}

const (
	printed   = 5.0 // of the margins, that nearly every printer prints all the same (common practice, no source)
	leastArea = 40.0
)

// mostTogether is how many pieces are laid together. Of more, those of neighbouring elements are, so that the work grows as the
// pieces do and what is glued together is cut from sheets that follow one another.
const mostTogether = 500

// layCard lays pieces of one card on further sheets.
func (c *CardModel) layCard(ctx context.Context, k stockKind, g bed, list *diag.List) error {
	all := k.pieces
	parts := (len(all) + mostTogether - 1) / mostTogether
	for i := range parts {
		k.pieces = all[i*len(all)/parts : (i+1)*len(all)/parts]
		if err := c.layPart(ctx, k, g, list); err != nil {
			return err
		}
	}
	return nil
}

// layPart lays some pieces of one card.
func (c *CardModel) layPart(ctx context.Context, k stockKind, g bed, list *diag.List) error {
	notes := make([]*sideNote, len(k.pieces))
	var kinds []nest.Piece
	var members [][]int // of each kind: indices in k.pieces
	known := map[string]int{}
	for i, at := range k.pieces {
		p := &c.Model.Pieces[at]
		notes[i] = c.sideNoteOf(at, g.big)
		outline := p.Outline
		if notes[i] != nil {
			outline = notes[i].around(p.Outline.Bounds())
		}
		turns := p.Turns(grainUp(g))
		key := outlineKey(outline, turns)
		n, ok := known[key]
		if !ok {
			n = len(kinds)
			known[key] = n
			kinds = append(kinds, nest.Piece{Name: p.Label(), Outline: outline, Turns: turns})
			members = append(members, nil)
		}
		kinds[n].Count++
		members[n] = append(members[n], i)
	}
	reach, room := g.reach(c.opt.Gap), g.room(c.opt.Gap)
	sheet := nest.Sheet{Name: g.name, Width: room.X, Height: room.Y, Roll: g.roll}
	plan, err := nest.Nest(ctx, kinds, []nest.Sheet{sheet}, nest.Options{
		Gap: c.opt.Gap, Effort: c.opt.Effort, Stop: c.opt.Stop, Progress: c.opt.Progress,
	})
	var faults nest.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			if f.Piece < 0 {
				return errors.New(f.Words)
			}
			c.unfit(k.pieces[members[f.Piece][0]], g, list)
		}
		return nil
	}
	if err != nil {
		return err
	}
	c.Trials += plan.Trials
	c.Stopped = c.Stopped || plan.Stopped
	first := len(c.Sheets)
	for _, u := range plan.Sheets {
		c.last++
		s := CardSheet{Number: c.last, Card: k.name, Thickness: k.thickness, Size: g.size, Area: g.area, Used: u.Length, lo: g.lo}
		if g.roll {
			s.Size.W, s.Area.Max.X = u.Length, u.Length
		}
		c.Sheets = append(c.Sheets, s)
	}
	for _, pl := range plan.Places {
		i := members[pl.Piece][pl.Copy]
		s := &c.Sheets[first+pl.Sheet]
		at := geom.Point{X: pl.X, Y: pl.Y}.Add(g.area.Min).Sub(geom.Point{X: reach, Y: reach})
		at = geom.Point{X: round6(at.X), Y: round6(at.Y)} // as a record keeps it
		s.Places = append(s.Places, Laid{Piece: k.pieces[i], At: at, Turn: pl.Turn, note: notes[i]})
	}
	for i := range c.Sheets[first:] {
		slices.SortFunc(c.Sheets[first+i].Places, func(a, b Laid) int { return a.Piece - b.Piece })
	}
	return nil
}

// grainUp reports whether the sheet's grain runs up it.
func grainUp(g bed) bool { return !g.roll && g.size.H > g.size.W }

// elementNamed finds the element that a copy belongs to.
func (c *CardModel) elementNamed(copyName string) *set.Element {
	name, _, _ := strings.Cut(copyName, ".")
	return c.set.Find(name)
}

// unfit says that a piece fits no sheet, and what would hold it.
func (c *CardModel) unfit(piece int, g bed, list *diag.List) {
	p := &c.Model.Pieces[piece]
	b := p.Outline.Bounds()
	measure := func(w, h float64) string {
		u := c.set.Units
		if u.Imperial() {
			return unit.FormatLength(w, u, unit.Sixteenth) + " x " + unit.FormatLength(h, u, unit.Sixteenth)
		}
		return unit.FormatNumber(w, 0.1) + " x " + unit.FormatNumber(h, 0.1) + " mm"
	}
	message := fmt.Sprintf("%s, %s, is %s; a sheet of %s holds %s", p.Label(), p.Name, measure(b.W(), b.H()), g.name, measure(g.area.W(), g.area.H()))
	if would := c.holds(p); would != "" {
		list.Hintf(p.Span, message, "%s would hold it", would)
		return
	}
	list.Errorf(p.Span, "%s", message)
}

// outlineKey tells outlines with the same allowed turns apart, to a millionth of a millimetre.
func outlineKey(r geom.Region, turns []float64) string {
	var b strings.Builder
	n := func(xs ...float64) {
		for _, x := range xs {
			fmt.Fprintf(&b, "%.6f ", x+0) // never -0
		}
	}
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		n(p.Start().X, p.Start().Y)
		for _, s := range p.Segments() {
			b.WriteByte("lacb"[s.Kind])
			n(s.To.X, s.To.Y, s.Centre.X, s.Centre.Y, s.Sweep, s.C1.X, s.C1.Y, s.C2.X, s.C2.Y)
		}
		b.WriteByte(';')
	}
	n(turns...)
	return b.String()
}

// joins says of each piece which joints it has and with which pieces: "J1 deck-2/9; J2 deck-3/9".
func (c *CardModel) joins() []string {
	out := make([]string, len(c.Model.Pieces))
	add := func(at, other int, j *develop.Joint) {
		if out[at] != "" {
			out[at] += "; "
		}
		out[at] += j.Label() + " " + c.Model.Pieces[other].Label()
	}
	for i := range c.Model.Joints {
		j := &c.Model.Joints[i]
		add(j.A.Piece, j.B.Piece, j)
		if j.B.Piece != j.A.Piece {
			add(j.B.Piece, j.A.Piece, j)
		}
	}
	return out
}
