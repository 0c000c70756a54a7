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

// loft is a net loft with everything that a plan can show: pillars, walls with openings, a flight with a landing, a piece
// that moves, one overhead, one hidden, a volume to keep clear.
func loft() *set.Set {
	rect := func(w, h float64) set.Outline { return outline(geom.Rectangle(w, h), "rect") }
	hall := &set.Element{Name: "stage_two", Kind: "hall", Copies: at(0, 4000, 0, 0), Shape: &set.Hall{
		Outline: rect(14000, 10000), Stations: []set.Station{{Name: "A", At: geom.Point{X: -6000, Y: -4500}}, {Name: "B", At: geom.Point{X: 6000, Y: -4500}}, {Name: "C", At: geom.Point{X: 0, Y: 4800}}},
		Pillars: []set.Pillar{{Outline: set.Outline{Form: "circle", Path: geom.Circle(400).Transform(geom.Move(geom.Point{X: -5000, Y: 2000}, 0))}}, {Outline: set.Outline{Form: "rect", Path: geom.Rectangle(500, 400).Transform(geom.Move(geom.Point{X: 5000, Y: 2000}, 0))}}},
		Class:   2}}
	cart := &set.Element{Name: "cart", Kind: "platform", Shape: &set.Platform{Outline: rect(1800, 900), Height: 200}, Copies: []set.Copy{{Number: 1, Places: []set.Place{
		{Frame: geom.Upright(geom.Point{X: -2500, Y: 800}, 0, 0)}, {Position: "scene 2", Frame: geom.Upright(geom.Point{X: 2200, Y: 900}, 0, 30)}}}}}
	inner := outline(geom.Circle(1600), "circle")
	return &set.Set{Name: "Net loft", Production: "Low Tide", Letter: "C", Date: "2026-11-20", Sides: "camera", Hall: hall, Elements: []*set.Element{hall, cart,
		{Name: "back_wall", Kind: "flat", Copies: at(-4000, 7000, 0, 0), Shape: &set.Flat{Length: 8000, Height: 3000, Thickness: 50, Openings: []set.Opening{{Word: "door", At: 1000, Width: 900, Height: 2000}, {Word: "window", At: 4000, Sill: 900, Width: 1500, Height: 1000}}}},
		{Name: "side_wall", Kind: "flat", Copies: at(-4000, 3000, 0, 90), Shape: &set.Flat{Length: 4000, Height: 3000, Thickness: 50, FaceLeft: false}},
		{Name: "loft", Kind: "platform", Copies: at(1500, 5500, 0, 0), Shape: &set.Platform{Outline: rect(3600, 2400), Height: 1350, Deck: 18}},
		{Name: "stair", Kind: "steps", Copies: at(-3180, 5500, 0, -90), Shape: &set.Steps{Rises: []float64{150, 150, 150, 150, 150, 150, 150, 150, 150}, Goings: []float64{260, 260, 260, 260, 1100, 260, 260, 260}, Widths: []float64{1000}, Shifts: []float64{0}, Landings: []int{5}, Nosing: 25, Meets: "loft", DeckBoard: 18}},
		{Name: "coaming", Kind: "ring", Copies: at(1500, 5500, 1350, 0), Shape: &set.Ring{Outer: outline(geom.Circle(2000), "circle"), Inner: &inner, Height: 300}},
		{Name: "lamp", Kind: "ring", Copies: at(0, 2500, 2600, 0), Shape: &set.Ring{Outer: outline(geom.Circle(1200), "circle"), Height: 150}},
		{Name: "turn", Kind: "reserve", Copies: at(3800, 2500, 0, 0), Shape: &set.Reserve{Outline: outline(geom.Circle(1500), "circle"), Height: 2000}},
		{Name: "store", Kind: "ring", Copies: at(2500, 6000, 0, 0), Shape: &set.Ring{Outer: rect(800, 600), Height: 900}},
		{Name: "quay_edge", Kind: "mark", Copies: at(0, 0, 0, 0), Shape: &set.Mark{Dashed: true, Paths: []*geom.Path{func() *geom.Path {
			p := geom.NewPath(geom.Point{X: -6000, Y: 300})
			p.LineTo(geom.Point{X: 6000, Y: 300})
			return p
		}()}}},
		{Name: "spike", Kind: "mark", Copies: at(-1000, 1500, 0, 0), Shape: &set.Mark{Points: []geom.Point{{}}}},
	}, Dims: []set.Dim{{A: set.Anchor{At: geom.Point{X: -1000, Y: 1500}}, B: set.Anchor{At: geom.Point{X: 1500, Y: 4300}}}}}
}
