package sheet

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

func outline(p *geom.Path, form string) set.Outline {
	return set.Outline{Form: form, Path: p, Centre: p.Bounds().Mid()}
}

func at(x, y, z, turn float64) []set.Copy {
	return []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Upright(geom.Point{X: x, Y: y}, z, turn)}}}}
}

func around(n int, cx, cy, z, r, from float64) []set.Copy {
	out := make([]set.Copy, n)
	for i := range out {
		a := from + float64(i)*360/float64(n)
		p := geom.Polar(r, a*math.Pi/180)
		out[i] = set.Copy{Number: i + 1, Places: []set.Place{{Frame: geom.Upright(geom.Point{X: cx + p.X, Y: cy + p.Y}, z, a+90)}}}
	}
	return out
}

// kiosk is the quayside kiosk of the production Low Tide.
func kiosk() *set.Set {
	octagon, err := geom.RegularPolygon(8, 4800, false)
	if err != nil {
		panic(err)
	}
	hall := &set.Element{Name: "quay_hall", Kind: "hall", Copies: at(0, 3600, 0, 0), Shape: &set.Hall{
		Outline:  outline(geom.Rectangle(9000, 8000), "rect"),
		Stations: []set.Station{{Name: "A", At: geom.Point{X: -4000, Y: -3600}}, {Name: "B", At: geom.Point{X: 4000, Y: -3600}}},
		TapeLong: 8000, Class: 2,
	}}
	return &set.Set{
		Name: "Quayside kiosk", Production: "Low Tide", Letter: "B", Date: "2026-11-20", Sides: "stage", Scale: 25, ScaleText: "1:25",
		Title: set.TitleBlock{Drawn: "M. Reed", Owner: "Low Tide art department", Number: "LT-104"},
		Hall:  hall,
		Elements: []*set.Element{
			hall,
			{Name: "deck", Kind: "platform", Copies: at(0, 3600, 0, 0), FullSize: []string{"floor"}, Tape: &set.Tape{Colour: "white", Width: 25},
				Shape: &set.Platform{Outline: outline(octagon, "polygon"), Height: 450, Deck: 18}},
			{Name: "front", Kind: "steps", Copies: at(0, 600, 0, 0), FullSize: []string{"floor", "side"},
				Shape: &set.Steps{Rises: []float64{150, 150, 150}, Goings: []float64{300, 300}, Widths: []float64{1800}, Shifts: []float64{0},
					Tread: 18, Meets: "deck", DeckBoard: 18, FootOn: "floor"}},
			{Name: "back", Kind: "ramp", Copies: at(0, 9600, 0, 180), FullSize: []string{"side"},
				Shape: &set.Ramp{Length: 3600, Rise: 450, Width: 1200, Meets: "deck"}},
			{Name: "canopy", Kind: "post", Copies: around(8, 0, 3600, 450, 2350, 22.5), Numbered: true,
				Shape: &set.Post{Outline: outline(geom.Circle(89), "circle"), Height: 2400, Diameter: 89}},
			{Name: "bollard", Kind: "post", Copies: around(12, 0, 3600, 0, 4200, 15), Numbered: true, FullSize: []string{"floor"},
				Shape: &set.Post{Outline: outline(geom.Circle(60), "circle"), Height: 700, Diameter: 60}},
			{Name: "pin", Kind: "mark", Copies: at(0, 3600, 0, 0), Shape: &set.Mark{Points: []geom.Point{{}}}},
		},
	}
}

// crates is a climb of odd-height blocks to a deck.
func crates() *set.Set {
	climb := &set.Steps{
		Rises:  []float64{140, 165, 150, 190, 120, 175, 160, 205, 155},
		Goings: []float64{300, 320, 280, 340, 300, 360, 300, 310},
		Widths: []float64{1400, 1350, 1300, 1250, 1200, 1150, 1100, 1050},
		Shifts: []float64{0, 60, -40, 80, 0, -90, 50, 0},
		Blocks: true, Lid: 18, Meets: "deck", FootOn: "floor",
	}
	return &set.Set{
		Name: "Crates", Production: "Low Tide", Letter: "A", Date: "2026-11-20", Sides: "stage",
		Elements: []*set.Element{
			{Name: "climb", Kind: "steps", Copies: at(0, 1200, 0, 0), Shape: climb, FullSize: []string{"floor", "side"}},
			{Name: "deck", Kind: "platform", Copies: at(0, 1200+2510+610, 0, 0),
				Shape: &set.Platform{Outline: outline(geom.Rectangle(2440, 1220), "rect"), Height: 1460}},
		},
	}
}
