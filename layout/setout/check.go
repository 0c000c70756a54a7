package setout

import (
	"cmp"
	"math"

	"markout/layout/geom"
)

// worth says how much a third distance shows.
type worth uint8

const (
	checksSomething worth = iota // it lies near the line of one of the two tapes, or cannot tell the sides apart
	checksSide                   // it shows a point laid on the wrong side
	checksBoth                   // and it crosses both tapes, so that a wrong reading of either shows
)

// tellsSides is how far a third distance must differ between the point and its image on the other side of the line
// through the two starts, so that nobody takes one for the other. Common practice, no source.
const tellsSides = 50.0

// check is a start that a third distance may be taken from.
type check struct {
	ray
	worth worth
	cross float64 // sine of the flatter of its crossings with the two tapes
}

// bestCheck returns the start outside the pair whose distance to p shows most; of equals the one with the fewest links,
// then the one that crosses both tapes best, then the first by name.
func bestCheck(rays []ray, of pair, p geom.Point) (best check, ok bool) {
	line := of.b.at.Sub(of.a.at).Unit()
	other := of.a.at.Add(line.Mul(2 * line.Dot(p.Sub(of.a.at)))).Sub(p.Sub(of.a.at)) // p's image in the line
	for _, y := range rays {
		if y.start == of.a.start || y.start == of.b.start {
			continue
		}
		c := check{ray: y, cross: min(math.Abs(y.dir.Cross(of.a.dir)), math.Abs(y.dir.Cross(of.b.dir)))}
		if math.Abs(y.at.Dist(other)-y.dist) >= tellsSides {
			c.worth = checksSide
			if c.cross >= leastSine {
				c.worth = checksBoth
			}
		}
		if !ok || cmp.Or(-cmp.Compare(c.worth, best.worth), cmp.Compare(c.links, best.links),
			-cmp.Compare(steps(c.cross), steps(best.cross)), cmp.Compare(c.name, best.name)) < 0 {
			best, ok = c, true
		}
	}
	return best, ok
}
