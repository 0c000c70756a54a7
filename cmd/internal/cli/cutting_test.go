package cli

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const crates = "../../../samples/crates/crates.markout"

// The crates' lids are as wide and as deep as the climb says, and the boxes, packing and lid under each top add up to its height.
// Tops: 140 305 455 645 765 940 1100 1305 (the sums of the rises), the lid 17.6 of each.
func TestCratesAreStackedToTheirTops(t *testing.T) {
	out, _ := runMain(t, exitOK, "cutting", crates, "--format", "json")
	var r struct {
		Cuts []struct {
			Element, Piece, From string
			Length               float64 `json:"length_mm"`
			Width                float64 `json:"width_mm"`
			Thick                float64 `json:"thickness_mm"`
		}
		Blocks []struct {
			Block   string
			Carried *float64 `json:"carried_at_mm"`
			Layer   string
			Height  float64 `json:"height_mm"`
			Across  int
			Along   int
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	tops := []float64{140, 305, 455, 645, 765, 940, 1100, 1305}
	goings := []float64{300, 320, 280, 340, 300, 360, 300, 310}
	heights, boxes := map[string]float64{}, map[string]int{}
	for _, b := range r.Blocks {
		heights[b.Block] += b.Height
		boxes[b.Block] += b.Across * b.Along
		if b.Carried != nil {
			heights[b.Block+" carried"] = *b.Carried
		}
	}
	lids := 0
	counted := map[string]int{}
	froms := map[string]bool{}
	for _, c := range r.Cuts {
		if c.Element != "crates" {
			continue
		}
		if block, _, ok := strings.Cut(c.Piece, " box "); ok {
			counted[block]++
			require.False(t, froms[c.From], "%s serves once", c.From)
			froms[c.From] = true
			continue
		}
		for k := range tops {
			if c.Piece == "block "+string(rune('1'+k))+" lid" {
				lids++
				require.Equal(t, [3]float64{1400 - 50*float64(k), goings[k], 17.6}, [3]float64{c.Length, c.Width, c.Thick})
			}
		}
	}
	require.Equal(t, 8, lids)
	for k, top := range tops {
		block := "block " + string(rune('1'+k))
		require.InDelta(t, top-17.6, heights[block+" carried"], 0.05, block)
		require.InDelta(t, top-17.6, heights[block], 0.05, block)
		require.Equal(t, boxes[block], counted[block], block)
	}
}

// Of the kiosk: eight canopy posts of 2850 − 450 = 2400 come out of four tubes of 6000, two each (2·2400 + 2); twelve bollards of 700
// want three poles of 4200, five each, since 6·700 + 5·3 is 4215. The ramp of 450 on 3600 has a deck of √(3600² + 450²) = 3628.0,
// its treads of 18 are cut from board of 17.6, and that is said.
func TestKioskIsCut(t *testing.T) {
	out, _ := runMain(t, exitOK, "cutting", kiosk, "--format", "csv")
	bars := map[string]map[string]int{}
	ramp := 0.0
	for _, r := range parseCSV(t, []byte(out)) {
		if bars[r["material"]] == nil {
			bars[r["material"]] = map[string]int{}
		}
		bars[r["material"]][r["from"]]++
		require.Equal(t, "1", r["count"])
		switch {
		case r["element"] == "canopy":
			require.Equal(t, "2400", r["length_mm"])
		case r["element"] == "bollard":
			require.Equal(t, "700", r["length_mm"])
		case r["element"] == "up" && strings.HasPrefix(r["piece"], "deck"):
			require.Equal(t, "1200", r["length_mm"])
			ramp += number(t, r["width_mm"])
		}
	}
	require.InDelta(t, 3628.0, ramp, 0.1)
	require.Equal(t, map[string]int{"tube 89/1": 2, "tube 89/2": 2, "tube 89/3": 2, "tube 89/4": 2}, bars["tube 89"])
	require.Len(t, bars["pole 60"], 3)
	out, _ = runMain(t, exitOK, "check", kiosk, "--format", "json")
	var c checkJSON
	require.NoError(t, json.Unmarshal([]byte(out), &c))
	found := map[string]string{}
	for _, k := range c.Cautions {
		found[k.Code+" "+k.Element] = k.Figure
	}
	require.Equal(t, "17.6 mm", found["BOARD-THICK front"])
	require.Equal(t, "32.5 kg", found["LIFT ply 18"]) // 2.44 · 1.22 · 0.0176 · 620
}
