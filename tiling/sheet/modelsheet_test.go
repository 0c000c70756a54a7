package sheet

import (
	"math"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/tiling"
)

// laidModel is a model and its sheets as they are drawn.
type laidModel struct {
	*CardModel
	cuts []*tiling.CutSheet
}

var modelsOnce sync.Once
var modelsLaid map[string]laidModel

// models are laid on paper and on boards, in millimetres and in feet, folded, rolled and butted; once for all tests.
func models(t testing.TB) map[string]laidModel {
	modelsOnce.Do(func() { modelsLaid = layModels(t) })
	require.NotEmpty(t, modelsLaid)
	return modelsLaid
}

func layModels(t testing.TB) map[string]laidModel {
	out := map[string]laidModel{}
	for name, c := range map[string]struct {
		s      *set.Set
		dev    develop.Options
		paper  string
		margin float64
		board  Board
	}{
		"kiosk":           {s: sample(t, "kiosk"), paper: "A4", margin: 10},
		"crates":          {s: sample(t, "crates"), paper: "A4", margin: 10},
		"backing":         {s: sample(t, "backing"), paper: "Tabloid", margin: 10},
		"folded":          {s: openText(t, folded), paper: "A3", margin: 4},
		"folded, outside": {s: openText(t, folded), dev: develop.Options{PrintOutside: true}, paper: "A4", margin: 10},
		"kiosk mock-up":   {s: sample(t, "kiosk"), dev: develop.Options{Scale: 1, Card: 5}, paper: "A4", margin: 10, board: Board{Name: "2440x1220", W: 2440, H: 1220}},
		"crates on a roll": {s: sample(t, "crates"), dev: develop.Options{Scale: 5, Card: 3}, paper: "A4", margin: 10,
			board: Board{Name: "roll 1000", H: 1000, Roll: true}},
	} {
		opt := onPaper(t, c.s, c.paper, c.margin)
		opt.Board = c.board
		m := laidOut(t, c.s, c.dev, opt)
		out[name] = laidModel{m, m.CutSheets()}
	}
	return out
}

// segments are all straight runs that a path is drawn with.
func segments(paths []*geom.Path) [][2]geom.Point {
	var out [][2]geom.Point
	for _, p := range paths {
		ps := p.Flatten(tiling.Flatness, nil)
		for i := 1; i < len(ps); i++ {
			out = append(out, [2]geom.Point{ps[i-1], ps[i]})
		}
		if p.Closed() {
			out = append(out, [2]geom.Point{ps[len(ps)-1], ps[0]})
		}
	}
	return out
}

// crosses reports whether a segment comes into a convex quadrilateral, by clipping it against the four sides.
func crosses(a, b geom.Point, q [4]geom.Point) bool {
	t0, t1 := 0.0, 1.0
	for i := range q {
		u := q[(i+1)%4].Sub(q[i])
		da, db := u.Cross(a.Sub(q[i])), u.Cross(b.Sub(q[i]))
		switch {
		case da < 0 && db < 0:
			return false
		case da < 0:
			t0 = max(t0, da/(da-db))
		case db < 0:
			t1 = min(t1, da/(da-db))
		}
	}
	return t0 < t1
}

// capitals is the box that a text's capitals fill, a little smaller.
func capitals(x *tiling.Text) [4]geom.Point {
	c := x.Corners()
	s, co := geom.SincosDeg(x.Turn)
	up := geom.Point{X: -s, Y: co}
	low, high := x.At.Add(up.Mul(0.05*x.Height)), x.At.Add(up.Mul(0.95*x.Height))
	w := c[1].Sub(c[0])
	return [4]geom.Point{low, low.Add(w), high.Add(w), high}
}

// A person who cuts tonight reads every word: none is under 1.8 mm (the least of ISO 3098), none is crossed by a line that is
// cut or folded, none lies over another, and what belongs to a piece that holds its number lies in that piece.
func TestModelLetteringCanBeRead(t *testing.T) {
	for name, c := range models(t) {
		t.Run(name, func(t *testing.T) {
			for i, cut := range c.cuts {
				var lines [][2]geom.Point
				for k := range cut.Pieces {
					p := &cut.Pieces[k]
					lines = append(lines, segments(p.Cut)...)
					for _, f := range p.Folds {
						lines = append(lines, segments([]*geom.Path{f.Path})...)
					}
				}
				texts := append([]tiling.Text{}, cut.Notes.Texts...)
				texts = append(texts, cut.Registration.Texts...)
				for k := range cut.Pieces {
					p := &cut.Pieces[k]
					if c.Sheets[i].Places[k].note == nil {
						area := c.Model.Pieces[c.Sheets[i].Places[k].Piece].Outline.Transform(c.Sheets[i].Places[k].move())
						for _, x := range slices.Concat(p.Notes.Texts, p.Named.Texts) {
							for _, q := range capitals(&x) {
								require.True(t, area.Contains(q), "sheet %d: %q of %s is not on it", i+1, x.Text, p.Name)
							}
						}
					}
					texts = append(texts, slices.Concat(p.Notes.Texts, p.Named.Texts)...)
				}
				require.NotEmpty(t, texts)
				page := geom.Rect{Max: geom.Point{X: cut.W, Y: cut.H}}
				for k := range texts {
					x := &texts[k]
					require.GreaterOrEqual(t, x.Height, 1.8, x.Text)
					require.NotContains(t, x.Text, "safe")
					box := capitals(x)
					for _, q := range box {
						require.True(t, page.Contains(q), "sheet %d: %q leaves it", i+1, x.Text)
					}
					bounds := include(geom.EmptyRect(), box)
					for _, l := range lines {
						if bounds.Overlaps(geom.EmptyRect().Include(l[0]).Include(l[1])) {
							require.False(t, crosses(l[0], l[1], box), "sheet %d: a line at %v crosses %q", i+1, l, x.Text)
						}
					}
					for n := range k {
						other := capitals(&texts[n])
						if !bounds.Overlaps(include(geom.EmptyRect(), other)) {
							continue
						}
						for e := range other {
							require.False(t, crosses(other[e], other[(e+1)%4], box), "sheet %d: %q over %q", i+1, x.Text, texts[n].Text)
						}
					}
				}
			}
		})
	}
}

// Every piece says its number where it is cut, and every joint of the model stands on both of its pieces or in the list beside them.
func TestModelSaysItsJoints(t *testing.T) {
	for name, c := range models(t) {
		for i, cut := range c.cuts {
			for k := range cut.Pieces {
				p := &cut.Pieces[k]
				said := ""
				for _, x := range slices.Concat(p.Notes.Texts, p.Named.Texts, cut.Notes.Texts) {
					said += x.Text + "\n"
				}
				require.Contains(t, said, p.Name, "%s, sheet %d", name, i+1)
				for _, j := range c.jointsAt[c.Sheets[i].Places[k].Piece] {
					require.Contains(t, said, c.Model.Joints[j.joint].Label(), "%s, sheet %d, %s", name, i+1, p.Name)
				}
			}
		}
	}
}

// Pieces lie within their sheet and none on another, by the overlay library.
func TestModelPiecesLieApart(t *testing.T) {
	for name, c := range models(t) {
		for i := range c.Sheets {
			s := &c.Sheets[i]
			var regions []geom.Region
			for _, l := range s.Places {
				r := c.Model.Pieces[l.Piece].Outline.Transform(l.move())
				b := r.Bounds()
				edge := s.Area.Grow(1e-6)
				require.True(t, edge.Contains(b.Min) && edge.Contains(b.Max), "%s, sheet %d: %s leaves its area", name, i+1, c.Model.Pieces[l.Piece].Label())
				for _, q := range regions {
					if !q.Bounds().Overlaps(b) {
						continue
					}
					both, err := geom.Intersect([]geom.Region{q}, []geom.Region{r}, 0.005)
					require.NoError(t, err)
					for _, x := range both {
						require.Less(t, x.Area(), 0.01, "%s, sheet %d", name, i+1)
					}
				}
				regions = append(regions, r)
			}
		}
	}
}

// The contract's figures lay each piece's own box where the sheet shows it: turned about its own 0,0, which lies at x, y.
func TestModelTable(t *testing.T) {
	s := sample(t, "kiosk")
	c := laidOut(t, s, develop.Options{}, onPaper(t, s, "A4", 4))
	tab := c.Table()
	require.Len(t, tab.Rows, len(c.Model.Pieces)+4+1) // a man, a woman, a child and one who sits; the base sheet
	require.Len(t, c.people, 4)
	base := tab.Rows[len(tab.Rows)-1]
	require.Equal(t, []string{"base", "base", "base"}, []string{base[0].Text, base[1].Text, base[6].Text})
	for _, row := range tab.Rows[len(c.Model.Pieces) : len(tab.Rows)-1] {
		require.Equal(t, "people", row[1].Text)
		require.Equal(t, "detail 0.3", row[2].Text)
		require.Equal(t, BaseSheet, row[6].Text)
	}
	cuts := c.CutSheets()
	area, deck := 0.0, tab.Rows[0]
	for _, k := range cutPaths(cuts, "deck-1/9")[1:] {
		area += math.Abs(k.Area())
	}
	require.Equal(t, "deck-1/9", deck[0].Text)
	require.InDelta(t, 192, deck[3].X, 1e-9) // 4800/25
	require.InDelta(t, 192, deck[4].X, 1e-9)
	require.InDelta(t, 192*192*2*(math.Sqrt2-1)-area, deck[5].X, 1e-6) // an octagon, less its openings
	for i, row := range tab.Rows[:len(c.Model.Pieces)] {
		p := &c.Model.Pieces[i]
		place := geom.Move(geom.Point{X: row[7].X, Y: row[8].X}, row[9].X)
		box := geom.Polygon(tiling.Box(geom.Rect{Max: geom.Point{X: row[3].X, Y: row[4].X}})).Transform(place).Bounds()
		shown := geom.EmptyRect()
		for _, q := range cutPaths(cuts, p.Label()) {
			shown = shown.Union(q.Bounds())
		}
		if math.Mod(row[9].X, 90) == 0 {
			require.InDelta(t, shown.Min.X, box.Min.X, 1e-6, p.Label())
			require.InDelta(t, shown.Max.Y, box.Max.Y, 1e-6, p.Label())
		}
	}
}

// cutPaths returns the lines that are cut of a piece.
func cutPaths(sheets []*tiling.CutSheet, name string) []*geom.Path {
	for _, s := range sheets {
		for _, p := range s.Pieces {
			if p.Name == name {
				return p.Cut
			}
		}
	}
	return nil
}
