package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"markout/layout/set"
	"markout/render/issue"
)

type issueOptions struct {
	templateOptions
	floorPaper string
	modelPaper string
	since      string

	anew bool            // the card model is nested anew
	only map[string]bool // documents to make; nil for all
	but  string          // one not to make; empty for none
}

func newIssue(a *app) *cobra.Command {
	o := &issueOptions{}
	cmd := &cobra.Command{
		Use:   "issue SET",
		Short: "Everything for one set, in one folder with its register",
		Long: `Write the issue folder: the floor plan and tape table, the full-size paper, the elevations, the card model's
sheets where the set gives a scale and its card, the sheets and the table of what hangs overhead, the sheets
of cloths, the cutting lists where pieces have materials, the register, the cautions, a page to open on a
phone, and the texts and drawings it was made from.

The folder is named after the file and the issue letter. It never overwrites a folder that markout did not
make, nor an issue of another letter.

With --since the full-size pages, the pieces of the card model, what is cut from boards and bars and the tags
of pieces overhead stay where an earlier issue has them, each page carries the letter at which its drawing
last changed, and the folder lists the pages that are superseded.`,
		Example: `  markout issue kiosk.markout --yes
  markout issue kiosk.markout --since kiosk-A --yes          # pages and pieces stay where issue A has them
  markout issue kiosk.markout --with front.risers=4 --yes    # a trial: kiosk-trial`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.issue(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.addPaper(cmd)
	cmd.Flags().Lookup("output").Usage = "write into this `FOLDER`"
	cmd.Flags().StringVar(&o.since, "since", "", "the `FOLDER` of the earlier issue whose page grids and nests are kept")
	nestFlag(cmd, &o.anew)
	return cmd
}

// addPaper adds the flags that say what an issue is drawn on.
func (o *issueOptions) addPaper(cmd *cobra.Command) {
	o.drawOptions.add(cmd)
	f := cmd.Flags()
	f.Lookup("paper").Usage = "`PAPER` of the full-size paper: A4, A3 …, \"roll 610|914|1067\", or WxH in millimetres"
	f.StringVar(&o.floorPaper, "floor-paper", "", "`PAPER` of the plan, the tape table, the elevations and the cutting lists")
	f.StringVar(&o.modelPaper, "model-paper", "", "`PAPER` of the card model's sheets")
	f.StringVar(&o.lap, "lap", "", "how far a page lies over the next: a `LENGTH`, 10 mm unless given; 0 for butt edges")
}

// drawn is what those flags say.
func (o *issueOptions) drawn() issue.Drawn {
	return issue.Drawn{Paper: o.paper, FloorPaper: o.floorPaper, ModelPaper: o.modelPaper, Margins: o.margins, Lap: o.lap}
}

// drawAs takes what no flag says from an earlier issue, whose grids are good for its own paper only.
func (o *issueOptions) drawAs(d issue.Drawn) {
	for _, f := range []struct {
		to  *string
		was string
	}{{&o.paper, d.Paper}, {&o.floorPaper, d.FloorPaper}, {&o.modelPaper, d.ModelPaper}, {&o.margins, d.Margins}, {&o.lap, d.Lap}} {
		if *f.to == "" {
			*f.to = f.was
		}
	}
}

func (o *issueOptions) issue(ctx context.Context, a *app, file string) error {
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	var was *earlier
	if o.since != "" {
		if was, err = o.issueBefore(a, file, s); err != nil {
			return err
		}
		o.drawAs(was.Drawn)
	}
	all, err := o.assemble(ctx, a, s, filepath.ToSlash(file), was)
	if err != nil {
		return err
	}
	in := all.in
	if err := a.confirm(all.pages, all.words, o.yes); err != nil {
		return err
	}
	place := o.out
	if place == "" {
		place = issue.Default(in.Main, s)
	}
	tell, end := a.progress(place)
	res, err := issue.Write(ctx, place, in, issue.Options{Workers: runtime.GOMAXPROCS(0), Progress: tell})
	end()
	var refused *issue.Refused
	switch {
	case errors.As(err, &refused):
		return refusal{err}
	case err != nil:
		return ofPicture(s, err)
	case !res.Written:
		fmt.Fprintf(a.Out, "%s holds this issue already; nothing was written\n", place)
		return nil
	}
	fmt.Fprintf(a.Out, "%s: %s, %s; open %s\n", place, plural(res.Pages, "sheet"), plural(len(in.Cautions), "caution"), filepath.Join(place, "index.html"))
	if c := res.Compared; c != nil {
		fmt.Fprintf(a.Out, "since issue %s: %s to print, %d stand as they were, %d to take away\n",
			was.Issue, plural(len(c.Reprint), "sheet"), len(c.Keep), res.Superseded)
	}
	return nil
}

// issueBefore opens the issue that the grids and nests of a set's new one are kept from.
func (o *issueOptions) issueBefore(a *app, file string, s *set.Set) (*earlier, error) {
	was, err := o.openEarlier(a, o.since, file)
	switch {
	case err != nil:
		return nil, err
	case was.Trial:
		return nil, refuse("--since %s: that is a trial; an issue with a letter is wanted", o.since)
	case !s.Trial && was.Issue == s.Letter:
		return nil, refuse("--since %s: that is issue %s itself; give this one a new letter", o.since, was.Issue)
	case strangers(was.Order, s.Order()):
		return nil, refuse("--since %s: that issue is of another set: it shares no name with this one, and nothing of it can stay", o.since)
	}
	return was, nil
}
