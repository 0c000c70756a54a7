package element

import (
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// mostRisers is the greatest number of risers of one flight.
const mostRisers = 1000

// steps is a flight, or a row of loose blocks.
type steps struct{ plain }

var stepsTable = kind("steps", "A flight of steps, or a row of loose blocks. A flight of n risers has n − 1 goings before it lands. "+
	"Its height is said by exactly two of `risers`, `rise` and `total`, or by `rises`; where it `meets` a deck, by `risers` or `rise` alone: the total is then the deck's top less what the foot stands on. "+
	"With both, the flight keeps them and the level of its foot follows. Along a line its treads taper where the line turns, and their ends stand square to it.", `platform deck
    outline  rect 3600 x 2400
    height   450

steps front
    meets    deck.front
    risers   3
    going    300
    width    1800
    full-size floor side

steps round
    along    path 2000,0 arc to -2000,0 radius 2000 left centre
    at       0, -4000
    risers   15
    total    2400
    landing  after 7 depth 1000
    width    900
`, []notation.Attr{
	{Word: "meets", Form: "POINT", Example: "meets deck.front",
		Doc: "The edge that it climbs to, square on: the middle of the last riser stands there, and the top is that of the piece."},
	{Word: "starts", Form: "POINT heading VALUE", Example: "starts 0, 1200 heading 90deg",
		Doc: "Where the middle of its foot stands, and the way it climbs: 90° is upstage."},
	{Word: "along", Form: "PATH|REF [inner|centre|outer]", Example: "along path 0,0 arc to -2000,2000 radius 2000 left centre",
		Doc: "The line that it climbs along, from the foot up, in place of `meets` or `starts`: drawn in the flight's own axes, which `at` and `turn` place, or that of a piece made along a line. " +
			"Goings are measured along it, and where none are given the treads share evenly what the landings leave of it; with shorter ones the flight ends where they end. " +
			"The word says which edge of the treads it is, `inner` the one on the side to which it turns; `centre` unless said. A riser may stand on a corner of the line, and then runs along the mitre."},
	{Word: "at", Form: "POINT", Example: "at 0, 3600", Doc: "Where the own 0,0 of a line drawn after `along` stands. Without it, 0, 0."},
	{Word: "turn", Form: "VALUE", Example: "turn 30deg", Measured: true, Wants: unit.Angle, Doc: "Turns the flight about the own 0,0 of a line drawn after `along`, anticlockwise on the plan."},
	{Word: "risers", Form: "VALUE", Example: "risers 3", Measured: true, Wants: unit.Number, Doc: "How many risers there are, the last one up to the deck counted."},
	sized("rise", "rise 150", "The height of each riser."),
	sized("total", "total 450", "The height from the foot to where it lands."),
	{Word: "rises", Form: "LIST", Example: "rises 140 165 150", Doc: "The height of every riser, from the foot up, where they differ."},
	sized("going", "going 300", "The depth of each tread on plan, from riser to riser."),
	{Word: "goings", Form: "LIST", Example: "goings 300 320 280", Doc: "The depth of every tread, from the foot up; landings are left out. `goings 300 by 10` steps it."},
	{Word: "landing", Form: "after VALUE depth VALUE", Several: true, Example: "landing after 5 depth 1100",
		Doc: "The tread on top of that riser is a landing of that depth, in place of its going."},
	sized("width", "width 1800", "The width of every tread."),
	{Word: "widths", Form: "LIST", Example: "widths 1400 by -50", Doc: "The width of every tread, from the foot up."},
	{Word: "shift", Form: "LIST", Several: true, Example: "shift 0 60 -40",
		Doc: "How far the middle of every tread lies to the right, as one climbs. `shift 3 by 0, 200` moves one copy of a repeated flight."},
	sized("tread", "tread 18", "The thickness of the tread boards; the first notch of the stringer is shorter by it."),
	sized("riser_board", "riser_board 9", "The thickness of the riser boards."),
	sized("nosing", "nosing 25", "How far a tread stands out over the riser beneath it."),
	{Word: "built", Form: "flight|blocks", Example: "built blocks", Doc: "As one flight, or as loose blocks that each stand on the level of the foot."},
	sized("lid", "lid 18", "The thickness of the board on top of a block."),
}, slices.DeleteFunc(placed("floor|side"), func(a notation.Attr) bool { return a.Word == "shift" }))

func (steps) table() *notation.Kind { return stepsTable }

func (steps) outline(*elem) (*set.Outline, bool) { return nil, true }

func (steps) hasOutline(*elem) bool { return false }

// line is the line that a flight climbs along, as far as it goes; nil of a straight one.
func (s steps) line(e *elem) (*geom.Path, bool) {
	st, ok := s.onLine(e)
	if !ok {
		return nil, false
	}
	return st.Line, true
}

// landsAt is the middle of the last riser in the flight's own axes; it has the last tread's shift.
func (s steps) landsAt(e *elem) (geom.Point, bool) {
	run, ok1 := s.run(e)
	shifts, ok2 := s.shifts(e)
	st, ok3 := s.onLine(e)
	if !ok1 || !ok2 || !ok3 {
		return geom.Point{}, false
	}
	return st.Way(shifts[len(shifts)-1], run), true
}

// footAt is the middle of the first riser's foot in the flight's own axes.
func (s steps) footAt(e *elem) (geom.Point, bool) {
	shifts, ok1 := s.shifts(e)
	st, ok2 := s.onLine(e)
	if !ok1 || !ok2 {
		return geom.Point{}, false
	}
	return st.Way(shifts[0], 0), true
}

func (s steps) stand(e *elem) (pose, bool) {
	if e.has("along") {
		return s.standAlong(e)
	}
	for _, w := range [...]string{"at", "turn"} {
		if e.has(w) {
			return pose{}, e.hint(e.place(w), "`"+w+"` places the line that a flight is `along`, and this one is straight", "write `starts 0, 1200 heading 90deg` for its foot and its way")
		}
	}
	return e.climb(func() (geom.Point, bool) { return s.landsAt(e) })
}

func (s steps) height(e *elem) (float64, bool) { return s.total(e) }

func (s steps) ground(e *elem, k int) (float64, bool) {
	if e.has("along") {
		return s.footAlong(e, k)
	}
	if s.holdsFoot(e) {
		return e.footLevelOf(k)
	}
	return e.hangs(func() (float64, bool) { return s.total(e) })
}

func (s steps) shape(e *elem) (set.Shape, bool) {
	if e.has("along") && len(e.attr("along").Args) == 0 {
		return nil, false
	}
	out, fine := s.onLine(e)
	if !fine {
		return nil, false
	}
	var ok [8]bool
	out.Rises, ok[0] = s.rises(e)
	if !ok[0] {
		return nil, false
	}
	out.Goings, out.Landings, ok[1] = s.goings(e)
	out.Widths, ok[2] = s.widths(e)
	out.Shifts, ok[3] = s.shifts(e)
	out.Tread, ok[4] = e.optional("tread")
	out.RiserBoard, ok[5] = e.optional("riser_board")
	out.Nosing, ok[6] = e.optional("nosing")
	out.Lid, ok[7] = e.optional("lid")
	if slices.Contains(ok[:], false) {
		return nil, false
	}
	if a := e.attr("built"); a != nil && len(a.Args) > 0 {
		out.Blocks = word(a.Args[0].Value) == "blocks"
	}
	if !s.boards(e, out) || out.Line != nil && !s.fits(e, out) {
		return nil, false
	}
	return out, e.meetsInto(&out.Meets, &out.DeckBoard)
}

// boards checks the thicknesses against the rises and goings.
func (steps) boards(e *elem, s *set.Steps) bool {
	if s.Blocks {
		for _, w := range [...]string{"tread", "riser_board", "nosing"} {
			if e.has(w) {
				return e.hint(e.place(w), "`"+w+"` is of a flight, and these are blocks", "the board on top of a block is its `lid`")
			}
		}
		if s.Lid >= s.Rises[0] && e.has("lid") {
			return e.errorf(e.place("lid"), "the lid is %s, and the first block is only %s high", e.show(s.Lid), e.show(s.Rises[0]))
		}
		return true
	}
	if e.has("lid") {
		return e.hint(e.place("lid"), "a `lid` is of blocks, and this is a flight", "write `built blocks`, or `tread` for its boards")
	}
	if least := slices.Min(s.Rises); s.Tread >= least {
		return e.errorf(e.place("tread"), "the tread is %s thick, and a rise is only %s", e.show(s.Tread), e.show(least))
	}
	if len(s.Goings) == 0 {
		return true
	}
	least := slices.Min(s.Goings)
	if s.Nosing >= least {
		return e.errorf(e.place("nosing"), "the nosing is %s, and a going is only %s", e.show(s.Nosing), e.show(least))
	}
	if s.RiserBoard >= least {
		return e.errorf(e.place("riser_board"), "the riser board is %s thick, and a going is only %s", e.show(s.RiserBoard), e.show(least))
	}
	return true
}

// under is the level of the tread that lies under p; of two that meet there the higher.
func (s steps) under(e *elem, k int, p geom.Point, _ func() ([]geom.Region, bool), at diag.Span) (float64, bool) {
	sh, ok := e.shape()
	if !ok {
		return 0, false
	}
	f, ok := e.frame(k)
	if !ok {
		return 0, false
	}
	level, found := 0.0, false
	for _, t := range set.Surfaces(&set.Element{Name: e.name, Shape: sh}, set.Place{Frame: f}) {
		if z := t.Z(p); t.Region.Contains(p) && (!found || z > level) {
			level, found = z, true
		}
	}
	if !found {
		return 0, e.errorf(at, "no tread of `%s` lies under %s, %s", e.name, e.show(p.X), e.show(p.Y))
	}
	return level, true
}
