package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/unit"
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

// columns are the box beside the board and those under it.
func (s *boardSheet) columns() []geom.Rect {
	live := s.frame.live
	foot := live.Min.Y + stripHeight + cautionTall + gap
	out := []geom.Rect{{Min: geom.Point{X: live.Max.X - gap - cuttingColumn, Y: foot}, Max: live.Max.Sub(geom.Point{X: gap, Y: gap + 2})}}
	under := geom.Rect{Min: geom.Point{X: live.Min.X + gap, Y: foot}, Max: geom.Point{X: out[0].Min.X - 2*gap, Y: s.at.to(geom.Point{}).Y - cuttingFoot - gap}}
	if under.H() < 3*drawing.Lettering5 {
		return out
	}
	n := max(1, int((under.W()+gap)/(cuttingColumn+gap)))
	w := (under.W()+2*gap)/float64(n) - 2*gap
	for i := range n {
		x := under.Min.X + float64(i)*(w+2*gap)
		out = append(out, geom.Rect{Min: geom.Point{X: x, Y: under.Min.Y}, Max: geom.Point{X: x + w, Y: under.Max.Y}})
	}
	return out
}

// list makes the lines beside the board and under it, and finds the lettering in which they fit.
func (s *boardSheet) list() {
	if len(s.cuts) > 0 {
		s.lines = append(s.lines, "*Cut in this order")
		for _, k := range s.cuts {
			s.lines = append(s.lines, strconv.Itoa(k.number)+".  "+k.words)
		}
	}
	s.lines = append(s.lines, "*Pieces")
	for _, k := range s.board.Cuts {
		s.lines = append(s.lines, s.words(k))
	}
	for i := range s.lines { // a size stays on one line
		s.lines[i] = strings.ReplaceAll(s.lines[i], " x ", "\u00a0x\u00a0")
	}
	for _, h := range [...]float64{drawing.Lettering5, drawing.Lettering3_5, drawing.Lettering2_5} {
		s.letter = h
		if s.fits = fittingAll(s.lines, h, s.columns()); s.fits == len(s.lines) {
			return
		}
	}
}

// words says of a piece what it is, how large, and of an outline where it lies.
func (s *boardSheet) words(k BoardCut) string {
	p := &s.c.Taken.Pieces[k.Piece]
	line := fmt.Sprintf("%d  %s: %s", p.Item, pieceTitle(p), s.c.size(p.Length, p.Width))
	if p.Outline != nil {
		r := s.region(k)
		low := r.Outer.Bounds().Min
		line += fmt.Sprintf(" over all; its box begins %s along, %s up", s.c.figure(low.X), s.c.figure(low.Y))
		if k.Turn != 0 {
			line += ", turned " + unit.FormatAngle(k.Turn, 0.1)
		}
		line += "; " + s.corners(r)
	}
	return joinedWords(line, p.Note)
}

// mostCorners is up to how many corners an outline is set out on the board by measures.
const mostCorners = 24

// corners says how an outline is set out: its corners from the board's corner, or by full-size paper where it has curves or many.
func (s *boardSheet) corners(r geom.Region) string {
	n := r.Outer.Len()
	for _, h := range r.Holes {
		n += h.Len()
	}
	if !r.Outer.Straight() || n > mostCorners || slices.ContainsFunc(r.Holes, func(h *geom.Path) bool { return !h.Straight() }) {
		return "set it out from full-size paper (`full-size face` or `side`)"
	}
	ring := func(p *geom.Path) string {
		var out []string
		for _, v := range p.Vertices() {
			out = append(out, s.c.figure(v.X)+"/"+s.c.figure(v.Y))
		}
		return strings.Join(out, ", ")
	}
	words := "corners along/up " + ring(r.Outer)
	for _, h := range r.Holes {
		words += "; hole " + ring(h)
	}
	return words
}

// fittingAll returns how many of some lines find room in boxes, one after another.
func fittingAll(lines []string, h float64, boxes []geom.Rect) int {
	n := 0
	for _, r := range boxes {
		n += fitting(lines[n:], h, r)
	}
	return n
}

// fitting returns how many of some lines find room in a box.
func fitting(lines []string, h float64, box geom.Rect) int {
	y := box.Max.Y
	for i, l := range lines {
		n := len(lettering.Wrap(strings.TrimPrefix(l, "*"), h, l[0] == '*', box.W()))
		y -= lineTall(n, h)
		if y < box.Min.Y {
			return i
		}
	}
	return len(lines)
}

// lineTall is how much room an entry of so many lines takes.
func lineTall(n int, h float64) float64 { return h*lettering.Leading*float64(n) + 0.4*h }

// writeList writes lines into a box; those that begin with a star are headings.
func writeList(c *tiling.Content, lines []string, h float64, box geom.Rect) {
	y := box.Max.Y
	for _, l := range lines {
		text := lettering.Wrap(strings.TrimPrefix(l, "*"), h, l[0] == '*', box.W())
		c.WriteLines(box.Min.X, y, h, l[0] == '*', text)
		y -= lineTall(len(text), h)
	}
}

// writeLists writes lines into boxes, one after another.
func writeLists(c *tiling.Content, lines []string, h float64, boxes []geom.Rect) {
	for _, r := range boxes {
		n := fitting(lines, h, r)
		writeList(c, lines[:n], h, r)
		lines = lines[n:]
	}
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

// sum makes the digest of what is cut: outlines where they lie, and their sizes; names are not in it.
func (s *boardSheet) sum() {
	mat := &s.c.set.Boards[s.board.Board]
	var d tiling.Digester
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
	for _, k := range s.cuts {
		s.numberCut(p, notes, k)
	}
	s.sizes(p, notes, mat)
	writeLists(notes, s.lines[:s.fits], s.letter, s.columns())
}

// head writes what the board is over it.
func (s *boardSheet) head(p *tiling.Page, mat *set.Board) {
	c := &p.Layers[drawing.Notes]
	left, y := s.frame.live.Min.X+gap, s.frame.live.Max.Y-gap-drawing.Lettering10
	title := alike(mat.Name, s.board.Number, s.many)
	if s.board.Short {
		title += "  NOT IN HAND"
	}
	room := s.frame.live.W() - 3*gap - cuttingColumn
	h, title := fitted(title, drawing.Lettering10, true, room)
	c.Write(geom.Point{X: left, Y: y}, h, true, title)
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
	words += fmt.Sprintf(", %.0f %% left over", 100*(1-s.board.Used/(mat.Length*mat.Width)))
	h, words = fitted(words, drawing.Lettering5, false, room)
	c.Write(geom.Point{X: left, Y: y - 8}, h, false, words)
}

// label writes item, name and sizes into a piece where there is room.
func (s *boardSheet) label(c *tiling.Content, k BoardCut) {
	p := &s.c.Taken.Pieces[k.Piece]
	r := s.region(k)
	b := r.Outer.Bounds()
	room := geom.Rect{Min: s.at.to(b.Min), Max: s.at.to(b.Max)}
	if p.Outline != nil {
		inside := roomiest(r)
		room = geom.Rect{Min: s.at.to(inside.Min), Max: s.at.to(inside.Max)}
	}
	lines := []cutLabel{{strconv.Itoa(p.Item), drawing.Lettering7, true}, {pieceTitle(p), drawing.Lettering3_5, false}}
	if p.Outline == nil {
		along, up := p.Length, p.Width
		if k.Turn == 90 {
			along, up = up, along
		}
		room = s.edges(c, room, along, up)
	}
	inBox(c, room, lines)
}

// edges writes a rectangle's two sizes along its lower and its left edge, and returns what is left for its name.
func (s *boardSheet) edges(c *tiling.Content, room geom.Rect, along, up float64) geom.Rect {
	const h = drawing.Lettering3_5
	const in = 1.2
	a, u := s.c.figure(along), s.c.figure(up)
	wa, wu := lettering.Width(a, h, true), lettering.Width(u, h, true)
	if wa+2*in <= room.W() && h+2*in <= room.H() {
		c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: room.Mid().X - wa/2, Y: room.Min.Y + in}, Height: h, Bold: true, Text: a})
		room.Min.Y += h + in
	}
	if wu+2*in <= room.H() && h+2*in <= room.W() {
		c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: room.Min.X + in + h, Y: room.Mid().Y - wu/2}, Turn: 90, Height: h, Bold: true, Text: u})
		room.Min.X += h + in
	}
	return room
}

// cutLabel is one line of a label: its text and the lettering it would best have.
type cutLabel struct {
	text   string
	height float64
	bold   bool
}

// inBox writes lines one under another into the middle of a box, read from below or from the right, each in the largest lettering
// that fits; lines that find no room are left out, the last first.
func inBox(c *tiling.Content, room geom.Rect, lines []cutLabel) {
	w, h, turn := room.W()-1.5, room.H()-1.5, 0.0
	if h > w*1.2 {
		w, h, turn = h, w, 90
	}
	type set struct {
		text   string
		height float64
		bold   bool
	}
	var out []set
	tall := 0.0
	for _, l := range lines {
		for _, size := range letterings {
			if size > l.height || lettering.Width(l.text, size, l.bold) > w {
				continue
			}
			next := size
			if len(out) > 0 {
				next += size * 0.5
			}
			if tall+next > h {
				continue
			}
			out, tall = append(out, set{l.text, size, l.bold}), tall+next
			break
		}
	}
	mid := room.Mid()
	down := tall / 2
	for i, l := range out {
		if i > 0 {
			down -= l.height * 0.5
		}
		down -= l.height
		t := drawing.Text{Height: l.height, Bold: l.bold, Turn: turn, Align: drawing.AlignCentre, Offset: geom.Point{Y: down}, Text: l.text}
		c.Texts = append(c.Texts, tiling.PlaceText(&t, mid))
	}
}

// roomiest returns a box within an area where its name stands well: of boxes of several heights the one in which lettering can be
// largest.
func roomiest(r geom.Region) geom.Rect {
	const rows, shape = 16, 4.0 // a name is about so many times as wide as high
	b := r.Outer.Bounds()
	step := b.H() / rows
	var bands [rows][]float64
	for k := range bands {
		y := b.Min.Y + (float64(k)+0.5)*step
		bands[k] = overlap(inside(r, y-step*0.45), overlap(inside(r, y), inside(r, y+step*0.45)))
	}
	best, score := geom.Rect{}, 0.0
	for lo := range rows {
		common := bands[lo]
		for hi := lo; hi < rows && len(common) > 0; hi++ {
			common = overlap(common, bands[hi])
			tall := float64(hi-lo+1) * step
			for i := 0; i+1 < len(common); i += 2 {
				if got := min(common[i+1]-common[i], shape*tall); got > score+geom.Tolerance {
					score = got
					best = geom.Rect{Min: geom.Point{X: common[i], Y: b.Min.Y + float64(lo)*step}, Max: geom.Point{X: common[i+1], Y: b.Min.Y + float64(hi+1)*step}}
				}
			}
		}
	}
	return best
}

// inside returns the stretches of a level line that lie in an area, as pairs of places.
func inside(r geom.Region, y float64) []float64 {
	var xs []float64
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		ring := p.Flatten(1, nil)
		for i := range ring {
			a, b := ring[i], ring[(i+1)%len(ring)]
			if a.Y > y != (b.Y > y) {
				xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
		}
	}
	slices.Sort(xs)
	return xs
}

// overlap returns the stretches that lie in both of two lists of them.
func overlap(a, b []float64) []float64 {
	var out []float64
	for i := 0; i+1 < len(a); i += 2 {
		for k := 0; k+1 < len(b); k += 2 {
			if lo, hi := max(a[i], b[k]), min(a[i+1], b[k+1]); lo < hi {
				out = append(out, lo, hi)
			}
		}
	}
	return out
}

// numberCut writes a cut's number on its line, near its end so that crossing cuts keep clear of each other.
func (s *boardSheet) numberCut(p *tiling.Page, c *tiling.Content, k sawCut) {
	a, b := s.at.to(k.a), s.at.to(k.b)
	const h = drawing.Lettering2_5
	text := strconv.Itoa(k.number)
	w := lettering.Width(text, h, true)
	at := b.Sub(b.Sub(a).Unit().Mul(min(4, b.Sub(a).Len()/2)))
	r := math.Hypot(w, h)/2 + 0.7
	ring := make([]geom.Point, 0, 24)
	for i := range 24 {
		ring = append(ring, at.Add(geom.Polar(r, 2*math.Pi*float64(i)/24)))
	}
	c.Fills = append(c.Fills, tiling.Fill{Tone: 1, Rings: [][]geom.Point{ring}})
	c.Polyline(p, tiling.Thin, true, ring...)
	c.Texts = append(c.Texts, tiling.Text{At: geom.Point{X: at.X - w/2, Y: at.Y - h/2}, Height: h, Bold: true, Text: text})
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
