package setout

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/unit"
)

func TestTable(t *testing.T) {
	l := Lay(kiosk(kioskDeck(), posts(), pin(0, 3600)))
	tab := l.Table()
	var names []string
	for _, i := range tab.ForPrograms() {
		names = append(names, tab.Columns[i].Name)
	}
	require.Equal(t, []string{"element", "point", "x_mm", "y_mm", "level_mm", "tape", "from_1", "distance_1_mm", "from_2", "distance_2_mm",
		"side", "crossing_deg", "error_mm", "from_3", "distance_3_mm"}, names)
	people := func(i int) (out []string) {
		for k, c := range tab.Columns {
			out = append(out, tab.ForPeople(c, tab.Rows[i][k]))
		}
		return out
	}
	// The pin is 5381.4 from either station (√(4000² + 3600²)), the tapes crossing at 2·atan(4000/3600) = 96°; class II allows
	// 0.3 + 6 · 0.2 = 1.5 each.
	require.Equal(t, []string{"pin", "point", "0", "3600 U", "0", "", "A", "5381.5", "B", "5381.5", "upstage", "96", "2.2", "", "", ""}, people(0))
	deck := people(1)
	require.Equal(t, []string{"deck", "corner 1", "994 R", "1200 U", "0", "white 25 mm"}, deck[:6])
	post := people(9)
	require.Equal(t, "canopy.1", post[0])
	require.Equal(t, "450", post[4])
	require.Equal(t, "plumbed down", post[15])
	require.Contains(t, tab.Notes, "Round pieces are laid from their centre: canopy Ø89.")
	require.Equal(t, tab, Lay(kiosk(kioskDeck(), posts(), pin(0, 3600))).Table(), "the same set gives the same table")
}

func TestTableInFeet(t *testing.T) {
	s := kiosk(kioskDeck())
	s.Units = unit.Foot
	s.Elements[1].Tape.Width = 25.4
	tab := Lay(s).Table()
	require.True(t, tab.Feet)
	require.Equal(t, `white 1"`, tab.ForPeople(tab.Columns[5], tab.Rows[0][5]))
	require.Contains(t, tab.Notes[1], `Tapes up to 26'-3"`)
}

func TestTableWithoutStations(t *testing.T) {
	s := kiosk(kioskDeck())
	s.Hall, s.Elements = nil, s.Elements[1:]
	tab := Lay(s).Table()
	for _, row := range tab.Rows {
		for _, v := range row[6:] {
			require.False(t, v.Set)
		}
	}
	require.Contains(t, tab.Notes[len(tab.Notes)-1], "two stations")
}
