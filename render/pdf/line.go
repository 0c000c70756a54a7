package pdf

import (
	"math"
	"slices"
	"strconv"

	"markout/layout/geom"
	"markout/tiling"
)

// line appends a stroke: all runs as one path, or one a path where dashes begin differently.
func (c *content) line(s *tiling.Stroke) {
	width := units(s.Pen.Width)
	if width <= 0 { // 0 would be a line as thin as the printer can
		return
	}
	dash, period := usableDash(s.Pen.Dash)
	open := false
	for i := range s.Runs {
		r := &s.Runs[i]
		phase := int64(0)
		if dash != nil {
			phase = units(wrapped(r.Phase, period))
		}
		if open && phase != c.phase {
			c.buf = append(c.buf, "S\n"...)
			open = false
		}
		if !open {
			c.pen(width, float64(s.Pen.Tone), dash, phase)
		}
		if c.points(r.Points, r.Closed) {
			open = true
		}
	}
	if open {
		c.buf = append(c.buf, "S\n"...)
	}
}

// pen sets what of width, tone and dashes differs from what is set.
func (c *content) pen(width int64, t float64, dash []float64, phase int64) {
	if width != c.width {
		c.width = width
		c.int(width)
		c.buf = append(c.buf, "w "...)
	}
	c.strokeTone(t)
	if c.dashKnown && phase == c.phase && slices.Equal(dash, c.dash) {
		return
	}
	c.dash, c.phase, c.dashKnown = dash, phase, true
	c.buf = append(c.buf, '[')
	for i, d := range dash {
		if i > 0 {
			c.buf = append(c.buf, ' ')
		}
		c.buf = strconv.AppendInt(c.buf, units(d), 10)
	}
	c.buf = append(c.buf, ']')
	c.int(phase)
	c.buf = append(c.buf, "d "...)
}

// usableDash returns a dash pattern and the length after which it repeats; nil for one that is none: without lengths, with one
// that is negative or no number, or with nothing on it that is as long as a micrometre.
func usableDash(dash []float64) ([]float64, float64) {
	period := 0.0
	for _, d := range dash {
		if !(d >= 0) || math.IsInf(d, 1) {
			return nil, 0
		}
		period += float64(units(d)) / perMillimetre
	}
	if period == 0 {
		return nil, 0
	}
	if len(dash)%2 == 1 { // on and off change places in the second round
		period *= 2
	}
	return dash, period
}

// wrapped returns the phase within one period; what is no number begins at the pattern's beginning.
func wrapped(phase, period float64) float64 {
	p := math.Mod(phase, period)
	if p < 0 {
		p += period
	}
	if !(p >= 0) || units(p) >= units(period) {
		return 0
	}
	return p
}

// points appends a polyline, without points that fall onto the one before them, which would spoil the join there. It
// appends nothing and returns false where fewer than two places are left.
func (c *content) points(points []geom.Point, closed bool) bool {
	mark := len(c.buf)
	var x0, y0, x, y int64
	n := 0
	for i := range points {
		px, py := units(points[i].X)+c.x, units(points[i].Y)+c.y
		switch {
		case n == 0:
			x0, y0 = px, py
		case px == x && py == y:
			continue
		case closed && i == len(points)-1 && px == x0 && py == y0:
			continue
		}
		x, y = px, py
		c.buf = appendInt(appendInt(c.buf, x), y)
		if n == 0 {
			c.buf = append(c.buf, 'm', '\n')
		} else {
			c.buf = append(c.buf, 'l', '\n')
		}
		n++
	}
	if n < 2 {
		c.buf = c.buf[:mark]
		return false
	}
	if closed {
		c.buf = append(c.buf, 'h', '\n')
	}
	return true
}
