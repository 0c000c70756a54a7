package svg_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// shapes are the shapes of a tree in the order in which they are drawn.
func shapes(nodes []artwork.Node, out []*artwork.Shape) []*artwork.Shape {
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			out = shapes(n.Nodes, out)
		case *artwork.Shape:
			out = append(out, n)
		}
	}
	return out
}

// places are many points along the paths, the same for two paths that are the same.
func places(paths []*geom.Path) (out []geom.Point) {
	for _, p := range paths {
		if p.Empty() {
			continue
		}
		length := p.Length()
		for k := range 33 {
			at, _ := p.At(length * float64(k) / 32)
			out = append(out, at)
		}
	}
	return out
}

// What is written of artwork is read back as the same shapes in the same places, within a micrometre: enlarged thirty times,
// turned, mirrored, and reduced.
func TestArtworkIsReadBack(t *testing.T) {
	frames := []artwork.Matrix{
		{A: 30, D: 30, E: 3, F: 5},
		{A: -2, D: 2, E: 1000},
		{A: 0, B: 0.1, C: -0.1, D: 0, E: 40},
	}
	compared := 0
	for _, s := range drawnSamples(t) {
		p := readArt(t, s.svg)
		for _, m := range frames {
			box := geom.EmptyRect()
			for _, c := range []geom.Point{{}, pt(p.W, 0), pt(p.W, p.H), pt(0, p.H)} {
				box = box.Include(m.Apply(c))
			}
			m := m.Then(artwork.Matrix{A: 1, D: 1, E: -box.Min.X, F: -box.Min.Y})
			w, h := box.W(), box.H()
			page := shown(p, w, h, m, geom.Rect{Max: pt(w, h)})
			back := readArt(t, []byte(write(t, page)))
			got := shapes(back.Nodes, nil)
			var want []*artwork.Shape
			for _, k := range shapes(p.Nodes, nil) {
				if artwork.Bounds(k).Overlaps(geom.Rect{Max: pt(p.W, p.H)}) {
					want = append(want, k)
				}
			}
			if len(want) != len(got) { // what lies in a group that is not seen, or draws nothing
				continue
			}
			for i := range want {
				moved := make([]*geom.Path, 0, len(want[i].Paths))
				for _, path := range want[i].Paths {
					moved = append(moved, m.Path(path))
				}
				a, b := places(moved), places(got[i].Paths)
				if len(a) != len(b) {
					continue
				}
				for k := range a {
					require.InDelta(t, 0, a[k].Dist(b[k]), 1e-3, "%s/%s, shape %d at %v", s.category, s.name, i, a[k])
				}
				compared++
				require.Equal(t, want[i].Fill == nil, got[i].Fill == nil)
				require.Equal(t, want[i].Stroke == nil, got[i].Stroke == nil)
				if w, g := want[i].Fill, got[i].Fill; w != nil && w.Gradient == nil {
					require.Equal(t, w.Colour, g.Colour)
					require.Equal(t, w.EvenOdd, g.EvenOdd)
					require.InDelta(t, w.Opacity, g.Opacity, 1e-6)
				}
				if w, g := want[i].Stroke, got[i].Stroke; w != nil {
					scale := math.Sqrt(math.Abs(m.Det()))
					require.InEpsilon(t, w.Width*scale, g.Width, 1e-6)
					require.Equal(t, w.Cap, g.Cap)
					require.Equal(t, w.Join, g.Join)
					require.Len(t, g.Dashes, len(w.Dashes))
				}
			}
		}
	}
	t.Logf("%d shapes compared", compared)
	require.Greater(t, compared, 1000)
}

// coloured is a picture in which every pixel tells its own place.
func coloured(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetNRGBA(x, y, color.NRGBA{uint8(x), uint8(y), uint8(x*3 ^ y*5), 255})
		}
	}
	return m
}

var dataLink = regexp.MustCompile(`data:image/(\w+);base64,([^"]+)`)

func embeddedIn(t *testing.T, text string) (kind string, img image.Image, bytesLong int) {
	m := dataLink.FindStringSubmatch(text)
	require.NotNil(t, m)
	data, err := base64.StdEncoding.DecodeString(m[2])
	require.NoError(t, err)
	img, format, err := image.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, m[1], format)
	return m[1], img, len(data)
}

// A page carries only its part of a PNG, every pixel of it as it was, alpha too.
func TestPartOfAPNG(t *testing.T) {
	for name, alpha := range map[string]uint8{"opaque": 255, "see-through": 90} {
		t.Run(name, func(t *testing.T) {
			whole := coloured(200, 100)
			whole.SetNRGBA(111, 51, color.NRGBA{1, 2, 3, alpha})
			var file bytes.Buffer
			require.NoError(t, png.Encode(&file, whole))
			p, _, err := artwork.ReadPixels(file.Bytes())
			require.NoError(t, err)
			// Ten millimetres a pixel; the window shows pixels 100 to 120 across and 40 to 60 down.
			page := shown(p, 200, 200, artwork.Matrix{A: 10, D: 10, E: -1000, F: -400}, box(0, 0, 200, 200))
			kind, part, _ := embeddedIn(t, write(t, page))
			require.Equal(t, "png", kind)
			require.Equal(t, image.Pt(28, 28), part.Bounds().Size(), "with a margin of 4 pixels")
			for y := range 28 {
				for x := range 28 {
					require.Equal(t, whole.At(96+x, 36+y), color.NRGBAModel.Convert(part.At(x, y)))
				}
			}
		})
	}
}

// A page carries only its part of a JPEG, with the pixels that the whole has: nothing is lost a second time. What librsvg draws of
// it is the part of the whole, upright as the file asks.
func TestPartOfAJPEG(t *testing.T) {
	var file bytes.Buffer
	require.NoError(t, jpeg.Encode(&file, coloured(256, 256), &jpeg.Options{Quality: 95}))
	decoded, err := jpeg.Decode(bytes.NewReader(file.Bytes()))
	require.NoError(t, err)
	p, _, err := artwork.ReadPixels(file.Bytes())
	require.NoError(t, err)
	page := shown(p, 64, 64, artwork.Matrix{A: 1, D: 1, E: -100, F: -60}, box(0, 0, 64, 64))
	kind, part, long := embeddedIn(t, write(t, page))
	require.Equal(t, "jpeg", kind)
	require.Less(t, long, file.Len()/4)
	// pixels 100 to 164 across; from below 60 to 124, so 132 to 196 down; with 4 around, out to blocks of 16: 96,128 to 176,208
	require.Equal(t, image.Pt(80, 80), part.Bounds().Size())
	for y := 20; y < 60; y++ {
		for x := 20; x < 60; x++ {
			require.Equal(t, decoded.At(96+x, 128+y), part.At(x, y))
		}
	}
	drawn := rasterSVG(t, []byte(write(t, page)), 64, 64)
	window := image.NewRGBA(image.Rect(0, 0, 64, 64))
	for y := range 64 {
		for x := range 64 {
			window.Set(x, y, decoded.At(100+x, 132+y))
		}
	}
	require.Less(t, unlike(drawn, window), 0.005)
}

// A window is all that is shown, and what lies outside it is not in the file.
func TestWindowCuts(t *testing.T) {
	p := readArt(t, []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">
		<rect width="40" height="40" fill="#f00"/><rect x="60" y="60" width="40" height="40" fill="#00f"/><rect x="-20" y="40" width="140" height="20" fill="#080"/></svg>`))
	page := shown(p, 100, 100, artwork.Identity(), box(10, 35, 50, 90))
	text := write(t, page)
	require.Contains(t, text, `fill="#ff0000"`)
	require.NotContains(t, text, `fill="#0000ff"`)
	img := rasterSVG(t, []byte(text), 100, 100)
	for _, c := range []struct {
		x, y int
		want color.RGBA
	}{
		{20, 20, color.RGBA{255, 0, 0, 255}}, {5, 20, color.RGBA{255, 255, 255, 255}}, {20, 5, color.RGBA{255, 255, 255, 255}},
		{45, 50, color.RGBA{0, 136, 0, 255}}, {55, 50, color.RGBA{255, 255, 255, 255}}, {80, 80, color.RGBA{255, 255, 255, 255}},
	} {
		require.Equal(t, c.want, color.RGBAModel.Convert(img.At(c.x, c.y)), "%d,%d", c.x, c.y)
	}
	require.Equal(t, text, write(t, page), "same page, same bytes")
	page.Layers[2].Shows[0].Window = geom.EmptyRect()
	require.NotContains(t, write(t, page), "clipPath")
}

// randomTree makes trees no artist would: groups in groups, shared clips, numbers of every size.
func randomTree(r *rand.Rand, depth int, clips *[]*artwork.Clip) []artwork.Node {
	number := func() float64 {
		odd := [...]float64{0, 1, 1e-9, 1e30, math.NaN(), math.Inf(1), -1e-9}
		if i := r.Intn(40); i < len(odd) {
			return odd[i]
		}
		return r.NormFloat64() * 50
	}
	place := func() geom.Point { return pt(r.NormFloat64()*1e3, r.NormFloat64()*50) } // those of a picture are numbers in reach
	path := func() []*geom.Path {
		p := geom.NewPath(place())
		for range r.Intn(6) {
			switch r.Intn(3) {
			case 0:
				p.LineTo(place())
			case 1:
				p.CubicTo(place(), place(), place())
			default:
				p.EllipseTo(place(), r.Float64()*9, r.Float64()*1e3, r.NormFloat64(), r.NormFloat64(), r.NormFloat64()*2, place())
			}
		}
		if r.Intn(2) == 0 {
			p.Close()
		}
		return []*geom.Path{p, geom.Circle(20)}
	}
	matrix := func() artwork.Matrix {
		return artwork.Matrix{A: number(), B: number(), C: number(), D: number(), E: number(), F: number()}
	}
	paint := func() artwork.Paint {
		p := artwork.Paint{Colour: artwork.Colour{R: uint8(r.Intn(256))}, Opacity: r.Float64()}
		if r.Intn(3) == 0 {
			p.Gradient = &artwork.Gradient{Radial: r.Intn(2) == 0, From: pt(number(), 0), To: pt(1, number()), R1: number(), Frame: matrix(), Stops: []artwork.Stop{{At: number()}, {At: 1, Opacity: 1}}}
		}
		return p
	}
	var clip func() *artwork.Clip
	clip = func() *artwork.Clip {
		if n := len(*clips); n > 0 && r.Intn(2) == 0 {
			return (*clips)[r.Intn(n)]
		}
		c := &artwork.Clip{Outlines: []artwork.Outline{{Paths: path()}, {Paths: path(), EvenOdd: true}}}
		if r.Intn(4) == 0 {
			c.Clip = clip()
		}
		if r.Intn(4) == 0 {
			c.Outlines[0].Clip = clip()
		}
		*clips = append(*clips, c)
		return c
	}
	var nodes []artwork.Node
	for range 1 + r.Intn(4) {
		switch k := r.Intn(6); {
		case k < 2 && depth > 0:
			g := &artwork.Group{Opacity: r.Float64(), Nodes: randomTree(r, depth-1, clips)}
			if r.Intn(2) == 0 {
				g.Clip = clip()
			}
			if r.Intn(3) == 0 {
				g.Mask = &artwork.Mask{Alpha: r.Intn(2) == 0, Nodes: randomTree(r, depth-1, clips)}
			}
			nodes = append(nodes, g)
		default:
			s := &artwork.Shape{Paths: path(), StrokeFirst: r.Intn(2) == 0}
			s.Fill = &artwork.Fill{Paint: paint()}
			if r.Intn(2) == 0 {
				s.Stroke = &artwork.Stroke{Paint: paint(), Width: number(), MiterLimit: number(), Dashes: []float64{number(), number()}, Phase: number(), Pen: matrix()}
			}
			nodes = append(nodes, s)
		}
	}
	return nodes
}

// Whatever the tree, the file is XML, says no number that is none, asks for no id that is not there and gives none twice.
func FuzzArtwork(f *testing.F) {
	for seed := range int64(60) {
		f.Add(seed, 1.0, 0.0, 10.0)
	}
	f.Add(int64(1), math.NaN(), 1e30, 0.0)
	given := regexp.MustCompile(` id="([^"]+)"`)
	asked := regexp.MustCompile(`url\(#([^)]+)\)`)
	f.Fuzz(func(t *testing.T, seed int64, a, b, e float64) {
		r := rand.New(rand.NewSource(seed))
		var clips []*artwork.Clip
		p := &artwork.Picture{W: 100, H: 80, Nodes: randomTree(r, 3, &clips)}
		page := shown(p, 210, 297, artwork.Matrix{A: a, B: b, C: -b, D: a, E: e, F: e}, box(10, 10, 200, 200))
		text := write(t, page)
		require.Equal(t, text, write(t, page))
		groups(t, text)
		for _, word := range []string{"NaN", "Inf"} {
			require.NotContains(t, text, word)
		}
		ids := map[string]bool{}
		for _, m := range given.FindAllStringSubmatch(text, -1) {
			require.False(t, ids[m[1]], m[1])
			ids[m[1]] = true
		}
		for _, m := range asked.FindAllStringSubmatch(text, -1) {
			require.True(t, ids[m[1]], m[1])
		}
		require.Equal(t, strings.Count(text, "<g"), strings.Count(text, "</g>")+strings.Count(text, "<gradient"))
	})
}
