package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"markout/layout/develop"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/render/svg"
	rtable "markout/render/table"
	"markout/render/whole"
	"markout/tiling/nest"
	"markout/tiling/paper"
	"markout/tiling/sheet"
)

// modelFlags say how a model is made and laid on sheets.
type modelFlags struct {
	scale, card, sheet, gap, print, effort string
	turns                                  []string
	seconds                                float64
}

type modelOptions struct {
	setOptions
	drawOptions
	modelFlags
	format string
	since  string
	anew   bool
}

func newModel(a *app) *cobra.Command {
	o := &modelOptions{}
	cmd := &cobra.Command{
		Use:   "model SET",
		Short: "Card model sheets: every piece flat, numbered, with its joints",
		Long: `Take the set apart into flat pieces of card at its scale and lay them on sheets: what is cut, where it is
half-cut and bevelled, which edge is glued to which, in the order of making. With a base sheet to glue onto,
and lists of joints and rods. At --scale 1:1 on --sheet 2440x1220 the same pieces are a mock-up of board at
full size.

With --since pieces that the earlier issue has stay on their sheets as they lie there, joints keep their
numbers, and what is new or has changed lies on further sheets; at another scale, or on another sheet, all are
nested anew.`,
		Example: `  markout model kiosk.markout
  markout model kiosk.markout --scale 1:1 --card 5 --sheet 2440x1220 --yes
  markout model kiosk.markout --since kiosk-A                # only what has changed is cut anew
  markout model kiosk.markout --format csv > pieces.csv`,
		Args: cobra.ExactArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.model(ctx, a, args[0]) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	f := cmd.Flags()
	f.StringVar(&o.scale, "scale", "", "make it at this `SCALE` instead of the set's: 1:25, or 1/4\" = 1'-0\"")
	f.StringVar(&o.card, "card", "", "make everything of card of this `THICKNESS`")
	f.StringVar(&o.sheet, "sheet", "", "lay the pieces on this `SHEET` instead of the paper: A3 …, WxH of a board, or \"roll 4900\"")
	f.StringVar(&o.gap, "gap", "", "how far pieces lie apart, and from the edge of a board: a `LENGTH`, 2 mm unless given")
	f.StringSliceVar(&o.turns, "turns", nil, "the `DEGREES` by which any piece may be turned: 0,90,180,270; in place of what the set says")
	f.StringVar(&o.print, "print", "hidden", "the `FACE` that the lines are printed on: hidden or outside")
	f.StringVar(&o.effort, "effort", "normal", "how many trials the search for a dense placement makes: `quick|normal|long`")
	f.Float64Var(&o.seconds, "seconds", 0, "end the search after so many `SECONDS`; the sheets then depend on the machine, and say so")
	f.StringVar(&o.since, "since", "", "the `FOLDER` of the earlier issue where pieces stay as they lie")
	nestFlag(cmd, &o.anew)
	formatFlag(cmd, &o.format, "print the pieces, or write sheets", "text", "csv", "json", "svg", "pdf")
	return cmd
}

func (o *modelOptions) model(ctx context.Context, a *app, file string) error {
	if err := checkFormat(o.format, "text", "csv", "json", "svg", "pdf"); err != nil {
		return err
	}
	s, err := o.setOptions.open(a, file)
	if err != nil {
		return err
	}
	var nests *sheet.Nests
	if o.since != "" {
		if s, nests, err = o.nestsBefore(a, file, s); err != nil {
			return err
		}
	}
	tell, end := a.progress("nesting")
	m, err := o.modelFlags.lay(ctx, a, s, &o.drawOptions, nests, o.anew, tell)
	end()
	if err != nil {
		return err
	}
	switch o.format {
	case "text":
		return a.printed(rtable.Text(a.Out, m.Table()))
	case "csv":
		return a.printed(rtable.CSV(a.Out, m.Table()))
	case "json":
		return a.printed(rtable.JSON(a.Out, m.Table()))
	case "svg":
		return o.writeCut(ctx, a, m, file)
	}
	book, err := m.Book()
	if err != nil {
		return refusal{err}
	}
	if err := a.confirm(book.Document.Pages, m.CostWords(book.Document.Pages), o.yes); err != nil {
		return err
	}
	wrote, err := a.writePages(ctx, book.Document, &o.drawOptions, file, "model", "")
	if err != nil {
		return err
	}
	fmt.Fprintf(a.Out, "%s: %s, %s\n", wrote, plural(book.Document.Pages, "page"), m.Summary())
	return nil
}

// writeCut writes each sheet of card as an SVG: NAME-1.svg …
func (o *modelOptions) writeCut(ctx context.Context, a *app, m *sheet.CardModel, file string) error {
	if err := a.confirm(len(m.Sheets), m.CostWords(len(m.Sheets)), o.yes); err != nil {
		return err
	}
	name, err := outputName(o.out, file, "model", ".svg")
	if err != nil {
		return err
	}
	base := strings.TrimSuffix(name, filepath.Ext(name))
	for i, cut := range m.CutSheets() {
		one := fmt.Sprintf("%s-%d.svg", base, m.Sheets[i].Number)
		if err := whole.File(ctx, one, func(w io.Writer) error { return svg.WriteCut(w, cut) }); err != nil {
			return err
		}
	}
	wrote := fmt.Sprintf("%s-%d.svg", base, m.Sheets[0].Number)
	if n := len(m.Sheets); n > 1 {
		wrote += fmt.Sprintf(" to -%d.svg", m.Sheets[n-1].Number)
	}
	fmt.Fprintf(a.Out, "%s: %s\n", wrote, m.Summary())
	return nil
}

// nestFlag adds --nest, with which the pieces of a model are laid anew although there is an earlier issue.
func nestFlag(cmd *cobra.Command, anew *bool) {
	cmd.Flags().Func("nest", "with --since: `anew` lays the pieces anew", func(how string) error { return nestHow(how, anew) })
}

// nestHow reads --nest.
func nestHow(how string, anew *bool) error {
	if how != "anew" {
		return errors.New("pieces stay where they lie, or all are nested anew")
	}
	*anew = true
	return nil
}

// nestsBefore returns a set in the order of an earlier issue and where that has the pieces, and notes the letters of its pages.
func (o *modelOptions) nestsBefore(a *app, file string, s *set.Set) (*set.Set, *sheet.Nests, error) {
	was, err := o.openEarlier(a, o.since, file)
	switch {
	case err != nil:
		return nil, nil, err
	case was.pieces() == nil:
		return nil, nil, refuse("--since %s: that issue has no card model", o.since)
	}
	o.stamps = was.stamps("model.pdf")
	return was.follow(s), was.pieces(), nil
}

// lay develops the set and lays its pieces on sheets, where an earlier issue has them if it is given.
func (o *modelFlags) lay(ctx context.Context, a *app, s *set.Set, draw *drawOptions, since *sheet.Nests, anew bool, tell func(done, total int)) (*sheet.CardModel, error) {
	opt, dev, err := o.options(s, draw)
	if err != nil {
		return nil, err
	}
	opt.Progress, opt.Since, opt.Anew, opt.Stamps = tell, since, anew, draw.stamps
	m, list := develop.Develop(s, dev)
	if list.HasErrors() {
		return nil, a.errors(list)
	}
	if len(m.Pieces) == 0 && len(m.Rods) == 0 {
		return nil, fmt.Errorf("%s has nothing to make a model of", s.Name)
	}
	laid, list, err := sheet.LayModel(ctx, s, m, opt)
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil: // the paper, the gap or the turns asked for
		return nil, refusal{err}
	}
	if list.HasErrors() {
		return nil, a.errors(list)
	}
	return laid, nil
}

// options reads the flags.
func (o *modelFlags) options(s *set.Set, draw *drawOptions) (opt sheet.ModelOptions, dev develop.Options, err error) {
	if opt.Paper, err = draw.on(s, "A4", "Letter"); err != nil {
		return opt, dev, err
	}
	if opt.Margins, err = draw.edges(10); err != nil {
		return opt, dev, err
	}
	opt.OwnMargins = draw.margins != ""
	dev.Scale, opt.ScaleWords = s.Scale, s.ScaleText
	if o.scale != "" {
		sc, err := unit.ParseScale(o.scale)
		if err != nil {
			return opt, dev, refuse("--scale %s: %v", o.scale, err)
		}
		dev.Scale, opt.ScaleWords = sc.Denominator, sc.Words
	}
	if o.card != "" {
		if dev.Card, err = bareLength("card", o.card); err != nil {
			return opt, dev, err
		}
		if dev.Card <= 0 {
			return opt, dev, refuse("--card %s: card has a thickness of more than 0", o.card)
		}
	}
	opt.People = sheet.PeopleCard(s.Cards)
	if dev.Card > 0 {
		opt.People = set.Card{Thickness: dev.Card}
	}
	opt.Gap = sheet.DefaultGap
	if o.gap != "" {
		if opt.Gap, err = bareLength("gap", o.gap); err != nil {
			return opt, dev, err
		}
		if opt.Gap < 0 || opt.Gap > 100 {
			return opt, dev, refuse("--gap %s: a gap is from 0 to 100 mm", o.gap)
		}
	}
	switch o.print {
	case "", "hidden":
	case "outside":
		dev.PrintOutside, opt.PrintOutside = true, true
	default:
		return opt, dev, refuse("--print %s: lines are printed on the hidden face or outside", o.print)
	}
	if err = o.readSheet(&opt); err != nil {
		return opt, dev, err
	}
	return opt, dev, o.readSearch(&opt)
}

// readSheet reads --sheet: the name of a paper is that paper, anything else a board or a roll of it.
func (o *modelFlags) readSheet(opt *sheet.ModelOptions) error {
	if o.sheet == "" {
		return nil
	}
	p, err := paper.Parse(o.sheet)
	if err != nil {
		return refuse("--sheet %s: %w", o.sheet, err)
	}
	switch {
	case p.Roll:
		opt.Board = sheet.Board{Name: p.Name, H: p.W, Roll: true}
	case strings.ContainsAny(p.Name[:1], "0123456789") && !strings.HasSuffix(p.Name, "A0"):
		opt.Board = sheet.Board{Name: p.Name, W: p.W, H: p.H}
	default:
		opt.Paper = p
	}
	return nil
}

// readSearch reads what says how long and how freely pieces are laid.
func (o *modelFlags) readSearch(opt *sheet.ModelOptions) error {
	switch o.effort {
	case "", "normal":
		opt.Effort = nest.Normal
	case "quick":
		opt.Effort = nest.Quick
	case "long":
		opt.Effort = nest.Long
	default:
		return refuse("--effort %s: quick, normal or long", o.effort)
	}
	for _, t := range o.turns {
		deg, err := strconv.ParseFloat(strings.TrimSpace(t), 64)
		if err != nil || !(deg > -360 && deg < 360) {
			return refuse("--turns %s: a turn is a number of degrees between -360 and 360", t)
		}
		opt.Turns = append(opt.Turns, deg)
	}
	switch {
	case o.seconds < 0:
		return refuse("--seconds %g: a time is more than 0", o.seconds)
	case o.seconds > 0:
		until := time.Now().Add(time.Duration(o.seconds * float64(time.Second)))
		opt.Stop = func() bool { return time.Now().After(until) }
	}
	return nil
}

// bareLength reads a flag's length, millimetres unless it says otherwise.
func bareLength(flag, text string) (float64, error) {
	x, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		return 0, refuse("--%s %s: %v", flag, text, err)
	}
	return x, nil
}
