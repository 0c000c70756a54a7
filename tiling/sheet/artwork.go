package sheet

import (
	"fmt"
	"slices"

	"markout/layout/artwork"
	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
)

// ArtworkOptions say which sheets are made of a cloth and what the cover says of what comes with them.
type ArtworkOptions struct {
	Options
	Squaring, Grid bool             // the artwork small under a lettered grid; the cloth's large grid to snap
	Picture        *artwork.Picture // shown in place of the cloth's own; nil for that
	Comes          []string         // what else the document holds and takes: tiles, a pounce pattern
	Cheaper        string           // the cheaper way, empty for none
	Cautions       []caution.Caution
}

// Artwork makes the sheets of cloths: a cover, and for each cloth its artwork squared up and the grid that is snapped on the cloth
// itself, both with the same letters and numbers. The error says what does not fit the paper.
func Artwork(s *set.Set, cloths []*set.Element, opt ArtworkOptions) (*Book, error) {
	frames, err := framesOf(opt.Options)
	if err != nil {
		return nil, err
	}
	b := &binder{set: s, frames: frames}
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		for _, kind := range [2]struct {
			want bool
			view string
		}{{opt.Squaring, "squaring"}, {opt.Grid, "grid"}} {
			if kind.want {
				b.cloth(layCloth(s, e, c, kind.view, opt.Picture, frames))
			}
		}
	}
	if len(opt.Cautions) > 0 {
		t, err := layTable(cautionTable(opt.Cautions), true, frames)
		if err != nil {
			return nil, err
		}
		b.table("cautions", "Cautions", t)
	}
	b.artworkCover(cloths, opt)
	return b.bind(s.Name + ", artwork"), nil
}

// Measures of a cloth's sheets in millimetres.
const (
	clothLabel  = drawing.Lettering5
	clothFigure = drawing.Lettering2_5
	clothAround = 24.0 // left free about the cloth for letters and running figures
	clothWords  = 3.0 * drawing.Lettering3_5 * 1.5
)

// clothSheet is a cloth to scale on one sheet.
type clothSheet struct {
	set     *set.Set
	element *set.Element
	cloth   *set.Cloth
	view    string // squaring, or grid
	picture *artwork.Picture
	frame   *frame
	scale   scale
	at      geom.Point // of the cloth's centre line and lower edge on the page
	step    float64
}

// layCloth finds the sheet and the largest scale that holds a cloth. Where no scale of the plan's does, it is made as large as it goes.
func layCloth(s *set.Set, e *set.Element, c *set.Cloth, view string, p *artwork.Picture, frames []frame) *clothSheet {
	k := &clothSheet{set: s, element: e, cloth: c, view: view, picture: p, step: enlarge.GridStep(c, s.Units)}
	if k.picture == nil {
		k.picture = c.Art.Picture
	}
	box := c.Finished()
	if view == "grid" {
		box = c.Whole()
	}
	for i := range frames {
		room := clothRoom(&frames[i])
		for _, sc := range scalesFor(s.Units) {
			if box.W()/sc.n <= room.W() && box.H()/sc.n <= room.H() && (k.frame == nil || sc.n < k.scale.n) {
				k.frame, k.scale = &frames[i], sc
				break
			}
		}
	}
	if k.frame == nil {
		room := clothRoom(&frames[0])
		n := max(box.W()/room.W(), box.H()/room.H())
		k.frame, k.scale = &frames[0], scale{n, "1:" + unit.FormatNumber(n, 1)}
	}
	k.at = clothRoom(k.frame).Mid().Sub(box.Mid().Mul(1 / k.scale.n))
	return k
}

// clothRoom is the box of a sheet that the cloth itself may take.
func clothRoom(f *frame) geom.Rect {
	r := f.live
	r.Min = r.Min.Add(geom.Point{X: clothAround, Y: stripHeight + cautionTall + clothWords + clothAround})
	r.Max = r.Max.Sub(geom.Point{X: clothAround, Y: clothAround})
	return r
}

// place is a place of the cloth on the page.
func (k *clothSheet) place(p geom.Point) geom.Point { return k.at.Add(p.Mul(1 / k.scale.n)) }

func (k *clothSheet) box(r geom.Rect) geom.Rect {
	return geom.Rect{Min: k.place(r.Min), Max: k.place(r.Max)}
}

// title is the sheet's in the register.
func (k *clothSheet) title() string {
	if k.view == "squaring" {
		return k.element.Name + ", squared up"
	}
	return k.element.Name + ", grid to snap"
}

// shown is the artwork on the page; nil on the sheet of the large grid.
func (k *clothSheet) shown() *tiling.Show {
	if k.view != "squaring" {
		return nil
	}
	f := 1 / k.scale.n
	return &tiling.Show{
		Picture: k.picture,
		Frame:   k.cloth.Frame.Then(artwork.Matrix{A: f, D: f, E: k.at.X, F: k.at.Y}),
		Window:  k.box(k.cloth.Shown.Common(k.cloth.Finished())),
	}
}

// cloth adds a sheet to the book.
func (b *binder) cloth(k *clothSheet) {
	e := tiling.Entry{
		Label: k.element.Name + " " + k.view, View: k.view, Title: k.title(), Element: k.element.Name, Scale: k.scale.text, Paper: k.frame.paper,
	}
	box := k.cloth.Finished()
	e.Origin, e.Size = [2]float64{box.Min.X, box.Min.Y}, [2]float64{box.W() / k.scale.n, box.H() / k.scale.n}
	e.Digest = k.digest()
	e.Mark = tiling.ContentMark(e.Digest)
	var shows []*tiling.Show
	if s := k.shown(); s != nil {
		shows = append(shows, s)
	}
	b.pages = append(b.pages, page{entry: e, size: k.frame.size, shows: shows, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		p.Layers[drawing.Notes].Shows = append(p.Layers[drawing.Notes].Shows, shows...)
		k.draw(p)
		if len(shows) > 0 {
			tiling.SetOff(&p.Layers[drawing.Notes])
		}
		k.frame.drawFrame(p)
		top := k.frame.live.Min.Y + stripHeight + cautionTall
		for i, l := range [2]string{atHeight, caution.Defer} {
			h, l := fitted(l, drawing.Lettering2_5, false, k.frame.live.W()-2*gap)
			p.Layers[drawing.Furniture].Write(geom.Point{X: k.frame.live.Min.X + gap, Y: top - float64(i+1)*drawing.Lettering2_5*1.5}, h, false, l)
		}
		titleStrip(p, k.frame.strip(), b.set, b.titles(e, "Artwork", k.frame, n, of))
	}})
}

// atHeight stands on every sheet of a cloth.
const atHeight = "Painting from ladders and towers, and hanging the cloth, is work at height and overhead: only competent people, by a plan, under local rules."

// digest is of what the sheet draws: the artwork, the lines and their figures.
func (k *clothSheet) digest() [32]byte {
	var d tiling.Digester
	d.Reset(k.view, k.scale.text, "", k.cloth.Whole())
	if k.view == "squaring" {
		d.Picture(drawing.Mark{}, tiling.NewArt(k.picture, k.cloth.Frame, tiling.ImageSums{}), k.cloth.Shown)
	}
	var p tiling.Page
	p.Reset()
	k.draw(&p)
	notes := &p.Layers[drawing.Notes]
	for i := range notes.Texts {
		d.Word(drawing.Mark{Role: drawing.Word}, &notes.Texts[i])
	}
	for _, s := range notes.Strokes {
		for _, r := range s.Runs {
			d.Line(drawing.Mark{}, drawing.Continuous, s.Pen.Width, s.Pen.Tone, 0, r.Closed, r.Points)
		}
	}
	return d.Sum()
}

// draw draws the cloth, its grid with letters and numbers at both ends of each line, and on the large grid's sheet how far each line
// lies from the centre line and the lower edge.
func (k *clothSheet) draw(p *tiling.Page) {
	n := &p.Layers[drawing.Notes]
	f := k.box(k.cloth.Finished())
	line := func(width float64, dash drawing.LineType, a, b geom.Point) {
		n.Polyline(p, tiling.PenOf(dash, width, drawing.Black), false, a, b)
	}
	across, up := enlarge.Lines(k.cloth, k.step)
	for i, l := range across {
		x := k.place(geom.Point{X: l.At}).X
		typ, width := drawing.Continuous, drawing.NarrowLine
		if l.Centre {
			typ, width = drawing.LongDashDot, drawing.MediumLine
		}
		line(width, typ, geom.Point{X: x, Y: f.Min.Y}, geom.Point{X: x, Y: f.Max.Y})
		h := min(clothLabel, k.spacing()*0.8)
		for _, y := range [2]float64{f.Min.Y - k.hem(k.cloth.Allow.Bottom) - 1.6*h, f.Max.Y + k.hem(k.cloth.Allow.Top) + 0.6*h} {
			k.write(n, geom.Point{X: x, Y: y}, h, true, 0, l.Label)
		}
		if k.view == "grid" && (i%k.every() == 0 || l.Centre) {
			k.write(n, geom.Point{X: x + clothFigure/2, Y: f.Min.Y - k.hem(k.cloth.Allow.Bottom) - 2.4*h - 8}, clothFigure, false, 90, k.figure(l.At))
		}
	}
	for _, l := range up {
		y := k.place(geom.Point{Y: l.At}).Y
		line(drawing.NarrowLine, drawing.Continuous, geom.Point{X: f.Min.X, Y: y}, geom.Point{X: f.Max.X, Y: y})
		h := min(clothLabel, k.spacing()*0.8)
		for _, x := range [2]float64{f.Min.X - k.hem(k.cloth.Allow.Left) - 1.4*h, f.Max.X + k.hem(k.cloth.Allow.Right) + 1.4*h} {
			k.write(n, geom.Point{X: x, Y: y - h/2}, h, true, 0, l.Label)
		}
		if k.view == "grid" {
			k.write(n, geom.Point{X: f.Min.X - k.hem(k.cloth.Allow.Left) - 2.4*h - 8, Y: y - clothFigure/2}, clothFigure, false, 0, k.figure(l.At))
		}
	}
	for _, g := range k.cloth.Fine {
		k.drawFine(p, g)
	}
	n.Polyline(p, tiling.Pen{Width: drawing.WideLine}, true, tiling.Box(f)...)
	if w := k.box(k.cloth.Whole()); w != f && k.view == "grid" {
		n.Polyline(p, tiling.PenOf(drawing.Dashed, drawing.NarrowLine, drawing.Black), true, tiling.Box(w)...)
	}
	k.words(n)
}

// hem is how much an allowance takes on the sheet; none on the small one, which shows the finished cloth.
func (k *clothSheet) hem(mm float64) float64 {
	if k.view != "grid" {
		return 0
	}
	return mm / k.scale.n
}

// spacing is the grid's step on the page.
func (k *clothSheet) spacing() float64 { return k.step / k.scale.n }

// every is of how many upright lines one has its figure, so that figures keep apart.
func (k *clothSheet) every() int {
	n := 1
	for k.spacing()*float64(n) < 1.6*clothFigure {
		n++
	}
	return n
}

// figure is a distance from the centre line or the lower edge, without a sign.
func (k *clothSheet) figure(mm float64) string {
	return unit.FormatLength(max(mm, -mm), k.set.Units, 1)
}

// drawFine draws a finer grid.
func (k *clothSheet) drawFine(p *tiling.Page, g set.FineGrid) {
	n := &p.Layers[drawing.Notes]
	xs, ys := enlarge.Finer(g)
	box := k.box(g.Over)
	pen := tiling.Pen{Width: drawing.FineLine}
	for _, x := range xs {
		x = k.place(geom.Point{X: x}).X
		n.Line(p, pen, x, box.Min.Y, x, box.Max.Y)
	}
	for _, y := range ys {
		y = k.place(geom.Point{Y: y}).Y
		n.Line(p, pen, box.Min.X, y, box.Max.X, y)
	}
	n.Polyline(p, tiling.Pen{Width: drawing.MediumLine}, true, tiling.Box(box)...)
}

// write writes words whose base line's middle is at.
func (k *clothSheet) write(c *tiling.Content, at geom.Point, height float64, bold bool, turn float64, text string) {
	t := drawing.Text{At: at, Height: height, Bold: bold, Turn: turn, Align: drawing.AlignCentre, Text: text}
	c.Texts = append(c.Texts, tiling.PlaceText(&t, at))
}

// words say under the cloth what a square is and how the grid is proved.
func (k *clothSheet) words(c *tiling.Content) {
	length := func(mm float64) string { return unit.FormatMeasure(mm, k.set.Units, 1) }
	lines := []string{
		fmt.Sprintf("%s: %s wide, %s high, finished. Squares of %s count from the centre line and the lower edge; seen from the front.",
			k.element.Name, length(k.cloth.Width), length(k.cloth.Height), length(k.step)),
	}
	if k.view == "squaring" {
		lines = append(lines, fmt.Sprintf("A square is %s mm here, %s on the cloth: letters and numbers are the same on the sheet of the large grid.",
			unit.FormatNumber(k.spacing(), 0.1), length(k.step)))
	} else {
		f := k.cloth.Finished()
		diagonal := geom.Point{X: f.W(), Y: f.H()}.Len()
		lines = append(lines, fmt.Sprintf("Snap the lower edge and the centre line first. The finished cloth is square when both diagonals are %s. Figures run from the centre line and the lower edge.", length(diagonal)))
		if a := k.cloth.Allow; a != (set.Allowance{}) {
			lines = append(lines, fmt.Sprintf("Beyond the finished edge, dashed: %s above, %s below, %s left, %s right, for hems.", length(a.Top), length(a.Bottom), length(a.Left), length(a.Right)))
		}
	}
	y := k.frame.live.Min.Y + stripHeight + cautionTall + clothWords
	for i, l := range lines {
		h, l := fitted(l, drawing.Lettering3_5, false, k.frame.live.W()-2*gap)
		c.Write(geom.Point{X: k.frame.live.Min.X + gap, Y: y - float64(i+1)*drawing.Lettering3_5*1.4}, h, false, l)
	}
}

// artworkCover says what the document is, what is known of the artwork, what it takes and in what order to work.
func (b *binder) artworkCover(cloths []*set.Element, opt ArtworkOptions) {
	what := tiling.Block{Heading: "What this is", Lines: []string{"What a scenic artist enlarges artwork by: small and large grid with the same letters, and what else is listed here."}}
	what.Lines = append(what.Lines, b.sheets()...)
	what.Lines = append(what.Lines, opt.Comes...)
	blocks := []tiling.Block{what}
	snapped := 0.0
	pounced := false
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		blocks = append(blocks, tiling.Block{Heading: e.Name, Lines: enlarge.Of(c, b.set.Units).Words})
		snapped += enlarge.Snapped(c, enlarge.GridStep(c, b.set.Units))
		pounced = pounced || c.Pounce > 0
	}
	takes := tiling.Block{Heading: "What it takes", Lines: []string{fmt.Sprintf("Snap line: %s of line in all, chalk or charcoal that brushes off.", unit.FormatMeasure(snapped, metres(b.set), 1000))}}
	takes.Lines = append(takes.Lines, "A tape as long as the diagonal, pins or nails at the corners.")
	if opt.Cheaper != "" {
		takes.Lines = append(takes.Lines, opt.Cheaper)
	}
	order := tiling.Block{Heading: "In this order", Numbered: true, Lines: []string{
		"Lay the cloth flat and square, face up, and mark its finished corners; measure both diagonals.",
		"Snap the centre line and the lower edge, then every line of the large grid by its running figure; write letters and numbers beyond the edge.",
		"Draw square by square from the small sheet. Close grids help at faces, hands and lettering.",
	}}
	if pounced {
		order.Lines = append(order.Lines, "Lay the pounce pattern by its crosses and its own figures, this side up, and pounce through the pricked dots; keep the pattern about 1.5 mm outside of what is painted to an edge.")
	}
	if opt.Comes != nil {
		order.Lines = append(order.Lines, "Lay tiles by their crosses and by the figures along their edges, which count from the centre line and the lower edge: an error never adds up.")
	}
	blocks = append(blocks, takes, order,
		tiling.Block{Heading: "How to hold it", Lines: []string{"Everything is seen from the front, the side that is painted, its lower edge at the bottom.", atHeight, caution.Defer}})
	if b.set.Trial && len(b.set.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: slices.Clone(b.set.With)})
	}
	cv, words := newCover(b.set, b.set.Name+": artwork", blocks)
	b.covers(cv, b.coverFrame(), words)
}
