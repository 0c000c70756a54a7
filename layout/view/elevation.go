package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// Elevation is one dimensioned view of a piece from the front, from the back or from its side, and what is said of it beside the
// drawing. x runs to the right as one looks at it, y up from the piece's foot, both in the piece's own millimetres.
type Elevation struct {
	*drawing.Drawing
	Element string
	Seen    string   // "from the front", "from the back", "side", "inner side"
	Says    []string // material, thickness, where it stands, how it opens, arcs
}

// Pens of elevations: what is seen is wide, what lies behind it dashed.
var (
	seenEdge   = pen{drawing.Cut, drawing.Continuous, planWide, drawing.Black}
	seenThin   = pen{drawing.Cut, drawing.Continuous, planNarrow, drawing.Black}
	hiddenEdge = pen{drawing.Cut, drawing.Dashed, planNarrow, drawing.Black}
	groundLine = pen{drawing.Notes, drawing.Continuous, drawing.WideLine, drawing.Black}
	eyeLine    = pen{drawing.Notes, drawing.LongDashDot, planNarrow, drawing.Black}
)

var elevationLegend = []legendEntry{
	{seenEdge, "edge that is seen"},
	{seenThin, "board, or where pieces of a face meet"},
	{hiddenEdge, "hidden behind"},
	{groundLine, "what it stands on"},
	{eyeLine, "eye line"},
}

// ElevationLegend returns what the lines of an elevation mean, of those that it shows.
func ElevationLegend(d *drawing.Drawing) []LegendLine { return legendOf(elevationLegend, d) }

// Elevations returns the dimensioned views of e: the face of a flat, a cut-out or a standing shape; front and side of a flight, of
// loose blocks and of a ramp. behind shows faces and fronts from the back, mirrored. It returns nil for a kind of piece that has no
// elevation, and for a flight of one riser.
func Elevations(s *set.Set, e *set.Element, behind bool) []Elevation {
	if len(e.Copies) == 0 || len(e.Copies[0].Places) == 0 {
		return nil
	}
	switch sh := e.Shape.(type) {
	case *set.Flat:
		return []Elevation{newElevation(s, e, behind).flat(sh)}
	case *set.Figure:
		if sh.Box().Empty() {
			return nil
		}
		return []Elevation{newElevation(s, e, behind).figure(sh)}
	case *set.Panel:
		if !sh.Stands {
			return nil
		}
		return []Elevation{newElevation(s, e, behind).panel(sh)}
	case *set.Steps:
		return stepElevations(s, e, sh, behind)
	case *set.Ramp:
		return []Elevation{newElevation(s, e, behind).rampFront(sh), newElevation(s, e, false).rampSide(sh)}
	}
	return nil
}

// elevator draws one elevation.
type elevator struct {
	*builder
	s      *set.Set
	e      *set.Element
	behind bool
	turn   geom.Isometry // the front of the piece to the paper
	seen   string
	says   []string
	xs, ys []place // what is dimensioned, on the paper
	upLeft bool    // heights are dimensioned at the left: the piece rises from there, and no line to them crosses it
}

func newElevation(s *set.Set, e *set.Element, behind bool) *elevator {
	d := &drawing.Drawing{View: "elevation", Name: e.Name}
	v := &elevator{builder: newBuilder(d), s: s, e: e, behind: behind, turn: geom.Isometry{A: 1, D: 1}, seen: "from the front"}
	if behind {
		v.seen, v.turn.A = "from the back", -1
	}
	v.own(e)
	return v
}

func (v *elevator) at(x, y float64) geom.Point { return v.turn.Apply(geom.Point{X: x, Y: y}) }

// width and height add a place to the chain below and to the chain at the right.
func (v *elevator) width(x, y float64) {
	p := v.at(x, y)
	v.xs = insert(v.xs, place{p.X, p})
}

func (v *elevator) height(x, y float64) {
	p := v.at(x, y)
	v.ys = insert(v.ys, place{p.Y, p})
}

func (v *elevator) say(line string) {
	if line != "" {
		v.says = append(v.says, line)
	}
}

// done adds what every elevation has: the line that the piece stands on, the chains, and what it is of.
func (v *elevator) done() Elevation {
	body := v.d.Bounds()
	over := max(body.W(), body.H()) * floorBeyond
	ground := groundLine
	if v.hangs() {
		ground = boarding
	}
	v.stroke(polyline(geom.Point{X: body.Min.X - over}, geom.Point{X: body.Max.X + over}), ground)
	low := min(body.Min.Y, 0)
	v.chain(v.xs, 0, geom.Point{X: body.Max.X + over, Y: low}, -chainFirst)
	if v.upLeft {
		v.chain(v.ys, 90, geom.Point{X: body.Min.X - over, Y: low}, heightsFirst)
	} else {
		v.chain(v.ys, 90, geom.Point{X: body.Max.X + over, Y: low}, -heightsFirst)
	}
	t := word(v.foot(), drawing.Lettering2_5)
	t.At, t.Align, t.Offset = geom.Point{X: body.Min.X}, drawing.AlignRight, geom.Point{X: -7, Y: overGround}
	if v.upLeft {
		t.At, t.Align, t.Offset.X = geom.Point{X: body.Max.X}, drawing.AlignLeft, 2
	}
	v.text(t)
	v.d.Title = v.e.Name + ", " + v.seen
	return Elevation{Drawing: v.d, Element: v.e.Name, Seen: v.seen, Says: append(v.says, v.common()...)}
}

// floorBeyond is how far the floor line goes on beyond the piece, as a share of its greater side.
const floorBeyond = 0.03

// heightsFirst is how far beyond the floor line the chain of heights stands, so that its figures keep off the letter of the end.
const heightsFirst = chainFirst + 5

// chain adds one chain with its overall, so far to the left of its direction from base, paper millimetres.
func (v *elevator) chain(places []place, direction float64, base geom.Point, offset float64) {
	if len(places) < 2 {
		return
	}
	ps := make([]geom.Point, len(places))
	for i, q := range places {
		ps[i] = q.point
	}
	v.d.Dimensions = append(v.d.Dimensions, drawing.Dimension{
		Mark:   drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1},
		Points: ps, Direction: direction, Offset: offset, Base: &base, Overall: len(ps) > 2,
	})
}

// foot says what the piece stands on.
func (v *elevator) foot() string {
	pl := v.e.Copies[0].Places[0]
	switch {
	case pl.Over != nil:
		return "FLOOR of " + pl.Over.Room
	case v.hangs():
		return level(v.s, pl.Level())
	case pl.Level() > geom.Tolerance || pl.Level() < -geom.Tolerance:
		return "FOOT " + level(v.s, pl.Level())
	}
	return "FLOOR"
}

// hangs reports whether nothing is under the piece: the line at its lower end is a height alone.
func (v *elevator) hangs() bool {
	f, ok := v.e.Shape.(*set.Figure)
	return ok && f.Hung && v.e.Copies[0].Places[0].Over == nil
}

// common is what is said of every piece: how many, where it stands, what it is of, its notes.
func (v *elevator) common() []string {
	var out []string
	if n := len(v.e.Copies); n > 1 {
		out = append(out, strconv.Itoa(n)+" of these: "+v.e.CopyName(v.e.Copies[0])+" to "+v.e.CopyName(v.e.Copies[n-1])+".")
	}
	pl := v.e.Copies[0].Places[0]
	switch l := pl.Level(); {
	case mirrored(v.e):
		out = append(out, "OPPOSITE-HANDED: drawn the right way up as it is dressed; it hangs in "+pl.Over.Room+", which is mirrored, so that left and right change places. Where each piece hangs: the overhead sheets.")
	case pl.Over != nil:
		out = append(out, "Drawn the right way up; it hangs in "+pl.Over.Room+", turned over. Where each piece hangs: the overhead sheets.")
	case l > geom.Tolerance || l < -geom.Tolerance:
		what, on := "foot", ""
		if v.hangs() {
			what = "lowest point"
		}
		if pl.On != "" {
			on = ", on " + pl.On
		}
		out = append(out, "Its "+what+" is at "+level(v.s, l)+on+"; heights here count from there.")
	}
	if pl.In != "" && pl.Over == nil {
		out = append(out, "It stands in "+pl.In+".")
	}
	if v.e.Material != "" {
		out = append(out, "Of "+v.e.Material+".")
	}
	for _, n := range v.e.Notes {
		out = append(out, "Note: "+n+".")
	}
	return out
}

// thick says a thickness; nothing where it is not given.
func (v *elevator) thick(what string, mm float64) {
	if mm > geom.Tolerance {
		v.say(what + " " + figure(v.s, mm) + " thick.")
	}
}

// overGround is how far over the floor line its word and the letters of the ends stand beside the piece, paper millimetres.
const overGround = 1.5

// end writes a letter at an end of the foot, beside the piece and over the floor line.
func (v *elevator) end(letter string, x float64, right bool) {
	t := word(letter, drawing.Lettering3_5)
	t.At, t.Align, t.Offset = v.at(x, 0), drawing.AlignRight, geom.Point{X: -2, Y: overGround}
	if right {
		t.Align, t.Offset.X = drawing.AlignLeft, 2
	}
	v.text(t)
}

// arcs says of each circular arc of an outline its centre, radius, chord and rise, in the figures of the view, and marks centres that
// lie within it.
func (v *elevator) arcs(paths ...*geom.Path) {
	box := v.d.Bounds()
	n := 0
	for _, p := range paths {
		for _, g := range p.Segments() {
			if g.Kind != geom.Arc {
				continue
			}
			n++
			chord, rise := chordRise(g)
			mid := g.Point(0.5)
			v.stack(mid, word("arc "+strconv.Itoa(n), drawing.Lettering2_5))
			words := "Arc " + strconv.Itoa(n) + ": radius " + figure(v.s, g.RX) + ", chord " + figure(v.s, chord) + ", rise " + figure(v.s, rise)
			if box.Contains(g.Centre) {
				v.stroke(polyline(g.Centre.Sub(geom.Point{X: box.W() / 100}), g.Centre.Add(geom.Point{X: box.W() / 100})), boarding)
				v.stroke(polyline(g.Centre.Sub(geom.Point{Y: box.W() / 100}), g.Centre.Add(geom.Point{Y: box.W() / 100})), boarding)
			}
			v.say(words + ", centre " + figure(v.s, g.Centre.X-box.Min.X) + " from the left end, " + level(v.s, g.Centre.Y) + " up.")
		}
	}
}

// chordRise returns an arc's chord, and how far its middle lies off it.
func chordRise(g geom.Segment) (chord, rise float64) {
	return g.From.Dist(g.To), g.Point(0.5).Dist(g.From.Lerp(g.To, 0.5))
}

// several prints a count with its noun.
func several(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// slopeWords says a ramp's slope also as an angle.
func slopeWords(sh *set.Ramp) string {
	return slope(sh) + ", " + unit.FormatAngle(degrees(geom.Point{X: sh.Length, Y: sh.Rise}), 0.1)
}
