package cli

import (
	"errors"
	"fmt"
	"slices"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/enlarge"
	"markout/layout/pixels"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/sheet"
)

// artworkChoice says which sheets are made of each cloth.
type artworkChoice struct {
	sheets func(e *set.Element) []string
	look   func(reduced float64) (*artwork.Picture, error) // in place of the cloth's own, at 1:reduced; nil for that
	lap    string
}

// artworkBook is the document of a set's cloths.
type artworkBook struct {
	doc     *tiling.Document
	entries []tiling.Entry
	grids   []grid.GridRecord // of the tiles and pounce patterns; nil where there are none
	plan    *grid.Plan        // the same; nil likewise
	words   string            // what the paper costs, and the cheaper ways
}

// artwork makes the sheets of cloths: the squaring-up pairs first, then pounce patterns and tiles.
func (o *drawOptions) artwork(s *set.Set, cloths []*set.Element, choice artworkChoice) (*artworkBook, error) {
	has := func(word string) bool {
		return slices.ContainsFunc(cloths, func(e *set.Element) bool { return slices.Contains(choice.sheets(e), word) })
	}
	var full []*drawing.Drawing
	for _, e := range cloths {
		if slices.Contains(choice.sheets(e), "pounce") {
			d, err := view.Pounce(s, e)
			if err != nil {
				return nil, ofPicture(s, fmt.Errorf("%s: pounce pattern: %w", e.Shape.(*set.Cloth).Art.File, err))
			}
			if d == nil {
				return nil, refuse("%s has no pounce pattern: say how far apart its dots are: `pounce 20` in the file, --pounce 20 of a picture", e.Name)
			}
			full = append(full, d)
		}
		if slices.Contains(choice.sheets(e), "tiles") {
			var p *artwork.Picture
			if choice.look != nil {
				var err error
				if p, err = choice.look(1); err != nil {
					return nil, ofPicture(s, err)
				}
			}
			full = append(full, view.Cloth(s, e, p))
		}
	}
	opt := sheet.ArtworkOptions{Squaring: has("squaring"), Grid: has("grid"), Picture: choice.look, Tiled: has("tiles"), Pounced: has("pounce")}
	var plan *grid.Plan
	if len(full) > 0 {
		var err error
		if plan, err = o.tiles(s, full, choice.lap); err != nil {
			return nil, err
		}
		for _, d := range full {
			opt.Comes = append(opt.Comes, d.Title+", full size, "+plan.Paper())
		}
		opt.Takes = []string{"Full size: " + plan.Words() + "."}
	}
	for _, c := range rules.Check(s) {
		if slices.ContainsFunc(cloths, func(e *set.Element) bool { return e.Name == elementOf(c) }) {
			opt.Cautions = append(opt.Cautions, c)
		}
	}
	out := &artworkBook{}
	var docs []*tiling.Document
	if opt.Squaring || opt.Grid {
		p, err := o.sheetPaper(s)
		if err != nil {
			return nil, err
		}
		opt.Options = p
		book, err := sheet.Artwork(s, cloths, opt)
		if bad := (*pixels.Error)(nil); errors.As(err, &bad) {
			return nil, ofPicture(s, err)
		}
		if err != nil {
			return nil, refusal{err}
		}
		docs, out.entries = append(docs, book.Document), book.Entries
	}
	if plan != nil {
		before := 0
		for _, d := range docs {
			before += d.Pages
		}
		docs = append(docs, fullSized(plan))
		for _, e := range plan.Entries() {
			e.Page += before
			out.entries = append(out.entries, e)
		}
		out.grids = plan.Grids()
	}
	if len(docs) == 0 {
		return nil, refuse("no sheets are asked for")
	}
	out.doc = tiling.Join(s.Name+", artwork", docs...)
	out.words = fmt.Sprintf("The artwork takes %s.", plural(out.doc.Pages, "page"))
	if plan != nil {
		out.words = plan.Words() + "."
	}
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		how := ""
		if plan != nil {
			how = " (--sheets squaring,grid)"
		}
		out.words += fmt.Sprintf(" Squared up, %s takes two sheets and %s%s.", e.Name, enlarge.SnapWords(c, enlarge.GridStep(c, s.Units), s.Units), how)
	}
	out.plan = plan
	return out, nil
}

// fullSized is a plan's document whose covers are told apart from the first sheet of the artwork's.
func fullSized(plan *grid.Plan) *tiling.Document {
	doc := plan.Document()
	make, covers := doc.Make, doc.Pages-plan.Count()
	doc.Make = func(i int, p *tiling.Page) {
		if make(i, p); i < covers {
			p.Label = "full size " + p.Label
		}
	}
	doc.Bookmarks[0].Title = "full size"
	return doc
}

// taken is what full-size paper there is.
func (b *artworkBook) taken() enlarge.Taken {
	if b.plan == nil {
		return enlarge.Taken{}
	}
	t := enlarge.Taken{Paper: b.plan.Paper(), Pages: b.plan.Count()}
	if lengths := b.plan.CutLengths(); lengths != nil {
		for _, l := range lengths[len(lengths)-t.Pages:] { // the cover's come first
			t.Metres += l / 1000
		}
	}
	return t
}

// tiles lays full-size paper of artwork.
func (o *drawOptions) tiles(s *set.Set, full []*drawing.Drawing, lapGiven string) (*grid.Plan, error) {
	p, err := o.on(s, "A4", "Letter")
	if err != nil {
		return nil, err
	}
	edges, err := o.edges(10)
	if err != nil {
		return nil, err
	}
	lap := 10.0
	if lapGiven != "" {
		if lap, err = unit.ParseLength(lapGiven, unit.Millimetre); err != nil {
			return nil, refuse("--lap %s: %w", lapGiven, err)
		}
	}
	plan, err := grid.Build(full, gridInfo(s), grid.Options{Paper: p, Margins: edges, Lap: lap, Since: o.since, Stamps: o.stamps})
	if err != nil {
		return nil, refusal{err}
	}
	return plan, nil
}

// sheetPaper is the paper of single sheets beside full-size paper: what was asked for where that is a sheet, otherwise A3 or Tabloid.
func (o *drawOptions) sheetPaper(s *set.Set) (sheet.Options, error) {
	opt, err := o.sheets(s)
	if err == nil && opt.Paper.Roll {
		plain := *o
		plain.paper = ""
		return plain.sheets(s)
	}
	return opt, err
}

// issued is which sheets of a cloth stand in an issue: squared up always, pounced where the file asks for dots, tiled where it wants the face
// full size.
func issued(e *set.Element) []string {
	out := []string{"squaring", "grid"}
	if e.Shape.(*set.Cloth).Pounce > 0 {
		out = append(out, "pounce")
	}
	if wants(e, "face") {
		out = append(out, "tiles")
	}
	return out
}
