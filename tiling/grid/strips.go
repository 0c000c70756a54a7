package grid

import (
	"fmt"
	"math"
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
	along int            // 0: strips run along x, 1: along y
	first []int32        // of each strip across, where its parts begin among the cells; one more at the end
	each  float64        // to what their ends are rounded along
	sides []sides        // of each cell
	parts map[int][]Part // by a strip's place: every window that ever was
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

// joins says where strips that are too long for one page are cut: a step apart from one place on, whatever the strip, so that what
// is added at its end moves no join.
type joins struct{ at, step float64 }

// joinsOf returns the joins of a roll whose strips are counted from so much along, and whose windows are so long at most. They stand
// where crosses along the edges do, so that the strips beside show them, and so near one another that no part need be too short.
func joinsOf(along, most, lap float64) joins {
	return joins{
		at:   math.Round(along/crossEvery) * crossEvery,
		step: math.Floor((most-lap-2*stripLeast)/crossEvery) * crossEvery,
	}
}

// join appends the windows of one stretch, which lap where it is too long for one: each goes up to the last join that it can reach
// and that leaves enough for the next.
func (r *roller) join(out []stretch, s stretch, j joins) []stretch {
	inset := seamInset(r.lap)
	for s.to-s.from > r.most {
		reach := min(s.from+r.most+inset-r.lap, s.to-stripLeast+inset)
		seam := j.at + math.Floor((reach-j.at)/j.step)*j.step
		out = append(out, stretch{s.from, seam - inset + r.lap})
		s.from = seam - inset
	}
	return append(out, s)
}

// bed is a roll as strips lie on it one way.
type bed struct {
	margins paper.Margins
	live    float64 // across
	most    float64 // the longest window
	ends    float64 // margins at both ends together
}

// bedOf returns how strips lie that run along x (0) or y (1).
func bedOf(along int, opt Options) (bed, error) {
	m := opt.Margins
	b := bed{margins: m, live: opt.Paper.W - m.Left - m.Right, ends: m.Bottom + m.Top}
	if along == 0 {
		m = m.Turned()
		b = bed{margins: m, live: opt.Paper.W - m.Bottom - m.Top, ends: m.Left + m.Right}
	}
	b.most = paper.Longest - b.ends
	if least := 2*stripLeast + crossEvery + opt.Lap; b.live < leastLive || b.most < least {
		_, _, err := m.Live(opt.Paper.W, paper.Longest, leastLive, least)
		if err == nil {
			err = fmt.Errorf("margins of %s mm and more leave no room on a roll of %s mm", unit.FormatNumber(min(m.Left, m.Right), 0.1), unit.FormatNumber(opt.Paper.W, 0.1))
		}
		return b, err
	}
	if opt.Lap > b.live/3 {
		return b, fmt.Errorf("a lap of %s mm is too wide for a roll of %s mm: %s mm or less would do",
			unit.FormatNumber(opt.Lap, 0.1), unit.FormatNumber(opt.Paper.W, 0.1), unit.FormatNumber(math.Floor(b.live/3), 1))
	}
	return b, nil
}

// layStrips chooses the way that a roll lies and its origin across for the least paper and work.
func (g *grid) layStrips(opt Options) error {
	if done, err := g.stripsAsBefore(opt); done || err != nil {
		return err
	}
	g.was = nil
	var best *roller
	var least float64
	var lies bed
	var all []stretch
	for _, along := range [2]int{1, 0} {
		b, err := bedOf(along, opt)
		if err != nil {
			return err
		}
		r := newRoller(along, b.live, opt.Lap, g.half(), b.most, g.ink.bounds)
		r.walk(&g.ink)
		if r.full {
			return tooMany(opt)
		}
		for i := range origins {
			first := math.MaxInt
			all = all[:0]
			r.cut(i, func(c int, s []stretch) {
				first = min(first, c)
				all = append(all, s...)
			})
			at, length := r.bestJoins(all, b, opt.Lap)
			if best == nil || length < least-geom.Tolerance {
				best, least, lies = r, length, b
				g.base = r.point(at, r.base+float64(i)*r.axis.f+float64(first)*(b.live-opt.Lap))
			}
		}
	}
	return g.settleStrips(best.along, best.each, lies, opt)
}

// bestJoins returns from where along them strips are best counted, of places that are whole steps of each from the roller's own, and
// what paper and work their windows then take, as a length.
func (r *roller) bestJoins(all []stretch, b bed, lap float64) (at, least float64) {
	at, least = r.start, math.Inf(1)
	long := slices.ContainsFunc(all, func(s stretch) bool { return s.to-s.from > b.most })
	for k := 0.0; k*crossEvery < joinsOf(0, b.most, lap).step; k++ {
		try := r.start + math.Round(k*crossEvery/r.each)*r.each
		j := joinsOf(try, b.most, lap)
		length := 0.0
		for _, s := range all {
			for _, p := range r.join(nil, s, j) {
				length += p.to - p.from + b.ends + stripWork
			}
		}
		if length < least-geom.Tolerance {
			at, least = try, length
		}
		if !long {
			break
		}
	}
	return at, least
}

// settleStrips lists the strips of a roll whose way and base are known, as settle does for sheets.
func (g *grid) settleStrips(along int, each float64, b bed, opt Options) error {
	r := newRollerAt(g.base, along, each, b.live, opt.Lap, g.half(), b.most, g.ink.bounds)
	if r == nil {
		return tooMany(opt)
	}
	r.walk(&g.ink)
	if r.full {
		return tooMany(opt)
	}
	g.strips = &strips{along: along, each: each, parts: g.was.parts()}
	g.size, g.margins, g.lap = tiling.Size{W: opt.Paper.W, H: opt.Paper.W}, b.margins, opt.Lap
	step := b.live - opt.Lap
	// Steps along have no meaning: parts are numbered.
	g.live, g.step = r.point(b.live, b.live), r.point(step, step)
	along0, base := r.alongOf(g.base)
	j := joinsOf(along0, b.most, opt.Lap)
	r.cut(0, func(c int, s []stretch) {
		var windows []stretch
		for _, w := range s {
			windows = r.join(windows, w, j)
		}
		u := base + float64(c)*step
		for k, n := range g.strips.number(c, windows) {
			w := windows[k]
			g.cells = append(g.cells, cell{c: c, r: k, part: n, win: geom.Rect{Min: r.point(w.from, u), Max: r.point(w.to, u+b.live)}})
		}
	})
	if len(g.cells) > MostPages {
		return tooMany(opt)
	}
	return nil
}

// sides are the stretches along a strip where others lie beside it.
type sides struct{ left, right [][2]float64 }

// hold reports whether s has every stretch of t.
func (s sides) hold(t sides) bool {
	return !slices.ContainsFunc(t.left, func(x [2]float64) bool { return !slices.Contains(s.left, x) }) &&
		!slices.ContainsFunc(t.right, func(x [2]float64) bool { return !slices.Contains(s.right, x) })
}

// ends returns where a cell's window begins and ends along its strip.
func (s *strips) ends(c *cell) (from, to float64) {
	from, _ = s.alongOf(c.win.Min)
	to, _ = s.alongOf(c.win.Max)
	return from, to
}

// stripNeighbours notes for each strip which strips it is joined to and lies beside, by the sides of the page.
func (g *grid) stripNeighbours() {
	s := g.strips
	before, after, left, right := s.bits()
	s.first = make([]int32, g.cols+1)
	for i := range g.cells {
		s.first[g.cells[i].c+1] = int32(i + 1)
	}
	for c := range g.cols {
		s.first[c+1] = max(s.first[c+1], s.first[c])
	}
	s.sides = make([]sides, len(g.cells))
	for i := range g.cells {
		c := &g.cells[i]
		from, to := s.ends(c)
		for j := s.first[max(c.c-1, 0)]; j < s.first[min(c.c+2, g.cols)]; j++ {
			d := &g.cells[j]
			if i == int(j) || !c.win.Overlaps(d.win) {
				continue
			}
			n0, n1 := s.ends(d)
			common := [2]float64{max(n0, from), min(n1, to)}
			switch {
			case d.c < c.c:
				c.near |= left
				s.sides[i].left = append(s.sides[i].left, common)
			case d.c > c.c:
				c.near |= right
				s.sides[i].right = append(s.sides[i].right, common)
			case d.r < c.r:
				c.near |= before
			default:
				c.near |= after
			}
		}
	}
}

// over appends the strips among a grid's cells whose windows a box touches.
func (s *strips) over(g *grid, box geom.Rect, dst []int32) []int32 {
	_, u0 := s.alongOf(box.Min)
	_, u1 := s.alongOf(box.Max)
	_, base := s.alongOf(g.base)
	_, step := s.alongOf(g.step)
	_, live := s.alongOf(g.live)
	c0 := max(int(math.Ceil((u0-live-base)/step-1e-9))-g.first[0], 0)
	c1 := min(int(math.Floor((u1-base)/step+1e-9))-g.first[0], g.cols-1)
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
