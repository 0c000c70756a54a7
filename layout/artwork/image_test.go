package artwork

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
)

func dataLink(kind string, data []byte) string {
	return "data:image/" + kind + ";base64," + base64.StdEncoding.EncodeToString(data)
}

func plainPNG(t testing.TB, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewNRGBA(image.Rect(0, 0, w, h))))
	return b.Bytes()
}

// turnedJPEG is a JPEG whose Exif block has the orientation and nothing else.
func turnedJPEG(t testing.TB, w, h int, orientation uint16) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, w, h)), nil))
	exif := []byte("Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01")
	exif = binary.BigEndian.AppendUint16(exif, orientation)
	exif = append(exif, 0, 0, 0, 0, 0, 0)
	app := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, 0xe1}, uint16(len(exif)+2))
	return append(append(app, exif...), b.Bytes()[2:]...)
}

func embeddedImage(t testing.TB, link string) *Image {
	t.Helper()
	p, said := readText(head + `<image width="30" height="30" preserveAspectRatio="none" href="` + link + `"/></svg>`)
	require.Empty(t, said)
	require.Len(t, p.Nodes, 1)
	return p.Nodes[0].(*Image)
}

func TestEmbeddedPixelsAreOpened(t *testing.T) {
	for kind, data := range map[string][]byte{"png": plainPNG(t, 40, 20), "jpeg": turnedJPEG(t, 40, 20, 1)} {
		img := embeddedImage(t, dataLink(kind, data))
		require.NotNil(t, img.Pixels, kind)
		require.Equal(t, image.Rect(0, 0, 40, 20), img.Pixels.Bounds(), kind)
	}
}

// Where Exif 2.3, 4.6.4 A puts the 0th row and the 0th column of each orientation (from memory), as browsers show it.
func TestEmbeddedJPEGStandsUpright(t *testing.T) {
	sides := map[string]geom.Point{"top": {X: 0.5, Y: 1}, "bottom": {X: 0.5}, "left": {Y: 0.5}, "right": {X: 1, Y: 0.5}}
	for i, c := range [8][2]string{
		{"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"},
		{"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"},
	} {
		img := embeddedImage(t, dataLink("jpeg", turnedJPEG(t, 40, 20, uint16(i+1))))
		box := geom.EmptyRect()
		for _, q := range squareCorners {
			box = box.Include(img.Frame.Apply(q))
		}
		for k, stored := range [2]geom.Point{sides["top"], sides["left"]} {
			side := sides[c[k]]
			want := geom.Point{X: box.Min.X + side.X*box.W(), Y: box.Min.Y + side.Y*box.H()}
			require.InDelta(t, 0, img.Frame.Apply(stored).Dist(want), 1e-9, "orientation %d, %d", i+1, k)
		}
	}
}

// A lying picture makes the box that holds it by its upright proportions.
func TestLyingJPEGKeepsItsProportions(t *testing.T) {
	p, said := readText(head + `<image width="10" href="` + dataLink("jpeg", turnedJPEG(t, 40, 20, 6)) + `"/></svg>`)
	require.Empty(t, said)
	b := Bounds(p.Nodes[0])
	require.InDelta(t, 2, b.H()/b.W(), 1e-9)
}

// What the header of an embedded picture claims is never taken for granted: an error at its place, and no memory for it.
func TestEmbeddedPicturesThatLie(t *testing.T) {
	whole := plainPNG(t, 40, 20)
	claim := bytes.Clone(whole)
	binary.BigEndian.PutUint32(claim[16:], 50_000)
	binary.BigEndian.PutUint32(claim[20:], 50_000)
	binary.BigEndian.PutUint32(claim[29:], crc32.ChecksumIEEE(claim[12:29]))
	none := bytes.Clone(whole)
	binary.BigEndian.PutUint32(none[16:], 0)
	binary.BigEndian.PutUint32(none[29:], crc32.ChecksumIEEE(none[12:29]))
	jpg := turnedJPEG(t, 40, 20, 1)
	for name, c := range map[string]string{
		"PNG of 50 000 × 50 000": dataLink("png", claim), "PNG without width": dataLink("png", none),
		"PNG cut in its header": dataLink("png", whole[:20]), "JPEG cut in its header": dataLink("jpeg", jpg[:30]),
		"JPEG that is only a beginning": dataLink("jpeg", jpg[:4]),
	} {
		_, said := readText(head + `<image width="5" height="5" href="` + c + `"/><rect width="5" height="5"/></svg>`)
		require.Len(t, said, 1, name)
		require.True(t, strings.HasPrefix(said[0], fmt.Sprintf("a.svg:%d:%d: error: this embedded picture ", 2, 35)), "%s: %s", name, said[0])
		require.Less(t, testing.AllocsPerRun(1, func() { readText(head + `<image width="5" height="5" href="` + c + `"/></svg>`) }), 1e4, name)
	}
}
