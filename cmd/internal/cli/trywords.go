package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"markout/layout"
	"markout/layout/caution"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/trial"
	rtable "markout/render/table"
)

// optionsPrinted is how many options are named where several have the same said of them.
const optionsPrinted = 12

// printOptions prints the table for people, and beneath it what there is to say of options in words.
func (a *app) printOptions(s *set.Set, r *trial.Result) error {
	w := optionWords{s, r}
	if err := rtable.Text(a.Out, optionsText(s, r)); err != nil {
		return err
	}
	p := &printer{w: a.Out}
	w.legend(p)
	w.section(p, "Cannot be made", func(o *trial.Option) string { return o.Error })
	w.section(p, "Held", func(o *trial.Option) string { return strings.Join(o.Held, ", ") })
	w.section(p, "How it stands", w.stands)
	w.section(p, "New cautions", func(o *trial.Option) string { return raisedWords(o.New, w.Flight) })
	w.section(p, "Cautions that the set as it stands has, and the option has not", func(o *trial.Option) string { return raisedWords(o.Gone, w.Flight) })
	p.printf("\n")
	switch {
	case w.Flight != "":
		p.printf("Rise, going, run, foot and 2R + G are those of %s; the foot is the middle of its first riser.\n", w.Flight)
	case w.Why != "":
		p.printf("Rise, going, run, foot and 2R + G are not given: %s.\n", w.Why)
	}
	p.printf("Lift and lay count marks on the floor from those that stand now; new counts cautions.\n")
	p.printf("The set as it stands has %s; `markout explain CODE` explains one.\n%s\n", plural(w.AsIs.Cautions, "caution"), caution.Defer)
	if r.AsIs.HasHall {
		p.printf("Fits says whether a turn and shift were found at which the option fits the hall; `markout check --with` says which.\n")
	} else {
		p.printf("Not checked: whether an option fits the hall, since there is no hall worked in.\n")
	}
	return p.err
}

// section prints what is said of options, those of which the same is said together.
func (w optionWords) section(p *printer, title string, says func(o *trial.Option) string) {
	named := map[string][]string{}
	var order []string
	for i := range w.Options {
		words := says(&w.Options[i])
		if words == "" {
			continue
		}
		if named[words] == nil {
			order = append(order, words)
		}
		named[words] = append(named[words], w.name(&w.Options[i]))
	}
	if len(order) == 0 {
		return
	}
	p.printf("\n%s\n", title)
	for _, words := range order {
		names := named[words]
		more := ""
		if n := len(names) - optionsPrinted; n > 0 {
			names, more = names[:optionsPrinted], fmt.Sprintf(" … and %d more", n)
		}
		p.printf("    %s%s: %s\n", strings.Join(names, ", "), more, words)
	}
}

// name is what an option is called: its value, or all of them.
func (w optionWords) name(o *trial.Option) string {
	list := make([]string, len(o.Values))
	for i, v := range o.Values {
		list[i] = w.value(i, v)
		if len(o.Values) > 1 {
			list[i] = w.Trials[i].Word + "=" + list[i]
		}
	}
	return strings.Join(list, " ")
}

// longValue is the length in characters from which a value goes by its number.
const longValue = 20

// value is what a value of a trial is called: itself or, where it is long, its number.
func (w optionWords) value(k int, v layout.Tried) string {
	if len(v.Text) < longValue {
		return v.Text
	}
	return fmt.Sprintf("(%d)", slices.Index(w.Trials[k].Values, v)+1)
}

// legend says what long values are.
func (w optionWords) legend(p *printer) {
	for k, t := range w.Trials {
		first := true
		for _, v := range t.Values {
			name := w.value(k, v)
			if name == v.Text {
				continue
			}
			if first {
				p.printf("\n%s\n", t.Word)
			}
			p.printf("    %s %s\n", name, v.Text)
			first = false
		}
	}
}

// stands says where the foot stands on nothing, and how far the level moves on which the flight lands.
func (w optionWords) stands(o *trial.Option) string {
	f := o.Flight
	if f == nil {
		return ""
	}
	var list []string
	if up := f.Top - w.AsIs.Flight.Top; math.Abs(up) > geom.Tolerance {
		list = append(list, "the top comes "+w.way(up, "up", "down"))
	}
	if math.Abs(f.Gap) > geom.Tolerance {
		under := "what lies under it"
		if math.Abs(f.Level-f.Gap) <= geom.Tolerance {
			under = "the floor"
		}
		list = append(list, "the foot comes "+w.way(f.Gap, "above", "below")+" "+under)
		if f.Meets != "" {
			list = append(list, "it would stand with "+f.Meets+" "+w.way(-f.Gap, "higher", "lower"))
		}
	}
	return strings.Join(list, "; ")
}

// way is a length with the word for its sign.
func (w optionWords) way(x float64, more, less string) string {
	if x < 0 {
		return w.length(-x) + " " + less
	}
	return w.length(x) + " " + more
}

// raisedWords lists cautions: STEP-RISE, EDGE-OPEN deck. Those of the flight tried have no name.
func raisedWords(list []trial.Raised, flight string) string {
	out := make([]string, len(list))
	for i, c := range list {
		if out[i] = c.Code; c.Element != flight {
			out[i] += " " + c.Element
		}
	}
	return strings.Join(out, ", ")
}
