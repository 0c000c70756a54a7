package grid

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"markout/layout/geom"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/paper"
)

// Measures of roll strips, millimetres.
const (
	stripPad   = 15.0  // paper beyond what is drawn, at each end
	stripLeast = 200.0 // the shortest window, which holds what a page must say
	stripGap   = 400.0 // where so much of a strip would be blank, it is cut in two
	crossEvery = 500.0 // crosses along a strip's long edges, counted from the view's 0
)

// strips is how a roll lies over the drawing.
type strips struct {
	along int     // 0: strips run along x, 1: along y
	first []int32 // of each strip across, where its parts begin among the cells; one more at the end
	each  float64 // to what their ends are rounded along
}

// alongOf returns the coordinate along a strip, and the one across it.
func (s *strips) alongOf(p geom.Point) (along, across float64) {
	if s.along == 0 {
		return p.X, p.Y
	}
	return p.Y, p.X
}

// point is the inverse of alongOf.
func (s *strips) point(along, across float64) geom.Point {
	if s.along == 0 {
		return geom.Point{X: along, Y: across}
	}
	return geom.Point{X: across, Y: along}
}

// roller measures how much of a roll each origin across it would use: in each of the intervals across (as sieve has them) a bit
// for every few millimetres along.
type roller struct {
	strips
	axis    sieveAxis
	base    float64 // across
	start   float64 // along
	words   int
	lap     float64
	butt    bool
	ink     [][]uint64
	taken   int // words
	full    bool
	most    float64 // longest window
	margins float64 // at both ends of a strip together
	moved   int     // of an earlier grid: the place of the first strip
}

// A roller's sizes: words for one interval across, and for all of them.
const (
	mostRollWords = 1 << 12
	mostRollInk   = 1 << 24
)

// stripWork is the length of paper that one strip less is worth: it need not be cut, trimmed, laid and taped (common
// practice, no source).
const stripWork = 500.0

// newRoller makes a roller over bounds b. Where an earlier grid is given, the first origin is its own, and strips end where they would
// have ended there.
func newRoller(along int, live, lap, half, most, margins float64, b geom.Rect, was *GridRecord) *roller {
	r := &roller{strips: strips{along: along}, lap: lap, butt: lap < 2*half, most: most, margins: margins}
	a0, c0 := r.alongOf(b.Min)
	a1, c1 := r.alongOf(b.Max)
	step := live - lap
	r.base = c0 - half - hair - step
	if was != nil {
		_, at := r.alongOf(geom.Point{X: was.Origin[0], Y: was.Origin[1]})
		r.moved = int(math.Floor((r.base - at) / step))
		r.base = at + float64(r.moved)*step
	}
	over, inset := lap-2*half, half
	if r.butt {
		over, inset = lap+2*half, -half
	}
	f := step / origins
	m := math.Floor(over / f)
	r.axis = sieveAxis{f: f, m: int(m), rest: over/f - m, shift: r.base + inset}
	n := (int((c1-c0+2*half)/step) + 5) * fine
	r.start = math.Floor(a0 - half)
	r.each = 5
	if was != nil {
		at, _ := r.alongOf(geom.Point{X: was.Origin[0], Y: was.Origin[1]})
		r.each = was.Each
		r.start = at + math.Floor((r.start-at)/r.each)*r.each
	}
	for r.words = r.width(a1 + half); r.words > mostRollWords; r.words = r.width(a1 + half) {
		r.each *= 2
	}
	r.ink = make([][]uint64, n)
	return r
}

func (r *roller) width(end float64) int { return int((end-r.start)/r.each)/64 + 1 }

// line takes in a straight line of so much half width.
func (r *roller) line(p, q geom.Point, half float64) {
	av, au := r.alongOf(p)
	bv, bu := r.alongOf(q)
	au, bu = r.axis.scale(au), r.axis.scale(bu)
	if au > bu {
		av, au, bv, bu = bv, bu, av, au
	}
	e0, e1 := r.axis.index(au), r.axis.index(bu)
	from := av
	for e := e0; e < e1; e++ {
		to := av + (r.axis.end(e)-au)/(bu-au)*(bv-av)
		r.span(e, from, to, half)
		from = to
	}
	r.span(e1, from, bv, half)
}

func (r *roller) span(e int, a, b, half float64) {
	if a > b {
		a, b = b, a
	}
	if r.ink[e] == nil {
		if r.taken += r.words; r.taken > mostRollInk {
			r.full = true
			return
		}
		r.ink[e] = make([]uint64, r.words)
	}
	lo := max(int((a-half-r.start)/r.each), 0)
	hi := min(int((b+half-r.start)/r.each), r.words*64-1)
	for w := lo / 64; w <= hi/64; w++ {
		from, to := max(lo-w*64, 0), min(hi-w*64, 63)
		r.ink[e][w] |= ^uint64(0) >> (63 - (to - from)) << from
	}
}

// walk takes in everything that ink puts on paper.
func (r *roller) walk(k *ink) {
	for i := range k.tracks {
		t := &k.tracks[i]
		a := k.at(t, 0)
		for s := range t.segments() {
			b := k.at(t, s+1)
			r.line(a, b, t.width/2)
			a = b
		}
	}
	for i := range k.words {
		if w := &k.words[i]; counts(w) {
			r.ring(w.corners[:])
		}
	}
	for i := range k.areas {
		r.fill(k.areas[i].rings)
	}
	for i := range k.pictures {
		for _, b := range k.pictures[i].boxes {
			r.fill([][]geom.Point{ringOf(b)})
		}
	}
}

// fill takes in the inside of closed rings by the even-odd rule, and their edges.
func (r *roller) fill(rings [][]geom.Point) {
	lo, hi := math.Inf(1), math.Inf(-1)
	turned := make([][]geom.Point, len(rings))
	for i, ring := range rings {
		r.ring(ring)
		for _, p := range ring {
			v, u := r.alongOf(p)
			u = r.axis.scale(u)
			lo, hi = min(lo, u), max(hi, u)
			turned[i] = append(turned[i], geom.Point{X: v, Y: u})
		}
	}
	if lo > hi {
		return
	}
	for e := r.axis.index(lo); e <= r.axis.index(hi); e++ {
		cuts := crossings(turned, r.axis.middle(e), nil)
		for i := 0; i+1 < len(cuts); i += 2 {
			r.span(e, cuts[i], cuts[i+1], 0)
		}
	}
}

func (r *roller) ring(ps []geom.Point) {
	for i, a := range ps {
		r.line(a, ps[(i+1)%len(ps)], 0)
	}
}

// stretch is a window along a strip.
type stretch struct{ from, to float64 }

// cut returns the strips of origin i: of each that is wanted, its number across and its windows along.
func (r *roller) cut(i int, visit func(c int, s []stretch)) {
	n := len(r.ink) / fine
	m := r.axis.m
	wanted := make([]bool, n+1)
	for c := range n {
		k := fine*c + 2*i
		own, lap := r.any(k+2*m+1, k+fine-1), r.any(k, k+2*m)
		if own || r.butt && lap {
			wanted[c] = true
		}
		if lap && c > 0 && (r.butt || !wanted[c-1] && !own) {
			// On the lap alone: either strip shows it whole; of butt edges both are wanted.
			if r.butt {
				wanted[c-1] = true
			} else {
				wanted[c] = true
			}
		}
	}
	all := make([]uint64, r.words)
	for c := range n {
		if !wanted[c] {
			continue
		}
		clear(all)
		k := fine*c + 2*i
		for e := k; e <= k+fine+2*m && e < len(r.ink); e++ {
			for w, b := range r.ink[e] {
				all[w] |= b
			}
		}
		visit(c, r.stretches(all))
	}
}

func (r *roller) any(from, to int) bool {
	for e := from; e <= to && e < len(r.ink); e++ {
		if r.ink[e] != nil {
			return true
		}
	}
	return false
}

// stretches returns the windows that show every bit: apart where a gap is wide, joined where one would be too long.
func (r *roller) stretches(all []uint64) []stretch {
	var out []stretch
	from, last := -1, -1
	close := func() {
		if from >= 0 {
			out = r.join(out, r.start+float64(from)*r.each, r.start+float64(last+1)*r.each)
		}
	}
	for w, b := range all {
		for b != 0 {
			at := w*64 + bits.TrailingZeros64(b)
			b &= b - 1
			if from < 0 || float64(at-last)*r.each > stripGap {
				close()
				from = at
			}
			last = at
		}
	}
	close()
	return out
}

// join appends the windows of one stretch. Joins stand where crosses along the edges do, so that the strips beside show them.
func (r *roller) join(out []stretch, from, to float64) []stretch {
	from, to = math.Floor(from-stripPad), math.Ceil(to+stripPad)
	if short := stripLeast - (to - from); short > 0 {
		from, to = math.Floor(from-short/2), math.Ceil(to+short/2)
	}
	inset := seamInset(r.lap)
	parts := 1
	if to-from > r.most {
		parts = int(math.Ceil((to - from) / (r.most - crossEvery - r.lap)))
	}
	begin := from
	for k := 1; k < parts; k++ {
		seam := math.Round((from+(to-from)*float64(k)/float64(parts))/crossEvery) * crossEvery
		out = append(out, stretch{begin, seam - inset + r.lap})
		begin = seam - inset
	}
	return append(out, stretch{begin, to})
}

// rolled reports whether a record's strips were laid on the same roll with the same margins and lap.
func (r *GridRecord) rolled(opt Options) bool {
	m := opt.Margins
	if r.Along == "x" {
		m = m.Turned()
	}
	return (r.Along == "x" || r.Along == "y") && r.Each >= 1 && r.Lap == opt.Lap && r.Size[0] == opt.Paper.W && sameMargins(r, m)
}

// layStrips chooses the way that a roll lies and its origin across for the least paper and work.
func (g *grid) layStrips(opt Options) error {
	type way struct {
		roller  *roller
		i       int
		length  float64
		margins paper.Margins
		live    float64
	}
	var best *way
	tried := origins
	if g.was != nil && !g.was.rolled(opt) {
		g.was = nil
	}
	if g.was != nil {
		tried = 1
	}
	for _, along := range [2]int{1, 0} {
		if g.was != nil && g.was.Along != [2]string{"x", "y"}[along] {
			continue
		}
		m := opt.Margins
		width := opt.Paper.W - m.Left - m.Right
		ends := m.Bottom + m.Top
		if along == 0 {
			m = m.Turned()
			width, ends = opt.Paper.W-m.Bottom-m.Top, m.Left+m.Right
		}
		if width < leastLive || paper.Longest-ends < 2*stripLeast {
			_, _, err := m.Live(opt.Paper.W, paper.Longest, leastLive, 2*stripLeast)
			if err == nil {
				err = fmt.Errorf("margins of %s mm and more leave no room on a roll of %s mm", unit.FormatNumber(min(m.Left, m.Right), 0.1), unit.FormatNumber(opt.Paper.W, 0.1))
			}
			return err
		}
		if opt.Lap > width/3 {
			return fmt.Errorf("a lap of %s mm is too wide for a roll of %s mm: %s mm or less would do",
				unit.FormatNumber(opt.Lap, 0.1), unit.FormatNumber(opt.Paper.W, 0.1), unit.FormatNumber(math.Floor(width/3), 1))
		}
		r := newRoller(along, width, opt.Lap, g.ink.half, paper.Longest-ends, ends, g.ink.bounds, g.was)
		r.walk(&g.ink)
		if r.full {
			return tooMany(opt)
		}
		for i := range tried {
			length := 0.0
			r.cut(i, func(_ int, s []stretch) {
				for _, w := range s {
					length += w.to - w.from + ends + stripWork
				}
			})
			if best == nil || length < best.length-geom.Tolerance {
				best = &way{r, i, length, m, width}
			}
		}
	}
	r := best.roller
	g.strips = &strips{along: r.along, each: r.each}
	g.size, g.margins, g.lap = tiling.Size{W: opt.Paper.W, H: opt.Paper.W}, best.margins, opt.Lap
	step := best.live - opt.Lap
	// Steps along have no meaning: parts are numbered.
	g.live, g.step = r.point(best.live, best.live), r.point(step, step)
	base := r.base + float64(best.i)*r.axis.f
	g.origin = r.point(r.start, base)
	if g.was != nil {
		g.origin = geom.Point{X: g.was.Origin[0], Y: g.was.Origin[1]}
		if g.far() {
			return fmt.Errorf("%s: the drawing lies more than 40 km from where its page grid was", g.title)
		}
	}
	parts := newParts(g.was)
	r.cut(best.i, func(c int, s []stretch) {
		u := base + float64(c)*step
		for k, w := range s {
			if g.was != nil {
				k = parts.name(c+r.moved, w)
			}
			g.cells = append(g.cells, cell{c: c + r.moved, r: k, win: geom.Rect{Min: r.point(w.from, u), Max: r.point(w.to, u+best.live)}})
		}
	})
	if len(g.cells) > MostPages {
		return tooMany(opt)
	}
	slices.SortStableFunc(g.cells, func(a, b cell) int { return cmp.Or(cmp.Compare(a.c, b.c), g.strips.compare(&a, &b)) })
	return nil
}

// stripNeighbours notes for each strip which strips it is joined to and lies beside, by the sides of the page.
func (g *grid) stripNeighbours() {
	before, after, left, right := uint8(nearBelow), uint8(nearAbove), uint8(nearLeft), uint8(nearRight)
	if g.strips.along == 0 {
		before, after, left, right = nearLeft, nearRight, nearBelow, nearAbove
	}
	g.strips.first = make([]int32, g.cols+1)
	for i := range g.cells {
		g.strips.first[g.cells[i].c+1] = int32(i + 1)
	}
	for c := range g.cols {
		g.strips.first[c+1] = max(g.strips.first[c+1], g.strips.first[c])
	}
	for i := range g.cells {
		c := &g.cells[i]
		for j := g.strips.first[max(c.c-1, 0)]; j < g.strips.first[min(c.c+2, g.cols)]; j++ {
			d := &g.cells[j]
			if i == int(j) || !c.win.Overlaps(d.win) {
				continue
			}
			switch {
			case d.c < c.c:
				c.near |= left
			case d.c > c.c:
				c.near |= right
			case g.strips.compare(d, c) < 0:
				c.near |= before
			default:
				c.near |= after
			}
		}
	}
}

// compare orders parts of a strip along it.
func (s *strips) compare(a, b *cell) int {
	x, _ := s.alongOf(a.win.Min)
	y, _ := s.alongOf(b.win.Min)
	return cmp.Compare(x, y)
}

// over appends the strips among a grid's cells whose windows a box touches.
func (s *strips) over(g *grid, box geom.Rect, dst []int32) []int32 {
	_, u0 := s.alongOf(box.Min)
	_, u1 := s.alongOf(box.Max)
	_, origin := s.alongOf(g.origin)
	_, step := s.alongOf(g.step)
	_, live := s.alongOf(g.live)
	c0 := max(int(math.Ceil((u0-live-origin)/step-1e-9)), 0)
	c1 := min(int(math.Floor((u1-origin)/step+1e-9)), g.cols-1)
	for c := c0; c <= c1; c++ {
		for i := s.first[c]; i < s.first[c+1]; i++ {
			if g.cells[i].win.Overlaps(box) {
				dst = append(dst, i)
			}
		}
	}
	return dst
}

// seamInset is how far inside a page's left and lower edge its seam lies: in the middle of the lap, but not so far that a
// wide lap is wasted. Registration crosses stand on seams, their arms as long.
func seamInset(lap float64) float64 { return min(lap/2, 5) }
