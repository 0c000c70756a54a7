package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
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

// No output of what hangs says the word; each defers to who decides.
func TestOverheadNeverCertifies(t *testing.T) {
	word := strings.Join([]string{"sa", "fe"}, "")
	var texts []string
	for _, args := range [][]string{{"overhead", galley, "--format", "text"}, {"overhead", galley, "--format", "json"}, {"check", galley}} {
		out, _ := runMain(t, exitOK, args...)
		require.Contains(t, out, "licensed", args)
		texts = append(texts, out)
	}
	folder := filepath.Join(t.TempDir(), "galley-A")
	runMain(t, exitOK, "issue", galley, "--yes", "-o", folder)
	for _, name := range []string{"index.html", "cautions.txt", "register.csv", "issue.json"} {
		data, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		texts = append(texts, string(data))
	}
	for _, text := range texts {
		require.NotContains(t, strings.ToLower(text), word)
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
