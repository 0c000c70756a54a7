package artwork

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/render/reread"
)

// sample is one picture that librsvg draws too.
type sample struct {
	category, name string
	svg            []byte
	// plain is the same picture by plainer means, where librsvg 2.54 draws svg otherwise than SVG's text has it.
	plain []byte
}

// score is how many samples of a category come out alike, and how many of them are held against a plain picture.
type score struct{ alike, all, plain int }

// TestDrawnAsLibrsvgDraws compares pictures pixel by pixel: after a blur of 3 × 3 at most 0.5 % of the pixels may differ
// by more than 40 of 255 in red, green or blue. Where librsvg does not follow the text of SVG, the same is said in
// testdata by plainer means, NAME.plain.svg beside NAME.svg, and librsvg draws that.
func TestDrawnAsLibrsvgDraws(t *testing.T) {
	reread.Need(t, "rsvg-convert")
	samples := ownSamples(t)
	samples = append(samples, emoji(t)...)
	samples = append(samples, icons(t)...)
	differing := make([]string, len(samples))
	var wait sync.WaitGroup
	for worker := range 2 {
		wait.Go(func() {
			for i := worker; i < len(samples); i += 2 {
				differing[i] = compare(samples[i])
			}
		})
	}
	wait.Wait()
	scores := map[string]*score{}
	var order []string
	for i, s := range samples {
		if scores[s.category] == nil {
			scores[s.category] = &score{}
			order = append(order, s.category)
		}
		scores[s.category].all++
		if s.plain != nil {
			scores[s.category].plain++
		}
		if differing[i] == "" {
			scores[s.category].alike++
		} else {
			t.Errorf("%s/%s: %s", s.category, s.name, differing[i])
		}
	}
	total := score{}
	for _, c := range order {
		t.Logf("%-12s %3d of %3d, %2d of them against a plain picture", c, scores[c].alike, scores[c].all, scores[c].plain)
		total.alike += scores[c].alike
		total.plain += scores[c].plain
		total.all += scores[c].all
	}
	t.Logf("%-12s %3d of %3d, %2d of them against a plain picture", "together", total.alike, total.all, total.plain)
	require.GreaterOrEqual(t, total.all, 150)
}

// ownSamples are the edge cases in testdata: a file a category, in it many pictures.
func ownSamples(t testing.TB) []sample {
	files, err := filepath.Glob("testdata/*.txtar")
	require.NoError(t, err)
	var all []sample
	for _, f := range files {
		a, err := txtar.ParseFile(f)
		require.NoError(t, err)
		for _, one := range a.Files {
			svg := framed(one.Data)
			if name, ok := strings.CutSuffix(one.Name, ".plain.svg"); ok {
				require.Equal(t, name+".svg", all[len(all)-1].name)
				all[len(all)-1].plain = svg
				continue
			}
			all = append(all, sample{category: strings.TrimSuffix(filepath.Base(f), ".txtar"), name: one.Name, svg: svg})
		}
	}
	return all
}

var wholePicture = regexp.MustCompile(`<svg[^>]*\sxmlns=`)

// framed puts a picture that is only the inside of one into a frame of 200 × 200.
func framed(data []byte) []byte {
	if wholePicture.Match(data) {
		return bytes.TrimSpace(data)
	}
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200" height="200">%s</svg>`, data)
}

// emoji are every 180th of Twemoji's pictures (CC-BY 4.0).
func emoji(t *testing.T) []sample {
	files, err := filepath.Glob(filepath.Join(reread.ArtworkFolder(t, "@twemoji/svg"), "*.svg"))
	require.NoError(t, err)
	var all []sample
	for i := 0; i < len(files); i += 180 {
		data, err := os.ReadFile(files[i])
		require.NoError(t, err)
		all = append(all, sample{category: "emoji", name: filepath.Base(files[i]), svg: data})
	}
	return all
}

// icons are twenty of the game icons (CC-BY 3.0).
func icons(t *testing.T) []sample {
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
	var all []sample
	for i := 0; i < len(names); i += len(names) / 20 {
		svg := fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">%s</svg>`, set.Icons[names[i]].Body)
		all = append(all, sample{category: "icons", name: names[i], svg: svg})
	}
	return all
}

// compare draws a sample twice and says how the two differ, empty where they are alike.
func compare(s sample) string {
	list := &diag.List{Sources: &diag.Sources{}}
	p, ok := ReadSVG(list, list.Sources.Add(s.name, s.svg))
	if !ok {
		return fmt.Sprint("not read: ", list.Sorted())
	}
	const side = 120
	k := side / max(p.W, p.H)
	w, h := max(1, int(math.Round(p.W*k))), max(1, int(math.Round(p.H*k)))
	reference := s.svg
	if s.plain != nil {
		reference = s.plain
	}
	data, err := reread.SVGPixels(reference, w, h)
	if err != nil {
		return err.Error()
	}
	theirs, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return err.Error()
	}
	ours := rasterise(p, w, h)
	share := difference(ours, theirs)
	if folder := os.Getenv("ARTWORK_PICTURES"); folder != "" && share > 0.005 {
		save(folder, s, ours, data)
	}
	if share > 0.005 {
		return fmt.Sprintf("%.2f %% of the pixels differ", 100*share)
	}
	return ""
}

func toImage(l *layer) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, l.w, l.h))
	for i, p := range l.v {
		for k := range 4 {
			m.Pix[4*i+k] = uint8(math.Round(float64(min(max(p[k], 0), 1)) * 255))
		}
	}
	return m
}

// save writes both pictures of a sample, for someone who looks.
func save(folder string, s sample, ours *layer, theirs []byte) {
	base := filepath.Join(folder, s.category+"-"+strings.TrimSuffix(s.name, ".svg"))
	var b bytes.Buffer
	if png.Encode(&b, toImage(ours)) == nil {
		_ = os.WriteFile(base+"-ours.png", b.Bytes(), 0o600)
	}
	_ = os.WriteFile(base+"-theirs.png", theirs, 0o600)
}

// difference is the share of pixels that differ.
func difference(ours *layer, theirs image.Image) float64 {
	a, b := blurred(toImage(ours)), blurred(theirs)
	count := 0
	for i := range a {
		for k := range 3 {
			if math.Abs(a[i][k]-b[i][k]) > 40 {
				count++
				break
			}
		}
	}
	return float64(count) / float64(len(a))
}

// blurred is the mean of each pixel and its neighbours, of 255.
func blurred(m image.Image) [][3]float64 {
	size := m.Bounds().Size()
	opaque := image.NewRGBA(m.Bounds())
	draw.Draw(opaque, opaque.Bounds(), m, image.Point{}, draw.Src)
	plain := make([][3]float64, size.X*size.Y)
	for i := range plain {
		plain[i] = [3]float64{float64(opaque.Pix[4*i]), float64(opaque.Pix[4*i+1]), float64(opaque.Pix[4*i+2])}
	}
	return means(means(plain, 1, size.X), size.X, size.Y)
}

// means returns of each value its mean with the one before and after it; these are step apart, in lines of n.
func means(v [][3]float64, step, n int) [][3]float64 {
	out := make([][3]float64, len(v))
	for i := range v {
		sum, count := v[i], 1.0
		if at := i / step % n; at > 0 {
			add(&sum, v[i-step])
			count++
		}
		if at := i / step % n; at < n-1 {
			add(&sum, v[i+step])
			count++
		}
		for k := range sum {
			out[i][k] = sum[k] / count
		}
	}
	return out
}

func add(to *[3]float64, v [3]float64) {
	for k := range to {
		to[k] += v[k]
	}
}
