package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

func ramp(length, rise, width float64) *set.Set {
	return of(element("ramp", &set.Ramp{Length: length, Rise: rise, Width: width}, place(0, 0, 0, 0)))
}

// The kiosk's ramp is 1:8 against the 1:12 of Approved Document K, 2013.
func TestKioskRamp(t *testing.T) {
	s := kiosk(t)
	c := only(t, s, "RAMP-SLOPE")
	require.Equal(t, "back", c.Element)
	require.Equal(t, "1:8", c.Figure)
	require.Equal(t, "at most 1:12 (ramps)", c.Limit)
	require.Equal(t, adkRamp, c.Source)
	require.Equal(t, "450 mm of rise in 3600 mm", only(t, s, "RAMP-FLIGHT").Figure)
	require.False(t, has(s, "RAMP-RAIL"), "450 mm of rise wants no handrail up to 600 mm")
}

// Going and rise of one flight: 1:20 10 m/500, 1:15 5 m/333, 1:12 2 m/166 (English guidance on access ramps).
func TestRampFlights(t *testing.T) {
	for _, row := range []struct{ per, going, rise float64 }{{20, 10000, 500}, {15, 5000, 333}, {12, 2000, 166}} {
		f := englishRamp(1 / row.per)
		require.InDelta(t, row.going, f.Going, 1e-6)
		require.Equal(t, row.rise, f.Rise)
		require.False(t, has(ramp(row.going, row.going/row.per, 1200), "RAMP-FLIGHT"), "1:%v", row.per)
		require.True(t, has(ramp(row.going+100, (row.going+100)/row.per, 1200), "RAMP-FLIGHT"))
	}
	require.Equal(t, 166.0, englishRamp(1.0/8).Rise)
	require.Equal(t, 10000.0, englishRamp(1.0/30).Going)
}

// ADA Standards 1991, 4.8: 30 in of rise to 1:12; existing sites 6 in to 1:10, 3 in to 1:8.
func TestAmericanRamps(t *testing.T) {
	require.Empty(t, codesOf(inFeet(ramp(360*inch, 30*inch, 36*inch))), "30 in of rise in 30 ft, and no more than the drop of 30 in")
	require.True(t, has(inFeet(ramp(372*inch, 31*inch, 36*inch)), "RAMP-FLIGHT"))
	require.True(t, has(inFeet(ramp(70*inch, 7*inch, 36*inch)), "RAMP-FLIGHT"), "7 in at 1:10")
	require.False(t, has(inFeet(ramp(60*inch, 6*inch, 36*inch)), "RAMP-FLIGHT"), "6 in at 1:10")
	require.True(t, has(inFeet(ramp(60*inch, 6*inch, 30*inch)), "RAMP-WIDTH"))
}

func TestRampSlopeAndRail(t *testing.T) {
	require.False(t, has(ramp(1200, 100, 1200), "RAMP-SLOPE"), "1:12 itself")
	require.True(t, has(ramp(1190, 100, 1200), "RAMP-SLOPE"))
	require.False(t, has(ramp(12000, 600, 1200), "RAMP-RAIL"))
	require.True(t, has(ramp(12000, 610, 1200), "RAMP-RAIL"))
}
