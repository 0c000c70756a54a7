package changes_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/changes"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/setout"
)

// texts are files by name.
type texts map[string]string

func (f texts) Open(name string) (io.ReadCloser, error) {
	if t, ok := f[name]; ok {
		return io.NopCloser(strings.NewReader(t)), nil
	}
	return nil, errors.New("there is no such file")
}

func open(t testing.TB, text string) *set.Set {
	return openAmong(t, texts{"x.markout": text}, "x.markout")
}

func openAmong(t testing.TB, files texts, name string) *set.Set {
	t.Helper()
	s, list := layout.Open(files, name, layout.Options{})
	var said bytes.Buffer
	require.NoError(t, list.Print(&said, 20))
	require.False(t, list.HasErrors(), "%s", said.String())
	return s
}

// sample opens a sample with some of its words replaced, given in pairs.
func sample(t testing.TB, name string, words ...string) *set.Set {
	t.Helper()
	files := texts{}
	dir := "../../samples/" + name
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, f := range list {
		data, err := os.ReadFile(path.Join(dir, f.Name()))
		require.NoError(t, err)
		files[f.Name()] = string(data)
	}
	main := name + ".markout"
	for i := 0; i+1 < len(words); i += 2 {
		require.Contains(t, files[main], words[i])
		files[main] = strings.Replace(files[main], words[i], words[i+1], 1)
	}
	return openAmong(t, files, main)
}

func mark(m changes.Mark) string {
	return strings.TrimSpace(fmt.Sprintf("%s %s %.1f,%.1f %s", m.Element, m.Point, m.At.X, m.At.Y, m.Tape))
}

func listed[T any](list []T, say func(T) string) []string {
	out := []string{}
	for _, x := range list {
		out = append(out, say(x))
	}
	return out
}

func marksOf(t testing.TB, old, new *set.Set) (lift, lay []string) {
	a, b := changes.Marks(setout.Lay(old), setout.Lay(new))
	return listed(a, mark), listed(b, mark)
}

// Crate 6 is the tread whose middle goes from x −90 to +30; it is 1150 wide and lies from y 2740 to 3100: 1200 and the goings
// 300 + 320 + 280 + 340 + 300 before it, 360 its own. The height of crate 4 moves no mark.
func TestMarksOfTheClimb(t *testing.T) {
	lift, lay := marksOf(t, sample(t, "crates"), sample(t, "crates", "190 120", "175 135", "-90", "30"))
	require.Equal(t, []string{
		"crates block 6 corner 1 -665.0,2740.0", "crates block 6 corner 2 485.0,2740.0",
		"crates block 6 corner 3 485.0,3100.0", "crates block 6 corner 4 -665.0,3100.0",
	}, lift)
	require.Equal(t, []string{
		"crates block 6 corner 1 -545.0,2740.0", "crates block 6 corner 2 605.0,2740.0",
		"crates block 6 corner 3 605.0,3100.0", "crates block 6 corner 4 -545.0,3100.0",
	}, lay)
}

// Three risers meet the deck's front at y 1200 with goings of 300: lines at 600, 900, 1200, 1800 wide. A fourth riser adds a line
// at 300; the others stay, though each is another riser's now and higher. One line of 1.8 m is taped.
func TestMarksOfAnotherRiser(t *testing.T) {
	old, new := sample(t, "kiosk"), sample(t, "kiosk", "risers      3", "risers      4")
	lift, lay := marksOf(t, old, new)
	require.Empty(t, lift)
	require.Equal(t, []string{"front riser 1 left -900.0,300.0", "front riser 1 right 900.0,300.0"}, lay)
	up, down := changes.Lines(setout.Lay(old), setout.Lay(new))
	require.Empty(t, up)
	require.Len(t, down, 1)
	require.Equal(t, "front riser 1 left", down[0].Element+" "+down[0].Point)
	require.Equal(t, []changes.TapeMetres{{Metres: 1.8}}, changes.Metres(down))
}

const yard = `set "Yard"
hall shed
    outline rect 9000 x 8000
    at 0, 3600
    station A -4000, 400
    station B 4000, 400
`

func TestMarks(t *testing.T) {
	crate := "platform crate\n    outline rect 1000 x 600\n    at 0, 2000\n    height 300\n    tape \"white\" 25mm\n"
	for _, c := range []struct {
		name, old, new string
		lift, lay      []string
	}{
		{"another name and order", crate + "post p\n    diameter 60\n    height 700\n    at 0, 5000\n",
			"post q\n    diameter 90\n    height 700\n    at 0, 5000\n" + strings.Replace(crate, "crate", "box", 1), nil, nil},
		{"higher", crate, strings.Replace(crate, "height 300", "height 450", 1), nil, nil},
		{"lifted off the floor", crate, crate + "    level 450\n", nil, nil},
		{"another tape", "post p\n    diameter 60\n    height 700\n    at 0, 5000\n    tape \"white\" 25mm\n",
			"post p\n    diameter 60\n    height 700\n    at 0, 5000\n    tape \"yellow\" 25mm\n", []string{"p centre 0.0,5000.0 white 25 mm"}, []string{"p centre 0.0,5000.0 yellow 25 mm"}},
		{"wider", crate, strings.Replace(crate, "rect 1000", "rect 1200", 1),
			[]string{"crate corner 1 -500.0,1700.0 white 25 mm", "crate corner 2 500.0,1700.0 white 25 mm", "crate corner 3 500.0,2300.0 white 25 mm", "crate corner 4 -500.0,2300.0 white 25 mm"},
			[]string{"crate corner 1 -600.0,1700.0 white 25 mm", "crate corner 2 600.0,1700.0 white 25 mm", "crate corner 3 600.0,2300.0 white 25 mm", "crate corner 4 -600.0,2300.0 white 25 mm"}},
		{"a mark that another piece needs stays", crate + strings.NewReplacer("crate", "next", "0, 2000", "1000, 2000").Replace(crate), crate,
			[]string{"next corner 2 1500.0,1700.0 white 25 mm", "next corner 3 1500.0,2300.0 white 25 mm"}, nil},
		{"gone", crate, "", []string{"crate corner 1 -500.0,1700.0 white 25 mm", "crate corner 2 500.0,1700.0 white 25 mm", "crate corner 3 500.0,2300.0 white 25 mm", "crate corner 4 -500.0,2300.0 white 25 mm"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			lift, lay := marksOf(t, open(t, yard+c.old), open(t, yard+c.new))
			require.ElementsMatch(t, c.lift, lift)
			require.ElementsMatch(t, c.lay, lay)
		})
	}
}

// A set that is shifted in its hall has all its marks elsewhere on that hall's floor; without stations nothing ties it to the hall.
func TestMarksInTheirHall(t *testing.T) {
	post := "post p\n    diameter 60\n    height 700\n    at 0, 5000\n"
	hall := func(text string) *set.Set { return open(t, text+post) }
	shifted := strings.Replace(yard, "at 0, 3600", "at 200, 3600", 1)
	lift, lay := marksOf(t, hall(yard), hall(shifted))
	require.Equal(t, []string{"p centre 0.0,5000.0"}, lift)
	require.Equal(t, lift, lay, "each in the axes of its own set")

	lift, lay = marksOf(t, hall(yard), hall(strings.Replace(yard, "shed", "barn", 1)))
	require.Empty(t, append(lift, lay...), "the hall is called otherwise")

	lift, lay = marksOf(t, hall(yard), hall("set \"Yard\"\nhall stage\n    outline rect 7000 x 7000\n    at 0, 3600\n    station P 0, 200\n    station Q 3000, 200\n"))
	require.Len(t, append(lift, lay...), 2, "another floor")

	none := func(at string) *set.Set {
		return hall("set \"Yard\"\nhall shed\n    outline rect 9000 x 8000\n    at " + at + "\n")
	}
	lift, lay = marksOf(t, none("0, 3600"), none("200, 3600"))
	require.Empty(t, append(lift, lay...))
}

// A stack is taped once, an edge between two pieces for each; a curve that bulges to the other side is another curve.
func TestLines(t *testing.T) {
	line := func(l changes.Line) string { return fmt.Sprintf("%s %s %.0f", l.Element, l.Point, l.Length) }
	between := func(a, b string) (up, down []string) {
		x, y := changes.Lines(setout.Lay(open(t, yard+a)), setout.Lay(open(t, yard+b)))
		return listed(x, line), listed(y, line)
	}
	crate := "platform c\n    outline rect 1000 x 600\n    height 300\n"
	up, down := between("", crate+"    stack 3\n")
	require.Empty(t, up)
	require.Equal(t, []string{"c.1 corner 1 1000", "c.1 corner 2 600", "c.1 corner 3 1000", "c.1 corner 4 600"}, down)

	up, _ = between(crate+strings.Replace(crate, "c\n", "d\n    at 1000, 0\n", 1), crate)
	require.ElementsMatch(t, []string{"d corner 1 1000", "d corner 2 600", "d corner 3 1000", "d corner 4 600"}, up)

	curve := "mark m\n    path 0,3000 arc to 1000,3000 radius 700 left\n"
	up, down = between(curve, strings.Replace(curve, "left", "right", 1))
	require.Len(t, up, 1)
	require.Len(t, down, 1)
	up, down = between(curve, strings.NewReplacer("0,3000 arc to 1000,3000", "1000,3000 arc to 0,3000", "left", "right").Replace(curve))
	require.Empty(t, append(up, down...), "the same curve from its other end")

	line1 := "mark m\n    path 0,3000 line 1000,3000\n"
	up, down = between(line1, line1+"    dashed\n")
	require.Len(t, append(up, down...), 2)
	_, down = between("", line1+"    corners\n")
	require.Empty(t, down)
}

func TestMetres(t *testing.T) {
	require.Empty(t, changes.Metres(nil))
	require.Equal(t, []changes.TapeMetres{{"white 25 mm", 3.5}, {"yellow", 1}, {"", 2}}, changes.Metres([]changes.Line{
		{Tape: "", Length: 2000}, {Tape: "yellow", Length: 1000}, {Tape: "white 25 mm", Length: 3000}, {Tape: "white 25 mm", Length: 500, To: geom.Point{X: 1}},
	}))
}
