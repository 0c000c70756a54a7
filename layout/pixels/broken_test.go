package pixels

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"testing"

	"github.com/stretchr/testify/require"
)

func deflated(s string) []byte {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	_, _ = z.Write([]byte(s))
	_ = z.Close()
	return b.Bytes()
}

// strips opens and decodes.
func strips(b []byte) error {
	p, err := Open(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return err
	}
	return p.Strips(0, func(image.Image) error { return nil })
}

// header is a PNG's head of that size.
func header(w, h uint32, depth, kind, interlace byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, w)
	b = binary.BigEndian.AppendUint32(b, h)
	return append(b, depth, kind, 0, 0, interlace)
}

func pngOf(head []byte, chunks ...[]byte) []byte {
	b := appendChunk([]byte(pngSignature), "IHDR", head)
	for _, c := range chunks {
		b = append(b, c...)
	}
	return appendChunk(b, "IEND", nil)
}

func data(s string) []byte { return appendChunk(nil, "IDAT", deflated(s)) }

func TestBrokenPNG(t *testing.T) {
	grey := header(2, 2, 8, 0, 0)
	pixels := data("\x00ab\x00cd")
	require.NoError(t, strips(pngOf(grey, pixels)))
	bad := bytes.Clone(pngOf(grey, pixels))
	bad[len(bad)-14] ^= 1 // of the sum that ends the pixels' chunk
	half := deflated("\x00ab\x00cd")
	for name, c := range map[string]struct {
		file []byte
		says string
	}{
		"nothing":           {pngOf(header(0, 2, 8, 0, 0), pixels), "PNG, byte 16: the picture is 0 × 2 pixels: nothing"},
		"bomb":              {pngOf(header(50000, 50000, 8, 2, 0), pixels), "50000 × 50000 pixels, which cannot be in a file of"},
		"more than a PNG":   {pngOf(header(1<<31, 1, 8, 2, 0), pixels), "more than a PNG may have"},
		"depth":             {pngOf(header(2, 2, 4, 2, 0), pixels), "byte 24: colour type 2 with 4 bits"},
		"interlacing":       {pngOf(header(2, 2, 8, 0, 2), pixels), "interlacing 2"},
		"no pixels":         {pngOf(grey), "byte 33: the file has no pixels"},
		"no list":           {pngOf(header(2, 2, 8, 3, 0), pixels), "list (PLTE) is missing"},
		"list too long":     {pngOf(header(2, 2, 1, 3, 0), appendChunk(nil, "PLTE", make([]byte, 9)), pixels), "(PLTE) has 9 bytes"},
		"unknown, critical": {pngOf(grey, appendChunk(nil, "ABCD", nil), pixels), "chunk ABCD must be understood"},
		"too few":           {pngOf(grey, data("\x00ab")), "the pixels end in row 1"},
		"too many":          {pngOf(grey, data("\x00ab\x00cd\x00ef")), "more pixels than the header said"},
		"filter":            {pngOf(grey, data("\x00ab\x09cd")), "row 1 has the filter 9"},
		"sum of pixels":     {bad, "chunk IDAT does not agree with its check sum"},
		"packing":           {pngOf(grey, appendChunk(nil, "IDAT", []byte("not packed"))), "packed pixels are damaged in row 0"},
		"packing's sum":     {pngOf(grey, appendChunk(nil, "IDAT", append(half[:len(half)-1:len(half)-1], 0xee))), "packed pixels are damaged"},
		"cut off":           {pngOf(grey, pixels)[:50], "the file ends in the middle of chunk IDAT, which starts at byte 33"},
		"no end":            {pngOf(grey, pixels)[:len(pngOf(grey, pixels))-12], "the file ends in the middle of a chunk's head"},
		"two heads":         {pngOf(grey, appendChunk(nil, "IHDR", grey), pixels), "a second header"},
		"name":              {pngOf(grey, appendChunk(nil, "1234", nil)), "name of four letters"},
	} {
		err := strips(c.file)
		require.ErrorContains(t, err, c.says, name)
		require.IsType(t, &Error{}, err, name)
	}
	wide := append(pngOf(header(1<<30, 1, 8, 0, 0)), make([]byte, 2<<20)...)
	require.ErrorContains(t, strips(wide), "a row of 1073741824 pixels is too long")
	whole := append(pngOf(header(20000, 10000, 1, 0, 1)), make([]byte, 1<<20)...)
	require.ErrorContains(t, strips(whole), "over the limit of 100 megapixels")
}

func TestBrokenJPEG(t *testing.T) {
	plain := fixture(t, "plain-420.jpg")
	frame := bytes.Index(plain, []byte{0xff, 0xc0})
	scan := bytes.Index(plain, []byte{0xff, 0xda})
	with := func(at int, b ...byte) []byte {
		out := bytes.Clone(plain)
		copy(out[at:], b)
		return out
	}
	for name, c := range map[string]struct {
		file []byte
		says string
	}{
		"bomb":         {with(frame+5, 0xc3, 0x50, 0xc3, 0x50), "claims 50000 × 50000 pixels, which cannot be in a file of"},
		"no height":    {with(frame+5, 0, 0), "53 × 0 pixels: nothing"},
		"12 bits":      {with(frame+4, 12), "have 12 bits"},
		"lossless":     {with(frame+1, 0xc3), "lossless JPEG"},
		"hierarchical": {with(frame+1, 0xc5), "hierarchical JPEG"},
		"channels":     {with(frame+9, 2), "wrong length"},
		"sampling":     {with(frame+11, 0x33), "in a way that is not read: 3×3 1×1 1×1"},
		"quantisation": {with(frame+12, 3), "quantisation table 3 is missing"},
		"same channel": {with(frame+13, 1), "two channels have the number 1"},
		"channel":      {with(scan+5, 77), "asks for channel 77"},
		"codes":        {with(scan+6, 0x22), "Huffman table is missing"},
		"cut off":      {plain[:scan+60], "the file is cut off in the middle of its pixels"},
		"cut in head":  {plain[:frame+6], "the file ends in the middle of marker 0xc0"},
		"no end":       {plain[:len(plain)-2], "the file is cut off: its end marker is missing"},
		"only a start": {plain[:20], "end marker is missing"},
		"early end":    {with(scan+60, 0xff, 0xd9), "the pixels end too early, at marker 0xd9"},
		"arithmetic":   {fixture(t, "refused/arithmetic.jpg"), "arithmetically coded JPEG"},
		"inks":         {fixture(t, "refused/inks-sampled.jpg"), "in a way that is not read: 2×2 1×1 1×1 1×1"},
	} {
		err := strips(c.file)
		require.ErrorContains(t, err, c.says, name)
		require.IsType(t, &Error{}, err, name)
	}
	inks := fixture(t, "ycck.jpg")
	require.ErrorContains(t, strips(bytes.Replace(inks, []byte("Adobe"), []byte("Abode"), 1)), "does not say which inks")
	restart := fixture(t, "restart-1.jpg")
	at := bytes.Index(restart, []byte{0xff, 0xd1})
	restart[at+1] = 0xd5
	require.ErrorContains(t, strips(restart), "restart marker 1 is missing or out of its place")
	progressive := fixture(t, "progressive-420.jpg")
	require.ErrorContains(t, strips(progressive[:len(progressive)-30]), "cut off")
	at = bytes.Index(progressive, []byte{0xff, 0xc2})
	copy(progressive[at+5:], []byte{0x3a, 0x98, 0x3a, 0x98})
	progressive = append(progressive, make([]byte, 1<<20)...)
	require.ErrorContains(t, strips(progressive), "15000 × 15000 pixels are over the limit of 100 megapixels (save it as a plain")
}
