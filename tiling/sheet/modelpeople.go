package sheet

import (
	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/tiling"
	"markout/tiling/grid"
)

// standing is a scale figure on the base sheet: its piece's own 0,0 lies at at, in the set's axes at the model's scale.
type standing struct {
	piece develop.Piece
	at    geom.Point
}

// Measures of the figures on the base sheet in millimetres.
const (
	figureText = drawing.Lettering1_8
	figureAir  = 3.0
)

// box is the room that a figure takes, its name below it.
func (p *standing) box() geom.Rect {
	b := p.piece.Outline.Bounds()
	w := max(b.W(), lettering.Width(p.piece.Name, figureText, false))
	low := p.at.Add(geom.Point{X: (b.W() - w) / 2, Y: -2 * figureText})
	return geom.Rect{Min: low, Max: geom.Point{X: low.X + w, Y: p.at.Y + b.H()}}.Grow(figureAir / 2)
}

// standPeople finds places for the scale figures on the pages of the base sheet, none across a seam; otherwise beside the
// footprints, on pages of their own.
func (c *CardModel) standPeople() error {
	if !c.hasBase() || !(c.opt.People.Thickness > 0) {
		return nil
	}
	var people []standing
	for _, p := range develop.PeoplePieces(c.Model.Scale, c.opt.People, c.opt.PrintOutside) {
		people = append(people, standing{piece: p})
	}
	if len(people) == 0 {
		return nil
	}
	plan, err := c.basePages(c.base(nil))
	if err != nil {
		return err
	}
	if c.keepPeople(people, windows(plan, grid.DefaultLap)) {
		return nil
	}
	box, _ := c.baseBox()
	pages := plan.Count()
	// Between the footprints, where the pages stay as they are; otherwise beside them.
	for _, room := range [2]geom.Rect{box.Grow(figureAir - baseMargin), box.Grow(1e4)} {
		c.people = nil
		if !c.standAmong(people, plan, room) {
			continue
		}
		c.people = people
		with, err := c.basePages(c.base(nil))
		if err != nil {
			return err
		}
		if with.Count() == pages && within(people, windows(with, grid.DefaultLap)) {
			return nil
		}
	}
	x := box.Max.X + 2*figureAir
	for i := range people {
		p := &people[i]
		p.at = geom.Point{}
		b := p.box()
		p.at = geom.Point{X: x - b.Min.X, Y: box.Min.Y - b.Min.Y}
		x += b.W()
	}
	c.people, c.apart = people, true
	return nil
}

// keepPeople leaves the scale figures where the earlier issue has them; false where they do not all stand free there.
func (c *CardModel) keepPeople(people []standing, in []geom.Rect) bool {
	if c.opt.Since == nil || len(c.opt.Since.People) != len(people) {
		return false
	}
	d := c.base(nil)
	for i := range people {
		p, k := &people[i], c.opt.Since.People[i]
		p.at = geom.Point{X: k.At[0], Y: k.At[1]}
		b := p.box()
		if p.piece.Label() != k.Person || !c.opt.Since.Apart && (!within(people[i:i+1], in) || !c.baseGround(b, d).free(tilted{b.Mid(), b.W() - 2*leastCell, b.H() - 2*leastCell, 0}, openCard)) {
			return false
		}
		for _, q := range people[:i] {
			if q.box().Overlaps(b.Grow(-geom.Tolerance)) {
				return false
			}
		}
	}
	c.people, c.apart = people, c.opt.Since.Apart
	return true
}

// windows are what the pages of a grid show, less along each side by what their neighbours cover.
func windows(plan *grid.Plan, less float64) []geom.Rect {
	var out []geom.Rect
	for _, e := range plan.Entries() {
		lo := geom.Point{X: e.Origin[0], Y: e.Origin[1]}
		out = append(out, geom.Rect{Min: lo, Max: lo.Add(geom.Point{X: e.Size[0], Y: e.Size[1]})}.Grow(-less))
	}
	return out
}

func within(people []standing, in []geom.Rect) bool {
	for i := range people {
		b, found := people[i].box(), false
		for _, w := range in {
			found = found || w.Contains(b.Min) && w.Contains(b.Max)
		}
		if !found {
			return false
		}
	}
	return true
}

// standAmong puts each figure on the first page that has room beside the footprints, within a box; false where not all find
// room.
func (c *CardModel) standAmong(people []standing, plan *grid.Plan, box geom.Rect) bool {
	d, in := c.base(windows(plan, 0)), windows(plan, grid.DefaultLap)
	var grounds []*ground
	// ground is that of the i-th page with any room at all, made when it is first asked for; nil after the last.
	ground := func(i int) *ground {
		for ; i == len(grounds) && len(in) > 0; in = in[1:] {
			w := geom.Rect{
				Min: geom.Point{X: max(in[0].Min.X, box.Min.X), Y: max(in[0].Min.Y, box.Min.Y)},
				Max: geom.Point{X: min(in[0].Max.X, box.Max.X), Y: min(in[0].Max.Y, box.Max.Y)},
			}
			if !w.Empty() && w.W() >= 5 && w.H() >= 5 {
				grounds = append(grounds, c.baseGround(w, d))
			}
		}
		if i == len(grounds) {
			return nil
		}
		return grounds[i]
	}
next:
	for i := range people {
		p := &people[i]
		p.at = geom.Point{}
		b := p.box()
		for k := 0; ; k++ {
			g := ground(k)
			if g == nil {
				return false
			}
			if mid, ok := g.room(b.W()+figureAir, b.H()+figureAir, openCard); ok {
				p.at = mid.Sub(b.Mid())
				g.take(tilted{mid, b.W() + figureAir, b.H() + figureAir, 0})
				continue next
			}
		}
	}
	return true
}

// baseGround is what a window of the base sheet has room for: footprints, lines and words take it up.
func (c *CardModel) baseGround(w geom.Rect, d *drawing.Drawing) *ground {
	g := newGround(w)
	near := w.Grow(figureAir)
	for _, f := range c.Model.Base {
		for _, r := range f.Areas {
			if near.Overlaps(r.Bounds()) {
				g.region(1, r)
			}
		}
	}
	for i := range d.Strokes {
		if q := d.Strokes[i].Path; near.Overlaps(q.Bounds()) {
			g.line(q.Flatten(0.05, nil), q.Closed())
		}
	}
	for i := range d.Texts {
		t := tiling.PlaceText(&d.Texts[i], d.Texts[i].At)
		if b := include(geom.EmptyRect(), t.Corners()); near.Overlaps(b) {
			g.take(tilted{b.Mid(), b.W(), b.H(), 0})
		}
	}
	return g
}

// drawPeople draws the figures: cut out, their feet half-cut, their names below them.
func drawPeople(d *drawing.Drawing, people []standing) {
	for i := range people {
		p := &people[i]
		m := geom.Isometry{A: 1, D: 1, T: p.at}
		cut := drawing.Mark{Layer: drawing.Cut, Owner: -1}
		for _, q := range append([]*geom.Path{p.piece.Outline.Outer}, p.piece.Outline.Holes...) {
			d.Strokes = append(d.Strokes, drawing.Stroke{Mark: cut, Path: q.Transform(m), Width: drawing.MediumLine})
		}
		for _, f := range p.piece.Folds {
			kind := drawing.LongDashDot
			if f.Front {
				kind = drawing.Dashed
			}
			d.Strokes = append(d.Strokes, drawing.Stroke{
				Mark: drawing.Mark{Layer: drawing.Fold, Owner: -1}, Path: straight(m.Apply(f.Line.From), m.Apply(f.Line.To)), Type: kind, Width: drawing.NarrowLine,
			})
		}
		b := p.piece.Outline.Bounds()
		d.Texts = append(d.Texts, drawing.Text{
			Mark: drawing.Mark{Layer: drawing.Notes, Role: drawing.Word, Owner: -1}, At: m.Apply(geom.Point{X: b.Mid().X, Y: b.Min.Y}),
			Offset: geom.Point{Y: -1.6 * figureText}, Height: figureText, Align: drawing.AlignCentre, Text: p.piece.Name,
		})
	}
}

// PeopleCard is the card that scale figures are cut from: the thinnest.
func PeopleCard(cards []set.Card) set.Card {
	var out set.Card
	for _, c := range cards {
		if out.Thickness == 0 || c.Thickness < out.Thickness {
			out = c
		}
	}
	return out
}
