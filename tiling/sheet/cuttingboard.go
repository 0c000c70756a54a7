package sheet

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/tiling"
)

// boardSheet is one board to scale on one sheet, with the order of cutting beside it.
type boardSheet struct {
	c      *Cutting
	board  *CutBoard
	many   int // boards cut alike, from board on
	frame  *frame
	scale  scale
	at     projection
	cuts   []sawCut
	lines  []string // beside the board
	letter float64
	fits   int // lines that find room beside the board; the others go on a sheet of their own
	digest [32]byte
}

// Measures of a board's sheet in millimetres.
const (
	cuttingColumn = 100.0 // beside the board
	cuttingHead   = 22.0  // over it
	cuttingFoot   = 12.0  // under and left of it, for its own size
)

// layBoard lays a board at the largest scale at which it fits.
func (c *Cutting) layBoard(b *CutBoard, many int, frames []frame) (*boardSheet, error) {
	mat := &c.set.Boards[b.Board]
	s := &boardSheet{c: c, board: b, many: many}
	s.cuts, _ = c.sawCuts(b)
	scales := scalesFor(c.set.Units)
	for _, sc := range scales {
		for i := range frames {
			f := &frames[i]
			room := s.room(f)
			if mat.Length/sc.n > room.W() || mat.Width/sc.n > room.H() {
				continue
			}
			s.frame, s.scale = f, sc
			s.at = projection{scale: sc.n, at: geom.Point{X: room.Min.X, Y: room.Max.Y - mat.Width/sc.n}}
			s.list()
			s.sum()
			return s, nil
		}
	}
	return nil, fmt.Errorf("the board %s does not fit %s at %s, the smallest scale", mat.Name, frames[0].paper, scales[len(scales)-1].text)
}

// room is what a frame leaves for the board.
func (s *boardSheet) room(f *frame) geom.Rect {
	r := f.live
	r.Min = r.Min.Add(geom.Point{X: gap + cuttingFoot, Y: stripHeight + cautionTall + gap + cuttingFoot})
	r.Max = r.Max.Sub(geom.Point{X: 2*gap + cuttingColumn, Y: gap + cuttingHead})
	return r
}

// region is where a piece lies on its board.
func (s *boardSheet) region(k BoardCut) geom.Region { return s.c.lies(k) }

func (c *Cutting) lies(k BoardCut) geom.Region {
	p := &c.Taken.Pieces[k.Piece]
	if p.Outline != nil {
		return p.Outline.Transform(geom.Move(k.At, k.Turn))
	}
	l, w := p.Length, p.Width
	if k.Turn == 90 {
		l, w = w, l
	}
	return geom.Region{Outer: geom.Polygon([]geom.Point{k.At, {X: k.At.X + l, Y: k.At.Y}, {X: k.At.X + l, Y: k.At.Y + w}, {X: k.At.X, Y: k.At.Y + w}})}
}

// sum makes the digest of what is cut: which boards they are and what the sheet says of them, outlines where they lie, their sizes, and
// the list with its items; names are not in it.
func (s *boardSheet) sum() {
	mat := &s.c.set.Boards[s.board.Board]
	d := digester(s.c.set)
	d.Reset("board", s.scale.text, s.c.set.Sides, geom.Rect{Max: geom.Point{X: mat.Length, Y: mat.Width}})
	m := drawing.Mark{Layer: drawing.Cut}
	for _, k := range s.board.Cuts {
		r := s.region(k)
		for _, path := range append([]*geom.Path{r.Outer}, r.Holes...) {
			d.Line(m, drawing.Continuous, drawing.WideLine, drawing.Black, 0, true, path.Flatten(flatness, nil))
		}
	}
	for _, k := range s.cuts {
		d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: k.a, Text: k.words})
	}
	for i, w := range [2]string{s.title(""), s.says(mat)} {
		d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: geom.Point{Y: mat.Width + float64(1+i)}, Text: w})
	}
	for i, l := range s.lines[:s.fits] {
		d.Word(drawing.Mark{Role: drawing.Word}, &tiling.Text{At: geom.Point{X: mat.Length, Y: float64(-i)}, Text: l})
	}
	s.digest = d.Sum()
}

// waste is the tone of what is no piece, which the words say too.
const wasteTone = drawing.Tone(0.88)

// draw draws all but the frame and the title strip.
func (s *boardSheet) draw(p *tiling.Page) {
	mat := &s.c.set.Boards[s.board.Board]
	s.head(p, mat)
	cut, notes := &p.Layers[drawing.Cut], &p.Layers[drawing.Notes]
	edge := tiling.Box(geom.Rect{Min: s.at.to(geom.Point{}), Max: s.at.to(geom.Point{X: mat.Length, Y: mat.Width})})
	notes.Fills = append(notes.Fills, tiling.Fill{Tone: wasteTone, Rings: [][]geom.Point{edge}})
	pen := tiling.Pen{Width: drawing.WideLine}
	for _, k := range s.board.Cuts {
		r := s.region(k)
		rings := [][]geom.Point{s.at.points(p, r.Outer)}
		for _, h := range r.Holes {
			rings = append(rings, s.at.points(p, h.Reverse()))
		}
		notes.Fills = append(notes.Fills, tiling.Fill{Tone: 1, Rings: rings, EvenOdd: true})
		for _, ring := range rings {
			cut.Polyline(p, pen, true, ring...)
		}
	}
	cut.Polyline(p, tiling.Pen{Width: drawing.MediumLine}, true, edge...)
	for _, k := range s.board.Cuts {
		s.label(notes, k)
	}
	_, waste := s.c.sawCuts(s.board)
	for _, w := range waste {
		r := geom.Rect{Min: s.at.to(geom.Point{X: w.X, Y: w.Y}), Max: s.at.to(geom.Point{X: w.X + w.Length, Y: w.Y + w.Width})}
		inBox(notes, r, []cutLabel{{"left over", drawing.Lettering2_5, false}, {s.c.size(w.Length, w.Width), drawing.Lettering2_5, false}})
	}
	s.numberCuts(p)
	s.sizes(p, notes, mat)
	s.bars(p)
	writeLists(notes, s.lines[:s.fits], s.letter, s.columns())
}

// title says which boards the sheet is of.
func (s *boardSheet) title(name string) string {
	title := alike(name, s.board.Number, s.many)
	if s.board.Short {
		title += "  NOT IN HAND"
	}
	return title
}

// says is what the sheet says of its board.
func (s *boardSheet) says(mat *set.Board) string {
	words := s.c.size(mat.Length, mat.Width) + ", " + s.c.length(mat.Thick) + " thick, the saw takes " + s.c.length(mat.Kerf)
	switch mat.Grain {
	case set.GrainAlong:
		words += ", grain along"
	case set.GrainAcross:
		words += ", grain across"
	}
	if kg := mat.Weight(); kg > 0 {
		words += ", " + s.c.kilograms(kg) + " whole"
	}
	return words + fmt.Sprintf(", %.0f %% left over; drawn %s", 100*(1-s.board.Used/(mat.Length*mat.Width)), s.scale.text)
}

// head writes what the board is over it.
func (s *boardSheet) head(p *tiling.Page, mat *set.Board) {
	c := &p.Layers[drawing.Notes]
	left, y := s.frame.live.Min.X+gap, s.frame.live.Max.Y-gap-drawing.Lettering10
	room := s.frame.live.W() - 3*gap - cuttingColumn
	h, title := fitted(s.title(mat.Name), drawing.Lettering10, true, room)
	c.Write(geom.Point{X: left, Y: y}, h, true, title)
	h, words := fitted(s.says(mat), drawing.Lettering5, false, room)
	c.Write(geom.Point{X: left, Y: y - 8}, h, false, words)
}

// sizes writes the board's own length and width, and where its datum corner is.
func (s *boardSheet) sizes(p *tiling.Page, c *tiling.Content, mat *set.Board) {
	m := measureIn(s.c.set.Units)
	for _, d := range [2]drawing.Dimension{
		{Points: []geom.Point{{}, {X: mat.Length}}, Offset: -6, Labels: []string{s.c.figure(mat.Length)}},
		{Points: []geom.Point{{}, {Y: mat.Width}}, Direction: 90, Offset: 6, Labels: []string{s.c.figure(mat.Width)}},
	} {
		ch := s.at.dimension(&d, m)
		for _, l := range ch.lines {
			c.Line(p, tiling.Thin, l[0].X, l[0].Y, l[1].X, l[1].Y)
		}
		for _, l := range ch.witness {
			c.Line(p, witnessPen, l[0].X, l[0].Y, l[1].X, l[1].Y)
		}
		c.Texts = append(c.Texts, ch.texts...)
	}
	at := s.at.to(geom.Point{})
	c.Write(geom.Point{X: at.X, Y: at.Y - 11}, drawing.Lettering2_5, false, "measured from this corner")
}

// barLong is the room that a check bar takes along its length.
const barLong = 2 * 25.4

// bars proves the scale in both directions, under the column beside the board.
func (s *boardSheet) bars(p *tiling.Page) {
	length, words := 50.0, "50 mm on this paper"
	if s.c.set.Units.Imperial() {
		length, words = 2*25.4, `2" on this paper`
	}
	live := s.frame.live
	y := live.Min.Y + stripHeight + cautionTall + gap
	checkBar(p, length, words, false, geom.Point{X: live.Max.X - gap - cuttingColumn, Y: y})
	checkBar(p, length, words, true, geom.Point{X: live.Max.X - gap - tiling.BarBreadth, Y: y})
}

// elements lists whose pieces lie on a board.
func (s *boardSheet) elements() string {
	var names []string
	for _, k := range s.board.Cuts {
		if n := s.c.Taken.Pieces[k.Piece].Element; !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ",")
}
