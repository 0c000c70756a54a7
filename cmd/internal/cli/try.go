package cli

import (
	"context"
	"path/filepath"
	"runtime"
	"slices"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/set"
	"markout/layout/trial"
	"markout/layout/unit"
	rtable "markout/render/table"
)

// tryHelp is what `markout check --help` says of --try.
const tryHelp = `With --try a value is tried in place of what the file says, and the table has one row an option: what the
flight of steps measures then, where its foot comes, what is held, which marks on the floor are lifted and
laid, which loose blocks are built, whether it fits the hall at some turn and shift, and which cautions
come and go. Nothing is changed in the file. What is tried is a range, a range with its step, or a list:

  --try front.risers=2..6                counts, by ones
  --try "front.rise=150..180 by 10"      other values need their step
  --try rise=135,150                     a let
  --try "deck.at=(0, 3600), (300, 3600)" what has commas itself stands in brackets

Several --try make every combination, at most 1000; --with holds for all of them. Figures are those of the
flight that is tried, of the only one, or of the only one that changes. Where rises or goings differ, the text
gives the least and the greatest; rise_mm is the greatest rise, going_mm the least going and step_length_mm
the greatest 2R + G. marks_to_move counts marks lifted and marks laid; blocks_to_build counts those whose size
is not among the blocks that stand now. An option that cannot be made has its error in its row; exit code 1
says that none can be made.`

// try prints what trial values do.
func (o *checkOptions) try(ctx context.Context, a *app, file string, margin float64) error {
	files, err := openFiles(file, o.allow)
	if err != nil {
		return err
	}
	defer files.Close()
	main := filepath.ToSlash(file)
	opt := layout.Options{With: o.with, Hall: o.hall, Date: o.date, Memory: &layout.Memory{}}
	as, list := layout.Open(files, main, opt)
	if as == nil || list.HasErrors() {
		return a.errors(list)
	}
	trials, list := layout.ReadTrials(files, main, opt, o.tries)
	if list.HasErrors() {
		return a.errors(list)
	}
	open := func(changes []string) (*set.Set, *diag.List) {
		opt := opt
		opt.With = slices.Concat(o.with, changes)
		return layout.Open(files, main, opt)
	}
	tell, end := a.progress("trying")
	r, err := trial.Run(ctx, as, trials, open, margin, runtime.GOMAXPROCS(0), tell)
	end()
	if err != nil {
		return err
	}
	switch o.format {
	case "json":
		err = a.printJSON(triedJSON{optionsJSON(r)})
	case "csv":
		err = a.printed(rtable.CSV(a.Out, optionsCSV(r)))
	default:
		err = a.printed(a.printOptions(as, r))
	}
	if err == nil && !slices.ContainsFunc(r.Options, func(o trial.Option) bool { return o.Error == "" }) {
		return errReported
	}
	return err
}

// The JSON of trial values, a contract. What is not computed is null.
type (
	triedJSON struct {
		Options []optionJSON `json:"options"`
	}
	optionJSON struct {
		Values     map[string]any `json:"values"`
		Run        *float64       `json:"run_mm"`
		Foot       *[2]float64    `json:"foot_mm"`
		Rise       *float64       `json:"rise_mm"`
		Going      *float64       `json:"going_mm"`
		StepLength *float64       `json:"step_length_mm"`
		Fits       *bool          `json:"fits"`
		Marks      *int           `json:"marks_to_move"`
		Blocks     *int           `json:"blocks_to_build"`
		Held       []string       `json:"held"`
		Cautions   []raisedJSON   `json:"cautions"` // new ones
		Error      *string        `json:"error"`
	}
	raisedJSON struct {
		Code    string `json:"code"`
		Element string `json:"element"`
	}
)

func optionsJSON(r *trial.Result) []optionJSON {
	out := make([]optionJSON, len(r.Options))
	for i, o := range r.Options {
		j := optionJSON{Values: map[string]any{}, Held: []string{}, Cautions: []raisedJSON{}}
		for k, v := range o.Values {
			if j.Values[r.Trials[k].Word] = v.Text; v.Number {
				j.Values[r.Trials[k].Word] = unit.Round(v.X, 1e-6)
			}
		}
		if o.Error != "" {
			j.Error = &o.Error
			out[i] = j
			continue
		}
		marks, blocks := o.Lift+o.Lay, o.Build
		j.Marks, j.Blocks = &marks, &blocks
		if o.HasHall {
			j.Fits = &o.Fits
		}
		j.Held = append(j.Held, o.Held...)
		for _, c := range o.New {
			j.Cautions = append(j.Cautions, raisedJSON(c))
		}
		if f := o.Flight; f != nil {
			length := func(x float64, n int) *float64 {
				if n == 0 {
					return nil
				}
				x = unit.Round(x, 0.01) // so that 2R + G adds up to a tenth
				return &x
			}
			j.Run, j.Foot = length(f.Run, 1), &[2]float64{unit.Round(f.Foot.X, 0.1), unit.Round(f.Foot.Y, 0.1)}
			j.Rise, j.Going = length(f.Rises.Greatest, 1), length(f.Goings.Least, f.Goings.Count)
			j.StepLength = length(f.Strides.Greatest, f.Strides.Count)
		}
		out[i] = j
	}
	return out
}
