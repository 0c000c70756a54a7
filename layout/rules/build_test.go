package rules

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// place is where one piece stands: at x, y, its underside at z, turned by so many degrees.
func place(x, y, z, turn float64) set.Place {
	return set.Place{Frame: geom.Upright(geom.Point{X: x, Y: y}, z, turn)}
}

// element is an element that stands once in each of the places.
func element(name string, sh set.Shape, places ...set.Place) *set.Element {
	e := &set.Element{Name: name, Kind: sh.Kind(), Shape: sh}
	for i, pl := range places {
		e.Copies = append(e.Copies, set.Copy{Number: i + 1, Places: []set.Place{pl}})
	}
	return e
}

func of(elements ...*set.Element) *set.Set {
	s := &set.Set{Name: "test", Elements: elements}
	for _, e := range elements {
		if e.Kind == "hall" {
			s.Hall = e
		}
	}
	return s
}

func inFeet(s *set.Set) *set.Set { s.Units = unit.Foot; return s }

func rect(w, d float64) set.Outline { return set.Outline{Form: "rect", Path: geom.Rectangle(w, d)} }

func circle(d float64) set.Outline { return set.Outline{Form: "circle", Path: geom.Circle(d)} }

// flight is a flight on the floor, its foot at 0,0, climbing up the plan.
func flight(rises, goings []float64, widths ...float64) *set.Steps {
	if len(widths) == 0 {
		widths = []float64{1800}
	}
	return &set.Steps{Rises: rises, Goings: goings, Widths: widths, FootOn: "floor"}
}

// even is a flight of n equal risers.
func even(n int, rise, going float64) *set.Steps {
	return flight(slices.Repeat([]float64{rise}, n), slices.Repeat([]float64{going}, n-1))
}

// crates is the climb of odd-height crates of the production "Low Tide".
func crates() *set.Set {
	s := flight([]float64{140, 165, 150, 190, 120, 175, 160, 205, 155}, []float64{300, 320, 280, 340, 300, 360, 300, 310},
		1400, 1350, 1300, 1250, 1200, 1150, 1100, 1050)
	s.Shifts = []float64{0, 60, -40, 80, 0, -90, 50, 0}
	s.Blocks = true
	return of(element("climb", s, place(0, 1200, 0, 0)),
		element("deck", &set.Platform{Outline: rect(2440, 1220), Height: 1460}, place(0, 1200+2510+610, 0, 0)))
}

// kiosk is the deck of the quayside kiosk with its steps, its ramp and its ring of bollards.
func kiosk(t testing.TB) *set.Set {
	octagon, err := geom.RegularPolygon(8, 4800, false)
	require.NoError(t, err)
	var ring []set.Place
	for i := range 12 {
		p := geom.Polar(4200, (15+30*float64(i))*3.141592653589793/180)
		ring = append(ring, place(p.X, 3600+p.Y, 0, 0))
	}
	front := even(3, 150, 300)
	return of(
		element("deck", &set.Platform{Outline: set.Outline{Form: "polygon", Path: octagon}, Height: 450}, place(0, 3600, 0, 0)),
		element("front", front, place(0, 1200-600, 0, 0)),
		element("back", &set.Ramp{Length: 3600, Rise: 450, Width: 1200}, place(0, 9600, 0, 180)),
		element("bollard", &set.Post{Outline: circle(60), Diameter: 60, Height: 700}, ring...),
	)
}

// only returns the caution of that code, which must be there once; none where want is false.
func only(t testing.TB, s *set.Set, code string) caution.Caution {
	t.Helper()
	var found []caution.Caution
	for _, c := range Check(s) {
		if c.Code == code {
			found = append(found, c)
		}
	}
	require.Len(t, found, 1, code)
	return found[0]
}

func codesOf(s *set.Set) []string {
	var out []string
	for _, c := range Check(s) {
		out = append(out, c.Element+" "+c.Code)
	}
	return out
}

func has(s *set.Set, code string) bool {
	return slices.ContainsFunc(codesOf(s), func(c string) bool { return strings.HasSuffix(c, " "+code) })
}
