package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// Line widths of the plan: wide to narrow as 2 to 1 (ISO 128-2), walls wider still.
const (
	planWide   = 0.5
	planNarrow = drawing.NarrowLine
)

// Pens of the plan.
var (
	wall         = pen{drawing.Cut, drawing.Continuous, drawing.WideLine, drawing.Black}
	planEdge     = pen{drawing.Cut, drawing.Continuous, planWide, drawing.Black}
	planRiser    = pen{drawing.Cut, drawing.Continuous, planNarrow, drawing.Black}
	planDashed   = pen{drawing.Cut, drawing.Dashed, planWide, drawing.Black}
	planHidden   = pen{drawing.Cut, drawing.Dashed, planNarrow, drawing.Black}
	planMoved    = pen{drawing.Cut, drawing.LongDashDoubleDot, planNarrow, drawing.Black}
	planOverhead = pen{drawing.Cut, drawing.LongDashDoubleDot, planWide, drawing.Black}
	planThin     = pen{drawing.Notes, drawing.Continuous, planNarrow, drawing.Black}
	planClear    = pen{drawing.Notes, drawing.Dotted, drawing.MediumLine, drawing.Black}
	datumLine    = pen{drawing.Registration, drawing.LongDashDot, planNarrow, drawing.Black}
	stationMark  = pen{drawing.Registration, drawing.Continuous, planWide, drawing.Black}
)

var planPens = [...]pen{
	edge: planEdge, riser: planRiser, covered: planHidden, axis: planThin, arrow: planThin,
	crossing: planEdge, line: planEdge, dashed: planDashed, clear: planClear, strip: planEdge, ridge: planRiser,
}

// Plan returns the plan of the whole set at no scale yet: the hall worked in with its pillars and stations, the centre
// and setting lines, every piece by line type (hidden: dashed; other positions: long-dash double-dot, narrow; overhead:
// the same, wide), the way up with its risers, heights, names, dimension chains that close, the words of the sides at both
// edges and what lies below.
//
// A text aligned AlignMiddle is a label that may be moved clear of the lines about its place; texts of one owner that
// follow one another at one place move together. Every other text stays where it is.
func Plan(s *set.Set) *drawing.Drawing {
	d := &drawing.Drawing{
		View: "plan", Title: "plan", Name: s.Name,
		Hold:  "seen from above, upstage at the top",
		Datum: planDatum(s),
	}
	p := &planner{builder: newBuilder(d), s: s, ground: newGround(s)}
	p.box = p.extent()
	p.unit = max(p.box.W(), p.box.H()) / 100
	p.size = sizes{centreArm: p.unit, crossArm: p.unit, cornerLeg: 2 * p.unit, head: p.unit, feet: s.Units.Imperial()}
	p.hall()
	for _, e := range s.Elements {
		if _, isHall := e.Shape.(*set.Hall); !isHall {
			p.piece(e)
		}
	}
	p.nobody()
	p.box = d.Bounds().Union(p.box)
	p.datums()
	below, right := p.chains()
	p.asked()
	p.edges(below, right)
	return d
}

// planner draws the plan.
type planner struct {
	*builder
	s      *set.Set
	ground *ground
	box    geom.Rect // of all that is drawn, the set's axes
	unit   float64   // a hundredth of the plan's greater side: about 2 to 3 mm on the sheet
	size   sizes
}

// extent is the box of every footprint, of the hall and of the set's 0,0.
func (p *planner) extent() geom.Rect {
	box := geom.EmptyRect().Include(geom.Point{})
	for _, e := range p.s.Elements {
		if _, isHall := e.Shape.(*set.Hall); isHall && e != p.s.Hall {
			continue
		}
		for _, c := range e.Copies {
			for _, pl := range c.Places {
				box = box.Union(placedBox(e, pl))
			}
		}
	}
	if box.W() < geom.Tolerance && box.H() < geom.Tolerance {
		box = box.Grow(1000)
	}
	return box
}

// placedBox is a box about what e covers at pl, a mark's points and paths included.
func placedBox(e *set.Element, pl set.Place) geom.Rect {
	m := pl.Frame.Plan()
	box := geom.EmptyRect()
	add := func(q *geom.Path) {
		if !q.Empty() {
			box = box.Union(q.Transform(m).Bounds())
		}
	}
	for _, r := range set.Footprints(e.Shape) {
		add(r.Outer)
	}
	if mark, ok := e.Shape.(*set.Mark); ok {
		for _, q := range mark.Paths {
			add(q)
		}
		for _, q := range mark.Points {
			box = box.Include(m.Apply(q))
		}
	}
	return box
}

// hall draws the walls, pillars and stations of the room worked in.
func (p *planner) hall() {
	e := p.s.Hall
	if e == nil || len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
		return
	}
	h, ok := e.Shape.(*set.Hall)
	if !ok {
		return
	}
	p.own(e)
	m := e.Copies[0].Places[0].Frame.Plan()
	walls := h.Outline.Path.Transform(m)
	p.stroke(walls, wall)
	for _, q := range h.Pillars {
		path := q.Outline.Path.Transform(m)
		p.fill(geom.Region{Outer: path}, drawing.Cut, pillarTone)
		p.stroke(path, wall)
	}
	b := h.Outline.Path.Bounds()
	at := geom.Point{X: walls.Bounds().Min.X + 8*p.unit, Y: walls.Bounds().Max.Y - 4*p.unit}
	p.label(at, name(e.Name, drawing.Lettering3_5), word(figure(p.s, b.W())+" × "+figure(p.s, b.H()), drawing.Lettering2_5))
	for _, st := range h.Stations {
		at := m.Apply(st.At)
		ring := geom.Circle(2 * p.unit).Transform(geom.Move(at, 0))
		p.stroke(ring, stationMark)
		for _, t := range cross(at, 1.6*p.unit, crossing) {
			p.stroke(t.path, stationMark)
		}
		p.label(at, word("STATION "+st.Name, drawing.Lettering3_5))
	}
}

// pillarTone fills a pillar so that it is not taken for a piece.
const pillarTone = drawing.Tone(0.7)

// piece draws an element wherever it stands and labels each place.
func (p *planner) piece(e *set.Element) {
	own := p.size.traces(e.Shape)
	if len(own) == 0 {
		return
	}
	p.own(e)
	var over []stacked
	for _, c := range e.Copies {
		for _, pl := range c.Places {
			m := pl.Frame.Plan()
			how := p.ground.stands(e, pl, samples(e.Shape, own, m))
			for _, t := range own {
				p.stroke(t.path.Transform(m), planPen(t.kind, pl, how))
			}
			if how != overhead {
				p.pieceLabels(e, c, pl, how, own)
				continue
			}
			one := stacked{first: e.PlaceName(c, pl), last: e.PlaceName(c, pl), at: m.Apply(own[0].path.Bounds().Mid()), low: underside(e, pl)}
			if n := len(over); n > 0 && over[n-1].at.Near(one.at) {
				over[n-1].last, over[n-1].low = one.last, min(over[n-1].low, one.low)
				continue
			}
			over = append(over, one)
		}
	}
	for _, k := range over {
		title := k.first
		if k.last != k.first {
			title += " to " + k.last
		}
		p.label(k.at, name(title, drawing.Lettering3_5), word("OVERHEAD "+figure(p.s, k.low), drawing.Lettering3_5))
	}
}

// stacked is copies of a piece that are overhead over one another, and the lowest underside among them.
type stacked struct {
	first, last string
	at          geom.Point
	low         float64
}

func planPen(kind traceKind, pl set.Place, how standing) pen {
	n := planPens[kind]
	switch {
	case n.layer != drawing.Cut || kind == crossing:
	case pl.Position != "":
		n = planMoved
	case how == overhead && (kind == ridge || kind == covered):
		n = planThin // its outline is what is seen
	case how == overhead:
		n = planOverhead
	case how == under && kind != line && kind != dashed:
		n = planHidden
	}
	return n
}

// label adds a movable label.
func (p *planner) label(at geom.Point, lines ...drawing.Text) { p.stack(at, lines...) }

// pieceLabels says what a piece is, how high, which way it rises.
func (p *planner) pieceLabels(e *set.Element, c set.Copy, pl set.Place, how standing, own []trace) {
	m := pl.Frame.Plan()
	title := name(e.PlaceName(c, pl), drawing.Lettering3_5)
	at := m.Apply(own[0].path.Bounds().Mid())
	switch sh := e.Shape.(type) {
	case *set.Platform:
		p.label(m.Apply(sh.Outline.Centre), title, word(level(p.s, set.Top(e, pl)), drawing.Lettering3_5))
	case *set.Steps:
		at := middle(sh)
		if sh.Blocks { // each block has its own words; the flight's stand before its foot
			at = sh.Way(sh.Mid(0), -2*p.unit)
		}
		p.label(m.Apply(at), title, word(risers(sh), drawing.Lettering3_5))
		for k, t := range sh.Treads() {
			if sh.Blocks || isLanding(sh, k+1) {
				what := level(p.s, pl.Level()+t.Top)
				if sh.Blocks {
					what = strconv.Itoa(k+1) + ": " + what
				}
				p.label(m.Apply(sh.Way(t.Mid+t.Width/4, (t.Y0+t.Y1)/2)), word(what, drawing.Lettering3_5))
			}
		}
	case *set.Ramp:
		p.label(at, title, word(slope(sh), drawing.Lettering3_5))
	case *set.Flat:
		if sh.Line != nil { // the middle of the strip's box may lie off it
			mid, _ := sh.Along(sh.Length / 2)
			at = m.Apply(mid)
		}
		p.label(at, title)
	case *set.Reserve:
		p.label(at, title, word(keepClear(p.s, pl), drawing.Lettering3_5))
	case *set.Mark:
		for _, q := range sh.Points {
			p.label(m.Apply(q), title)
		}
		for _, q := range sh.Paths {
			if !q.Empty() {
				mid, _ := q.At(q.Length() / 2)
				p.label(m.Apply(mid), title)
			}
		}
	default:
		p.label(at, title)
	}
}

// keepClear says from which height a volume is kept clear.
func keepClear(s *set.Set, pl set.Place) string {
	if l := pl.Level(); l > geom.Tolerance {
		return "KEEP CLEAR from " + level(s, l)
	}
	return "KEEP CLEAR"
}

func middle(s *set.Steps) geom.Point {
	treads := s.Treads()
	if len(treads) == 0 {
		return s.Way(s.Mid(0), 0)
	}
	last := treads[len(treads)-1]
	return s.Way((treads[0].Mid+last.Mid)/2, last.Y1/2)
}

func isLanding(s *set.Steps, tread int) bool {
	for _, l := range s.Landings {
		if l == tread {
			return true
		}
	}
	return false
}

// datums draws the centre line and the setting line past all that is drawn.
func (p *planner) datums() {
	over := 2 * p.unit
	b := p.box.Grow(over)
	p.stroke(polyline(geom.Point{Y: b.Min.Y}, geom.Point{Y: b.Max.Y}), datumLine)
	p.stroke(polyline(geom.Point{X: b.Min.X}, geom.Point{X: b.Max.X}), datumLine)
	p.box = b
	centre := word("CENTRE LINE", drawing.Lettering2_5)
	centre.At, centre.Align, centre.Offset = geom.Point{Y: b.Max.Y}, drawing.AlignCentre, geom.Point{Y: 1.5}
	p.text(centre)
	p.label(geom.Point{X: b.Min.X + p.unit}, word("SETTING LINE", drawing.Lettering2_5))
}

// edges writes the words of the two sides at the plan's edges and what lies below it, clear of the dimension lines,
// which reach below and right paper millimetres out.
func (p *planner) edges(below, right float64) {
	sides := p.s.SideNames()
	mid := p.box.Mid()
	left := word(sides.MinusWord, drawing.Lettering5)
	left.At, left.Turn, left.Align, left.Offset = geom.Point{X: p.box.Min.X, Y: mid.Y}, 90, drawing.AlignCentre, geom.Point{Y: 3}
	p.text(left)
	plus := word(sides.PlusWord, drawing.Lettering5)
	plus.At, plus.Turn, plus.Align, plus.Offset = geom.Point{X: p.box.Max.X, Y: mid.Y}, 90, drawing.AlignCentre, geom.Point{Y: -right - 3 - drawing.Lettering5}
	p.text(plus)
	foot := word(sides.Below, drawing.Lettering5)
	foot.At, foot.Align, foot.Offset = geom.Point{X: mid.X, Y: p.box.Min.Y}, drawing.AlignCentre, geom.Point{Y: -below - 3 - drawing.Lettering5}
	p.text(foot)
}
