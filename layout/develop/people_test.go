package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/set"
)

// Sizes of people, ANSUR II 2012 (p50, without shoes) and the CDC growth charts of 2000 (boys of 96.5 months, median
// 128.1237 cm).
func TestPeople(t *testing.T) {
	for _, scale := range []float64{1, 10, 24, 25, 48, 50, 100} {
		people := develop.People(scale)
		require.Len(t, people, 4)
		for i, want := range []struct {
			name                             string
			height, eyes, shoulders, breadth float64
		}{
			{"man 1755", 1755, 1640, 1439, 509},
			{"woman 1626", 1626, 1517, 1332, 450},
			{"child 1281", 1281.237, 0, 0, 0},
			{"seated man 1348", 430 + 918, 430 + 804, 0, 0},
		} {
			p := people[i]
			require.Equal(t, want.name, p.Name)
			b := p.Outline.Bounds()
			require.InDelta(t, want.height/scale, b.H(), 0.01+0.5/scale, "%s at 1:%v", p.Name, scale)
			require.InDelta(t, p.Height/scale, b.Max.Y, 1e-9)
			require.InDelta(t, 0, b.Min.Y, 1e-9)
			require.InDelta(t, want.eyes, p.EyeHeight, 1e-9)
			require.InDelta(t, want.shoulders, p.ShoulderHeight, 1e-9)
			if want.breadth > 0 {
				require.InDelta(t, want.height, p.Height, 1e-9)
				require.InDelta(t, want.breadth, p.ShoulderBreadth, 1e-9)
				require.InDelta(t, want.breadth/scale, b.W(), 1e-6, "nothing is broader than the shoulders")
				require.InDelta(t, want.eyes/scale, p.Eyes.Y, 1e-9)
			}
			require.True(t, p.Outline.Contains(p.Eyes))
			_, _, _, crosses := p.Outline.SelfCrossing()
			require.False(t, crosses, "%s at 1:%v", p.Name, scale)
			require.Positive(t, p.Outline.Area())
		}
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		require.Empty(t, develop.People(bad))
	}
}

func TestPeoplePieces(t *testing.T) {
	for _, outside := range []bool{true, false} {
		pieces := develop.PeoplePieces(25, set.Card{Name: "detail", Thickness: 0.3}, outside)
		require.Len(t, pieces, 4)
		for i, want := range []float64{1755, 1626, 1281, 1348} {
			p := &pieces[i]
			require.Equal(t, "people", p.Element)
			require.Equal(t, !outside, p.Hidden)
			requireOnCard(t, p)
			require.NotEmpty(t, p.Folds)
			// It stands on the floor and reaches as high as it is tall.
			low, high := math.Inf(1), math.Inf(-1)
			for _, f := range p.Folds {
				low = min(low, p.Made(f.Line.From, 0).Z)
			}
			for _, q := range p.Outline.Outer.Flatten(0.001, nil) {
				high = max(high, p.Made(q, 0).Z)
			}
			require.InDelta(t, 0, low, 1e-9)
			require.InDelta(t, want/25, high, 0.01)
		}
		require.Equal(t, "people-1/4", pieces[0].Label())
	}
	require.Empty(t, develop.PeoplePieces(400, set.Card{Thickness: 0.3}, true))
}
