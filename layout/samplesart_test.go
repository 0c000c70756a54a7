package layout_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

// What is drawn in pilot.svg and heron.svg covers boxes of 1028 by 3484 and of 2651 by 3589 pixels where librsvg 2.54 draws them 3600
// and 3744 pixels high: the widths follow from the heights asked for. The heron is traced from 1100 pixels, so it may be one of them off.
func TestKioskFigures(t *testing.T) {
	s := sample(t, "kiosk")
	for _, c := range []struct {
		name                string
		width, height, near float64
		looks               string
		holes               bool
	}{
		{"pilot", 1780 * 1028.0 / 3484, 1780, 1780.0 / 3484, "right", false},
		{"heron", 950 * 2651.0 / 3589, 950, 950.0 / 1032, "right", true},
	} {
		f := s.Find(c.name).Shape.(*set.Figure)
		require.Equal(t, c.height, f.Height, c.name)
		require.InDelta(t, c.width, f.Width, c.near, c.name)
		require.Len(t, f.Bodies, 1, "%s is one piece", c.name)
		require.Zero(t, f.Others, c.name)
		require.Equal(t, c.holes, len(f.Bodies[0].Holes) > 0, c.name)
		require.Equal(t, c.looks, f.Looks(), c.name)
	}
	pilot := s.Find("pilot")
	require.InDelta(t, 450, pilot.Copies[0].Places[0].Level(), 1e-9, "he stands on the deck")
	// His eyes are drawn at 185.4 of a figure from 48 to 1790: (1790 − 185.4)·1780/1742 = 1639.6.
	require.InDelta(t, 1639.6, pilot.Shape.(*set.Figure).Eye, 1)
	for _, name := range []string{"gull", "gull_left", "gull_right"} {
		require.True(t, s.Find(name).Shape.(*set.Figure).Hung, name)
	}
}

func TestBackingCloths(t *testing.T) {
	s := sample(t, "backing")
	harbour := s.Find("harbour").Shape.(*set.Cloth)
	require.InDelta(t, 30*304.8, harbour.Width, 1e-9)
	require.InDelta(t, 16*304.8, harbour.Height, 1e-9)
	require.InDelta(t, 1.875, (harbour.Crop.Max.X-harbour.Crop.Min.X)/(harbour.Crop.Max.Y-harbour.Crop.Min.Y), 1e-9, "30 by 16")
	require.Equal(t, harbour.Whole(), harbour.Shown, "painted to the edge of what is allowed")
	require.InDelta(t, 2*304.8, harbour.Grid, 1e-9)
	sign := s.Find("fish_sign").Shape.(*set.Cloth)
	require.InDelta(t, 12.7, sign.Pounce, 1e-9) // half an inch
	require.InDelta(t, 1.5, sign.Width/sign.Height, 1e-9)
}
