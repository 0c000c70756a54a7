package pdf_test

import (
	"fmt"
	"math"
	"strconv"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// rings is full-size paper of a floor with rings at pseudo-random places, 64 corners each: a known load for the
// page writer, laid over A3 sheets as tiling/grid would.
type rings struct {
	cols, rows int
	cells      [][2]int // column and row of each page that carries something
	runs       map[[2]int][][]geom.Point
	keyMap     *tiling.Form
	scale      float64 // of the key map
}

const (
	ringsW, ringsH = 297.0, 420.0
	ringsEdge      = 10.0
	liveW, liveH   = ringsW - 2*ringsEdge, ringsH - 2*ringsEdge
	stepW, stepH   = liveW - 10, liveH - 10
	ringsPen       = 0.5
)

// newRings lays n rings over width by height metres.
func newRings(width, height, n int) *rings {
	w, h := width*1000, height*1000
	left := -float64(w) / 2
	s := &rings{
		cols: int(math.Ceil((float64(w) - 10) / stepW)),
		rows: int(math.Ceil((float64(h) - 10) / stepH)),
		runs: map[[2]int][][]geom.Point{},
	}
	state := uint64(20261120)
	draw := func() int {
		state = state*6364136223846793005 + 1442695040888963407
		return int(state >> 33)
	}
	for range n {
		r := 300 + draw()%601
		x := r + draw()%(w-2*r+1)
		y := r + draw()%(h-2*r+1)
		var corner [65]geom.Point
		for k := range corner {
			corner[k] = geom.Point{X: float64(x) - float64(w)/2, Y: float64(y)}.Add(geom.Polar(float64(r), 2*math.Pi*float64(k)/64))
		}
		for k := range 64 {
			a, b := corner[k], corner[k+1]
			box := geom.EmptyRect().Include(a).Include(b).Grow(ringsPen)
			for row := max(0, int((box.Min.Y-liveH)/stepH)); row < s.rows && float64(row)*stepH <= box.Max.Y; row++ {
				for col := max(0, int((box.Min.X-left-liveW)/stepW)); col < s.cols && left+float64(col)*stepW <= box.Max.X; col++ {
					at := geom.Point{X: left + float64(col)*stepW, Y: float64(row) * stepH}
					if !box.Overlaps(geom.Rect{Min: at, Max: at.Add(geom.Point{X: liveW, Y: liveH})}) {
						continue
					}
					s.extend([2]int{col, row}, a.Sub(at), b.Sub(at))
				}
			}
		}
	}
	for row := range s.rows {
		for col := range s.cols {
			if len(s.runs[[2]int{col, row}]) > 0 {
				s.cells = append(s.cells, [2]int{col, row})
			}
		}
	}
	s.drawKeyMap()
	return s
}

// extend adds a segment to a cell's runs, in millimetres of its paper.
func (s *rings) extend(cell [2]int, a, b geom.Point) {
	edge := geom.Point{X: ringsEdge, Y: ringsEdge}
	a, b = a.Add(edge), b.Add(edge)
	runs := s.runs[cell]
	if n := len(runs); n > 0 && runs[n-1][len(runs[n-1])-1].Near(a) {
		runs[n-1] = append(runs[n-1], b)
		return
	}
	s.runs[cell] = append(runs, []geom.Point{a, b})
}

func (s *rings) drawKeyMap() {
	w, h := float64(s.cols)*stepW, float64(s.rows)*stepH
	s.scale = 50 / max(w, h)
	s.keyMap = &tiling.Form{W: w * s.scale, H: h * s.scale}
	stroke := s.keyMap.Stroke(tiling.Pen{Width: drawing.FineLine})
	line := func(x0, y0, x1, y1 float64) {
		stroke.Runs = append(stroke.Runs, tiling.Run{Points: []geom.Point{{X: x0, Y: y0}, {X: x1, Y: y1}}})
	}
	for c := range s.cols + 1 {
		line(float64(c)*stepW*s.scale, 0, float64(c)*stepW*s.scale, s.keyMap.H)
	}
	for r := range s.rows + 1 {
		line(0, float64(r)*stepH*s.scale, s.keyMap.W, float64(r)*stepH*s.scale)
	}
}

func (s *rings) document() *tiling.Document {
	return &tiling.Document{
		Title: "Low Tide, rings, full size", Date: "2026-11-20", Pages: len(s.cells), Make: s.make,
		Bookmarks: []tiling.Bookmark{{Title: "floor"}},
	}
}

func (s *rings) make(i int, p *tiling.Page) {
	col, row := s.cells[i][0], s.cells[i][1]
	p.W, p.H = ringsW, ringsH
	name := fmt.Sprintf("%d%c", col+1, 'A'+row%26)
	p.Label = "floor " + name
	p.Clip = geom.Rect{Min: geom.Point{X: ringsEdge, Y: ringsEdge}, Max: geom.Point{X: ringsEdge + liveW, Y: ringsEdge + liveH}}
	cut := p.Layers[drawing.Cut].Stroke(tiling.Pen{Width: ringsPen})
	for _, run := range s.runs[s.cells[i]] {
		cut.Runs = append(cut.Runs, tiling.Run{Points: run})
	}
	polyline := func(st *tiling.Stroke, xy ...float64) {
		pts := p.Arena(len(xy) / 2)
		for k := range pts {
			pts[k] = geom.Point{X: ringsEdge + xy[2*k], Y: ringsEdge + xy[2*k+1]}
		}
		st.Runs = append(st.Runs, tiling.Run{Points: pts})
	}
	thin := tiling.Pen{Width: drawing.NarrowLine}
	registration := p.Layers[drawing.Registration].Stroke(thin)
	for k := range 4 {
		x, y := float64(k&1)*stepW+5, float64(k>>1)*stepH+5
		polyline(registration, x-4, y, x+4, y)
		polyline(registration, x, y-4, x, y+4)
	}
	f := &p.Layers[drawing.Furniture]
	st := f.Stroke(thin)
	polyline(st, 0, stepH, stepW, stepH, stepW, 0)
	polyline(st, 20, 23, 20, 20, 120, 20, 120, 23)
	polyline(st, 18, 25, 15, 25, 15, 125, 18, 125)
	text := func(x, y, height float64, words string) {
		f.Texts = append(f.Texts, tiling.Text{At: geom.Point{X: ringsEdge + x, Y: ringsEdge + y}, Height: height, Text: words})
	}
	x0, y0 := float64(col)*stepW-float64(s.cols)*stepW/2, float64(row)*stepH
	for t := int(math.Ceil(x0 / 100)); float64(t)*100 <= x0+liveW; t++ {
		x := float64(t)*100 - x0
		polyline(st, x, 0, x, 5)
		text(x+0.7, 3, 2.5/lettering.Em(1), strconv.Itoa(t*100))
	}
	for t := int(math.Ceil(y0 / 100)); float64(t)*100 <= y0+liveH; t++ {
		y := float64(t)*100 - y0
		polyline(st, 0, y, 5, y)
		text(1, y+0.7, 2.5/lettering.Em(1), strconv.Itoa(t*100))
	}
	text(60, 22, 2.5/lettering.Em(1), "100 mm")
	text(17, 75, 2.5/lettering.Em(1), "100 mm")
	text(30, 60, 10/lettering.Em(1), name)
	text(30, 52, 3.5/lettering.Em(1), "Low Tide, rings, issue B, 2026-11-20")
	text(30, 46, 3.5/lettering.Em(1), "FULL SIZE 1:1, measure both bars before use")
	text(30, 40, 3.5/lettering.Em(1), fmt.Sprintf("row %c, column %d, page %d of %d, A3, lap 10 mm", 'A'+row%26, col+1, i+1, len(s.cells)))
	text(30, 34, 3.5/lettering.Em(1), fmt.Sprintf("centre line %.0f to %.0f, setting line %.0f to %.0f", x0, x0+liveW, y0, y0+liveH))
	corner := geom.Point{X: ringsW - ringsEdge - 10 - s.keyMap.W, Y: ringsH - ringsEdge - 10 - s.keyMap.H}
	f.Uses = append(f.Uses, tiling.Use{Form: s.keyMap, At: corner})
	box := p.Arena(4)
	a := corner.Add(geom.Point{X: float64(col) * stepW * s.scale, Y: float64(row) * stepH * s.scale})
	w, h := stepW*s.scale, stepH*s.scale
	box[0], box[1], box[2], box[3] = a, a.Add(geom.Point{X: w}), a.Add(geom.Point{X: w, Y: h}), a.Add(geom.Point{Y: h})
	f.Fills = append(f.Fills, tiling.Fill{Rings: [][]geom.Point{box}})
}
