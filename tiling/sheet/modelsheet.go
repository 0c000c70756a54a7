package sheet

import (
	"fmt"
	"strings"

	"markout/layout/develop"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// Pens of card sheets.
var (
	foldFront = tiling.PenOf(drawing.Dashed, drawing.NarrowLine, drawing.Black)
	foldBack  = tiling.PenOf(drawing.LongDashDot, drawing.NarrowLine, drawing.Black)
	bevelPen  = tiling.Pen{Width: drawing.NarrowLine}
	gluePen   = tiling.PenOf(drawing.Dotted, drawing.MediumLine, drawing.Black)
)

// linesOf returns what is drawn inside a piece and keeps lettering out, in the piece's own axes: folds and bevels. Half-cuts
// that let card bend are many and run under lettering.
func (c *CardModel) linesOf(p *develop.Piece) []tiling.PathLine {
	var out []tiling.PathLine
	for _, f := range p.Folds {
		out = append(out, tiling.PathLine{Path: straight(f.Line.From, f.Line.To), Pen: halfCutPen(f.Front)})
	}
	for _, e := range p.Edges {
		if q := bevelLine(p, e); q != nil {
			out = append(out, tiling.PathLine{Path: q, Pen: bevelPen})
		}
	}
	return out
}

func halfCutPen(front bool) tiling.Pen {
	if front {
		return foldFront
	}
	return foldBack
}

func straight(a, b geom.Point) *geom.Path {
	q := geom.NewPath(a)
	q.LineTo(b)
	return q
}

// bevelLine is where the bevel of an edge begins on the printed face; nil where that face runs out to the cut line.
func bevelLine(p *develop.Piece, e develop.Edge) *geom.Path {
	const least = 0.25
	if e.Front < least {
		return nil
	}
	line := []geom.Point{e.Line.From, e.Line.To}
	mid, u := e.Line.From.Lerp(e.Line.To, 0.5), e.Line.To.Sub(e.Line.From).Unit()
	d := e.Front
	if !p.Outline.Contains(mid.Add(u.Left().Mul(min(d, least)))) {
		d = -d
	}
	return insideRun(p.Outline, offsetLine(line, d))
}

// narrow reports whether a piece is no wider than three wide lines.
func narrow(p *develop.Piece) bool {
	b := p.Outline.Bounds()
	return min(b.W(), b.H()) < 3*drawing.WideLine
}

// cutSheet draws sheet i, counted from 0, piece by piece, and finds where it says what it is, which is not on it yet. What could
// not be said on a piece stands in a list beside the pieces where there is room.
func (c *CardModel) cutSheet(i int) (*tiling.CutSheet, footing) {
	s := &c.Sheets[i]
	c.noteKept(s)
	out := &tiling.CutSheet{W: s.Size.W, H: s.Size.H, Label: s.label(), Pieces: make([]tiling.CutPiece, len(s.Places))}
	g := newGround(geom.Rect{Max: geom.Point{X: s.Size.W, Y: s.Size.H}})
	for k, l := range s.Places {
		g.region(int32(k+1), c.Model.Pieces[l.Piece].Outline.Transform(l.move()))
	}
	for k, l := range s.Places {
		c.drawPiece(&out.Pieces[k], l)
		g.lines(&out.Pieces[k])
	}
	letters := c.lettersOn(s)
	for k, l := range s.Places {
		if l.note != nil {
			l.drawNote(&out.Pieces[k], g)
		}
	}
	var unsaid []string
	for k, l := range s.Places {
		p := &c.Model.Pieces[l.Piece]
		if l.note != nil {
			continue
		}
		if left := c.letter(&out.Pieces[k], g, l, int32(k+1), letters); len(left) > 0 {
			unsaid = append(unsaid, p.Label()+": "+strings.Join(left, ", "))
		}
	}
	foot := c.mount(out, g, i, unsaid)
	for k := range out.Pieces {
		p := &out.Pieces[k]
		for _, l := range p.Bends {
			for _, run := range g.besides(l.Path.Start(), l.Path.End()) {
				p.Shown = append(p.Shown, tiling.PathLine{Path: straight(run[0], run[1]), Pen: l.Pen})
			}
		}
	}
	return out, foot
}

// lines takes what a piece's lines cover.
func (g *ground) lines(p *tiling.CutPiece) {
	for _, q := range p.Lines {
		g.thin(q.Path.Flatten(tiling.Flatness, nil))
	}
	for _, q := range p.Folds {
		g.line(q.Path.Flatten(tiling.Flatness, nil), false)
	}
}

func (c *CardModel) lettersOn(s *CardSheet) lettersOf {
	if c.opt.Board.H > 0 {
		return lettersFor(Board{W: s.Size.W, H: s.Size.H})
	}
	return paperLetters
}

func (s *CardSheet) label() string { return fmt.Sprintf("model %d", s.Number) }

// drawPiece draws a piece's lines.
func (c *CardModel) drawPiece(out *tiling.CutPiece, l Laid) {
	p := &c.Model.Pieces[l.Piece]
	m := l.move()
	r := p.Outline.Transform(m)
	out.Name, out.Pen = p.Label(), tiling.CutPen
	if narrow(p) {
		out.Pen = tiling.FineCutPen
	}
	out.Cut = append([]*geom.Path{r.Outer}, r.Holes...)
	for _, q := range c.linesOf(p) {
		q.Path = q.Path.Transform(m)
		if q.Pen.Dash == nil {
			out.Lines = append(out.Lines, q)
		} else {
			out.Folds = append(out.Folds, q)
		}
	}
	for _, f := range p.Relief {
		out.Bends = append(out.Bends, tiling.PathLine{Path: straight(f.Line.From, f.Line.To).Transform(m), Pen: halfCutPen(f.Front)})
	}
	for _, q := range c.glueLines(l.Piece) {
		out.Lines = append(out.Lines, tiling.PathLine{Path: q.Transform(m), Pen: gluePen})
	}
}

// drawNote writes what stands beside a small piece.
func (l Laid) drawNote(to *tiling.CutPiece, g *ground) {
	n := l.note
	w, h := n.size()
	t := tilted{l.move().Apply(n.box.Mid()), w, h, readable(l.Turn + n.turn)}
	n.write(&to.Notes, t)
	to.Named.Texts, to.Notes.Texts = to.Notes.Texts[:1:1], to.Notes.Texts[1:]
	g.take(t)
}

// letter writes a piece's number and what is said of its edges, and returns what found no room. Where words in full leave
// too little room for others, all are written short and small.
func (c *CardModel) letter(to *tiling.CutPiece, g *ground, l Laid, who int32, letters lettersOf) []string {
	box := c.Model.Pieces[l.Piece].Outline.Transform(l.move()).Bounds()
	before := g.keep(box)
	full := *to
	left := c.letterAs(&full, g, l, who, letters, false)
	if len(left) == 0 {
		*to = full
		return nil
	}
	after := g.keep(box)
	before()
	short := *to
	if fewer := c.letterAs(&short, g, l, who, letters, true); len(fewer) < len(left) {
		*to = short
		return fewer
	}
	after()
	*to = full
	return left
}

// letterAs writes a piece's number and what is said of its edges, in full where there is room or all short and small.
func (c *CardModel) letterAs(to *tiling.CutPiece, g *ground, l Laid, who int32, letters lettersOf, short bool) []string {
	p, m := &c.Model.Pieces[l.Piece], l.move()
	box := p.Outline.Transform(m).Bounds()
	lesser := min(box.W(), box.H())
	heights := letters.joints
	for len(heights) > 1 && (short || heights[0] > lesser/6) {
		heights = heights[1:]
	}
	if short {
		letters.names = letters.names[1:]
	}
	var unsaid []string
	if !g.putPlaque(&to.Named, p, who, box, letters) {
		unsaid = append(unsaid, "its number")
	}
	if p.Grain == develop.Along {
		g.putGrain(&to.Notes, who, box, l.Turn+90, letters)
	}
	for _, k := range c.marksOf(l.Piece) {
		line := make([]geom.Point, len(k.line))
		for i, q := range k.line {
			line[i] = m.Apply(q)
		}
		forms := k.forms
		if short && len(forms) > 1 {
			forms = forms[1:]
		}
		if !g.putEdge(&to.Notes, line, forms, who, heights) {
			unsaid = append(unsaid, k.forms[len(k.forms)-min(2, len(k.forms))])
		}
	}
	for _, f := range p.Folds {
		if onTab(p, f) {
			continue
		}
		g.putEdge(&to.Notes, []geom.Point{m.Apply(f.Line.From), m.Apply(f.Line.To)}, []string{f.Words()}, who, heights)
	}
	return unsaid
}

// onTab reports whether a fold is a tab's.
func onTab(p *develop.Piece, f develop.Fold) bool {
	for _, t := range p.Tabs {
		if t.Base.From.Near(f.Line.From) && t.Base.To.Near(f.Line.To) || t.Base.From.Near(f.Line.To) && t.Base.To.Near(f.Line.From) {
			return true
		}
	}
	return false
}

// putGrain draws an arrow both ways along the grain, with its word, where there is room.
func (g *ground) putGrain(c *tiling.Content, who int32, box geom.Rect, dir float64, letters lettersOf) {
	const word = "grain"
	for _, h := range letters.joints {
		width := lettering.Width(word, h, false)
		w, tall := textBox(width, h)
		w = max(w, 6*h)
		tall += 0.8 * h
		for _, at := range g.places(box, who) {
			t := tilted{at, w, tall, readable(dir)}
			if !g.free(t, who) {
				continue
			}
			g.take(t)
			s, co := geom.SincosDeg(t.turn)
			place := func(x, y float64) geom.Point { return geom.Point{X: at.X + x*co - y*s, Y: at.Y + x*s + y*co} }
			_, th := textBox(width, h)
			writeTilted(c, tilted{place(0, tall/2-th/2), w, th, t.turn}, width, h, false, word)
			y := -tall/2 + 0.4*h
			for _, sign := range [2]float64{1, -1} {
				c.Arrow(nil, tiling.Thin, place(0, y), place(sign*w/2*0.95, y), 0.7*h)
			}
			return
		}
	}
}

// grain says how a sheet's grain runs.
func (s *CardSheet) grain() string {
	if s.Size.H > s.Size.W {
		return "up the sheet"
	}
	return "along the sheet"
}
