package sheet

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
	"markout/layout/table"
)

// climb is a set of flights of blocks on stock boxes.
func climb(flights [][]float64, names []string) *set.Set {
	s := joinery()
	s.Stock = []set.StockBox{{Length: 600, Width: 400, Height: 150, Count: 24}, {Length: 400, Width: 300, Height: 120, Count: 10}}
	for i, rises := range flights {
		goings, widths := make([]float64, len(rises)-1), make([]float64, len(rises)-1)
		for k := range goings {
			goings[k], widths[k] = 400, 1200
		}
		s.Elements = append(s.Elements, &set.Element{Name: names[i], Kind: "steps", Copies: at(float64(3000*i), 0, 0, 90), Material: "ply 18",
			Shape: &set.Steps{Rises: rises, Goings: goings, Widths: widths, Shifts: make([]float64, len(goings)), Blocks: true, Lid: 17.6, FootOn: "floor"}})
	}
	return s
}

// rowsOf are the rows of an element in the table of blocks.
func rowsOf(c *Cutting, element string) [][]table.Value {
	var out [][]table.Value
	for _, r := range c.Stacks().Rows {
		if r[0].Text == element {
			out = append(out, r[1:])
		}
	}
	return out
}

// What stands under an unchanged block stays, with its item numbers, whatever is built, taken away or called otherwise beside it and
// whether boxes run short; the counts of boxes are those of the table.
func TestBlocksStandOnTheirBoxes(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	rises := func() []float64 {
		out := make([]float64, 3+r.IntN(3))
		for i := range out {
			out[i] = float64(140 + 5*r.IntN(9))
		}
		return out
	}
	flights, names := [][]float64{rises(), rises()}, []string{"flight1", "flight2"}
	was := keptCuts(t, climb(flights, names), nil)
	same := keptCuts(t, climb(flights, names), was)
	require.Equal(t, was.Table(), same.Table())
	require.Equal(t, was.Stacks(), same.Stacks())
	require.Equal(t, was.Record(), same.Record())
	next := 2
	for step := range 12 {
		i := r.IntN(len(flights))
		renamed, then := "", ""
		untouched := slices.Clone(names)
		switch r.IntN(4) {
		case 0:
			next++
			flights, names = append(flights, rises()), append(names, fmt.Sprintf("flight%d", next))
		case 1:
			if len(flights) > 2 {
				untouched = slices.Delete(untouched, i, i+1)
				flights, names = slices.Delete(flights, i, i+1), slices.Delete(names, i, i+1)
			}
		case 2:
			flights[i] = rises()
			untouched = slices.Delete(untouched, i, i+1)
		case 3:
			next++
			then, renamed = names[i], fmt.Sprintf("flight%d", next)
			names[i] = renamed
			untouched[i] = renamed
		}
		c := keptCuts(t, climb(flights, names), was)
		for _, name := range untouched {
			before := name
			if name == renamed {
				before = then
			}
			require.Equal(t, rowsOf(was, before), rowsOf(c, name), "step %d: %s", step, name)
		}
		boxes, items := 0, map[int]bool{}
		for k, top := range c.Blocks.Tops {
			boxes += top.Count * top.Boxes
			require.False(t, items[c.topItems[k]])
			items[c.topItems[k]] = true
		}
		require.Equal(t, boxes, c.Blocks.Boxes)
		require.Equal(t, boxes, c.Blocks.Used[0]+c.Blocks.Used[1])
		for k, s := range c.set.Stock {
			require.Equal(t, max(0, c.Blocks.Used[k]-s.Count), c.Blocks.Short[k])
		}
		for k := range c.Taken.Pieces {
			require.False(t, items[c.Taken.Pieces[k].Item])
		}
		was = c
	}
}
