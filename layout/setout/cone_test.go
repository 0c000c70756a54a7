package setout

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

func cone(name string, x, y float64, sh *set.Cone) *set.Element {
	return &set.Element{Name: name, Kind: "cone", Shape: sh, Copies: at(x, y, 0, 0)}
}

// A cone is kept clear of where it is widest.
func TestConesAreMeasuredFromTheirWiderEnd(t *testing.T) {
	spire := cone("spire", 0, 0, &set.Cone{Lower: 900, Height: 1800})
	planter := cone("planter", 2000, 0, &set.Cone{Lower: 300, Upper: 450, Height: 420, Sides: 4})
	got := Clearances(&set.Set{Elements: []*set.Element{spire, planter}})
	require.InDelta(t, 2000-450-225, find(t, got, "spire", "planter").Clear, 1e-6)
	for _, m := range Measures(&set.Set{Elements: []*set.Element{spire, planter}}) {
		switch m.Element {
		case "spire":
			require.InEpsilon(t, math.Pi*450*450, m.Area, 1e-9)
		case "planter":
			require.InDelta(t, 4*450, m.Perimeter, 1e-9)
		}
	}
}

// It is laid by its lower end, which is what the note gives; a point is laid by the rim over it.
func TestConesAreLaidByTheirFoot(t *testing.T) {
	s := kiosk(cone("spire", 0, 3000, &set.Cone{Lower: 900, Upper: 300, Height: 1800}), cone("funnel", 2000, 3000, &set.Cone{Upper: 500, Height: 400}),
		cone("planter", 3000, 3000, &set.Cone{Lower: 300, Upper: 450, Height: 420, Sides: 4}))
	l := Lay(s)
	notes := strings.Join(l.notes(), "\n")
	require.Contains(t, notes, "spire Ø900, funnel Ø500.")
	require.NotContains(t, notes, "planter")
	require.Zero(t, rises(s.Elements[1].Shape), "its side leans")
	require.Equal(t, 20.0, rises(&set.Cone{Lower: 500, Upper: 500, Height: 20}))
}

// The rows of a curved flat take as much tape as its line is long.
func TestCurvedFlatRows(t *testing.T) {
	line := geom.NewPath(geom.Point{X: -1000})
	line.ArcTo(geom.Point{}, -math.Pi, geom.Point{X: 1000})
	e := &set.Element{Name: "bay", Kind: "flat", Shape: &set.Flat{Line: line, Length: line.Length(), Height: 2400, Thickness: 60}, Copies: at(0, 3000, 0, 0)}
	var names []string
	run := 0.0
	for _, r := range inOrder(kiosk(e)) {
		if r.Of == e {
			names = append(names, r.Point)
			run += r.Run
		}
	}
	require.Equal(t, []string{"P", "middle 1", "Q"}, names)
	require.InDelta(t, 1000*math.Pi, run, 1e-9)
}
