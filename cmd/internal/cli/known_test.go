package cli

import (
	"encoding/json"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

const kiosk = "../../../samples/kiosk/kiosk.markout"

// The kiosk's bollards by their tape table. The places are those of a ring of twelve at radius 4200 from 15° about
// (0, 3600): 4200·cos 15° = 4056.9, 4200·sin 15° + 3600 = 4687.0; neighbours stand 2·4200·sin 15° = 2174.1 apart.
func TestKioskBollards(t *testing.T) {
	out, _ := runMain(t, exitOK, "floor", kiosk, "--format", "csv")
	rows := map[string]map[string]string{}
	for _, r := range parseCSV(t, []byte(out)) {
		rows[r["element"]+" "+r["point"]] = r
	}
	place := func(name string) (x, y float64) {
		r, ok := rows[name]
		require.True(t, ok, "no row %s", name)
		return number(t, r["x_mm"]), number(t, r["y_mm"])
	}
	for name, want := range map[string][2]float64{
		"bollard.1 centre": {4056.9, 4687.0}, "bollard.3 centre": {1087.0, 7656.9},
		"bollard.9 centre": {-1087.0, -456.9}, "bollard.10 centre": {1087.0, -456.9},
	} {
		x, y := place(name)
		require.InDelta(t, want[0], x, 0.05, name)
		require.InDelta(t, want[1], y, 0.05, name)
	}
	overEight, flattest := 0, 0.0
	for i := 1; i <= 12; i++ {
		name := "bollard." + strconv.Itoa(i) + " centre"
		r := rows[name]
		x, y := place(name)
		nx, ny := place("bollard." + strconv.Itoa(i%12+1) + " centre")
		require.InDelta(t, 2174.1, math.Hypot(nx-x, ny-y), 0.15, name)

		// With two tapes from the stations alone eight need more than 8 m, and the flattest crossing is 166°.
		a, b := math.Hypot(x+4000, y), math.Hypot(x-4000, y)
		if max(a, b) > 8000 {
			overEight++
		}
		flattest = max(flattest, math.Acos((a*a+b*b-8000*8000)/(2*a*b))*180/math.Pi)

		// With the pin and points already laid every one is within 8 m and crosses between 30° and 150°.
		require.NotEmpty(t, r["from_1"], "%s cannot be laid", name)
		require.LessOrEqual(t, number(t, r["distance_1_mm"]), 8000.0, name)
		require.LessOrEqual(t, number(t, r["distance_2_mm"]), 8000.0, name)
		require.GreaterOrEqual(t, number(t, r["crossing_deg"]), 30.0, name)
		require.LessOrEqual(t, number(t, r["crossing_deg"]), 150.0, name)
	}
	require.Equal(t, 8, overEight)
	require.InDelta(t, 166, flattest, 0.5)

	// The ramp ends 3600 behind the deck's back edge, at 1:8.
	_, y := place("up corner 1")
	for _, c := range []string{"up corner 2", "up corner 3", "up corner 4"} {
		_, cy := place(c)
		y = max(y, cy)
	}
	require.InDelta(t, 9600, y, 0.05)
}

// The octagon 4800 across flats has sides of 4800·tan 22.5° = 1988.2 (regular polygons: side = across flats × 0.414214).
func TestKioskMeasures(t *testing.T) {
	out, _ := runMain(t, exitOK, "check", kiosk, "--format", "json")
	var r checkJSON
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	require.Equal(t, "B", r.Issue)
	require.Empty(t, r.Errors)
	found := map[string]string{}
	for _, c := range r.Cautions {
		found[c.Code+" "+c.Element] = c.Figure
		require.NotEmpty(t, c.Source)
		require.Positive(t, c.Line)
	}
	require.Equal(t, "1:8", found["RAMP-SLOPE up"])
	for _, m := range r.Measures {
		if m.Element == "deck" {
			require.InDelta(t, 8*1988.2251, m.Perimeter, 0.05)
			require.InDelta(t, 450, m.Top, 1e-9)
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}
