package pdf

import (
	"bytes"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/klauspost/compress/zlib"
	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

// growth makes artwork out of chance.
type growth struct {
	*rand.Rand
	clips []*artwork.Clip
	wild  float64 // a number from outside, which may be none
}

func (g *growth) length() float64 {
	if g.IntN(40) == 0 {
		return g.wild
	}
	return g.Float64()*240 - 20
}

func (g *growth) paths() []*geom.Path {
	var all []*geom.Path
	for range 1 + g.IntN(3) {
		at := func() geom.Point { return geom.Point{X: g.length(), Y: g.length()} }
		p := geom.NewPath(at())
		for range g.IntN(5) {
			switch g.IntN(3) {
			case 0:
				p.LineTo(at())
			case 1:
				p.CubicTo(at(), at(), at())
			default:
				p.EllipseTo(at(), g.Float64()*30, g.Float64()*30, g.Float64(), 0, g.Float64()*6, at())
			}
		}
		if g.IntN(2) == 0 {
			p.Close()
		}
		all = append(all, p)
	}
	return all
}

func (g *growth) matrix() artwork.Matrix {
	return artwork.Matrix{A: g.length() / 50, B: g.length() / 50, C: g.length() / 50, D: g.length() / 50, E: g.length(), F: g.length()}
}

func (g *growth) paint() artwork.Paint {
	p := artwork.Paint{Colour: artwork.Colour{R: uint8(g.Uint32()), G: uint8(g.Uint32()), B: 70}, Opacity: g.Float64()}
	if g.IntN(2) == 0 {
		return p
	}
	p.Gradient = &artwork.Gradient{
		Radial: g.IntN(2) == 0, From: geom.Point{X: g.length()}, To: geom.Point{Y: g.length()}, R1: 1 + g.Float64()*200, Frame: g.matrix(), Spread: artwork.Spread(g.IntN(3)),
	}
	at := 0.0
	for range 2 + g.IntN(3) {
		p.Gradient.Stops = append(p.Gradient.Stops, artwork.Stop{At: at, Colour: p.Colour, Opacity: g.Float64()})
		at = min(1, at+g.Float64()*0.7)
	}
	return p
}

func (g *growth) clip() *artwork.Clip {
	if len(g.clips) > 0 && g.IntN(2) == 0 {
		return g.clips[g.IntN(len(g.clips))]
	}
	c := &artwork.Clip{}
	for range 1 + g.IntN(2) {
		o := artwork.Outline{Paths: g.paths(), EvenOdd: g.IntN(2) == 0}
		if len(g.clips) > 0 && g.IntN(2) == 0 {
			o.Clip = g.clips[g.IntN(len(g.clips))]
		}
		c.Outlines = append(c.Outlines, o)
	}
	if len(g.clips) > 0 && g.IntN(2) == 0 {
		c.Clip = g.clips[len(g.clips)-1]
	}
	g.clips = append(g.clips, c)
	return c
}

func (g *growth) nodes(deep int) []artwork.Node {
	var all []artwork.Node
	for range 1 + g.IntN(4) {
		if deep > 0 && g.IntN(2) == 0 {
			n := &artwork.Group{Opacity: 1 - g.Float64()*float64(g.IntN(2)), Nodes: g.nodes(deep - 1)}
			if g.IntN(2) == 0 {
				n.Clip = g.clip()
			}
			if g.IntN(3) == 0 {
				n.Mask = &artwork.Mask{Alpha: g.IntN(2) == 0, Nodes: g.nodes(deep - 1)}
			}
			all = append(all, n)
			continue
		}
		s := &artwork.Shape{Paths: g.paths(), StrokeFirst: g.IntN(2) == 0}
		if g.IntN(3) > 0 {
			s.Fill = &artwork.Fill{Paint: g.paint(), EvenOdd: g.IntN(2) == 0}
		}
		if g.IntN(2) == 0 {
			s.Stroke = &artwork.Stroke{Paint: g.paint(), Width: g.Float64() * 9, Cap: artwork.Cap(g.IntN(3)), Join: artwork.Join(g.IntN(3)), MiterLimit: 4, Pen: artwork.Identity()}
			if g.IntN(3) == 0 {
				s.Stroke.Dashes, s.Stroke.Phase = []float64{float64(g.IntN(2)) * 8, 5}, g.Float64()*90
			}
			if g.IntN(3) == 0 {
				s.Stroke.Pen = artwork.Matrix{A: 2, C: g.Float64(), D: 0.5}
			}
		}
		all = append(all, s)
	}
	return all
}

var (
	streams  = regexp.MustCompile(`(?s)(\d+) 0 obj<<([^\n]*)/Filter/FlateDecode/Length (\d+)>>stream\n`)
	numbered = regexp.MustCompile(`^-?(\d+\.?\d*|\.\d+)$`)
)

// Whatever artwork there is, every stream of it has as many Q as q and never one too early, numbers that PDF has, and names that
// its resources have; the bytes do not depend on the number of workers.
func FuzzArtwork(f *testing.F) {
	for i := range uint64(40) {
		f.Add(i, []float64{1e7, -1e7, 300, 0, 1e-30}[i%5], 1+float64(i))
	}
	f.Fuzz(func(t *testing.T, seed uint64, wild, scale float64) {
		if math.IsNaN(wild) || math.IsInf(wild, 0) || math.Abs(wild) > 1e7 || !(math.Abs(scale) < 1e6) {
			return // the reader of artwork lets no such number through
		}
		g := &growth{Rand: rand.New(rand.NewPCG(seed, 1)), wild: wild}
		p := &artwork.Picture{W: 200, H: 200, Nodes: g.nodes(3)}
		doc := &tiling.Document{Pages: 3}
		for i := range 3 {
			doc.Shows = append(doc.Shows, &tiling.Show{Picture: p, Frame: artwork.Matrix{A: scale, B: float64(i % 2), D: scale, E: -float64(i) * 90}, Window: geom.Rect{Max: geom.Point{X: 100, Y: 100}}})
		}
		doc.Make = func(i int, page *tiling.Page) {
			page.W, page.H = 100, 100
			page.Layers[drawing.Notes].Shows = append(page.Layers[drawing.Notes].Shows, doc.Shows[i])
		}
		var a, b bytes.Buffer
		_, err := Write(&a, doc, Options{Workers: 1})
		require.NoError(t, err)
		_, err = Write(&b, doc, Options{Workers: 8})
		require.NoError(t, err)
		require.True(t, bytes.Equal(a.Bytes(), b.Bytes()))
		for _, m := range streams.FindAllSubmatchIndex(a.Bytes(), -1) {
			dict := string(a.Bytes()[m[4]:m[5]])
			length, err := strconv.Atoi(string(a.Bytes()[m[6]:m[7]]))
			require.NoError(t, err)
			z, err := zlib.NewReader(bytes.NewReader(a.Bytes()[m[1] : m[1]+length]))
			require.NoError(t, err)
			body, err := io.ReadAll(z)
			require.NoError(t, err)
			if strings.Contains(dict, "/Subtype/Form") {
				wellFormed(t, dict, string(body))
			}
		}
	})
}

func wellFormed(t *testing.T, dict, body string) {
	depth := 0
	for _, word := range strings.Fields(strings.NewReplacer("[", " ", "]", " ").Replace(body)) {
		switch {
		case word == "q":
			depth++
		case word == "Q":
			depth--
			require.GreaterOrEqual(t, depth, 0)
		case word[0] == '/' && word != "/Pattern":
			require.Contains(t, dict, word+" ")
		case word[0] == '/' || word[0] >= 'A' && word != "NaN" && word != "Inf":
		default:
			require.Regexp(t, numbered, word)
		}
	}
	require.Zero(t, depth)
	for _, word := range strings.Fields(strings.NewReplacer("[", " ", "]", " ").Replace(dict)) {
		require.NotContains(t, word, "NaN")
		require.NotContains(t, word, "Inf")
	}
}
