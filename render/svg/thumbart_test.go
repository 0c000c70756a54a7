package svg_test

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/render/reread"
	"markout/render/svg"
)

// A thumbnail is small and still the artist's picture, as librsvg draws it at its size: lines, clips, masks, gradients, pixels.
func TestThumbnailsOfArtwork(t *testing.T) {
	reread.Need(t, "rsvg-convert")
	longest, n := 0, 0
	for i, s := range drawnSamples(t) {
		p := readArt(t, s.svg)
		page := shown(p, p.W, p.H, artwork.Identity(), box(0, 0, p.W, p.H))
		text, err := svg.Thumbnail(page)
		require.NoError(t, err)
		require.NotContains(t, text, "id=", "many stand in one HTML page")
		groups(t, text)
		require.Less(t, len(text), 20<<10, "%s/%s", s.category, s.name)
		longest = max(longest, len(text))
		if i%8 != 0 && (s.category != "gradients" || i%2 != 0) {
			continue
		}
		const side = 96
		k := side / max(p.W, p.H)
		w, h := max(1, int(math.Round(p.W*k))), max(1, int(math.Round(p.H*k)))
		reference := s.svg
		if s.plain != nil {
			reference = s.plain
		}
		if share := unlike(rasterSVG(t, []byte(text), w, h), rasterSVG(t, reference, w, h)); share > 0.04 { // pixels enlarged are smoothed by librsvg, and few of them are kept
			t.Errorf("%s/%s: %.2f %% of the pixels differ", s.category, s.name, share*100)
		}
		n++
	}
	t.Logf("%d compared, the longest has %d bytes", n, longest)
}

// Lines by the hundred thousand, and pixels, come in few bytes too; a picture is decoded once for all pages.
func TestThumbnailsStaySmall(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 1000">`)
	for i := range 3000 {
		x, y := float64(i%60)*16, float64(i/60)*20
		fmt.Fprintf(&b, `<path fill="#%06x" stroke="#000" stroke-dasharray="1e-6" d="M%g %gc9 3 5 9 1 12 9 1 3 4 9 9L%g %gz"/>`, i*5077, x, y, x+3, y+30)
	}
	b.WriteString("</svg>")
	p := readArt(t, []byte(b.String()))
	text, err := svg.Thumbnail(shown(p, 420, 297, artwork.Matrix{A: 1, D: 1, E: 10, F: 10}, box(10, 10, 400, 280)))
	require.NoError(t, err)
	require.Less(t, len(text), 20<<10)
	require.Contains(t, text, "data:image/")

	var file bytes.Buffer
	require.NoError(t, jpeg.Encode(&file, coloured(3000, 2000), nil))
	photo, _, err := artwork.ReadPixels(file.Bytes())
	require.NoError(t, err)
	var thumbs svg.Thumbnails
	for i := range 12 {
		text, err := thumbs.Of(shown(photo, 420, 297, artwork.Matrix{A: 3, D: 3, E: float64(-i) * 400}, box(10, 10, 400, 280)))
		require.NoError(t, err)
		require.Less(t, len(text), 20<<10)
	}
}
