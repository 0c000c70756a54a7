package develop_test

import (
	"flag"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/set"
)

var (
	thicknesses = []float64{0.3, 1, 1.5, 1.6, 3}
	scales      = []float64{1, 10, 24, 25, 48, 50}
)

// all makes every element of every card at every scale: go test -closing.all. Otherwise each scale and each card come
// once, with which other hangs on the text, so that over all tests most pairs are met.
var all = flag.Bool("closing.all", false, "close every element of every card at every scale")

// everyWay makes the text's last element at every scale of every card, printed on either side, and checks that it closes.
// Card too thick for the piece is an error in words; made tells how often of 30 it must not be.
func everyWay(t *testing.T, text string, made int, want func(e *set.Element, scale, card float64) closing) {
	t.Helper()
	s := open(t, text)
	e := s.Elements[len(s.Elements)-1]
	done := 0
	for i, scale := range scales {
		for k, card := range thicknesses {
			if !*all && k != (2*i+len(text))%len(thicknesses) {
				continue
			}
			name := fmt.Sprintf("1:%v of %v", scale, card)
			m, list := develop.Develop(&set.Set{Elements: []*set.Element{e}, Sources: s.Sources}, develop.Options{Scale: scale, Card: card, PrintOutside: (i+k)%2 == 0})
			if list.HasErrors() {
				require.Contains(t, printed(list), "cannot be made of card", name)
				require.Empty(t, m.Pieces)
				continue
			}
			done++
			if !t.Run(name, func(t *testing.T) { requireClosed(t, m, want(e, scale, card)) }) {
				return
			}
		}
	}
	if !*all {
		made = made/len(thicknesses) - 2
	}
	require.GreaterOrEqual(t, done, max(made, 1), "combinations made")
}
