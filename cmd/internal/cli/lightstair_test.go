package cli

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

const lightstair = "../../../samples/lightstair/lightstair.markout"

// The riser lines of the lighthouse stair by its tape table: on a half circle of radius 2000 about (0, 4200) that goes round to
// the right from plan-right, riser k stands at the angle that its treads make, their depth over 2000; its ends are 500 off.
// Two landings of 1000 leave (π·2000 − 2000) / 12 for each of the other treads.
func TestLightstairRisers(t *testing.T) {
	out, _ := runMain(t, exitOK, "floor", lightstair, "--format", "csv")
	rows := map[string]map[string]string{}
	for _, r := range parseCSV(t, []byte(out)) {
		if r["element"] == "stair" {
			rows[r["point"]] = r
		}
	}
	require.Len(t, rows, 30, "two ends of fifteen risers")
	rises := []float64{155, 155, 155, 155, 155, 168, 168, 168, 168, 168, 157, 157, 157, 157, 157}
	along, up := 0.0, 0.0
	for k := 1; k <= 15; k++ {
		a := -along / 2000
		for side, r := range map[string]float64{"left": 2500, "right": 1500} {
			row, ok := rows["riser "+strconv.Itoa(k)+" "+side]
			require.True(t, ok, "riser %d %s", k, side)
			require.InDelta(t, r*math.Cos(a), number(t, row["x_mm"]), 0.051, "riser %d %s", k, side)
			require.InDelta(t, 4200+r*math.Sin(a), number(t, row["y_mm"]), 0.051, "riser %d %s", k, side)
			require.InDelta(t, up, number(t, row["level_mm"]), 0.051)
			require.NotEmpty(t, row["from_1"], "riser %d %s cannot be laid", k, side)
		}
		up += rises[k-1]
		along += (math.Pi*2000 - 2000) / 12
		if k == 5 || k == 10 {
			along += 1000 - (math.Pi*2000-2000)/12
		}
	}
	require.InDelta(t, 2400, up, 1e-9)
}
