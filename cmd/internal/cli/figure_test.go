package cli

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// pilotDrawing is a harbour pilot 890 high in a picture of 430 x 970, at scale 1:2; its arm is held out at the left.
const pilotDrawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 430 970" width="430mm" height="970mm">
<path fill="#1b3a5c" d="M175 930 L235 930 L245 580 L255 580 L295 930 L365 930 L365 480 C380 380 390 280 390 205 L305 180 L315 150 L225 150 L235 180 L40 180 L40 220 L185 240 Z"/>
<path fill="#e0b48a" d="M315 150 C335 110 315 60 270 60 C225 60 205 110 225 150 Z"/>
<rect x="215" y="40" width="105" height="40" fill="#222"/>
</svg>
`

const pilotSet = `set "Quayside"
    production "Low Tide"
    issue B 2026-11-20
    units mm

figure pilot
    artwork "pilot.svg"
    height 1780
    eye 1650
    facing left
    thickness 18
    at 0, 3000
`

// figureSet writes the set with more attributes of the pilot, and more elements, beside its drawing.
func figureSet(t *testing.T, more string) string {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "pilot.svg"), []byte(pilotDrawing), 0o600))
	name := filepath.Join(folder, "quay.markout")
	require.NoError(t, os.WriteFile(name, []byte(pilotSet+more), 0o600))
	return name
}

// sawn returns the box of the widest lines of a page that are cut, and their corners.
func sawn(p reread.Page) (low, high reread.Point, corners []reread.Point) {
	low, high = reread.Point{X: math.Inf(1), Y: math.Inf(1)}, reread.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, path := range p.Paths {
		if path.Layer != "cut" || path.Filled || path.Width < 0.6 {
			continue
		}
		for _, s := range path.Subs {
			for _, q := range s.Points {
				low = reread.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
				high = reread.Point{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
				corners = append(corners, q)
			}
		}
	}
	return low, high, corners
}

func onPage(t *testing.T, set string) []reread.Page {
	t.Helper()
	reread.Need(t, "mutool")
	out := filepath.Join(t.TempDir(), "t.pdf")
	runMain(t, exitOK, "template", set, "--paper", "1100x2200", "--yes", "-o", out)
	return reread.Trace(t, out, "2-N") // after the cover
}

func lettering(p reread.Page) string {
	var out []string
	for _, l := range p.Texts {
		out = append(out, l.Text)
	}
	return strings.Join(out, "\n")
}

// crown returns the middle of the hat's flat top, from the left of what is cut: at its upper edge, or of a hung figure at its lower one.
func crown(low, high reread.Point, corners []reread.Point, hung bool) float64 {
	edge := high.Y
	if hung {
		edge = low.Y
	}
	from, to := math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		if math.Abs(c.Y-edge) < 1 {
			from, to = min(from, c.X), max(to, c.X)
		}
	}
	return (from+to)/2 - low.X
}

// What a ruler finds on the paper: the cut-out is as high and as wide as it is to be, whatever way it is turned, and its hat is
// where it should be: 215 to 320 of 40 to 390 in the drawing, so 455 from the left of 700, or 245 where left and right have
// changed.
func TestFigureOnPaper(t *testing.T) {
	for _, c := range []struct {
		name, more string
		page       int
		hung       bool
		hat        float64
	}{
		{"face", "    full-size face\n", 0, false, 455},
		{"flipped", "    flipped\n    full-size face\n", 0, false, 245},
		{"hung", "    hung\n    level 2600\n    full-size face\n", 0, true, 245},
		{"hung and flipped", "    hung\n    flipped\n    level 2600\n    full-size face\n", 0, true, 455},
		{"back", "    both sides\n    full-size face\n", 1, false, 245},
	} {
		t.Run(c.name, func(t *testing.T) {
			pages := onPage(t, figureSet(t, c.more))
			require.Len(t, pages, c.page+1)
			low, high, corners := sawn(pages[c.page])
			require.InDelta(t, 1780, high.Y-low.Y, 0.1)
			require.InDelta(t, 700, high.X-low.X, 0.1)
			require.InDelta(t, c.hat, crown(low, high, corners, c.hung), 0.1)
		})
	}
}

// Without its face full size a figure with `show head` gives its head alone: 300 from the crown to a straight cut, and the
// pole's length in words.
func TestFigureHeadOnPaper(t *testing.T) {
	set := figureSet(t, "    show head 270\n")
	pages := onPage(t, set)
	require.Len(t, pages, 1)
	low, high, _ := sawn(pages[0])
	require.InDelta(t, 270, high.Y-low.Y, 0.1)
	require.Contains(t, lettering(pages[0]), "pole 1650 from the floor to the eye line,")
	require.Contains(t, lettering(pages[0]), "140 of it behind the head")
	out, _ := runMain(t, exitOK, "cutting", set, "--format", "text")
	require.Contains(t, out, "pole")
}

// The brace on its paper: two thirds of 1780 in whole centimetres, and four tenths.
func TestFigureBraceOnPaper(t *testing.T) {
	pages := onPage(t, figureSet(t, "    brace\n    full-size side\n"))
	require.Len(t, pages, 1)
	low, high, _ := sawn(pages[0])
	require.InDelta(t, 1190, high.Y-low.Y, 0.1)
	require.InDelta(t, 720, high.X-low.X, 0.1)
}

// Eye lines by hand: the pilot's eyes at 1650 over y 3000 and about x 110, the lamp 3000 before them and 900 lower.
func TestFigureEyeLines(t *testing.T) {
	reread.Need(t, "pdftotext")
	set := figureSet(t, "    look at 110, 0 level 750\n")
	out, _ := runMain(t, exitOK, "floor", set, "--format", "text")
	_, eyes, ok := strings.Cut(out, "eye lines")
	require.True(t, ok, out)
	require.Contains(t, eyes, strconv.Itoa(int(math.Round(math.Hypot(3000, 900)))))
	require.Contains(t, eyes, "16.5 down") // atan(900/3000) = 16.7°, to half a degree
	require.Contains(t, eyes, "0, ")
	csv, _ := runMain(t, exitOK, "floor", set, "--format", "csv")
	require.NotContains(t, csv, "pilot,0,", "the tape table stays as its contract has it")
	pdf := filepath.Join(t.TempDir(), "f.pdf")
	runMain(t, exitOK, "floor", set, "-o", pdf)
	require.FileExists(t, pdf)
}

// What stands on a caution's line of `check`.
func TestFigureCautions(t *testing.T) {
	out, _ := runMain(t, exitOK, "check", figureSet(t, "    ground 400\n"))
	require.Contains(t, out, "[FIG-AIR]")
	require.Contains(t, out, "[FIG-TIP]")
	out, _ = runMain(t, exitOK, "check", figureSet(t, "    hung\n    level 2600\n"))
	require.Contains(t, out, "[FIG-HUNG]")
	require.Contains(t, out, "2600 mm above the floor")
	require.NotContains(t, strings.ToLower(out), "sa"+"fe")
	explained, _ := runMain(t, exitOK, "explain", "FIG-THIN")
	require.Contains(t, explained, "30 mm wide")
}

// In the card model and on the cutting list.
func TestFigureInCardAndBoard(t *testing.T) {
	set := figureSet(t, "    of \"ply 18\"\n    brace\n\nboard \"ply 18\" 1220 x 1220 thick 18 density 620kg/m3\nlength \"batten\" 44 x 69 long 4800\n")
	out, _ := runMain(t, exitOK, "model", set, "--scale", "1:25", "--card", "1.5", "--format", "csv")
	rows := parseCSV(t, []byte(out))
	var names []string
	for _, r := range rows {
		if r["element"] == "pilot" {
			names = append(names, r["piece"])
		}
	}
	require.Equal(t, []string{"pilot-1/2", "pilot-2/2"}, names)
	require.Equal(t, "71.2", rows[0]["height_mm"])
	out, _ = runMain(t, exitOK, "cutting", set, "--format", "csv")
	require.Contains(t, out, "figure 1 of 2")
	require.Contains(t, out, "brace upright")
}
