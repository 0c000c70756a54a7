package sheet

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/overhead"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/tiling"
)

// galleySet is the sample, its text changed by what is given: old, new, old, new.
func galleySet(t testing.TB, changes ...string) (*set.Set, []*overhead.Room) {
	t.Helper()
	text, err := os.ReadFile("../../samples/galley/galley.markout")
	require.NoError(t, err)
	s, list := layout.Open(oneFile(strings.NewReplacer(changes...).Replace(string(text))), "x.markout", layout.Options{})
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	return s, overhead.Rooms(s)
}

// words gathers all that a page says, what shared forms say first.
func words(p *tiling.Page) string {
	var b strings.Builder
	var gather func(c *tiling.Content)
	gather = func(c *tiling.Content) {
		for _, u := range c.Uses {
			gather(&u.Form.Content)
		}
		for _, t := range c.Texts {
			b.WriteString(t.Text)
			b.WriteByte('\n')
		}
	}
	for l := range p.Layers {
		gather(&p.Layers[l])
	}
	return b.String()
}

func pagesOf(b *Book) []string {
	var out []string
	for i := range b.Document.Pages {
		var p tiling.Page
		p.Reset()
		b.Document.Make(i, &p)
		out = append(out, words(&p))
	}
	return out
}

// Every sheet says who decides; none says the word that would certify.
func TestEveryOverheadSheetDefers(t *testing.T) {
	certifies := strings.Join([]string{"sa", "fe"}, "")
	for _, changes := range [][]string{
		nil,
		{"turned lengthways", "mirrored"},
		{"    weight   38kg\n", "", "units      mm", "units      mm\n    sides camera"},
		{"station  P -2000, 200", "", "path     -1500,300 line -1500,3000 900,3000", "over dresser, locker"},
	} {
		s, rooms := galleySet(t, changes...)
		b, err := Overhead(s, rooms, rules.Check(s), filed("A3"))
		require.NoError(t, err)
		form, err := OverheadForm(s, rooms, filed("A3"))
		require.NoError(t, err)
		for i, w := range append(pagesOf(b), pagesOf(form)...) {
			flat := strings.Join(strings.Fields(w), " ")
			require.Contains(t, flat, "licensed rigger or engineer", "page %d: %s", i+1, flat)
			require.NotContains(t, strings.ToLower(flat), certifies)
			require.NotContains(t, flat, "seen from below, upstage")
		}
	}
}

// Known answers of the sample: 192.5 kg, centre of gravity 350 to plan-right and 2725 up, the locker at 1500 to plan-left.
func TestOverheadTables(t *testing.T) {
	s, rooms := galleySet(t)
	r := rooms[0]
	totals := OverheadTotals(s, r)
	require.Equal(t, OverheadLine{"in all", "192.5 kg; centre of gravity 350 L, 2725 U"}, totals[len(totals)-1])
	transfer := transferTable(s, r)
	for _, row := range transfer.Rows {
		if row[1].Text == "locker" {
			require.Equal(t, -1500.0, row[7].X)
			require.Equal(t, 2850.0, row[11].X)
			require.Equal(t, 2250.0, row[12].X)
		}
	}
	require.Contains(t, turnWords(s, r), "on the centre line, from the setting line to 3600 U")

	unweighed, rooms := galleySet(t, "    weight   38kg\n", "")
	all := OverheadTotals(unweighed, rooms[0])
	require.Contains(t, all[len(all)-1].Says, "at least 154.5 kg; 1 not weighed: locker")

	_, rooms = galleySet(t, "turned lengthways", "mirrored")
	lists := OverheadLists(s, rooms[0])
	require.Contains(t, lists[len(lists)-1].Of, "opposite-handed")
}

func TestLooks(t *testing.T) {
	s := &set.Set{Sides: "stage"}
	for deg, says := range map[float64]string{
		0: "stage left", 90: "upstage", 180: "stage right", 270: "downstage", 359.99999: "stage left",
		110: "20° from upstage to stage right", 340: "20° from stage left to downstage",
	} {
		require.Equal(t, says, looks(s, deg), deg)
	}
}

// Every mark is found again from the distances printed to half a millimetre, on the side that is said; the stations are the room's own.
func TestMarksAreFoundAgain(t *testing.T) {
	s, rooms := galleySet(t, "at       0, 1800", "at       1300, 2800\n    turn 20deg")
	tab := marksTable(s, rooms[0])
	require.NotEmpty(t, tab.Rows)
	at := map[string]*overhead.Piece{}
	for i := range rooms[0].Pieces {
		at[rooms[0].Pieces[i].Name] = &rooms[0].Pieces[i]
	}
	m := rooms[0].Frame.Plan()
	p, q := m.Apply(rooms[0].Shape.Stations[0].At), m.Apply(rooms[0].Shape.Stations[1].At)
	seen := 0
	for _, row := range tab.Rows {
		piece := at[row[0].Text]
		if piece == nil || row[2].Text != "place" {
			continue
		}
		seen++
		require.InDelta(t, piece.Overhead.T.X, row[3].X, 1e-9)
		require.InDelta(t, piece.Overhead.T.Z, row[5].X, 1e-9)
		for k := 7; k <= 9; k += 2 {
			from := p
			if row[k].Text == "Q" {
				from = q
			} else {
				require.Equal(t, "P", row[k].Text)
			}
			require.InDelta(t, from.Dist(piece.Overhead.T.Plan()), row[k+1].X, 1e-9)
		}
	}
	require.Equal(t, 9, seen) // all but the stack of plates, which goes by its first and last
}

// Pieces that are alike have one pair of templates.
func TestTemplatesOfLikePiecesComeOnce(t *testing.T) {
	s, rooms := galleySet(t)
	b, err := Overhead(s, rooms, nil, filed("A3"))
	require.NoError(t, err)
	var views []string
	for _, e := range b.Entries {
		if strings.HasPrefix(e.View, "template") {
			views = append(views, e.View+" "+e.Element)
		}
	}
	require.Equal(t, []string{
		"template below mess_table", "template above mess_table", "template below bench_left,bench_right", "template above bench_left,bench_right",
		"template below locker", "template above locker", "template below dresser", "template above dresser",
	}, views)
}

// What is alike in outline and carries another weight has its own sheets, so that no sheet gives one the other's load.
func TestTemplatesOfUnlikeLoadsStandApart(t *testing.T) {
	s, rooms := galleySet(t, "at       350, 1500\n    size     350 x 1100\n    height   980\n    weight   22kg", "at       350, 1500\n    size     350 x 1100\n    height   980\n    weight   about 40kg")
	b, err := Overhead(s, rooms, nil, filed("A3"))
	require.NoError(t, err)
	var benches []string
	for _, e := range b.Entries {
		if strings.HasPrefix(e.View, "template") && strings.Contains(e.Element, "bench") {
			benches = append(benches, e.View+" "+e.Element)
		}
	}
	require.Equal(t, []string{"template below bench_left", "template above bench_left", "template below bench_right", "template above bench_right"}, benches)
	for i := range rooms[0].Pieces {
		if p := &rooms[0].Pieces[i]; p.Name == "bench_right" {
			require.Equal(t, "About 40 kg with all that is fixed to it; 10 kg a fixing if shared equally", loadWords(s, p))
		}
	}
}

// A piece on a wall is not held against a surface over it, and its plan does not say how high its fixings are.
func TestHoldWordsOfAPieceOnAWall(t *testing.T) {
	for _, below := range []bool{true, false} {
		require.Contains(t, holdWords(below, "bulkhead"), "fixed to the wall bulkhead, not to a surface over it")
		require.NotContains(t, holdWords(below, ""), "wall")
	}
	require.Contains(t, holdWords(true, ""), "over your head, print towards you")
	require.Contains(t, holdWords(false, ""), "print up")
}
