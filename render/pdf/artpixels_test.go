package pdf_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
)

// painting is a picture with soft and sharp places.
func painting(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(4, 20261125))
	for y := range h {
		for x := range w {
			v := 127 + 90*math.Sin(float64(x)/17)*math.Cos(float64(y)/23)
			c := color.NRGBA{uint8(v), uint8(y * 255 / h), uint8(x * 255 / w), 255}
			if (x/40+y/40)%5 == 0 {
				c.R, c.G = 255-c.R, uint8(r.IntN(256))
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

func encodedJPEG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}))
	return b.Bytes()
}

func encodedPNG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

// tiles is a picture over columns × rows pages of w × h mm, without borders.
func tiles(t testing.TB, data []byte, columns, rows int, w, h float64) *tiling.Document {
	p, _, err := artwork.ReadPixels(data)
	require.NoError(t, err)
	doc := &tiling.Document{Pages: columns * rows}
	k, l := float64(columns)*w/p.W, float64(rows)*h/p.H
	for i := range doc.Pages {
		x, y := float64(i%columns)*w, float64(i/columns)*h
		doc.Shows = append(doc.Shows, &tiling.Show{Picture: p, Frame: artwork.Matrix{A: k, D: l, E: -x, F: -y}, Window: geom.Rect{Max: pt(w, h)}})
	}
	doc.Make = func(i int, p *tiling.Page) {
		p.W, p.H = w, h
		p.Layers[drawing.Cut].Shows = append(p.Layers[drawing.Cut].Shows, doc.Shows[i])
	}
	return doc
}

// extracted are the pictures of a file as Poppler takes them out, decoded.
func extracted(t testing.TB, file string) []image.Image {
	reread.Need(t, "pdfimages")
	folder := t.TempDir()
	out, err := exec.Command("pdfimages", "-all", file, filepath.Join(folder, "i")).CombinedOutput()
	require.NoError(t, err, string(out))
	names, err := filepath.Glob(filepath.Join(folder, "i-*"))
	require.NoError(t, err)
	var all []image.Image
	for _, n := range names {
		f, err := os.Open(n)
		require.NoError(t, err)
		m, _, err := image.Decode(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		all = append(all, m)
	}
	return all
}

// What is taken out of the file has the pixels that went in: of a JPEG the same coefficients, of a PNG the same samples.
func TestPixelsAreTheFiles(t *testing.T) {
	grey := image.NewGray(image.Rect(0, 0, 300, 200))
	see := image.NewNRGBA(image.Rect(0, 0, 300, 200))
	for y := range 200 {
		for x := range 300 {
			grey.SetGray(x, y, color.Gray{uint8(x*y + x)})
			see.SetNRGBA(x, y, color.NRGBA{uint8(x), uint8(y), uint8(x ^ y), uint8(x + y)})
		}
	}
	for name, data := range map[string][]byte{
		"png": encodedPNG(t, painting(300, 200)), "grey png": encodedPNG(t, grey), "see-through png": encodedPNG(t, see),
		"jpeg": encodedJPEG(t, painting(300, 200)), "grey jpeg": encodedJPEG(t, grey),
	} {
		t.Run(name, func(t *testing.T) {
			want, _, err := image.Decode(bytes.NewReader(data))
			require.NoError(t, err)
			file := write(t, tiles(t, data, 1, 1, 150, 100))
			reread.Check(t, file)
			got := extracted(t, file)
			alphas := 0
			if name == "see-through png" {
				alphas = 1
			}
			require.Len(t, got, 1+alphas)
			require.Equal(t, want.Bounds(), got[0].Bounds())
			for y := range 200 {
				for x := range 300 {
					a, b := color.NRGBAModel.Convert(want.At(x, y)).(color.NRGBA), color.NRGBAModel.Convert(got[0].At(x, y)).(color.NRGBA)
					if alphas > 0 {
						require.Equal(t, a.A, color.GrayModel.Convert(got[1].At(x, y)).(color.Gray).Y)
						if a.A == 0 {
							continue
						}
						a.A = 255
					}
					require.Equal(t, a, b, "%d %d", x, y)
				}
			}
		})
	}
}

// A picture over four pages is, laid together, what it is on one.
func TestSeamsOfPixels(t *testing.T) {
	reread.Need(t, "pdftoppm")
	for name, data := range map[string][]byte{"jpeg": encodedJPEG(t, painting(803, 601)), "png": encodedPNG(t, painting(803, 601))} {
		for _, dpi := range []int{72, 150} {
			t.Run(fmt.Sprint(name, dpi), func(t *testing.T) {
				const w, h = 25.4 * 3, 25.4 * 2
				draw := func(columns, rows int, w, h float64) []*image.RGBA {
					file, folder := write(t, tiles(t, data, columns, rows, w, h)), t.TempDir()
					pages(t, file, folder, dpi)
					names, err := filepath.Glob(filepath.Join(folder, "p-*.ppm"))
					require.NoError(t, err)
					var all []*image.RGBA
					for _, n := range names {
						m, err := readMap(n)
						require.NoError(t, err)
						all = append(all, m)
					}
					require.Len(t, all, columns*rows)
					return all
				}
				whole, parts := draw(1, 1, 2*w, 2*h)[0], draw(2, 2, w, h)
				together := image.NewRGBA(whole.Rect)
				pw, ph := parts[0].Rect.Dx(), parts[0].Rect.Dy()
				for i, p := range parts {
					for y := range ph {
						for x := range pw {
							together.SetRGBA(i%2*pw+x, (1-i/2)*ph+y, p.RGBAAt(x, y))
						}
					}
				}
				require.LessOrEqual(t, differentShare(whole, together), 0.005)
			})
		}
	}
}

// Pixels of 12 mm, of which a page shows few, stand on both sides of a seam where they belong, to less than 0.1 mm.
func TestSeamsOfLargePixels(t *testing.T) {
	reread.Need(t, "pdftoppm")
	m := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			v := uint8(255 * ((x + y) % 2))
			m.SetNRGBA(x, y, color.NRGBA{v, v, v, 255})
		}
	}
	const columns, w, h = 24, 200.0, 180.0
	doc := tiles(t, encodedPNG(t, m), columns, 20, w, h)
	file := write(t, doc)
	const dpi = 600 // Poppler moves pixels to whole ones of its own: 0.04 mm
	for _, page := range []int{1, 6*columns + 11, 20 * columns} {
		g := reread.Raster(t, file, page, dpi)
		row := g.Rect.Dy() / 2
		x0 := float64((page-1)%columns) * w
		pixel := columns * w / 400
		for x := 1; x < g.Rect.Dx()-1; x++ { // the last one is only partly paper
			if a, b := g.GrayAt(x-1, row).Y, g.GrayAt(x, row).Y; (a < 128) != (b < 128) {
				at := (x0 + float64(x)*25.4/dpi) / pixel
				require.InDelta(t, math.Round(at), at, 0.1/pixel, "page %d", page)
			}
		}
	}
}

func TestPixelBytesDoNotDependOnWorkers(t *testing.T) {
	for _, data := range [][]byte{encodedJPEG(t, painting(803, 601)), encodedPNG(t, painting(803, 601))} {
		var a, b bytes.Buffer
		_, err := pdf.Write(&a, tiles(t, data, 7, 6, 60, 50), pdf.Options{Workers: 1})
		require.NoError(t, err)
		_, err = pdf.Write(&b, tiles(t, data, 7, 6, 60, 50), pdf.Options{Workers: 8})
		require.NoError(t, err)
		require.True(t, bytes.Equal(a.Bytes(), b.Bytes()))
	}
}

// BenchmarkEnlarge lays 12 megapixels over 506 pages of A3; with ENLARGE, the picture of that file.
func BenchmarkEnlarge(b *testing.B) {
	data := encodedJPEG(b, painting(4000, 3000))
	if name := os.Getenv("ENLARGE"); name != "" {
		var err error
		data, err = os.ReadFile(name)
		require.NoError(b, err)
	}
	for b.Loop() {
		doc := tiles(b, data, 22, 23, 420, 297)
		f, err := os.Create(filepath.Join(b.TempDir(), "large.pdf"))
		require.NoError(b, err)
		_, err = pdf.Write(f, doc, pdf.Options{})
		require.NoError(b, err)
		require.NoError(b, f.Close())
	}
}
