package cli

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// On one large sheet a ruler finds the fixings where the file has them: the locker's crosses 600 and 360 apart about its middle; as seen
// from below, the first is on the other hand.
func TestFixingsAtFullSize(t *testing.T) {
	reread.Need(t, "pdftotext", "pdfinfo")
	name := filepath.Join(t.TempDir(), "fixings.pdf")
	runMain(t, exitOK, "overhead", "../../../samples/galley/galley.markout", "--full-size", "--paper", "2000x2000", "--margins", "10", "-o", name)
	at := map[string]map[string][2]float64{} // by view: the places of the numbers beside the crosses
	view, before := "", ""
	page := 0
	for _, w := range reread.Words(t, name) {
		if w.Page != page {
			page, view = w.Page, ""
		}
		last := before
		before = w.Text
		switch {
		case page == 1 || last == "sheet": // the cover, and which sheet of how many
			continue
		case view == "" && (w.Text == "locker" || w.Text == "dresser"):
			view = w.Text
		case view == "locker" && (w.Text == "above" || w.Text == "below"):
			view += " " + w.Text
		}
		if strings.HasPrefix(view, "locker ") && len(w.Text) == 1 && w.Text >= "1" && w.Text <= "4" {
			if at[view] == nil {
				at[view] = map[string][2]float64{}
			}
			at[view][w.Text] = [2]float64{w.Box.Min.X, w.Box.Min.Y}
		}
	}
	require.Len(t, at, 2)
	for view, hand := range map[string]float64{"locker above": -1, "locker below": 1} {
		p := at[view]
		require.InDelta(t, 600*hand, p["2"][0]-p["1"][0], 0.2, view)
		require.InDelta(t, 0, p["2"][1]-p["1"][1], 0.2, view)
		require.InDelta(t, 360, p["3"][1]-p["1"][1], 0.2, view)
	}
}
