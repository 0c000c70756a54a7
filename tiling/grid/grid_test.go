package grid_test

import (
	"bytes"
	"encoding/hex"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/paper"
)

func TestLabels(t *testing.T) {
	side := wall(0.3)
	side.View, side.Title = "side", "wall, side"
	other := wall(0.3)
	other.Name, other.Title = "floor", "floor, face" // a piece called floor
	p := build(t, info, options(t, "A4"), quay(t, 0.25), wall(0.3), side, other)
	form := regexp.MustCompile(`^(floor|wall|wall side|floor face) [1-9][0-9]*[A-HJ-NP-Z]+$`)
	seen := map[string]bool{}
	for _, e := range p.Entries() {
		require.Regexp(t, form, e.Label)
		require.False(t, seen[e.Label], e.Label)
		seen[e.Label] = true
	}
	require.True(t, seen["wall side 1A"] && seen["wall 1A"] && seen["floor face 1A"])
}

// A piece that fits a sheet's live area takes one sheet, wherever it lies; the sheet is turned where that helps.
func TestOneSheet(t *testing.T) {
	for _, c := range []struct {
		w, h  float64
		sheet string
		n     int
	}{
		{185, 270, "A4 portrait", 1}, {270, 185, "A4 landscape", 1}, {189.2, 276.2, "A4 portrait", 1},
		{195, 200, "A4 portrait", 2}, // two steps of 180 and a lap are 370 wide; 180 of the lower is enough
		{360, 270, "A4 portrait", 2}, {185, 535, "A4 portrait", 2},
	} {
		s := newFloor()
		s.cut(s.own("box"), geom.Rectangle(c.w, c.h).Transform(geom.Move(pt(1234.5, -77.7), 0)))
		p := build(t, info, options(t, "A4"), s.Drawing)
		require.Equal(t, c.n, p.Count(), "%v × %v", c.w, c.h)
		if c.n == 1 {
			require.Equal(t, c.sheet, p.Entries()[0].Paper)
		}
	}
}

func TestOriginAndStep(t *testing.T) {
	for _, lap := range []float64{10, 0, 25} {
		opt := options(t, "A4")
		opt.Lap = lap
		opt.Margins = paper.Margins{Left: 4, Right: 4, Bottom: 6, Top: 4}
		p := build(t, info, opt, quay(t, 0.25))
		e := p.Entries()
		g := p.Grids()[0]
		for _, x := range e {
			require.InDelta(t, g.Size[0]-g.Margins[0]-g.Margins[1], x.Size[0], 1e-9)
			require.InDelta(t, g.Size[1]-g.Margins[2]-g.Margins[3], x.Size[1], 1e-9)
			for k := range 2 {
				n := (x.Origin[k] - g.Origin[k]) / (x.Size[k] - lap)
				require.InDelta(t, math.Round(n), n, 1e-9)
			}
		}
	}
}

// Strips are full width, at most 5000 mm long, and their cut lengths are those of their pages.
func TestStrips(t *testing.T) {
	s := newFloor()
	s.cut(s.own("long"), geom.Rectangle(700, 13000).Transform(geom.Move(pt(0, 6500), 0)))
	p := build(t, info, options(t, "roll 914"), s.Drawing)
	doc := p.Document()
	lengths := p.CutLengths()
	require.Len(t, lengths, doc.Pages)
	total := 0.0
	for i, z := range doc.Sizes {
		require.LessOrEqual(t, max(z.W, z.H), 5000.0)
		if i > 0 {
			require.InDelta(t, 914.4, z.W, 1e-9)
			require.InDelta(t, lengths[i], z.H, 1e-9)
			total += z.H
		}
	}
	require.Equal(t, 3, p.Count())
	// 13 m and both ends, two laps and three pairs of margins.
	require.InDelta(t, 13000+30+1+20+60, total, 6)
	var page tiling.Page
	for i := range doc.Pages {
		page.Reset()
		doc.Make(i, &page)
		require.Equal(t, doc.Sizes[i], tiling.Size{W: page.W, H: page.H})
	}
	require.Contains(t, p.Summary(), "13.1 m of roll 914 in 3 strips")
}

func digests(p *grid.Plan) map[string]string {
	out := map[string]string{}
	for _, e := range p.Entries() {
		out[e.Label] = hex.EncodeToString(e.Digest[:])
	}
	return out
}

// What a page is called, by whom and in what order its lines were typed changes nothing; a line that moves changes the pages that
// show it and no other.
func TestDigest(t *testing.T) {
	base := digests(build(t, info, options(t, "A4"), quay(t, 0.25)))

	d := quay(t, 0.25)
	for i := range d.Owners {
		d.Owners[i] = "renamed_" + d.Owners[i]
	}
	for i := range d.Texts {
		if d.Texts[i].Role == drawing.Name {
			d.Texts[i].Text += " renamed"
		}
	}
	for i, j := 0, len(d.Strokes)-1; i < j; i, j = i+1, j-1 {
		d.Strokes[i], d.Strokes[j] = d.Strokes[j], d.Strokes[i]
	}
	other := info
	other.Letter, other.Date, other.Production, other.Set = "C", "2027-01-01", "Other", "Other set"
	require.Equal(t, base, digests(build(t, other, options(t, "A4"), d)))

	d = quay(t, 0.25)
	d.Texts[1].Text = "+451"
	changed := 0
	for l, x := range digests(build(t, info, options(t, "A4"), d)) {
		if base[l] != x {
			changed++
		}
	}
	require.Equal(t, 1, changed, "a word stands on one page")

	house := info
	house.Sides.PlusWord = "HOUSE RIGHT"
	for l, x := range digests(build(t, house, options(t, "A4"), quay(t, 0.25))) {
		require.NotEqual(t, base[l], x)
	}
}

func TestMarkIsForEyes(t *testing.T) {
	for _, e := range build(t, info, options(t, "A4"), quay(t, 0.25)).Entries() {
		require.Regexp(t, `^[2-9A-HJ-NP-Z]{4}$`, e.Mark)
	}
}

func TestOnlyPagesThatShow(t *testing.T) {
	all := build(t, info, options(t, "A4"), quay(t, 0.25), wall(0.3))
	opt := options(t, "A4")
	opt.Names = []string{"front"}
	some := build(t, info, opt, quay(t, 0.25), wall(0.3))
	require.Less(t, some.Count(), all.Count())
	labels := digests(all)
	for _, e := range some.Entries() {
		require.Contains(t, strings.Split(e.Element, ", "), "front")
		require.Contains(t, labels, e.Label, "the grid is the same")
	}
	opt.Names = []string{"pier"}
	_, err := grid.Build([]*drawing.Drawing{quay(t, 0.25)}, info, opt)
	require.ErrorContains(t, err, "`pier` is not drawn full size; what is: deck, front, ramp, bollard")
}

func TestErrorsSayWhatFits(t *testing.T) {
	d := []*drawing.Drawing{quay(t, 0.25)}
	for _, c := range []struct {
		paper   string
		margins float64
		lap     float64
		words   string
	}{
		{"A4", 90, 10, "margins of 75 mm or less would fit"},
		{"50x60", 10, 10, "80 mm would do"},
		{"A4", 10, 80, "63 mm or less would do"},
		{"A4", 10, -1, "0 (butt edges) or more"},
		{"A4", 10, math.NaN(), "0 (butt edges) or more"},
		{"roll 300", 140, 10, "would fit"},
		{"roll 610", 10, 400, "196 mm or less would do"},
	} {
		opt := options(t, c.paper)
		opt.Margins, opt.Lap = paper.Even(c.margins), c.lap
		_, err := grid.Build(d, info, opt)
		require.ErrorContains(t, err, c.words)
	}
	_, err := grid.Build([]*drawing.Drawing{newFloor().Drawing, nil}, info, options(t, "A4"))
	require.ErrorContains(t, err, "nothing is drawn full size")

	// A line of 14 km goes over more than 200000 sheets of A6 where it crosses them slantwise; a field of lines does at A4.
	s := newFloor()
	for i := range 400 {
		s.line(s.own("l"), drawing.Continuous, pt(-9e6, float64(i)*1000), pt(9e6, float64(i)*1000+500))
	}
	_, err = grid.Build([]*drawing.Drawing{s.Drawing}, info, options(t, "A4"))
	require.ErrorContains(t, err, "more than 200000 pages of A4")
}

// Two posts ten kilometres apart are two sheets.
func TestFarApart(t *testing.T) {
	for _, name := range []string{"A4", "roll 914"} {
		s := newFloor()
		s.cut(s.own("a"), geom.Circle(60).Transform(geom.Move(pt(-9.9e6, -9.9e6), 0)))
		s.cut(s.own("b"), geom.Circle(60).Transform(geom.Move(pt(9.9e6, 9.9e6), 0)))
		p := build(t, info, options(t, name), s.Drawing)
		require.Equal(t, 2, p.Count(), name)
		write(t, p)
	}
}

// A line longer than a track may be keeps its place and its dashes.
func TestLongLine(t *testing.T) {
	s := newFloor()
	s.line(s.own("shore"), drawing.LongDashDot, pt(-3e6, 100.3), pt(4e6, 2e5))
	opt := options(t, "2A0")
	p := build(t, info, opt, s.Drawing)
	require.Greater(t, p.Count(), 3000)
	doc := p.Document()
	entries := p.Entries()
	period := tiling.PenOf(drawing.LongDashDot, drawing.NarrowLine, drawing.Black).Period()
	var page tiling.Page
	for i := 1; i < doc.Pages; i += 131 {
		page.Reset()
		doc.Make(i, &page)
		e := entries[i-1]
		run := page.Layers[drawing.Notes].Strokes[0].Runs[0]
		q := run.Points[0].Add(pt(e.Origin[0]-10, e.Origin[1]-10))
		along := q.Sub(pt(-3e6, 100.3))
		off := math.Mod(along.Len()-run.Phase, period)
		require.Less(t, min(math.Abs(off), period-math.Abs(off)), 0.02, "page %d", i)
		dir := pt(7e6, 2e5-100.3).Unit()
		require.Less(t, math.Abs(along.Cross(dir)), 0.01)
	}
}

func TestSameBytesWithAnyWorkers(t *testing.T) {
	p := build(t, careful(), options(t, "A4"), quay(t, 0.4), wall(0.3))
	var one, four bytes.Buffer
	_, err := pdf.Write(&one, p.Document(), pdf.Options{Workers: 1})
	require.NoError(t, err)
	_, err = pdf.Write(&four, build(t, careful(), options(t, "A4"), quay(t, 0.4), wall(0.3)).Document(), pdf.Options{Workers: 4})
	require.NoError(t, err)
	require.True(t, bytes.Equal(one.Bytes(), four.Bytes()))
}

// The first page says what this is, which issue, what it takes, in what order and how to hold it, and every page says where it is.
func TestWhatPagesSay(t *testing.T) {
	reread.Need(t, "pdftotext")
	p := build(t, careful(), options(t, "A4"), quay(t, 0.25), wall(0.3))
	file := reread.Write(t, "said.pdf", write(t, p))
	cover := strings.Join(strings.Fields(reread.Text(t, file, 1)), " ")
	for _, words := range []string{"Full-size paper", "Low Tide / Quayside kiosk", "issue B, 2026-11-20", "What it takes", "In this order", "How to hold it", "not printed"} {
		require.Contains(t, cover, words)
	}
	for _, e := range p.Entries() {
		text := strings.Join(strings.Fields(reread.Text(t, file, e.Page)), " ")
		for _, words := range []string{e.Label, e.Mark, "FULL SIZE 1:1", "issue B", "2026-11-20", "Low Tide"} {
			require.Contains(t, text, words, e.Label)
		}
		if strings.Contains(e.Element, "front") || strings.Contains(e.Element, "ramp") {
			require.Contains(t, text, "competent", e.Label)
		}
	}
}
