package enlarge

import (
	"fmt"
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// Steps in millimetres of a squaring-up grid where nothing is said, the widest first: half a metre, a foot (common practice, no
// source), closer ones for what is smaller.
var (
	metricSteps   = []float64{500, 250, 100, 50, 20}
	imperialSteps = []float64{imperialStep, imperialStep / 2, imperialStep / 4, inch}
)

const imperialStep = 12 * inch

// fewest is how many squares fit at least into a cloth's lesser extent where its grid is not said.
const fewest = 4

// GridStep returns the step of a cloth's grid in millimetres: what is asked for, otherwise 500 mm or, of a set in feet, 1 foot, and
// less for a cloth so small that it would have hardly any squares.
func GridStep(c *set.Cloth, u unit.System) float64 {
	if c.Grid > 0 {
		return c.Grid
	}
	steps := metricSteps
	if u.Imperial() {
		steps = imperialSteps
	}
	for _, s := range steps {
		if min(c.Width, c.Height) >= fewest*s-geom.Tolerance {
			return s
		}
	}
	return steps[len(steps)-1]
}

// Line is one line of a squaring-up grid.
type Line struct {
	Label  string  // the same on the small and on the large sheet; empty of a finer grid's
	At     float64 // millimetres: x from the centre line, y from the lower edge
	Centre bool    // the centre line
}

// Lines returns the upright lines of a grid from left to right, lettered from A as seen from the front, and the level ones from the
// bottom up, numbered from 0, the lower edge. They count from the cloth's centre line and lower edge and lie on the finished
// cloth: its other edges are lines only where a step comes out on them.
func Lines(c *set.Cloth, step float64) (across, up []Line) {
	n := int(math.Floor(c.Width/2/step + geom.Tolerance))
	for i := -n; i <= n; i++ {
		across = append(across, Line{Label: letters(i + n), At: float64(i) * step, Centre: i == 0})
	}
	for i := 0; float64(i)*step <= c.Height+geom.Tolerance; i++ {
		up = append(up, Line{Label: strconv.Itoa(i), At: float64(i) * step})
	}
	return across, up
}

// Finer returns the lines of a finer grid over its part of the cloth, which count from the centre line and the lower edge too, and from the
// part's own edges where they do not meet them.
func Finer(g set.FineGrid) (across, up []float64) {
	steps := func(from, to float64) []float64 {
		var out []float64
		for k := math.Ceil(from/g.Step - geom.Tolerance); k*g.Step <= to+geom.Tolerance; k++ {
			out = append(out, k*g.Step)
		}
		return out
	}
	return steps(g.Over.Min.X, g.Over.Max.X), steps(g.Over.Min.Y, g.Over.Max.Y)
}

// alphabet leaves out I and O, which are taken for figures, and L and R, which name the sides of the centre line.
const alphabet = "ABCDEFGHJKMNPQSTUVWXYZ"

// letters returns A … Z, AA, AB … for i from 0.
func letters(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / len(alphabet) {
		s = string(alphabet[(i-1)%len(alphabet)]) + s
	}
	return s
}

// Snapped returns how many millimetres of line are snapped for a cloth's grids: every line over the finished cloth, every finer one
// over its part.
func Snapped(c *set.Cloth, step float64) float64 {
	across, up := Lines(c, step)
	total := float64(len(across))*c.Height + float64(len(up))*c.Width
	for _, g := range c.Fine {
		a, u := Finer(g)
		total += float64(len(a))*g.Over.H() + float64(len(u))*g.Over.W()
	}
	return total
}

// SnapWords says how many lines are snapped and how long all of them are.
func SnapWords(c *set.Cloth, step float64, u unit.System) string {
	across, up := Lines(c, step)
	long := Snapped(c, step)
	words := fmt.Sprintf("%d upright and %d level lines, ", len(across), len(up))
	if len(c.Fine) > 0 {
		words = fmt.Sprintf("%d upright and %d level lines and the finer ones, ", len(across), len(up))
	}
	if u.Imperial() {
		return words + unit.FormatNumber(long/imperialStep, 1) + " ft of snapped line"
	}
	return words + unit.FormatNumber(long/1000, 1) + " m of snapped line"
}
