package cli

import (
	"fmt"
	"strconv"
	"strings"

	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/trial"
	"markout/layout/unit"
)

// optionsCSV is the table for programs: a column for each word that is tried, then the names that the JSON has.
func optionsCSV(r *trial.Result) *table.Table {
	t := &table.Table{Name: "options"}
	for _, tr := range r.Trials {
		t.Columns = append(t.Columns, table.Column{Name: tr.Word, Kind: table.Length, Decimals: 6})
	}
	t.Columns = append(t.Columns, []table.Column{
		{Name: "run_mm", Kind: table.Length, Decimals: 2}, {Name: "foot_mm"}, {Name: "rise_mm", Kind: table.Length, Decimals: 2},
		{Name: "going_mm", Kind: table.Length, Decimals: 2}, {Name: "step_length_mm", Kind: table.Length, Decimals: 2}, {Name: "fits"},
		{Name: "marks_to_move", Kind: table.Count}, {Name: "blocks_to_build", Kind: table.Count}, {Name: "held"}, {Name: "cautions"}, {Name: "error"},
	}...)
	number := func(x *float64) table.Value {
		if x == nil {
			return table.Blank
		}
		return table.N(*x)
	}
	count := func(n *int) table.Value {
		if n == nil {
			return table.Blank
		}
		return table.N(float64(*n))
	}
	truth := func(x *bool) table.Value {
		if x == nil {
			return table.Blank
		}
		return table.T(strconv.FormatBool(*x))
	}
	for i, j := range optionsJSON(r) {
		var row []table.Value
		for _, v := range r.Options[i].Values {
			if v.Number {
				row = append(row, table.N(v.X))
			} else {
				row = append(row, table.T(v.Text))
			}
		}
		foot := ""
		if j.Foot != nil {
			foot = unit.FormatNumber(j.Foot[0], 0.1) + "," + unit.FormatNumber(j.Foot[1], 0.1)
		}
		row = append(row, number(j.Run), table.T(foot), number(j.Rise), number(j.Going), number(j.StepLength), truth(j.Fits),
			count(j.Marks), count(j.Blocks), table.T(strings.Join(j.Held, " ")), table.T(raisedWords(r.Options[i].New, "")), table.T(r.Options[i].Error))
		t.Rows = append(t.Rows, row)
	}
	return t
}

// optionsText is the table for people, with the set as it stands in its first row.
func optionsText(s *set.Set, r *trial.Result) *table.Table {
	t := &table.Table{Name: "options", Title: s.Name + ": " + plural(len(r.Options), "option"), Sides: s.SideNames(), Feet: s.Units.Imperial()}
	for _, tr := range r.Trials {
		t.Columns = append(t.Columns, table.Column{Heading: tr.Word})
	}
	t.Columns = append(t.Columns, []table.Column{
		{Heading: "rise", Kind: table.Length}, {Heading: "going", Kind: table.Length}, {Heading: "run", Kind: table.Length, Step: 0.1},
		{Heading: "foot", Kind: table.X, Step: 0.1}, {Heading: "", Kind: table.Y, Step: 0.1}, {Heading: "2R + G", Kind: table.Length},
		{Heading: "lift", Kind: table.Count}, {Heading: "lay", Kind: table.Count}, {Heading: "blocks"},
		{Heading: "fits"}, {Heading: "new", Kind: table.Count},
	}...)
	w := optionWords{s, r}
	t.Rows = append(t.Rows, w.row(&r.AsIs, true))
	for i := range r.Options {
		t.Rows = append(t.Rows, w.row(&r.Options[i], false))
	}
	return t
}

// optionWords say what people read of options.
type optionWords struct {
	set *set.Set
	*trial.Result
}

func (w optionWords) row(o *trial.Option, asIs bool) []table.Value {
	var row []table.Value
	for i := range w.Trials {
		switch {
		case !asIs:
			row = append(row, table.T(w.value(i, o.Values[i])))
		case i == 0:
			row = append(row, table.T("as it stands"))
		default:
			row = append(row, table.Blank)
		}
	}
	if o.Error != "" {
		row = append(row, table.T("error"))
		return append(row, make([]table.Value, 10)...)
	}
	if f := o.Flight; f != nil {
		row = append(row, w.span(f.Rises), w.span(f.Goings), table.N(f.Run), table.N(f.Foot.X), table.N(f.Foot.Y), w.span(f.Strides))
	} else {
		row = append(row, make([]table.Value, 6)...)
	}
	if asIs {
		return append(row, table.Blank, table.Blank, table.Blank, w.fits(o), table.Blank)
	}
	return append(row, table.N(float64(o.Lift)), table.N(float64(o.Lay)), w.blocks(o), w.fits(o), table.N(float64(len(o.New))))
}

func (w optionWords) length(x float64) string { return unit.FormatLength(x, w.set.Units, 0.1) }

// span is 150, or 120 to 205.
func (w optionWords) span(s trial.Span) table.Value {
	a, b := w.length(s.Least), w.length(s.Greatest)
	switch {
	case s.Count == 0:
		return table.Blank
	case a == b:
		return table.T(a)
	}
	return table.T(a + " to " + b)
}

// blocks is 2, or 2 (1 cut down).
func (w optionWords) blocks(o *trial.Option) table.Value {
	switch {
	case !o.HasBlocks:
		return table.Blank
	case o.CutDown == 0:
		return table.T(fmt.Sprint(o.Build))
	}
	return table.T(fmt.Sprintf("%d (%d cut down)", o.Build, o.CutDown))
}

// fits is yes or no, nothing where there is no hall worked in.
func (w optionWords) fits(o *trial.Option) table.Value {
	switch {
	case !o.HasHall:
		return table.Blank
	case o.Fits:
		return table.T("yes")
	}
	return table.T("no")
}
