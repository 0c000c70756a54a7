package rules_test

import (
	"io"
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/caution"
	"markout/layout/rules"
	"markout/layout/set"
)

type files map[string]string

func (f files) Open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

func open(t *testing.T, text string) *set.Set {
	t.Helper()
	s, list := layout.Open(files{"a.markout": text}, "a.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	return s
}

// found returns the cautions of one element by their code, each with its place.
func found(t *testing.T, s *set.Set, element string) map[string]caution.Caution {
	t.Helper()
	out := map[string]caution.Caution{}
	for _, c := range rules.Check(s) {
		if c.Element == element {
			require.NotContains(t, out, c.Code, "one of a code")
			out[c.Code] = c
		}
	}
	return out
}

// The climb of crates as it is typed: spread 85, neighbours 70, the eighth 2R + G 710, the eighth block 4.2 times as high
// as it is deep, and 1995 under a soffit at 3300.
func TestCratesFromText(t *testing.T) {
	s := open(t, `set "Crates"
    production "Low Tide"

steps climb
    starts  0, 1200 heading 90deg
    rises   140 165 150 190 120 175 160 205 155
    goings  300 320 280 340 300 360 300 310
    widths  1400 by -50
    shift   0 60 -40 80 0 -90 50 0
    built   blocks

platform deck
    outline rect 2440 x 1220
    at      0, 1200 + climb.run + 610
    height  climb.total

shape soffit
    outline   rect 1500 x 300
    at        0, 1200 + climb.run - 155
    level     3300
    thickness 18
`)
	c := found(t, s, "climb")
	require.Equal(t, "85 mm", c["STEP-SPREAD"].Figure)
	require.Equal(t, "70 mm", c["STEP-NEIGHBOURS"].Figure)
	require.Equal(t, "710 mm", c["STEP-2RG"].Figure)
	require.Contains(t, c["STEP-2RG"].Message, "riser 8")
	require.Equal(t, "4.2 times", c["TALL"].Figure)
	require.Contains(t, c["TALL"].Message, "block 8")
	require.Equal(t, "1995 mm", c["HEADROOM"].Figure)
	require.Equal(t, "a.markout:6:5", s.Sources.Position(c["STEP-RISE"].Span).String(), "at the rises")
	require.Equal(t, "1460 mm of drop, 6270 mm of open edge", found(t, s, "deck")["EDGE-OPEN"].Figure)
}

// The kiosk as it is typed: the deck's edges less the steps and the ramp, the ramp 1:8.
func TestKioskFromText(t *testing.T) {
	s := open(t, `platform deck
    outline polygon 8 across 4800
    at      0, 3600
    height  450

steps front
    meets   deck.front
    risers  3
    going   300
    width   1800

ramp back
    meets   deck.back
    length  3600
    width   1200

post bollard
    repeat   12 around deck.centre radius 4200 from 15deg
    diameter 60
    height   700
`)
	require.Equal(t, "450 mm of drop, 12906 mm of open edge", found(t, s, "deck")["EDGE-OPEN"].Figure)
	require.Len(t, found(t, s, "front"), 1)
	require.Equal(t, "300 mm of drop, 1200 mm of open edge", found(t, s, "front")["EDGE-OPEN"].Figure)
	require.Equal(t, "1:8", found(t, s, "back")["RAMP-SLOPE"].Figure)
	require.Contains(t, found(t, s, "bollard")["TALL"].Message, "12 of them")
}

// A flight that keeps its top, its riser and its number of risers finds its foot in the air, or not.
func TestFootFromText(t *testing.T) {
	flight := func(rise string) *set.Set {
		return open(t, "platform deck\n    outline rect 2000 x 2000\n    height 450\n\nsteps front\n    meets deck.front\n    risers 3\n    rise "+
			rise+"\n    going 300\n    width 1300\n")
	}
	require.NotContains(t, found(t, flight("150"), "front"), "STEP-FOOT")
	c := found(t, flight("140"), "front")["STEP-FOOT"]
	require.Equal(t, "30 mm above", c.Figure)
	require.Contains(t, c.Message, "the foot stands 30 mm above the floor")
	require.Contains(t, found(t, flight("160"), "front")["STEP-FOOT"].Message, "30 mm below the floor")
}

// What a set keeps apart, and keeps clear, as it is typed.
func TestKeepAndReserveFromText(t *testing.T) {
	s := open(t, `platform desk
    outline rect 1000 x 1000
    height  700

post lamp
    diameter 200
    height   400
    at       1800, 0

reserve swing
    outline circle 1000
    at      700, 0
    height  2000

keep desk to lamp at least 1300
`)
	require.Equal(t, "1200 mm", found(t, s, "desk")["KEEP"].Figure)
	require.Equal(t, "a.markout:15:1", s.Sources.Position(found(t, s, "desk")["KEEP"].Span).String())
	require.Contains(t, found(t, s, "swing")["RESERVE"].Message, "desk reaches into")
}
