package enlarge_test

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/diag"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// pixelCloth is a picture of w × h pixels on a cloth of the given size.
func pixelCloth(t testing.TB, w, h int, width, height float64) *set.Cloth {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	p, _, err := artwork.ReadPixels(b.Bytes())
	require.NoError(t, err)
	c := &set.Cloth{Art: &set.Artwork{Picture: p}, Width: width, Height: height}
	c.Frame = artwork.Matrix{A: width / float64(w), D: height / float64(h), E: -width / 2}
	c.Shown = c.Finished()
	return c
}

// One minute of arc is 0.000290888 rad; pixels per inch are 3438 over the distance in inches (exactly 3437.7467): 24 in is 143
// ppi, and 300 ppi is 11.46 in (pixelcraft.photo.blog, visual perception). 8732 over centimetres: 1 m 87 ppi, 3 m 29, 5 m 18,
// 10 m 9 (a photographer's page on resolution and viewing angle). Pitches worked by hand: 3 m 0.87266 mm, 10 m 2.90888 mm.
func TestPixelsOnTheWall(t *testing.T) {
	for _, c := range []struct{ ppi, metres float64 }{{29, 3}, {18, 5}, {9, 10}, {87, 1}} {
		f := enlarge.Of(pixelCloth(t, 100, 50, 100*25.4/c.ppi, 50*25.4/c.ppi), unit.Millimetre)
		require.InDelta(t, c.ppi, f.PerInchX, 1e-9)
		require.InEpsilon(t, c.metres*1000, f.Distance, 0.04, "published to two figures") // 9 for 8.732
	}
	f := enlarge.Of(pixelCloth(t, 1000, 500, 872.66, 436.33), unit.Millimetre)
	require.InDelta(t, 3000, f.Distance, 0.1)
	require.Contains(t, f.Words[2], "about 3 m away")
	require.Contains(t, enlarge.Of(pixelCloth(t, 1000, 500, 872.66, 436.33), unit.Foot).Words[2], "about 10 ft away") // 3000 / 304.8 = 9.84
	uneven := enlarge.Of(pixelCloth(t, 100, 100, 200, 400), unit.Millimetre)
	require.InDelta(t, 12.7, uneven.PerInchX, 1e-9)
	require.InDelta(t, 6.35, uneven.PerInchY, 1e-9)
	require.InDelta(t, 4, uneven.Pitch, 1e-9, "the coarser way counts")
	require.Equal(t, 1, uneven.Stored)
}

func TestGridLines(t *testing.T) {
	c := &set.Cloth{Width: 2600, Height: 1600}
	across, up := enlarge.Lines(c, 500)
	require.Len(t, across, 5)
	require.Equal(t, enlarge.Line{Label: "A", At: -1000}, across[0])
	require.Equal(t, enlarge.Line{Label: "C", At: 0, Centre: true}, across[2])
	require.Len(t, up, 4)
	require.Equal(t, enlarge.Line{Label: "3", At: 1500}, up[3])
	require.InDelta(t, 5*1600+4*2600, enlarge.Snapped(c, 500), 1e-9)
	// 30 feet by 16 in squares of a foot: 31 upright lines, 17 level ones.
	big := &set.Cloth{Width: 9144, Height: 4876.8}
	across, up = enlarge.Lines(big, enlarge.GridStep(big, unit.Foot))
	require.Len(t, across, 31)
	require.Len(t, up, 17)
	require.Equal(t, "AJ", across[30].Label)
	require.Equal(t, 500.0, enlarge.GridStep(&set.Cloth{Width: 9000, Height: 2000}, unit.Millimetre))
	require.Equal(t, 100.0, enlarge.GridStep(&set.Cloth{Width: 900, Height: 500}, unit.Millimetre))
	require.Equal(t, 30.0, enlarge.GridStep(&set.Cloth{Width: 900, Height: 500, Grid: 30}, unit.Millimetre))
	seen := map[string]bool{}
	for _, l := range across {
		require.False(t, seen[l.Label] || strings.ContainsAny(l.Label, "IOLR"), "figures, and the sides of the centre line")
		seen[l.Label] = true
	}
}

func drawnCloth(t testing.TB, body string) *set.Cloth {
	t.Helper()
	list := &diag.List{Sources: &diag.Sources{}}
	p, ok := artwork.ReadSVG(list, list.Sources.Add("x.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">`+body+`</svg>`)))
	require.True(t, ok)
	c := &set.Cloth{Art: &set.Artwork{Picture: p, Drawn: true}, Width: 2000, Height: 1000, Frame: artwork.Matrix{A: 10, D: 10, E: -1000}}
	c.Shown = c.Finished()
	return c
}

// Every corner has a dot within its radius, every place of a line one within half the spacing (along the line; a bend only brings
// it nearer) plus what a dot that does for another may lie off, and no dot lies off the lines.
func TestDotsFollowTheLines(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 25 {
		p := geom.NewPath(geom.Point{X: rng.Float64() * 1000, Y: rng.Float64() * 1000})
		for range 2 + rng.IntN(6) {
			q := geom.Point{X: rng.Float64() * 1000, Y: rng.Float64() * 1000}
			if rng.IntN(2) == 0 {
				p.LineTo(q)
			} else {
				p.CubicTo(geom.Point{X: rng.Float64() * 1000, Y: rng.Float64() * 1000}, geom.Point{X: rng.Float64() * 1000, Y: rng.Float64() * 1000}, q)
			}
		}
		const spacing = 20
		dots := enlarge.Dots([]*geom.Path{p}, spacing)
		nearest := func(q geom.Point) float64 {
			d := math.Inf(1)
			for _, o := range dots {
				d = min(d, q.Dist(o))
			}
			return d
		}
		require.LessOrEqual(t, nearest(p.Start()), 0.5)
		for i, s := range p.Segments() {
			if i+1 == p.Len() || math.Abs(turn(s.Tangent(1), p.Segment(i+1).Tangent(0))) > 21*math.Pi/180 {
				require.LessOrEqual(t, nearest(s.To), 0.5, "a corner")
			}
		}
		r := geom.NewRuler(p)
		var line []geom.Point
		for d := 0.0; d < r.Length(); d += 1 {
			at, _ := r.At(d)
			line = append(line, at)
			require.LessOrEqual(t, nearest(at), spacing/2+spacing/4+1e-6)
		}
		line = append(line, p.Segment(p.Len()-1).To)
		for _, o := range dots {
			off := math.Inf(1)
			for _, q := range line {
				off = min(off, o.Dist(q))
			}
			require.LessOrEqual(t, off, 0.51, "off the line")
		}
	}
}

func turn(a, b geom.Point) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// Walking along a line from dot to dot, no step is longer than the spacing, also where other lines' dots do for its own.
func TestDotsLeaveNoGap(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 25 {
		var paths []*geom.Path
		for range 12 { // straight lines that cross and nearly touch
			p := geom.NewPath(geom.Point{X: rng.Float64() * 200, Y: rng.Float64() * 200})
			p.LineTo(geom.Point{X: rng.Float64() * 200, Y: rng.Float64() * 200})
			paths = append(paths, p)
		}
		const spacing = 20
		dots := enlarge.Dots(paths, spacing)
		for _, p := range paths {
			// From each dot that does for the line a next one further along it is in reach, to its end.
			a, b := p.Start(), p.Segment(0).To
			u := b.Sub(a).Unit()
			reached := map[int]bool{}
			var queue []int
			for i, o := range dots {
				if o.Dist(a) <= 0.5 {
					queue, reached[i] = append(queue, i), true
				}
			}
			done := false
			for len(queue) > 0 && !done {
				i := queue[0]
				queue = queue[1:]
				done = dots[i].Dist(b) <= 0.5
				for k, o := range dots {
					if v := o.Sub(a); !reached[k] && o.Dist(dots[i]) <= spacing+1e-6 && math.Abs(v.Cross(u)) <= spacing/4.0+1e-6 {
						queue, reached[k] = append(queue, k), true
					}
				}
			}
			require.True(t, done, "from one end of the line to the other")
		}
	}
}

func TestDotsOfOneLineTwice(t *testing.T) {
	square := geom.Rectangle(100, 100)
	require.Len(t, enlarge.Dots([]*geom.Path{square}, 25), 16)
	require.Len(t, enlarge.Dots([]*geom.Path{square, square}, 25), 16, "a line drawn twice is dotted once")
}

func TestPounceKeepsToWhatShows(t *testing.T) {
	c := drawnCloth(t, `<clipPath id="c"><rect x="0" y="0" width="100" height="100"/></clipPath><g clip-path="url(#c)"><circle cx="100" cy="50" r="40"/></g>`)
	dots, err := enlarge.Pounce(c, 30)
	require.NoError(t, err)
	require.NotEmpty(t, dots)
	for _, d := range dots {
		require.LessOrEqual(t, d.X, 1e-6, "the right half is cut off")
		require.InDelta(t, 400, d.Dist(geom.Point{Y: 500}), 0.1)
	}
	lines, err := enlarge.Outlines(c)
	require.NoError(t, err)
	require.Len(t, lines, 1)
}

// Pythagoras by hand: 9 by 5 m is 10.2956 m across; 4.5 by 5 m is 6.7268 m. In the corner of its centre line find room 3.6 along
// and 4.8 up, 6 m between; in one of 30 by 16 feet 12 along, 16 up and 20 between.
func TestSquare(t *testing.T) {
	q := enlarge.SquareOf(&set.Cloth{Width: 9000, Height: 5000}, unit.Millimetre)
	require.InDelta(t, 10295.63, q.Diagonal, 0.01)
	require.InDelta(t, 6726.81, q.Half, 0.01)
	require.InDeltaSlice(t, []float64{3600, 4800, 6000}, []float64{q.Along, q.Up, q.Between}, 1e-9)
	q = enlarge.SquareOf(&set.Cloth{Width: 30 * 304.8, Height: 16 * 304.8}, unit.Foot)
	require.InDeltaSlice(t, []float64{12 * 304.8, 16 * 304.8, 20 * 304.8}, []float64{q.Along, q.Up, q.Between}, 1e-6)
	q = enlarge.SquareOf(&set.Cloth{Width: 200, Height: 200}, unit.Millimetre)
	require.Zero(t, q.Between)
}

// Every line of the list stands where its distance says, and none leaves the cloth.
func TestSnapList(t *testing.T) {
	c := &set.Cloth{Width: 2600, Height: 1600, Fine: []set.FineGrid{{Step: 100, Over: geom.Rect{Min: geom.Point{X: -300, Y: 200}, Max: geom.Point{X: 300, Y: 600}}}}}
	tab := enlarge.Snaps("harbour", c, 500, unit.Millimetre)
	require.Len(t, tab.Rows, 4+5+4+7+5, "edges, lines, finer lines")
	require.Equal(t, "1300 L", tab.ForPeople(tab.Columns[3], tab.Rows[0][3]))
	require.Equal(t, "1000 L", tab.ForPeople(tab.Columns[3], tab.Rows[4][3]))
	for _, r := range tab.Rows {
		require.NotEqual(t, r[3].Set, r[4].Set, "an upright line has its distance to a side, a level one its height")
		require.LessOrEqual(t, math.Abs(r[3].X), 1300.0)
		require.LessOrEqual(t, r[4].X, 1600.0)
	}
	require.Equal(t, "5 upright and 4 level lines and the finer ones, 24 m of snapped line", enlarge.SnapWords(c, 500, unit.Millimetre))
	// By hand: 5 × 1.6 + 4 × 2.6 + 7 × 0.4 + 5 × 0.6 = 24.2 m.
	require.InDelta(t, 24200, enlarge.Snapped(c, 500), 1e-6)
}
