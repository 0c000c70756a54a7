package sheet

import (
	"math"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/unit"
	"markout/tiling"
)

// measure is how figures of dimensions are printed: the unit and the step to which they are rounded.
type measure struct {
	units unit.System
	step  float64
}

func measureIn(u unit.System) measure {
	if u.Imperial() {
		return measure{u, unit.Sixteenth}
	}
	return measure{u, 1}
}

func (m measure) text(steps float64) string { return unit.FormatLength(steps*m.step, m.units, m.step) }

// Measures of dimensions in paper millimetres: oblique strokes for ends and extension lines that leave a gap at what they
// measure (ISO 129-1, from memory).
const (
	overallStep  = 8.0
	extensionGap = 1.0
	extensionRun = 1.5
	obliqueArm   = 1.2
	figureClear  = 0.9 // between a line and the figure above it
	figureHeight = drawing.Lettering2_5
	figureApart  = 0.8 // least distance between figures
)

// witnessPen draws what only leads from a dimension to what it measures: it crosses the plan and must not be taken for a
// part of it.
var witnessPen = tiling.Pen{Width: drawing.FineLine, Tone: drawing.Grey}

// chain is a dimension worked out at a scale: its lines and figures on paper, the extension lines from what is measured,
// and how many figures found no place.
type chain struct {
	lines   [][2]geom.Point
	witness [][2]geom.Point
	texts   []tiling.Text
	unsaid  int
}

// dimension works out a chain. Its running figures, from the first point, are rounded, and each part printed is the
// difference of two of them: the printed parts add up to the printed overall, whatever the step.
func (j projection) dimension(d *drawing.Dimension, m measure) chain {
	var c chain
	if len(d.Points) < 2 {
		return c
	}
	sin, cos := geom.SincosDeg(d.Direction)
	u := geom.Point{X: cos, Y: sin}
	n := u.Left()
	base := d.Points[0]
	if d.Base != nil {
		base = *d.Base
	}
	across := j.to(base).Dot(n) + d.Offset
	// A figure stands above its line for who reads from below or from the right.
	reading := math.Mod(d.Direction, 360)
	up := 1.0
	if a := math.Mod(reading+360, 360); a > 90+1e-9 && a <= 270+1e-9 {
		reading -= 180
		up = -1
	}
	feet := make([]geom.Point, len(d.Points))
	run := make([]float64, len(d.Points))
	for i, p := range d.Points {
		q := j.to(p)
		out := across - q.Dot(n)
		feet[i] = q.Add(n.Mul(out))
		run[i] = math.Round(p.Sub(d.Points[0]).Dot(u) / m.step)
		if far := math.Abs(out); far > extensionGap {
			s := n.Mul(out / far)
			end := feet[i].Add(s.Mul(extensionRun))
			if d.Overall && (i == 0 || i == len(d.Points)-1) {
				end = feet[i].Add(s.Mul(overallStep + extensionRun))
			}
			c.witness = append(c.witness, [2]geom.Point{q.Add(s.Mul(extensionGap)), end})
		}
	}
	labels := make([]string, len(feet)-1)
	for i := range labels {
		labels[i] = m.text(math.Abs(run[i+1] - run[i]))
		if i < len(d.Labels) && d.Labels[i] != "" {
			labels[i] = d.Labels[i]
		}
	}
	c.row(feet, u, n.Mul(up), reading, labels)
	if d.Overall {
		s := n
		if d.Offset < 0 {
			s = n.Mul(-1)
		}
		last := len(feet) - 1
		ends := []geom.Point{feet[0].Add(s.Mul(overallStep)), feet[last].Add(s.Mul(overallStep))}
		c.row(ends, u, n.Mul(up), reading, []string{m.text(math.Abs(run[last] - run[0]))})
	}
	return c
}

// row adds one dimension line with its end strokes and figures. A figure wider than its part goes to a second level,
// then below the line, then smaller; where it would still run into its neighbour it is left out and counted.
func (c *chain) row(feet []geom.Point, u, up geom.Point, reading float64, labels []string) {
	c.lines = append(c.lines, [2]geom.Point{feet[0], feet[len(feet)-1]})
	oblique := u.Add(u.Left()).Unit().Mul(obliqueArm)
	for _, f := range feet {
		c.lines = append(c.lines, [2]geom.Point{f.Sub(oblique), f.Add(oblique)})
	}
	along := func(p geom.Point) float64 { return p.Dot(u) }
	var used [3]float64 // how far each level is taken
	for i := range used {
		used[i] = math.Inf(-1)
	}
	for i, l := range labels {
		a, b := feet[i], feet[i+1]
		mid := a.Lerp(b, 0.5)
		room := b.Sub(a).Len()
		placed := false
	size:
		for _, h := range [2]float64{figureHeight, drawing.Lettering1_8} {
			w := lettering.Width(l, h, false)
			from, to := along(mid)-w/2, along(mid)+w/2
			levels := [3]float64{figureClear, 2*figureClear + figureHeight, -figureClear - h}
			for k, out := range levels {
				if k == 0 && w > room-figureApart || from < used[k]+figureApart {
					continue
				}
				used[k] = to
				t := drawing.Text{Turn: reading, Height: h, Align: drawing.AlignCentre, Text: l}
				c.texts = append(c.texts, tiling.PlaceText(&t, mid.Add(up.Mul(out))))
				placed = true
				break size
			}
		}
		if !placed {
			c.unsaid++
		}
	}
}
