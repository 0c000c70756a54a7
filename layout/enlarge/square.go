package enlarge

import (
	"math"

	"markout/layout/set"
	"markout/layout/unit"
)

// Square is what proves that a cloth has been laid out square, millimetres.
type Square struct {
	Diagonal float64 // both, of the finished cloth
	Half     float64 // from the foot of the centre line to both upper corners
	// Along, Up and Between are the sides of the largest triangle of 3, 4 and 5 parts that finds room in the corner of the centre
	// line and the lower edge: whole steps of 100 mm, or of 6 inches, to the part. 0 where not even the least fits.
	Along, Up, Between float64
}

// SquareOf returns the figures that prove a cloth square, by Pythagoras.
func SquareOf(c *set.Cloth, u unit.System) Square {
	q := Square{Diagonal: math.Hypot(c.Width, c.Height), Half: math.Hypot(c.Width/2, c.Height)}
	step := 100.0
	if u.Imperial() {
		step = 6 * inch
	}
	parts := func(along, up float64) float64 {
		return step * math.Floor(min(c.Width/2/along, c.Height/up)/step+1e-9)
	}
	along, up := 3.0, 4.0
	if parts(4, 3) > parts(3, 4) {
		along, up = 4, 3
	}
	k := parts(along, up)
	q.Along, q.Up, q.Between = along*k, up*k, 5*k
	return q
}
