package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/render/reread"
	"markout/tiling/paper"
)

var filingA3 = Options{Paper: paper.Paper{Name: "A3", W: 297, H: 420}, Margins: paper.Margins{Left: 20, Right: 10, Bottom: 10, Top: 10}}

// flatOf is a set of one flat.
func flatOf(f *set.Flat, u unit.System) *set.Set {
	return &set.Set{Name: "Net loft", Production: "Low Tide", Letter: "A", Date: "2026-11-20", Units: u, Sides: "stage",
		Elements: []*set.Element{{Name: "wall", Kind: "flat", Copies: at(0, 0, 0, 0), Shape: f}}}
}

func viewsOf(s *set.Set, behind bool) (out []view.Elevation) {
	for _, e := range s.Elements {
		out = append(out, view.Elevations(s, e, behind)...)
	}
	return out
}

// Printed parts add up to the printed overall, to the last step, in millimetres and in feet and inches, whatever the flat.
func TestElevationChainsClose(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 5))
	for range 400 {
		f := &set.Flat{Height: 2400 + 1200*r.Float64(), Thickness: 18, FaceLeft: r.IntN(2) == 0}
		x := 0.0
		for range 1 + r.IntN(4) {
			o := set.Opening{Word: "door", At: x + 600 + 900*r.Float64(), Width: 600 + 900*r.Float64(), Height: 1900 + 300*r.Float64()}
			x = o.At + o.Width
			f.Openings = append(f.Openings, o)
		}
		f.Length = x + 600 + 900*r.Float64()
		for _, u := range []unit.System{unit.Millimetre, unit.Foot} {
			m := measureIn(u)
			for _, v := range viewsOf(flatOf(f, u), r.IntN(2) == 0) {
				d := &v.Dimensions[0]
				c := projection{scale: 10}.dimension(d, m)
				require.Zero(t, c.unsaid)
				require.Len(t, c.texts, len(d.Points))
				sum := 0.0
				for _, q := range c.texts[:len(c.texts)-1] {
					sum += read(t, q.Text, u)
				}
				all := read(t, c.texts[len(c.texts)-1].Text, u)
				require.InDelta(t, all, sum, 1e-6)
				require.InDelta(t, f.Length, all, m.step/2+1e-9)
			}
		}
	}
}

// extentOf is the box of what a page shows of pieces, as MuPDF reads it.
func extentOf(p reread.Page, layer string, width float64) reread.Box {
	return p.Extent(layer, func(q reread.Path) bool { return !q.Filled && math.Abs(q.Width-width) < 0.01 })
}

// Read back by another program, a flat and its openings are as large on paper as the scale in the title block says, within 0.1 mm, and so
// are the rises and goings of a flight.
func TestElevationMeasuresTrueOnPaper(t *testing.T) {
	s := flatOf(&set.Flat{Length: 7315.2, Height: 2743.2, Openings: []set.Opening{{Word: "door", At: 762, Width: 863.6, Height: 2032}}}, unit.Millimetre)
	s.Elements = append(s.Elements, &set.Element{Name: "up", Kind: "steps", Copies: at(0, 0, 0, 0), Shape: &set.Steps{
		Rises: []float64{150, 160, 170}, Goings: []float64{300, 320}, Widths: []float64{900}, Shifts: []float64{0}, Tread: 18, Blocks: true, Lid: 18}})
	for _, behind := range []bool{false, true} {
		b, err := Elevations(s, viewsOf(s, behind), nil, filingA3)
		require.NoError(t, err)
		name := written(t, b)
		reread.Check(t, name)
		pages := reread.Trace(t, name, "1-N")
		require.Len(t, pages, 4)
		n := func(i int) float64 {
			for _, sc := range metricScales {
				if sc.text == b.Entries[i].Scale {
					return sc.n
				}
			}
			return 0
		}
		wall := extentOf(pages[1], "cut", 0.5)
		require.InDelta(t, 7315.2/n(1), wall.W(), 0.1)
		require.InDelta(t, 2743.2/n(1), wall.H(), 0.1)
		var door bool
		for _, p := range pages[1].Paths {
			for _, q := range p.Subs {
				lo, hi := q.Points[0], q.Points[0]
				for _, k := range q.Points {
					lo.X, lo.Y, hi.X, hi.Y = min(lo.X, k.X), min(lo.Y, k.Y), max(hi.X, k.X), max(hi.Y, k.Y)
				}
				x := lo.X - wall.Min.X
				if behind {
					x = wall.Max.X - hi.X
				}
				door = door || math.Abs(hi.X-lo.X-863.6/n(1)) < 0.1 && math.Abs(hi.Y-lo.Y-2032/n(1)) < 0.1 && math.Abs(x-762/n(1)) < 0.1
			}
		}
		require.True(t, door, "no door of its size at its place")
		side := extentOf(pages[3], "cut", 0.5)
		require.InDelta(t, 620/n(3), side.W(), 0.1)
	}
}

// The largest scale that fits is chosen, in each system its own: at the next larger one the piece alone is wider than A3.
func TestElevationScales(t *testing.T) {
	for _, c := range []struct {
		u    unit.System
		long float64
		want string
	}{
		{unit.Millimetre, 200, "1:1"}, {unit.Millimetre, 1200, "1:5"}, {unit.Millimetre, 6000, "1:20"}, {unit.Millimetre, 30000, "1:100"},
		{unit.Foot, 4 * 304.8, `1" = 1'-0"`}, {unit.Foot, 24 * 304.8, `1/2" = 1'-0"`}, {unit.Foot, 50 * 304.8, `1/4" = 1'-0"`},
	} {
		s := flatOf(&set.Flat{Length: c.long, Height: c.long / 3}, c.u)
		b, err := Elevations(s, viewsOf(s, false), nil, filingA3)
		require.NoError(t, err)
		require.Equal(t, c.want, b.Entries[1].Scale, "%v", c.long)
	}
}

// Cautions of a piece stand on its own sheet with the line that defers, and on no other's.
func TestElevationCautions(t *testing.T) {
	s := flatOf(&set.Flat{Length: 3000, Height: 2400}, unit.Millimetre)
	s.Elements = append(s.Elements, &set.Element{Name: "ramp", Kind: "ramp", Copies: at(0, 0, 0, 0), Shape: &set.Ramp{Length: 3600, Rise: 450, Width: 1200}})
	b, err := Elevations(s, viewsOf(s, false), []caution.Caution{{Code: "RAMP-SLOPE", Element: "ramp", Message: "steep", Figure: "1:8"}}, filingA3)
	require.NoError(t, err)
	require.Equal(t, "cautions", b.Entries[len(b.Entries)-1].Label)
	name := written(t, b)
	for i, want := range []bool{true, false, true, true, true} {
		got := reread.Text(t, name, i+1)
		if want {
			require.Contains(t, got, "For information only", "page %d", i+1)
		} else {
			require.NotContains(t, got, "For information only", "page %d", i+1)
		}
		require.NotContains(t, got, "safe")
	}
}

// Words of an opening that comes down to the floor stand in it.
func TestOpeningWordsStandInTheOpening(t *testing.T) {
	s := flatOf(&set.Flat{Length: 4000, Height: 3000, Openings: []set.Opening{{Word: "door", At: 1000, Width: 1200, Height: 2100, Hinge: "left", Opens: "up"}}}, unit.Millimetre)
	v := viewsOf(s, false)[0]
	frames, err := framesOf(filingA3)
	require.NoError(t, err)
	l := &planner{set: s, plan: v.Drawing, what: v.Title, figures: measureIn(s.Units), notes: func(bool) []string { return nil }}
	p, err := l.lay(frames)
	require.NoError(t, err)
	lo, hi := p.at.to(s.Elements[0].Shape.(*set.Flat).Openings[0].Path().Bounds().Min), p.at.to(s.Elements[0].Shape.(*set.Flat).Openings[0].Path().Bounds().Max)
	found := 0
	for _, q := range p.page.Layers[drawing.Notes].Texts {
		if q.Text == "door" || q.Text == "1200 x 2100" || q.Text == "head +2100" || q.Text == "hinge left" || q.Text == "opens up on plan" {
			found++
			for _, k := range q.Corners() {
				require.True(t, k.X > lo.X && k.X < hi.X && k.Y > lo.Y && k.Y < hi.Y, q.Text)
			}
		}
	}
	require.Equal(t, 5, found)
}
