package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

// winding is a flight of n risers of rise up a quarter circle about 0,0, anticlockwise from 0°: its inner edge has the radius r.
func winding(n int, rise, r, width float64) *set.Steps {
	p := geom.NewPath(geom.Point{X: r})
	p.ArcTo(geom.Point{}, math.Pi/2, geom.Point{Y: r})
	s := even(n, rise, math.Pi/2*r/float64(n-1))
	s.Line, s.LineIs, s.Widths, s.Shifts = p, "inner", []float64{width}, []float64{width / 2}
	return s
}

// Approved Document K (England), 2013: tapered treads have at least 50 mm at the narrow end; a flight less than 1 m wide is
// measured in its middle, any other 270 mm from each side. The depth at a radius is that of the sector: angle times radius.
func TestTaperedTreads(t *testing.T) {
	third := math.Pi / 6 // three treads to a quarter turn
	for _, tc := range []struct {
		name         string
		rise         float64
		r, width     float64
		going, taper string
		where        string
	}{
		{"95.5·π/6 = 50.0 at the narrow end, 470 in the middle", 150, 95.5, 900, "285.6 mm", "", ""},
		{"90·π/6 = 47.1 is under 50", 150, 90, 900, "", "47.1 mm", ""},
		{"(30 + 400)·π/6 = 225.1 in the middle of 800", 150, 30, 800, "225.1 mm", "15.7 mm", "in its middle"},
		{"(100 + 270)·π/6 = 193.7, 270 from the narrow side of 1000", 150, 100, 1000, "193.7 mm", "", "270 mm from its narrow side"},
		{"(200 + 1800 − 270)·π/6 = 905.8, 270 from the wide side of 1800", 150, 200, 1800, "905.8 mm", "", "270 mm from its wide side"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := winding(4, tc.rise, tc.r, tc.width)
			set := of(element("w", s, place(0, 0, 0, 0)))
			in := &checker{set: set, book: &english}
			for i := range s.Goings {
				left, right := depths(s, i)
				require.InDelta(t, tc.r*third, left, 1e-9, "the line turns to the left")
				require.InDelta(t, (tc.r+tc.width)*third, right, 1e-9)
				if w := in.walks(s, i); tc.width < 1000 {
					require.Len(t, w, 1)
					require.InDelta(t, (tc.r+tc.width/2)*third, w[0].going, 1e-9)
				} else {
					require.Len(t, w, 2)
					require.InDelta(t, (tc.r+270)*third, w[0].going, 1e-9)
					require.InDelta(t, (tc.r+tc.width-270)*third, w[1].going, 1e-9)
				}
			}
			require.Equal(t, tc.taper != "", has(set, "STEP-TAPER"))
			if tc.taper != "" {
				c := only(t, set, "STEP-TAPER")
				require.Equal(t, tc.taper, c.Figure)
				require.Equal(t, adkTaper, c.Source)
				require.Contains(t, c.Message, "at its left end")
				require.Contains(t, c.Message, "all 3 treads")
			}
			if tc.where != "" {
				c := only(t, set, "STEP-GOING")
				require.Contains(t, c.Message, tc.where)
				require.Contains(t, c.Source, adkTaper)
				if tc.going != "" {
					require.Equal(t, tc.going, c.Figure)
				}
			}
			require.False(t, has(set, "STEP-GOINGS"), "tapered alike is even")
		})
	}
}

// 2R + G and the pitch are taken where the going is measured: 2·170 + (30 + 400)·π/6 = 565.1, and 170 over 225.1 is 37.06°.
func TestStrideOfTaperedTreads(t *testing.T) {
	s := of(element("w", winding(4, 170, 30, 800), place(0, 0, 0, 0)))
	require.False(t, has(s, "STEP-2RG"))
	require.False(t, has(s, "STEP-PITCH"))
	s = of(element("w", winding(4, 210, 30, 800), place(0, 0, 0, 0)))
	require.Equal(t, "43.01°", only(t, s, "STEP-PITCH").Figure, "210 over 225.1")
	s = of(element("w", winding(4, 150, 200, 1800), place(0, 0, 0, 0)))
	c := only(t, s, "STEP-2RG")
	require.Equal(t, "1205.8 mm", c.Figure)
	require.Contains(t, c.Message, "270 mm from its wide side")
}

// The open sides of a winding flight are its two edges, π/2·(1000 + 1900) = 4555; its risers are not, nor where it lands.
func TestOpenSidesOfAWindingFlight(t *testing.T) {
	flight := winding(7, 150, 1000, 900)
	deck := deckOf(900, 900, 1050)
	s := of(element("w", flight, place(0, 0, 0, 0)), element("deck", deck, place(-450, 1450, 0, 0)))
	for _, c := range Check(s) {
		if c.Code == "EDGE-OPEN" && c.Element == "w" {
			require.Equal(t, "900 mm of drop, 4555 mm of open edge", c.Figure)
			return
		}
	}
	require.Fail(t, "the sides are open")
}

// A beam over the fourth tread, whose middle is 3.5 of 6 parts along the quarter turn, leaves 1950 over the tread's 600.
func TestHeadroomOverAWindingFlight(t *testing.T) {
	at := geom.Polar(1450, math.Pi/2*3.5/6)
	s := of(element("w", winding(7, 150, 1000, 900), place(0, 0, 0, 0)),
		element("beam", &set.Panel{Outline: circle(200), Thickness: 100}, place(at.X, at.Y, 2550, 0)))
	c := only(t, s, "HEADROOM")
	require.Equal(t, "1950 mm", c.Figure)
	require.Contains(t, c.Message, "over tread 4")
}
