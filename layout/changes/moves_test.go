package changes_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
)

func move(m changes.Move) string { return m.Element + " " + m.Words }

func TestMoves(t *testing.T) {
	const head = "set \"Yard\"\n"
	deck := "platform deck\n    outline rect 2000 x 1000\n    at 0, 2000\n    height 450\n"
	for _, c := range []struct {
		name, old, new string
		want           []string
	}{
		{"the same", deck, deck, nil},
		{"another name", deck, strings.Replace(deck, "deck", "stage", 1), nil},
		{"moved", deck, strings.Replace(deck, "0, 2000", "-100, 1500.4", 1), []string{"deck moves 100 stage right and 499.5 downstage"}},
		{"a hair", deck, strings.Replace(deck, "0, 2000", "0.1, 2000", 1), []string{"deck moves less than 0.5 mm"}},
		{"turned", deck, deck + "    turn -30deg\n", []string{"deck turns 30° clockwise"}},
		{"half round, which looks the same", deck, deck + "    turn 180deg\n", nil},
		{"changed", deck, strings.Replace(deck, "450", "600", 1), nil},
		{"of another material", "board \"ply\" 2440 x 1220 thick 18\nboard \"mdf\" 2440 x 1220 thick 18\n" + deck + "    of \"ply\"\n",
			"board \"ply\" 2440 x 1220 thick 18\nboard \"mdf\" 2440 x 1220 thick 18\n" + strings.Replace(deck, "0, 2000", "0, 1000", 1) + "    of \"mdf\"\n", nil},
		{"raised", deck, deck + "    level 200\n", []string{"deck moves 200 up"}},
		{"names exchanged", deck + strings.Replace(strings.Replace(deck, "deck", "next", 1), "0, 2000", "0, 4000", 1),
			strings.Replace(deck, "0, 2000", "0, 4000", 1) + strings.Replace(deck, "deck", "next", 1), nil},
		{"round posts turn for nobody", "post p\n    repeat 3 around 0, 2000 radius 1000 from 0deg\n    diameter 60\n    height 700\n",
			"post p\n    repeat 3 around 0, 2000 radius 1000 from 0deg facing same\n    diameter 60\n    height 700\n", nil},
		{"one taken out of a row", "post p\n    repeat 3 by 500, 0\n    diameter 60\n    height 700\n", "post p\n    repeat 2 by 1000, 0\n    diameter 60\n    height 700\n", nil},
		{"furniture is not exchanged", "dressing a\n    size 500 x 500\n    height 700\ndressing b\n    size 500 x 500\n    height 700\n    at 1000, 0\n",
			"dressing a\n    size 500 x 500\n    height 700\n    at 1000, 0\ndressing b\n    size 500 x 500\n    height 700\n", []string{"a moves 1000 stage left", "b moves 1000 stage right"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.ElementsMatch(t, c.want, listed(changes.Moves(open(t, head+c.old), open(t, head+c.new)), move))
		})
	}
}

func TestMovesInFeet(t *testing.T) {
	wall := "set \"Yard\"\n    units ft\n    sides camera\nflat wall\n    from 0,0 to 4', 0\n    height 8'\n"
	require.Equal(t, []string{`wall moves 1'-6" camera right and 3" upstage`},
		listed(changes.Moves(open(t, wall), open(t, strings.NewReplacer("0,0", `1'6",3"`, "4', 0", `5'6", 3"`).Replace(wall))), move))
}

// Posts that are scattered anew: as many stay as stand where one stood, and no exchange of two would make their way less.
func TestMovesGoTheLeastWay(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 40 {
		n := 1 + r.IntN(12)
		random := func() string {
			var b strings.Builder
			b.WriteString("set \"Yard\"\n")
			taken := map[[2]int]bool{}
			for i := 0; i < n; i++ {
				at := [2]int{r.IntN(6) * 500, r.IntN(6) * 500}
				if taken[at] {
					continue
				}
				taken[at] = true
				fmt.Fprintf(&b, "post p%d\n    diameter 60\n    height 700\n    at %d, %d\n", i, at[0], at[1])
			}
			return b.String()
		}
		a, b := open(t, random()), open(t, random())
		stood := map[string]bool{}
		for _, e := range a.Elements {
			stood[fmt.Sprint(e.Copies[0].Places[0].Frame.T)] = true
		}
		stays := 0
		for _, e := range b.Elements {
			if stood[fmt.Sprint(e.Copies[0].Places[0].Frame.T)] {
				stays++
			}
		}
		moves := changes.Moves(a, b)
		require.Len(t, moves, min(len(a.Elements), len(b.Elements))-stays)
		for i, p := range moves {
			for _, q := range moves[:i] {
				require.LessOrEqual(t, p.From.Dist(p.To)+q.From.Dist(q.To), p.From.Dist(q.To)+q.From.Dist(p.To)+1e-6)
			}
		}
		require.Empty(t, changes.Moves(b, b))
	}
	// A whole row that goes 100 aside goes straight, more of it than are paired one by one.
	row := func(x int) string {
		return fmt.Sprintf("set \"Yard\"\npost p\n    repeat 900 by 100, 0\n    at %d, 0\n    diameter 60\n    height 700\n", x)
	}
	for _, m := range changes.Moves(open(t, row(0)), open(t, row(30))) {
		require.InDelta(t, 30, math.Abs(m.To.X-m.From.X), 1e-6)
	}
}
