package pdf_test

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
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

// drawn is a picture that librsvg draws too; plain is the same by plainer means, where librsvg departs from SVG's text.
type drawn struct {
	category, name string
	svg, plain     []byte
	picture        *artwork.Picture
	w, h           int // pixels
}

var outermost = regexp.MustCompile(`<svg[^>]*\sxmlns=`)

// ownDrawn are the edge cases that the reader of SVG is tested with.
func ownDrawn(t testing.TB) []drawn {
	files, err := filepath.Glob("../../layout/artwork/testdata/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	var all []drawn
	for _, f := range files {
		a, err := txtar.ParseFile(f)
		require.NoError(t, err)
		for _, one := range a.Files {
			svg := bytes.TrimSpace(one.Data)
			if !outermost.Match(svg) {
				svg = fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200" height="200">%s</svg>`, svg)
			}
			svg = embedded.ReplaceAllFunc(svg, func(link []byte) []byte { return coarsened(t, link) })
			if strings.HasSuffix(one.Name, ".plain.svg") {
				all[len(all)-1].plain = svg
				continue
			}
			all = append(all, drawn{category: strings.TrimSuffix(filepath.Base(f), ".txtar"), name: one.Name, svg: svg})
		}
	}
	return all
}

var embedded = regexp.MustCompile(`data:image/png;base64,[A-Za-z0-9+/=\s]+`)

// coarsened makes eight by eight pixels of one of an embedded picture: librsvg smooths pixels whatever it is asked for, and then
// does so over an eighth of what it would.
func coarsened(t testing.TB, link []byte) []byte {
	const head = "data:image/png;base64,"
	raw, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(string(link[len(head):])), ""))
	require.NoError(t, err)
	from, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		return link // broken on purpose
	}
	size := from.Bounds().Size().Mul(8)
	if size.X > 1000 || size.Y > 1000 {
		return link
	}
	to := image.NewNRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			to.Set(x, y, from.At(x/8, y/8))
		}
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, to))
	return []byte(head + base64.StdEncoding.EncodeToString(b.Bytes()))
}

// licensedDrawn are every 40th of Twemoji's pictures (CC-BY 4.0) and every 60th of the game icons (CC-BY 3.0).
func licensedDrawn(t testing.TB) []drawn {
	files, err := filepath.Glob(filepath.Join(reread.ArtworkFolder(t, "@twemoji/svg"), "*.svg"))
	require.NoError(t, err)
	var all []drawn
	for i := 0; i < len(files); i += 40 {
		data, err := os.ReadFile(files[i])
		require.NoError(t, err)
		all = append(all, drawn{category: "emoji", name: filepath.Base(files[i]), svg: data})
	}
	data, err := os.ReadFile(filepath.Join(reread.ArtworkFolder(t, "@iconify-json/game-icons"), "icons.json"))
	require.NoError(t, err)
	var set struct {
		Icons map[string]struct{ Body string }
	}
	require.NoError(t, json.Unmarshal(data, &set))
	names := make([]string, 0, len(set.Icons))
	for name := range set.Icons {
		names = append(names, name)
	}
	slices.Sort(names)
	for i := 0; i < len(names); i += 60 {
		all = append(all, drawn{category: "icons", name: names[i], svg: fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">%s</svg>`, set.Icons[names[i]].Body)})
	}
	return all
}

// Own edge cases of every category, written as pages, look in Poppler as librsvg draws their SVG.
func TestArtworkLooksAsLibrsvgDrawsIt(t *testing.T) { alike(t, ownDrawn(t)) }

func TestLicensedArtworkLooksAsLibrsvgDrawsIt(t *testing.T) {
	all := licensedDrawn(t)
	require.GreaterOrEqual(t, len(all), 150)
	alike(t, all)
}

// side is how many pixels the longer side of a picture is drawn with.
const side = 120

// finer is how many pixels of both go on one of the comparison: Poppler moves clips, thin lines and pictures to whole pixels, and
// librsvg the pixels of pictures.
const finer = 3

// alike draws each picture as a page, 72 pixels an inch. After a blur of 3 × 3 at most 0.5 % of the pixels may differ by more
// than 40 of 255 in red, green or blue.
func alike(t *testing.T, all []drawn) {
	reread.Need(t, "rsvg-convert", "pdftoppm")
	doc := &tiling.Document{}
	for i := range all {
		d := &all[i]
		list := &diag.List{Sources: &diag.Sources{}}
		p, ok := artwork.ReadSVG(list, list.Sources.Add(d.name, d.svg))
		require.True(t, ok, "%s: %v", d.name, list.Sorted())
		k := side / max(p.W, p.H)
		d.picture, d.w, d.h = p, max(1, int(math.Round(p.W*k))), max(1, int(math.Round(p.H*k)))
		size := tiling.Size{W: float64(d.w) * 25.4 / 72, H: float64(d.h) * 25.4 / 72}
		doc.Sizes = append(doc.Sizes, size)
		doc.Shows = append(doc.Shows, &tiling.Show{
			Picture: p, Frame: artwork.Matrix{A: size.W / p.W, D: size.H / p.H}, Window: geom.Rect{Max: pt(size.W, size.H)},
		})
	}
	doc.Pages = len(all)
	doc.Make = func(i int, p *tiling.Page) {
		p.W, p.H = doc.Sizes[i].W, doc.Sizes[i].H
		p.Layers[drawing.Cut].Shows = append(p.Layers[drawing.Cut].Shows, doc.Shows[i])
	}
	file := write(t, doc)
	reread.Check(t, file)
	folder := t.TempDir()
	pages(t, file, folder, 72*finer)
	ours, err := filepath.Glob(filepath.Join(folder, "p-*.ppm"))
	require.NoError(t, err)
	require.Len(t, ours, len(all))
	slices.Sort(ours)
	differing := make([]string, len(all))
	var wait sync.WaitGroup
	for worker := range 2 {
		wait.Go(func() {
			for i := worker; i < len(all); i += 2 {
				differing[i] = all[i].compare(ours[i])
			}
		})
	}
	wait.Wait()
	counts, good := map[string]int{}, map[string]int{}
	var order []string
	together := 0
	for i, d := range all {
		if counts[d.category]++; counts[d.category] == 1 {
			order = append(order, d.category)
		}
		if differing[i] == "" {
			good[d.category]++
			together++
			continue
		}
		t.Errorf("%s/%s: %s", d.category, d.name, differing[i])
	}
	for _, c := range order {
		t.Logf("%-12s %3d of %3d", c, good[c], counts[c])
	}
	t.Logf("%-12s %3d of %3d", "together", together, len(all))
}

func (d *drawn) compare(ours string) string {
	reference := d.svg
	if d.plain != nil {
		reference = d.plain
	}
	data, err := reread.SVGPixels(reference, finer*d.w, finer*d.h)
	if err != nil {
		return err.Error()
	}
	large, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return err.Error()
	}
	page, err := readMap(ours)
	if err != nil {
		return err.Error()
	}
	page, theirs := coarser(page), coarser(opaque(large))
	if page.Bounds().Size() != theirs.Bounds().Size() {
		return fmt.Sprint(page.Bounds().Size(), " is not ", theirs.Bounds().Size())
	}
	if share := differentShare(page, theirs); share > 0.005 {
		if folder := os.Getenv("ARTWORK_PICTURES"); folder != "" {
			base := filepath.Join(folder, d.category+"-"+strings.TrimSuffix(d.name, ".svg"))
			var mine bytes.Buffer
			_ = png.Encode(&mine, page)
			_ = os.WriteFile(base+"-ours.png", mine.Bytes(), 0o600)
			var other bytes.Buffer
			_ = png.Encode(&other, theirs)
			_ = os.WriteFile(base+"-theirs.png", other.Bytes(), 0o600)
		}
		return fmt.Sprintf("%.2f %% of the pixels differ", 100*share)
	}
	return ""
}

// coarser makes one pixel of finer × finer.
func coarser(from *image.RGBA) *image.RGBA {
	to := image.NewRGBA(image.Rect(0, 0, from.Rect.Dx()/finer, from.Rect.Dy()/finer))
	for y := range to.Rect.Dy() {
		for x := range to.Rect.Dx() {
			for k := range 4 {
				sum := 0
				for v := range finer {
					for u := range finer {
						sum += int(from.Pix[from.PixOffset(x*finer+u, y*finer+v)+k])
					}
				}
				to.Pix[to.PixOffset(x, y)+k] = uint8((sum + finer*finer/2) / (finer * finer))
			}
		}
	}
	return to
}

// pages draws all pages of a file as p-N.ppm, one half beside the other.
func pages(t testing.TB, file, folder string, dpi int) {
	t.Helper()
	var wait sync.WaitGroup
	halves := []string{"-o", "-e"}
	if len(reread.ReadInfo(t, file).Sizes) == 1 {
		halves = halves[:1]
	}
	for _, which := range halves {
		wait.Go(func() {
			out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dpi), which, file, filepath.Join(folder, "p")).CombinedOutput()
			if err != nil || len(out) > 0 {
				t.Errorf("Poppler: %v %s", err, out)
			}
		})
	}
	wait.Wait()
}

// readMap reads a binary pixel map of 8 bits (PPM, P6).
func readMap(path string) (*image.RGBA, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var w, h, most int
	if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P6\n%d %d\n%d\n", &w, &h, &most); err != nil || most != 255 || len(data) < 3*w*h {
		return nil, fmt.Errorf("no pixel map: %v", err)
	}
	data = data[len(data)-3*w*h:]
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		m.Pix[4*i], m.Pix[4*i+1], m.Pix[4*i+2], m.Pix[4*i+3] = data[3*i], data[3*i+1], data[3*i+2], 255
	}
	return m, nil
}

// differentShare is the share of the pixels whose means with their neighbours differ by more than 40 of 255 in any channel.
func differentShare(x, y *image.RGBA) float64 {
	w, h := x.Rect.Dx(), x.Rect.Dy()
	count := 0
	for v := range h {
		for u := range w {
			for k := range 3 {
				sum, n := 0, 0
				for dv := max(v-1, 0); dv <= min(v+1, h-1); dv++ {
					for du := max(u-1, 0); du <= min(u+1, w-1); du++ {
						sum += int(x.Pix[4*(dv*w+du)+k]) - int(y.Pix[4*(dv*w+du)+k])
						n++
					}
				}
				if max(sum, -sum) > 40*n {
					count++
					break
				}
			}
		}
	}
	return float64(count) / float64(w*h)
}

func opaque(m image.Image) *image.RGBA {
	r := image.NewRGBA(image.Rectangle{Max: m.Bounds().Size()})
	draw.Draw(r, r.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(r, r.Rect, m, m.Bounds().Min, draw.Over)
	return r
}
