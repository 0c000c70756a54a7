package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"markout/layout/rules"
	"markout/layout/setout"
	"markout/render/issue"
)

type issueOptions struct {
	templateOptions
	floorPaper string
}

func newIssue(a *app) *cobra.Command {
	o := &issueOptions{}
	cmd := &cobra.Command{
		Use:   "issue SET",
		Short: "Everything for one set, in one folder with its register",
		Long: `Write the issue folder: the floor plan and tape table, the full-size paper, the register, the cautions, a page to
open on a phone, and the texts it was made from. The folder is named after the file and the issue letter. It never
overwrites a folder that markout did not make, nor an issue of another letter.`,
		Example: `  markout issue kiosk.markout --yes
  markout issue kiosk.markout --with front.risers=4 --yes    # a trial: kiosk-trial`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.issue(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	cmd.Flags().Lookup("output").Usage = "write into this `FOLDER`"
	cmd.Flags().Lookup("paper").Usage = "`PAPER` of the full-size paper: A4, A3 …, \"roll 610|914|1067\", or WxH in millimetres"
	cmd.Flags().StringVar(&o.floorPaper, "floor-paper", "", "`PAPER` of the plan and the tape table")
	cmd.Flags().StringVar(&o.lap, "lap", "", "how far a page lies over the next: a `LENGTH`, 10 mm unless given; 0 for butt edges")
	return cmd
}

func (o *issueOptions) issue(ctx context.Context, a *app, file string) error {
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	main := filepath.ToSlash(file)
	in := issue.Input{Set: s, Main: main, Program: "markout " + Version, Cautions: rules.Check(s), Tape: setout.Lay(s).Table()}
	floor := drawOptions{paper: o.floorPaper}
	book, err := floor.book(s, in.Tape, in.Cautions)
	if err != nil {
		return err
	}
	in.Books = append(in.Books, issue.Book{File: "floor.pdf", Doc: book.Document, Entries: book.Entries})
	pages, words := book.Document.Pages, fmt.Sprintf("%s makes %s.", s.Name, plural(book.Document.Pages, "page"))
	if len(fullSize(s)) > 0 {
		plan, err := o.plan(s, nil)
		if err != nil {
			return err
		}
		in.Books = append(in.Books, issue.Book{File: "templates.pdf", Doc: plan.Document(), Entries: plan.Entries()})
		in.Grids = plan.Grids()
		pages, words = pages+plan.Count(), plan.Words()
	}
	if err := a.confirm(pages, words, o.yes); err != nil {
		return err
	}
	place := o.out
	if place == "" {
		place = issue.Default(main, s)
	}
	tell, end := a.progress(place)
	res, err := issue.Write(ctx, place, in, issue.Options{Workers: runtime.GOMAXPROCS(0), Progress: tell})
	end()
	var refused *issue.Refused
	switch {
	case errors.As(err, &refused):
		return refusal{err}
	case err != nil:
		return err
	case !res.Written:
		fmt.Fprintf(a.Out, "%s holds this issue already; nothing was written\n", place)
	default:
		fmt.Fprintf(a.Out, "%s: %s, %s; open %s\n", place, plural(res.Pages, "sheet"), plural(len(in.Cautions), "caution"), filepath.Join(place, "index.html"))
	}
	return nil
}
