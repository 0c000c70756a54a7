package cut

import (
	"cmp"
	"fmt"
	"slices"

	"markout/layout/geom"
)

// Box is a stock box that tops are stacked from, in any orientation. Count 0 is any number.
type Box struct {
	Name                  string
	Length, Width, Height float64
	Count                 int
}

// Top is a step's top to be carried: Length across the step, Width along the going, and Height from the floor
// to what lies on the stack, its own board taken off. Count of them are alike.
type Top struct {
	ID                    string
	Length, Width, Height float64
	Count                 int
}

// BlockOptions are the choices of Blocks. The zero value serves.
type BlockOptions struct {
	Options
	// Span is the widest gap between two boxes of a layer, 0 for 400 mm (common practice, no source).
	Span float64
	// Edge is how far a top may reach over its outermost boxes on each side, 0 for 50 mm (common practice,
	// no source).
	Edge float64
	// Out is how far boxes may stand out from under a top on each side.
	Out float64
	// Packing is the most that may be made up with packing, 0 for anything under the boxes' least side.
	Packing float64
	// Plates are the thicknesses of board at hand for packing.
	Plates []float64
	// Taken is how many boxes of each line of stock other stacks have already; nil for none.
	Taken []int
}

// BlockPlan says which boxes stand under which top: where there are enough boxes with the fewest, otherwise
// with the fewest that are not in hand; of such with the least packing.
type BlockPlan struct {
	Tops    []TopPlan // in the order given
	Used    []int     // by line of stock, of all tops
	Short   []int     // by line of stock, how many are not in hand
	Boxes   int
	Proven  bool     // no way takes less, with what is assumed
	Assumed []string // what the plan takes for granted, in words
}

// TopPlan is one top of its kind.
type TopPlan struct {
	Top     int // in the list of tops given
	ID      string
	Count   int
	Layers  []Layer // from the floor up
	Boxes   int     // of one such top
	Packing float64 // what is left between the uppermost layer and the top
	Plates  []float64
	Left    float64 // of Packing, what no plates make up
	// Bare says that the packing is more than it may be: no stack of boxes comes as near as it should.
	Bare bool
}

// Layer is a grid of boxes that lie alike: Length and Width are a box's sides along the top's, Height the
// layer's.
type Layer struct {
	Box                   int // in the list of boxes given
	Name                  string
	Length, Width, Height float64
	AlongLength           int     // boxes along the top's length
	AlongWidth            int     // rows along its width
	GapLength, GapWidth   float64 // between neighbours
}

// Blocks plans which boxes carry tops. Every layer under a top is a grid of boxes that lie alike, spread
// evenly to the top's edges; each box rests on those under it to both sides of its middle.
func Blocks(stock []Box, tops []Top, opt BlockOptions) (*BlockPlan, error) {
	if err := checkBlocks(stock, tops, opt); err != nil {
		return nil, err
	}
	j := newBlockJob(stock, tops, opt)
	return j.plan(), nil
}

func checkBlocks(stock []Box, tops []Top, opt BlockOptions) error {
	var f Faults
	for i, b := range stock {
		switch {
		case !measure(b.Length) || !measure(b.Width) || !measure(b.Height):
			f.stock(i, "", "box %s: %v × %v × %v is no size", b.Name, b.Length, b.Width, b.Height)
		case b.Count < 0:
			f.stock(i, "leave the count out for any number", "box %s: a count of %d", b.Name, b.Count)
		}
	}
	if len(stock) == 0 {
		f.stock(-1, "give a line of `stock`", "there are no boxes to stack")
	}
	if len(stock) > mostLines {
		f.stock(-1, "", "more than %d kinds of boxes", mostLines)
	}
	total := 0
	for i, t := range tops {
		switch {
		case !measure(t.Length) || !measure(t.Width) || !measure(t.Height):
			f.piece(i, "", "top %s: %v × %v at %v is no size", t.ID, t.Length, t.Width, t.Height)
		case t.Height > mostHeight:
			f.piece(i, "", "top %s: %s is higher than boxes are stacked here, %s", t.ID, mm(t.Height), mm(mostHeight))
		case t.Count < 1:
			f.piece(i, "", "top %s: a count of %d", t.ID, t.Count)
		}
		if total += max(0, min(t.Count, mostPieces+1)); total > mostPieces {
			f.piece(i, "divide the list", "more than %d tops", mostPieces)
			break
		}
	}
	for _, v := range append([]float64{opt.Span, opt.Edge, opt.Out, opt.Packing}, opt.Plates...) {
		if !(v >= 0 && v <= longest) {
			f.stock(-1, "", "a measure of %v for gaps, edges or packing", v)
		}
	}
	return f.err()
}

const (
	mostLines  = 8     // kinds of boxes
	mostHeight = 10000 // of a top
)

// blockJob is what Blocks works on.
type blockJob struct {
	stock  []Box
	tops   []Top
	opt    BlockOptions
	proven bool
}

func newBlockJob(stock []Box, tops []Top, opt BlockOptions) *blockJob {
	if opt.Span == 0 {
		opt.Span = 400
	}
	if opt.Edge == 0 {
		opt.Edge = 50
	}
	if opt.Packing == 0 {
		opt.Packing = longest
		for _, b := range stock {
			opt.Packing = min(opt.Packing, b.Length, b.Width, b.Height)
		}
		opt.Packing -= 2 * geom.Tolerance
	}
	opt.Plates = slices.Clone(opt.Plates)
	slices.SortFunc(opt.Plates, func(a, b float64) int { return cmp.Compare(b, a) })
	return &blockJob{stock: stock, tops: tops, opt: opt, proven: true}
}

func (j *blockJob) assumed() []string {
	out := []string{
		"every layer under a top is a grid of boxes lying alike, spread evenly to its edges",
		fmt.Sprintf("gaps between the boxes of a layer are at most %s, and a top reaches at most %s over its outermost boxes", mm(j.opt.Span), mm(j.opt.Edge)),
		"each box rests on the boxes under it on both sides of its middle",
		"boxes are alike, square and sound; what they carry and how they are fixed to each other is not looked at",
	}
	if j.opt.Out > 0 {
		out = append(out, fmt.Sprintf("boxes may stand out %s from under a top", mm(j.opt.Out)))
	} else {
		out = append(out, "no box stands out from under its top")
	}
	return out
}

// layers are the grids of each box and orientation that can lie under a top, each of the fewest boxes.
func (j *blockJob) layers(t Top) []Layer {
	var out []Layer
	for i, b := range j.stock {
		s := [3]float64{b.Length, b.Width, b.Height}
		var seen [][3]float64
		for _, p := range [6][3]int{{0, 1, 2}, {1, 0, 2}, {0, 2, 1}, {2, 0, 1}, {1, 2, 0}, {2, 1, 0}} {
			way := [3]float64{s[p[0]], s[p[1]], s[p[2]]}
			if slices.Contains(seen, way) {
				continue
			}
			seen = append(seen, way)
			nl, gl, ok := j.spread(t.Length, way[0])
			nw, gw, fits := j.spread(t.Width, way[1])
			if ok && fits && way[2] <= t.Height+geom.Tolerance {
				out = append(out, Layer{Box: i, Name: b.Name, Length: way[0], Width: way[1], Height: way[2],
					AlongLength: nl, AlongWidth: nw, GapLength: gl, GapWidth: gw})
			}
		}
	}
	return out
}

// spread is how few boxes of a side lie along one side of a top, and the gap between them.
func (j *blockJob) spread(side, box float64) (n int, gap float64, ok bool) {
	if box > side+2*j.opt.Out+geom.Tolerance {
		return 0, 0, false
	}
	if side-box <= 2*j.opt.Edge+geom.Tolerance {
		return 1, 0, true
	}
	// n boxes and n-1 gaps reach to within Edge of both ends.
	for n = 2; ; n++ {
		room := side - float64(n)*box
		if room < -2*j.opt.Out-geom.Tolerance {
			return 0, 0, false
		}
		if room-2*j.opt.Edge <= float64(n-1)*j.opt.Span+geom.Tolerance {
			return n, min(j.opt.Span, max(0, room)/float64(n-1)), true
		}
		if n >= mostPieces {
			return 0, 0, false
		}
	}
}

// rests says whether every box of a row of n, with gaps, rests on boxes of the row under it on both sides of
// its middle. Both rows are in the middle of a side.
func rests(n int, box, gap float64, under int, base, baseGap float64) bool {
	begin := func(n int, box, gap float64) float64 { return -(float64(n)*box + float64(n-1)*gap) / 2 }
	from := begin(n, box, gap)
	first := begin(under, base, baseGap)
	for i := range n {
		a := from + float64(i)*(box+gap)
		mid := a + box/2
		left, right := false, false
		for k := range under {
			b := first + float64(k)*(base+baseGap)
			lo, hi := max(a, b), min(a+box, b+base)
			if hi-lo <= geom.Tolerance {
				continue
			}
			left = left || lo < mid-geom.Tolerance
			right = right || hi > mid+geom.Tolerance
		}
		if !left || !right {
			return false
		}
	}
	return true
}

func (l *Layer) restsOn(under *Layer) bool {
	return rests(l.AlongLength, l.Length, l.GapLength, under.AlongLength, under.Length, under.GapLength) &&
		rests(l.AlongWidth, l.Width, l.GapWidth, under.AlongWidth, under.Width, under.GapWidth)
}

func (l *Layer) boxes() int { return l.AlongLength * l.AlongWidth }
