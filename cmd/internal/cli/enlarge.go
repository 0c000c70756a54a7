package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/artwork"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/silhouette"
	rtable "markout/render/table"
)

type enlargeOptions struct {
	setOptions
	drawOptions
	size   pictureFlags
	lap    string
	line   bool
	tone   string
	sheets []string
	format string
}

func newEnlarge(a *app) *cobra.Command {
	o := &enlargeOptions{}
	cmd := &cobra.Command{
		Use:   "enlarge PICTURE | enlarge SET CLOTH",
		Short: "Artwork enlarged: squared up, pounced, or tiled full size",
		Long: `Enlarge a picture (SVG, PNG, JPEG) to a size, or a cloth of a set: a small sheet under a lettered grid and the
large grid that is snapped on the cloth, a pounce pattern, and tiles full size. Pictures made of pixels keep
their pixels; the report says how many there are to the inch on the wall, from where they disappear, and what
had to be decoded.`,
		Example: `  markout enlarge harbour.svg --width 9m --sheets squaring,grid
  markout enlarge poster.jpg --within 9000x5000 --paper A3 --yes
  markout enlarge backing.markout harbour --line --with harbour.pounce=20mm`,
		Args: cobra.RangeArgs(1, 2),
		RunE: a.run(func(ctx context.Context, args []string) error { return o.enlarge(ctx, a, args) }),
	}
	o.setOptions.add(cmd)
	o.drawOptions.add(cmd)
	o.size.add(cmd)
	f := cmd.Flags()
	f.BoolVar(&o.line, "line", false, "draw outlines only, to save ink")
	f.StringVar(&o.tone, "tone", "", "draw the artwork at this `SHARE` of its ink: 25%")
	f.StringSliceVar(&o.sheets, "sheets", nil, "which `SHEETS`: squaring, grid, pounce, tiles; squaring, grid and tiles unless given, and pounce where the cloth asks for it")
	f.StringVar(&o.lap, "lap", "", "how far a tile lies over the next: a `LENGTH`, 10 mm unless given; 0 for butt edges")
	_ = cmd.RegisterFlagCompletionFunc("sheets", cobra.FixedCompletions(artworkSheets, cobra.ShellCompDirectiveNoFileComp))
	formatFlag(cmd, &o.format, "print what is known of the artwork, or write pictures", "text", "csv", "json", "pdf", "svg")
	cmd.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return []string{"markout", "svg", "png", "jpg", "jpeg"}, cobra.ShellCompDirectiveFilterFileExt
	}
	return cmd
}

// artworkSheets are the sheets that artwork can be printed as.
var artworkSheets = []string{"squaring", "grid", "pounce", "tiles"}

func (o *enlargeOptions) enlarge(ctx context.Context, a *app, args []string) error {
	if err := checkFormat(o.format, "text", "csv", "json", "pdf", "svg"); err != nil {
		return err
	}
	for _, s := range o.sheets {
		if !slices.Contains(artworkSheets, s) {
			return refuse("--sheets %s: it lists %s", s, strings.Join(artworkSheets, ", "))
		}
	}
	s, e, err := o.cloth(a, args)
	if err != nil {
		return err
	}
	c := e.Shape.(*set.Cloth)
	facts := enlarge.Of(c, s.Units)
	look, err := o.look(c)
	if err != nil {
		return err
	}
	pick := o.pick(c)
	art, err := o.artwork(s, []*set.Element{e}, artworkChoice{sheets: func(*set.Element) []string { return pick }, look: look, lap: o.lap})
	if err != nil {
		return err
	}
	switch o.format {
	case "text":
		return a.printed(o.report(a, &facts, art, true))
	case "csv":
		return a.printed(rtable.CSV(a.Out, facts.Table(e.Name, c, enlarge.GridStep(c, s.Units), art.taken())))
	case "json":
		return a.printed(rtable.JSON(a.Out, facts.Table(e.Name, c, enlarge.GridStep(c, s.Units), art.taken())))
	}
	if err := a.confirm(art.doc.Pages, art.words, o.yes); err != nil {
		return err
	}
	if o.format == "svg" { // whose files are written one by one
		if err := damaged(s); err != nil {
			return err
		}
	}
	wrote, err := a.writePages(ctx, art.doc, &o.drawOptions, args[0], "enlarge", o.format)
	if err != nil {
		return ofPicture(s, err)
	}
	fmt.Fprintf(a.Out, "%s: %s\n", wrote, plural(art.doc.Pages, "page"))
	return a.printed(o.report(a, &facts, art, art.doc.Pages <= paperWithoutAsking))
}

// report prints what is known of the artwork, and what it takes where that has not been said.
func (o *enlargeOptions) report(a *app, facts *enlarge.Facts, art *artworkBook, cost bool) error {
	p := &printer{w: a.Out}
	for _, w := range facts.Words {
		p.printf("%s\n", w)
	}
	if cost {
		p.printf("%s\n", art.words)
	}
	return p.err
}

// cloth opens the cloth of a set, or makes one of a picture by the flags.
func (o *enlargeOptions) cloth(a *app, args []string) (*set.Set, *set.Element, error) {
	if len(args) == 1 {
		if strings.EqualFold(filepath.Ext(args[0]), ".markout") {
			return nil, nil, refuse("which cloth of %s? write: markout enlarge %s CLOTH", args[0], args[0])
		}
		return o.size.open(a, args[0], &o.setOptions)
	}
	if w := o.size.given(); w != "" {
		return nil, nil, refuse("--%s is for a picture alone; a cloth of a set takes it from the file: --with %s.%s=…", w, args[1], w)
	}
	s, err := o.setOptions.open(a, args[0])
	if err != nil {
		return nil, nil, err
	}
	e := s.Find(args[1])
	if e == nil {
		return nil, nil, refuse("there is no %s in %s%s", args[1], s.Name, cloths(s))
	}
	if _, ok := e.Shape.(*set.Cloth); !ok {
		return nil, nil, refuse("%s is a %s and no cloth%s", args[1], e.Kind, cloths(s))
	}
	return s, e, nil
}

// cloths says which cloths a set has.
func cloths(s *set.Set) string {
	var names []string
	for _, e := range clothsOf(s) {
		names = append(names, e.Name)
	}
	if len(names) == 0 {
		return "; it has no cloth"
	}
	return "; its cloths are: " + strings.Join(names, ", ")
}

// clothsOf returns the cloths of a set, in the file's order.
func clothsOf(s *set.Set) []*set.Element {
	return slices.DeleteFunc(slices.Clone(s.Elements), func(e *set.Element) bool { _, ok := e.Shape.(*set.Cloth); return !ok })
}

// pick is which sheets are made of a cloth.
func (o *enlargeOptions) pick(c *set.Cloth) []string {
	if o.sheets != nil {
		return o.sheets
	}
	if c.Pounce > 0 {
		return artworkSheets
	}
	return []string{"squaring", "grid", "tiles"}
}

// inkLine is how wide lines come out on paper by --line, in millimetres, on the small sheet as full size.
const inkLine = 0.5

// look returns what makes the artwork as it is to be drawn at 1:reduced: as lines, or with less ink; nil for as it is.
func (o *enlargeOptions) look(c *set.Cloth) (func(reduced float64) (*artwork.Picture, error), error) {
	tone, err := o.share()
	if err != nil || tone == 1 && !o.line {
		return nil, err
	}
	return func(reduced float64) (*artwork.Picture, error) {
		p := c.Art.Picture
		if o.line {
			lines, err := silhouette.Lines(p, inkLine*reduced/c.Frame.Vector(geom.Point{X: 1}).Len())
			if err != nil {
				return nil, fmt.Errorf("%s: --line: %w", c.Art.File, err)
			}
			p = lines
		}
		if tone < 1 {
			p = &artwork.Picture{W: p.W, H: p.H, Nodes: []artwork.Node{&artwork.Group{Opacity: tone, Nodes: p.Nodes}}}
		}
		return p, nil
	}, nil
}

// share is the share of its ink that the artwork is drawn with.
func (o *enlargeOptions) share() (float64, error) {
	if o.tone == "" {
		return 1, nil
	}
	share, percent := strings.CutSuffix(strings.TrimSpace(o.tone), "%")
	t, err := strconv.ParseFloat(share, 64)
	if percent {
		t /= 100
	}
	if err != nil || !(t > 0 && t <= 1) {
		return 0, refuse("--tone %s: it is a share of the ink, as in 25%%", o.tone)
	}
	return t, nil
}
