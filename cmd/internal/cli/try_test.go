package cli

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

const (
	kioskFile  = "../../../samples/kiosk/kiosk.markout"
	cratesFile = "../../../samples/crates/crates.markout"
)

// The kiosk's deck is 450 up with its front edge at y 1200; goings of 300. By hand: rise 450/n, run (n−1)·300, the foot at 1200 less
// the run, 2R + G. Of the three risers' ends that stand, those at their places stay: each riser more lays two marks, one less
// lifts two.
func TestTryRisersOfKiosk(t *testing.T) {
	out, _ := runMain(t, exitOK, "check", kioskFile, "--try", "front.risers=2..6", "--format", "json")
	var raw struct{ Options []map[string]any }
	require.NoError(t, json.Unmarshal([]byte(out), &raw))
	require.Len(t, raw.Options, 5)
	for i, o := range raw.Options {
		n := float64(i + 2)
		want := map[string]any{
			"values": map[string]any{"front.risers": n}, "run_mm": (n - 1) * 300, "foot_mm": []any{0.0, 1200 - (n-1)*300},
			"rise_mm": 450 / n, "going_mm": 300.0, "step_length_mm": 2*450/n + 300, "fits": false,
			"marks_to_move": 2 * math.Abs(n-3), "blocks_to_build": 0.0, "error": nil,
		}
		for key, w := range want {
			require.Contains(t, o, key)
			require.Equal(t, w, o[key], "%v risers: %s", n, key)
		}
	}

	// The CSV has the same names and figures, the words that are tried in the place of values.
	out, _ = runMain(t, exitOK, "check", kioskFile, "--try", "front.risers=2..6", "--format", "csv")
	rows := parseCSV(t, []byte(out))
	require.Len(t, rows, 5)
	require.Equal(t, []string{"6", "1500", "0,-300", "75", "300", "450", "false", "6", "0"}, []string{
		rows[4]["front.risers"], rows[4]["run_mm"], rows[4]["foot_mm"], rows[4]["rise_mm"], rows[4]["going_mm"],
		rows[4]["step_length_mm"], rows[4]["fits"], rows[4]["marks_to_move"], rows[4]["blocks_to_build"],
	})

	// People see letters and no sign, and what is not known is said.
	out, _ = runMain(t, exitOK, "check", kioskFile, "--try", "front.risers=2..6")
	require.Contains(t, out, "300 D")
	require.NotContains(t, strings.NewReplacer("STEP-", "STEP", "--with", "").Replace(out), "-")
	require.Contains(t, out, "Fits says whether a turn and shift were found")
	require.Contains(t, out, "a competent, licensed person, who decides")
}

// The crates with top 4 at 630, and with block 6 moved from x −90 to +30: issue B. The rises run from 135 to 205, the foot and
// the overall 1460 are held, block 4 is cut down, block 6 lifts and lays four corners, 4 + 4 marks.
func TestTryIssueBOfCrates(t *testing.T) {
	out, _ := runMain(t, exitOK, "check", cratesFile, "--format", "json",
		"--try", "crates.rises=140 165 150 175 135 175 160 205 155", "--try", "crates.shift=0 60 -40 80 0 30 50 0")
	var j triedJSON
	require.NoError(t, json.Unmarshal([]byte(out), &j))
	require.Len(t, j.Options, 1)
	o := j.Options[0]
	require.Equal(t, []string{"top", "total", "run", "foot"}, o.Held)
	require.Equal(t, []float64{205, 280, 710, 2510}, []float64{*o.Rise, *o.Going, *o.StepLength, *o.Run})
	require.Equal(t, []int{8, 1}, []int{*o.Marks, *o.Blocks})
	require.Equal(t, "140 165 150 175 135 175 160 205 155", o.Values["crates.rises"])
}

// Every command that opens a set takes --with.
func TestWithEverywhere(t *testing.T) {
	root := newRoot(&app{})
	opens := func(c *cobra.Command) bool {
		for _, word := range strings.Fields(c.Use)[1:] {
			if word == "SET" || word == "OLD" {
				return c.Name() != "tidy"
			}
		}
		return false
	}
	seen := 0
	for _, c := range root.Commands() {
		if opens(c) {
			seen++
			require.NotNil(t, c.Flags().Lookup("with"), c.Name())
		}
	}
	require.GreaterOrEqual(t, seen, 8)
}
