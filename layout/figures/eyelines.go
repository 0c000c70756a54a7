package figures

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
)

// Sight is one line of sight, from a figure's eyes to what it looks at.
type Sight struct {
	Figure   string   // with the copy's number and its position
	Eyes     geom.Vec // in the set's axes
	At       geom.Vec
	Words    string  // what it looks at, as the text has it
	Distance float64 // straight from the eyes
	Up       float64 // degrees above the level, −90 to 90
	// Round is in degrees from the way the figure's face looks to where At lies on the plan, from −180 (not included) to 180: more than
	// 0 to the left of one who stands behind the figure and looks the way its face does.
	Round float64
}

// Sights returns the line of sight of every figure that is to look at something and whose eye line is given, in the file's
// order, of each copy in each of its positions.
func Sights(s *set.Set) []Sight {
	var out []Sight
	for _, e := range s.Elements {
		f, ok := e.Shape.(*set.Figure)
		if !ok || f.LookAt == nil {
			continue
		}
		eyes, ok := f.Eyes()
		if !ok {
			continue
		}
		for _, c := range e.Copies {
			for _, pl := range c.Places {
				out = append(out, sight(e.PlaceName(c, pl), pl.Frame, eyes, f.LookAt))
			}
		}
	}
	return out
}

// sight measures one line of sight. On the plan the face looks along the own −y axis.
func sight(name string, frame geom.Frame, eyes geom.Point, look *set.Look) Sight {
	from := frame.Apply(geom.Vec{X: eyes.X, Z: eyes.Y})
	g := Sight{Figure: name, Eyes: from, At: look.At, Words: look.Words}
	to := geom.Point{X: look.At.X - from.X, Y: look.At.Y - from.Y}
	up := look.At.Z - from.Z
	level := to.Len()
	g.Distance = math.Hypot(level, up)
	if g.Distance > geom.Tolerance {
		g.Up = math.Atan2(up, level) * 180 / math.Pi
	}
	if level > geom.Tolerance {
		ahead := frame.Plan().Vector(geom.Point{Y: -1})
		g.Round = math.Atan2(ahead.Cross(to), ahead.Dot(to)) * 180 / math.Pi
		if g.Round <= -180 {
			g.Round = 180
		}
	}
	return g
}

// EyeLines returns the table of sights; nil where no figure looks at anything. For programs up_deg and round_deg are signed;
// people read up or down and to its left or right.
func EyeLines(s *set.Set) *table.Table {
	sights := Sights(s)
	if len(sights) == 0 {
		return nil
	}
	place := func(name, heading string, kind table.Kind) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: kind, Decimals: 1, Step: 1}
	}
	t := &table.Table{
		Name: "eye lines", Title: s.Name + ": eye lines",
		Sides: s.SideNames(), Feet: s.Units.Imperial(),
		Columns: []table.Column{
			{Name: "figure", Heading: "Figure"},
			place("eye_x_mm", "Eyes from centre line", table.X),
			place("eye_y_mm", "Eyes from setting line", table.Y),
			place("eye_z_mm", "Eyes above floor", table.Level),
			{Name: "looks_at", Heading: "Looks at"},
			place("distance_mm", "Distance", table.Length),
			{Name: "up_deg", Heading: "Up", Kind: table.Tilt, Decimals: 2, Step: 0.5},
			{Name: "round_deg", Heading: "Round", Kind: table.Round, Decimals: 2, Step: 0.5},
		},
		Notes: []string{
			"Distances run straight from the eyes. Up is above or below the level of the eyes. Round is from the way the figure's face looks, to the left or right of one who stands behind it and looks that way too.",
			"The eyes are taken to be on the eye line, half way over the widest part of the figure there.",
		},
	}
	for _, g := range sights {
		t.Rows = append(t.Rows, []table.Value{
			table.T(g.Figure), table.N(g.Eyes.X), table.N(g.Eyes.Y), table.N(g.Eyes.Z), table.T(g.Words),
			table.N(g.Distance), table.N(g.Up), table.N(g.Round),
		})
	}
	return t
}
