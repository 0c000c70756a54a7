package enlarge

import (
	"strconv"

	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
)

// Sides names the sides of a cloth's centre line, as seen from the front.
var Sides = table.Sides{Plus: "R", Minus: "L", PlusWord: "RIGHT", MinusWord: "LEFT"}

// Snaps lists every line that is snapped on a cloth, each with its own distance from the centre line or the finished lower edge, so
// that no error adds up from line to line: the finished edges, the grid's of the given step, then those of the finer ones.
func Snaps(name string, c *set.Cloth, step float64, u unit.System) *table.Table {
	t := &table.Table{
		Name: "lines", Title: name + ", lines to snap", Sides: Sides, Feet: u.Imperial(),
		Columns: []table.Column{
			{Name: "grid", Heading: "Grid"}, {Name: "line", Heading: "Line"}, {Name: "runs", Heading: "Runs"},
			{Name: "x_mm", Heading: "Across", Kind: table.X, Decimals: 1, Step: 1},
			{Name: "y_mm", Heading: "Up", Kind: table.Length, Decimals: 1, Step: 1},
		},
		Notes: []string{
			"Across counts from the centre line, L left and R right of it as the cloth is seen from the front; up from the finished lower edge. Measure each line from there, never from the line before.",
		},
	}
	add := func(grid, line, runs string, x, y table.Value) {
		t.Rows = append(t.Rows, []table.Value{table.T(grid), table.T(line), table.T(runs), x, y})
	}
	half := c.Width / 2
	add("finished edge", "", "upright", table.N(-half), table.Blank)
	add("finished edge", "", "upright", table.N(half), table.Blank)
	add("finished edge", "", "level", table.Blank, table.N(0))
	add("finished edge", "", "level", table.Blank, table.N(c.Height))
	across, up := Lines(c, step)
	for _, l := range across {
		add("whole cloth", l.Label, "upright", table.N(l.At), table.Blank)
	}
	for _, l := range up {
		add("whole cloth", l.Label, "level", table.Blank, table.N(l.At))
	}
	for i, g := range c.Fine {
		name := "part " + strconv.Itoa(i+1)
		xs, ys := Finer(g)
		for _, x := range xs {
			add(name, "", "upright", table.N(x), table.Blank)
		}
		for _, y := range ys {
			add(name, "", "level", table.Blank, table.N(y))
		}
	}
	return t
}

// Taken is what paper a cloth takes.
type Taken struct {
	Paper  string
	Pages  int
	Metres float64 // of a roll
}

// Table is the facts of a cloth for programs, one row.
func (f *Facts) Table(name string, c *set.Cloth, step float64, took Taken) *table.Table {
	t := &table.Table{Name: "enlarge", Title: name}
	var row []table.Value
	add := func(name, heading string, kind table.Kind, decimals int, v table.Value) {
		t.Columns = append(t.Columns, table.Column{Name: name, Heading: heading, Kind: kind, Decimals: decimals})
		row = append(row, v)
	}
	known := func(x float64) table.Value {
		if x == 0 {
			return table.Blank
		}
		return table.N(x)
	}
	across, up := Lines(c, step)
	add("element", "Cloth", table.Text, 0, table.T(name))
	add("artwork", "Artwork", table.Text, 0, table.T(c.Art.File))
	add("width_mm", "Width", table.Length, 1, table.N(c.Width))
	add("height_mm", "Height", table.Length, 1, table.N(c.Height))
	add("per_inch_x", "Pixels per inch across", table.Length, 2, known(f.PerInchX))
	add("per_inch_y", "Pixels per inch up", table.Length, 2, known(f.PerInchY))
	add("pixel_mm", "Pixel", table.Length, 3, known(f.Pitch))
	add("pixels_disappear_mm", "Pixels disappear from", table.Length, 0, known(f.Distance))
	add("kept", "Pictures that keep their bytes", table.Count, 0, table.N(float64(f.Kept)))
	add("decoded", "Pictures decoded", table.Count, 0, table.N(float64(f.Stored)))
	add("held_whole", "Pictures held whole", table.Count, 0, table.N(float64(f.Whole)))
	add("grid_mm", "Grid", table.Length, 1, table.N(step))
	add("lines_upright", "Upright lines", table.Count, 0, table.N(float64(len(across))))
	add("lines_level", "Level lines", table.Count, 0, table.N(float64(len(up))))
	add("snapped_m", "Snapped, in metres", table.Length, 1, table.N(Snapped(c, step)/1000))
	add("paper", "Paper", table.Text, 0, table.T(took.Paper))
	add("pages", "Pages at full size", table.Count, 0, table.N(float64(took.Pages)))
	add("roll_m", "Metres of a roll", table.Length, 1, known(took.Metres))
	t.Rows = [][]table.Value{row}
	return t
}
