package takeoff_test

import (
	"fmt"
	"io"
	"io/fs"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
)

type files map[string]string

func (f files) Open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

const boards = `board "ply 18" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along
board "ply 9" 2440 x 1220 thick 9
length "batten 44" 44 x 69 long 4800 density 480kg/m3
`

func take(t *testing.T, text string) (*set.Set, *takeoff.Quantities) {
	t.Helper()
	s, list := layout.Open(files{"m": text}, "m", layout.Options{})
	var b strings.Builder
	list.Print(&b, 20)
	require.False(t, list.HasErrors(), b.String())
	return s, takeoff.Take(s)
}

// lines says each piece as element, name, length x width x thickness, count.
func lines(q *takeoff.Quantities) []string {
	var out []string
	for _, p := range q.Pieces {
		form := ""
		if p.Outline != nil {
			form = " outline"
		}
		out = append(out, fmt.Sprintf("%s %s %.4g x %.4g x %g, %d%s", p.Element, p.Name, p.Length, p.Width, p.Thickness, p.Count, form))
	}
	return out
}

// The flight of the kiosk, reckoned by hand: three rises of 150, goings of 300, treads of 18, riser boards of 9, nosing 25, a deck
// board of 18. A tread reaches 25 before its riser and 9 behind the next: 334. Riser boards stand on the tread below and end under
// the one above: 150 − 18 = 132. Strings end under the deck's board: 700 long (600 and the seat of 100, less 9 at the foot), and
// 432 high.
func TestFlight(t *testing.T) {
	s, q := take(t, boards+`platform deck
    outline rect 2440 x 1220
    height 450
    deck 18
steps front
    meets deck.front
    risers 3
    going 300
    width 1800
    tread 18
    riser_board 9
    nosing 25
    of "ply 18"
`)
	require.Equal(t, []string{
		"front tread 1 1800 x 334 x 17.6, 1",
		"front riser board 1 1800 x 132 x 9, 1",
		"front tread 2 1800 x 334 x 17.6, 1",
		"front riser board 2 1800 x 132 x 9, 1",
		"front riser board 3 1800 x 132 x 9, 1",
		"front string 691 x 432 x 17.6, 2 outline",
	}, lines(q))
	var loose []string
	for _, l := range q.Loose {
		loose = append(loose, fmt.Sprintf("%s %s %g x %g x %g, %d: %s", l.Element, l.Name, l.Length, l.Width, l.Thickness, l.Count, l.Note))
	}
	require.Equal(t, []string{
		"deck deck 2440 x 1220 x 18, 1: ",
	}, loose)
	require.Equal(t, `9 mm thick, so not of "ply 18"`, q.Pieces[1].Note)
	require.Equal(t, "ply 9", s.Boards[q.Pieces[1].Board].Name)
	require.Len(t, q.Thick, 1)
	require.Equal(t, "tread", q.Thick[0].Word)
	require.InDelta(t, 0.4, q.Thick[0].Said-q.Thick[0].Has, 1e-9)
	// Its area by its notches: 300 x 132 and 300 x 282 under the treads, less 9 x 132 before the first riser board, 9 x 150 less
	// before the second; and what stands under the deck's board behind 600, 9 + 91 wide.
	require.InDelta(t, 300*132+300*282+100*432-9*(132+150+150), q.Pieces[5].Area(), 1e-6)
}

func TestPieces(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
		missing    string
	}{
		{"a deck of one board", "platform p\n outline rect 2440 x 1220\n height 300\n deck 17.6\n of \"ply 18\"\n",
			[]string{"p deck 2440 x 1220 x 17.6, 1"}, ""},
		{"whole boards first", "platform p\n outline rect 3600 x 2400\n height 300\n deck 17.6\n of \"ply 18\"\n grain along\n", []string{
			"p deck 1 of 4 2440 x 1220 x 17.6, 1", "p deck 2 of 4 1160 x 1220 x 17.6, 1", "p deck 3 of 4 2440 x 1180 x 17.6, 1", "p deck 4 of 4 1160 x 1180 x 17.6, 1"}, ""},
		{"no slivers", "platform p\n outline rect 2600 x 1000\n height 300\n of \"ply 18\"\n grain along\n",
			[]string{"p deck 1 of 2 1300 x 1000 x 17.6, 1", "p deck 2 of 2 1300 x 1000 x 17.6, 1"}, ""},
		{"closed, copies", "platform p\n outline rect 1000 x 500\n height 300\n closed\n of \"ply 9\"\n repeat 3 by 1200, 0\n",
			[]string{"p deck 1000 x 500 x 9, 3", "p underside 1000 x 500 x 9, 3"}, ""},
		{"an octagon 2440 across comes out of two boards", "platform p\n outline polygon 8 across 2440\n height 300\n of \"ply 9\"\n",
			[]string{"p deck 1 of 2 2440 x 1220 x 9, 1 outline", "p deck 2 of 2 2440 x 1220 x 9, 1 outline"}, ""},
		{"a ramp of 3-4-5", "ramp r\n starts 0, 0 heading 90deg\n length 400\n rise 300\n width 600\n of \"ply 9\"\n",
			[]string{"r deck 600 x 500 x 9, 1", "r side 385 x 288.8 x 9, 2 outline"}, ""}, // 9·500/400 = 11.25 lower; toe 400·11.25/300 = 15
		{"a post", "post p\n outline rect 69 x 44\n height 2100\n of \"batten 44\"\n repeat 4 by 300, 0\n", []string{"p post 2100 x 44 x 69, 4"}, ""},
		{"a post too long", "post p\n diameter 60\n height 5000\n of \"batten 44\"\n", nil, `p post: it is 5000 mm long, and "batten 44" is 4800 mm`},
		{"a post of board", "post p\n diameter 60\n height 500\n of \"ply 9\"\n", nil, `p all of it: a post is cut from a length, and "ply 9" is a board`},
		{"a flat of battens", "flat f\n from 0,0 to 1000,0\n height 2000\n of \"batten 44\"\n", nil,
			`f all of it: "batten 44" is bought by the length, and a flat is cut from boards; ` + "`part` says its battens"},
		{"a facing with a window", "flat f\n from 0,0 to 1200,0\n height 2400\n thickness 45\n opening window at 300 size 600 x 800\n  sill 900\n of \"ply 9\"\n",
			[]string{"f facing 1200 x 2400 x 9, 1 outline"}, ""},
		{"a kerb of straight sides", "ring k\n outer rect 1000 x 600\n inner rect 800 x 400\n height 209\n of \"ply 9\"\n", []string{
			"k top 1000 x 600 x 9, 1 outline",
			"k outer wall 1 of 4 1000 x 200 x 9, 1", "k outer wall 2 of 4 600 x 200 x 9, 1", "k outer wall 3 of 4 1000 x 200 x 9, 1", "k outer wall 4 of 4 600 x 200 x 9, 1",
			"k inner wall 1 of 4 800 x 200 x 9, 1", "k inner wall 2 of 4 400 x 200 x 9, 1", "k inner wall 3 of 4 800 x 200 x 9, 1", "k inner wall 4 of 4 400 x 200 x 9, 1"}, ""},
		{"a spire of four sides", "cone c\n lower 600\n upper 0\n height 400\n sides 4\n of \"ply 9\"\n", []string{"c face 600 x 500 x 9, 4 outline"}, ""},
		{"a planter", "cone c\n lower 400\n upper 1000\n height 400\n sides 4\n of \"ply 9\"\n", []string{"c face 1000 x 500 x 9, 4 outline"}, ""},
		{"a funnel", "cone c\n lower 400\n upper 1000\n height 400\n of \"ply 9\"\n", nil, "c all of it: it is bent from thin board; `markout model` develops it"},
		{"a sign", "shape s\n outline points 0,0 900,0 450,700\n thickness 9\n of \"ply 9\"\n", []string{"s shape 900 x 700 x 9, 1 outline"}, ""},
		{"a box of boards", "steps b\n starts 0,0 heading 90deg\n rises 150 150\n going 300\n width 900\n built blocks\n lid 9\n of \"ply 9\"\n", []string{
			"b block 1 lid 900 x 300 x 9, 1", "b block 1 front and back 900 x 141 x 9, 2", "b block 1 end 282 x 141 x 9, 2"}, ""},
		{"parts", "part rail of \"batten 44\" length 900 count 4\npart patch of \"ply 18\" length 600 width 300 grain across\n",
			[]string{"rail part 900 x 44 x 69, 4", "patch part 600 x 300 x 17.6, 1"}, ""},
	} {
		_, q := take(t, boards+c.text)
		require.Equal(t, c.want, lines(q), c.name)
		missing := ""
		for _, m := range q.Missing {
			missing += m.Element + " " + m.What + ": " + m.Why
		}
		require.Equal(t, c.missing, missing, c.name)
		for i, p := range q.Pieces {
			require.Equal(t, i+1, p.Item)
		}
	}
}

// With boxes in hand the blocks are tops to be carried, less their lids as thick as the board is.
func TestBlocksOnStock(t *testing.T) {
	_, q := take(t, boards+"stock box 600 x 400 x 150\nsteps b\n starts 0,0 heading 90deg\n rises 150 150 150\n going 400\n widths 1200 600\n built blocks\n lid 18\n of \"ply 18\"\n")
	require.Equal(t, []string{"b block 1 lid 1200 x 400 x 17.6, 1", "b block 2 lid 600 x 400 x 17.6, 1"}, lines(q))
	require.Equal(t, []takeoff.Top{
		{Element: "b", Name: "block 1", Length: 1200, Width: 400, Height: 132.4, Count: 1, Lid: 0},
		{Element: "b", Name: "block 2", Length: 600, Width: 400, Height: 282.4, Count: 1, Lid: 0},
	}, q.Tops)
}

// The grain of the board and of the piece say how it may lie.
func TestGrain(t *testing.T) {
	_, q := take(t, boards+"part a of \"ply 18\" length 600 width 300\npart b of \"ply 18\" length 600 width 300 grain along\n"+
		"part c of \"ply 18\" length 600 width 300 grain across\npart d of \"ply 9\" length 600 width 300 grain across\n")
	for i, want := range [][2]bool{{true, true}, {true, false}, {false, true}, {true, true}} {
		require.Equal(t, want, [2]bool{q.Pieces[i].AsIs, q.Pieces[i].Turned}, "part %d", i)
	}
}

// A flat that is split keeps its seam away from the jambs of its door.
func TestSeamsKeepAwayFromOpenings(t *testing.T) {
	_, q := take(t, boards+"flat f\n from 0,0 to 2400,0\n height 2400\n opening door at 300 size 1000 x 2300\n of \"ply 18\"\n grain across\n")
	require.Len(t, q.Pieces, 2)
	first := min(q.Pieces[0].Length, q.Pieces[1].Length)
	require.Greater(t, first, 0.0)
	require.InDelta(t, 2400, q.Pieces[0].Length+q.Pieces[1].Length, 1e-6)
	require.LessOrEqual(t, max(q.Pieces[0].Length, q.Pieces[1].Length), 1220.01)
	// Over the door 100 are left, so that the seam would best run beside it: but 1300 + 100 leaves no board, so that it runs over it.
	require.InDelta(t, 1200, q.Pieces[0].Length, 25)

	_, q = take(t, boards+"flat f\n from 0,0 to 3600,0\n height 1200\n opening door at 1500 size 900 x 1100\n of \"ply 18\"\n grain along\n")
	require.Len(t, q.Pieces, 2)
	// Half way, at 1800, is over the door; 100 clear of a jamb is at 1400 or 2500.
	seam := q.Pieces[0].Length
	require.True(t, seam <= 1400 || seam >= 2500, seam)
}

// Whatever is split: every part comes out of a board, and together they are what was split.
func TestPartsMakeUpTheWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		n := 5 + r.IntN(9)
		var pts []string
		for i := range n {
			a := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
			d := 600 + 3000*r.Float64()
			pts = append(pts, fmt.Sprintf("%.1f,%.1f", d*math.Cos(a), d*math.Sin(a)))
		}
		hole := ""
		if r.IntN(2) == 0 {
			hole = " hole circle 150\n"
		}
		s, q := take(t, boards+"shape s\n outline points "+strings.Join(pts, " ")+"\n"+hole+" of \"ply 18\"\n")
		sh := s.Elements[0].Shape.(*set.Panel)
		whole := geom.Region{Outer: sh.Outline.Path}
		for _, h := range sh.Holes {
			whole.Holes = append(whole.Holes, h.Path)
		}
		total := 0.0
		for _, p := range q.Pieces {
			total += p.Area()
			require.True(t, p.Length <= 2440.01 && p.Width <= 1220.01 || p.Length <= 1220.01 && p.Width <= 2440.01, "%g x %g", p.Length, p.Width)
			if p.Outline != nil {
				b := p.Outline.Outer.Bounds()
				require.InDelta(t, 0, b.Min.X, 0.01)
				require.InDelta(t, 0, b.Min.Y, 0.01)
				require.InDelta(t, p.Length, b.Max.X, 0.01)
			}
		}
		require.InDelta(t, 1, total/whole.Area(), 1e-5)
	}
}

// A curved wall's facing lies as long as its face's line: a quarter circle of radius 2000 is 3141.6 long.
func TestCurvedFacing(t *testing.T) {
	_, q := take(t, boards+"flat f\n along path 0,0 arc to 2000,2000 radius 2000 left\n height 1200\n of \"ply 9\"\n")
	total := 0.0
	for _, p := range q.Pieces {
		total += p.Length
		require.Equal(t, 1200.0, p.Width)
		require.Contains(t, p.Note, "bent to its line")
	}
	require.InDelta(t, 3141.59, total, 0.05)
}
