package cli

import (
	"math"

	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
)

// looksUp reports whether a set has a walk or a room overhead.
func looksUp(s *set.Set) bool {
	for _, e := range s.Elements {
		switch sh := e.Shape.(type) {
		case *set.Walk:
			return true
		case *set.Room:
			if sh.Turned != set.Upright {
				return true
			}
		}
	}
	return false
}

// lowJSON is one place of least headroom; least_mm and at_mm are null where nothing is over the way. Under is what a walk is lowest
// under, and of a piece what stands under it, empty for the floor.
type lowJSON struct {
	Walk  string      `json:"walk,omitempty"`
	Piece string      `json:"piece,omitempty"`
	Least *float64    `json:"least_mm"`
	At    *[2]float64 `json:"at_mm"`
	Under string      `json:"under"`
}

func lowsJSON(lows []overhead.Low) []lowJSON {
	out := []lowJSON{}
	for _, l := range lows {
		j := lowJSON{Walk: l.Walk, Piece: l.Piece, Under: l.Under}
		if l.Piece != "" {
			j.Under = l.Stands
		}
		if !math.IsInf(l.Least, 0) {
			least := unit.Round(l.Least, 0.1)
			j.Least, j.At = &least, &[2]float64{unit.Round(l.At.X, 0.1), unit.Round(l.At.Y, 0.1)}
		}
		out = append(out, j)
	}
	return out
}

// lows prints the least headroom along ways and beneath what hangs.
func (r report) lows(p *printer, length func(float64) string) {
	p.printf("\nHeadroom\n")
	for _, l := range r.headroom {
		who, what := l.Walk, " along it"
		if l.Piece != "" {
			who, what = l.Piece, " beneath it"
		}
		if math.IsInf(l.Least, 0) {
			p.printf("    %-24s nothing over the way\n", who)
			continue
		}
		if l.Least < 0 {
			p.printf("    %-24s %10s under the walking floor\n", who, length(-l.Least))
			continue
		}
		p.printf("    %-24s %10s%s", who, length(l.Least), what)
		if l.Under != "" {
			p.printf(", under %s", l.Under)
		}
		if l.Stands != "" {
			p.printf(", on %s", l.Stands)
		}
		p.printf("\n")
	}
}
