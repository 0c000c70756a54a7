package nest

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"markout/layout/geom"
)

// item is one piece to be laid.
type item struct {
	kind, copy int
}

// bed is a sheet in use: a room for outlines of the size room, half the gap inside the sheet's edges.
type bed struct {
	sheet     int // index of the kind of sheet
	room      geom.Point
	roll      bool
	items     []item
	choices   []int // of each item's kind
	laid      []laid
	frontiers map[int]*frontier
}

// reach returns how far along x the outlines reach in the room.
func (b *bed) reach() float64 {
	r := 0.0
	for _, l := range b.laid {
		r = max(r, l.at.X+l.w)
	}
	return r
}

// layer lays pieces on sheets.
type layer struct {
	*stock
	nofits  *table
	sheets  []Sheet
	left    []int   // of each kind of sheet; −1 for any number
	order   []int   // kinds of sheets, largest first
	longest float64 // stands for the length of an endless roll
}

func newLayer(s *stock, sheets []Sheet, used []Used, items []item) *layer {
	l := &layer{stock: s, nofits: newTable(s), sheets: sheets}
	for i, sh := range sheets {
		l.order = append(l.order, i)
		l.left = append(l.left, sh.Count)
		if sh.Count == 0 {
			l.left[i] = -1
		}
	}
	for _, u := range used {
		if l.left[u.Sheet] > 0 {
			l.left[u.Sheet]--
		}
	}
	for _, it := range items {
		c := s.kinds[it.kind].size
		l.longest += c.X + c.Y + s.gap
	}
	slices.SortStableFunc(l.order, func(a, b int) int { return cmp.Compare(l.sheetArea(b), l.sheetArea(a)) })
	return l
}

func (l *layer) sheetArea(i int) float64 {
	if s := l.sheets[i]; s.Width > 0 {
		return s.Width * s.Height
	}
	return math.Inf(1)
}

func (l *layer) roomOf(sheet int) geom.Point {
	s := l.sheets[sheet]
	if s.Width == 0 {
		return geom.Point{X: l.longest, Y: s.Height - l.gap}
	}
	return geom.Point{X: s.Width - l.gap, Y: s.Height - l.gap}
}

// fitting returns the choices of a kind that fit a sheet.
func (l *layer) fits(c choice, room geom.Point) bool {
	return c.w <= room.X+l.eps && c.h <= room.Y+l.stock.eps
}

func (l *layer) fitsOn(kind, sheet int) bool {
	room := l.roomOf(sheet)
	return slices.ContainsFunc(l.kinds[kind].choices, func(c choice) bool { return l.fits(c, room) })
}

// unfit returns a fault for every piece that fits no kind of sheet at any turn.
func (l *layer) unfit(need []int) Faults {
	var fs Faults
	for _, k := range need {
		if slices.ContainsFunc(l.order, func(s int) bool { return l.fitsOn(k, s) }) {
			continue
		}
		size := l.kinds[k].size
		big := l.roomOf(l.order[0])
		takes := fmt.Sprintf("the largest sheet takes %s x %s inside its gap", num(big.X-l.gap), num(big.Y-l.gap))
		if l.sheets[l.order[0]].Width == 0 {
			takes = fmt.Sprintf("the roll takes %s across inside its gap", num(big.Y-l.gap))
		}
		turns := ""
		if big.X >= size.Y && big.Y >= size.X {
			turns = " as it may be turned"
		}
		fs = append(fs, Fault{k, fmt.Sprintf("the piece is %s x %s%s; %s", num(size.X), num(size.Y), turns, takes)})
	}
	return fs
}

// fills lays the items by several orders, largest first by area, by the box's longest side and by its perimeter, and returns the
// best: fewest sheets, then the least length used on the last.
func (l *layer) fills(ctx context.Context, items []item) ([]*bed, Faults, error) {
	sizes := []func(k kind) float64{
		func(k kind) float64 { return k.area },
		func(k kind) float64 { return max(k.size.X, k.size.Y) },
		func(k kind) float64 { return k.size.X + k.size.Y },
	}
	if len(items) > mostOrders {
		sizes = sizes[:1]
	}
	var best []*bed
	var faults Faults
	for i, size := range sizes {
		order := slices.Clone(items)
		slices.SortStableFunc(order, func(a, b item) int { return cmp.Compare(size(l.kinds[b.kind]), size(l.kinds[a.kind])) })
		beds, fs, err := l.fill(ctx, order)
		if err != nil {
			return nil, nil, err
		}
		switch {
		case i == 0:
			best, faults = beds, fs
		case len(fs) == 0 && (len(faults) > 0 || better(beds, best)):
			best, faults = beds, nil
		}
	}
	return best, faults, nil
}

// mostOrders is the number of pieces up to which several orders are tried.
const mostOrders = 200

// better reports whether beds need fewer sheets than others, or as many and less of the last one.
func better(a, b []*bed) bool {
	if len(a) != len(b) || len(a) == 0 {
		return len(a) < len(b)
	}
	return a[len(a)-1].reach() < b[len(b)-1].reach()
}

// fill lays the items in their order, each at the leftmost, then lowest place of all its turns, on the first sheet that has one.
func (l *layer) fill(ctx context.Context, items []item) ([]*bed, Faults, error) {
	left := slices.Clone(l.left)
	var beds []*bed
	missing := map[int]int{}
	for _, it := range items {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		if missing[it.kind] > 0 {
			missing[it.kind]++
			continue
		}
		if !slices.ContainsFunc(beds, func(b *bed) bool { return l.put(b, it) }) {
			b := l.open(left, it.kind)
			if b == nil {
				missing[it.kind]++
				continue
			}
			beds = append(beds, b)
			l.put(b, it)
		}
	}
	var fs Faults
	for k := range l.kinds {
		if n := missing[k]; n > 0 {
			fs = append(fs, Fault{k, fmt.Sprintf("%d of the piece find no place; the sheets given are full", n)})
		}
	}
	return beds, fs, nil
}

// open takes a further sheet of the largest kind left that the piece fits.
func (l *layer) open(left []int, kind int) *bed {
	for _, s := range l.order {
		if left[s] == 0 || !l.fitsOn(kind, s) {
			continue
		}
		if left[s] > 0 {
			left[s]--
		}
		return l.newBed(s)
	}
	return nil
}

func (l *layer) newBed(sheet int) *bed {
	return &bed{sheet: sheet, room: l.roomOf(sheet), roll: l.sheets[sheet].Roll, frontiers: map[int]*frontier{}}
}

// put lays the item in the bed, if there is a place, at the turn at which it reaches least far along x; of those that reach as
// far at the lowest.
func (l *layer) put(b *bed, it item) bool {
	eps := l.eps
	best, bestAt, bestReach := -1, geom.Point{}, 0.0
	for i, c := range l.kinds[it.kind].choices {
		if !l.fits(c, b.room) {
			continue
		}
		f := b.frontiers[c.id]
		if f == nil {
			f = newFrontier(c.outline, b.room, eps)
			b.frontiers[c.id] = f
		}
		for ; f.met < len(b.laid); f.met++ {
			o := b.laid[f.met]
			f.add(l.nofits.of(o.outline, c.outline), o.at, eps)
		}
		at, ok := f.lowest(eps)
		if !ok {
			continue
		}
		reach := at.X + c.w
		if best < 0 || reach < bestReach-eps || reach <= bestReach+eps && at.Y < bestAt.Y-eps {
			best, bestAt, bestReach = i, at, reach
		}
	}
	if best < 0 {
		return false
	}
	at := laid{l.kinds[it.kind].choices[best].outline, bestAt}
	if !b.takes(at, slack*eps) {
		// Rounding has misled the no-fit polygons: what is laid must stand the check.
		at.at = geom.Point{X: b.reach()}
		if !b.takes(at, slack*eps) {
			return false
		}
	}
	b.lay(it, best, at)
	return true
}

// slack is how much deeper, in units of eps, outlines may lie in each other than the no-fit polygons allow: their corners are
// rounded more than once.
const slack = 8

func (b *bed) takes(at laid, tol float64) bool {
	return inRoom(at, b.room, tol) && !slices.ContainsFunc(b.laid, func(o laid) bool { return !apart(o, at, tol) })
}

func (b *bed) lay(it item, choice int, at laid) {
	b.items = append(b.items, it)
	b.choices = append(b.choices, choice)
	b.laid = append(b.laid, at)
}
