package sheet

import (
	"fmt"
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
	"markout/tiling/paper"
)

// frame is a sheet as it is looked at: its size and the box inside its frame line.
type frame struct {
	size  tiling.Size
	live  geom.Rect
	paper string // "A3 landscape"
}

// Measures of every sheet, millimetres.
const (
	gap        = 3.0   // between what stands side by side
	leastW     = 100.0 // of the box inside the frame, for a title block that can be read
	leastH     = 120.0
	frameLine  = 0.7  // ISO 5457
	centreMark = 10.0 // of the mark at the middle of each edge, from 5 mm outside the frame inwards (ISO 5457)
)

// framesOf returns the sheet lying and upright, in the order in which they are tried.
func framesOf(opt Options) ([]frame, error) {
	p, m := opt.Paper, opt.Margins
	if p.Roll {
		p.H = math.Min(paper.Longest, p.W*math.Sqrt2)
		if p.H < p.W {
			p.W, p.H = p.H, p.W
		}
	}
	if p.W <= 0 || p.H <= 0 {
		return nil, fmt.Errorf("the sheet has no paper")
	}
	if p.W > p.H {
		p.W, p.H = p.H, p.W
	}
	upright := frameOf(p.Name, p.W, p.H, m)
	lying := frameOf(p.Name, p.H, p.W, turned(m))
	var out []frame
	for _, f := range []frame{lying, upright} {
		if f.live.W() >= leastW && f.live.H() >= leastH {
			out = append(out, f)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("%s is too small for a sheet with a title block: it needs %g x %g mm inside its margins", p.Name, leastW, leastH)
	}
	return out, nil
}

func frameOf(name string, w, h float64, m paper.Margins) frame {
	return frame{
		size:  tiling.Size{W: w, H: h},
		live:  geom.Rect{Min: geom.Point{X: m.Left, Y: m.Bottom}, Max: geom.Point{X: w - m.Right, Y: h - m.Top}},
		paper: name + " " + paper.Lie(w, h),
	}
}

// turned returns the margins of the lying sheet. A filing edge stays at the left.
func turned(m paper.Margins) paper.Margins {
	filing := m.Left
	if filing <= m.Right {
		return m.Turned()
	}
	m.Left = m.Right
	t := m.Turned()
	t.Left = max(t.Left, filing)
	return t
}

// drawFrame draws the frame line and the centring marks.
func (f *frame) drawFrame(p *tiling.Page) {
	c := &p.Layers[drawing.Furniture]
	line := tiling.Pen{Width: frameLine}
	c.Polyline(p, line, true, tiling.Box(f.live)...)
	mid := f.live.Mid()
	out := centreMark / 2
	for _, e := range [4][2]geom.Point{
		{{X: f.live.Min.X, Y: mid.Y}, {X: -1}}, {{X: f.live.Max.X, Y: mid.Y}, {X: 1}},
		{{X: mid.X, Y: f.live.Min.Y}, {Y: -1}}, {{X: mid.X, Y: f.live.Max.Y}, {Y: 1}},
	} {
		a := e[0].Add(e[1].Mul(out))
		c.Line(p, line, a.X, a.Y, e[0].X, e[0].Y)
	}
}
