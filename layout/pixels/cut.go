package pixels

import (
	"cmp"
	"fmt"
	"image"
	"slices"
)

// Block is one part that Cut has cut off.
type Block struct {
	Index  int             // of the rectangle that asked for it
	Asked  image.Rectangle // the rectangle
	Covers image.Rectangle // the pixels that the part really holds: Asked out to the next borders of blocks, or the picture's edge
}

// Cut takes a JPEG apart. For each rectangle visit gets a JPEG file that holds the same coefficients as the picture
// there, so the same pixels: nothing is decoded to pixels and nothing is lost. Rectangles are in stored pixels inside
// the picture, and may overlap; each grows outwards to the borders of blocks (Picture.Block), as Block.Covers says.
//
// Parts come as they are whole: by their lower edge, then by index. The bytes belong to visit. An error of visit ends
// the cutting and comes back as it is. Where bytes of a file are damaged, parts that lie above may have been visited
// already; what lies below the lowest rectangle is not read.
//
// A plain (sequential, one scan) picture is read once from top to bottom: in memory are one row of blocks and what
// has been cut of parts that are not whole yet. Of a picture with Picture.Whole all coefficients are held, up to
// WholePixels, and the parts are plain JPEG files all the same.
//
// Readers that smooth thinned-out colour (Sampling other than 4:4:4) across pixels do so up to the edge of a file:
// who wants the same pixels there too asks for a rectangle larger by two samples of colour (4 pixels at 4:2:0) and
// shows only its middle. The parts carry no profile and no orientation; see ICC and Orientation. Inks stay inks,
// 255 meaning none, and say so in the way of Adobe's programs.
func (p *Picture) Cut(rectangles []image.Rectangle, visit func(b Block, file []byte) error) error {
	if p.jpeg == nil {
		return fmt.Errorf("only a JPEG can be cut in blocks; this is a %v", p.Format)
	}
	parts := make([]*growing, 0, len(rectangles))
	for i, r := range rectangles {
		if err := p.holds(r); err != nil {
			return err
		}
		w, h := p.Block.X, p.Block.Y
		m := image.Rect(r.Min.X/w, r.Min.Y/h, (r.Max.X+w-1)/w, (r.Max.Y+h-1)/h)
		covers := image.Rect(m.Min.X*w, m.Min.Y*h, m.Max.X*w, m.Max.Y*h).Intersect(p.Bounds())
		parts = append(parts, &growing{block: Block{i, r, covers}, mcus: m})
	}
	if len(parts) == 0 {
		return nil
	}
	rows, err := p.bands()
	if err != nil {
		return err
	}
	return p.jpeg.cut(rows, parts, visit)
}

func (p *Picture) bands() (bands, error) {
	if p.Whole {
		return p.jpeg.recoded()
	}
	return p.jpeg.sequential(), nil
}

// cut goes down the bands and grows the parts that each crosses.
func (f *jpegFile) cut(rows bands, parts []*growing, visit func(Block, []byte) error) error {
	byTop := slices.Clone(parts)
	slices.SortStableFunc(byTop, func(a, b *growing) int { return cmp.Compare(a.mcus.Min.Y, b.mcus.Min.Y) })
	m := f.blockMaker(rows.coding())
	var open []*growing
	for y := 0; y < f.down && len(byTop)+len(open) > 0; y++ {
		for len(byTop) > 0 && byTop[0].mcus.Min.Y == y {
			g := byTop[0]
			g.w = bitWriter{out: m.head(g.block.Covers.Size()), escape: true}
			open, byTop = append(open, g), byTop[1:]
		}
		b, err := rows.next()
		if err != nil {
			return err
		}
		var done []*growing
		left := open[:0]
		for _, g := range open {
			if m.take(g, b); g.mcus.Max.Y == y+1 {
				done = append(done, g)
			} else {
				left = append(left, g)
			}
		}
		open = left
		if y == f.down-1 {
			if err := rows.end(); err != nil {
				return err
			}
		}
		slices.SortFunc(done, func(a, b *growing) int { return cmp.Compare(a.block.Index, b.block.Index) })
		for _, g := range done {
			g.close()
			if err := visit(g.block, g.w.out); err != nil {
				return err
			}
		}
	}
	return nil
}
