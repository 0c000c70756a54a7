package layout_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// svg is a drawing in a frame of w by h millimetres.
func svg(w, h float64, drawn string) string {
	return fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" viewBox=\"0 0 %[1]g %[2]g\">\n%[3]s\n</svg>\n", w, h, drawn)
}

// upright is a board of 100 by 300 in a frame of 400 by 400, nearer its left edge and off its bottom.
var upright = svg(400, 400, `<rect x="60" y="50" width="100" height="300"/>`)

// flag is a pole of 20 by 300 with a cloth of 80 by 100 at its top, to the right.
var flag = svg(200, 320, `<path d="M50 10 h100 v100 h-80 v200 h-20 z"/>`)

// openArt opens a text beside pictures and lists.
func openArt(t *testing.T, text string, more texts, with ...string) *set.Set {
	t.Helper()
	s, list := openArtList(text, more, with...)
	require.False(t, list.HasErrors(), printed(list))
	return s
}

func openArtList(text string, more texts, with ...string) (*set.Set, *diag.List) {
	all := texts{"main.markout": text, "upright.svg": upright, "flag.svg": flag, "bar.png": paint("png", true), "two.svg": svg(400, 400, `<rect x="0" y="0" width="50" height="300"/><rect x="70" y="0" width="30" height="50"/>`)}
	for name, t := range more {
		all[name] = t
	}
	return layout.Open(all, "main.markout", layout.Options{With: with})
}

func figureOf(t *testing.T, s *set.Set, name string) *set.Figure {
	t.Helper()
	e := s.Find(name)
	require.NotNil(t, e, name)
	return e.Shape.(*set.Figure)
}

// traced is how far straight edges may lie from what is drawn, at life size.
const traced = 0.001

func requireBox(t *testing.T, x0, y0, x1, y1 float64, box geom.Rect) {
	t.Helper()
	require.InDelta(t, x0, box.Min.X, traced)
	require.InDelta(t, y0, box.Min.Y, traced)
	require.InDelta(t, x1, box.Max.X, traced)
	require.InDelta(t, y1, box.Max.Y, traced)
}

// The height is that of what is drawn, not of the frame around it: 100 by 300 at 1780 high is 1780/3 wide.
func TestFigureIsAsHighAsItIsDrawn(t *testing.T) {
	s := openArt(t, deck+lines("figure pilot", `artwork "upright.svg"`, "height 1780", "ground 40", "eye 1660", "thickness 9", "on deck", "at 300, -200", "turn 90deg"), nil)
	f := figureOf(t, s, "pilot")
	require.InDelta(t, 1780/3.0, f.Width, traced)
	requireBox(t, -1780/6.0, 40, 1780/6.0, 1820, f.Box())
	require.Len(t, f.Bodies, 1)
	require.Positive(t, f.Bodies[0].Outer.Area())
	corner := f.Frame.Apply(geom.Point{X: 60, Y: 50}) // its lower left corner in the artwork, y up
	require.InDelta(t, -1780/6.0, corner.X, traced)
	require.InDelta(t, 40, corner.Y, traced)
	z, ok := f.EyeLine()
	require.True(t, ok)
	require.Equal(t, 1700.0, z)
	at := s.Find("pilot").Copies[0].Places[0].Frame
	require.Equal(t, geom.Vec{X: 300, Y: -200, Z: 450}, at.T)
	require.Equal(t, 450+1820.0, set.Top(s.Find("pilot"), s.Find("pilot").Copies[0].Places[0]))
	require.True(t, f.Art.Drawn)
	require.Equal(t, sha256.Sum256([]byte(upright)), f.Art.SHA256)
	points := set.FloorPoints(s.Find("pilot"), s.Find("pilot").Copies[0].Places[0])
	require.Equal(t, "P", points[0].Name)
	require.InDelta(t, -200-1780/6.0, points[0].At.Y, traced, "left as seen from its front, which looks to plan-right")
	require.Equal(t, "Q", points[1].Name)
	foot := set.Footprints(f)[0].Bounds()
	require.InDelta(t, 9, foot.H(), 1e-9)
	require.Zero(t, foot.Min.Y)
}

// Of curves too the height is what was asked for, and the width as it is drawn: an ellipse of 120 by 300 is 712 wide at 1780.
func TestFigureOfCurves(t *testing.T) {
	s := openArt(t, lines("figure egg", `artwork "egg.svg"`, "height 1780"), texts{"egg.svg": svg(200, 400, `<ellipse cx="90" cy="170" rx="60" ry="150"/>`)})
	f := figureOf(t, s, "egg")
	require.InDelta(t, 1780, f.Box().H(), 1e-6)
	require.InDelta(t, 712, f.Width, 0.25)
	require.InDelta(t, math.Pi*712*1780/4, f.Bodies[0].Area(), 0.25*math.Pi*(712+1780)/2)
	top := f.Frame.Apply(geom.Point{X: 90, Y: 400 - 20})
	require.InDelta(t, 0, top.X, 0.25)
	require.InDelta(t, 1780, top.Y, 0.25)
}

// A flag at a pole's right flies to the left when it is flipped, and hangs down on the left when it is turned half round.
func TestFigureFlippedAndHung(t *testing.T) {
	text := ""
	for _, how := range []string{"plain", "flipped", "hung", "hung_flipped"} {
		text += lines("figure "+how, append([]string{`artwork "flag.svg"`, "height 1500", "eye 1400", "facing left"}, strings.Split(strings.Replace(how, "plain", "note \"x\"", 1), "_")...)...)
	}
	s := openArt(t, text, nil)
	for how, want := range map[string]struct {
		pole, cloth geom.Point // in its middle, and at the outer corner of the cloth
		eye         float64
		looks       string
	}{
		"plain":        {geom.Point{X: -200, Y: 0}, geom.Point{X: 250, Y: 1500}, 1400, "left"},
		"flipped":      {geom.Point{X: 200, Y: 0}, geom.Point{X: -250, Y: 1500}, 1400, "right"},
		"hung":         {geom.Point{X: 200, Y: 1500}, geom.Point{X: -250, Y: 0}, 100, "right"},
		"hung_flipped": {geom.Point{X: -200, Y: 1500}, geom.Point{X: 250, Y: 0}, 100, "left"},
	} {
		f := figureOf(t, s, how)
		require.InDelta(t, 500, f.Width, traced, how)
		requireBox(t, -250, 0, 250, 1500, f.Box())
		pole, cloth := f.Frame.Apply(geom.Point{X: 60, Y: 10}), f.Frame.Apply(geom.Point{X: 150, Y: 310})
		require.InDelta(t, want.pole.X, pole.X, traced, how)
		require.InDelta(t, want.pole.Y, pole.Y, traced, how)
		require.InDelta(t, want.cloth.X, cloth.X, traced, how)
		require.InDelta(t, want.cloth.Y, cloth.Y, traced, how)
		z, _ := f.EyeLine()
		require.Equal(t, want.eye, z, how)
		require.Equal(t, want.looks, f.Looks(), how)
		require.Positive(t, f.Bodies[0].Outer.Area(), how)
		require.True(t, f.Bodies[0].Contains(pole.Add(geom.Point{Y: (750 - pole.Y) / 100})), how)
		require.Equal(t, how == "flipped" || how == "hung_flipped", f.Frame.Det() < 0, "turned half round is not mirrored")
	}
}

func TestFigureHangsOnAWall(t *testing.T) {
	s := openArt(t, lines("flat w", "from -1500, 2000 to 1500, 2000", "height 3000", "thickness 45")+
		lines("figure bird", `artwork "bar.png"`, "height 600", "thickness 9", "on w at 1000 level 1400"), nil)
	at := s.Find("bird").Copies[0].Places[0]
	require.InDelta(t, -500, at.Frame.T.X, 1e-9)
	require.InDelta(t, 2000-9, at.Frame.T.Y, 1e-9, "its back on the face")
	require.Equal(t, 1400.0, at.Frame.T.Z)
	require.Equal(t, "w", at.On)
}

func TestFigureHead(t *testing.T) {
	s := openArt(t, lines("figure a", `artwork "bar.png"`, "height 1780", "eye 1660", "show head")+
		lines("figure b", `artwork "bar.png"`, "height 1780", "show head 300")+lines("figure c", `artwork "bar.png"`, "height 1780"), nil)
	require.Equal(t, 240.0, figureOf(t, s, "a").Head, "eyes stand half way down a head: common practice, no source")
	require.Equal(t, 300.0, figureOf(t, s, "b").Head)
	require.Zero(t, figureOf(t, s, "c").Head)
}

func TestFigureMarginAndBodies(t *testing.T) {
	s := openArt(t, lines("figure a", `artwork "upright.svg"`, "height 1800", "margin 10")+
		lines("figure b", `artwork "two.svg"`, "height 600")+lines("figure c", `artwork "two.svg"`, "height 600", "bodies all")+
		lines("mark m", "point a.end"), nil)
	a := figureOf(t, s, "a")
	requireBox(t, -310, -10, 310, 1810, a.Box())
	require.InEpsilon(t, 600*1800, a.Drawn[0].Area(), 1e-4)
	require.InDelta(t, 600, a.Width, traced, "the drawn figure's own")
	require.InDelta(t, 310, s.Find("m").Copies[0].Places[0].Frame.T.X, traced)
	b, c := figureOf(t, s, "b"), figureOf(t, s, "c")
	require.Equal(t, 1, b.Others)
	require.Len(t, b.Bodies, 1)
	require.InDelta(t, 100, b.Width, traced)
	require.Len(t, c.Bodies, 2)
	require.Zero(t, c.Others)
	require.InDelta(t, 200, c.Width, traced)
}

func TestFigureLooks(t *testing.T) {
	s := openArt(t, lines("hall h", "outline rect 9m x 9m", "at 0, 3600")+
		lines("figure a", `artwork "bar.png"`, "height 1780", "eye 1660", "look at b")+
		lines("figure b", `artwork "bar.png"`, "height 1200", "eye 1100", "look at a", "at 3000, 0", "turn 90deg", "level 200")+
		lines("figure c", `artwork "bar.png"`, "height 1200", "eye 1100", "look at 100, 200", "in h")+
		lines("figure d", `artwork "bar.png"`, "height 1200", "eye 1100", "look at a.centre level 500"), nil)
	requireVec := func(want, got geom.Vec) {
		t.Helper()
		require.InDelta(t, want.X, got.X, traced)
		require.InDelta(t, want.Y, got.Y, traced)
		require.InDelta(t, want.Z, got.Z, traced)
	}
	requireVec(geom.Vec{X: 3000, Z: 1300}, figureOf(t, s, "a").LookAt.At)
	requireVec(geom.Vec{Z: 1660}, figureOf(t, s, "b").LookAt.At)
	requireVec(geom.Vec{X: 100, Y: -700, Z: 1100}, figureOf(t, s, "c").LookAt.At)
	requireVec(geom.Vec{Z: 500}, figureOf(t, s, "d").LookAt.At)
	require.Equal(t, "b", figureOf(t, s, "a").LookAt.Words)
}

// paint makes a picture of pixels: a dark upright bar of 40 by 120 in a light one of 100 by 160.
func paint(format string, alpha bool) string {
	img := image.NewNRGBA(image.Rect(0, 0, 100, 160))
	for y := range 160 {
		for x := range 100 {
			img.SetNRGBA(x, y, color.NRGBA{240, 240, 240, 255})
			if alpha {
				img.SetNRGBA(x, y, color.NRGBA{})
			}
			if x >= 30 && x < 70 && y >= 20 && y < 140 {
				img.SetNRGBA(x, y, color.NRGBA{30, 40, 50, 255})
			}
		}
	}
	var b bytes.Buffer
	if format == "png" {
		_ = png.Encode(&b, img)
	} else {
		_ = jpeg.Encode(&b, img, &jpeg.Options{Quality: 100})
	}
	return b.String()
}

func TestFigureOfPixels(t *testing.T) {
	more := texts{"a.png": paint("png", true), "b.dat": paint("png", false), "c.jpg": paint("jpeg", false)}
	s := openArt(t, lines("figure a", `artwork "a.png"`, "height 1200")+lines("figure b", `artwork "b.dat"`, "height 1200", "background light", "within 0.5px")+
		lines("figure c", `artwork "c.jpg"`, "height 1200", "background border 0.5"), more)
	for _, name := range []string{"a", "b", "c"} {
		f := figureOf(t, s, name)
		require.InDelta(t, 400, f.Width, 10, "a pixel is 10 mm")
		require.False(t, f.Art.Drawn)
		require.Equal(t, 100.0, f.Art.Picture.W)
	}
	require.Equal(t, 0.5, figureOf(t, s, "b").Tolerance)
	require.Equal(t, 1.0, figureOf(t, s, "a").Tolerance)
	require.Len(t, s.Files, 4)
	require.Equal(t, set.SourceFile{Name: "a.png", SHA256: sha256.Sum256([]byte(more["a.png"])), Pixels: image.Pt(100, 160), Bytes: int64(len(more["a.png"]))}, s.Files[1])
	require.Empty(t, s.Said)
}

// A drawing's pictures lie beside it or elsewhere in the set's folder; they are among the set's files, once.
func TestPicturesBesideDrawings(t *testing.T) {
	svg := func(link string) string {
		return `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="160"><image href="` + link + `" width="100" height="160"/><rect width="100" height="9"/></svg>`
	}
	picture := paint("png", true)
	s := openArt(t, lines("figure a", `artwork "art/a.svg"`, "height 1200")+lines("figure b", `artwork "art/b.svg"`, "height 1200")+lines("figure c", `artwork "c.png"`, "height 1200"),
		texts{"art/a.svg": svg("../c.png"), "art/b.svg": svg("d.png"), "c.png": picture, "art/d.png": picture})
	var names []string
	for _, f := range s.Files {
		names = append(names, f.Name)
	}
	require.Equal(t, []string{"main.markout", "art/a.svg", "c.png", "art/b.svg", "art/d.png"}, names)
	require.Equal(t, set.SourceFile{Name: "c.png", SHA256: sha256.Sum256([]byte(picture)), Pixels: image.Pt(100, 160), Bytes: int64(len(picture))}, s.Files[2])
	require.Equal(t, figureOf(t, s, "a").Width, figureOf(t, s, "b").Width)
	for _, link := range []string{"../../c.png", "../art/../../c.png"} {
		_, list := layout.Open(texts{"main.markout": "set \"Quay\"\n    issue A 2026-11-20\n    units mm\n\n" + lines("figure a", `artwork "art/a.svg"`, "height 1200"),
			"art/a.svg": svg(link), "../c.png": picture}, "main.markout", layout.Options{})
		require.NotZero(t, list.Errors())
		require.Equal(t, "ART-OUTSIDE", list.Sorted()[0].Code)
	}
}

// A picture that several pieces name is read once, and is among the set's files once.
func TestArtworkIsReadOnce(t *testing.T) {
	s := openArt(t, lines("figure a", `artwork "bar.png"`, "height 1200")+lines("cloth b", `artwork "./bar.png"`, "width 1200")+
		"include \"more/b.markout\"\n", texts{"more/b.markout": lines("figure c", `artwork "../bar.png"`, "height 900")})
	require.Len(t, s.Files, 3)
	require.Equal(t, []string{"main.markout", "more/b.markout", "bar.png"}, []string{s.Files[0].Name, s.Files[1].Name, s.Files[2].Name})
	require.Same(t, figureOf(t, s, "a").Art.Picture, figureOf(t, s, "c").Art.Picture)
	require.NotEqual(t, figureOf(t, s, "a").Art.Span, figureOf(t, s, "c").Art.Span)
}

// What the reader of a drawing leaves out is a caution of the set, at its place in the drawing.
func TestArtworkCautions(t *testing.T) {
	s := openArt(t, lines("cloth a", `artwork "t.svg"`, "height 1200"), texts{"t.svg": svg(100, 100, `<rect width="9" height="9"/><text>x</text>`)})
	require.Len(t, s.Said, 1)
	require.Equal(t, "ART-TEXT", s.Said[0].Code)
	require.Equal(t, "t.svg:2:29", s.Sources.Position(s.Said[0].Span).String())
}
