package artwork

import (
	"strings"
)

// box is a rectangle in user units, y down.
type box struct{ x, y, w, h float64 }

// parseViewBox reads four numbers, the last two not negative.
func parseViewBox(text string) (box, bool) {
	v, ok := numbers(text)
	if !ok || len(v) != 4 || v[2] < 0 || v[3] < 0 {
		return box{}, false
	}
	return box{v[0], v[1], v[2], v[3]}, true
}

// aspect is how a picture is laid into a place of other proportions.
type aspect struct {
	none   bool    // stretched
	slice  bool    // fills the place and is cut off; otherwise it lies whole inside
	ax, ay float64 // share of what is left over that lies before it, along x and down y
}

// parseAspect reads preserveAspectRatio; nothing given, or anything wrong, is xMidYMid meet.
func parseAspect(text string) aspect {
	a := aspect{ax: 0.5, ay: 0.5}
	words := strings.Fields(text)
	if len(words) > 0 && words[0] == "defer" {
		words = words[1:]
	}
	if len(words) == 0 {
		return a
	}
	if words[0] == "none" {
		return aspect{none: true}
	}
	x, y, ok := strings.Cut(words[0], "Y")
	places := map[string]float64{"Min": 0, "Mid": 0.5, "Max": 1}
	ax, okX := places[strings.TrimPrefix(x, "x")]
	ay, okY := places[y]
	if !ok || !okX || !okY || !strings.HasPrefix(x, "x") {
		return a
	}
	a.ax, a.ay = ax, ay
	a.slice = len(words) > 1 && words[1] == "slice"
	return a
}

// fit returns the map that lays the box from into the box to; both have a width and a height.
func (a aspect) fit(from, to box) Matrix {
	sx, sy := to.w/from.w, to.h/from.h
	if !a.none {
		s := min(sx, sy)
		if a.slice {
			s = max(sx, sy)
		}
		sx, sy = s, s
	}
	return Matrix{
		A: sx, D: sy,
		E: to.x + a.ax*(to.w-from.w*sx) - from.x*sx,
		F: to.y + a.ay*(to.h-from.h*sy) - from.y*sy,
	}
}
