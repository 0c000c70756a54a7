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
			a, b := &rays[i], &rays[j]
			sine, cosine, good := crosses(a, b)
			r := Reach{Tape: max(a.dist, b.dist), Error: crossError(a, b, sine, cosine), Crossing: math.Atan2(sine, cosine) * 180 / math.Pi}
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
