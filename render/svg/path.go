package svg

import (
	"math"

	"markout/layout/geom"
	"markout/tiling"
)

// step returns millimetres in whole steps of the picture's grid.
func (pic *picture) step(mm float64) int64 {
	v := math.Floor(mm*pic.perUnit + 0.5)
	if !(math.Abs(v) < 1<<53) {
		return 0
	}
	return int64(v)
}

// area draws a fill.
func (pic *picture) area(f *tiling.Fill, at geom.Point) {
	start := len(pic.buf)
	pic.put("<path")
	pic.tone("fill", float64(f.Tone))
	if f.EvenOdd {
		pic.put(` fill-rule="evenodd"`)
	}
	pic.put(` d="`)
	drawn := false
	for _, ring := range f.Rings {
		if len(ring) > 2 && pic.run(ring, true, at) {
			drawn = true
		}
	}
	pic.end(start, drawn)
}

// line draws a stroke: its runs as one path, or one a path where dashes begin differently.
func (pic *picture) line(s *tiling.Stroke, at geom.Point) {
	if !(s.Pen.Width > 0) {
		return
	}
	for i := 0; i < len(s.Runs); {
		phase, drawn := s.Runs[i].Phase, false
		start := len(pic.buf)
		pic.put(`<path fill="none"`)
		if !(s.Pen.Tone >= 1) { // white comes from tone
			pic.put(` stroke="#000"`)
		}
		pic.number(` stroke-width="`, max(s.Pen.Width, pic.least))
		pic.put(`"`)
		pic.tone("stroke", float64(s.Pen.Tone))
		pic.dashes(s.Pen.Dash, phase)
		pic.put(` d="`)
		for i < len(s.Runs) && (s.Pen.Dash == nil || s.Runs[i].Phase == phase) {
			if r := &s.Runs[i]; pic.run(r.Points, r.Closed, at) {
				drawn = true
			}
			i++
			if math.IsNaN(phase) { // no number equals itself
				break
			}
		}
		pic.end(start, drawn)
	}
}

// end closes a path, or takes it back where nothing is drawn.
func (pic *picture) end(start int, drawn bool) {
	if !drawn {
		pic.buf = pic.buf[:start]
		return
	}
	pic.put("\"/>\n")
}

func (pic *picture) dashes(dash []float64, phase float64) {
	total := 0.0
	for _, d := range dash {
		if !(d >= 0) || math.IsInf(d, 1) {
			return
		}
		total += d
	}
	if total == 0 {
		return
	}
	pic.put(` stroke-dasharray="`)
	for i, d := range dash {
		if i > 0 {
			pic.put(" ")
		}
		pic.number("", d)
	}
	if len(dash)%2 == 1 {
		total *= 2
	}
	if phase = math.Mod(phase, total); phase < 0 {
		phase += total
	}
	if pic.step(phase) > 0 {
		pic.number(`" stroke-dashoffset="`, phase)
	}
	pic.put(`"`)
}

// run adds a polyline, points that fall together once, and in a coarse picture those that hardly leave the one before; it
// adds nothing and returns false where one place is left.
func (pic *picture) run(points []geom.Point, closed bool, at geom.Point) bool {
	mark := len(pic.buf)
	var x0, y0, x, y int64
	n := 0
	for i, p := range points {
		px, py := pic.step(at.X+p.X), pic.step(pic.height-(at.Y+p.Y))
		last := i == len(points)-1
		switch {
		case n == 0:
			x0, y0 = px, py
			pic.put("M")
			pic.pair(px, py)
		case px == x && py == y, closed && last && px == x0 && py == y0:
			continue
		case pic.coarse && !last && max(px-x, x-px) < 2 && max(py-y, y-py) < 2:
			continue
		case pic.coarse:
			if n == 1 {
				pic.put("l")
			} else if px >= x {
				pic.put(" ")
			}
			pic.pair(px-x, py-y)
		default:
			if n == 1 {
				pic.put("L")
			} else {
				pic.put(" ")
			}
			pic.pair(px, py)
		}
		x, y = px, py
		n++
	}
	if n < 2 {
		pic.buf = pic.buf[:mark]
		return false
	}
	if closed {
		pic.put("Z")
	}
	return true
}

// pair adds two coordinates; a sign parts them as well as a space.
func (pic *picture) pair(x, y int64) {
	pic.buf = appendStep(pic.buf, x, pic.decimals)
	if y >= 0 {
		pic.put(" ")
	}
	pic.buf = appendStep(pic.buf, y, pic.decimals)
}
