package sheet

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/lettering"
	"markout/layout/unit"
)

// scale is a reduction by n, and how people write it.
type scale struct {
	n    float64
	text string
}

// metricScales are the reductions of ISO 5455 and 1:25, the largest drawing first.
var metricScales = func() []scale {
	var out []scale
	for _, n := range []float64{1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10000} {
		out = append(out, scale{n, "1:" + strconv.FormatFloat(n, 'f', -1, 64)})
	}
	return out
}()

// footScales are the scales of plans in feet, inches on paper to the foot: 1", 1/2", 1/4", 1/8", 1/16", and smaller ones
// for what none of these holds.
var footScales = []scale{
	{12, `1" = 1'-0"`}, {24, `1/2" = 1'-0"`}, {48, `1/4" = 1'-0"`}, {96, `1/8" = 1'-0"`}, {192, `1/16" = 1'-0"`},
	{384, `1/32" = 1'-0"`}, {768, `1/64" = 1'-0"`}, {1200, `1" = 100'`}, {2400, `1" = 200'`}, {6000, `1" = 500'`}, {12000, `1" = 1000'`},
}

func scalesFor(u unit.System) []scale {
	if u.Imperial() {
		return footScales
	}
	return metricScales
}

// barStep returns the length in millimetres of one division of a scale bar at a scale, so that five take 50 to
// 130 mm on paper, and how the division's multiples are written.
func barStep(sc scale, u unit.System) (step float64, label func(k int) string) {
	steps, per, word := []float64{50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000, 100000, 200000}, 1000.0, " m"
	if u.Imperial() {
		steps, per, word = nil, 304.8, "'"
		for _, feet := range []float64{0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500} {
			steps = append(steps, feet*304.8)
		}
	}
	label = func(k int) string {
		t := strconv.FormatFloat(float64(k)*step/per, 'f', -1, 64)
		if k == 0 {
			return "0"
		}
		return t + word
	}
	for _, step = range steps {
		if step/sc.n >= max(10, lettering.Width(label(3), drawing.Lettering2_5, false)+1) { // so that figures keep apart
			break
		}
	}
	return step, label
}
