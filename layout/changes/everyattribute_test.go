package changes_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/changes"
	"markout/layout/diag"
	"markout/layout/element"
	"markout/layout/notation"
	"markout/layout/set"
)

// A yard in which every attribute's example can stand, but for what each kind wants of its own.
const yardHead = `set "Yard"
    card wall 1.5  detail 0.3
platform deck
    outline rect 3000 x 2000
    at 0, 6000
    height 450
platform stage
    outline rect 1000 x 1000
    at 3000, 6000
    height 200
flat WALL
    from -3000, 7500 to 3000, 7500
    height 3000
board "ply 18" 2440 x 1220 thick 17.6
length "batten 44" 44 x 69 long 4800
`

const (
	yardHall = "hall quay_hall\n    outline rect 9000 x 8000\n    at 0, 3600\n"
	square   = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="200" viewBox="0 0 100 200"><path d="M0 0H100V200H0Z"/></svg>`
	leaning  = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="200" viewBox="0 0 100 200"><path d="M0 0H90L100 200H0Z"/></svg>`
)

// What each kind's attributes are tried on, one after the other: some attributes stand only where others do, or do not.
var tryOn = map[string][]string{
	"hall":     {"outline rect 9000 x 8000"},
	"platform": {"outline rect 3000 x 2000\nheight 450", "outline rect 3000 x 2000\nheight 450\nrepeat 12 by 3000, 0"},
	"steps": {"meets deck.front\nrisers 3\ngoing 300\nwidth 1800", "starts 0, 0 heading 90deg\nrisers 3\nrise 150\ngoing 300\nwidth 1800",
		"starts 0, 0 heading 90deg\ngoing 300\nwidth 900", "starts 0, 0 heading 90deg\nrisers 4\nrise 150\ngoing 300\nwidth 900", "starts 0, 0 heading 90deg\nrises 140 165 150\ngoings 300 320\nwidths 1400 1300", "starts 0, 0 heading 90deg\nrises 140 165 150\ngoing 300\nwidth 900\nbuilt blocks",
		"starts 0, 0 heading 90deg\nrisers 8\nrise 150\ngoing 280\nwidth 900", "along path 0,0 line 0,4000 centre\nrisers 9\nrise 150\ngoing 500\nwidth 900",
		"along path 0,0 line 0,4000 centre\nrisers 9\nrise 150\nwidth 900",
		"starts 0, 0 heading 90deg\nrisers 3\nrise 150\ngoing 300\nwidth 900\nrepeat 12 by 2000, 0", "meets deck.front\nrisers 3\ngoing 300\nwidth 900\nrepeat 12 by 3000, 0"},
	"ramp": {"meets deck.back\nlength 3600\nwidth 1200", "starts 0, 0 heading 90deg\nlength 3600\nrise 450\nwidth 1200",
		"starts 0, 0 heading 90deg\nrise 450\nwidth 1200", "starts 0, 0 heading 90deg\nlength 3600\nrise 450\nwidth 1200\nrepeat 12 by 2000, 0"},
	"post": {"outline rect 100 x 200\nheight 700", "diameter 60\nheight 700", "height 700", "diameter 60\nheight 700\nrepeat 12 by 500, 0"},
	"flat": {"from -2400, 3000 to 2400, 3000\nheight 2400\nthickness 60", "along path 0,0 arc to 2400,0 radius 2000 right\nheight 2400\nthickness 60",
		"from 0, 3000 to 2400, 3000\nheight 2400\nrepeat 12 by 0, 500"},
	"ring":  {"outer rect 900 x 700\nheight 100", "outer circle 5200\nheight 100", "outer circle 5200\nheight 100\nrepeat 12 by 500, 0"},
	"cone":  {"lower 900\nupper 300\nheight 1800\nsides 4", "lower 900\nupper 300\nheight 1800", "lower 900\nupper 300\nheight 1800\nrepeat 12 by 500, 0"},
	"shape": {"outline rect 2400 x 1200", "outline rect 2400 x 1200\nthickness 18\nrepeat 12 by 500, 0", "outline points 0,0 3000,0 3000,700 1500,1100 0,400", "outline rect 2400 x 1200\nstands from 0,0 to 2400,0"},
	"figure": {"artwork \"pilot.svg\"\nheight 1780", "artwork \"pilot.png\"\nheight 1780", "artwork \"pilot.png\"\nheight 1780\nbackground light", "artwork \"pilot.svg\"\nheight 1780\nrepeat 12 by 500, 0",
		"artwork \"pilot.svg\"\nheight 1780\neye 1660"},
	"cloth": {"artwork \"harbour.svg\"\nwidth 9000", "artwork \"harbour.svg\"\nwidth 9000\nheight 4000\nfit fill",
		"artwork \"harbour.svg\"\nwidth 9000\nrepeat 12 by 500, 0", "artwork \"harbour.svg\"\nheight 4000", "artwork \"harbour.svg\""},
	"dressing": {"size 600 x 400\nheight 700", "size 600 x 400\nheight 700\nrepeat 12 by 500, 0", "height 700"},
	"room":     {"outline rect 4200 x 3600", "outline rect 4200 x 3600\noverhead 4900 turned lengthways"},
	"mark":     {"path 0,0 line 1000,0", "point 100, 100", "path 0,0 line 1000,0 line 1000,1000", "point 100, 100\nrepeat 12 by 500, 0", "", "path 0,0 line 3000,0\nrepeat 12 by 0, 500"},
	"walk":     {"path 0,0 line 0,4000", "over deck"},
	"reserve":  {"outline rect 1500 x 900\nheight 2000", "outline circle 1500\nheight 2000", "outline circle 1500\nheight 2000\nrepeat 12 by 500, 0"},
}

// discPicture is a large disc and a small one of pixels on a white ground.
var discPicture = func() string {
	img := image.NewGray(image.Rect(0, 0, 60, 40))
	for y := range 40 {
		for x := range 60 {
			if (x-20)*(x-20)+(y-20)*(y-20) >= 225 && (x-48)*(x-48)+(y-20)*(y-20) >= 49 {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	var b bytes.Buffer
	_ = png.Encode(&b, img)
	return b.String()
}()

// Other values of attributes whose examples have no number.
var moreLines = map[string][]string{
	"steps meets":       {"meets deck.back"},
	"ramp meets":        {"meets deck.left"},
	"walk over":         {"over deck, stage"},
	"figure background": {"background dark"},
	"figure bodies":     {"bodies all"},
}

func inYard(kind, body string) string {
	text := yardHead
	if kind != "hall" {
		text += yardHall
	}
	text += kind + " thing\n"
	for _, line := range strings.Split(body, "\n") {
		if line != "" {
			text += "    " + line + "\n"
		}
	}
	return text
}

// Each text is a file of its own beside the same pictures, which are traced once.
var (
	pictures layout.Memory
	opened   int
)

func tryOpen(text string) (*set.Set, bool) {
	opened++
	name := strconv.Itoa(opened) + ".markout"
	files := texts{name: text, "pilot.svg": square, "heron.svg": leaning, "harbour.svg": leaning, "pilot.png": discPicture}
	s, list := layout.Open(files, name, layout.Options{Memory: &pictures})
	return s, !list.HasErrors()
}

var numberIn = regexp.MustCompile(`\d+(\.\d+)?`)

// otherwise returns an attribute's line with each of its numbers changed in turn.
func otherwise(line string) []string {
	var out []string
	for _, at := range numberIn.FindAllStringIndex(line, -1) {
		x, _ := strconv.ParseFloat(line[at[0]:at[1]], 64)
		for _, y := range []float64{x + 1, x * 0.9} {
			out = append(out, line[:at[0]]+strconv.FormatFloat(y, 'f', -1, 64)+line[at[1]:])
		}
	}
	return out
}

// linesOf returns an attribute's line with what may stand under it.
func linesOf(a *notation.Attr) []string {
	out := []string{a.Example}
	for _, s := range a.Sub {
		out = append(out, a.Example+"\n    "+s.Example)
	}
	return out
}

// Whatever attribute is added, taken away or given another value, something is told of it.
func TestEveryAttributeIsTold(t *testing.T) {
	for _, k := range element.Kinds() {
		if !k.Named || k.Word == "part" {
			continue
		}
		require.Contains(t, tryOn, k.Word)
		for _, a := range k.Attributes {
			tried := 0
			for _, body := range tryOn[k.Word] {
				if tried = tried + tryAttribute(t, &k, &a, body); tried >= 2 {
					break
				}
			}
			assert.Positive(t, tried, "%s %s is tried on nothing", k.Word, a.Word)
		}
	}
}

// tryAttribute changes one attribute of what body says, and returns how many of its values could be tried.
func tryAttribute(t *testing.T, k *notation.Kind, a *notation.Attr, body string) (tried int) {
	without, now := "", ""
	for _, line := range strings.Split(body, "\n") {
		if strings.Fields(line + " -")[0] == a.Word {
			now = line
		} else {
			without += line + "\n"
		}
	}
	lines := append(linesOf(a), "")
	lines = append(lines, moreLines[k.Word+" "+a.Word]...)
	for _, l := range linesOf(a) {
		lines = append(lines, otherwise(l)...)
	}
	if now != "" {
		lines = append(append([]string{now}, lines...), otherwise(now)...)
	}
	first, ok := (*set.Set)(nil), false
	from := ""
	for _, l := range lines {
		if l == from && ok {
			continue
		}
		s, fine := tryOpen(inYard(k.Word, without+l))
		switch {
		case !fine:
		case !ok:
			first, ok, from = s, true, l
			require.Empty(t, changes.Elements(s, s))
		default:
			got := said(changes.Elements(first, s))
			t.Logf("%s %s: %s: %q", k.Word, a.Word, l, got)
			if len(got) == 0 && !alike(first.Find("thing"), s.Find("thing")) {
				t.Errorf("%s %s: nothing is told of %q → %q beside\n%s", k.Word, a.Word, from, l, without)
			}
			if len(got) > 0 {
				tried++
			}
			if tried >= 3 {
				return tried
			}
		}
	}
	return tried
}

// alike reports whether two elements are the same to the last bit, but for where they stand in the text, for what their places were
// said to be in and on, and for what they meet.
func alike(a, b *set.Element) bool {
	return reflect.DeepEqual(bare(a), bare(b))
}

func bare(e *set.Element) set.Element {
	out := *e
	out.Span, out.NameSpan, out.Spans = diag.Span{}, diag.Span{}, nil
	out.Copies = nil
	for _, c := range e.Copies {
		c.Places = slices.Clone(c.Places)
		for i := range c.Places {
			c.Places[i].In, c.Places[i].On = "", ""
		}
		out.Copies = append(out.Copies, c)
	}
	return out
}
