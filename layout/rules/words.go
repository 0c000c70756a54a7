package rules

import (
	"strings"

	"markout/layout/unit"
)

// words prints figures in the unit that the set's people measure in.
type words struct{ units unit.System }

// visible is the least difference in millimetres that counts as a miss: half of the last place that is printed, a tenth
// of a millimetre or a sixteenth of an inch, so that no figure is called over a limit that reads the same.
func (w words) visible() float64 {
	if w.units.Imperial() {
		return unit.Sixteenth / 2
	}
	return 0.05
}

// A pitch is printed to a hundredth of a degree, a slope to a tenth of its run.
const (
	visibleDeg   = 0.005
	visibleSlope = 1/11.95 - 1.0/12
)

func (w words) length(mm float64) string { return unit.FormatMeasure(mm, w.units, 0.1) }

// long prints a length that nobody measures by: to a millimetre, or to an inch.
func (w words) long(mm float64) string {
	if w.units.Imperial() {
		return unit.FormatMeasure(mm, w.units, 25.4)
	}
	return unit.FormatMeasure(mm, w.units, 1)
}

func degrees(deg float64) string { return unit.FormatAngle(deg, 0.01) }

func oneIn(slope float64) string { return unit.FormatSlope(slope) }

func plainCount(what string) func(float64) string {
	return func(n float64) string { return unit.FormatNumber(n, 1) + " " + plural(what, int(n)) }
}

func plain(n int) string { return unit.FormatNumber(float64(n), 1) }

func plural(what string, n int) string {
	if n == 1 {
		return what
	}
	return what + "s"
}

// names lists the first few names and counts the rest.
func names(list []string) string {
	const shown = 4
	switch n := len(list); {
	case n == 0:
		return ""
	case n == 1:
		return list[0]
	case n <= shown:
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list[:shown-1], ", ") + " and " + unit.FormatNumber(float64(len(list)-shown+1), 1) + " others"
}
