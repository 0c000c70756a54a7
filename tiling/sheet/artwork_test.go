package sheet

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
	"markout/tiling/paper"
)

// clothSet is a set of one cloth of drawn artwork.
func clothSet(u unit.System, c set.Cloth) (*set.Set, *set.Element) {
	c.Art = &set.Artwork{File: "harbour.svg", Drawn: true, Picture: &artwork.Picture{W: 300, H: 200}}
	c.Frame = artwork.Matrix{A: c.Width / 300, D: c.Height / 200, E: -c.Width / 2}
	c.Shown = c.Finished()
	e := &set.Element{Name: "harbour", Kind: "cloth", Shape: &c}
	return &set.Set{Name: "Harbour backing", Letter: "A", Date: "2026-11-20", Units: u, Elements: []*set.Element{e}}, e
}

func artworkOn(t testing.TB, s *set.Set, e *set.Element, name string) *Book {
	t.Helper()
	p, err := paper.Parse(name)
	require.NoError(t, err)
	b, err := Artwork(s, []*set.Element{e}, ArtworkOptions{Options: Options{Paper: p, Margins: paper.Even(10)}, Squaring: true, Grid: true})
	require.NoError(t, err)
	return b
}

// Whatever the cloth's size, its grid and its allowances: every line and word of the pair lies inside the frame, and no letter, number
// or figure lies on another.
func TestArtworkSheetsKeepInsideTheirFrame(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	for n := range 40 {
		c := set.Cloth{Width: 200 + rng.Float64()*20000, Height: 200 + rng.Float64()*9000, Grid: 50 + rng.Float64()*1000}
		if rng.IntN(2) == 0 {
			c.Allow = set.Allowance{Top: rng.Float64() * 300, Bottom: rng.Float64() * 300, Left: rng.Float64() * 200, Right: rng.Float64() * 200}
		}
		u := []unit.System{unit.Millimetre, unit.Foot}[n%2]
		s, e := clothSet(u, c)
		b := artworkOn(t, s, e, []string{"A3", "A4", "Tabloid"}[n%3])
		for i, entry := range b.Entries {
			if entry.View != "squaring" && entry.View != "grid" {
				continue
			}
			var p tiling.Page
			p.Reset()
			b.Document.Make(i, &p)
			live := geom.Rect{Min: geom.Point{X: 10, Y: 10}, Max: geom.Point{X: p.W - 10, Y: p.H - 10}}.Grow(0.01)
			notes := &p.Layers[drawing.Notes]
			for _, k := range notes.Strokes {
				for _, r := range k.Runs {
					for _, q := range r.Points {
						require.True(t, live.Contains(q), "%s of %v on %s: a line at %v", entry.View, c, entry.Paper, q)
					}
				}
			}
			var boxes []geom.Rect
			for k := range notes.Texts {
				box := include(geom.EmptyRect(), notes.Texts[k].Corners())
				require.True(t, live.Contains(box.Min) && live.Contains(box.Max), "%s of %v on %s: %q", entry.View, c, entry.Paper, notes.Texts[k].Text)
				// Of the box of the ink that could be; letters have no tails.
				box = box.Grow(-0.45 * notes.Texts[k].Height / 2)
				for j, other := range boxes {
					require.False(t, box.Overlaps(other), "%s of %v on %s: %q lies on %q", entry.View, c, entry.Paper, notes.Texts[k].Text, notes.Texts[j].Text)
				}
				boxes = append(boxes, box)
			}
		}
	}
}

// The pair's scales are those at which the finished cloth measures what the register says.
func TestArtworkIsToScale(t *testing.T) {
	s, e := clothSet(unit.Foot, set.Cloth{Width: 9144, Height: 4876.8})
	b := artworkOn(t, s, e, "Tabloid")
	require.Equal(t, []string{"cover", "squaring", "grid", "table"}, []string{b.Entries[0].View, b.Entries[1].View, b.Entries[2].View, b.Entries[3].View})
	require.Equal(t, `3/8" = 1'-0"`, b.Entries[1].Scale)
	require.InDelta(t, 30*0.375*25.4, b.Entries[1].Size[0], 1e-9) // 30 feet at 3/8 inch to the foot
	show := b.Document.Shows[0]
	require.InDelta(t, 30*0.375*25.4, show.Window.W(), 1e-6)
	require.InDelta(t, 16*0.375*25.4, show.Window.H(), 1e-6)

	// The same drawing has the same digest; another grid, another.
	again := artworkOn(t, s, e, "Tabloid")
	require.Equal(t, b.Entries[2].Digest, again.Entries[2].Digest)
	_, other := clothSet(unit.Foot, set.Cloth{Width: 9144, Height: 4876.8, Grid: 609.6})
	require.NotEqual(t, b.Entries[1].Digest, artworkOn(t, s, other, "Tabloid").Entries[1].Digest)
}
