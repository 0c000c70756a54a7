package cut

import (
	"cmp"
	"math"
	"slices"
)

// Board is a stock board: Length along its grain where it has one, Width across. Count 0 is any number.
type Board struct {
	Name          string
	Length, Width float64
	Count         int
}

// Rect is a rectangle to be cut Count times: Length lies along the board's length unless Turn lets it be
// turned a quarter.
type Rect struct {
	ID            string
	Length, Width float64
	Count         int
	Turn          bool
}

// BoardOptions are the choices of Boards.
type BoardOptions struct {
	Options
	// Free lets pieces lie so that no edge-to-edge cut parts them, for a router or a jigsaw. Otherwise every
	// cut runs from edge to edge of what it parts (guillotine cuts), as a panel saw's does.
	Free bool
}

// BoardPlan says how rectangles come out of boards: out of the fewest boards, and of such the least area.
// Where the stock in hand runs out it goes on with more boards of the same sizes, as few as will do, marked
// Buy.
type BoardPlan struct {
	Boards []CutBoard // by stock, the fullest first, those to buy last
	Short  []Short    // the pieces on boards to buy

	Buy  int     // boards that are not in hand
	Area float64 // of all boards together, in mm²

	Bound    int  // no way of cutting takes fewer boards
	BuyBound int  // no way takes fewer boards beyond what is in hand
	Proven   bool // boards, boards to buy and area are the least there are
}

// CutBoard is one board. Its places are from its lower left corner, x along its length.
type CutBoard struct {
	Stock         int // in the list of boards given
	Name          string
	Number        int // from 1, among the boards of the same name
	Length, Width float64
	Buy           bool
	Placed        []Placed // in the order in which the cuts free them
	// Part is the whole board and how it is parted, nil for a free layout.
	Part *Part
	Used float64 // mm² of pieces
}

// Placed is a piece on a board: its corner nearest to the board's, and its size as it lies.
type Placed struct {
	Piece         int // in the list of pieces given
	ID            string
	X, Y          float64
	Length, Width float64
	Turned        bool
}

// Part is a rectangle of a board. It is a piece, is waste, or is cut from edge to edge into two parts with the
// kerf between them; reading a part before its two parts, near before far, is the order of cutting.
type Part struct {
	X, Y          float64
	Length, Width float64
	Cut           Direction
	At            float64 // the near part's size along which the cut is measured: Length for a cut Across, Width for one Along
	Near, Far     *Part   // Far is nil where the kerf leaves nothing
	Placed        int     // in CutBoard.Placed, -1 for waste and for a part that is cut
}

// Direction is how a cut runs.
type Direction int

const (
	None   Direction = iota // the part is not cut
	Across                  // across the board's length: it parts x
	Along                   // along the board's length, a rip: it parts y
)

// Boards plans the cutting of pieces from boards with a saw that takes kerf. Errors are Faults: a piece that
// is larger than any board, with what would fit, and numbers that are no sizes or counts.
func Boards(stock []Board, pieces []Rect, kerf float64, opt BoardOptions) (*BoardPlan, error) {
	if err := checkBoards(stock, pieces, kerf); err != nil {
		return nil, err
	}
	j := newBoardJob(stock, pieces, kerf, opt)
	if len(j.items) == 0 {
		return &BoardPlan{Proven: true}, nil
	}
	return j.plan(j.fewest(j.boundBySize())), nil
}

func checkBoards(stock []Board, pieces []Rect, kerf float64) error {
	var f Faults
	checkKerf(&f, kerf)
	best := -1
	for i, b := range stock {
		switch {
		case !measure(b.Length) || !measure(b.Width):
			f.stock(i, "", "board %s: a size of %v × %v cannot be cut", b.Name, b.Length, b.Width)
		case b.Count < 0:
			f.stock(i, "leave the count out for any number", "board %s: a count of %d", b.Name, b.Count)
		case best < 0 || b.Length*b.Width > stock[best].Length*stock[best].Width:
			best = i
		}
	}
	total := 0
	for i, p := range pieces {
		switch {
		case !measure(p.Length) || !measure(p.Width):
			f.piece(i, "", "piece %s: a size of %v × %v cannot be cut", p.ID, p.Length, p.Width)
		case p.Count < 1:
			f.piece(i, "", "piece %s: a count of %d", p.ID, p.Count)
		case len(stock) == 0:
			f.piece(i, "give a board", "piece %s: there is no board to cut it from", p.ID)
		case best >= 0 && !fitsAny(stock, p):
			b := stock[best]
			hint := "at most " + mm(b.Length) + " × " + mm(b.Width) + " fits; join it from two or give a larger board"
			if turned := p; !p.Turn {
				if turned.Turn = true; fitsAny(stock, turned) {
					hint = "it fits turned a quarter, if its grain may run across"
				}
			}
			f.piece(i, hint, "piece %s: %s × %s fits on no board, the largest is %s of %s × %s",
				p.ID, mm(p.Length), mm(p.Width), b.Name, mm(b.Length), mm(b.Width))
		}
		if total += max(0, min(p.Count, mostPieces+1)); total > mostPieces {
			f.piece(i, "divide the list", "more than %d pieces in one cutting list", mostPieces)
			break
		}
	}
	return f.err()
}

func fitsAny(stock []Board, p Rect) bool {
	for _, b := range stock {
		if units(p.Length) <= units(b.Length) && units(p.Width) <= units(b.Width) ||
			p.Turn && units(p.Width) <= units(b.Length) && units(p.Length) <= units(b.Width) {
			return true
		}
	}
	return false
}

// rectangle is a size in whole grains, kerf included.
type rectangle struct{ l, w int64 }

func (r rectangle) area() float64 { return float64(r.l) * float64(r.w) }

func (r rectangle) turned() rectangle { return rectangle{r.w, r.l} }

func (r rectangle) holds(s rectangle) bool { return s.l <= r.l && s.w <= r.w }

// item is a size of piece that is demanded.
type item struct {
	rectangle
	turn bool
}

// ways are the directions in which an item may lie.
func (t item) ways() []rectangle {
	if t.turn && t.l != t.w {
		return []rectangle{t.rectangle, t.turned()}
	}
	return []rectangle{t.rectangle}
}

// boardJob is the order that boards and pieces make. Items are the different sizes, the largest first.
type boardJob struct {
	supply
	stock  []Board
	pieces []Rect
	kerf   float64
	free   bool

	grain   int64
	items   []item
	members [][]int // by item, the pieces of that size
	boards  []rectangle
}

func newBoardJob(stock []Board, pieces []Rect, kerf float64, opt BoardOptions) *boardJob {
	j := &boardJob{stock: stock, pieces: pieces, kerf: kerf, free: opt.Free}
	k := units(kerf)
	at := map[item]int{}
	for i, p := range pieces {
		t := item{rectangle{units(p.Length) + k, units(p.Width) + k}, p.Turn}
		if t.turn && t.w > t.l {
			t.rectangle = t.turned()
		}
		n, ok := at[t]
		if !ok {
			n = len(j.items)
			at[t] = n
			j.items = append(j.items, t)
			j.demand = append(j.demand, 0)
			j.members = append(j.members, nil)
		}
		j.demand[n] += p.Count
		j.members[n] = append(j.members[n], i)
		j.grain = gcd(j.grain, gcd(t.l, t.w))
	}
	j.sortItems()
	for i := range j.items {
		j.items[i].l /= j.grain
		j.items[i].w /= j.grain
	}
	for _, b := range stock {
		// Areas in whole hundredths of a square millimetre.
		j.lots = append(j.lots, lot{b.Count, max(1, float64(int64(b.Length*b.Width*100)))})
		if j.grain > 0 {
			j.boards = append(j.boards, rectangle{(units(b.Length) + k + 1) / j.grain, (units(b.Width) + k + 1) / j.grain})
		}
	}
	j.steps = opt.Effort.steps()
	j.begin = j.beginWith
	j.fitter = func(o *order, all []stockKind) (filler, func([]int, []float64) ([]filled, bool)) {
		f := &bestBoard{items: j.items, free: j.free}
		for _, k := range all {
			f.boards = append(f.boards, j.boards[k.lot])
		}
		open := openingOrder(all, func(k int) float64 { return f.boards[k].area() })
		return f, func(demand []int, have []float64) ([]filled, bool) { return oneByOne(o, f, open, demand, have) }
	}
	return j
}

// beginWith seeks a good way by sequential value correction (Mukhacheva and Zalgaller 1993): boards are filled one
// after the other with what is worth most, and pieces that came onto poorly filled boards are worth more the
// next time, so that they are looked after earlier.
func (j *boardJob) beginWith(o *order, all []stockKind, target float64) []filled {
	f := o.fill.(*bestBoard)
	f.countIn(new(int64))
	open := openingOrder(all, func(k int) float64 { return f.boards[k].area() })
	worth := make([]float64, len(j.items))
	for i, t := range j.items {
		worth[i] = t.area()
	}
	var best []filled
	for range beginRounds {
		bars, ok := f.inTurn(o, open, worth, slices.Clone(j.demand), slices.Clone(o.have), 6, false)
		if !ok {
			break
		}
		if best == nil || o.total(bars) < o.total(best) {
			best = bars
		}
		if o.total(best) <= target || *f.work > j.steps/4 {
			break
		}
		for _, b := range bars {
			waste := f.boards[b.kind].area() / j.area(b.counts)
			for i, n := range b.counts {
				if n > 0 {
					// Half of the old worth, half of the area with its share of the waste.
					worth[i] = (worth[i] + math.Pow(j.items[i].area(), 1.02)*waste) / 2
				}
			}
		}
	}
	return best
}

// beginRounds is how often values are corrected.
const beginRounds = 40

// sortItems puts the largest areas first, of equals the longest, so that plans do not depend on the order of
// the list more than they must.
func (j *boardJob) sortItems() {
	by := make([]int, len(j.items))
	for i := range by {
		by[i] = i
	}
	slices.SortStableFunc(by, func(a, b int) int {
		x, y := j.items[a], j.items[b]
		return cmp.Or(cmp.Compare(y.area(), x.area()), cmp.Compare(y.l, x.l))
	})
	items, demand, members := j.items, j.demand, j.members
	j.items, j.demand, j.members = make([]item, len(by)), make([]int, len(by)), make([][]int, len(by))
	for i, b := range by {
		j.items[i], j.demand[i], j.members[i] = items[b], demand[b], members[b]
	}
}
