package changes

import (
	"math"
	"strings"

	"markout/layout/geom"
	"markout/layout/unit"
)

// passage is how a piece gets from one place to another.
type passage struct {
	by   geom.Vec
	turn float64 // degrees, anticlockwise more than 0
	tilt bool    // it stands otherwise, and no turn on the plan says it
}

func (p passage) far() float64 { return math.Hypot(math.Hypot(p.by.X, p.by.Y), p.by.Z) }

// difference is the way from a point of a piece, in its own axes, to that of another.
func difference(f, g geom.Frame, p, q geom.Vec) geom.Vec {
	a, b := f.Apply(p), g.Apply(q)
	return geom.Vec{X: b.X - a.X, Y: b.Y - a.Y, Z: b.Z - a.Z}
}

// turnBetween is the least turn from one frame to another, of a piece that looks the same at so many turns of a full circle, 0 for
// any.
func turnBetween(f, g geom.Frame, sides int) float64 {
	if sides == 0 {
		return 0
	}
	return math.Remainder(g.TurnDeg()-f.TurnDeg(), 360/float64(sides))
}

func sameFrame(f, g geom.Frame) bool {
	for i := range f.R {
		for j := range f.R[i] {
			if math.Abs(f.R[i][j]-g.R[i][j]) > 1e-12 {
				return false
			}
		}
	}
	return same(f.T.X, g.T.X) && same(f.T.Y, g.T.Y) && same(f.T.Z, g.T.Z)
}

// words says a passage of a piece, or of that part of it that subject names.
func (p passage) words(w wording, subject string) string {
	var says []string
	if math.Hypot(p.by.X, p.by.Y) > geom.Tolerance {
		says = append(says, "moves "+wayWords(w.set, geom.Vec{X: p.by.X, Y: p.by.Y}))
	}
	if math.Abs(p.by.Z) > geom.Tolerance {
		says = append(says, w.lifted(p.by.Z))
	}
	if math.Abs(p.turn) > leastTurn {
		says = append(says, turnedWords(p.turn))
	}
	if p.tilt {
		says = append(says, "stands at another tilt")
	}
	words := strings.Join(says, ", ")
	if words != "" && subject != "" {
		return subject + " " + words
	}
	return words
}

// lifted says a way up or down: raised 150.
func (w wording) lifted(by float64) string {
	word := "raised "
	if by < 0 {
		word = "lowered "
	}
	figure := unit.FormatLength(math.Abs(by), w.set.Units, 0.5)
	if figure == unit.FormatLength(0, w.set.Units, 0.5) {
		figure = "less than " + unit.FormatMeasure(least(w.set), w.set.Units, 0.5)
	}
	return word + figure
}

// turnedWords says a turn: turned 15° anticlockwise.
func turnedWords(by float64) string {
	figure := unit.FormatAngle(math.Abs(by), 0.1)
	switch {
	case figure == unit.FormatAngle(0, 0.1):
		figure = "less than 0.1°"
	case math.Abs(math.Abs(by)-180) <= leastTurn:
		return "turned " + figure
	}
	if by < 0 {
		return "turned " + figure + " clockwise"
	}
	return "turned " + figure + " anticlockwise"
}
