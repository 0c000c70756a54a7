package silhouette_test

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/silhouette"
)

// However many clips, masks and groups a picture has, and however deep they stand in one another, what is held at one time is a band of
// rows: all that is ever asked of the memory together keeps under what one canvas of bytes would take.
func TestManyClipsTakeLittleMemory(t *testing.T) {
	clips, deep, ends := "", "", ""
	for i := range 30 {
		clips += fmt.Sprintf(`<clipPath id="c%d"><circle cx="%d" cy="100" r="95"/></clipPath><g clip-path="url(#c%d)"><rect width="200" height="200"/></g>`, i, 80+i%40, i)
		deep += fmt.Sprintf(`<g clip-path="url(#c%d)">`, i)
		ends += "</g>"
	}
	mask := `<mask id="m"><circle cx="100" cy="100" r="95" fill="#fff"/></mask>`
	for name, body := range map[string]string{
		"side by side":       clips,
		"in one another":     clips + deep + `<rect width="200" height="200"/>` + ends,
		"opacity in opacity": strings.Repeat(`<g opacity="0.9">`, 100) + `<rect width="180" height="200"/>` + strings.Repeat(`</g>`, 100),
		"masks":              mask + strings.Repeat(`<g mask="url(#m)">`, 20) + `<rect width="200" height="200"/>` + strings.Repeat(`</g>`, 20),
	} {
		p := drawn(t, body)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		o, err := silhouette.Of(p, silhouette.Options{})
		require.NoError(t, err)
		require.Len(t, o.Bodies, 1, name)
		runtime.ReadMemStats(&after)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(64<<20), name)
	}
}

// A clip cut down to another that both its areas share, twelve deep, is painted once at each depth.
func TestClipsOfClips(t *testing.T) {
	body := `<clipPath id="c0"><circle cx="100" cy="100" r="80"/></clipPath>`
	for i := range 12 {
		body += fmt.Sprintf(`<clipPath id="c%d"><rect width="100" height="200" clip-path="url(#c%d)"/><rect x="100" width="100" height="200" clip-path="url(#c%d)"/></clipPath>`, i+1, i, i)
	}
	o, err := silhouette.Of(drawn(t, body+`<rect width="200" height="200" clip-path="url(#c12)"/>`), silhouette.Options{})
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*6400, areaOf(o), 0.001)
}

// Of a picture embedded in what is drawn, upright or turned, what is transparent is not the figure.
func TestEmbedded(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 40, 40))
	for y := range 40 {
		for x := range 40 {
			if x < 20 || y < 10 {
				img.SetNRGBA(x, y, color.NRGBA{R: 200, A: 255})
			}
		}
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	at := `<rect x="60" y="55" width="9" height="9"/><image x="50" y="50" width="100" height="100" href="data:image/png;base64,` + base64.StdEncoding.EncodeToString(b.Bytes()) + `"`
	for turn, box := range map[string]geom.Rect{
		``:                                {Min: geom.Point{X: 50, Y: 50}, Max: geom.Point{X: 150, Y: 150}},
		` transform="rotate(90 100 100)"`: {Min: geom.Point{X: 50, Y: 50}, Max: geom.Point{X: 150, Y: 150}},
	} {
		o, err := silhouette.Of(drawn(t, at+turn+`/>`), silhouette.Options{})
		require.NoError(t, err)
		require.InEpsilon(t, 50*100+50*25, areaOf(o), 0.001, turn)
		require.InDelta(t, box.Min.X, boxOf(o).Min.X, 0.05)
		require.InDelta(t, box.Max.Y, boxOf(o).Max.Y, 0.05)
		inside := o.Bodies[0].Outer.Contains
		require.True(t, inside(geom.Point{X: 60, Y: 140}))
		require.Equal(t, turn == "", inside(geom.Point{X: 60, Y: 60}))
	}
}
