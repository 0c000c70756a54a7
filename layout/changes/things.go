package changes

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// thing is something built that stands in its place. Things of one kind may stand in for one another.
type thing struct {
	kind    string
	element string // with the copy's number
	number  int    // of a block, 0 for what is no block
	at      geom.Vec
	turn    float64    // degrees on the plan
	sides   int        // at how many turns of a full circle it looks the same; 0 for any turn
	size    [3]float64 // of a block: across, deep, high
}

// stays reports whether a thing that stands as t does is where u is to be.
func (t *thing) stays(u *thing) bool { return t.apart(u) <= geom.Tolerance && !t.turned(u) }

// apart is how far t is from the place of u.
func (t *thing) apart(u *thing) float64 {
	d := t.way(u)
	return math.Hypot(math.Hypot(d.X, d.Y), d.Z)
}

// way is the way from t's place to u's.
func (t *thing) way(u *thing) geom.Vec {
	return geom.Vec{X: u.at.X - t.at.X, Y: u.at.Y - t.at.Y, Z: u.at.Z - t.at.Z}
}

// leastTurn is the turn in degrees that makes a difference: what a turn by less moves at 5 m from its middle is under the
// tolerance.
const leastTurn = 1e-8

func (t *thing) turned(u *thing) bool { return math.Abs(t.by(u)) > leastTurn }

// by is the least turn in degrees that t makes to stand as u does, anticlockwise more than 0.
func (t *thing) by(u *thing) float64 {
	if t.sides == 0 {
		return 0
	}
	return math.Remainder(u.turn-t.turn, 360/float64(t.sides))
}

// key gathers what makes a thing what it is, in its own axes. Lengths that differ by less than a tenth of a micrometre read
// the same but where one lies on a limit between two, which is laid where no round figure is.
type key struct{ strings.Builder }

const (
	keyStep = 1e-4
	keyOff  = 0.31e-4
)

func (k *key) word(w string) { k.WriteString(w); k.WriteByte(' ') }

func (k *key) numbers(list ...float64) {
	for _, x := range list {
		k.WriteString(strconv.FormatInt(int64(math.Floor((x+keyOff)/keyStep)), 10))
		k.WriteByte(' ')
	}
	k.WriteByte(';')
}

func (k *key) flags(list ...bool) {
	for _, x := range list {
		k.word(strconv.FormatBool(x))
	}
}

func (k *key) path(p *geom.Path) {
	for _, s := range p.Segments() {
		k.numbers(float64(s.Kind), s.From.X, s.From.Y, s.To.X, s.To.Y)
		for _, t := range [2]float64{1. / 3, 2. / 3} {
			if q := s.Point(t); s.Kind != geom.Line {
				k.numbers(q.X, q.Y)
			}
		}
	}
	k.word("|")
}

func (k *key) region(r geom.Region) {
	k.path(r.Outer)
	for _, h := range r.Holes {
		k.path(h)
	}
}

// likeTurns returns how many turns of a full circle an outline about its own 0,0 looks the same at, 0 for any.
func likeTurns(o set.Outline) int {
	switch o.Form {
	case "circle":
		if o.Centre.Near(geom.Point{}) {
			return 0
		}
	case "rect":
		if b := o.Path.Bounds(); math.Abs(b.W()-b.H()) <= geom.Tolerance {
			return 4
		}
		return 2
	case "ellipse":
		return 2
	case "polygon":
		return o.Path.Len()
	}
	return 1
}

// wayWords says a way on the plan and up: 120 stage left, 300 upstage and 150 up. What is less than half a step of the figures
// is left out.
func wayWords(s *set.Set, d geom.Vec) string {
	names := s.SideNames()
	var says []string
	for _, x := range [3]struct {
		by          float64
		plus, minus string
	}{{d.X, strings.ToLower(names.PlusWord), strings.ToLower(names.MinusWord)}, {d.Y, "upstage", "downstage"}, {d.Z, "up", "down"}} {
		figure := unit.FormatLength(math.Abs(x.by), s.Units, 0.5)
		if figure == unit.FormatLength(0, s.Units, 0.5) {
			continue
		}
		word := x.plus
		if x.by < 0 {
			word = x.minus
		}
		says = append(says, figure+" "+word)
	}
	switch len(says) {
	case 0:
		return "less than " + unit.FormatMeasure(least(s), s.Units, 0.5)
	case 1:
		return says[0]
	}
	return strings.Join(says[:len(says)-1], ", ") + " and " + says[len(says)-1]
}

func least(s *set.Set) float64 {
	if s.Units.Imperial() {
		return 25.4 / 16
	}
	return 0.5
}

// turnWords says a turn: 90° anticlockwise.
func turnWords(by float64) string {
	word := " anticlockwise"
	if by < 0 {
		word = " clockwise"
	}
	return unit.FormatAngle(math.Abs(by), 0.1) + word
}

// moveWords says how a thing gets from its place to another: moves 120 stage left and turns 90° anticlockwise.
func moveWords(s *set.Set, from, to *thing) string {
	var says []string
	if from.apart(to) > geom.Tolerance {
		says = append(says, "moves "+wayWords(s, from.way(to)))
	}
	if from.turned(to) {
		says = append(says, "turns "+turnWords(from.by(to)))
	}
	return strings.Join(says, " and ")
}
