package cli

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/render/reread"
)

// checker writes a board of 12 by 8 squares, each of so many pixels a side, black at the upper left.
func checker(t *testing.T, name string, side int) string {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 12*side, 8*side))
	for y := range 8 * side {
		for x := range 12 * side {
			if (x/side+y/side)%2 == 1 {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	var b bytes.Buffer
	if filepath.Ext(name) == ".png" {
		require.NoError(t, png.Encode(&b, img))
	} else {
		require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: 100}))
	}
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o600))
	return file
}

var tick = regexp.MustCompile(`^(\d+)(?: (left|right|up|down))?$`)

// ticked finds where on a page the place lies from which its ticks count, by those ticks alone: each is a short line with its
// distance behind it.
func ticked(t *testing.T, p reread.Page) reread.Point {
	t.Helper()
	at, seen := reread.Point{}, [2]bool{}
	for _, l := range p.Texts {
		m := tick.FindStringSubmatch(l.Text)
		if m == nil || m[2] == "" {
			continue
		}
		d, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		if m[2] == "left" || m[2] == "down" {
			d = -d
		}
		across := m[2] == "left" || m[2] == "right"
		for _, path := range p.Paths {
			for _, s := range path.Subs {
				if path.Filled || len(s.Points) != 2 {
					continue
				}
				a, b := s.Points[0], s.Points[1]
				near := max(a.X, b.X) < l.At.X && max(a.X, b.X) > l.At.X-3 && math.Abs((a.Y+b.Y)/2-l.At.Y) < 3
				switch {
				case near && across && a.X == b.X && math.Abs(a.Y-b.Y) < 8:
					if seen[0] {
						require.InDelta(t, at.X, a.X-d, 0.01, "two ticks of a page: %s", l.Text)
					}
					at.X, seen[0] = a.X-d, true
				case near && !across && a.Y == b.Y && math.Abs(a.X-b.X) < 8:
					if seen[1] {
						require.InDelta(t, at.Y, a.Y-d, 0.01, "two ticks of a page: %s", l.Text)
					}
					at.Y, seen[1] = a.Y-d, true
				}
			}
		}
	}
	require.Equal(t, [2]bool{true, true}, seen, "page %d has ticks both ways", p.Number)
	return at
}

// change returns where grey turns from dark to light or back along a line of samples, no further than reach from the middle; nothing
// where it does so more than once: something else lies there.
func change(shade func(mm float64) uint8, middle, reach, step float64) (at float64, ok bool) {
	n := int(2 * reach / step)
	was := shade(middle-reach) > 127
	turns := 0
	for i := 1; i <= n; i++ {
		mm := middle - reach + float64(i)*step
		if is := shade(mm) > 127; is != was {
			at, was = mm-step/2, is
			turns++
		}
	}
	return at, turns == 1
}

// bare reports whether nothing but the artwork lies within reach of a place on a page: no word, no line, no white beneath them.
func bare(p reread.Page, at reread.Point) bool {
	const reach = 5
	covers := func(a, b reread.Point) bool {
		return at.X > min(a.X, b.X)-reach && at.X < max(a.X, b.X)+reach && at.Y > min(a.Y, b.Y)-reach && at.Y < max(a.Y, b.Y)+reach
	}
	for _, l := range p.Texts {
		if covers(l.At, reread.Point{X: l.At.X + l.Width, Y: l.At.Y + l.Em}) || l.Turn != 0 && covers(l.At, reread.Point{X: l.At.X, Y: l.At.Y + l.Width}) {
			return false
		}
	}
	for _, path := range p.Paths {
		for _, s := range path.Subs {
			for i, q := range s.Points {
				from := s.Points[max(i-1, 0)]
				switch {
				case path.Filled:
					from = s.Points[(i+len(s.Points)/2)%len(s.Points)] // across it
				case i == 0 && s.Closed:
					from = s.Points[len(s.Points)-1]
				}
				if covers(from, q) {
					return false
				}
			}
		}
	}
	return covers(reread.Point{X: 2 * reach, Y: 2 * reach}, reread.Point{X: p.Size.W - 2*reach, Y: p.Size.H - 2*reach})
}

// A picture made of pixels on many pages: measured from each page's own ticks, the edges of its pixels lie on every page where they
// should, to 0.1 mm, whether it is stored anew or its own blocks are.
func TestPixelsOnPages(t *testing.T) {
	reread.Need(t, "mutool", "pdftoppm")
	const dpi, square = 450, 40.0
	for _, c := range []struct {
		name string
		side int // pixels of a square
	}{{"checker.png", 1}, {"checker.jpg", 16}} {
		t.Run(c.name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "c.pdf")
			runMain(t, exitOK, "enlarge", checker(t, c.name, c.side), "--width", "480", "--sheets", "tiles", "-o", out)
			pages := reread.Trace(t, out, "2-N") // after the cover
			require.GreaterOrEqual(t, len(pages), 4)
			for k, p := range pages {
				origin := ticked(t, p)
				if (k+c.side)%2 == 0 {
					continue // drawn for the other picture
				}
				img := reread.Raster(t, out, p.Number, dpi)
				shade := func(x, y float64) uint8 {
					px, py := int(x*dpi/25.4), int((p.Size.H-y)*dpi/25.4)
					if !(image.Point{X: px, Y: py}).In(img.Bounds()) {
						return 255
					}
					return img.GrayAt(px, py).Y
				}
				edges := 0
				for i := range 11 { // the outer edges lie under the cut line
					for j := range 8 {
						x, y := origin.X+float64(i-5)*square, origin.Y+(float64(j)+0.5)*square
						if !bare(p, reread.Point{X: x, Y: y}) {
							continue
						}
						if at, ok := change(func(mm float64) uint8 { return shade(mm, y) }, x, 4, 25.4/dpi/2); ok {
							require.InDelta(t, x, at, 0.1, "page %d, upright edge %d in row %d", p.Number, i, j)
							edges++
						}
					}
				}
				for i := range 12 {
					for j := range 7 {
						x, y := origin.X+(float64(i)-5.5)*square, origin.Y+float64(j+1)*square
						if !bare(p, reread.Point{X: x, Y: y}) {
							continue
						}
						if at, ok := change(func(mm float64) uint8 { return shade(x, mm) }, y, 4, 25.4/dpi/2); ok {
							require.InDelta(t, y, at, 0.1, "page %d, level edge %d in column %d", p.Number, j, i)
							edges++
						}
					}
				}
				require.Greater(t, edges, 5, "page %d", p.Number)
			}
		})
	}
}

// lettered returns where the letters and numbers of a squared-up sheet's lines stand: each at two ends.
func lettered(t *testing.T, p reread.Page) map[string][]reread.Point {
	t.Helper()
	label := regexp.MustCompile(`^([A-Z]{1,2}|\d{1,2})$`)
	out := map[string][]reread.Point{}
	for _, l := range p.Texts {
		if strings.Contains(l.Font, "Bold") && label.MatchString(l.Text) {
			middle := l.At
			middle.X += l.Width / 2
			out[l.Text] = append(out[l.Text], middle)
		}
	}
	for k, v := range out {
		require.Len(t, v, 2, "%s stands at both ends of its line", k)
	}
	return out
}

// The small sheet under its grid and the large grid have the same letters and numbers, in the same places of the cloth.
func TestSquaringSheetsAgree(t *testing.T) {
	reread.Need(t, "mutool")
	out := filepath.Join(t.TempDir(), "c.pdf")
	runMain(t, exitOK, "enlarge", checker(t, "checker.png", 1), "--width", "9000", "--hem", "top 100 bottom 300 left 50 right 80", "--sheets", "squaring,grid", "-o", out)
	pages := reread.Trace(t, out, "2-3")
	small, large := lettered(t, pages[0]), lettered(t, pages[1])
	require.Len(t, small, 19+13, "9000 by 6000 in squares of 500")
	require.Len(t, large, len(small))
	// Places in squares of the grid, from the centre line and the lower edge.
	squares := func(at map[string][]reread.Point, label string) reread.Point {
		middle, side := at["K"][0].X, (at["W"][0].X-at["A"][0].X)/18
		foot, up := at["0"][0].Y, (at["12"][0].Y-at["0"][0].Y)/12
		return reread.Point{X: (at[label][0].X - middle) / side, Y: (at[label][0].Y - foot) / up}
	}
	for label := range small {
		a, b := squares(small, label), squares(large, label)
		if label[0] >= 'A' {
			require.InDelta(t, a.X, b.X, 0.02, label)
			require.InDelta(t, math.Round(a.X), a.X, 0.02, label)
		} else {
			require.InDelta(t, a.Y, b.Y, 0.02, label)
			require.InDelta(t, math.Round(a.Y), a.Y, 0.02, label)
		}
	}
	// Each line's own distance from the centre line, by its side, and from the lower edge.
	says := strings.Split(lettering(pages[1]), "\n")
	for _, want := range []string{"4500 L", "500 R", "4500 R", "6000", "3500"} {
		require.Contains(t, says, want)
	}
}
