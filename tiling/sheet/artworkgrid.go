package sheet

import (
	"markout/layout/drawing"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
)

// white is how far white reaches beyond a grid's line on each side, so that it is seen on dark artwork and hides little of it.
const white = 0.2

// draw draws the cloth, its grid with letters and numbers at both ends of each line, and on the large grid's sheet how far each line
// lies from the centre line or the lower edge, the diagonals, and what is allowed beyond the finished edge.
func (k *clothSheet) draw(p *tiling.Page) {
	n := &p.Layers[drawing.Notes]
	f := k.box(k.cloth.Finished())
	across, up := enlarge.Lines(k.cloth, k.step)
	if !k.large {
		k.under(p, across, up)
	}
	for _, g := range k.cloth.Fine {
		k.fine(p, g, tiling.Pen{Width: drawing.FineLine}, tiling.Thin)
	}
	for _, l := range across {
		x := k.at.to(geom.Point{X: l.At}).X
		n.Line(p, gridPen(l), x, f.Min.Y, x, f.Max.Y)
	}
	for _, l := range up {
		y := k.at.to(geom.Point{Y: l.At}).Y
		n.Line(p, gridPen(l), f.Min.X, y, f.Max.X, y)
	}
	n.Polyline(p, tiling.Pen{Width: drawing.WideLine}, true, tiling.Box(f)...)
	k.label(n, f, across, up)
	if !k.large {
		return
	}
	pen := tiling.PenOf(drawing.LongDashDoubleDot, drawing.NarrowLine, drawing.Grey)
	n.Line(p, pen, f.Min.X, f.Min.Y, f.Max.X, f.Max.Y)
	n.Line(p, pen, f.Min.X, f.Max.Y, f.Max.X, f.Min.Y)
	if w := k.box(k.cloth.Whole()); k.cloth.Allow != (set.Allowance{}) {
		n.Polyline(p, tiling.PenOf(drawing.Dashed, drawing.NarrowLine, drawing.Black), true, tiling.Box(w)...)
	}
}

func gridPen(l enlarge.Line) tiling.Pen {
	if l.Centre {
		return tiling.PenOf(drawing.LongDashDot, drawing.MediumLine, drawing.Black)
	}
	return tiling.Thin
}

// under lays white under the lines of a grid that lies on artwork.
func (k *clothSheet) under(p *tiling.Page, across, up []enlarge.Line) {
	n := &p.Layers[drawing.Notes]
	f := k.box(k.cloth.Finished())
	off := func(width float64) tiling.Pen { return tiling.Pen{Width: width + 2*white, Tone: tiling.White} }
	for _, g := range k.cloth.Fine {
		k.fine(p, g, off(drawing.FineLine), off(drawing.NarrowLine))
	}
	for _, l := range across {
		x := k.at.to(geom.Point{X: l.At}).X
		n.Line(p, off(gridPen(l).Width), x, f.Min.Y, x, f.Max.Y)
	}
	for _, l := range up {
		y := k.at.to(geom.Point{Y: l.At}).Y
		n.Line(p, off(drawing.NarrowLine), f.Min.X, y, f.Max.X, y)
	}
}

// fine draws a finer grid and its edge.
func (k *clothSheet) fine(p *tiling.Page, g set.FineGrid, pen, edge tiling.Pen) {
	n := &p.Layers[drawing.Notes]
	xs, ys := enlarge.Finer(g)
	box := k.box(g.Over)
	for _, x := range xs {
		x = k.at.to(geom.Point{X: x}).X
		n.Line(p, pen, x, box.Min.Y, x, box.Max.Y)
	}
	for _, y := range ys {
		y = k.at.to(geom.Point{Y: y}).Y
		n.Line(p, pen, box.Min.X, y, box.Max.X, y)
	}
	n.Polyline(p, edge, true, tiling.Box(box)...)
}

// label writes the letter or number of each line at both of its ends, and on the large grid's sheet its distance beyond.
func (k *clothSheet) label(n *tiling.Content, f geom.Rect, across, up []enlarge.Line) {
	h := k.letter(across)
	nth := k.every(1.4 * h)
	wide := widestLabel(across, h)
	lettered := k.every(lettersApart(across, h))
	out := max(h, (wide+lettering.Width(up[len(up)-1].Label, h, true))/2) + 1 // of numbers, clear of a letter at the corner
	fh := k.figure(across, up)
	figures := k.every(1.5 * fh)
	a := k.cloth.Allow
	low, high := f.Min.Y-k.beyond(a.Bottom), f.Max.Y+k.beyond(a.Top)
	left, right := f.Min.X-k.beyond(a.Left), f.Max.X+k.beyond(a.Right)
	middle := len(across) / 2
	for i, l := range across {
		x := k.at.to(geom.Point{X: l.At}).X
		if (i-middle)%lettered == 0 {
			put(n, geom.Point{X: x, Y: low - 0.5*h - 2}, h, true, 0, l.Label)
			put(n, geom.Point{X: x, Y: high + 0.5*h + 2}, h, true, 0, l.Label)
		}
		if k.large && (i-middle)%figures == 0 {
			put(n, geom.Point{X: x, Y: low - h - 4 - k.run/2}, fh, false, 90, k.distance(l.At, enlarge.Sides.Plus, enlarge.Sides.Minus))
		}
	}
	for i, l := range up {
		y := k.at.to(geom.Point{Y: l.At}).Y
		if i%nth == 0 {
			put(n, geom.Point{X: left - out, Y: y}, h, true, 0, l.Label)
			put(n, geom.Point{X: right + out, Y: y}, h, true, 0, l.Label)
		}
		if k.large && i%figures == 0 {
			put(n, geom.Point{X: left - out - h - 1 - k.run/2, Y: y}, fh, false, 0, k.distance(l.At, "", ""))
		}
	}
	if !k.large {
		return
	}
	// An edge on which no line comes out has its figure too, a little further out where the last line's would touch it.
	last := geom.Point{X: k.at.to(geom.Point{X: across[len(across)-1].At}).X, Y: k.at.to(geom.Point{Y: up[len(up)-1].At}).Y}
	if side := k.cloth.Width / 2; side > across[len(across)-1].At+geom.Tolerance {
		x := max(f.Max.X, last.X+1.5*fh)
		y := low - h - 4 - k.run/2
		put(n, geom.Point{X: x, Y: y}, fh, false, 90, k.distance(side, enlarge.Sides.Plus, ""))
		put(n, geom.Point{X: f.Min.X + f.Max.X - x, Y: y}, fh, false, 90, k.distance(-side, "", enlarge.Sides.Minus))
	}
	if k.cloth.Height > up[len(up)-1].At+geom.Tolerance {
		put(n, geom.Point{X: left - out - h - 1 - k.run/2, Y: max(f.Max.Y, last.Y+1.5*fh)}, fh, false, 0, k.distance(k.cloth.Height, "", ""))
	}
}

// figure is the height of running distances, the taller one where all of them find room.
func (k *clothSheet) figure(across, up []enlarge.Line) float64 {
	const tall = drawing.Lettering3_5
	if !k.large || 1.5*tall > k.spacing() {
		return clothFigure
	}
	if tiling.Widest(tall, false, k.figures(across, up)...) > k.run {
		return clothFigure
	}
	return tall
}

// figures are the running distances of all lines, and of the finished edges.
func (k *clothSheet) figures(across, up []enlarge.Line) []string {
	says := []string{k.distance(k.cloth.Width/2, enlarge.Sides.Plus, ""), k.distance(k.cloth.Height, "", "")}
	for _, l := range across {
		says = append(says, k.distance(l.At, enlarge.Sides.Plus, enlarge.Sides.Minus))
	}
	for _, l := range up {
		says = append(says, k.distance(l.At, "", ""))
	}
	return says
}

// letter is the height of the lines' letters and numbers, the tallest in which every line has its own.
func (k *clothSheet) letter(across []enlarge.Line) float64 {
	for _, h := range letterings {
		if h <= clothLetter && h > drawing.Lettering2_5 && lettersApart(across, h) <= k.spacing() {
			return h
		}
	}
	return drawing.Lettering2_5
}

// lettersApart is how far apart lines stand whose letters find room side by side.
func lettersApart(across []enlarge.Line, h float64) float64 {
	return max(1.4*h, widestLabel(across, h)+0.4*h)
}

func widestLabel(lines []enlarge.Line, h float64) float64 {
	wide := 0.0
	for _, l := range lines {
		wide = max(wide, lettering.Width(l.Label, h, true))
	}
	return wide
}

// spacing is the grid's step on the page.
func (k *clothSheet) spacing() float64 { return k.step / k.scale.n }

// every is of how many lines one is labelled, so that labels so far apart find room.
func (k *clothSheet) every(apart float64) int {
	for _, n := range [...]int{1, 2, 5, 10, 20, 50, 100, 200} {
		if float64(n)*k.spacing() >= apart {
			return n
		}
	}
	return 500
}

// beyond is how much an allowance takes on the sheet; none on the small one, which shows the finished cloth.
func (k *clothSheet) beyond(mm float64) float64 {
	if !k.large {
		return 0
	}
	return mm / k.scale.n
}

// distance is a running distance with the letter of its side and no sign.
func (k *clothSheet) distance(mm float64, plus, minus string) string {
	t := unit.FormatLength(max(mm, -mm), k.set.Units, 1)
	switch {
	case mm > geom.Tolerance && plus != "":
		return t + " " + plus
	case mm < -geom.Tolerance && minus != "":
		return t + " " + minus
	}
	return t
}

// put writes words about a place.
func put(c *tiling.Content, at geom.Point, height float64, bold bool, turn float64, text string) {
	t := drawing.Text{At: at, Height: height, Bold: bold, Turn: turn, Align: drawing.AlignMiddle, Text: text}
	c.Texts = append(c.Texts, tiling.PlaceText(&t, at))
}
