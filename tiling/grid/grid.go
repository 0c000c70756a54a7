// Package grid lays full-size drawings over pages: sheets that lap or butt, or strips of a roll.
//
// The floor is one grid for all its pieces; each face and each side is a grid of its own. A grid is plain: all its
// windows are of one size and one step apart. Its origin and whether its sheets stand or lie are chosen for the fewest
// pages, and windows with nothing on them are no pages.
//
// A place of a drawing is in its view's millimetres, a place on a page in millimetres from the paper's lower left corner; a
// page's window is what its live area shows, and between the two lies nothing but a shift.
package grid

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/paper"
)

// DefaultLap is how far a page lies over the next in millimetres, unless asked otherwise.
const DefaultLap = 10.0

// leastLive is the least live area in millimetres, each way, that holds what every page must say.
const leastLive = 60.0

// Info is what pages say of their set.
type Info struct {
	Set, Production string
	Letter, Date    string // of the issue; empty for none
	Trial           bool
	Units           unit.System
	Sides           table.Sides
	Cautions        map[string]string // by element: the line that stands on every page which shows it
	// Scale is the set's millimetres to one of the drawings', which are laid out at their own size; 0 for drawings at full size.
	// Ticks then give the set's distances.
	Scale      float64
	ScaleWords string // "1:25"
}

// scale is how many of the set's millimetres one of the drawings' is.
func (in *Info) scale() float64 {
	if in.Scale > 0 {
		return in.Scale
	}
	return 1
}

// scaleWords is the scale as people write it.
func (in *Info) scaleWords() string {
	if in.Scale > 0 {
		return in.ScaleWords
	}
	return "1:1"
}

// size says in capitals at what size a page is.
func (in *Info) size() string {
	if in.Scale > 0 {
		return "SCALE " + in.ScaleWords
	}
	return "FULL SIZE 1:1"
}

// Options say what to print on.
type Options struct {
	Paper   paper.Paper
	Margins paper.Margins
	Lap     float64  // millimetres; 0 for butt edges
	Names   []string // only pages that show one of these elements; none for all

	// Since is the grids of an earlier issue. A grid of the same view and piece stays where it was, and its columns and rows keep
	// their names, unless it goes on other paper, with other margins or another lap. Records of other documents are passed over.
	Since  []GridRecord
	Stamps tiling.Stamps // which pages that issue has, and when they were drawn
}

// grid is the pages of one view.
type grid struct {
	view, name  string
	prefix      string // of its labels: "floor", "pilot", "front side"
	title, hold string
	datum       drawing.Datum
	owners      []string
	ink         ink

	info    *Info
	size    tiling.Size // of its sheets; of a roll's strips only the side across counts
	margins paper.Margins
	live    geom.Point // of its windows
	lap     float64
	step    geom.Point
	strips  *strips // of a roll; nil for sheets

	base    geom.Point // where the window of place 0, 0 begins; see GridRecord
	first   [2]int     // places of the first column and row that are printed
	columns Ruling
	lines   Ruling      // of its rows; of a roll none
	was     *GridRecord // the earlier grid that it keeps; nil for none
	bare    bool        // a page that the earlier issue has shows no seam where it has a neighbour now
	stamps  []stamp     // of its pages; the first is this issue's own
	sums    [][32]byte  // digests of its cells, where they are worked out beforehand
	inkSum  string      // see inkDigest

	cells   []cell
	place   *plane
	bins    bins
	cols    int // columns and rows from the first to the last that is printed
	rows    int
	empty   int // windows between those that carry nothing
	printed int // cells that become pages

	kit *kit // the furniture that its pages share
}

// Plan is every page of a set's full-size paper.
type Plan struct {
	info   Info
	opt    Options
	grids  []*grid
	pages  []pageRef
	shows  [][]*tiling.Show // artwork of each of pages
	cover  []tiling.CoverPage
	size   tiling.Size // of the cover
	shown  [][][]int32 // see index
	hidden int         // pages left out because they do not show the names asked for
}

// pageRef is a page's grid and its cell there.
type pageRef struct{ grid, cell int32 }

// Build lays drawings over pages. All drawings of the view "floor" share one grid; every other drawing has its own. The
// error says what would do where the paper is too small, the lap too wide, a name is not drawn, or the pages are too many.
func Build(drawings []*drawing.Drawing, info Info, opt Options) (*Plan, error) {
	if err := checkLap(opt.Lap); err != nil {
		return nil, err
	}
	for i := range opt.Since {
		if err := opt.Since[i].Check(); err != nil {
			return nil, err
		}
	}
	p := &Plan{info: info, opt: opt}
	sums := tiling.ImageSums{}
	for _, d := range drawings {
		p.take(d, sums)
	}
	total := 0
	p.grids = slices.DeleteFunc(p.grids, func(g *grid) bool { return g.ink.bounds.Empty() })
	p.matchGrids()
	for _, g := range p.grids {
		if err := g.lay(opt); err != nil {
			return nil, err
		}
		if total += len(g.cells); total > MostPages {
			return nil, tooMany(opt)
		}
	}
	if len(p.grids) == 0 {
		return nil, fmt.Errorf("nothing is drawn full size: write `full-size floor` (or face, or side) under a piece")
	}
	p.nameGrids()
	for _, g := range p.grids {
		g.number()
		g.bin()
	}
	p.stamp()
	if err := p.order(); err != nil {
		return nil, err
	}
	p.makeShows()
	for _, g := range p.grids {
		g.kit = newKit(g, p)
	}
	p.makeCover()
	return p, nil
}

func checkLap(lap float64) error {
	if !(lap >= 0) || math.IsInf(lap, 0) {
		return fmt.Errorf("a lap is 0 (butt edges) or more")
	}
	return nil
}

func tooMany(opt Options) error {
	larger := "larger paper or a roll"
	if opt.Paper.Roll {
		larger = "a wider roll"
	}
	return fmt.Errorf("more than %d pages of %s: print fewer pieces at a time, or on %s", MostPages, opt.Paper.Name, larger)
}

// take puts a drawing into its grid, or into a new one. Sums are those of the artwork of all drawings.
func (p *Plan) take(d *drawing.Drawing, sums tiling.ImageSums) {
	if d == nil {
		return
	}
	var g *grid
	if d.View == "floor" {
		for _, have := range p.grids {
			if have.view == "floor" {
				g = have
			}
		}
	}
	if g == nil {
		g = &grid{view: d.View, name: d.Name, title: d.Title, hold: d.Hold, datum: d.Datum, info: &p.info}
		g.ink.bounds, g.ink.sums = geom.EmptyRect(), sums
		p.grids = append(p.grids, g)
	}
	known := make(map[string]int32, len(g.owners)+len(d.Owners))
	for i, o := range g.owners {
		known[o] = int32(i)
	}
	owners := make([]int32, len(d.Owners))
	for i, o := range d.Owners {
		at, ok := known[o]
		if !ok {
			at = int32(len(g.owners))
			known[o] = at
			g.owners = append(g.owners, o)
		}
		owners[i] = at
	}
	g.ink.add(d, owners, nil)
}

// lay chooses how the grid's paper lies and where its origin is.
func (g *grid) lay(opt Options) error {
	b := g.ink.bounds
	if !(b.W() < 4e7 && b.H() < 4e7) { // not a number, too
		return fmt.Errorf("%s: the drawing is more than 40 km across", g.title)
	}
	if opt.Paper.Roll {
		return g.layStrips(opt)
	}
	if done, err := g.layAsBefore(opt); done || err != nil {
		return err
	}
	g.was = nil
	upright, margins := opt.Paper, opt.Margins
	var s sieve
	best, err := g.layOn(&s, upright.W, upright.H, margins, opt)
	lying, err2 := g.layOn(&s, upright.H, upright.W, margins.Turned(), opt)
	switch {
	case err != nil && err2 != nil:
		return err
	case err != nil, err2 == nil && lying.better(best):
		best = lying
	}
	if best.err != nil {
		return tooMany(opt)
	}
	g.size, g.margins, g.live, g.step = best.size, best.margins, best.live, best.step
	g.lap = opt.Lap
	c0, r0 := math.MaxInt, math.MaxInt
	for _, c := range best.found.cells {
		c0, r0 = min(c0, c[0]), min(r0, c[1])
	}
	g.base = best.found.origin.Add(geom.Point{X: float64(c0) * g.step.X, Y: float64(r0) * g.step.Y})
	return g.settle(&s, opt)
}

// half is half the width of the widest line that the grid keeps whole. It is never less than that of what is cut, so that a piece
// with wider lines than the others moves nothing.
func (g *grid) half() float64 { return max(g.ink.half, drawing.WideLine/2) }

// choice is one way to lay sheets.
type choice struct {
	size       tiling.Size
	margins    paper.Margins
	live, step geom.Point
	found      found
	err        error
}

// better prefers fewer pages, then the bounds nearer the middle.
func (c choice) better(d choice) bool {
	if c.err != nil || d.err != nil {
		return c.err == nil && d.err != nil
	}
	if n := cmp.Compare(len(c.found.cells), len(d.found.cells)); n != 0 {
		return n < 0
	}
	return false
}

// layOn finds the best origin for sheets of w × h. Its error says that the paper leaves no room; a choice's, that the pages
// are too many.
func (g *grid) layOn(s *sieve, w, h float64, m paper.Margins, opt Options) (choice, error) {
	lw, lh, err := m.Live(w, h, leastLive, leastLive)
	if err != nil {
		return choice{}, err
	}
	if most := min(lw, lh) / 3; opt.Lap > most {
		return choice{}, fmt.Errorf("a lap of %s mm is too wide for a live area of %s × %s mm: %s mm or less would do",
			unit.FormatNumber(opt.Lap, 0.1), unit.FormatNumber(lw, 0.1), unit.FormatNumber(lh, 0.1), unit.FormatNumber(math.Floor(most), 1))
	}
	c := choice{size: tiling.Size{W: w, H: h}, margins: m, live: geom.Point{X: lw, Y: lh}}
	c.step = c.live.Sub(geom.Point{X: opt.Lap, Y: opt.Lap})
	s.reset(c.live, opt.Lap, g.half(), g.ink.bounds)
	s.walk(&g.ink)
	c.found, c.err = s.solve(g.ink.bounds)
	return c, nil
}

// order lists the pages to print: all, or those that show the names asked for.
func (p *Plan) order() error {
	wanted := map[string]bool{}
	for _, n := range p.opt.Names {
		wanted[n] = false
	}
	for gi, g := range p.grids {
		var asked []bool
		if len(p.opt.Names) > 0 {
			asked = make([]bool, len(g.owners))
			for i, o := range g.owners {
				if _, ok := wanted[o]; ok {
					asked[i], wanted[o] = true, true
				}
			}
		}
		for ci := range g.cells {
			if asked != nil && !g.shows(int32(ci), asked) {
				p.hidden++
				continue
			}
			p.pages = append(p.pages, pageRef{int32(gi), int32(ci)})
			g.printed++
		}
	}
	for _, n := range p.opt.Names {
		if !wanted[n] {
			return fmt.Errorf("`%s` is not drawn full size; what is: %s", n, strings.Join(p.drawn(), ", "))
		}
	}
	return nil
}

// printed returns the grids that have a page: all, unless names were asked for.
func (p *Plan) printed() []*grid {
	return slices.DeleteFunc(slices.Clone(p.grids), func(g *grid) bool { return g.printed == 0 })
}

// drawn lists every element that is drawn full size, at most twenty.
func (p *Plan) drawn() []string {
	var names []string
	for _, g := range p.grids {
		for _, o := range g.owners {
			if !slices.Contains(names, o) {
				if len(names) == 20 {
					return append(names, "…")
				}
				names = append(names, o)
			}
		}
	}
	return names
}

// shows reports whether a cell shows anything of the owners asked for.
func (g *grid) shows(ci int32, asked []bool) bool {
	found := false
	g.ownersOf(ci, func(o int32) {
		found = found || asked[o]
	})
	return found
}

// ownersOf visits the owner of everything that a cell shows, names aside, an owner as often as it occurs.
func (g *grid) ownersOf(ci int32, visit func(o int32)) {
	for _, r := range g.bins.of(ci) {
		if o := g.ink.tracks[r.track].mark.Owner; o >= 0 {
			visit(o)
		}
	}
	if g.bins.words != nil {
		for _, w := range g.bins.words[ci] {
			if k := &g.ink.words[w]; k.mark.Owner >= 0 && counts(k) {
				visit(k.mark.Owner)
			}
		}
	}
	if g.bins.pictures != nil {
		for _, i := range g.bins.pictures[ci] {
			if o := g.ink.pictures[i].Owner; o >= 0 {
				visit(o)
			}
		}
	}
	if g.bins.areas != nil {
		for _, a := range g.bins.areas[ci] {
			if o := g.ink.areas[a].mark.Owner; o >= 0 {
				visit(o)
			}
		}
	}
}
