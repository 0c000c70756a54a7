package notation

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// example is a kiosk on a quay as people write it.
const example = `set "Quayside kiosk"
    production "Low Tide"
    issue      B 2026-11-20
    units      mm
    scale      1:25
    card       wall 1.5 detail 0.3

let rise  = 150mm
let going = 300mm

hall quay_hall
    outline  rect 9000 x 8000
    at       0, 3600
    station  A -4000, 400
    station  B 4000, 400
    tapes    8m class II

platform deck
    outline  polygon 8 across 4800
    at       0, 3600
    height   3 * rise
    full-size floor

steps front
    meets    deck.front
    risers   3
    going    going
    width    1800

post bollard
    repeat   12 around deck.centre radius 4200 from 15deg
    diameter 60
    height   700

mark pin
    point    deck.centre

figure pilot
    artwork  "pilot.svg"
    height   1780
    on       deck
    at       deck.centre
`

func TestExample(t *testing.T) {
	f, list := parseText(t, example)
	require.False(t, list.HasErrors(), list.Sorted())
	require.Len(t, f.Statements, 9)
	require.Equal(t, "bollard", f.Statements[6].Name)
	got, _ := Format("kiosk.markout", []byte(example), sampleKinds)
	require.Equal(t, example, string(got))
}
