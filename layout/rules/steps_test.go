package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

// The known answers of the climb of crates.
func TestCrates(t *testing.T) {
	s := crates()
	c := only(t, s, "STEP-SPREAD")
	require.Equal(t, "85 mm", c.Figure)
	c = only(t, s, "STEP-NEIGHBOURS")
	require.Equal(t, "70 mm", c.Figure)
	require.Contains(t, c.Message, "riser 4 is 190 mm and riser 5 is 120 mm")
	c = only(t, s, "STEP-2RG")
	require.Equal(t, "710 mm", c.Figure)
	require.Contains(t, c.Message, "riser 8 twice")
	require.Contains(t, c.Message, "the other risers keep this limit")
	c = only(t, s, "TALL")
	require.Equal(t, "4.2 times", c.Figure)
	require.Contains(t, c.Message, "block 8 is 1305 mm high and 310 mm deep")
	require.Equal(t, practice, c.Source)
	c = only(t, s, "STEP-RISE")
	require.Equal(t, "205 mm", c.Figure)
	require.Contains(t, c.Message, "riser 8 is 205 mm high: over the 170 mm of general access stairs, within what stairs in private houses allow; 5 of 9 risers")
	require.False(t, has(s, "STEP-GOING"), "280 to 360 mm lie within 250 to 400 mm")
	require.False(t, has(s, "STEP-PITCH"))
}

// Approved Document K, 2013: riser and going depend on each other.
func TestPublishedFlights(t *testing.T) {
	for _, tc := range []struct {
		name        string
		rise, going float64
		feet        bool
		codes       []string // those of rise, going, stride and pitch that are given
	}{
		{"220/244 is 42.039°, over the 42° of Table 1.1", 220, 244, false, []string{"STEP-GOING", "STEP-PITCH", "STEP-RISE"}},
		{"220/245 is 41.923°", 220, 245, false, []string{"STEP-GOING", "STEP-RISE"}},
		{"200/222 is 42.016°", 200, 222, false, []string{"STEP-GOING", "STEP-PITCH", "STEP-RISE"}},
		{"200/223 is 41.888°", 200, 223, false, []string{"STEP-GOING", "STEP-RISE"}},
		{"170/400: each within general access, 2R + G 740", 170, 400, false, []string{"STEP-2RG"}},
		{"150/220: 2R + G 520, and 220 only private", 150, 220, false, []string{"STEP-2RG", "STEP-GOING"}},
		{"175/250: 600 and 34.99°, 175 only private", 175, 250, false, []string{"STEP-RISE"}},
		{"150/280, the preference for schools: 580 and 28.18°", 150, 280, false, nil},
		{"170/250, the steepest of general access", 170, 250, false, nil},
		{"7 in / 11 in: 25 in and 32.47°, ABA 504.2", 7 * inch, 11 * inch, true, nil},
		{"7 3/4 in / 10 in, residential code 2018 R311.7", 7.75 * inch, 10 * inch, true, []string{"STEP-GOING", "STEP-RISE"}},
		{"9 1/2 in / 9 1/2 in, 29 CFR 1910.25(c): 45°", 9.5 * inch, 9.5 * inch, true, []string{"STEP-2RG", "STEP-GOING", "STEP-RISE"}},
		{"9 1/2 in / 7 3/4 in: 50.79°, over 50°", 9.5 * inch, 7.75 * inch, true, []string{"STEP-GOING", "STEP-PITCH", "STEP-RISE"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			s := of(element("front", even(3, tc.rise, tc.going), place(0, 0, 0, 0)))
			if tc.feet {
				inFeet(s)
			}
			var got []string
			for _, c := range Check(s) {
				switch c.Code {
				case "STEP-RISE", "STEP-GOING", "STEP-2RG", "STEP-PITCH":
					got = append(got, c.Code)
				}
			}
			require.Equal(t, tc.codes, got)
		})
	}
}

// Worked figures: 2R + G and pitch as printed in tables of stairs, computed again.
func TestStrideAndPitch(t *testing.T) {
	for _, tc := range []struct{ rise, going, stride, pitch float64 }{
		{175, 250, 600, 34.99},
		{150, 280, 580, 28.18},
		{170, 400, 740, 23.03},
		{170, 290, 630, 30.38}, // the metric stride, the sum 460 and the difference 120 all at once
		{7 * inch, 11 * inch, 25 * inch, 32.47},
		{9.5 * inch, 9.5 * inch, 28.5 * inch, 45}, // letter of interpretation of 17 June 2025 on 29 CFR 1910.25(c)
		{9.5 * inch, 8 * inch, 27 * inch, 49.899},
		{220, 244, 684, 42.039},
		{220, 245, 685, 41.923},
	} {
		require.InDelta(t, tc.stride, Stride(tc.rise, tc.going), 1e-9)
		require.InDelta(t, tc.pitch, Pitch(tc.rise, tc.going), 0.005)
	}
}

func TestPitchSaysBothFigures(t *testing.T) {
	c := only(t, of(element("front", even(3, 220, 244), place(0, 0, 0, 0))), "STEP-PITCH")
	require.Equal(t, "42.04°", c.Figure)
	require.Equal(t, "at most 42° (stairs in private houses)", c.Limit)
	require.Equal(t, adkTable, c.Source)
}

// Feet and inches: American publications first, figures in inches.
func TestFeetNameAmericanFigures(t *testing.T) {
	c := only(t, inFeet(of(element("front", even(4, 8*inch, 10*inch), place(0, 0, 0, 0)))), "STEP-RISE")
	require.Equal(t, `8"`, c.Figure)
	require.Equal(t, `4" to 7" (public stairs); at most 7 3/4" (stairs in houses); at most 9 1/2" (fixed stairs at work)`, c.Limit)
	require.Equal(t, abaStairs+"; "+ircStairs+"; "+oshaStairs, c.Source)
}

// 3/8 in is the most between risers, residential code 2018.
func TestUnevenFromThreeEighths(t *testing.T) {
	at := func(second float64) *set.Set {
		return of(element("front", flight([]float64{150, second, 150}, []float64{300, 300}), place(0, 0, 0, 0)))
	}
	require.False(t, has(at(150+9.5), "STEP-SPREAD"))
	require.True(t, has(at(150+9.7), "STEP-SPREAD"))
	require.True(t, has(at(150+9.7), "STEP-NEIGHBOURS"))
}

// A drift of 5 mm a riser spreads over the flight though neighbours are nearly alike.
func TestDriftSpreadsWithoutNeighbours(t *testing.T) {
	s := of(element("front", flight([]float64{150, 155, 160, 165}, []float64{300, 300, 300}), place(0, 0, 0, 0)))
	require.Equal(t, "15 mm", only(t, s, "STEP-SPREAD").Figure)
	require.False(t, has(s, "STEP-NEIGHBOURS"))
}

func TestLandings(t *testing.T) {
	s := even(16, 160, 280)
	s.Goings[7] = 1100
	s.Landings = []int{8}
	set := of(element("front", s, place(0, 0, 0, 0)))
	require.False(t, has(set, "STEP-GOINGS"), "a landing is no going")
	require.False(t, has(set, "STEP-2RG"))
	require.False(t, has(set, "STEP-FLIGHT"), "8 and 8 risers")
	c := only(t, set, "STEP-LANDING")
	require.Equal(t, "1100 mm", c.Figure, "less than the width of 1800")
	s.Goings[7] = 1800
	require.False(t, has(set, "STEP-LANDING"))
	s.Landings = nil
	require.True(t, has(set, "STEP-FLIGHT"), "16 risers on end")
}

// 12 ft is the most that one flight climbs, US model building code.
func TestFlightOfTwelveFeet(t *testing.T) {
	require.False(t, has(inFeet(of(element("a", even(21, 144*inch/21, 11*inch), place(0, 0, 0, 0)))), "STEP-FLIGHT"))
	c := only(t, inFeet(of(element("a", even(22, 6.6*inch, 11*inch), place(0, 0, 0, 0)))), "STEP-FLIGHT")
	require.Equal(t, `12'-1 3/16"`, c.Figure)
}

func TestWidthNosingFoot(t *testing.T) {
	s := flight([]float64{160, 160, 160}, []float64{280, 280}, 1300, 1100)
	s.Nosing, s.FootOn, s.FootGap = 30, "", -40
	set := of(element("front", s, place(0, 0, 0, 0)))
	require.Contains(t, only(t, set, "STEP-WIDTH").Message, "tread 2 is 1100 mm wide: under the 1200 mm")
	require.Equal(t, "30 mm", only(t, set, "STEP-NOSING").Figure)
	require.Contains(t, only(t, set, "STEP-FOOT").Message, "the foot stands 40 mm below the floor")
	s.FootOn, s.FootGap, s.Nosing, s.Widths = "deck", 0, 25, []float64{1200}
	require.False(t, has(set, "STEP-FOOT") || has(set, "STEP-NOSING") || has(set, "STEP-WIDTH"))
}

func TestASingleRiserHasNothingToCompare(t *testing.T) {
	require.Empty(t, codesOf(of(element("step", flight([]float64{160}, nil), place(0, 0, 0, 0)))))
}
