package artwork

import (
	"math"
	"strings"

	"markout/layout/geom"
)

const (
	leastWidth = 1e-4    // millimetres; a thinner line is none
	mostDashes = 100_000 // of one shape
)

// stroke returns the stroke of a shape whose paths in its own units are own; nil for none.
func (r *reader) stroke(v valueReader, c context, own []*geom.Path, paint Paint) *Stroke {
	st := c.style
	scale := math.Sqrt(math.Abs(c.frame.Det()))
	pen := Identity()
	// A stroke may be asked to keep its width whatever the transform: pixels of the outermost viewport.
	keeps := v.d[pVectorEffect] == "non-scaling-stroke"
	unitLength := scale
	switch {
	case keeps:
		scale = pixel
	case !c.frame.similar():
		f := c.frame
		pen = Matrix{A: f.A / scale, B: f.B / scale, C: f.C / scale, D: f.D / scale}
	}
	width := st.width.along(c.view.diagonal()) * scale
	if !(width >= leastWidth) {
		return nil
	}
	if width > geom.MostCoordinate || !pen.usable() {
		r.caution(v.where(pStrokeWidth), codeValue, "", "the line's width is out of reach; it is left out")
		return nil
	}
	s := &Stroke{Paint: paint, Width: width, Cap: st.cap, Join: st.join, MiterLimit: st.miterLimit, Pen: pen}
	r.dash(v, c, own, s, scale, unitLength)
	return s
}

// dash gives a stroke its dashes. scale takes the units that they are written in to the pen's, unitLength those of
// the paths.
func (r *reader) dash(v valueReader, c context, own []*geom.Path, s *Stroke, scale, unitLength float64) {
	if len(c.style.dashes) == 0 {
		return
	}
	total := 0.0
	for _, p := range own {
		total += p.Length()
	}
	// pathLength says how long the whole is to count as (SVG 2, section 9.6.1).
	if text := strings.TrimSpace(v.e.attr("pathLength")); text != "" {
		if x, ok := numbers(text); ok && len(x) == 1 && x[0] > 0 {
			scale = unitLength * total / x[0]
		} else {
			r.caution(r.place(v.e, "pathLength"), codeValue, "", "pathLength %s is no number of more than 0", quote(text))
		}
	}
	whole := c.view.diagonal()
	dashes := make([]float64, 0, 2*len(c.style.dashes))
	period := 0.0
	for _, d := range c.style.dashes {
		x := d.along(whole) * scale
		dashes = append(dashes, x)
		period += x
	}
	if len(dashes)%2 == 1 {
		dashes = append(dashes, dashes...)
		period *= 2
	}
	if !(period > 0) || period > geom.MostCoordinate {
		return
	}
	if count := total * unitLength / period * float64(len(dashes)); !(count <= mostDashes) {
		r.caution(v.where(pDashes), codeValue, "", "the line would have more than %d dashes; it is drawn without gaps", mostDashes)
		return
	}
	phase := math.Mod(c.style.dashOffset.along(whole)*scale, period)
	if phase < 0 {
		phase += period
	}
	if math.IsNaN(phase) {
		phase = 0
	}
	s.Dashes, s.Phase = dashes, phase
}
