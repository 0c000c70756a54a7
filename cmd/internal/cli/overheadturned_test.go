package cli

import (
	"fmt"
	"math"
	"math/cmplx"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A room off the centre line, turned by 20°: its middle at (2350, 1780), 3200 deep, hung at 5200 over a walking floor at 300.
const turnedCabin = `set "Cabin"

room cabin
    outline  rect 4000 x 3200
    at       2350, 1780
    turn     20deg
    overhead 5200 %s
    stand    300

dressing chest
    in       cabin
    at       -1300, 2600
    turn     35deg
    size     900 x 500
    height   620
    weight   21kg
    fixings  -400,-200 400,200

dressing lamp
    on       chest
    at       chest.centre + (100, 50)
    turn     70deg
    outline  circle 200
    height   330
    weight   about 1.5kg
    fixings  20,10

dressing hook
    in       cabin
    at       1500, 300
    repeat   2 by -400, 120
    size     60 x 40
    height   90
    level    1800
    fixings  1
`

// The table of the command against complex numbers: on the plan the turn about a line through c at angle a is c + e^(2ia)·conj(z − c).
func TestTurnedRoomIsTransferred(t *testing.T) {
	const tau, hung, stand = 20 * math.Pi / 180, 5200, 300
	middle := complex(2350, 1780)
	spin := cmplx.Rect(1, tau)
	place := func(u, v float64) complex128 { return middle + spin*complex(u, v-1600) }
	// Lengthways the line runs up the room through its middle, crossways across it.
	reflect := map[string]func(z complex128) complex128{
		"turned lengthways": func(z complex128) complex128 { return middle - spin*spin*cmplx.Conj(z-middle) },
		"turned crossways":  func(z complex128) complex128 { return middle + spin*spin*cmplx.Conj(z-middle) },
		"mirrored":          func(z complex128) complex128 { return z },
	}
	facing := map[string]func(theta float64) float64{
		"turned lengthways": func(theta float64) float64 { return 180 - theta + 40 },
		"turned crossways":  func(theta float64) float64 { return -theta + 40 },
		"mirrored":          func(theta float64) float64 { return theta },
	}
	pieces := []struct {
		name                    string
		u, v, w, height, turned float64
		fixings                 []complex128
		weight, is, count       string
	}{
		{name: "chest", u: -1300, v: 2600, height: 620, turned: 35, fixings: []complex128{complex(-400, -200), complex(400, 200)}, weight: "21", is: "measured"},
		{name: "lamp", u: -1200, v: 2650, w: 620, height: 330, turned: 70, fixings: []complex128{complex(20, 10)}, weight: "1.5", is: "about"},
		{name: "hook.1", u: 1500, v: 300, w: 1800, height: 90, is: "unknown", count: "1"},
		{name: "hook.2", u: 1100, v: 420, w: 1800, height: 90, is: "unknown", count: "1"},
	}
	for way, over := range reflect {
		out, _ := runMain(t, exitOK, "overhead", writeSet(t, fmt.Sprintf(turnedCabin, way)), "--format", "csv")
		rows := parseCSV(t, []byte(out))
		require.Len(t, rows, len(pieces))
		for i, p := range pieces {
			row, up := rows[i], place(p.u, p.v)
			is := func(column string, want float64) {
				t.Helper()
				got, err := strconv.ParseFloat(row[column], 64)
				require.NoError(t, err, column)
				require.InDelta(t, want, got, 0.0501, "%s %s %s", way, p.name, column)
			}
			require.Equal(t, []string{p.name, strconv.Itoa(i + 1), p.weight, p.is}, []string{row["piece"], row["tag"], row["weight_kg"], row["weight_is"]})
			is("x_upright_mm", real(up))
			is("y_upright_mm", imag(up))
			is("z_upright_mm", p.w)
			is("x_overhead_mm", real(over(up)))
			is("y_overhead_mm", imag(over(up)))
			is("z_overhead_mm", hung-p.w)
			is("lowest_mm", hung-p.w-p.height)
			is("headroom_mm", hung-p.w-p.height-stand)
			theta := 270 + 20 + p.turned
			is("facing_upright_deg", math.Mod(theta, 360))
			is("facing_overhead_deg", math.Mod(facing[way](theta)+720, 360))
			require.Equal(t, map[bool]string{true: "yes"}[way == "mirrored"], row["opposite_handed"])
			if p.count != "" {
				require.Equal(t, p.count, row["fixings"])
				continue
			}
			places := strings.Fields(row["fixings"])
			require.Len(t, places, len(p.fixings))
			for k, f := range p.fixings {
				z := over(up + spin*cmplx.Rect(1, p.turned*math.Pi/180)*f)
				var x, y float64
				_, err := fmt.Sscanf(places[k], "%g,%g", &x, &y)
				require.NoError(t, err)
				require.InDelta(t, real(z), x, 0.0501)
				require.InDelta(t, imag(z), y, 0.0501)
			}
		}
	}
}
