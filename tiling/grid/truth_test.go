package grid_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/unit"
	"markout/render/reread"
	"markout/tiling"
	"markout/tiling/grid"
)

// These tests write the PDF and read it back with MuPDF and Poppler: what they measure is what a ruler finds on the paper.

// printed is a plan's PDF read back.
type printed struct {
	plan    *grid.Plan
	entries []tiling.Entry
	pages   []reread.Page // sheets alone, in the order of entries
	file    string
}

func read(t *testing.T, p *grid.Plan) *printed {
	t.Helper()
	reread.Need(t, "mutool")
	pr := &printed{plan: p, entries: p.Entries()}
	pr.file = reread.Write(t, "full-size.pdf", write(t, p))
	all := reread.Trace(t, pr.file, "1-N")
	pr.pages = all[len(all)-len(pr.entries):]
	for i, e := range pr.entries {
		require.Equal(t, e.Page, pr.pages[i].Number)
	}
	return pr
}

// world turns a place on page i into the view's millimetres.
func (pr *printed) world(i int, p reread.Point) geom.Point {
	e, m := pr.entries[i], pr.plan.Grids()[pr.gridOf(i)].Margins
	return geom.Point{X: p.X - m[0] + e.Origin[0], Y: p.Y - m[2] + e.Origin[1]}
}

func (pr *printed) gridOf(i int) int {
	for k, g := range pr.plan.Grids() {
		if strings.HasPrefix(pr.entries[i].Label, g.Label+" ") {
			return k
		}
	}
	return -1
}

// seg is a straight line on a page.
type seg struct{ a, b reread.Point }

func (s seg) length() float64 { return math.Hypot(s.b.X-s.a.X, s.b.Y-s.a.Y) }
func (s seg) mid() reread.Point {
	return reread.Point{X: (s.a.X + s.b.X) / 2, Y: (s.a.Y + s.b.Y) / 2}
}
func (s seg) level() bool   { return math.Abs(s.a.Y-s.b.Y) < 1e-3 }
func (s seg) upright() bool { return math.Abs(s.a.X-s.b.X) < 1e-3 }

// single returns the lines of a layer that are one segment long.
func single(p *reread.Page, layer string) (out []seg) {
	for _, path := range p.Paths {
		if path.Layer != layer || path.Filled {
			continue
		}
		for _, s := range path.Subs {
			if len(s.Points) == 2 && !s.Closed {
				out = append(out, seg{s.Points[0], s.Points[1]})
			}
		}
	}
	return out
}

// lines returns all straight lines of a layer.
func lines(p *reread.Page, layer string) (out []seg) {
	for _, path := range p.Paths {
		if path.Layer != layer || path.Filled {
			continue
		}
		for _, s := range path.Subs {
			for i := 1; i < len(s.Points); i++ {
				out = append(out, seg{s.Points[i-1], s.Points[i]})
			}
			if n := len(s.Points); s.Closed && n > 2 {
				out = append(out, seg{s.Points[n-1], s.Points[0]})
			}
		}
	}
	return out
}

// bars returns the check bars of a page: two end ticks of 4 mm that face each other one of the lengths apart, and the line that
// runs between them, whole or broken where lines are cut.
func bars(p *reread.Page, lengths []float64) (level, upright []seg) {
	all := single(p, "registration")
	for i, s := range all {
		if math.Abs(s.length()-4) > 0.01 || !s.level() && !s.upright() {
			continue
		}
		for _, u := range all[i+1:] {
			if math.Abs(u.length()-4) > 0.01 || u.level() != s.level() {
				continue
			}
			bar := seg{s.mid(), u.mid()}
			if !bar.level() && !bar.upright() || bar.level() == s.level() {
				continue
			}
			for _, l := range lengths {
				if math.Abs(bar.length()-l) < 0.01 && drawnAlong(all, bar) {
					if bar.level() {
						level = append(level, bar)
					} else {
						upright = append(upright, bar)
					}
				}
			}
		}
	}
	return level, upright
}

// drawnAlong reports whether at least half of a bar is drawn.
func drawnAlong(all []seg, bar seg) bool {
	drawn := 0.0
	for _, s := range all {
		if s.level() != bar.level() {
			continue
		}
		if s.level() && math.Abs(s.a.Y-bar.a.Y) < 1e-3 {
			drawn += max(0, min(max(s.a.X, s.b.X), max(bar.a.X, bar.b.X))-max(min(s.a.X, s.b.X), min(bar.a.X, bar.b.X)))
		}
		if s.upright() && math.Abs(s.a.X-bar.a.X) < 1e-3 {
			drawn += max(0, min(max(s.a.Y, s.b.Y), max(bar.a.Y, bar.b.Y))-max(min(s.a.Y, s.b.Y), min(bar.a.Y, bar.b.Y)))
		}
	}
	return drawn > bar.length()/2
}

func TestCheckBarsAreTrue(t *testing.T) {
	metric, imperial := []float64{100, 150, 200, 250}, []float64{101.6, 152.4, 203.2, 254}
	feet := info
	feet.Units = unit.Foot
	for _, c := range []struct {
		paper   string
		in      grid.Info
		lengths []float64
		most    [2]float64 // the longest that the sheet takes, level and upright, standing
	}{
		{"A4", info, metric, [2]float64{150, 250}},
		{"A3", info, metric, [2]float64{250, 250}},
		{"roll 914", info, metric, [2]float64{250, 250}},
		{"Letter", feet, imperial, [2]float64{152.4, 203.2}},
	} {
		t.Run(c.paper, func(t *testing.T) {
			pr := read(t, build(t, c.in, options(t, c.paper), quay(t, 0.25), wall(0.3)))
			longest := [2]int{}
			for i := range pr.pages {
				p := &pr.pages[i]
				level, upright := bars(p, c.lengths)
				require.Len(t, level, 1, pr.entries[i].Label)
				require.Len(t, upright, 1, pr.entries[i].Label)
				if p.Size.W < p.Size.H && c.paper != "roll 914" {
					if math.Abs(level[0].length()-c.most[0]) < 0.01 {
						longest[0]++
					}
					if math.Abs(upright[0].length()-c.most[1]) < 0.01 {
						longest[1]++
					}
				}
			}
			if c.paper == "A4" {
				require.NotZero(t, longest[0])
				require.NotZero(t, longest[1])
			}
		})
	}
}

// A ruler on the pixels: at 254 dpi, ten pixels a millimetre, the end ticks lie where they should to 0.15 mm.
func TestCheckBarsInPixels(t *testing.T) {
	pr := read(t, build(t, info, options(t, "A4"), quay(t, 0.25)))
	reread.Need(t, "pdftoppm")
	i := len(pr.pages) / 2
	level, upright := bars(&pr.pages[i], []float64{100, 150, 200, 250})
	img := reread.Raster(t, pr.file, pr.entries[i].Page, 254)
	height := float64(img.Rect.Dy())
	dark := func(x, y float64) bool { return img.GrayAt(int(x*10), int(height-y*10)).Y < 160 }
	// edge walks from a place outwards over a tick and returns its middle.
	tick := func(at func(d float64) bool) float64 {
		first, last := math.NaN(), math.NaN()
		for d := -2.0; d <= 2; d += 0.05 {
			if at(d) {
				if math.IsNaN(first) {
					first = d
				}
				last = d
			}
		}
		return (first + last) / 2
	}
	b := level[0]
	y := b.a.Y - 1.2 // across the lower half of the ticks
	from := tick(func(d float64) bool { return dark(min(b.a.X, b.b.X)+d, y) })
	to := tick(func(d float64) bool { return dark(max(b.a.X, b.b.X)+d, y) })
	require.InDelta(t, 0, to-from, 0.15)
	b = upright[0]
	x := b.a.X + 1.2
	from = tick(func(d float64) bool { return dark(x, min(b.a.Y, b.b.Y)+d) })
	to = tick(func(d float64) bool { return dark(x, max(b.a.Y, b.b.Y)+d) })
	require.InDelta(t, 0, to-from, 0.15)
}

// crosses returns the middles of full, equal-armed crosses on a page.
func crosses(p *reread.Page) (out []reread.Point) {
	all := single(p, "registration")
	for _, s := range all {
		if !s.level() || s.length() > 12 {
			continue
		}
		for _, u := range all {
			if u.upright() && math.Abs(u.length()-s.length()) < 1e-3 && math.Hypot(u.mid().X-s.mid().X, u.mid().Y-s.mid().Y) < 1e-3 {
				out = append(out, s.mid())
			}
		}
	}
	return out
}

func TestCrossesMeet(t *testing.T) {
	for _, name := range []string{"A4", "A3", "roll 610"} {
		t.Run(name, func(t *testing.T) {
			pr := read(t, build(t, info, options(t, name), quay(t, 0.25)))
			type seen struct {
				at    geom.Point
				pages []int
			}
			places := map[[2]int]*seen{}
			for i := range pr.pages {
				for _, c := range crosses(&pr.pages[i]) {
					w := pr.world(i, c)
					key := [2]int{int(math.Round(w.X / 2)), int(math.Round(w.Y / 2))}
					s := places[key]
					if s == nil {
						s = &seen{at: w}
						places[key] = s
					}
					require.InDelta(t, s.at.X, w.X, 0.01)
					require.InDelta(t, s.at.Y, w.Y, 0.01)
					s.pages = append(s.pages, i)
				}
			}
			require.NotEmpty(t, places)
			shared := 0
			for _, s := range places {
				// Every page that shows the place, arms and all, has the cross, and at least two do.
				shows := 0
				for i, e := range pr.entries {
					m := pr.plan.Grids()[0].Margins
					x, y := s.at.X-e.Origin[0], s.at.Y-e.Origin[1]
					if x > 4 && y > 4 && x < e.Size[0]-4 && y < e.Size[1]-4 {
						require.Contains(t, s.pages, i, "%s %v %v", e.Label, s.at, m)
						shows++
					}
				}
				require.Len(t, s.pages, shows)
				if shows > 1 {
					shared++
				}
			}
			require.Equal(t, len(places), shared, "a cross on one page alone registers nothing")
		})
	}
}

// Lines that go over a seam are at one place on both pages, and dashes go on as if the paper were one.
func TestLinesGoOnOverSeams(t *testing.T) {
	s := newFloor()
	o := s.own("line")
	s.cut(o, geom.Circle(1700).Transform(geom.Move(pt(13, 950), 0)))
	s.line(o, drawing.Dashed, pt(-700, 100), pt(650, 1450), pt(900, 333))
	s.line(o, drawing.LongDashDot, pt(-900, 1213), pt(900, 1213))
	for _, name := range []string{"A4", "roll 610"} {
		pr := read(t, build(t, info, options(t, name), s.Drawing))
		met, dashed := 0, 0
		for i := range pr.pages {
			for j := i + 1; j < len(pr.pages); j++ {
				a, b := window(pr.entries[i]), window(pr.entries[j])
				if !a.Overlaps(b) {
					continue
				}
				both := geom.Rect{Min: pt(max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y)), Max: pt(min(a.Max.X, b.Max.X), min(a.Max.Y, b.Max.Y))}
				n, d := sameInk(t, pr, i, j, both)
				met, dashed = met+n, dashed+d
			}
		}
		require.Greater(t, met, 10, name)
		require.Greater(t, dashed, 3, name)
	}
}

func window(e tiling.Entry) geom.Rect {
	return geom.Rect{Min: pt(e.Origin[0], e.Origin[1]), Max: pt(e.Origin[0]+e.Size[0], e.Origin[1]+e.Size[1])}
}

// sameInk checks that two pages show the same lines where their windows overlap, and how many such lines they share.
func sameInk(t *testing.T, pr *printed, i, j int, both geom.Rect) (met, dashed int) {
	t.Helper()
	for _, layer := range []string{"cut", "notes"} {
		for _, p := range pr.pages[i].Paths {
			if p.Layer != layer || p.Filled {
				continue
			}
			for _, sub := range p.Subs {
				gone := p.Phase
				for k := 1; k < len(sub.Points); k++ {
					a, b := pr.world(i, sub.Points[k-1]), pr.world(i, sub.Points[k])
					t0, t1, ok := tiling.ClipSegment(a, b, both)
					if ok && t1 > t0 {
						q := a.Lerp(b, (t0+t1)/2)
						d, phase := nearest(pr, j, layer, len(p.Dash) > 0, q)
						require.Less(t, d, 0.01, "%s and %s", pr.entries[i].Label, pr.entries[j].Label)
						met++
						if period := sum(p.Dash); period > 0 {
							off := math.Mod(gone+a.Dist(q)-phase, period)
							off = min(math.Abs(off), period-math.Abs(off))
							require.Less(t, off, 0.02, "dashes go on from %s to %s", pr.entries[i].Label, pr.entries[j].Label)
							dashed++
						}
					}
					gone += a.Dist(b)
				}
			}
		}
	}
	return met, dashed
}

func sum(x []float64) (s float64) {
	for _, v := range x {
		s += v
	}
	return s
}

// nearest returns how far page j's lines of a layer pass from a place, and how far along its dashes the nearest is there.
func nearest(pr *printed, j int, layer string, dashed bool, q geom.Point) (d, phase float64) {
	d = math.Inf(1)
	for _, p := range pr.pages[j].Paths {
		if p.Layer != layer || p.Filled || (len(p.Dash) > 0) != dashed {
			continue
		}
		for _, sub := range p.Subs {
			gone := p.Phase
			n := len(sub.Points)
			for k := 1; k <= n; k++ {
				if k == n && !sub.Closed {
					break
				}
				a, b := pr.world(j, sub.Points[k-1]), pr.world(j, sub.Points[k%n])
				u := b.Sub(a)
				s := q.Sub(a).Dot(u) / max(u.Dot(u), 1e-12)
				s = min(max(s, 0), 1)
				if e := a.Lerp(b, s).Dist(q); e < d {
					d, phase = e, gone+s*a.Dist(b)
				}
				gone += a.Dist(b)
			}
		}
	}
	return d, phase
}

// Every place of every outline is shown by some page, half a line's width within its window, and drawn there within 0.01 mm.
func TestPagesCoverTheOutline(t *testing.T) {
	for _, c := range []struct {
		paper string
		lap   float64
	}{{"A4", 10}, {"A4", 0}, {"A3", 25}, {"roll 610", 10}, {"A6", 10}} {
		t.Run(fmt.Sprint(c.paper, c.lap), func(t *testing.T) {
			d := rings(2, 2, 3)
			opt := options(t, c.paper)
			opt.Lap = c.lap
			pr := read(t, build(t, info, opt, d))
			half := drawing.WideLine / 2
			if c.lap == 0 {
				half = 0
			}
			for _, s := range d.Strokes {
				ruler := geom.NewRuler(s.Path)
				for x := 0.0; x < ruler.Length(); x += 37 {
					q, _ := ruler.At(x)
					found := false
					for i, e := range pr.entries {
						if window(e).Grow(-half).Contains(q) {
							dist, _ := nearest(pr, i, "cut", false, q)
							require.Less(t, dist, 0.01, e.Label)
							found = true
						}
					}
					require.True(t, found, "%v is on no page", q)
				}
			}
		})
	}
}

// A page's place is read off its own ticks: each figure stands within 8 mm of a straight mark of 1 to 12 mm, and all agree with
// where the page is.
func TestTicksTellThePlace(t *testing.T) {
	feet := info
	feet.Units = unit.Inch
	for _, c := range []struct {
		paper string
		in    grid.Info
	}{{"A4", info}, {"A3", info}, {"roll 610", info}, {"Letter", feet}} {
		t.Run(c.paper, func(t *testing.T) {
			pr := read(t, build(t, c.in, options(t, c.paper), quay(t, 0.25)))
			for i := range pr.pages {
				p := &pr.pages[i]
				marks := single(p, "registration")
				count := map[byte]int{}
				for _, l := range p.Texts {
					if l.Layer != "registration" {
						continue
					}
					value, axis, ok := figure(l.Text, c.in.Units)
					if !ok {
						continue
					}
					best := math.Inf(1)
					for _, m := range marks {
						if n := m.length(); n < 1 || n > 12 || axis == 'x' && !m.upright() || axis == 'y' && !m.level() {
							continue
						}
						w := pr.world(i, m.mid())
						got := w.X
						if axis == 'y' {
							got = w.Y
						}
						if math.Abs(got-value) < 0.01 && gap(l, m) <= 8 {
							best = min(best, gap(l, m))
						}
					}
					require.LessOrEqual(t, best, 8.0, "%s: %s", pr.entries[i].Label, l.Text)
					count[axis]++
				}
				require.NotZero(t, count['x'], pr.entries[i].Label)
				require.NotZero(t, count['y'], pr.entries[i].Label)
			}
		})
	}
}

// gap is the distance from a mark to the box of a text that stands upright.
func gap(l reread.Line, m seg) float64 {
	dx := max(l.At.X-max(m.a.X, m.b.X), min(m.a.X, m.b.X)-l.At.X-l.Width, 0)
	dy := max(l.At.Y-max(m.a.Y, m.b.Y), min(m.a.Y, m.b.Y)-l.At.Y-l.Em*0.72, 0)
	return math.Hypot(dx, dy)
}

// figure reads a tick's figure: a distance and the letter of its side.
func figure(text string, u unit.System) (value float64, axis byte, ok bool) {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 {
		return 0, 0, false
	}
	sign := map[string]float64{"L": 1, "R": -1, "U": 1, "D": -1}[text[i+1:]]
	axis = 'y'
	if text[i+1:] == "L" || text[i+1:] == "R" {
		axis = 'x'
	}
	if sign == 0 {
		return 0, 0, false
	}
	if u.Imperial() {
		v, err := unit.ParseLength(text[:i], u)
		return sign * v, axis, err == nil
	}
	v, err := strconv.ParseFloat(text[:i], 64)
	return sign * v, axis, err == nil
}

// No lettering and no check bar lies across a line that is cut.
func TestFurnitureKeepsOffCutLines(t *testing.T) {
	for _, c := range []struct {
		name string
		lap  float64
	}{{"A4", 10}, {"A3", 10}, {"A4", 0}, {"roll 914", 10}, {"A6", 10}} {
		t.Run(fmt.Sprint(c.name, c.lap), func(t *testing.T) {
			opt := options(t, c.name)
			opt.Lap = c.lap
			s := rings(2, 2, 8)
			pr := read(t, build(t, careful(), opt, quay(t, 0.25), s, wall(0.3)))
			broken := 0
			defer func() { t.Log(broken, "of", 2*len(pr.pages), "bars are broken") }()
			for i := range pr.pages {
				p := &pr.pages[i]
				cut := lines(p, "cut")
				var boxes []geom.Rect
				var what []string
				for _, l := range p.Texts {
					if l.Layer == "furniture" || l.Layer == "registration" {
						h := l.Em * 0.72
						r := geom.Rect{Min: pt(l.At.X, l.At.Y), Max: pt(l.At.X+l.Width, l.At.Y+h)}
						if math.Abs(l.Turn-90) < 1 {
							r = geom.Rect{Min: pt(l.At.X-h, l.At.Y), Max: pt(l.At.X, l.At.Y+l.Width)}
						}
						boxes, what = append(boxes, r), append(what, l.Text)
					}
				}
				level, upright := bars(p, []float64{50, 100, 150, 200, 250})
				for _, b := range append(level, upright...) {
					n := 0
					for _, s := range single(p, "registration") {
						if on(s, b) {
							boxes = append(boxes, geom.EmptyRect().Include(pt(s.a.X, s.a.Y)).Include(pt(s.b.X, s.b.Y)))
							what = append(what, "check bar")
							n++
						}
					}
					if n > 1 {
						broken++
					}
				}
				// In the margin nothing of the drawing shows.
				g := pr.plan.Grids()[pr.gridOf(i)]
				live := geom.Rect{Min: pt(g.Margins[0], g.Margins[2]), Max: pt(g.Margins[0]+pr.entries[i].Size[0], g.Margins[2]+pr.entries[i].Size[1])}
				for k, box := range boxes {
					for _, s := range cut {
						a, b := pt(s.a.X, s.a.Y), pt(s.b.X, s.b.Y)
						t0, t1, ok := tiling.ClipSegment(a, b, live)
						if !ok {
							continue
						}
						_, _, hit := tiling.ClipSegment(a.Lerp(b, t0), a.Lerp(b, t1), box)
						seam := len(what[k]) == 1 // letters astride a seam keep off where they can
						require.False(t, hit && !seam, "%s: %q lies across a cut line at %v", pr.entries[i].Label, what[k], box)
					}
				}
			}
		})
	}
}

// on reports whether a line is a part of a check bar.
func on(s, bar seg) bool {
	if bar.level() {
		return s.level() && math.Abs(s.a.Y-bar.a.Y) < 1e-3 && max(s.a.X, s.b.X) <= max(bar.a.X, bar.b.X)+0.01 && min(s.a.X, s.b.X) >= min(bar.a.X, bar.b.X)-0.01
	}
	return s.upright() && math.Abs(s.a.X-bar.a.X) < 1e-3 && max(s.a.Y, s.b.Y) <= max(bar.a.Y, bar.b.Y)+0.01 && min(s.a.Y, s.b.Y) >= min(bar.a.Y, bar.b.Y)-0.01
}

// Nothing that the pages say lies on anything else that they say, and nothing runs off the paper.
func TestLetteringDoesNotCollide(t *testing.T) {
	for _, name := range []string{"A4", "A3", "roll 914", "Letter", "A6", "A5"} {
		t.Run(name, func(t *testing.T) {
			keepsApart(t, read(t, build(t, careful(), options(t, name), quay(t, 0.25), wall(0.3))))
		})
	}
}

// keepsApart checks that no words of a page lie on others, and that none runs off the paper.
func keepsApart(t *testing.T, pr *printed) {
	t.Helper()
	for i := range pr.pages {
		p := &pr.pages[i]
		var boxes []geom.Rect
		var what []string
		for _, l := range p.Texts {
			h := l.Em * 0.72
			r := geom.Rect{Min: pt(l.At.X, l.At.Y), Max: pt(l.At.X+l.Width, l.At.Y+h)}
			if math.Abs(l.Turn-90) < 1 {
				r = geom.Rect{Min: pt(l.At.X-h, l.At.Y), Max: pt(l.At.X, l.At.Y+l.Width)}
			}
			if l.Layer != "notes" {
				require.True(t, r.Min.X >= 0 && r.Min.Y >= 0 && r.Max.X <= p.Size.W && r.Max.Y <= p.Size.H, "%s: %q runs off the paper", pr.entries[i].Label, l.Text)
			}
			for k, have := range boxes {
				in := r.Grow(-0.05)
				require.False(t, in.Overlaps(have), "%s: %q lies on %q", pr.entries[i].Label, l.Text, what[k])
			}
			boxes, what = append(boxes, r), append(what, l.Text)
		}
	}
}
