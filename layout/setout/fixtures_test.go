package setout

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

func at(x, y, z, turn float64) []set.Copy {
	return []set.Copy{{Number: 1, Places: []set.Place{{Frame: geom.Upright(pt(x, y), z, turn)}}}}
}

func circle(d float64) set.Outline { return set.Outline{Form: "circle", Path: geom.Circle(d)} }

func rect(w, h float64) set.Outline { return set.Outline{Form: "rect", Path: geom.Rectangle(w, h)} }

func pin(x, y float64) *set.Element {
	return &set.Element{Name: "pin", Kind: "mark", Shape: &set.Mark{Points: []geom.Point{{}}}, Copies: at(x, y, 0, 0)}
}

// hall of 9000 × 8000 whose axes start at the middle of its front wall, on y −400 of the set.
func hall(tape float64, stations ...set.Station) *set.Element {
	o := rect(9000, 8000)
	o.Path = o.Path.Transform(geom.Move(pt(0, 4000), 0))
	o.Centre = pt(0, 4000)
	return &set.Element{Name: "quay_hall", Kind: "hall", Copies: at(0, -400, 0, 0),
		Shape: &set.Hall{Outline: o, Stations: stations, TapeLong: tape, Class: 2}}
}

func twoStations() []set.Station {
	return []set.Station{{Name: "A", At: pt(-4000, 400)}, {Name: "B", At: pt(4000, 400)}}
}

func bollards() *set.Element {
	e := &set.Element{Name: "bollard", Kind: "post", Shape: &set.Post{Outline: circle(60), Diameter: 60, Height: 700}, Numbered: true}
	for i := range 12 {
		a := 15 + 30*float64(i)
		s, c := geom.SincosDeg(a)
		e.Copies = append(e.Copies, set.Copy{Number: i + 1, Places: []set.Place{{Frame: geom.Upright(pt(4200*c, 3600+4200*s), 0, a+90)}}})
	}
	return e
}

func kioskDeck() *set.Element {
	path, err := geom.RegularPolygon(8, 4800, false)
	if err != nil {
		panic(err)
	}
	return &set.Element{Name: "deck", Kind: "platform", Tape: &set.Tape{Colour: "white", Width: 25},
		Shape: &set.Platform{Outline: set.Outline{Form: "polygon", Path: path}, Height: 450}, Copies: at(0, 3600, 0, 0)}
}

func frontSteps() *set.Element {
	return &set.Element{Name: "front", Kind: "steps", Copies: at(0, 600, 0, 0), Shape: &set.Steps{
		Rises: []float64{150, 150, 150}, Goings: []float64{300, 300}, Widths: []float64{1800, 1800}, Shifts: []float64{0, 0}}}
}

// ramp upstage of the deck: 1200 wide, 3600 long, climbing downstage to the deck's back edge at y 6000.
func backRamp() *set.Element {
	return &set.Element{Name: "ramp", Kind: "ramp", Shape: &set.Ramp{Length: 3600, Rise: 450, Width: 1200}, Copies: at(0, 9600, 0, 180)}
}

// posts are the eight canopy posts on the deck.
func posts() *set.Element {
	e := &set.Element{Name: "canopy", Kind: "post", Shape: &set.Post{Outline: circle(89), Diameter: 89, Height: 2400}, Numbered: true}
	for i := range 8 {
		s, c := geom.SincosDeg(22.5 + 45*float64(i))
		e.Copies = append(e.Copies, set.Copy{Number: i + 1, Places: []set.Place{{Frame: geom.Upright(pt(2350*c, 3600+2350*s), 450, 0), On: "deck"}}})
	}
	return e
}

func kiosk(elements ...*set.Element) *set.Set {
	h := hall(8000, twoStations()...)
	return &set.Set{Name: "Quayside kiosk", Production: "Low Tide", Hall: h, Elements: append([]*set.Element{h}, elements...)}
}

// rebuilt finds a row's place again from its printed distances and its side: the hands on the floor.
func rebuilt(a, b geom.Point, da, db float64, side string) (geom.Point, bool) {
	left, right, ok := geom.TwoDistances(a, da, b, db)
	if !ok {
		return geom.Point{}, false
	}
	first := map[string]bool{
		"upstage": left.Y > right.Y, "downstage": left.Y < right.Y,
		"plan-left": left.X < right.X, "plan-right": left.X > right.X,
	}[side]
	if first {
		return left, true
	}
	return right, true
}

func toStep(x, step float64) float64 { return math.Round(x/step) * step }
