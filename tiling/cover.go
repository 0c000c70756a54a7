package tiling

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
)

// Cover is what the first page of a document says: what this is, which issue, what it takes, in what order, how to hold it.
type Cover struct {
	Title string   // "Full-size paper"
	Under []string // production, set, issue and date, one a line
	Trial bool     // no issue: values were changed, or it has no letter
	// Blocks follow in their order, in columns, on as many pages as they need.
	Blocks []Block
	Map    *Form // shown on the first page in the upper right corner; nil for none
}

// Block is a heading and its lines. A line that is too long goes on below itself.
type Block struct {
	Heading  string
	Numbered bool // each line has its number before it: an order of work
	Lines    []string
}

// CoverPage is one page of a Cover, laid out: constant content, and what it shows besides.
type CoverPage struct {
	Form *Form
	Uses []Use
}

// Draw fills a page that was Reset.
func (c *CoverPage) Draw(p *Page) {
	p.W, p.H = c.Form.W, c.Form.H
	f := &p.Layers[drawing.Notes] // what it says is why it is printed
	f.Uses = append(f.Uses, Use{Form: c.Form})
	f.Uses = append(f.Uses, c.Uses...)
}

// Measures of a cover in millimetres.
const (
	coverColumn = 120.0 // widest column of lines, for easy reading
	coverGap    = 8.0
	coverText   = drawing.Lettering3_5
	coverHead   = drawing.Lettering5
)

// coverFlow writes lines down columns and on to further pages.
type coverFlow struct {
	live           geom.Rect
	size           Size
	pages          []CoverPage
	top            float64 // of the columns on this page
	column, across int
	width, y       float64
}

// Lay lays the cover out on pages of a size, within the live box.
func (c *Cover) Lay(size Size, live geom.Rect) []CoverPage {
	f := &coverFlow{live: live, size: size}
	f.across = max(1, int((live.W()+coverGap)/(coverColumn*0.75+coverGap)))
	f.width = (live.W()+coverGap)/float64(f.across) - coverGap
	f.newPage()
	f.head(c)
	for i := range c.Blocks {
		f.block(&c.Blocks[i])
	}
	return f.pages
}

func (f *coverFlow) form() *Form { return f.pages[len(f.pages)-1].Form }

func (f *coverFlow) newPage() {
	f.pages = append(f.pages, CoverPage{Form: &Form{W: f.size.W, H: f.size.H}})
	f.top, f.column = f.live.Max.Y, 0
	f.y = f.top
}

// head writes the title and what stands under it, and the map beside it.
func (f *coverFlow) head(c *Cover) {
	form := f.form()
	room := f.live.W()
	mapBottom := f.live.Max.Y
	if c.Map != nil {
		at := geom.Point{X: f.live.Max.X - c.Map.W, Y: f.live.Max.Y - c.Map.H}
		f.pages[0].Uses = append(f.pages[0].Uses, Use{Form: c.Map, At: at})
		mapBottom = at.Y
		if c.Map.W < room*0.6 {
			room -= c.Map.W + coverGap
		} else {
			f.y = at.Y - coverGap
		}
	}
	write := func(height float64, bold bool, text string, after float64) {
		lines := lettering.Wrap(text, height, bold, room)
		f.y -= form.WriteLines(f.live.Min.X, f.y, height, bold, lines) + after
	}
	height := drawing.Lettering10
	for height > drawing.Lettering5 && lettering.Width(c.Title, height, true) > room {
		height *= 0.7
	}
	write(height, true, c.Title, 5)
	if c.Trial {
		write(drawing.Lettering10, true, "TRIAL", 4)
	}
	for _, l := range c.Under {
		write(drawing.Lettering5, false, l, 3)
	}
	f.y = min(f.y, mapBottom) - 2
	y := f.y
	form.Line(nil, Pen{Width: drawing.WideLine}, f.live.Min.X, y, f.live.Max.X, y)
	f.y -= coverGap
	f.top = f.y
}

// need goes on to the next column or page where less than so much is left.
func (f *coverFlow) need(h float64) {
	if f.y-h >= f.live.Min.Y || f.y == f.top && f.top == f.live.Max.Y {
		return
	}
	if f.column++; f.column < f.across {
		f.y = f.top
		return
	}
	f.newPage()
}

func (f *coverFlow) left() float64 { return f.live.Min.X + float64(f.column)*(f.width+coverGap) }

func (f *coverFlow) block(b *Block) {
	f.need(coverHead + 3*coverText*lettering.Leading)
	head := lettering.Wrap(b.Heading, coverHead, true, f.width)
	f.y -= f.form().WriteLines(f.left(), f.y, coverHead, true, head) + 3.5
	for i, l := range b.Lines {
		mark, in := "", 0.0
		if b.Numbered {
			mark = strconv.Itoa(i+1) + "."
			in = max(7, lettering.Width(mark, coverText, false)+1.5)
		}
		for k, part := range lettering.Wrap(l, coverText, false, f.width-in) {
			f.need(coverText)
			base := f.y - coverText
			if k == 0 && mark != "" {
				f.form().Write(geom.Point{X: f.left(), Y: base}, coverText, false, mark)
			}
			f.form().Write(geom.Point{X: f.left() + in, Y: base}, coverText, false, part)
			f.y = base - coverText*(lettering.Leading-1)
		}
	}
	f.y -= 5
}
