package unit

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFormatLength(t *testing.T) {
	for _, c := range []struct {
		mm, step float64
		sys      System
		want     string
	}{
		{1087, 0.5, Millimetre, "1087"},
		{1086.96, 0.5, Millimetre, "1087"},
		{1086.76, 0.5, Millimetre, "1087"},
		{1086.7, 0.5, Millimetre, "1086.5"},
		{-456.9, 0.5, Millimetre, "-457"},
		{-0.2, 0.5, Millimetre, "0"},
		{4056.93, 0.1, Millimetre, "4056.9"},
		{0.25, 0.05, Millimetre, "0.25"},
		{1234567, 1000, Millimetre, "1235000"},
		{8173.84, 0, Millimetre, "8173.84"},
		{2400, 1, Centimetre, "240"},
		{2405, 1, Centimetre, "240.5"},
		{2400, 1, Metre, "2.4"},
		{2400.5, 0.5, Metre, "2.4005"},
		{2298.7, 0, Foot, `7'-6 1/2"`},
		{2286, 0, Foot, `7'-6"`},
		{2133.6, 0, Inch, `7'-0"`},
		{12.7, 0, Foot, `1/2"`},
		{165.1, 0, Foot, `6 1/2"`},
		{304.8 + 12.7, 0, Foot, `1'-0 1/2"`},
		{0, 0, Foot, `0"`},
		{-0.1, 0, Foot, `0"`},
		{0.8, 0, Foot, `1/16"`},
		{304.8 - 0.1, 0, Foot, `1'-0"`},
		{-2298.7, 0, Foot, `-7'-6 1/2"`},
		{0.4, 25.4 / 64, Foot, `1/64"`},
		{140, 25.4, Foot, `6"`},
		{140, 0.5, Foot, `5 1/2"`},
	} {
		require.Equal(t, c.want, FormatLength(c.mm, c.sys, c.step), "%v %v", c.mm, c.sys)
	}
	require.Equal(t, "150 mm", FormatMeasure(150, Millimetre, 0.5))
	require.Equal(t, "0.15 m", FormatMeasure(150, Metre, 0.5))
	require.Equal(t, `6"`, FormatMeasure(152.4, Inch, 0.5))
}

func TestFormatOthers(t *testing.T) {
	require.Equal(t, "11.52 m²", FormatArea(11520000, Millimetre))
	require.Equal(t, "32 sq ft", FormatArea(2438.4*1219.2, Foot)) // an 8 by 4 sheet
	require.Equal(t, "22.5°", FormatAngle(22.5, 0.1))
	require.Equal(t, "-30°", FormatAngle(-30, 1))
	require.Equal(t, "38 kg", FormatWeight(38, Millimetre, 0.1))
	require.Equal(t, "85 lb", FormatWeight(85*Pound, Foot, 0.1))
	require.Equal(t, "1:8", FormatSlope(450.0/3600))
	require.Equal(t, "1:7.5", FormatSlope(2/15.0))
	require.Equal(t, "level", FormatSlope(0))
	require.Equal(t, "-1:12", FormatSlope(-1.0/12))
}

func FuzzFormat(f *testing.F) {
	f.Add(1087.3, 0.5)
	f.Add(-2298.7, 0.1)
	f.Add(math.MaxFloat64, 1e-300)
	f.Fuzz(func(t *testing.T, x, step float64) {
		for s := Millimetre; s <= Foot; s++ {
			got := FormatLength(x, s, step)
			require.NotEmpty(t, got)
			require.NotEqual(t, "-0", got)
		}
		if step >= 0.01 && step < 1e3 && math.Abs(x) < 1e9 && step*100 == math.Round(step*100) {
			v, _, err := Parse(FormatNumber(x, step))
			require.NoError(t, err)
			require.InDelta(t, x, v.X, step/2+1e-6)
			back := FormatNumber(v.X, step)
			require.Equal(t, FormatNumber(x, step), back)
		}
	})
}

func BenchmarkAppendLength(b *testing.B) {
	var buf [32]byte
	for b.Loop() {
		AppendLength(buf[:0], 4056.93, Millimetre, 0.5)
	}
}

// A rounded number prints as its figure.
func TestRoundPrints(t *testing.T) {
	for i := range 20000 {
		for _, places := range []int{1, 2, 4} {
			scale := math.Pow10(places)
			x := Round(float64(i)/scale+0.3/scale, 1/scale)
			want := strconv.FormatFloat(float64(i)/scale, 'f', -1, 64)
			require.Equal(t, want, strconv.FormatFloat(x, 'f', -1, 64))
		}
	}
	require.Equal(t, 3.0, Round(2.5, 1))
	require.Equal(t, -0.3, Round(-0.25, 0.1))
	require.Equal(t, 6.35, Round(6.3, 6.35))
	require.Equal(t, 0.25, Round(0.3, 0.25))
}
