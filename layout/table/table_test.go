package table

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestForPrograms(t *testing.T) {
	one := Column{Decimals: 1}
	for _, c := range []struct {
		x    float64
		col  Column
		want string
	}{
		{1087.0, one, "1087"},
		{-456.94, one, "-456.9"},
		{-0.04, one, "0"},
		{0, one, "0"},
		{1e9, one, "1000000000"},
		{2.25, Column{Decimals: 2}, "2.25"},
		{2.5, Column{}, "3"},
		{math.NaN(), one, ""},
		{math.Inf(-1), one, ""},
	} {
		require.Equal(t, c.want, string(c.col.AppendNumber(nil, c.x)), "%v", c.x)
	}
	tab := Table{Columns: []Column{{Name: "a"}, {Name: "b", PeopleOnly: true}, {Name: "c"}}}
	require.Equal(t, []int{0, 2}, tab.ForPrograms())
}

// People see the letters of `sides stage`, whose plan-right is stage left, and no sign.
func TestForPeople(t *testing.T) {
	stage := &Table{Sides: Sides{Plus: "L", Minus: "R"}}
	feet := &Table{Sides: Sides{Plus: "R", Minus: "L"}, Feet: true}
	half := func(k Kind) Column { return Column{Kind: k, Decimals: 1, Step: 0.5, Heading: "h"} }
	for _, c := range []struct {
		t    *Table
		col  Column
		v    Value
		want string
	}{
		{stage, half(X), N(1086.97), "1087 L"},
		{stage, half(X), N(-1087.3), "1087.5 R"},
		{stage, half(Y), N(-456.94), "457 D"},
		{stage, half(Y), N(7656.94), "7657 U"},
		{stage, half(X), N(-0.2), "0"},
		{stage, half(Level), N(450), "450"},
		{stage, half(Level), N(-300), "300 below"},
		{stage, half(Length), N(-2), "2 less"},
		{stage, Column{Kind: Angle, Decimals: 1, Step: 1}, N(165.9), "166"},
		{stage, Column{Kind: Angle, Decimals: 1}, N(-22.5), "337.5"},
		{feet, Column{Kind: Tilt, Decimals: 1}, N(-22.5), "22.5 down"},
		{stage, Column{Kind: Tilt, Step: 0.5}, N(12.3), "12.5 up"},
		{stage, Column{Kind: Round, Step: 0.5}, N(90), "90 to its left"},
		{feet, Column{Kind: Round, Step: 0.5}, N(-135.2), "135 to its right"},
		{stage, Column{Kind: Round, Step: 0.5}, N(-0.1), "0"},
		{stage, Column{Kind: Weight, Decimals: 2}, N(38), "38"},
		{stage, Column{Kind: Area, Decimals: 2}, N(19.0883), "19.09"},
		{stage, Column{Kind: Count}, N(12), "12"},
		{stage, Column{Kind: Flag}, N(1), "yes"},
		{stage, Column{Kind: Flag}, Blank, ""},
		{stage, Column{Kind: Text}, T("deck"), "deck"},
		{stage, half(X), Blank, ""},
		{stage, half(X), N(math.NaN()), ""},
		{feet, half(X), N(-2298.7), `7'-6 1/2" L`},
		{feet, half(Y), N(0.1), `0"`},
		{feet, Column{Kind: Length, Step: 0.1}, N(25.4 / 64), `1/64"`},
		{feet, Column{Kind: Weight, Decimals: 1}, N(45.359237), "100"},
		{feet, Column{Kind: Area, Decimals: 1}, N(0.09290304 * 20), "20"},
		{&Table{}, half(X), N(-5), "5 plan-left"},
	} {
		require.Equal(t, c.want, c.t.ForPeople(c.col, c.v))
	}
	require.Equal(t, "h (mm)", stage.Heading(half(X)))
	require.Equal(t, "h", feet.Heading(half(X)))
}

func FuzzNoSignForPeople(f *testing.F) {
	f.Add(1.5, uint8(2), 0.5, true)
	f.Add(-0.0, uint8(9), 0.0, false)
	f.Fuzz(func(t *testing.T, x float64, kind uint8, step float64, feet bool) {
		tab := &Table{Feet: feet, Sides: Sides{Plus: "L", Minus: "R"}}
		got := tab.ForPeople(Column{Kind: Kind(kind % 12), Step: step, Decimals: 1}, N(x))
		require.False(t, strings.HasPrefix(got, "-"), got)
		require.NotContains(t, got, " -")
	})
}
