package layout_test

import (
	"errors"
	"io"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/set"
)

const stepped = "set \"S\"\n    issue A 2026-11-20\nlet rise = 150mm\nplatform deck\n    outline rect 3600 x 2400\n    height 3 * rise\nsteps front\n    meets deck.front\n    risers 3\n    going 300\n    width 900\n"

func TestWith(t *testing.T) {
	s := open(t, stepped)
	require.False(t, s.Trial)
	s = open(t, stepped, "front.risers=4", "rise = 5\"", "deck.turn=2 * 45deg", "deck.deck=18")
	require.Equal(t, 4, len(s.Find("front").Shape.(*set.Steps).Rises))
	require.InDelta(t, 3*127, s.Find("deck").Shape.(*set.Platform).Height, 1e-9)
	require.Equal(t, 18.0, s.Find("deck").Shape.(*set.Platform).Deck, "an attribute that was not there is added")
	require.Equal(t, 90.0, s.Find("deck").Copies[0].Places[0].Frame.TurnDeg())
	require.True(t, s.Trial)
	require.Equal(t, []string{"front.risers=4", "rise = 5\"", "deck.turn=2 * 45deg", "deck.deck=18"}, s.With)
}

const cutFrom = "board \"ply 18\" 2440 x 1220 thick 17.6 count 6\nlength \"1 x 3.5\" 19 x 90 long 4800\npart rail of \"1 x 3.5\" length 900 count 4\n"

// Boards, lengths and parts are changed as elements are, their names in quotes or not; a value that was not there is added.
func TestWithMaterials(t *testing.T) {
	s := open(t, cutFrom, "ply 18.thick=18", `"ply 18".count=7`, "ply 18.grain=across", "1 x 3.5.long=4.2m", "1 x 3.5.kerf=2", "rail.length=2 * 600", "rail.count=5")
	require.Equal(t, 18.0, s.Boards[0].Thick)
	require.Equal(t, 7, s.Boards[0].Count)
	require.Equal(t, set.GrainAcross, s.Boards[0].Grain)
	require.Equal(t, 4200.0, s.Lengths[0].Long)
	require.Equal(t, 2.0, s.Lengths[0].Kerf)
	require.Equal(t, 1200.0, s.Parts[0].Length)
	require.Equal(t, 5, s.Parts[0].Count)
	require.True(t, s.Trial)
	s = open(t, cutFrom+"board \"ply 9\" 2440 x 1220 thick 9\n", "rail.of=\"ply 9\"", "rail.width=90")
	require.Equal(t, "ply 9", s.Parts[0].Of)
	for with, want := range map[string]string{
		"ply 18.thik=18":    "--with:1:8: error: a board has no `thik` that can be changed",
		"rail=3":            "--with:1:1: error: this is a part, and one value of it is wanted",
		"rail.length=5200":  "--with:1:13: error: a part of 5200 mm does not come out of",
		"ply 18.count=0":    "--with:1:14: error: `count` is at least 1",
		"ply 18.grain=up":   "--with:1:14: error: ",
		"ply 18.thick=":     "--with:1:",
		"ply 19.thick=18":   "--with:1:1: error: there is no `ply 19`",
		"ply 18.thick=18 2": "--with:1:17: error: ",
	} {
		_, list := layout.Open(texts{"m": cutFrom}, "m", layout.Options{With: []string{with}})
		require.Contains(t, printed(list), want, with)
	}
}

func TestWithErrors(t *testing.T) {
	for with, want := range map[string]string{
		"front.risers":   "--with:1:1: error: a change is written NAME.attribute=value or LET=value",
		"frnt.risers=8":  "--with:1:1: error: there is no `frnt`",
		"front.riser=8":  "--with:1:7: error: `steps` takes no `riser`",
		"front=8":        "--with:1:1: error: `front` is a piece, and one attribute of it is wanted",
		"rise.top=8":     "--with:1:5: error: `rise` is a value and has no attributes",
		"front.risers=":  "--with:1:",
		"front.risers=x": "--with:1:14: error: ",
		"rise=deck":      "--with:1:6: error: `deck` is a piece",
		"front.risers=0": "--with:1:14: error: `risers` is at least 1",
		"=3":             "--with:1:1: error: ",
		"":               "--with:1:1: error: ",
	} {
		t.Run(with, func(t *testing.T) {
			_, list := layout.Open(texts{"m": stepped}, "m", layout.Options{With: []string{with}})
			require.Contains(t, printed(list), want)
		})
	}
}

// broken is a file that cannot be read to its end.
type broken struct{ err error }

func (b broken) Open(string) (io.ReadCloser, error) { return io.NopCloser(b), nil }
func (b broken) Read([]byte) (int, error)           { return 0, b.err }

func TestUnreadable(t *testing.T) {
	s, list := layout.Open(texts{}, "gone.markout", layout.Options{})
	require.Nil(t, s)
	require.Len(t, list.Sorted(), 1)
	require.Equal(t, diag.Diagnostic{Message: "cannot read gone.markout: there is no such file"}, list.Sorted()[0])

	_, list = layout.Open(broken{&fs.PathError{Op: "read", Path: "/somewhere/else", Err: errors.New("is a directory")}}, "d", layout.Options{})
	require.Equal(t, "cannot read d: is a directory", list.Sorted()[0].Message, "without the machine's path of it")

	_, list = layout.Open(texts{"a/m": "include \"b/gone.markout\"\n"}, "a/m", layout.Options{})
	require.Contains(t, printed(list), "a/m:1:9: error: cannot read a/b/gone.markout: there is no such file")
	_, list = layout.Open(texts{"m": "include \"/etc/x\"\n"}, "m", layout.Options{})
	require.Contains(t, printed(list), "m:1:9: error: an included file is named by its path from this file's folder")
	_, list = layout.Open(texts{"m": "include \"o\"\nlet a = 1\n", "o": "let a = 2\nset \"X\"\n"}, "m", layout.Options{})
	require.Contains(t, printed(list), "m:2:5: error: `a` is a name already; the first is at o:1:5")
	require.Contains(t, printed(list), "o:2:1: error: the `set` statement stands in the main file")
}
