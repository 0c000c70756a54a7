package pixels

import (
	"bytes"
	"errors"
	"image"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWhatTheHeadersSay(t *testing.T) {
	type said struct {
		bits, channels int
		alpha          bool
		colour         Colour
		whole          bool
		sampling       string
		block          image.Point
		notes          int
	}
	for name, want := range map[string]said{
		"plain-444.jpg":           {8, 3, false, YCbCr, false, "4:4:4", image.Pt(8, 8), 0},
		"plain-422.jpg":           {8, 3, false, YCbCr, false, "4:2:2", image.Pt(16, 8), 0},
		"plain-420.jpg":           {8, 3, false, YCbCr, false, "4:2:0", image.Pt(16, 16), 0},
		"plain-440.jpg":           {8, 3, false, YCbCr, false, "4:4:0", image.Pt(8, 16), 0},
		"plain-411.jpg":           {8, 3, false, YCbCr, false, "4:1:1", image.Pt(32, 8), 0},
		"plain-grey.jpg":          {8, 1, false, Grey, false, "", image.Pt(8, 8), 0},
		"rgb.jpg":                 {8, 3, false, RGB, false, "4:4:4", image.Pt(8, 8), 0},
		"ycck.jpg":                {8, 4, false, YCCK, false, "4:2:0", image.Pt(16, 16), 1},
		"progressive-420.jpg":     {8, 3, false, YCbCr, true, "4:2:0", image.Pt(16, 16), 0},
		"several-scans.jpg":       {8, 3, false, YCbCr, true, "4:2:0", image.Pt(16, 16), 0},
		"grey-1.png":              {1, 1, false, Grey, false, "", image.Point{}, 0},
		"grey-16.png":             {16, 1, false, Grey, false, "", image.Point{}, 0},
		"grey-alpha.png":          {8, 2, true, Grey, false, "", image.Point{}, 0},
		"palette-2.png":           {2, 3, false, Palette, false, "", image.Point{}, 0},
		"interlaced-rgba16.png":   {16, 4, true, RGB, true, "", image.Point{}, 0},
		"interlaced-1bit.png":     {1, 1, false, Grey, true, "", image.Point{}, 0},
		"interlaced-palette.png":  {4, 3, false, Palette, true, "", image.Point{}, 0},
		"progressive-restart.jpg": {8, 3, false, YCbCr, true, "4:2:2", image.Pt(16, 8), 0},
	} {
		p := openBytes(t, fixture(t, name))
		m := decoded(t, sameCoefficients(t, name))
		require.Equal(t, m.Bounds(), p.Bounds(), name)
		got := said{p.Bits, p.Channels, p.Alpha, p.Colour, p.Whole, p.Sampling, p.Block, len(p.Notes)}
		require.Equal(t, want, got, name)
		require.Equal(t, p.Whole, p.Progressive || p.Interlaced || name == "several-scans.jpg", name)
	}
}

func TestResolution(t *testing.T) {
	// 11811 pixels a metre are 300 an inch.
	png := splice(fixture(t, "rgb8.png"), 33, appendChunk(nil, "pHYs", []byte{0, 0, 0x2e, 0x23, 0, 0, 0x2e, 0x23, 1}))
	p := openBytes(t, png)
	require.InDelta(t, 300, p.PerInchX, 0.001)
	jpg := bytes.Clone(fixture(t, "plain-420.jpg")) // JFIF: unit, density across, density down at byte 13
	copy(jpg[13:], []byte{1, 0, 150, 0, 75})
	p = openBytes(t, jpg)
	require.Equal(t, 150.0, p.PerInchX)
	require.Equal(t, 75.0, p.PerInchY)
	copy(jpg[13:], []byte{2, 0, 100, 0, 100})
	require.Equal(t, 254.0, openBytes(t, jpg).PerInchX)
	copy(jpg[13:], []byte{0, 0, 100, 0, 100})
	require.Zero(t, openBytes(t, jpg).PerInchX)
}

func TestProfile(t *testing.T) {
	piece := func(n, of byte, s string) []byte {
		b := append([]byte{0xff, 0xe2, 0, byte(2 + 14 + len(s))}, profileMark...)
		return append(append(b, n, of), s...)
	}
	jpg := fixture(t, "plain-420.jpg")
	p := openBytes(t, splice(splice(jpg, 2, piece(1, 2, "sea")), 2, piece(2, 2, "side")))
	require.True(t, p.Profile)
	icc, err := p.ICC()
	require.NoError(t, err)
	require.Equal(t, "seaside", string(icc))
	_, err = openBytes(t, splice(jpg, 2, piece(1, 2, "sea"))).ICC()
	require.ErrorContains(t, err, "1 of 2 pieces are missing")
	icc, err = openBytes(t, jpg).ICC()
	require.NoError(t, err)
	require.Nil(t, icc)
	p = openBytes(t, splice(fixture(t, "rgb8.png"), 33, appendChunk(nil, "iCCP", append([]byte("sea\x00\x00"), deflated("seaside")...))))
	icc, err = p.ICC()
	require.NoError(t, err)
	require.Equal(t, "seaside", string(icc))
}

func TestOtherFormatsAreNamed(t *testing.T) {
	for start, words := range map[string]string{
		"":                                   "the file is empty",
		"GIF89a":                             "this is a GIF",
		"RIFF\x00\x00\x00\x00WEBPVP8 ":       "this is a WebP",
		"\x00\x00\x00\x20ftypheic":           "export it as JPEG",
		"II*\x00\x08\x00\x00\x00":            "a TIFF",
		"%PDF-1.7":                           "this is a PDF",
		"8BPS\x00\x01":                       "flatten it",
		" <svg xmlns=''>":                    "ending .svg",
		"\ufeff<?xml version='1.0'?>":        "ending .svg",
		"<!DOCTYPE html>":                    "web page",
		"\x89PNG\n\x1a\n":                    "copied as text",
		"\x89PNG\r":                          "ends inside its signature",
		"\xff\xd8":                           "nothing readable follows",
		"hello":                              "neither those of a PNG nor of a JPEG",
		"\x00":                               "neither those of a PNG nor of a JPEG",
		"\x00\x00\x00\x0cjP  \r\n\x87\n\x00": "a JPEG 2000",
	} {
		_, err := Open(bytes.NewReader([]byte(start)), int64(len(start)))
		require.ErrorContains(t, err, words, "%q", start)
	}
}

// failing gives an error of its own instead of bytes.
type failing struct {
	io.ReaderAt
	from int64
	err  error
}

func (f failing) ReadAt(p []byte, at int64) (int, error) {
	if at+int64(len(p)) > f.from {
		return 0, f.err
	}
	return f.ReaderAt.ReadAt(p, at)
}

func TestErrorsOfTheReaderComeBackAsTheyAre(t *testing.T) {
	gone := errors.New("the disk is gone")
	for _, name := range []string{"plain-420.jpg", "progressive-420.jpg", "rgb8.png", "interlaced.png"} {
		b := fixture(t, name)
		r := &failing{bytes.NewReader(b), 1 << 30, gone}
		p, err := Open(r, int64(len(b)))
		require.NoError(t, err)
		r.from = 0
		require.ErrorIs(t, p.Strips(0, func(image.Image) error { return nil }), gone, name)
		_, err = Open(r, int64(len(b)))
		require.ErrorIs(t, err, gone)
	}
}
