package view

import (
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	transfer "markout/layout/overhead"
	"markout/layout/set"
)

// Pens of the overhead sheets.
var (
	hungEdge   = pen{drawing.Cut, drawing.Continuous, planWide, drawing.Black}
	hungRoom   = pen{drawing.Cut, drawing.LongDashDoubleDot, planWide, drawing.Black}
	hungSeam   = pen{drawing.Cut, drawing.Dashed, planNarrow, drawing.Black}
	turnLine   = pen{drawing.Registration, drawing.LongDashDot, drawing.WideLine, drawing.Black}
	hungWay    = pen{drawing.Notes, drawing.Dotted, drawing.MediumLine, drawing.Black}
	fixingMark = pen{drawing.Registration, drawing.Continuous, planNarrow, drawing.Black}
)

var reflectedLegend = []legendEntry{
	{hungEdge, "edge of a piece as it hangs; the arrow leaves its front"},
	{fixingMark, "fixing, station"},
	{hungRoom, "the room's floor overhead"},
	{hungSeam, "edge of a panel"},
	{turnLine, "the turn's line"},
	{hungWay, "way of whoever is beneath, or from foothold to foothold"},
	{datumLine, "centre line, setting line"},
}

// ReflectedLegend returns what the lines of a reflected plan mean, of those that it shows.
func ReflectedLegend(d *drawing.Drawing) []LegendLine { return legendOf(reflectedLegend, d) }

// Reflected returns the reflected plan of a room overhead: its pieces as they hang, as seen from above in the set's axes, so that left
// and right are those of the ground plan; fixings, panels, the turn's line with the places of its ends, centre and setting line, the
// room's stations on the walking floor. A label gives a piece's tag, its name and the level of its lowest point.
func Reflected(s *set.Set, r *transfer.Room) *drawing.Drawing {
	d := &drawing.Drawing{
		View: "reflected plan", Name: r.Element.Name, Title: r.Element.Name + ": reflected plan",
		Hold: "as seen from above, upstage at the top; left and right are those of the ground plan", Datum: planDatum(s),
	}
	p := &planner{builder: newBuilder(d), s: s}
	hung := r.Shape.Turn().Then(r.Frame).Plan()
	outline := r.Shape.Outline.Path.Transform(hung)
	p.box = outline.Bounds().Include(geom.Point{})
	for i := range r.Pieces {
		p.box = p.box.Union(placedBox(r.Pieces[i].Element, r.Pieces[i].Copy.Places[0]))
	}
	p.unit = max(p.box.W(), p.box.H()) / 100
	p.size = sizes{centreArm: p.unit, crossArm: p.unit, cornerLeg: 2 * p.unit, head: p.unit, feet: s.Units.Imperial()}
	p.own(r.Element)
	p.stroke(outline, hungRoom)
	p.panels(r, hung)
	p.ways(r)
	for _, g := range Stacks(r) {
		p.hungPiece(r, g)
	}
	p.nobody()
	p.stations(r)
	p.turnsLine(r)
	p.datums()
	below, right := p.roomChains(outline, r, hung)
	p.edges(below, right)
	return d
}

// panels draws the edges of the panels that lie within the room, each once, and names each panel near its lower edge on the plan.
func (p *planner) panels(r *transfer.Room, hung geom.Isometry) {
	drawn := map[[2]geom.Point]bool{}
	for _, q := range r.Shape.Panels {
		for _, g := range q.Outline.Path.Segments() {
			a, b := g.From, g.To
			if b.X < a.X || b.X == a.X && b.Y < a.Y {
				a, b = b, a
			}
			if drawn[[2]geom.Point{a, b}] || onPath(r.Shape.Outline.Path, g.Point(0.5)) {
				continue
			}
			drawn[[2]geom.Point{a, b}] = true
			one := geom.NewPath(g.From)
			one.Append(g)
			p.stroke(one.Transform(hung), hungSeam)
		}
		b := q.Outline.Path.Transform(hung).Bounds()
		p.label(geom.Point{X: b.Mid().X, Y: b.Min.Y + 4*p.unit}, word("PANEL "+q.Name, drawing.Lettering3_5))
	}
}

// onPath reports whether a place lies on a straight side of a path.
func onPath(path *geom.Path, q geom.Point) bool {
	for _, g := range path.Segments() {
		d := g.To.Sub(g.From)
		if g.Kind == geom.Line && math.Abs(d.Unit().Cross(q.Sub(g.From))) <= geom.Tolerance && q.Sub(g.From).Dot(q.Sub(g.To)) <= 0 {
			return true
		}
	}
	return false
}

// Stacks gathers the pieces of a room, as indices, so that copies of one element that hang over one another at one place are together.
func Stacks(r *transfer.Room) [][]int {
	var out [][]int
	for i := range r.Pieces {
		q := &r.Pieces[i]
		if n := len(out); n > 0 {
			last := &r.Pieces[out[n-1][0]]
			if last.Element == q.Element && last.Overhead.T.Plan().Near(q.Overhead.T.Plan()) {
				out[n-1] = append(out[n-1], i)
				continue
			}
		}
		out = append(out, []int{i})
	}
	return out
}

// StackName names a stack: bench, or plate.1 to plate.14.
func StackName(r *transfer.Room, stack []int) string {
	first, last := &r.Pieces[stack[0]], &r.Pieces[stack[len(stack)-1]]
	if len(stack) == 1 {
		return first.Name
	}
	return first.Name + " to " + last.Name
}

// StackTags returns the tags of a stack: 3, or 3-16; empty where it has none.
func StackTags(r *transfer.Room, stack []int) string {
	first, last := r.Pieces[stack[0]].Tag, r.Pieces[stack[len(stack)-1]].Tag
	switch {
	case first == 0:
		return ""
	case first == last:
		return strconv.Itoa(first)
	}
	return strconv.Itoa(first) + "-" + strconv.Itoa(last)
}

// stackLowest is the level of the lowest point of a stack as it hangs.
func stackLowest(r *transfer.Room, stack []int) float64 {
	low := r.Pieces[stack[0]].Lowest
	for _, i := range stack {
		low = min(low, r.Pieces[i].Lowest)
	}
	return low
}

// hungPiece draws a stack of pieces with its fixings, an arrow that leaves its front, and its words.
func (p *planner) hungPiece(r *transfer.Room, stack []int) {
	q := &r.Pieces[stack[0]]
	m := q.Overhead.Plan()
	own := p.size.traces(q.Element.Shape)
	if len(own) == 0 {
		return
	}
	p.own(q.Element)
	for _, t := range own {
		n := planPens[t.kind]
		if n.layer == drawing.Cut && t.kind != covered {
			n = hungEdge
		}
		p.stroke(t.path.Transform(m), n)
	}
	for _, f := range q.Fixings {
		for _, t := range cross(f, p.unit/2, crossing) {
			p.stroke(t.path, fixingMark)
		}
	}
	if at, out, ok := frontOf(q.Element.Shape); ok {
		from := m.Apply(at)
		p.stroke(p.size.arrowUp(from, from.Add(m.Vector(out).Mul(2.5*p.unit))), planThin)
	}
	title := StackName(r, stack)
	if tags := StackTags(r, stack); tags != "" {
		title = tags + " " + title
	}
	p.label(m.Apply(own[0].path.Bounds().Mid()), name(title, drawing.Lettering3_5),
		word("lowest "+level(p.s, stackLowest(r, stack)), drawing.Lettering2_5))
}

// frontOf returns the middle of a piece's front in its own axes and the way it looks; ok is false of what has no front to speak of.
func frontOf(sh set.Shape) (at, out geom.Point, ok bool) {
	if d, dressed := sh.(*set.Dressing); dressed {
		if mid, in, straight := front(d.Outline); straight {
			return mid, in.Mul(-1), true
		}
		return geom.Point{X: d.Outline.Centre.X, Y: d.Outline.Path.Bounds().Min.Y}, geom.Point{Y: -1}, true
	}
	box := geom.EmptyRect()
	for _, f := range set.Footprints(sh) {
		box = box.Union(f.Bounds())
	}
	if box.Empty() {
		return at, out, false
	}
	return geom.Point{X: box.Mid().X, Y: box.Min.Y}, geom.Point{Y: -1}, true
}

// stations marks the room's stations on the walking floor.
func (p *planner) stations(r *transfer.Room) {
	m := r.Frame.Plan()
	for _, st := range r.Shape.Stations {
		at := m.Apply(st.At)
		p.stroke(geom.Circle(1.6*p.unit).Transform(geom.Move(at, 0)), fixingMark)
		for _, t := range cross(at, 1.3*p.unit, crossing) {
			p.stroke(t.path, fixingMark)
		}
		p.label(at, word("STATION "+st.Name, drawing.Lettering2_5))
	}
}

// TurnLine returns the ends of the line that a room turns over about, where it meets the room's box, on the plan; ok is false of one
// that is mirrored, which turns about none.
func TurnLine(r *transfer.Room) (a, b geom.Point, ok bool) {
	box, m := r.Shape.Outline.Path.Bounds(), r.Frame.Plan()
	switch r.Shape.Turned {
	case set.Lengthways:
		a, b = geom.Point{}, geom.Point{Y: box.H()}
	case set.Crossways:
		a, b = geom.Point{X: -box.W() / 2, Y: box.H() / 2}, geom.Point{X: box.W() / 2, Y: box.H() / 2}
	default:
		return a, b, false
	}
	return m.Apply(a), m.Apply(b), true
}

// turnsLine draws the turn's line beyond the room and writes the places of its ends.
func (p *planner) turnsLine(r *transfer.Room) {
	a, b, ok := TurnLine(r)
	if !ok {
		return
	}
	over := b.Sub(a).Unit().Mul(3 * p.unit)
	p.stroke(polyline(a.Sub(over), b.Add(over)), turnLine)
	p.label(a.Sub(over), word("turn's line: "+spot(p.s, a), drawing.Lettering2_5))
	p.label(b.Add(over), word("turn's line: "+spot(p.s, b), drawing.Lettering2_5))
}

// spot prints a place with letters and no sign, from the centre line and from the setting line: 1500 R, 3350 U.
func spot(s *set.Set, q geom.Point) string {
	sides := s.SideNames()
	return sided(s, q.X, sides.Plus, sides.Minus, "on the centre line") + ", " + sided(s, q.Y, "U", "D", "on the setting line")
}

func sided(s *set.Set, x float64, plus, minus, on string) string {
	f := figure(s, max(x, -x))
	switch {
	case x > geom.Tolerance:
		return f + " " + plus
	case x < -geom.Tolerance:
		return f + " " + minus
	}
	return on
}

// roomChains dimensions the room's ends, its panels' edges and the two lines at the plan's edges, and returns how far the chains reach
// out, paper millimetres.
func (p *planner) roomChains(outline *geom.Path, r *transfer.Room, hung geom.Isometry) (below, right float64) {
	var xs, ys []place
	add := func(b geom.Rect) {
		xs = insert(insert(xs, place{b.Min.X, b.Min}), place{b.Max.X, geom.Point{X: b.Max.X, Y: b.Min.Y}})
		ys = insert(insert(ys, place{b.Min.Y, geom.Point{X: b.Max.X, Y: b.Min.Y}}), place{b.Max.Y, b.Max})
	}
	add(outline.Bounds())
	for _, q := range r.Shape.Panels {
		add(q.Outline.Path.Transform(hung).Bounds())
	}
	xs, ys = insert(xs, place{0, geom.Point{Y: p.box.Min.Y}}), insert(ys, place{0, geom.Point{X: p.box.Max.X}})
	base := geom.Point{X: p.box.Max.X, Y: p.box.Min.Y}
	p.chain(xs, 0, base, -chainFirst, len(xs) > 2)
	p.chain(ys, 90, base, -chainFirst, len(ys) > 2)
	reach := func(n int) float64 {
		if n > 2 {
			return chainFirst + chainStep
		}
		return chainFirst
	}
	return reach(len(xs)), reach(len(ys))
}
