package sheet

import (
	"cmp"
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

// clothSheet is a cloth to scale on one sheet: its artwork squared up, or its large grid.
type clothSheet struct {
	set     *set.Set
	element *set.Element
	cloth   *set.Cloth
	large   bool             // the large grid
	picture *artwork.Picture // of the artwork squared up
	small   *artwork.Picture // the same with no more pixels than are seen
	frame   *frame
	scale   scale
	at      projection
	step    float64 // of the grid
	run     float64 // what a running distance takes along its words, on the large grid's sheet
	lines   []string
}

// Measures of a cloth's sheets in millimetres.
const (
	clothTitle  = drawing.Lettering7
	clothWords  = drawing.Lettering3_5
	clothLetter = drawing.Lettering5   // of a line's letter or number, at most
	clothFigure = drawing.Lettering2_5 // of its distance, at least
	clothRun    = 20.0                 // what it takes along its words, at least
)

// between are further scales of scale rules, by which artwork fills a sheet better than by those of plans alone.
var (
	metricBetween = []scale{{3, "1:3"}, {4, "1:4"}, {6, "1:6"}, {7.5, "1:7.5"}, {12.5, "1:12.5"}, {15, "1:15"}, {30, "1:30"}, {40, "1:40"}, {60, "1:60"}, {75, "1:75"}, {125, "1:125"}, {150, "1:150"}, {250, "1:250"}, {300, "1:300"}}
	footBetween   = []scale{{4, `3" = 1'-0"`}, {8, `1 1/2" = 1'-0"`}, {16, `3/4" = 1'-0"`}, {32, `3/8" = 1'-0"`}, {64, `3/16" = 1'-0"`}, {128, `3/32" = 1'-0"`}}
)

// clothScales are the scales in which cloths are tried, the largest drawing first.
func clothScales(u unit.System) []scale {
	all := slices.Clone(scalesFor(u))
	if u.Imperial() {
		all = append(all, footBetween...)
		all = append(all, scale{1, "full size"}, scale{2, "half size"})
	} else {
		all = append(all, metricBetween...)
	}
	slices.SortFunc(all, func(a, b scale) int { return cmp.Compare(a.n, b.n) })
	return all
}

// layCloth finds the sheet, lying or upright, and the largest scale that hold a cloth; where no scale of a rule does, it is made as
// large as it goes. instead gives what is shown at 1:n in place of the cloth's own artwork, where it is not nil.
// The error is its own, or of a picture whose pixels cannot be read.
func layCloth(s *set.Set, e *set.Element, c *set.Cloth, large bool, instead func(float64) (*artwork.Picture, error), frames []frame) (*clothSheet, error) {
	k := &clothSheet{set: s, element: e, cloth: c, large: large, picture: c.Art.Picture, step: enlarge.GridStep(c, s.Units)}
	box := c.Finished()
	if large {
		box = c.Whole()
		k.run = max(clothRun, tiling.Widest(clothFigure, false, k.figures(enlarge.Lines(c, k.step))...)+2)
	}
	for i := range frames {
		k.lines = k.words(&frames[i])
		room := k.room(&frames[i])
		for _, sc := range clothScales(s.Units) {
			if box.W()/sc.n <= room.W() && box.H()/sc.n <= room.H() && (k.frame == nil || sc.n < k.scale.n) {
				k.frame, k.scale = &frames[i], sc
				break
			}
		}
	}
	if k.frame == nil {
		room := k.room(&frames[0])
		n := max(box.W()/room.W(), box.H()/room.H())
		k.frame, k.scale = &frames[0], scale{n, "1:" + unit.FormatNumber(n, 1)}
	}
	k.lines = k.words(k.frame)
	k.at = projection{scale: k.scale.n, world: box.Mid(), at: k.room(k.frame).Mid()}
	if large {
		return k, nil
	}
	var err error
	if instead != nil {
		if k.picture, err = instead(k.scale.n); err != nil {
			return nil, err
		}
	}
	k.small, err = enlarge.Small(k.picture, k.lies())
	return k, err
}

// room is the box of a sheet that the cloth itself may take: inside of its letters and figures, the words over it and the check bars.
func (k *clothSheet) room(f *frame) geom.Rect {
	out := 2.2 * clothLetter
	r := f.live
	r.Min.X += out + gap
	r.Min.Y += stripHeight + cautionTall + gap + out
	r.Max.X -= out + gap + tiling.BarBreadth
	r.Max.Y -= gap + clothTitle + float64(len(k.lines))*clothWords*1.5 + gap + out
	if k.large {
		r.Min.X += k.run
		r.Min.Y += k.run
	}
	return r
}

func (k *clothSheet) box(r geom.Rect) geom.Rect {
	return geom.Rect{Min: k.at.to(r.Min), Max: k.at.to(r.Max)}
}

// view is what the sheet is in labels and in the register.
func (k *clothSheet) view() string {
	if k.large {
		return "grid"
	}
	return "squaring"
}

func (k *clothSheet) title() string {
	if k.large {
		return k.element.Name + ", large grid"
	}
	return k.element.Name + ", squared up"
}

// shown is the artwork on the page; nil on the sheet of the large grid.
func (k *clothSheet) shown() []*tiling.Show {
	if k.large {
		return nil
	}
	return []*tiling.Show{{Picture: k.small, Frame: k.lies(), Window: k.box(k.cloth.Shown.Common(k.cloth.Finished()))}}
}

// lies takes the artwork to the page.
func (k *clothSheet) lies() artwork.Matrix {
	f := 1 / k.scale.n
	o := k.at.to(geom.Point{})
	return k.cloth.Frame.Then(artwork.Matrix{A: f, D: f, E: o.X, F: o.Y})
}

// cloth adds a sheet to the book.
func (b *binder) cloth(k *clothSheet) {
	box := k.cloth.Finished()
	e := tiling.Entry{
		Label: k.element.Name + " " + k.view(), View: k.view(), Title: k.title(), Element: k.element.Name, Scale: k.scale.text, Paper: k.frame.paper,
		Origin: [2]float64{box.Min.X, box.Min.Y}, Size: [2]float64{box.W() / k.scale.n, box.H() / k.scale.n}, Digest: k.digest(),
	}
	e.Mark = tiling.ContentMark(e.Digest)
	shows := k.shown()
	b.pages = append(b.pages, page{entry: e, size: k.frame.size, shows: shows, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		p.Layers[drawing.Notes].Shows = append(p.Layers[drawing.Notes].Shows, shows...)
		k.draw(p)
		k.head(p)
		k.frame.drawFrame(p)
		left, top := k.frame.live.Min.X+gap, k.frame.live.Min.Y+stripHeight+cautionTall
		for i, l := range [2]string{atHeight, caution.Defer} {
			h, l := fitted(l, drawing.Lettering2_5, false, k.frame.live.W()-2*gap)
			p.Layers[drawing.Furniture].Write(geom.Point{X: left, Y: top - float64(i+1)*drawing.Lettering2_5*1.5}, h, false, l)
		}
		titleStrip(p, k.frame.strip(), b.set, b.titles(e, "Artwork", k.frame, n, of))
	}})
}

// digest is of what the sheet draws: the artwork, the lines, their letters and figures.
func (k *clothSheet) digest() [32]byte {
	var d tiling.Digester
	d.Reset(k.view(), k.scale.text, "", k.cloth.Whole())
	if !k.large {
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
