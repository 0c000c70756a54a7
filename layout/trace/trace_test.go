package trace

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	overlay "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

// valid holds what is true of every silhouette, with its outlines looked at by an independent library: no outline crosses
// or touches itself or another, outer ones run anticlockwise, holes clockwise and lie within.
func valid(t require.TestingT, regions []geom.Region) {
	ring := func(p *geom.Path) overlay.LineString {
		pts := p.Flatten(0.002, nil)
		var xy []float64
		for _, q := range append(pts, pts[0]) {
			xy = append(xy, q.X, q.Y)
		}
		return overlay.NewLineString(overlay.NewSequence(xy, overlay.DimXY))
	}
	var all []overlay.Polygon
	for _, r := range regions {
		require.Positive(t, r.Outer.Area())
		rings := []overlay.LineString{ring(r.Outer)}
		for _, h := range r.Holes {
			require.Negative(t, h.Area())
			rings = append(rings, ring(h))
		}
		all = append(all, overlay.NewPolygon(rings))
	}
	require.NoError(t, overlay.NewMultiPolygon(all).Validate())
}

// holds checks a silhouette of every body of a field against the field, by probing densely and independently of how the
// fit proves itself.
func holds(t require.TestingT, f *Field, tol float64) *Silhouette {
	s, err := Trace(f, Options{Tolerance: tol, All: true, Speck: -1})
	if err == ErrNothing {
		require.Empty(t, loopsOf(t, f))
		return &Silhouette{}
	}
	require.NoError(t, err)
	valid(t, s.Regions)
	require.LessOrEqual(t, hausdorff(edgesOf(t, f), flattened(s.Regions)), tol+0.003)
	return s
}

func total(regions []geom.Region) (a float64) {
	for _, r := range regions {
		a += r.Area()
	}
	return a
}

func TestShapes(t *testing.T) {
	at := func(p *geom.Path) *geom.Path { return moved(p, 260.3, 250.7) }
	sliver := geom.Polygon([]geom.Point{{X: 20, Y: 30}, {X: 480, Y: 200.4}, {X: 20, Y: 34.5}})
	letter := drawn("M100 900 L400 100 L520 100 L820 900 L700 900 L620 680 L300 680 L220 900 Z M340 570 L580 570 L460 240 Z", 40, 5)
	for _, c := range []struct {
		name  string
		paths []*geom.Path
		nodes int // at most
	}{
		{"circle", []*geom.Path{at(geom.Circle(400))}, 8},
		{"small circle", []*geom.Path{at(geom.Circle(40))}, 12},
		{"ellipse", []*geom.Path{at(geom.EllipsePath(450, 90))}, 14},
		{"square", []*geom.Path{at(geom.Rectangle(200.5, 200.5))}, 4},
		{"small square", []*geom.Path{at(geom.Rectangle(8, 8))}, 12},
		{"star", []*geom.Path{star(5, 200, 80, 250, 250)}, 15},
		{"sliver", []*geom.Path{sliver}, 400}, // its point falls into pixels of their own,
		{"letter", letter, 32},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := raster(520, 500, c.paths...)
			s := holds(t, f, 1)
			require.LessOrEqual(t, s.Nodes, c.nodes)
			if f.Area() > 2000 {
				require.InEpsilon(t, f.Area(), total(s.Regions), 0.001)
			} else {
				// Of a figure this small a thousandth is a few hundredths of a pixel along the outline, the coverage rounds off
				// as much at corners, and what is narrower than half a pixel is not in the edge line at all.
				require.InDelta(t, s.Edge, total(s.Regions), 0.03*s.Length)
			}
			holds(t, f, 0.25)
			h := hardened(f)
			require.InDelta(t, h.Area(), total(holds(t, h, 1).Regions), 0.001*h.Area()+0.05*s.Length)
		})
	}
}

// A square is a square again, its corners where they were.
func TestTrueCorners(t *testing.T) {
	for _, f := range []*Field{
		raster(300, 300, moved(geom.Rectangle(200.5, 100.5), 150.25, 150.25)),
		hardened(raster(300, 300, moved(geom.Rectangle(200, 100), 150, 150))),
	} {
		s := holds(t, f, 1)
		require.Equal(t, 4, s.Nodes)
		require.True(t, s.Regions[0].Outer.Straight())
		b := s.Regions[0].Bounds()
		require.InDelta(t, f.Area(), b.W()*b.H(), 3)
	}
}

// The staircase of a hard edge is taken for what it stands for: a slanting side is one line, a round a few curves.
func TestHardEdges(t *testing.T) {
	s := holds(t, hardened(raster(500, 400, geom.Polygon([]geom.Point{{X: 20, Y: 30}, {X: 470, Y: 97}, {X: 300, Y: 380}}))), 1)
	require.LessOrEqual(t, s.Nodes, 6)
	circle := moved(geom.Circle(400), 250.3, 250.7)
	s = holds(t, hardened(raster(500, 500, circle)), 1)
	require.LessOrEqual(t, s.Nodes, 12)
	require.Less(t, hausdorff([][]geom.Point{circle.Flatten(0.002, nil)}, flattened(s.Regions)), 0.75)
}

func TestPatterns(t *testing.T) {
	checks := &Field{w: 40, h: 40}
	for i := range 1600 {
		checks.low = append(checks.low, uint8((i/40+i)%2*255))
	}
	require.Len(t, holds(t, checks, 1).Regions, 800)
	holds(t, grid("#"), 1)
	holds(t, grid("##", "##"), 1)
	holds(t, grid("#######", "#.#.#.#", "#######"), 1)
	for seed := range uint64(2) {
		r := rand.New(rand.NewPCG(seed, 7))
		noise := &Field{w: 50, h: 40, low: make([]uint8, 2000)}
		for i := range noise.low {
			noise.low[i] = uint8(r.IntN(256))
		}
		holds(t, noise, 1)
		holds(t, noise, 0.3)
	}
}

func TestSilhouettes(t *testing.T) {
	for _, c := range shapes {
		t.Run(c.name, func(t *testing.T) {
			paths, f := c.picture()
			for _, p := range paths {
				_, _, at, crosses := p.SelfCrossing()
				require.False(t, crosses, at)
			}
			s := holds(t, f, 1)
			lines := flattened(s.Regions)
			require.Len(t, lines, c.rings)
			require.InEpsilon(t, f.Area(), total(s.Regions), 0.001)
			drawn, truth := 0, [][]geom.Point{}
			for _, p := range paths {
				truth = append(truth, p.Flatten(0.002, nil))
				drawn += p.Len()
			}
			// A drawing with many corners needs as many nodes.
			require.LessOrEqual(t, float64(s.Nodes), max(c.nodes*s.Length/100, 1.4*float64(drawn)))
			// The points of feathers narrower than half a pixel are not in the coverage.
			require.Less(t, hausdorff(truth, lines), 3.0)
			out, back := runsNear{}, runsNear{}
			for _, p := range truth {
				out.add(p)
			}
			for _, p := range lines {
				back.add(p)
			}
			require.Less(t, out.furthest(lines...), 1.0, "what is traced is on the edge drawn")
			t.Logf("%d nodes, %.2f per 100 px (drawn with %d), edge line %.3f px, edge drawn %.3f px from the outline, area %+.4f %%",
				s.Nodes, 100*float64(s.Nodes)/s.Length, drawn, hausdorff(edgesOf(t, f), lines), out.furthest(lines...),
				100*(total(s.Regions)/f.Area()-1))
		})
	}
}

func TestBodiesAndSpecks(t *testing.T) {
	f := grid(
		"..............",
		".######....#..",
		".#....#.......",
		".#.##.#..###..",
		".#.##.#..###..",
		".#....#..###..",
		".######.......",
		"..............")
	all, err := Trace(f, Options{All: true, Speck: 2})
	require.NoError(t, err)
	require.Len(t, all.Regions, 3)
	require.Len(t, all.Regions[0].Holes, 1)
	require.Equal(t, 1, all.Specks)
	one, err := Trace(f, Options{Speck: 2})
	require.NoError(t, err)
	require.Len(t, one.Regions, 1)
	require.Len(t, one.Regions[0].Holes, 1)
	require.Equal(t, 2, one.Others)
	_, err = Trace(f, Options{Speck: 1000})
	require.ErrorIs(t, err, ErrNothing)
	for _, bad := range []float64{-1, 0.05, math.NaN(), math.Inf(1)} {
		_, err = Trace(f, Options{Tolerance: bad})
		require.Error(t, err)
	}
}

func TestSameFieldSameOutline(t *testing.T) {
	_, f := shapes[2].picture()
	first := ""
	for range 2 {
		s, err := Trace(f, Options{})
		require.NoError(t, err)
		got := fmt.Sprint(s.Regions[0].Outer.Vertices(), s.Regions[0].Outer.Area())
		if first == "" {
			first = got
		}
		require.Equal(t, first, got)
	}
}

func FuzzTrace(f *testing.F) {
	f.Add(uint8(3), []byte{255, 0, 255, 0, 255, 0, 128, 127, 3}, false)
	f.Add(uint8(9), []byte("some text taken for grey levels, which is as good as noise"), true)
	f.Fuzz(func(t *testing.T, w uint8, data []byte, hard bool) {
		width := int(w%32) + 1
		height := min(len(data)/width, 32)
		if height == 0 {
			return
		}
		field, err := NewField8(width, height, data[:width*height])
		require.NoError(t, err)
		if hard {
			field = hardened(field)
		}
		holds(t, field, 1)
	})
}

func BenchmarkTrace(b *testing.B) {
	for _, c := range shapes {
		_, f := c.picture()
		for name, g := range map[string]*Field{"antialiased": f, "hard": hardened(f)} {
			b.Run(c.name+"/"+name, func(b *testing.B) {
				for range b.N {
					if _, err := Trace(g, Options{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
