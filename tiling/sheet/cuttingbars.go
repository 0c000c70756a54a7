package sheet

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/takeoff"
	"markout/tiling"
)

// barStrip is one bar, or several cut alike, drawn as a strip.
type barStrip struct {
	bar  *CutBar
	many int
}

// barSheet is strips on one sheet, each in its place; a place of the earlier issue whose bars are gone is empty.
type barSheet struct {
	c      *Cutting
	frame  *frame
	number int // from 1
	strips []barStrip
	place  []int     // of each strip, from the top
	scale  []float64 // of each strip: paper millimetres a millimetre
	digest [32]byte
}

// Measures of a strip in millimetres: its words over it, itself, its running measures under it.
const (
	stripWords  = drawing.Lettering5
	stripThick  = 11.0
	stripFigure = drawing.Lettering3_5
	stripPitch  = stripWords + 2 + stripThick + 2*(stripFigure+1.5) + 7
)

// layBars lays the bars, those cut alike as one strip, on as many sheets as they need.
func (c *Cutting) layBars(frames []frame) []*barSheet {
	var all []barStrip
	for i := range c.Bars {
		if n := len(all); n > 0 && all[n-1].bar.strip == c.Bars[i].strip {
			all[n-1].many++
			continue
		}
		all = append(all, barStrip{&c.Bars[i], 1})
	}
	slices.SortStableFunc(all, func(a, b barStrip) int { return cmp.Compare(a.bar.strip, b.bar.strip) })
	f := &frames[0]
	fit := max(1, int((f.live.H()-stripHeight-cautionTall-3*gap-drawing.Lettering7-4)/stripPitch))
	var out []*barSheet
	for _, k := range all {
		number := k.bar.strip/fit + 1
		if n := len(out); n == 0 || out[n-1].number != number {
			out = append(out, &barSheet{c: c, frame: f, number: number})
		}
		s := out[len(out)-1]
		s.strips, s.place = append(s.strips, k), append(s.place, k.bar.strip%fit)
		s.scale = append(s.scale, (f.live.W()-4*gap)/c.set.Lengths[k.bar.Bar].Long)
	}
	for _, s := range out {
		s.sum()
	}
	return out
}

// sum makes the digest of the strips: which bars they are, what is said of them, and their pieces with their items and measures; names
// are not in it.
func (s *barSheet) sum() {
	d := digester(s.c.set)
	d.Reset("bars", "", s.c.set.Sides, geom.Rect{})
	m := drawing.Mark{Layer: drawing.Cut, Role: drawing.Word}
	for i, k := range s.strips {
		y := float64(s.place[i])
		d.Word(m, &tiling.Text{At: geom.Point{Y: y}, Text: s.says(k, "")})
		for _, one := range k.bar.Cuts {
			p := &s.c.Taken.Pieces[one.Piece]
			d.Word(m, &tiling.Text{At: geom.Point{X: one.From, Y: y},
				Text: strconv.Itoa(p.Item) + " " + pieceTitle(p) + " " + s.c.figure(p.Length) + " " + s.c.figure(one.From+p.Length)})
		}
	}
	s.digest = d.Sum()
}

// says is what stands over a strip.
func (s *barSheet) says(k barStrip, name string) string {
	mat := &s.c.set.Lengths[k.bar.Bar]
	words := alike(name, k.bar.Number, k.many) + ":  " + s.c.length(mat.Width) + " x " + s.c.length(mat.Depth) + ", " + s.c.figure(mat.Long) +
		" long, the saw takes " + s.c.length(mat.Kerf)
	if k.many > 1 {
		words = strconv.Itoa(k.many) + " alike, " + words
	}
	if k.bar.Offcut > 0.5 {
		words += ", left over " + s.c.figure(k.bar.Offcut)
	}
	if k.bar.Short {
		words += "  NOT IN HAND"
	}
	return words
}

func (s *barSheet) draw(p *tiling.Page) {
	c := &p.Layers[drawing.Notes]
	left := s.frame.live.Min.X + 2*gap
	y := s.frame.live.Max.Y - gap - drawing.Lettering7
	c.Write(geom.Point{X: left, Y: y}, drawing.Lettering7, true, "Bars, each measured from its left end; the figures are where each piece ends")
	y -= 4
	for i, k := range s.strips {
		s.strip(p, k, s.scale[i], left, y-float64(s.place[i])*stripPitch)
	}
}

// strip draws one bar with its top at y.
func (s *barSheet) strip(p *tiling.Page, k barStrip, scale, left, y float64) {
	c, edge := &p.Layers[drawing.Notes], &p.Layers[drawing.Cut]
	mat := &s.c.set.Lengths[k.bar.Bar]
	h, words := fitted(s.says(k, mat.Name), stripWords, false, s.frame.live.W()-4*gap)
	c.Write(geom.Point{X: left, Y: y - stripWords}, h, false, words)
	top := y - stripWords - 2
	bar := geom.Rect{Min: geom.Point{X: left, Y: top - stripThick}, Max: geom.Point{X: left + mat.Long*scale, Y: top}}
	c.Fills = append(c.Fills, tiling.Fill{Tone: wasteTone, Rings: [][]geom.Point{tiling.Box(bar)}})
	level := [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, one := range k.bar.Cuts {
		piece := &s.c.Taken.Pieces[one.Piece]
		r := bar
		r.Min.X, r.Max.X = left+one.From*scale, left+(one.From+piece.Length)*scale
		c.Fills = append(c.Fills, tiling.Fill{Tone: 1, Rings: [][]geom.Point{tiling.Box(r)}})
		edge.Polyline(p, tiling.Pen{Width: drawing.WideLine}, true, tiling.Box(r)...)
		inBox(c, r, []cutLabel{{strconv.Itoa(piece.Item) + "  " + s.c.figure(piece.Length), drawing.Lettering5, true},
			{pieceTitle(piece), drawing.Lettering3_5, false}})
		s.running(p, c, r, s.c.figure(one.From+piece.Length), &level)
	}
	edge.Polyline(p, tiling.Pen{Width: drawing.MediumLine}, true, tiling.Box(bar)...)
}

// pieceTitle is what a piece is called on a drawing.
func pieceTitle(p *takeoff.Piece) string {
	switch {
	case p.Name == takeoff.PartName:
		return p.Element
	case p.Name == p.Element, strings.HasPrefix(p.Name, p.Element+" "): // the deck of a platform called deck
		return p.Name
	}
	return p.Element + " " + p.Name
}

// running writes where a piece ends under its right end, on the first of two levels that has room.
func (s *barSheet) running(p *tiling.Page, c *tiling.Content, r geom.Rect, text string, level *[2]float64) {
	w := lettering.Width(text, stripFigure, false)
	x := min(r.Max.X, s.frame.live.Max.X-gap-w/2)
	for i := range level {
		base := r.Min.Y - float64(i+1)*(stripFigure+1.5)
		if x-w/2 < level[i]+1 {
			continue
		}
		level[i] = x + w/2
		c.Line(p, tiling.Thin, r.Max.X, r.Min.Y, r.Max.X, base+stripFigure+0.5)
		c.Write(geom.Point{X: x - w/2, Y: base}, stripFigure, false, text)
		return
	}
}

// elements lists whose pieces the strips hold.
func (s *barSheet) elements() string {
	var names []string
	for _, k := range s.strips {
		for _, one := range k.bar.Cuts {
			if n := s.c.Taken.Pieces[one.Piece].Element; !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	return strings.Join(names, ",")
}
