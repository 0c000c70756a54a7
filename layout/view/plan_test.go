package view

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

func TestPlanOfTheKiosk(t *testing.T) {
	d := Plan(kiosk())
	w := words(d)
	for _, say := range []string{"CENTRE LINE", "SETTING LINE", "STAGE LEFT", "STAGE RIGHT", "AUDIENCE", "STATION A", "STATION B",
		"quay_hall", "9000 × 8000", "deck", "+450", "UP 3 risers", "UP 1:8", "bollard.12", "canopy.8", "pin"} {
		require.Contains(t, w, say+"\n")
	}
	var datums int
	for _, s := range d.Strokes {
		if s.Type == drawing.LongDashDot && s.Owner < 0 {
			datums++
			b := s.Path.Bounds()
			require.True(t, b.W() == 0 && b.Min.X == 0 || b.H() == 0 && b.Min.Y == 0)
		}
	}
	require.Equal(t, 2, datums)
	for _, x := range d.Texts {
		if x.Text == "STAGE LEFT" {
			require.Greater(t, x.At.X, 4000.0, "with `sides stage` plan-right is stage left")
		}
	}
}

// Every chain runs in order along its direction, and the chain of all ends runs from end to end of the set through the
// centre line (or the setting line).
func TestChainsClose(t *testing.T) {
	for _, s := range []*set.Set{kiosk(), crates()} {
		d := Plan(s)
		var overall int
		for _, c := range d.Dimensions {
			u := geom.Polar(1, 0)
			if c.Direction == 90 {
				u = geom.Point{Y: 1}
			}
			has0 := false
			for i := range c.Points {
				has0 = has0 || near(c.Points[i].Dot(u), 0)
				if i > 0 {
					require.Greater(t, c.Points[i].Sub(c.Points[i-1]).Dot(u), 0.0)
				}
			}
			require.Less(t, c.Offset, 0.0)
			require.NotNil(t, c.Base)
			if c.Overall {
				overall++
				require.True(t, has0)
			}
		}
		require.Equal(t, 2, overall)
	}
	// The kiosk's ring of bollards is the widest thing: 2 × (4200·cos 15° + 30) = 8173.8; its depth runs from the
	// bollards downstage, 3600 − 4200·sin 75° − 30 = −486.9, to the ramp's foot, y 9600.
	d := Plan(kiosk())
	for _, c := range d.Dimensions {
		if !c.Overall {
			continue
		}
		first, last := c.Points[0], c.Points[len(c.Points)-1]
		if c.Direction == 0 {
			require.InDelta(t, 8173.8, last.X-first.X, 0.05)
		} else {
			require.InDelta(t, -486.9, first.Y, 0.05)
			require.InDelta(t, 9600, last.Y, 1e-6)
		}
	}
}

func TestHiddenAndOverheadPieces(t *testing.T) {
	deck := outline(geom.Rectangle(3000, 3000), "rect")
	box := outline(geom.Rectangle(400, 400), "rect")
	place := func(x, y, z float64) []set.Copy { return at(x, y, z, 0) }
	s := &set.Set{Sides: "camera", Elements: []*set.Element{
		{Name: "deck", Copies: place(0, 2000, 0), Shape: &set.Platform{Outline: deck, Height: 600}},
		{Name: "trap", Copies: place(0, 2000, 0), Shape: &set.Ring{Outer: box, Height: 300}},
		{Name: "half", Copies: place(1500, 2000, 0), Shape: &set.Ring{Outer: box, Height: 300}},
		{Name: "seat", Copies: place(500, 2000, 600), Shape: &set.Ring{Outer: box, Height: 300}},
		{Name: "lamp", Copies: place(-500, 2000, 2600), Shape: &set.Ring{Outer: box, Height: 300}},
		{Name: "low", Copies: place(-1000, 2000, 2599), Shape: &set.Ring{Outer: box, Height: 300}},
	}}
	d := Plan(s)
	for name, typ := range map[string]drawing.LineType{"trap": drawing.Dashed, "half": drawing.Continuous, "seat": drawing.Continuous,
		"lamp": drawing.LongDashDoubleDot, "low": drawing.Continuous, "deck": drawing.Continuous} {
		require.Len(t, closed(d, name, typ), 1, name)
	}
	require.Contains(t, words(d), "OVERHEAD 2600\n")
	require.Contains(t, words(d), "CAMERA\n")
	require.Contains(t, words(d), "CAMERA RIGHT\n")
	for _, x := range d.Strokes {
		if d.Owners[max(0, x.Owner)] == "lamp" && x.Type == drawing.LongDashDoubleDot {
			require.Greater(t, x.Width, planMoved.width, "wide, where another position is narrow")
		}
	}
}

func TestPackKeepsSpansApart(t *testing.T) {
	rows := pack([]span{{lo: 600, hi: 1200}, {lo: 1200, hi: 6000}, {lo: 6000, hi: 9600}})
	require.Len(t, rows, 1, "what only touches shares a row")
	rows = pack([]span{{lo: -900, hi: 900}, {lo: -2400, hi: 2400}, {lo: -600, hi: 600}, {lo: -2400, hi: 2400}})
	require.Len(t, rows, 3, "nested spans each have a row, equal ones are one")
	require.InDelta(t, 600, rows[0][0].hi, 0)
}

func TestEmptySetHasAPlan(t *testing.T) {
	d := Plan(&set.Set{Sides: "stage"})
	require.False(t, d.Bounds().Empty())
	require.Contains(t, words(d), "AUDIENCE\n")
}

// A distance that is asked for is drawn once: not again where a chain at the plan's edge has it.
func TestAskedDistances(t *testing.T) {
	s := kiosk()
	s.Dims = []set.Dim{
		{A: set.Anchor{At: geom.Point{X: -2400, Y: 3600}}, B: set.Anchor{At: geom.Point{X: 2400, Y: 3600}}}, // the deck across
		{A: set.Anchor{At: geom.Point{X: 4000}}, B: set.Anchor{At: geom.Point{Y: 3600}}},
		{A: set.Anchor{Element: "deck", Whole: true}, B: set.Anchor{At: geom.Point{}}},
	}
	var asked []drawing.Dimension
	for _, d := range Plan(s).Dimensions {
		if d.Base == nil {
			asked = append(asked, d)
		}
	}
	require.Len(t, asked, 1)
	require.InDelta(t, 5381.4, asked[0].Points[0].Dist(asked[0].Points[1]), 0.05) // √(4000² + 3600²)
	require.InDelta(t, 138.01, asked[0].Direction, 0.01)
}
