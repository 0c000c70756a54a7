package rules

import (
	"bytes"
	"image"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/artwork"
	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/set"
)

// clothOf is a set of one cloth.
func clothOf(k *set.Cloth) *set.Set {
	if k.Shown == (geom.Rect{}) {
		k.Shown = k.Finished()
	}
	return of(element("harbour", k, place(0, 5500, 0, 0)))
}

// drawn is artwork of 300 by 200 mm.
func drawn() *set.Artwork {
	return &set.Artwork{Drawn: true, Picture: &artwork.Picture{W: 300, H: 200}}
}

// cloths are sets that give every caution of cloths.
func cloths(t testing.TB) []*set.Set {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 300, 200))))
	p, _, err := artwork.ReadPixels(b.Bytes())
	require.NoError(t, err)
	return []*set.Set{
		clothOf(&set.Cloth{Art: &set.Artwork{Picture: p}, Width: 9000, Height: 6000, Crop: geom.Rect{Max: geom.Point{X: 300, Y: 200}}, Frame: artwork.Matrix{A: 30, D: 30, E: -4500}}),
		clothOf(&set.Cloth{Art: drawn(), Width: 8000, Height: 4000, Fit: "stretch", Crop: geom.Rect{Max: geom.Point{X: 300, Y: 200}}, Frame: artwork.Matrix{A: 8000 / 300.0, D: 20, E: -4000}}),
		clothOf(&set.Cloth{Art: drawn(), Width: 8000, Height: 4000, Fit: "fill", Crop: geom.Rect{Min: geom.Point{Y: 25}, Max: geom.Point{X: 300, Y: 175}}, Frame: artwork.Matrix{A: 8000 / 300.0, D: 8000 / 300.0, E: -4000}}),
		clothOf(&set.Cloth{Art: drawn(), Width: 9000, Height: 6000, Allow: set.Allowance{Top: 100, Left: 50}, Crop: geom.Rect{Max: geom.Point{X: 300, Y: 200}}, Frame: artwork.Matrix{A: 30, D: 30, E: -4500}}),
		clothOf(&set.Cloth{Art: drawn(), Width: 8000, Height: 4000, Fit: "whole", Crop: geom.Rect{Max: geom.Point{X: 300, Y: 200}}, Frame: artwork.Matrix{A: 20, D: 20, E: -3000},
			Shown: geom.Rect{Min: geom.Point{X: -3000}, Max: geom.Point{X: 3000, Y: 4000}}}),
	}
}

// By hand: 30 mm pixels are 0.8 to the inch and disappear from 103.1 m; 8000 × 4000 out of 300 × 200 is 4/3 as wide as drawn; half as high
// as wide of two thirds leaves 3 of 4; 6000 of 8000 covered leaves a quarter.
func TestCloths(t *testing.T) {
	var got []caution.Caution
	for _, s := range cloths(t) {
		list := Check(s)
		require.Len(t, list, 1)
		got = append(got, list[0])
	}
	require.Equal(t, "CLOTH-PIXELS", got[0].Code)
	require.Equal(t, "0.85 pixels per inch on the cloth", got[0].Figure)
	require.Equal(t, "pixels disappear from 103 m", got[0].Limit)
	require.Equal(t, "CLOTH-FIT", got[1].Code)
	require.Equal(t, "33.3 % wider", got[1].Figure)
	require.Equal(t, "CLOTH-CROP", got[2].Code)
	require.Equal(t, "25 % cut off", got[2].Figure)
	require.Equal(t, "CLOTH-WHITE", got[3].Code)
	require.Equal(t, "the allowance above and at the left", got[3].Figure)
	require.Equal(t, "CLOTH-WHITE", got[4].Code)
	require.Equal(t, "25 % of the finished cloth", got[4].Figure)
}

// A cloth whose artwork fills it and goes on over what is allowed has nothing said of it.
func TestClothWithNothingToSay(t *testing.T) {
	k := &set.Cloth{Art: drawn(), Width: 6000, Height: 4000, Allow: set.Allowance{Top: 100, Bottom: 100, Left: 100, Right: 100},
		Crop: geom.Rect{Min: geom.Point{X: 30, Y: 20}, Max: geom.Point{X: 270, Y: 180}}, Frame: artwork.Matrix{A: 25, D: 25, E: -25 * 150, F: -25 * 20}}
	k.Shown = k.Whole()
	require.Empty(t, Check(clothOf(k)))
}
