package changes_test

import (
	"os"
	"path"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/changes"
	"markout/layout/set"
)

func said(list []changes.Element) []string { return listed(list, changes.Element.String) }

// sampleWith opens a sample with values changed for the run.
func sampleWith(t testing.TB, name string, with ...string) *set.Set {
	t.Helper()
	dir := "../../samples/" + name
	files := texts{}
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, f := range list {
		data, err := os.ReadFile(path.Join(dir, f.Name()))
		require.NoError(t, err)
		files[f.Name()] = string(data)
	}
	s, diags := layout.Open(files, name+".markout", layout.Options{With: with})
	require.False(t, diags.HasErrors())
	return s
}

// The deck stays 450 up, so that four risers are 112.5 each; the flight lands at the deck's edge as before, and its third going of 300
// takes its foot 300 downstage.
func TestElementsOfAnotherRiser(t *testing.T) {
	got := changes.Elements(sample(t, "kiosk"), sampleWith(t, "kiosk", "front.risers=4"))
	require.Len(t, got, 1)
	require.Equal(t, "front: 3 risers → 4, rise 150 → 112.5; held: top and total; foot moves 300 downstage", got[0].String())
	require.Equal(t, "changed", got[0].Change)
	require.Equal(t, "3 risers → 4, rise 150 → 112.5; foot moves 300 downstage", got[0].Words)
	require.Equal(t, "top and total", got[0].Held)
}

// Top 4 goes from 645 to 630, so that the rises on both sides of it change by 15 and the overall stays 1460.
func TestElementsOfTheClimb(t *testing.T) {
	a, b := sample(t, "crates"), sample(t, "crates", "190 120", "175 135", "-90", "30")
	require.Equal(t, []string{
		"crates: rise 4 190 → 175, rise 5 120 → 135, block 6 moves 120 to stage left; held: top, total, run and foot",
	}, said(changes.Elements(a, b)))
	require.Equal(t, []string{
		"crates: rise 4 175 → 190, rise 5 135 → 120, block 6 moves 120 to stage right; held: top, total, run and foot",
	}, said(changes.Elements(b, a)))
}

func TestElementsOfASampleAgain(t *testing.T) {
	for _, name := range []string{"kiosk", "galley", "crates", "lightstair", "backing"} {
		require.Empty(t, changes.Elements(sample(t, name), sample(t, name)), name)
	}
}

// A deck one riser higher takes its steps, and all that is on it.
func TestElementsThatFollow(t *testing.T) {
	require.Equal(t, []string{
		"deck: height 450 → 600; held: where it stands",
		"front: rise 150 → 200, total 450 → 600; held: run and foot",
		"up: rise 450 → 600, slope 1:8 → 1:6; held: length and foot",
		"canopy: height 2400 → 2250; held: top; all 8 raised 150",
		"pilot: raised 150",
	}, said(changes.Elements(sample(t, "kiosk"), sampleWith(t, "kiosk", "deck.height=600"))))
}
