package changes_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

func model(t testing.TB, s *set.Set) *develop.Model {
	t.Helper()
	m, list := develop.Develop(s, develop.Options{})
	require.False(t, list.HasErrors())
	return m
}

func piece(p changes.Piece) string {
	s := fmt.Sprintf("%s %s (%s)", p.Change, p.Piece, p.Name)
	if p.Was != "" && p.Was != p.Piece {
		s += " was " + p.Was
	}
	if len(p.Glued) > 0 {
		s += ": " + strings.Join(p.Glued, "; ")
	}
	return s
}

// Revision B of the climb: the walls of block 4 are lower and are made anew, its top is kept and parted from them; block 5, which
// stands from the floor to its own top, and block 6, which moves, keep their nets.
func TestPiecesOfTheClimb(t *testing.T) {
	a, b := model(t, sample(t, "crates")), model(t, sample(t, "crates", "190 120", "175 135", "-90", "30"))
	require.Equal(t, []string{
		"remake crates-17/40 (block 4, right wall): crates-16/40 is glued to it along J25",
		"remake crates-18/40 (block 4, back wall): crates-16/40 is glued to it along J26",
		"remake crates-19/40 (block 4, left wall): crates-16/40 is glued to it along J28",
		"remake crates-20/40 (block 4, front wall): crates-16/40 is glued to it along J30",
	}, listed(changes.Pieces(a, b), piece))
}

func TestPieces(t *testing.T) {
	const head = "set \"Yard\"\n    scale 1:25\n    card wall 1.5\n"
	box := "platform box\n    outline rect 1000 x 600\n    height 450\n    at 0, 2000\n"
	wall := "flat wall\n    from 0,0 to 3000,0\n    height 2400\n    opening window at 600 size 800 x 900\n        sill 900\n"
	pole := "post pole\n    diameter 60\n    height 700\n    at 3000, 0\n"
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"the same", box + wall, box + wall, nil},
		{"another name, order and place", box + wall, wall + strings.NewReplacer("box", "crate", "0, 2000", "0, 4000").Replace(box), nil},
		{"two of other names in another order, some of their walls alike", box + strings.NewReplacer("box", "bin", "1000 x 600", "1000 x 800").Replace(box),
			strings.NewReplacer("box", "tub", "1000 x 600", "1000 x 800").Replace(box) + strings.Replace(box, "box", "crate", 1), nil},
		{"another name and wider", box, strings.NewReplacer("box", "crate", "1000", "1200").Replace(box), []string{
			"remake crate-1/5 (top) was box-1/5: box-2/5 is glued to it along J1; box-4/5 is glued to it along J4",
			"remake crate-3/5 (back wall) was box-3/5: box-2/5 is glued to it along J3; box-4/5 is glued to it along J5",
			"remake crate-5/5 (front wall) was box-5/5: box-2/5 is glued to it along J8; box-4/5 is glued to it along J7"}},
		{"a window moved", box + wall, box + strings.Replace(wall, "at 600", "at 700", 1), []string{"remake wall-1/1 (face)"}},
		{"one more", box, box + "    repeat 2 by 2000, 0\n", []string{
			"make box.2-1/5 (top)", "make box.2-2/5 (right wall)", "make box.2-3/5 (back wall)", "make box.2-4/5 (left wall)", "make box.2-5/5 (front wall)"}},
		{"gone", box + wall, box, []string{"scrap wall-1/1 (face)"}},
		{"wider", box, strings.Replace(box, "1000", "1200", 1), []string{
			"remake box-1/5 (top): box-2/5 is glued to it along J1; box-4/5 is glued to it along J4",
			"remake box-3/5 (back wall): box-2/5 is glued to it along J3; box-4/5 is glued to it along J5",
			"remake box-5/5 (front wall): box-2/5 is glued to it along J8; box-4/5 is glued to it along J7"}},
		{"a longer rod", pole, strings.Replace(pole, "700", "800", 1), []string{"remake rod Ø2.4, 32 long (rod) was rod Ø2.4, 28 long"}},
		{"a rod of another name", pole, strings.Replace(pole, "pole", "mast", 1), nil},
		{"a rod less", pole + "    repeat 3 by 200, 0\n", pole + "    repeat 2 by 200, 0\n", []string{"scrap rod Ø2.4, 28 long (rod)"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := listed(changes.Pieces(model(t, open(t, head+c.old)), model(t, open(t, head+c.new))), piece)
			require.ElementsMatch(t, c.want, got)
		})
	}
	a, b := model(t, open(t, head+box)), model(t, open(t, strings.Replace(head, "1.5", "1.6", 1)+box))
	require.Len(t, changes.Pieces(a, b), 5, "of other card everything is made anew")
}

// What the pieces of one model serve for in another, they serve for the other way round.
func TestPiecesAddUp(t *testing.T) {
	var sets []*develop.Model
	const quay = "set \"Quay\"\n    scale 1:25\n    card wall 1.5\n" +
		"platform deck\n    outline polygon 8 across 4800\n    at 0, 3600\n    height 450\n" +
		"steps front\n    meets deck.front\n    risers 3\n    going 300\n    width 1800\n" +
		"post bollard\n    repeat 12 around deck.centre radius 4200\n    diameter 60\n    height 700\n"
	for _, words := range [][2]string{{}, {"risers 3", "risers 4"}, {"polygon 8", "polygon 6"}, {"repeat 12", "repeat 9"}, {"height 450", "height 600"}} {
		sets = append(sets, model(t, open(t, strings.Replace(quay, words[0], words[1], 1))))
	}
	for _, a := range sets {
		require.Empty(t, changes.Pieces(a, a))
		for _, b := range sets {
			count := map[changes.Change]int{}
			for _, p := range changes.Pieces(a, b) {
				count[p.Change]++
			}
			back := map[changes.Change]int{}
			for _, p := range changes.Pieces(b, a) {
				back[p.Change]++
			}
			require.Equal(t, len(b.Pieces)+len(b.Rods)-len(a.Pieces)-len(a.Rods), count[changes.Make]-count[changes.Scrap])
			require.Equal(t, [3]int{count[changes.Remake], count[changes.Make], count[changes.Scrap]}, [3]int{back[changes.Remake], back[changes.Scrap], back[changes.Make]})
		}
	}
}

// A strut that is kept and goes to another place on a wall that is kept has to be parted from it.
func TestPiecesToPart(t *testing.T) {
	at := func(x float64) *develop.Model {
		line := func(x float64) []geom.Point { return []geom.Point{{X: x}, {X: x, Y: 20}} }
		return &develop.Model{
			Pieces: []develop.Piece{
				{Element: "bay", Number: 1, Of: 2, Name: "wall", Thickness: 1.5, Outline: geom.Region{Outer: geom.Rectangle(90, 20)}},
				{Element: "bay", Number: 2, Of: 2, Name: "strut", Thickness: 1.5, Outline: geom.Region{Outer: geom.Rectangle(30, 20)}},
			},
			Joints: []develop.Joint{{Element: "bay", Number: 1, A: develop.Side{Piece: 0, Line: line(x)}, B: develop.Side{Piece: 1, Line: line(0)}}},
		}
	}
	require.Empty(t, changes.Pieces(at(40), at(40)))
	require.Equal(t, []string{"part bay-1/2 (wall): bay-2/2 is glued to it along J1"}, listed(changes.Pieces(at(40), at(50)), piece))
}
