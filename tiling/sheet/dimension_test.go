package sheet

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/unit"
)

// Whatever the ends, the printed parts of a chain add up to its printed overall.
func TestPrintedPartsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 500 {
		d := drawing.Dimension{Overall: true, Direction: 90 * float64(r.IntN(2)), Offset: -8}
		at := (r.Float64() - 0.5) * 1e4
		for range 2 + r.IntN(7) {
			p := geom.Point{X: at, Y: r.Float64() * 100}
			if d.Direction == 90 {
				p = geom.Point{X: p.Y, Y: p.X}
			}
			d.Points = append(d.Points, p)
			at += 200 + r.Float64()*3000
		}
		for _, u := range []unit.System{unit.Millimetre, unit.Foot} {
			m := measureIn(u)
			c := projection{scale: 20}.dimension(&d, m)
			require.Zero(t, c.unsaid)
			require.Len(t, c.texts, len(d.Points))
			sum := 0.0
			for _, x := range c.texts[:len(c.texts)-1] {
				sum += read(t, x.Text, u)
			}
			overall := read(t, c.texts[len(c.texts)-1].Text, u)
			require.InDelta(t, overall, sum, 1e-6)
			u0 := d.Points[len(d.Points)-1].Sub(d.Points[0])
			span := u0.X
			if d.Direction == 90 {
				span = u0.Y
			}
			require.InDelta(t, span, overall, m.step/2+1e-6, "the overall is the true one, rounded")
		}
	}
}

func read(t *testing.T, s string, u unit.System) float64 {
	t.Helper()
	if u == unit.Millimetre {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return x
	}
	x, err := unit.ParseLength(s, unit.Foot)
	require.NoError(t, err)
	return x
}

// The line stands Offset from its base to the left of its direction, the overall a step further out, and figures read from
// below or from the right (ISO 129-1, from memory).
func TestDimensionStandsWhereItShould(t *testing.T) {
	base := geom.Point{X: 0, Y: -1000}
	d := drawing.Dimension{Points: []geom.Point{{X: -500, Y: 200}, {X: 0, Y: -900}, {X: 700, Y: 300}}, Offset: -8, Base: &base, Overall: true}
	c := projection{scale: 10}.dimension(&d, measureIn(unit.Millimetre))
	require.InDelta(t, -108, c.lines[0][0].Y, 1e-9)
	require.InDelta(t, -108, c.lines[0][1].Y, 1e-9)
	require.InDelta(t, 120, c.lines[0][1].X-c.lines[0][0].X, 1e-9)
	require.Equal(t, []string{"500", "700", "1200"}, []string{c.texts[0].Text, c.texts[1].Text, c.texts[2].Text})
	require.Less(t, c.texts[2].At.Y, -108.0)
	for _, w := range c.witness {
		require.InDelta(t, w[0].X, w[1].X, 1e-9)
	}
	for turn := 0.0; turn < 360; turn += 15 {
		v := geom.Polar(3000, turn*math.Pi/180)
		d := drawing.Dimension{Points: []geom.Point{{}, v}, Direction: turn, Offset: 5}
		c := projection{scale: 20}.dimension(&d, measureIn(unit.Millimetre))
		require.Equal(t, "3000", c.texts[0].Text)
		a := math.Mod(c.texts[0].Turn+360, 360)
		require.True(t, a <= 90 || a > 270, "at %g° a figure stands on its head: %g", turn, a)
	}
}

// Figures that find no room without running into one another are counted, not printed.
func TestFiguresInACrowd(t *testing.T) {
	d := drawing.Dimension{}
	for i := range 40 {
		d.Points = append(d.Points, geom.Point{X: float64(i) * 3})
	}
	c := projection{scale: 10}.dimension(&d, measureIn(unit.Millimetre))
	require.Positive(t, c.unsaid)
	require.Equal(t, 39, c.unsaid+len(c.texts))
	for i := range c.texts {
		for k := range i {
			a, b := shrunk(&c.texts[i]), shrunk(&c.texts[k])
			require.False(t, a.Overlaps(b))
		}
	}
}
