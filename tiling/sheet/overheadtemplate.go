package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling"
)

// Measures of a template's sheet in millimetres.
const (
	templateBand = 14.0 // for the check bars, at the left and below
	templateHead = 46.0 // for the title and the words on how to hold it
)

// template is one view of the fixings of pieces that are alike.
type template struct {
	d     *drawing.Drawing
	up    geom.Point // the way upstage
	frame *frame
	scale scale
	at    projection
	title string
	says  []string
}

// templates adds the templates of what has places of fixings, each as seen from below and from above; pieces that are alike, hang
// alike and carry alike have theirs once.
func (o *overheadBook) templates(r *overhead.Room) {
	type kind struct{ pieces []*overhead.Piece }
	var kinds []*kind
	at := map[[32]byte]*kind{}
	for i := range r.Pieces {
		p := &r.Pieces[i]
		d, up := view.Fixing(o.set, p, false)
		if d == nil {
			continue
		}
		key := templateDigest(&tiling.Digester{}, d, up, "", []string{loadWords(o.set, p), wallOf(r, p)})
		k, ok := at[key]
		if !ok {
			k = &kind{}
			at[key], kinds = k, append(kinds, k)
		}
		k.pieces = append(k.pieces, p)
	}
	for _, k := range kinds {
		for _, below := range []bool{true, false} {
			o.template(o.templateOf(r, k.pieces, below), k.pieces)
		}
	}
}

// templateOf lays one template at the largest scale at which it fits, full size where the paper allows it.
func (o *overheadBook) templateOf(r *overhead.Room, pieces []*overhead.Piece, below bool) *template {
	p := pieces[0]
	t := &template{}
	t.d, t.up = view.Fixing(o.set, p, below)
	var names []string
	for _, q := range pieces {
		n := q.Name
		if q.Tag > 0 {
			n = strconv.Itoa(q.Tag) + " " + n
		}
		names = append(names, n)
	}
	of := few(names)
	t.title = of + ": fixings AS SEEN FROM ABOVE"
	if below {
		t.title = of + ": fixings AS SEEN FROM BELOW"
	}
	t.says = append(t.says, holdWords(below, wallOf(r, p)))
	load := loadWords(o.set, p)
	t.says = append(t.says, load+". 0,0 is the piece's own, at "+place(o.set, p.Overhead.T.Plan())+".", overhead.Note)
	if len(pieces) > 1 {
		t.says[1] = load + ", each. 0,0 is each piece's own; its place is in the transfer table."
	}
	for _, sc := range templateScales(o.set.Units) {
		for i := range o.frames {
			f := &o.frames[i]
			room := templateRoom(f)
			j := projection{scale: sc.n}
			need := j.extent(t.d, measureIn(o.set.Units))
			if need.W() > room.W() || need.H() > room.H() {
				continue
			}
			j.at = room.Mid().Sub(need.Mid())
			t.frame, t.scale, t.at = f, sc, j
			return t
		}
	}
	return nil
}

// wallOf names the wall that a piece is fixed to; empty where it hangs from what is over it.
func wallOf(r *overhead.Room, p *overhead.Piece) string {
	if p.On >= 0 {
		if on := &r.Pieces[p.On]; on.Element.Kind == "flat" {
			return on.Name
		}
	}
	return ""
}

// holdWords says how to hold a template. Of a piece on a wall its plan has no more than how far along the wall its fixings are.
func holdWords(below bool, wall string) string {
	const under = "hold this sheet over your head, print towards you, the arrow upstage. Left and right are changed over, as they are for whoever looks up."
	const over = "print up, the arrow upstage. Left and right are those of the ground plan."
	along := "It is fixed to the wall " + wall + ", not to a surface over it: this sheet gives its fixings along the wall, and not at what height. "
	switch {
	case wall != "" && below:
		return along + "From beneath, " + under
	case wall != "":
		return along + "Lay it on the walking floor to plumb up from: " + over
	case below:
		return "Face the surface that it is fixed to, from beneath: " + under
	}
	return "Lay this sheet on top of the surface that it is fixed to, or on the walking floor to plumb up from: " + over
}

// loadWords says what a piece carries, and what each fixing would if all shared it equally.
func loadWords(s *set.Set, p *overhead.Piece) string {
	load := "Weight not known"
	if p.LoadKnown || p.Load > 0 {
		load = weightWords(s, p.Load) + " with all that is fixed to it"
		switch {
		case !p.LoadKnown:
			load = "At least " + load
		case p.LoadAbout:
			load = "About " + load
		}
	}
	if share, ok := p.Shared(); ok {
		load += fmt.Sprintf("; %s a fixing if shared equally", unit.FormatWeight(share, s.Units, 0.1))
	}
	return load
}

// fullSize reports whether the sheet itself can be laid on the surface.
func (t *template) fullSize() bool { return t.scale.n == 1 }

// templateRoom is where the drawing may stand.
func templateRoom(f *frame) geom.Rect {
	return geom.Rect{
		Min: f.live.Min.Add(geom.Point{X: templateBand + 2*gap, Y: stripHeight + templateBand + 2*gap}),
		Max: f.live.Max.Sub(geom.Point{X: gap, Y: templateHead}),
	}
}

// template binds the sheet of one template.
func (o *overheadBook) template(t *template, pieces []*overhead.Piece) {
	if t == nil {
		return // larger than the smallest scale on this paper: the marks have its fixings
	}
	var names []string
	for _, p := range pieces {
		if n := p.Element.Name; len(names) == 0 || names[len(names)-1] != n {
			names = append(names, n)
		}
	}
	sum := templateDigest(digester(o.set), t.d, t.up, t.scale.text, append([]string{t.title}, t.says...))
	e := tiling.Entry{
		Label: names[0] + " " + strings.TrimPrefix(t.d.View, "template "), View: t.d.View, Title: t.title, Element: strings.Join(names, ","),
		Scale: t.scale.text, Paper: t.frame.paper, Mark: tiling.ContentMark(sum), Digest: sum,
	}
	room := templateRoom(t.frame)
	origin := room.Min.Sub(t.at.at).Mul(t.scale.n)
	e.Origin, e.Size = [2]float64{origin.X, origin.Y}, [2]float64{room.W(), room.H()}
	o.pages = append(o.pages, page{entry: e, size: t.frame.size, draw: func(p *tiling.Page, e *tiling.Entry, n, of int) {
		t.draw(p, o)
		t.frame.drawFrame(p)
		titleStrip(p, t.frame.strip(), o.set, o.titles(e, "Fixing template", t.frame, n, of))
	}})
}

// draw draws the template, its words, its arrow and its check bars.
func (t *template) draw(p *tiling.Page, o *overheadBook) {
	t.at.lines(p, t.d)
	notes := &p.Layers[drawing.Notes]
	for i := range t.d.Texts {
		notes.Texts = append(notes.Texts, tiling.PlaceText(&t.d.Texts[i], t.at.to(t.d.Texts[i].At)))
	}
	for i := range t.d.Dimensions {
		c := t.at.dimension(&t.d.Dimensions[i], measureIn(o.set.Units))
		for _, q := range c.witness {
			notes.Polyline(p, witnessPen, false, q[0], q[1])
		}
		for _, q := range c.lines {
			notes.Polyline(p, tiling.Thin, false, q[0], q[1])
		}
		notes.Texts = append(notes.Texts, c.texts...)
	}
	live := t.frame.live
	f := &p.Layers[drawing.Notes]
	left, top, width := live.Min.X+gap, live.Max.Y-gap, live.W()-2*gap-24
	size, title := fitted(t.title, drawing.Lettering7, true, width)
	f.Write(geom.Point{X: left, Y: top - size}, size, true, title)
	top -= size + 2
	says := append([]string{t.scaleWords()}, t.says...)
	for _, l := range says {
		top -= f.WriteLines(left, top, drawing.Lettering3_5, false, lettering.Wrap(l, drawing.Lettering3_5, false, width)) + 2.6
	}
	x := live.Max.X - gap - 13
	mid, half := geom.Point{X: x, Y: live.Max.Y - gap - 20}, t.up.Mul(11)
	f.Arrow(p, tiling.Pen{Width: drawing.WideLine}, mid.Sub(half), mid.Add(half), 7)
	up := drawing.Text{Height: drawing.Lettering3_5, Bold: true, Align: drawing.AlignCentre, Text: "UPSTAGE"}
	f.Texts = append(f.Texts, tiling.PlaceText(&up, geom.Point{X: x, Y: live.Max.Y - gap - 5}))
	t.bars(p, o)
}

func (t *template) scaleWords() string {
	if t.fullSize() {
		return "FULL SIZE 1:1."
	}
	return "Scale " + t.scale.text + ": too large for this paper full size. Lay it out by the figures, not by the paper."
}

// bars proves the scale in both directions in the band at the left and below.
func (t *template) bars(p *tiling.Page, o *overheadBook) {
	live := t.frame.live
	long, words := 100.0, "100 mm on this paper"
	if o.set.Units.Imperial() {
		long, words = 4*25.4, `4" on this paper`
	}
	checkBar(p, long, words, false, geom.Point{X: live.Min.X + templateBand + gap, Y: live.Min.Y + stripHeight + gap})
	checkBar(p, long, words, true, geom.Point{X: live.Min.X + gap, Y: live.Min.Y + stripHeight + templateBand + gap})
}

// templateDigest is of a template's lines and words in the piece's own millimetres, and of what is said over them.
func templateDigest(d *tiling.Digester, t *drawing.Drawing, up geom.Point, scale string, says []string) [32]byte {
	d.Reset(t.View, scale, "", t.Bounds())
	var ps []geom.Point
	for i := range t.Strokes {
		k := &t.Strokes[i]
		ps = k.Path.Flatten(flatness, ps[:0])
		m := k.Mark
		m.Owner = 0
		d.Line(m, k.Type, k.Width, k.Tone, 0, k.Path.Closed(), ps)
	}
	for i := range t.Texts {
		k := &t.Texts[i]
		d.Word(drawing.Mark{Layer: k.Layer, Role: drawing.Word}, &tiling.Text{At: k.At, Turn: k.Turn, Height: k.Height, Text: k.Text})
	}
	d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: up, Text: "upstage"})
	for k, l := range says {
		d.Word(drawing.Mark{Layer: drawing.Notes, Role: drawing.Word}, &tiling.Text{At: geom.Point{Y: float64(k)}, Text: l})
	}
	return d.Sum()
}

// templateScales are the scales of templates, full size first.
func templateScales(u unit.System) []scale {
	out := scalesFor(u)
	if u.Imperial() {
		out = append([]scale{{1, "full size"}, {4, `3" = 1'-0"`}, {8, `1 1/2" = 1'-0"`}}, out...)
	}
	return out
}
