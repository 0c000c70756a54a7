package sheet

import (
	"fmt"
	"path"
	"slices"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/tiling"
)

// atHeight stands on every sheet of a cloth.
const atHeight = "Work from ladders, towers or lifts, and what hangs overhead, is planned and overseen by a competent person under local rules. Paint flat on the floor where you can."

// head writes what the sheet is over the cloth, and proves its scale by check bars.
func (k *clothSheet) head(p *tiling.Page) {
	c := &p.Layers[drawing.Notes]
	left, y := k.frame.live.Min.X+gap, k.frame.live.Max.Y-gap-clothTitle
	h, title := fitted(k.title()+", "+k.scale.text, clothTitle, true, k.frame.live.W()-2*gap-barLong-2*gap)
	c.Write(geom.Point{X: left, Y: y}, h, true, title)
	c.WriteLines(left, y-clothWords*0.8, clothWords, false, k.lines)
	length, words := 50.0, "50 mm on this paper"
	if k.set.Units.Imperial() {
		length, words = 2*25.4, `2" on this paper`
	}
	live := k.frame.live
	checkBar(p, length, words, false, geom.Point{X: live.Max.X - 2*gap - barLong - tiling.BarBreadth, Y: live.Max.Y - gap - tiling.BarBreadth})
	checkBar(p, length, words, true, geom.Point{X: live.Max.X - gap - tiling.BarBreadth, Y: live.Max.Y - gap - barLong})
}

// words say what a square is and how the grid is proved, in lines that leave the check bars room.
func (k *clothSheet) words(f *frame) []string {
	length := func(mm float64) string { return unit.FormatMeasure(mm, k.set.Units, 1) }
	across, up := enlarge.Lines(k.cloth, k.step)
	centre := across[len(across)/2].Label
	var says []string
	if k.large {
		q := enlarge.SquareOf(k.cloth, k.set.Units)
		says = append(says, fmt.Sprintf("Finished %s wide and %s high, seen from the front. Figures run from the centre line %s, L to the left and R to the right, and up from the finished lower edge: measure each line from there, never from the one before.",
			length(k.cloth.Width), length(k.cloth.Height), centre))
		says = append(says, fmt.Sprintf("Square: both diagonals are %s; from the foot of the centre line to both upper corners %s. ", length(q.Diagonal), length(q.Half)))
		if q.Between > 0 {
			says[1] += fmt.Sprintf("To set the centre line square on the lower edge: %s along, %s up, %s between.", length(q.Along), length(q.Up), length(q.Between))
		}
		if a := k.cloth.Allow; a != (set.Allowance{}) {
			says = append(says, fmt.Sprintf("Hem and allowance beyond the finished edge, dashed: %s above, %s below, %s left, %s right.", length(a.Top), length(a.Bottom), length(a.Left), length(a.Right)))
		}
	} else {
		says = append(says, fmt.Sprintf("A square is %s on the cloth. Lines are lettered from A at the left, seen from the front, and numbered from 0, the finished lower edge; %s is the centre line. The last number is %s. The large grid has the same letters and numbers.",
			length(k.step), centre, up[len(up)-1].Label))
	}
	for i, g := range k.cloth.Fine {
		says = append(says, fmt.Sprintf("Part %d, from %s to %s and from %s to %s above the lower edge: finer squares of %s.", i+1,
			k.distance(g.Over.Min.X, enlarge.Sides.Plus, enlarge.Sides.Minus), k.distance(g.Over.Max.X, enlarge.Sides.Plus, enlarge.Sides.Minus),
			k.distance(g.Over.Min.Y, "", ""), length(g.Over.Max.Y), length(g.Step)))
	}
	var out []string
	room := f.live.W() - 4*gap - barLong - tiling.BarBreadth
	for _, s := range says {
		out = append(out, lettering.Wrap(s, clothWords, false, room)...)
	}
	return out
}

// artworkCover says what the document is, what is known of the artwork, what it takes and in what order to work.
func (b *binder) artworkCover(cloths []*set.Element, opt ArtworkOptions) {
	what := tiling.Block{Heading: "What this is", Lines: []string{"Artwork to be enlarged by a scenic artist."}}
	what.Lines = append(what.Lines, b.sheets()...)
	what.Lines = append(what.Lines, opt.Comes...)
	blocks := []tiling.Block{what}
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		lines := append([]string{"Artwork: " + path.Base(c.Art.File) + "."}, enlarge.Of(c, b.set.Units).Words...)
		if opt.Squaring && !c.Art.Drawn {
			lines = append(lines, "Squared up it is shown with no more pixels than are seen at arm's length.")
		}
		blocks = append(blocks, tiling.Block{Heading: e.Name, Lines: lines})
	}
	blocks = append(blocks,
		tiling.Block{Heading: "What it takes", Lines: b.artworkTakes(cloths, opt)},
		tiling.Block{Heading: "In this order", Numbered: true, Lines: artworkOrder(opt)},
		tiling.Block{Heading: "How to hold it", Lines: []string{
			"Everything is seen from the front, the side that is painted, its lower edge at the bottom. L and R are left and right of the centre line from there; on the back of the cloth they change sides.",
		}},
		tiling.Block{Heading: "Work at height", Lines: []string{atHeight, caution.Defer}})
	if n := len(opt.Cautions); n > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: []string{cautionCount(n) + ", in full on the sheet `cautions`."}})
	}
	if b.set.Trial && len(b.set.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: slices.Clone(b.set.With)})
	}
	cv := newCover(b.set, b.set.Name+": artwork", blocks)
	b.covers(cv, b.coverFrame())
}

// artworkTakes lists the paper and the lines of every way, so that they can be compared.
func (b *binder) artworkTakes(cloths []*set.Element, opt ArtworkOptions) []string {
	var out []string
	for _, e := range cloths {
		c := e.Shape.(*set.Cloth)
		out = append(out, fmt.Sprintf("Squaring up %s: two sheets, %s.", e.Name, enlarge.SnapWords(c, enlarge.GridStep(c, b.set.Units), b.set.Units)))
	}
	out = append(out, opt.Takes...)
	out = append(out, "A snap line with charcoal or chalk that brushes off, a tape longer than the diagonal, something to hold the corners.")
	return out
}

// artworkOrder is the order of work.
func artworkOrder(opt ArtworkOptions) []string {
	out := []string{"Print without scaling, and lay a rule along the check bars of a sheet: if one is wrong, print again."}
	if opt.Squaring || opt.Grid {
		out = append(out,
			"Lay the cloth flat, face up, and stretch it evenly. Snap the finished lower edge and the centre line, square to each other by the figures on the large grid.",
			"Mark the other edges and measure both diagonals: alike, the cloth is square.",
			"Snap every other line at its own distance from the centre line or the lower edge, and write its letter or number at both ends as on the sheet.",
			"Draw square by square: what crosses a line on the small sheet crosses the line of the same letter or number in the same part of the square.")
	}
	if opt.Pounced {
		out = append(out,
			"Pounce: join the pattern's pages by their crosses, prick every dot, and sand the back to open the holes. Lay it on by the ticks along its edges, this side up, and pounce through.")
	}
	if opt.Tiled {
		out = append(out, "Lay full-size pages by their crosses, or each by the ticks along its edges, which count from the centre line and the lower edge: no error adds up.")
	}
	return out
}
