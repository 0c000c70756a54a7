package paper

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Sheets: ISO 216 and DIN 476 (from memory), ASME Y14.1 and architectural sizes in inches as published in reprographers' tables,
// with their millimetres rounded as printed there.
func TestSheets(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h float64
		tol  float64
	}{
		{"A0", 841, 1189, 0}, {"A1", 594, 841, 0}, {"A2", 420, 594, 0}, {"A3", 297, 420, 0}, {"A4", 210, 297, 0}, {"A5", 148, 210, 0}, {"A6", 105, 148, 0},
		{"2A0", 1189, 1682, 0}, {"4A0", 1682, 2378, 0}, {"B1", 707, 1000, 0}, {"B2", 500, 707, 0},
		{"Letter", 215.9, 279.4, 1e-9}, {"letter", 215.9, 279.4, 1e-9}, {"Legal", 215.9, 355.6, 1e-9}, {"TABLOID", 279.4, 431.8, 1e-9},
		{"ANSI-A", 8.5 * 25.4, 11 * 25.4, 1e-9}, {"ANSI B", 11 * 25.4, 17 * 25.4, 1e-9}, {"ansi c", 17 * 25.4, 22 * 25.4, 1e-9},
		{"ANSI-D", 22 * 25.4, 34 * 25.4, 1e-9}, {"ANSI-E", 34 * 25.4, 44 * 25.4, 1e-9}, {"ANSI-F", 28 * 25.4, 40 * 25.4, 1e-9},
		{"ARCH-A", 229, 305, 0.5}, {"ARCH B", 305, 457, 0.5}, {"ARCH-C", 457, 610, 0.5}, {"arch-d", 610, 914, 0.5}, {"ARCH-E", 914, 1219, 0.5},
		{"ARCH-E1", 762, 1067, 0.5}, {"ARCHE2", 660, 965, 0.5}, {"ARCH E3", 686, 991, 0.5},
		{"297x420", 297, 420, 0}, {"420 x 297", 420, 297, 0}, {"24x36in", 609.6, 914.4, 1e-9}, {"24inx36in", 609.6, 914.4, 1e-9}, {`24"x36"`, 609.6, 914.4, 1e-9}, {"210×297", 210, 297, 0},
		{"0.5mx70cm", 500, 700, 0},
	} {
		p, err := Parse(c.name)
		require.NoError(t, err, c.name)
		require.InDelta(t, c.w, p.W, c.tol, c.name)
		require.InDelta(t, c.h, p.H, c.tol, c.name)
		require.False(t, p.Roll)
	}
	// The areas of the A series, square metres to six places (computed from ISO 216's millimetres).
	for name, area := range map[string]float64{"A0": 0.999949, "A1": 0.499554, "A2": 0.249480, "A3": 0.124740, "A4": 0.062370, "A5": 0.031080, "A6": 0.015540} {
		p, err := Parse(name)
		require.NoError(t, err)
		require.InDelta(t, area, p.W*p.H/1e6, 5e-7, name)
	}
}

// Rolls are made in inches: 24, 36 and 42 in are sold as 610, 914 and 1067.
func TestRolls(t *testing.T) {
	for text, w := range map[string]float64{"roll 610": 609.6, "roll 914": 914.4, "roll 1067": 1066.8, "roll 24in": 609.6, "Roll 900": 900, "roll1118": 1117.6, "roll 1.5m": 1500} {
		p, err := Parse(text)
		require.NoError(t, err, text)
		require.True(t, p.Roll)
		require.InDelta(t, w, p.W, 1e-9, text)
	}
}

func TestWrongPaper(t *testing.T) {
	for text, words := range map[string]string{
		"A7": "A0 … A6", "": "paper is", "roll": "needs its width", "roll wide": "is a length", "roll 20": "from 200 to 5000",
		"20x30": "from 50 to 5000", "200x9000": `"roll 200"`, "200x": "not a length", "axb": "paper is", "roll 1e999": "is a length", "200x30deg": "not a length",
		"210x-297": "sides are from", "NaNx100": "paper is",
	} {
		_, err := Parse(text)
		require.ErrorContains(t, err, words, text)
	}
}

func TestMargins(t *testing.T) {
	m, err := ParseMargins("4,5,6,7")
	require.NoError(t, err)
	require.Equal(t, Margins{Left: 4, Right: 5, Bottom: 6, Top: 7}, m)
	require.Equal(t, Margins{Left: 7, Right: 7, Bottom: 5, Top: 5}, m.Turned())
	m, err = ParseMargins("10")
	require.NoError(t, err)
	require.Equal(t, Even(10), m)
	m, err = ParseMargins(` 1/4" , 0, 6mm, 0.5cm`)
	require.NoError(t, err)
	require.Equal(t, Margins{6.35, 0, 6, 5}, m)
	for _, bad := range []string{"", "1,2", "1,2,3,4,5", "a", "-1", "4,4,,4", "1e400"} {
		_, err = ParseMargins(bad)
		require.Error(t, err, bad)
	}
	w, h, err := Even(10).Live(210, 297, 60, 60)
	require.NoError(t, err)
	require.Equal(t, 190.0, w)
	require.Equal(t, 277.0, h)
	_, _, err = Even(90).Live(210, 297, 60, 60)
	require.ErrorContains(t, err, "margins of 75 mm or less would fit, or paper of 240 mm")
	_, _, err = Even(10).Live(50, 297, 60, 60)
	require.ErrorContains(t, err, "80 mm would do")
}

// What Parse accepts has a size that a page can have, and reads back to the same size from its own name.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"A4", "roll 914", "24x36in", "420 x 297", "ARCH-E1", "roll", `8 1/2"x11"`, "10×10", "roll 24in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := Parse(s)
		if err != nil {
			return
		}
		require.False(t, math.IsNaN(p.W) || math.IsNaN(p.H))
		require.True(t, p.W >= leastSide && p.W <= Longest)
		require.True(t, p.Roll || p.H >= leastSide && p.H <= Longest)
		q, err := Parse(p.Name)
		require.NoError(t, err, p.Name)
		require.InDelta(t, p.W, q.W, 0.5)
		require.InDelta(t, p.H, q.H, 0.06)
	})
}

func FuzzParseMargins(f *testing.F) {
	for _, s := range []string{"10", "4,4,6,4", `1/4"`, ",,,", "1,2,3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := ParseMargins(s)
		if err != nil {
			return
		}
		for _, x := range []float64{m.Left, m.Right, m.Bottom, m.Top} {
			require.True(t, x >= 0 && x <= Longest)
		}
	})
}
