package develop_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
)

const cards = "set \"Low Tide\"\n    scale 1:25\n    card wall 3 stair 1 detail 0.3\n"

func TestCardOfEachElement(t *testing.T) {
	text := "flat w\n    from 0, 0 to 2400, 0\n    height 2400\n" +
		"steps up\n    starts 0, 0 heading 90deg\n    risers 3\n    rise 150\n    going 300\n    width 900\n" +
		"post mast\n    diameter 300\n    height 2400\n" +
		"platform deck\n    outline rect 3600 x 2400\n    height 450\n" +
		"flat thin\n    from 0, 0 to 2400, 0\n    height 2400\n    model detail\n" +
		"platform stair\n    outline rect 3600 x 2400\n    height 450\n"
	for name, c := range map[string]struct {
		cards string
		want  map[string]string
	}{
		"by kind, then the first":    {"wall 3 stair 1 detail 0.3", map[string]string{"w": "wall", "up": "stair", "mast": "detail", "deck": "wall", "thin": "detail", "stair": "stair"}},
		"one without a name first":   {"2 stair 1 detail 0.3", map[string]string{"w": "", "up": "stair", "mast": "detail", "deck": "", "thin": "detail", "stair": "stair"}},
		"the element's own, by name": {"detail 0.3 w 1 deck 2", map[string]string{"w": "w", "up": "detail", "mast": "detail", "deck": "deck", "thin": "detail", "stair": "deck"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, "set \"Low Tide\"\n    scale 1:25\n    card "+c.cards+"\n"+text)
			m, list := develop.Develop(s, develop.Options{})
			require.Empty(t, printed(list))
			got := map[string]string{}
			for _, p := range m.Pieces {
				got[p.Element] = p.Card
			}
			require.Equal(t, c.want, got)
			m, list = develop.Develop(s, develop.Options{Card: 1})
			require.Empty(t, printed(list))
			for _, p := range m.Pieces {
				require.Equal(t, 1.0, p.Thickness, "one card for everything")
			}
		})
	}
}

func TestModelled(t *testing.T) {
	s := open(t, cards+"platform deck\n    outline rect 3600 x 2400\n    height 450\n    model no\n"+
		"post mast\n    diameter 300\n    height 2400\n    at 3000, 0\n    model rod\n"+
		"post pole\n    diameter 150\n    height 2400\n    at 4000, 0\n    model tube\n"+
		"post stake\n    outline rect 50 x 75\n    height 2400\n    at 5000, 0\n")
	m, list := develop.Develop(s, develop.Options{})
	require.Empty(t, printed(list))
	require.Len(t, m.Pieces, 2)
	require.Equal(t, "pole-2/2", m.Pieces[1].Label())
	require.Equal(t, "tube", m.Pieces[1].Name)
	require.Len(t, m.Rods, 2)
	require.Equal(t, "mast round, stake shaped", m.Rods[0].Element+" "+m.Rods[0].Section+", "+m.Rods[1].Element+" "+m.Rods[1].Section)
	require.Equal(t, []float64{12, 96}, []float64{m.Rods[0].Diameter, m.Rods[0].Length})
	require.Equal(t, 2.0, m.Rods[1].Diameter, "the lesser side")
	require.Len(t, m.Base, 4, "a place for each, also where nothing is glued")
	require.True(t, m.Base[0].NotModelled)
	require.False(t, m.Base[1].NotModelled)
	require.Equal(t, []bool{false, true, false, true}, []bool{m.Base[0].Hole, m.Base[1].Hole, m.Base[2].Hole, m.Base[3].Hole})

	m, list = develop.Develop(open(t, cards+"cone spire\n    lower 600\n    upper 0\n    height 2400\n    model rod\n"), develop.Options{})
	require.Empty(t, printed(list))
	require.Empty(t, m.Pieces)
	require.Equal(t, "tapered", m.Rods[0].Section)
	require.Equal(t, []float64{24, 96}, []float64{m.Rods[0].Diameter, m.Rods[0].Length})
	require.False(t, m.Rods[0].Hole)

	_, list = develop.Develop(open(t, cards+"cone spire\n    lower 600\n    upper 0\n    height 2400\n    model tube\n"), develop.Options{})
	require.Contains(t, printed(list), "m:8:5: error: `spire` is no post, and only a post is modelled as a tube\n")
	_, list = develop.Develop(open(t, cards+"platform deck\n    outline rect 3600 x 2400\n    height 450\n    model rod\n"), develop.Options{})
	require.Contains(t, printed(list), "m:7:5: error: `deck` is no post, and only a post is modelled as a rod\n")
	require.Contains(t, printed(list), "hint: leave `model` out, or write `model no`")
}

func TestRodsOnPieces(t *testing.T) {
	deck := "platform deck\n    outline rect 3600 x 2400\n    height 450\n"
	post := "post p\n    diameter 50\n    height 1000\n    level 450\n"
	for name, c := range map[string]struct {
		text, piece, note string
	}{
		"in the top":      {deck + post + "    at 300, 300\n", "deck-1/5", ""},
		"over an edge":    {deck + post + "    at 1790, 300\n", "", "its rod stands in no hole"},
		"beside it":       {deck + post + "    at 5000, 300\n", "", "its rod stands in no hole"},
		"on a tread":      {"steps up\n    starts 0, 0 heading 90deg\n    risers 4\n    rise 150\n    going 300\n    width 900\n" + post + "    at 0, 750\n", "up-8/9", ""},
		"on a lying card": {"shape s\n    outline rect 900 x 900\n    thickness 37.5\n    level 412.5\n" + post + "    at 100, 0\n", "s-1/1", ""},
		"printed outside": {deck + post + "    at 300, 300\n", "deck-1/5", ""},
	} {
		t.Run(name, func(t *testing.T) {
			m, list := develop.Develop(open(t, c.text), develop.Options{Scale: 25, Card: 1.5, PrintOutside: name == "printed outside"})
			require.Empty(t, printed(list))
			require.Equal(t, c.piece, m.Rods[0].Piece)
			require.InDelta(t, 40, m.Rods[0].Length, 1e-9)
			require.False(t, m.Rods[0].Hole)
			if c.note != "" {
				require.Contains(t, m.Notes[0].Words, c.note)
				return
			}
			require.Empty(t, m.Notes)
			foot := m.Base[1].Areas[0].Bounds()
			for i := range m.Pieces {
				p := &m.Pieces[i]
				if p.Label() != c.piece {
					require.Empty(t, p.Outline.Holes)
					continue
				}
				require.Len(t, p.Outline.Holes, 1)
				hole := p.Outline.Holes[0].Bounds()
				top := 0.0
				if p.Hidden {
					top = p.Thickness
				}
				at := p.Made(hole.Mid(), top)
				require.InDelta(t, foot.Mid().X, at.X, 1e-9)
				require.InDelta(t, foot.Mid().Y, at.Y, 1e-9)
				require.InDelta(t, 18, at.Z, 1e-9)
				require.InDelta(t, 2, hole.W(), 1e-9)
			}
		})
	}
}
