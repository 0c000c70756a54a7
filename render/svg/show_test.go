package svg_test

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/diag"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/reread"
	"markout/tiling"
)

var everySample = flag.Bool("artwork.all", false, "compare every sample of artwork")

// drawnSample is a picture of layout/artwork's edge cases and, where librsvg reads it otherwise than SVG's text has it, the same
// by plainer means.
type drawnSample struct {
	category, name string
	svg, plain     []byte
}

var ownRoot = regexp.MustCompile(`<svg[^>]*\sxmlns=`)

func drawnSamples(t testing.TB) []drawnSample {
	files, err := filepath.Glob("../../layout/artwork/testdata/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all []drawnSample
	for _, f := range files {
		a, err := txtar.ParseFile(f)
		require.NoError(t, err)
		for _, one := range a.Files {
			text := bytes.TrimSpace(one.Data)
			if !ownRoot.Match(text) {
				text = fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200" height="200">%s</svg>`, one.Data)
			}
			if strings.HasSuffix(one.Name, ".plain.svg") {
				all[len(all)-1].plain = text
				continue
			}
			all = append(all, drawnSample{category: strings.TrimSuffix(filepath.Base(f), ".txtar"), name: one.Name, svg: text})
		}
	}
	return all
}

func readArt(t testing.TB, text []byte) *artwork.Picture {
	list := &diag.List{Sources: &diag.Sources{}}
	p, ok := artwork.ReadSVG(list, list.Sources.Add("a.svg", text))
	require.True(t, ok, "%v", list.Sorted())
	return p
}

// shown is a page that holds one picture, laid on it by a map.
func shown(p *artwork.Picture, w, h float64, frame artwork.Matrix, window geom.Rect) *tiling.Page {
	page := &tiling.Page{}
	page.Reset()
	page.W, page.H = w, h
	page.Layers[drawing.Notes].Shows = []*tiling.Show{{Picture: p, Frame: frame, Window: window}}
	return page
}

func box(x0, y0, x1, y1 float64) geom.Rect { return geom.Rect{Min: pt(x0, y0), Max: pt(x1, y1)} }

func rasterSVG(t testing.TB, text []byte, w, h int) image.Image {
	data, err := reread.SVGPixels(text, w, h)
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	return img
}

// unlike is the share of pixels that differ by more than 40 of 255 in red, green or blue after a blur of 3 × 3.
func unlike(a, b image.Image) float64 {
	x, y := means3(a), means3(b)
	count := 0
	for i := range x {
		for k := range 3 {
			if math.Abs(x[i][k]-y[i][k]) > 40 {
				count++
				break
			}
		}
	}
	return float64(count) / float64(len(x))
}

func means3(m image.Image) [][3]float64 {
	flat := image.NewRGBA(m.Bounds())
	draw.Draw(flat, flat.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(flat, flat.Bounds(), m, m.Bounds().Min, draw.Over)
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	out := make([][3]float64, w*h)
	for y := range h {
		for x := range w {
			n := 0.0
			for v := max(0, y-1); v <= min(h-1, y+1); v++ {
				for u := max(0, x-1); u <= min(w-1, x+1); u++ {
					for k := range 3 {
						out[y*w+x][k] += float64(flat.Pix[v*flat.Stride+4*u+k])
					}
					n++
				}
			}
			for k := range 3 {
				out[y*w+x][k] /= n
			}
		}
	}
	return out
}

// Artwork on a page is the picture that librsvg draws of the artist's own file: fill rules, lines, dashes, clips, masks, gradients,
// opacity, embedded pictures. At most 0.5 % of the pixels differ.
func TestArtworkIsTheArtistsPicture(t *testing.T) {
	reread.Need(t, "rsvg-convert")
	var samples []drawnSample
	for i, s := range drawnSamples(t) { // of those whose kind is the reader's business one of three
		switch s.category {
		case "clips", "masks", "gradients", "images", "opacity", "strokes":
			samples = append(samples, s)
		default:
			if i%3 == 0 || *everySample {
				samples = append(samples, s)
			}
		}
	}
	words := make([]string, len(samples))
	var wait sync.WaitGroup
	for worker := range 2 {
		wait.Go(func() {
			for i := worker; i < len(samples); i += 2 {
				s := samples[i]
				p := readArt(t, s.svg)
				const side = 120
				k := side / max(p.W, p.H)
				w, h := max(1, int(math.Round(p.W*k))), max(1, int(math.Round(p.H*k)))
				reference := s.svg
				if s.plain != nil {
					reference = s.plain
				}
				m := artwork.Matrix{A: 7, D: 7}
				page := shown(p, p.W*7, p.H*7, m, box(0, 0, p.W*7, p.H*7))
				if share := unlike(rasterSVG(t, []byte(write(t, page)), w, h), rasterSVG(t, reference, w, h)); share > 0.005 {
					words[i] = fmt.Sprintf("%s/%s: %.2f %% of the pixels differ", s.category, s.name, share*100)
				}
			}
		})
	}
	wait.Wait()
	alike := map[string][2]int{}
	for i, s := range samples {
		n := alike[s.category]
		n[1]++
		if words[i] == "" {
			n[0]++
		} else {
			t.Error(words[i])
		}
		alike[s.category] = n
	}
	t.Log(alike)
}
