package develop_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"markout/layout"
	"markout/layout/develop"
)

// wallText is a flat along a line of up to four pieces with up to three openings, from a seed.
func wallText(seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 1))
	x, y := 0, 0
	var line strings.Builder
	for range 1 + r.IntN(4) {
		dx, dy := 400+r.IntN(2500), r.IntN(5000)-2500
		x, y = x+dx, y+dy
		if r.IntN(2) == 0 {
			fmt.Fprintf(&line, " line %d,%d", x, y)
			continue
		}
		fmt.Fprintf(&line, " arc to %d,%d radius %d %s", x, y, dx+max(dy, -dy)+r.IntN(3000), []string{"left", "right"}[r.IntN(2)])
	}
	text := fmt.Sprintf("flat w\n    along path 0,0%s\n    height %d\n    thickness %d\n", line.String(), 300+r.IntN(3000), r.IntN(300))
	if r.IntN(2) == 0 {
		text += "    face left\n"
	}
	at := 0
	for range r.IntN(4) {
		at += r.IntN(900)
		w, h, sill := 100+r.IntN(900), 100+r.IntN(1500), max(0, r.IntN(1200)-400)
		text += fmt.Sprintf("    opening window at %d size %d x %d\n", at, w, h)
		if sill > 0 {
			text += fmt.Sprintf("        sill %d\n", sill)
		}
		if r.IntN(3) == 0 {
			text += fmt.Sprintf("        arch %d\n", 1+r.IntN(h))
		}
		at += w
	}
	return text
}

// FuzzCurvedFlat: whatever can be made of a flat along a line has outlines that cross nowhere, folds on the card and
// joints whose two sides are one line; what cannot is said in words.
func FuzzCurvedFlat(f *testing.F) {
	for seed := range uint64(60) {
		f.Add(seed, 25.0, 1.5)
		f.Add(seed, 50.0, 0.5)
	}
	f.Fuzz(func(t *testing.T, seed uint64, scale, card float64) {
		s, list := layout.Open(texts{"m": wallText(seed)}, "m", layout.Options{})
		if list.HasErrors() {
			return
		}
		m, list := develop.Develop(s, develop.Options{Scale: scale, Card: card, PrintOutside: seed%2 == 0})
		if list.HasErrors() {
			return
		}
		for i := range m.Pieces {
			requireOnCard(t, &m.Pieces[i])
		}
		requireJoints(t, m)
	})
}
