package pixels

import (
	"bytes"
	"encoding/binary"
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the eight values mean, from Exif 2.3, 4.6.4 A (from memory: "the 0th row is at the visual top, the 0th column
// at the visual left-hand side", and so on), shown on a picture of 3 × 2: rows "abc" and "def". The same eight
// results were read once from ImageMagick 6.9 with -auto-orient.
var upright = []struct {
	o     Orientation
	rows  string
	words string
}{
	{1, "abc def", "upright as stored"},
	{2, "cba fed", "mirrored left to right to be upright"},
	{3, "fed cba", "turned by half a turn to be upright"},
	{4, "def abc", "mirrored top to bottom to be upright"},
	{5, "ad be cf", "mirrored left to right and turned a quarter anticlockwise to be upright"},
	{6, "da eb fc", "turned a quarter clockwise to be upright"},
	{7, "fc eb da", "mirrored left to right and turned a quarter clockwise to be upright"},
	{8, "cf be ad", "turned a quarter anticlockwise to be upright"},
}

func TestTheEightOrientations(t *testing.T) {
	const stored = "abcdef"
	for _, c := range upright {
		w, h := c.o.Size(3, 2)
		m := c.o.Matrix(3, 2)
		got := bytes.Repeat([]byte(" "), (w+1)*h-1)
		for y := range 2 {
			for x := range 3 {
				cx, cy := float64(x)+0.5, float64(y)+0.5
				ux, uy := m[0]*cx+m[2]*cy+m[4], m[1]*cx+m[3]*cy+m[5]
				got[int(uy)*(w+1)+int(ux)] = stored[3*y+x]
				// The pixel that shows there comes from here.
				shown := image.Rect(int(ux), int(uy), int(ux)+1, int(uy)+1)
				require.Equal(t, image.Rect(x, y, x+1, y+1), c.o.Stored(shown, 3, 2), "%d", c.o)
			}
		}
		require.Equal(t, c.rows, string(got), "%d", c.o)
		require.Equal(t, c.words, c.o.String())
		require.Equal(t, strings.IndexByte(c.rows, ' ') == 2, c.o.Lying())
		require.Equal(t, image.Rect(0, 0, 3, 2), c.o.Stored(image.Rect(0, 0, w, h), 3, 2))
	}
	require.Equal(t, Upright.Matrix(5, 4), Orientation(0).Matrix(5, 4))
	require.Equal(t, Upright.Matrix(5, 4), Orientation(9).Matrix(5, 4))
}

// exifOf is a block with the orientation as its second tag.
func exifOf(order bothOrder, value uint16) []byte {
	b := []byte("MM")
	if order == bothOrder(binary.LittleEndian) {
		b = []byte("II")
	}
	b = order.AppendUint16(b, 42)
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, e := range [][3]uint32{{0x010f, 2, 0}, {exifOrientation, 3, uint32(value)}} {
		b = order.AppendUint16(b, uint16(e[0]))
		b = order.AppendUint16(b, uint16(e[1]))
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, uint16(e[2]))
		b = order.AppendUint16(b, 0)
	}
	return order.AppendUint32(b, 0)
}

type bothOrder interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

func TestOrientationIsReadFromJPEGAndPNG(t *testing.T) {
	jpg, png := fixture(t, "plain-420.jpg"), fixture(t, "rgb8.png")
	for _, order := range []bothOrder{binary.LittleEndian, binary.BigEndian} {
		for v := uint16(0); v <= 9; v++ {
			tiff := exifOf(order, v)
			seg := append([]byte{0xff, 0xe1}, binary.BigEndian.AppendUint16(nil, uint16(2+6+len(tiff)))...)
			seg = append(append(seg, exifMark...), tiff...)
			for _, file := range [][]byte{splice(jpg, 2, seg), splice(png, 33, appendChunk(nil, "eXIf", tiff))} {
				p := openBytes(t, file)
				if v < 1 || v > 8 {
					require.Equal(t, Upright, p.Orientation)
					require.Len(t, p.Notes, 1)
					continue
				}
				require.Equal(t, Orientation(v), p.Orientation)
				require.Empty(t, p.Notes)
				w, h := p.Upright()
				require.Equal(t, v > 4, w < h)
			}
		}
	}
}

func splice(file []byte, at int, piece []byte) []byte {
	out := append([]byte(nil), file[:at]...)
	return append(append(out, piece...), file[at:]...)
}

func FuzzExif(f *testing.F) {
	f.Add(exifOf(binary.LittleEndian, 6))
	f.Add(exifOf(binary.BigEndian, 3))
	f.Fuzz(func(t *testing.T, b []byte) {
		o, err := readOrientation(b)
		require.True(t, o >= Upright && o <= TurnLeft)
		if err != nil {
			require.Equal(t, Upright, o)
		}
	})
}
