package setout

import (
	"cmp"
	"math"
)

// survey returns how near the pair of rays comes to serving that comes nearest: one that serves, with the least error;
// one within the tape, with the best crossing; one that crosses well, with the least tape; one with the least tape.
func (w *layer) survey(rays []ray) Reach {
	var best Reach
	bestRank, bestBy := 4, 0.0
	for i := range rays {
		for j := i + 1; j < len(rays); j++ {
			a, b := rays[i], rays[j]
			p, good := crosses(a, b)
			r := Reach{Tape: max(a.dist, b.dist), Crossing: p.crossing, Error: p.err}
			sine := math.Abs(a.dir.Cross(b.dir))
			if !good {
				r.Crossing = math.Atan2(sine, a.dir.Dot(b.dir)) * 180 / math.Pi
				r.Error = CrossingError(a.err, b.err, r.Crossing)
			}
			rank, by := 3, steps(r.Tape)
			switch within := w.reaches(r.Tape); {
			case within && good:
				rank, by, r.Serves = 0, steps(r.Error), true
			case within:
				rank, by = 1, -steps(sine)
			case good:
				rank = 2
			}
			if cmp.Or(cmp.Compare(rank, bestRank), cmp.Compare(by, bestBy)) < 0 {
				best, bestRank, bestBy = r, rank, by
			}
		}
	}
	return best
}
