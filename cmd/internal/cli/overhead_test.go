package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

const galley = "../../../samples/galley/galley.markout"

// The figures of the galley are worked by hand: 192.5 kg with the centre of gravity at (−67 375, 524 520) / 192.5, which lengthways
// comes to (350, 2724.8); the locker goes to x −1500 and hangs down to 4900 − 2050, 2250 above a floor at 600, 150 short of 2400.
func TestGalleyIsTransferred(t *testing.T) {
	out, _ := runMain(t, exitOK, "overhead", galley, "--format", "csv")
	rows := map[string]map[string]string{}
	for _, r := range parseCSV(t, []byte(out)) {
		rows[r["piece"]] = r
	}
	require.Len(t, rows, 23)
	locker := rows["locker"]
	require.Equal(t, []string{"1500", "-1500", "3350", "2850", "2250", "270", "measured", "starboard"}, []string{
		locker["x_upright_mm"], locker["x_overhead_mm"], locker["y_overhead_mm"], locker["lowest_mm"], locker["headroom_mm"],
		locker["facing_overhead_deg"], locker["weight_is"], locker["panel"],
	})
	require.Equal(t, "-1200,3170 -1800,3170 -1200,3530 -1800,3530", locker["fixings"])
	require.Equal(t, "yes", rows["plate.14"]["loose"])
	require.Equal(t, "0.25", rows["plate.14"]["weight_kg"])

	out, _ = runMain(t, exitOK, "overhead", galley, "--format", "json")
	var j overheadJSON
	require.NoError(t, json.Unmarshal([]byte(out), &j))
	require.InDelta(t, 192.5, j.Rooms[0].All.Weight, 1e-9)
	require.False(t, j.Rooms[0].All.AtLeast)
	require.InDelta(t, 350, j.Rooms[0].All.Centre[0], 1)
	require.InDelta(t, 2725, j.Rooms[0].All.Centre[1], 1)

	out, _ = runMain(t, exitOK, "check", galley, "--format", "json")
	var c checkJSON
	require.NoError(t, json.Unmarshal([]byte(out), &c))
	found := map[string]string{}
	for _, k := range c.Cautions {
		found[k.Code+" "+k.Element] = k.Figure + " of " + k.Limit
	}
	require.Equal(t, "2250 mm of 2400 mm", found["OVER-LOW locker"])
	_, errOut := runMain(t, exitRefused, "overhead", galley, "cellar")
	require.Contains(t, errOut, "cellar is no room that hangs overhead")
	_, errOut = runMain(t, exitFailed, "overhead", "../../../samples/crates/crates.markout")
	require.Contains(t, errOut, "no room hangs overhead")
}

// walked is the galley with a shelf and a ledge to climb over, and two people of different heights who walk beneath it.
func walked(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile(galley)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "walked.markout")
	require.NoError(t, os.WriteFile(file, append(text, `
dressing shelf
    in galley
    at -1750, 900
    size 300 x 800
    level 2600
    height 40
    weight 5kg

dressing ledge
    in galley
    at -1000, 2500
    size 300 x 800
    level 2000
    height 40
    weight about 5kg

walk tallest
    in    galley
    path  -1500,300 line 1500,300 1500,3000
    tall  1950
    reach 2450

walk climb
    in   galley
    over shelf, ledge, locker
    tall 1700
`...), 0o644))
	return file
}

// No output of what hangs says the word, on paper, in texts or in tables; whatever says more than figures defers to who decides.
func TestOverheadNeverCertifies(t *testing.T) {
	reread.Need(t, "pdftotext", "pdfinfo")
	word := strings.Join([]string{"sa", "fe"}, "")
	file := walked(t)
	folder := filepath.Join(t.TempDir(), "galley-A")
	runMain(t, exitOK, "issue", file, "--yes", "-o", folder)
	for _, args := range [][]string{
		{"overhead", file}, {"overhead", file, "--form"}, {"elevations", file}, {"overhead", file, "--paper", "A4"},
	} {
		runMain(t, exitOK, append(args, "--yes", "-o", filepath.Join(folder, "own"+strings.Join(args[2:], "")+args[0]+".pdf"))...)
	}
	texts := map[string]string{}
	for _, args := range [][]string{{"overhead", file, "--format", "text"}, {"overhead", file, "--format", "json"}, {"check", file}} {
		out, _ := runMain(t, exitOK, args...)
		require.Contains(t, out, "licensed", args)
		texts[strings.Join(args, " ")] = out
	}
	files, err := os.ReadDir(folder)
	require.NoError(t, err)
	papers := 0
	for _, f := range files {
		name := filepath.Join(folder, f.Name())
		if f.IsDir() {
			continue // the file as it was written
		}
		if filepath.Ext(name) != ".pdf" {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			texts[f.Name()] = string(data)
			continue
		}
		papers++
		for page := 1; page <= len(reread.ReadInfo(t, name).Sizes); page++ {
			said := reread.Text(t, name, page)
			texts[fmt.Sprint(f.Name(), " page ", page)] = said
			if strings.Contains(f.Name(), "overhead") {
				require.Contains(t, strings.Join(strings.Fields(said), " "), "licensed", "%s page %d", f.Name(), page)
			}
		}
	}
	require.GreaterOrEqual(t, papers, 6)
	require.Contains(t, texts, "overhead.csv")
	for name, text := range texts {
		require.NotContains(t, strings.ToLower(text), word, name)
	}
}

// By hand: the shelf's upper face is 4900 − 2600, 1700 above the walking floor; bench_left hangs down to 3920 over it, 1620 of room, 80
// short of 1700. The ledge's is 4900 − 2000, 600 up, and the table hangs down to 4160. Between them lie √(450² + 800²) on the plan.
// The shelf's lowest is 4900 − 2640, 1660 above the floor. A head upside down comes 4900 − 600 less its height above the room's floor.
func TestHeadroomAndFootholdsInText(t *testing.T) {
	out, _ := runMain(t, exitOK, "overhead", walked(t), "--format", "text")
	flat := strings.Join(strings.Fields(out), " ")
	for _, said := range []string{
		"walk passage 2250 1500 R", "walk tallest 1660 ", "1950 tall 290", "under 24 shelf 1660 1750 L 900 U shelf 2400 wanted 740",
		"outline 1880 tall that stands upside down comes 2420 above", "outline 1950 tall that stands upside down comes 2350 above",
		"Reach, above what is walked on: 2450.",
		"climb 1 shelf 2300 300 x 800 1620 bench_left 1700 80 short of 1700 tall; for the engineer",
		"climb 2 ledge 2900 up 600 918 300 x 800 1260 mess_table 2300 440 short of 1700 tall; for the engineer",
		"climb 3 locker 4900 up 2000", "nobody can stand there; for the engineer",
	} {
		require.Contains(t, flat, said)
	}
}

// A list of two thousand pieces: every one is transferred. Its time is measured by the benchmark.
func manyPieces(t testing.TB, n int) string {
	t.Helper()
	dir := t.TempDir()
	var b strings.Builder
	b.WriteString("name,at,size,height,weight,fixings\n")
	for i := range n {
		fmt.Fprintf(&b, "p%d,\"%d, %d\",60 x 60,300,2kg,\"-20,-20 20,20\"\n", i, (i%50)*80-1960, (i/50)*80+40)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pieces.csv"), []byte(b.String()), 0o644))
	text := fmt.Sprintf("set \"Many\"\n\nroom hold\n    outline rect 4200 x %d\n    overhead 4900 turned lengthways\n\ndressing from \"pieces.csv\"\n    in hold\n", n/50*80+200)
	file := filepath.Join(dir, "many.markout")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	return file
}

func TestPiecesFromAListAreTransferred(t *testing.T) {
	out, _ := runMain(t, exitOK, "overhead", manyPieces(t, 2000), "--format", "csv")
	require.Equal(t, 2001, strings.Count(out, "\n"))
}
