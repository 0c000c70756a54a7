package develop_test

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// The closing test: pieces are taken as a maker has them (the cut outline, the edges cut back, the folds, the rolls),
// put where they stand in the made model, and looked at from outside as solids of real thickness. Every joint's two
// lines must be one line, no two solids may have any place in common, and what they enclose must be as large as the
// element is.

type texts map[string]string

func (t texts) Open(name string) (io.ReadCloser, error) {
	s, ok := t[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(bytes.NewReader([]byte(s))), nil
}

func open(t testing.TB, text string) *set.Set {
	t.Helper()
	s, list := layout.Open(texts{"m": text}, "m", layout.Options{})
	require.Empty(t, printed(list))
	return s
}

func printed(list *diag.List) string {
	var b bytes.Buffer
	list.Print(&b, 1000)
	return b.String()
}

// cell is a part of a solid: two loops of corners, one on each face, that correspond one to one, with holes alike.
type cell struct {
	front, back [][]geom.Vec
	rolled      bool // one loop on each face, of places along the lower edge and back along the upper, that match two by two
}

// solid is one piece as it stands in the made model.
type solid struct {
	name  string
	cells []cell
}

// fine is how far curves of a plate are followed: to some hundred chords.
func fine(p *develop.Piece) float64 { return 1e-5 * (p.Outline.Bounds().W() + p.Outline.Bounds().H()) }

// untabbed returns the outline's corners without its tabs.
func untabbed(p *develop.Piece) []geom.Point {
	pts := p.Outline.Outer.Flatten(fine(p), nil)
	for _, tab := range p.Tabs {
		n := len(pts)
		for i := range pts {
			a, b := pts[i], pts[(i+3)%n]
			if a.Near(tab.Base.From) && b.Near(tab.Base.To) || a.Near(tab.Base.To) && b.Near(tab.Base.From) {
				drop := map[int]bool{(i + 1) % n: true, (i + 2) % n: true}
				var kept []geom.Point
				for k, q := range pts {
					if !drop[k] {
						kept = append(kept, q)
					}
				}
				pts = kept
				break
			}
		}
	}
	return pts
}

// solidOf rebuilds a piece from what is printed on it.
func solidOf(p *develop.Piece) solid {
	s := solid{name: p.Label() + " " + p.Name}
	made := func(pts []geom.Point, depth float64) []geom.Vec {
		out := make([]geom.Vec, len(pts))
		for i, q := range pts {
			out[i] = p.Made(q, depth)
		}
		return out
	}
	pts := untabbed(p)
	var upright []develop.Fold
	for _, f := range p.Folds {
		if math.Abs(f.Line.From.X-f.Line.To.X) < 1e-9 && !isTab(p, f.Line) {
			upright = append(upright, f)
		}
	}
	if len(upright) == 0 && len(p.Rolls) == 0 {
		front, back := cutBack(p, pts, false), cutBack(p, pts, true)
		c := cell{front: [][]geom.Vec{made(front, 0)}, back: [][]geom.Vec{made(back, p.Thickness)}}
		for _, h := range p.Outline.Holes {
			hole := h.Flatten(fine(p), nil)
			c.front, c.back = append(c.front, made(hole, 0)), append(c.back, made(hole, p.Thickness))
		}
		s.cells = append(s.cells, c)
		return s
	}
	// A strip: panels between folds and the ends of rolls, rolls in facets of at most 1°.
	front, back := cutBack(p, pts, false), cutBack(p, pts, true)
	bf, bb := box(front), box(back)
	return stripSolid(s, p, upright, bf, bb)
}

// stripSolid builds a strip's cells. On its outer face panels meet at the folds; on the inner face they are mitred.
func stripSolid(s solid, p *develop.Piece, folds []develop.Fold, bf, bb geom.Rect) solid {
	outerDepth, innerDepth := 0.0, p.Thickness
	bo, bi := bf, bb
	if p.Hidden {
		outerDepth, innerDepth = p.Thickness, 0
		bo, bi = bb, bf
	}
	type stop struct{ outer, before, after float64 }
	stops := []stop{{bo.Min.X, bi.Min.X, bi.Min.X}, {bo.Max.X, bi.Max.X, bi.Max.X}}
	for _, f := range folds {
		x, e := f.Line.From.X, p.Thickness*math.Tan(f.Angle/2*math.Pi/180)
		if f.Away == p.Hidden { // folds towards the outer face
			e = -e
		}
		stops = append(stops, stop{x, x - e, x + e})
	}
	for _, r := range p.Rolls {
		for _, x := range [2]float64{r.From, r.To} {
			if !slices.ContainsFunc(stops, func(s stop) bool { return math.Abs(s.outer-x) < 1e-6 }) {
				stops = append(stops, stop{x, x, x})
			}
		}
	}
	slices.SortFunc(stops, func(a, b stop) int {
		switch {
		case a.outer < b.outer:
			return -1
		case a.outer > b.outer:
			return 1
		}
		return 0
	})
	for i := 1; i < len(stops); i++ {
		a, b := stops[i-1], stops[i]
		if b.outer-a.outer < 1e-6 {
			continue
		}
		n := 1
		for _, r := range p.Rolls {
			if mid := (a.outer + b.outer) / 2; mid > r.From && mid < r.To {
				n = int(math.Ceil(2*r.Sweep*(b.outer-a.outer)/(r.To-r.From))) + 1
			}
		}
		if n > 1 {
			s.cells = append(s.cells, rolledCells(p, n, [2]float64{a.outer, b.outer}, [2]float64{a.after, b.before}, outerDepth, innerDepth, bo, bi)...)
			continue
		}
		for k := range n {
			at := func(from, to float64, j int) float64 {
				return from + (to-from)*float64(j)/float64(n)
			}
			quad := func(from, to, depth float64, y geom.Rect) []geom.Vec {
				x0, x1 := at(from, to, k), at(from, to, k+1)
				// The inner face may reach past the fold, on its own panel's plane.
				return []geom.Vec{
					beyond(p, x0, y.Min.Y, depth, a.outer, b.outer), beyond(p, x1, y.Min.Y, depth, a.outer, b.outer),
					beyond(p, x1, y.Max.Y, depth, a.outer, b.outer), beyond(p, x0, y.Max.Y, depth, a.outer, b.outer),
				}
			}
			s.cells = append(s.cells, cell{
				front: [][]geom.Vec{quad(a.outer, b.outer, outerDepth, bo)},
				back:  [][]geom.Vec{quad(a.after, b.before, innerDepth, bi)},
			})
		}
	}
	return s
}

// rolledCells are the cells of a rolled panel, n facets in all, at most 90 in a cell.
func rolledCells(p *develop.Piece, n int, outer, inner [2]float64, outerDepth, innerDepth float64, bo, bi geom.Rect) []cell {
	var out []cell
	for k := 0; k < n; k += 90 {
		to := min(n, k+90)
		loop := func(x [2]float64, depth float64, y geom.Rect) []geom.Vec {
			var low, high []geom.Vec
			for j := k; j <= to; j++ {
				at := x[0] + (x[1]-x[0])*float64(j)/float64(n)
				low = append(low, beyond(p, at, y.Min.Y, depth, outer[0], outer[1]))
				high = append(high, beyond(p, at, y.Max.Y, depth, outer[0], outer[1]))
			}
			slices.Reverse(high)
			return append(low, high...)
		}
		out = append(out, cell{front: [][]geom.Vec{loop(outer, outerDepth, bo)}, back: [][]geom.Vec{loop(inner, innerDepth, bi)}, rolled: true})
	}
	return out
}

// across is section for a rolled cell that stands upright.
func (c cell) across(z float64) []geom.Region {
	side := func(l []geom.Vec) (pts []geom.Point) {
		for i := range len(l) / 2 {
			a, b := l[i], l[len(l)-1-i]
			if (a.Z > z) == (b.Z > z) {
				return nil
			}
			k := (z - a.Z) / (b.Z - a.Z)
			pts = append(pts, onGrid(geom.Point{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)}))
		}
		return pts
	}
	f, b := side(c.front[0]), side(c.back[0])
	if f == nil || b == nil {
		return nil
	}
	slices.Reverse(b)
	return []geom.Region{{Outer: geom.Polygon(append(f, b...))}}
}

// onGrid moves a place to a grid, so that faces that touch have the same corners.
func onGrid(p geom.Point) geom.Point {
	const grid = 1 << 18
	return geom.Point{X: math.Round(p.X*grid) / grid, Y: math.Round(p.Y*grid) / grid}
}

// beyond is Made for a place of the panel from x0 to x1 that may lie past its ends, by going on straight.
func beyond(p *develop.Piece, x, y, depth, x0, x1 float64) geom.Vec {
	const in = 1e-4
	lo, hi := x0+in, x1-in
	if x > lo && x < hi {
		return p.Made(geom.Point{X: x, Y: y}, depth)
	}
	a, b := lo, lo+in
	if x >= hi {
		a, b = hi-in, hi
	}
	u, v := p.Made(geom.Point{X: a, Y: y}, depth), p.Made(geom.Point{X: b, Y: y}, depth)
	k := (x - a) / (b - a)
	return geom.Vec{X: u.X + k*(v.X-u.X), Y: u.Y + k*(v.Y-u.Y), Z: u.Z + k*(v.Z-u.Z)}
}

func isTab(p *develop.Piece, l develop.Line) bool {
	return slices.ContainsFunc(p.Tabs, func(t develop.Tab) bool { return t.Base == l })
}

func box(pts []geom.Point) geom.Rect {
	b := geom.EmptyRect()
	for _, q := range pts {
		b = b.Include(q)
	}
	return b
}

// cutBack moves the edges of the cut outline to where one face ends.
func cutBack(p *develop.Piece, pts []geom.Point, back bool) []geom.Point {
	out := slices.Clone(pts)
	n := len(pts)
	for _, e := range p.Edges {
		by := e.Front
		if back {
			by = e.Back
		}
		if by == 0 {
			continue
		}
		for i := range pts {
			j := (i + 1) % n
			a, b := pts[i], pts[j]
			if !(a.Near(e.Line.From) && b.Near(e.Line.To) || a.Near(e.Line.To) && b.Near(e.Line.From)) {
				continue
			}
			// Its neighbours are square to it on every piece that has a bevel.
			in := b.Sub(a).Unit().Left().Mul(by)
			out[i], out[j] = out[i].Add(in), out[j].Add(in)
		}
	}
	return out
}

// section returns the areas in which a solid meets the level z, one for each cell.
func (s solid) section(z float64) []geom.Region {
	var out []geom.Region
	for _, c := range s.cells {
		out = append(out, c.section(z)...)
	}
	return out
}

// section cuts the cell's faces with the level and joins the cuts into loops.
func (c cell) section(z float64) []geom.Region {
	if c.rolled {
		return c.across(z)
	}
	var cuts [][2]geom.Point
	face := func(loops [][]geom.Vec) {
		var at []geom.Point
		for _, l := range loops {
			for i, a := range l {
				b := l[(i+1)%len(l)]
				if (a.Z > z) == (b.Z > z) {
					continue
				}
				k := (z - a.Z) / (b.Z - a.Z)
				at = append(at, onGrid(geom.Point{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)}))
			}
		}
		if len(at) < 2 {
			return
		}
		// All lie on one line, along which the face is entered and left by turns.
		far, d := at[0], 0.0
		for _, p := range at {
			if l := p.Dist(at[0]); l > d {
				far, d = p, l
			}
		}
		u := far.Sub(at[0])
		slices.SortFunc(at, func(p, q geom.Point) int {
			switch x := p.Sub(q).Dot(u); {
			case x < 0:
				return -1
			case x > 0:
				return 1
			}
			return 0
		})
		for i := 0; i+1 < len(at); i += 2 {
			cuts = append(cuts, [2]geom.Point{at[i], at[i+1]})
		}
	}
	face(c.front)
	face(c.back)
	for l := range c.front {
		f, b := c.front[l], c.back[l]
		for i := range f {
			j := (i + 1) % len(f)
			face([][]geom.Vec{{f[i], f[j], b[j], b[i]}})
		}
	}
	var loops []*geom.Path
	used := make([]bool, len(cuts))
	for i := range cuts {
		if used[i] {
			continue
		}
		used[i] = true
		pts := []geom.Point{cuts[i][0], cuts[i][1]}
		for {
			end, found := pts[len(pts)-1], false
			for j := range cuts {
				if used[j] {
					continue
				}
				for side := range 2 {
					if cuts[j][side].Dist(end) < 1e-7 {
						used[j], found = true, true
						pts = append(pts, cuts[j][1-side])
						break
					}
				}
				if found {
					break
				}
			}
			if !found {
				break
			}
		}
		if p := geom.Polygon(pts); !p.Empty() && math.Abs(p.Area()) > 1e-12 {
			loops = append(loops, p)
		}
	}
	// The greatest loop is the outer one, the others are holes in it or other parts.
	slices.SortFunc(loops, func(a, b *geom.Path) int {
		switch x := math.Abs(b.Area()) - math.Abs(a.Area()); {
		case x < 0:
			return -1
		case x > 0:
			return 1
		}
		return 0
	})
	var out []geom.Region
next:
	for _, l := range loops {
		for i := range out {
			if out[i].Outer.Contains(l.Start()) {
				out[i].Holes = append(out[i].Holes, l)
				continue next
			}
		}
		out = append(out, geom.Region{Outer: l})
	}
	return out
}

func area(rs []geom.Region) float64 {
	a := 0.0
	for _, r := range rs {
		a += r.Area()
	}
	return a
}

func union(t testing.TB, rs []geom.Region) []geom.Region {
	t.Helper()
	out, err := geom.Union(rs, 1e-5)
	require.NoError(t, err)
	return out
}

// levels returns the heights at which corners lie.
func levels(solids []solid) []float64 {
	var zs []float64
	for _, s := range solids {
		for _, c := range s.cells {
			for _, l := range append(slices.Clone(c.front), c.back...) {
				for _, v := range l {
					zs = append(zs, v.Z)
				}
			}
		}
	}
	slices.Sort(zs)
	return slices.CompactFunc(zs, func(a, b float64) bool { return math.Abs(b-a) < 1e-5 })
}

// closing is what an element must come to.
type closing struct {
	volume float64       // model cubic millimetres, enclosed
	size   geom.Vec      // outside
	shut   []geom.Region // what stands beside it and closes it
	rough  float64       // share of the volume by which curves may be off, and the same share of the overlap
	face   *geom.Region  // of a board: its face, in x and y, or in x and z where it stands
	stands bool          // it is cut in slices parallel to its face
}

// requireClosed is the closing test of a model of one element.
func requireClosed(t *testing.T, m *develop.Model, want closing) {
	t.Helper()
	require.NotEmpty(t, m.Pieces)
	requireJoints(t, m)
	var solids []solid
	low, high := geom.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, geom.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	for i := range m.Pieces {
		requireOnCard(t, &m.Pieces[i])
		s := solidOf(&m.Pieces[i])
		solids = append(solids, s)
		for _, c := range s.cells {
			for _, l := range append(slices.Clone(c.front), c.back...) {
				for _, v := range l {
					low = geom.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
					high = geom.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
				}
			}
		}
	}
	slack := 1e-5 + want.rough*want.size.X
	require.InDelta(t, want.size.X, high.X-low.X, slack, "outside width")
	require.InDelta(t, want.size.Y, high.Y-low.Y, slack, "outside depth")
	require.InDelta(t, want.size.Z, high.Z-low.Z, slack, "outside height")

	if want.stands {
		turnOver(solids)
	}
	zs := levels(solids)
	volume := 0.0
	for i := 1; i < len(zs); i++ {
		// Sections between two levels are quadratic in the height: two Gauss points take them exactly.
		mid, half := (zs[i-1]+zs[i])/2, (zs[i]-zs[i-1])/2
		for _, g := range [2]float64{-1, 1} {
			z := mid + g*half/math.Sqrt(3)
			var all []geom.Region
			var corners []geom.Region
			sum := 0.0
			for _, s := range solids {
				part := s.section(z)
				corners = append(corners, plugs(part)...)
				if len(part) > 1 {
					part = union(t, part)
				}
				sum += area(part)
				all = append(all, part...)
			}
			if len(all) == 0 {
				continue
			}
			together := union(t, all)
			if math.Abs(sum-area(together)) > 1e-3+1e-7*sum+want.rough*sum {
				t.Fatalf("solids overlap at level %v by %.5f mm² of %.5f: %s", z, sum-area(together), sum, pairs(t, solids, z))
			}
			volume += half * area(enclosed(t, together, corners, want))
		}
	}
	require.InDelta(t, want.volume, volume, want.volume*(1e-6+want.rough), "enclosed volume")
}

// turnOver lays a standing board down: x, z, y.
func turnOver(solids []solid) {
	for _, s := range solids {
		for _, c := range s.cells {
			for _, l := range append(slices.Clone(c.front), c.back...) {
				for i, v := range l {
					l[i] = geom.Vec{X: v.X, Y: v.Z, Z: v.Y}
				}
			}
		}
	}
}

// enclosed returns what a section encloses: its own area and what it goes round. Of a standing board that is the face,
// and every hole left is either a hollow inside it or one of its openings.
func enclosed(t *testing.T, together, corners []geom.Region, want closing) []geom.Region {
	t.Helper()
	outers := append(slices.Clone(together), want.shut...)
	hollow := slices.ContainsFunc(together, func(r geom.Region) bool {
		return slices.ContainsFunc(r.Holes, func(h *geom.Path) bool { return math.Abs(h.Area()) > 1 })
	})
	if !hollow || want.face != nil {
		outers = append(outers, corners...)
	}
	var filled []geom.Region
	for _, r := range union(t, outers) {
		filled = append(filled, geom.Region{Outer: r.Outer})
	}
	if want.face != nil {
		gaps, err := geom.Difference(filled, outers, 1e-5)
		require.NoError(t, err)
		for _, g := range gaps {
			in, err := geom.Intersect([]geom.Region{g}, []geom.Region{*want.face}, 1e-4)
			require.NoError(t, err)
			if hole, part := g.Area(), area(in); part > hole*1e-3+1e-2 && part < hole*(1-1e-3)-1e-2 {
				t.Errorf("a hollow of %.3f mm² and an opening run together: %.3f mm² of it lies in the board", hole, part)
			}
		}
	}
	var err error
	switch {
	case want.face != nil:
		filled, err = geom.Intersect(filled, []geom.Region{*want.face}, 1e-4)
	case len(want.shut) > 0:
		filled, err = geom.Difference(filled, want.shut, 1e-5)
	default:
		filled = union(t, filled)
	}
	require.NoError(t, err)
	return filled
}

// plugs are squares of 0.001 mm on the corners of walls: two faces that touch do not always do so on the grid of the sections.
func plugs(rs []geom.Region) []geom.Region {
	var out []geom.Region
	for _, r := range rs {
		pts := r.Outer.Vertices()
		if n := len(pts); n > 8 {
			pts = []geom.Point{pts[0], pts[n/2-1], pts[n/2], pts[n-1]} // a rolled part's own ends; a plate needs none
		}
		for _, v := range pts {
			out = append(out, geom.Region{Outer: geom.Rectangle(0.001, 0.001).Transform(geom.Isometry{A: 1, D: 1, T: v})})
		}
	}
	return out
}

// pairs names the solids that overlap at a level.
func pairs(t *testing.T, solids []solid, z float64) string {
	words := ""
	for i, a := range solids {
		for _, b := range solids[:i] {
			both, err := geom.Intersect(a.section(z), b.section(z), 1e-5)
			require.NoError(t, err)
			if x := area(both); x > 1e-4 {
				words += fmt.Sprintf("%s in %s by %.4f mm²; ", a.name, b.name, x)
			}
		}
	}
	return words
}

// requireJoints checks that both sides of every joint are one line in the made model, within 0.01 mm, and lie on what is cut.
func requireJoints(t *testing.T, m *develop.Model) {
	t.Helper()
	for _, j := range m.Joints {
		a, b := &m.Pieces[j.A.Piece], &m.Pieces[j.B.Piece]
		require.Equal(t, len(j.A.Line), len(j.B.Line))
		for i := range j.A.Line {
			p, q := beside(a, j.A, i), beside(b, j.B, i)
			d := math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
			require.LessOrEqual(t, d, 0.01, "%s of %s: %s and %s are apart at %v and %v", j.Label(), j.Element, a.Name, b.Name, p, q)
		}
	}
}

// beside is the made place of point i of a joint's side; at a fold that of the panel that the line comes from.
func beside(p *develop.Piece, s develop.Side, i int) geom.Vec {
	q, to := s.Line[i], s.Line[(i+1)%len(s.Line)]
	if i > 0 {
		to = s.Line[i-1]
	}
	if i+1 < len(s.Line) && i > 0 && s.Line[i+1].Dist(q) > 1e-9 && s.Line[i-1].Dist(q) <= 1e-9 {
		to = s.Line[i+1]
	}
	const step = 1e-5
	if l := to.Dist(q); l > step {
		q = q.Lerp(to, step/l)
	}
	return p.Made(q, s.Depth)
}

// requireOnCard checks what can be said of a flat piece by itself.
func requireOnCard(t *testing.T, p *develop.Piece) {
	t.Helper()
	b := p.Outline.Bounds()
	require.InDelta(t, 0, b.Min.X, 1e-9)
	require.InDelta(t, 0, b.Min.Y, 1e-9)
	_, _, _, crosses := p.Outline.Outer.SelfCrossing()
	require.False(t, crosses, "the outline of %s %s crosses itself", p.Label(), p.Name)
	require.Positive(t, p.Outline.Area())
	for _, f := range p.Folds {
		mid := f.Line.From.Lerp(f.Line.To, 0.5)
		require.True(t, p.Outline.Contains(mid), "a fold of %s lies on the card", p.Name)
		require.Positive(t, f.Angle+1)
	}
}
