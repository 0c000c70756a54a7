package sheet

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/takeoff"
	"markout/tiling/cut"
)

// yard is a set with boards that are sawn, one that is cut to an outline, bars and blocks on boxes.
func yard() *set.Set {
	s := climb([][]float64{{150, 160, 175}}, []string{"flight"})
	s.Parts = []set.Part{{Name: "tie", Of: "ply 18", Length: 700, Width: 300, Count: 3}, {Name: "pad", Of: "foam", Length: 300, Width: 200, Count: 2},
		{Name: "rail", Of: "batten 44", Length: 1500, Count: 4}}
	s.Elements = append(s.Elements, &set.Element{Name: "row", Kind: "shape", Copies: at(0, 0, 0, 0), Material: "ply 18", Shape: &set.Panel{
		Outline: outline(geom.Polygon([]geom.Point{{}, {X: 900}, {X: 600, Y: 500}, {Y: 200}}), "points")}})
	s.Elements = append(s.Elements, &set.Element{Name: "wave", Kind: "shape", Copies: at(0, 0, 0, 0), Material: "ply 18", Shape: &set.Panel{
		Outline: outline(geom.Polygon([]geom.Point{{}, {X: 1100}, {X: 300, Y: 400}}), "points")}})
	return s
}

// A record that was edited by hand into nonsense is refused in words, or its boards are laid anew: no piece lies over another, none is
// lost, nothing panics.
func TestEditedCutsAreRefusedOrLaidAnew(t *testing.T) {
	was := keptCuts(t, yard(), nil)
	text, err := json.Marshal(was.Record())
	require.NoError(t, err)
	changed := func(change func(r *Cuts)) (*Cuts, error) {
		var r Cuts
		require.NoError(t, json.Unmarshal(text, &r))
		change(&r)
		out, err := json.Marshal(&r)
		require.NoError(t, err)
		return ParseCuts(out)
	}
	for words, change := range map[string]func(r *Cuts){
		"-1 items":                          func(r *Cuts) { r.LastItem = -1 },
		"-3 items, strips":                  func(r *Cuts) { r.Strips = -3 },
		"item 1 of":                         func(r *Cuts) { r.Items[1].Item = 1 },
		"-7 items, strips of bars or lists": func(r *Cuts) { r.Lists = -7 },
		"ply 18/1 stands after ply 18/0":    func(r *Cuts) { r.Boards[0].Boards[0].List = 99 },
		"has no shape":                      func(r *Cuts) { r.Items[0].Shape = "abc" },
		"has a count of -1":                 func(r *Cuts) { r.Items[0].Count = -1 },
		"which has no boards": func(r *Cuts) {
			r.Items = append(r.Items, r.Items[0])
			r.Items[len(r.Items)-1] = ItemRecord{Item: r.LastItem - 1, Of: "oak", Shape: r.Items[0].Shape}
		},
		"ply 18 stands twice":          func(r *Cuts) { r.Boards[1].Name = "ply 18" },
		"ply 18/-1 cannot be its last": func(r *Cuts) { r.Boards[0].Last = -1 },
		"ply 18 has a size":            func(r *Cuts) { r.Boards[0].Size[0] = 0 },
		"cannot do with -1 boards":     func(r *Cuts) { r.Boards[0].Free = -1 },
		"ply 18/0 stands after":        func(r *Cuts) { r.Boards[0].Boards[0].Number = 0 },
		"ply 18 has no item 999":       func(r *Cuts) { r.Boards[0].Boards[0].Cuts[0].Item = 999 },
		"is cut more often":            func(r *Cuts) { b := &r.Boards[0].Boards[1]; b.Cuts = append(b.Cuts, b.Cuts[0]) },
		"lies nowhere on ply 18/1":     func(r *Cuts) { r.Boards[0].Boards[0].Cuts[0].At[0] = 1e12 },
		"do not free each of its":      func(r *Cuts) { r.Boards[0].Boards[0].Part = &PartRecord{} },
		"the cuts of ply 18/1":         func(r *Cuts) { r.Boards[0].Boards[0].Part.Near = nil },
		"batten 44 has a size":         func(r *Cuts) { r.Bars[0].Long = -1 },
		"is drawn nowhere":             func(r *Cuts) { r.Bars[0].Bars[0].Strip = 99 },
		"lies nowhere on batten 44/1":  func(r *Cuts) { r.Bars[0].Bars[0].Cuts[0].From = 4000 },
		"block 1 of flight h":          func(r *Cuts) { r.Blocks[0].Count = 0 },
		"on boxes that cannot be":      func(r *Cuts) { r.Blocks[0].Layers[0][1] = -2 },
	} {
		_, err := changed(change)
		require.ErrorContains(t, err, words)
	}
	for name, change := range map[string]func(r *Cuts){
		"turned":          func(r *Cuts) { r.Boards[0].Boards[0].Cuts[0].Turn = 33 },
		"elsewhere":       func(r *Cuts) { r.Boards[0].Boards[0].Cuts[0].At[0] += 5 },
		"cut beyond":      func(r *Cuts) { p := r.Boards[0].Boards[0].Part; p.Across, p.Along = p.Across*40, p.Along*40 },
		"over another":    func(r *Cuts) { b := r.Boards[0].Boards; c := b[len(b)-1].Cuts; c[0].At, c[0].Turn = c[1].At, c[1].Turn },
		"beyond the edge": func(r *Cuts) { b := r.Boards[0].Boards; b[len(b)-1].Cuts[0].At[0] += 5000 },
		"another shape":   func(r *Cuts) { r.Items[0].Shape = strings.Repeat("0", 2*shapeBytes) },
		"off the bar":     func(r *Cuts) { b := r.Bars[0].Bars[0].Cuts; b[len(b)-1].From = 4790 },
	} {
		r, err := changed(change)
		require.NoError(t, err, name)
		c := laid(t, yard(), CuttingOptions{Effort: cut.Quick, Since: r})
		sound(t, c)
		pieces := 0
		for i := range c.Taken.Pieces {
			pieces += c.Taken.Pieces[i].Count
		}
		require.Less(t, c.Kept, pieces, name)
		cutDigests(t, c)
	}
	for name, change := range map[string]func(r *Cuts){
		"other boxes": func(r *Cuts) { r.Blocks[0].Layers[0][0] = 17 },
		"too high": func(r *Cuts) {
			for range 20 {
				r.Blocks[0].Layers = append(r.Blocks[0].Layers, r.Blocks[0].Layers[0])
			}
		},
		"packing": func(r *Cuts) { r.Blocks[0].Plates = []float64{3} },
	} {
		r, err := changed(change)
		require.NoError(t, err, name)
		c := laid(t, yard(), CuttingOptions{Effort: cut.Quick, Since: r})
		sound(t, c)
		require.Equal(t, was.Stacks().Rows, c.Stacks().Rows, name)
	}
	for _, none := range []string{"", "null"} {
		r, err := ParseCuts([]byte(none))
		require.NoError(t, err)
		require.Nil(t, r)
	}
}

// What ParseCuts accepts leaves every piece on its board or bar, the saw's width from its neighbours, or is laid anew.
func FuzzCuts(f *testing.F) {
	s := yard()
	c, err := LayCutting(context.Background(), s, takeoff.Take(s), CuttingOptions{Effort: cut.Quick})
	require.NoError(f, err)
	seed, err := json.Marshal(c.Record())
	require.NoError(f, err)
	f.Add(seed)
	f.Add([]byte("null"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := ParseCuts(data)
		if err != nil || r == nil {
			return
		}
		s := yard()
		c, err := LayCutting(context.Background(), s, takeoff.Take(s), CuttingOptions{Effort: cut.Quick, Since: r})
		require.NoError(t, err)
		sound(t, c)
		items := map[int]bool{}
		for i := range c.Taken.Pieces {
			require.False(t, items[c.Taken.Pieces[i].Item])
			items[c.Taken.Pieces[i].Item] = true
		}
		_, err = json.Marshal(c.Record())
		require.NoError(t, err)
	})
}
