package grid

import (
	"cmp"
	"errors"
	"slices"
	"strings"
)

// Ruling names the columns or the rows of a grid: 1 is column A or row 1. It lists stretches of places in the order in which they
// got their names, each from its first place to its last, upwards or downwards: a grid of seven columns is [0 6], and when two more
// come on its left and then one on its right, they are [−1 −2] and [7 7]. So every place between the outermost has one name, no name
// is given twice, and a place keeps its name whatever becomes of its pages.
type Ruling [][2]int

// mostPlaces is how far from 0 places may lie: farther than windows of the least size reach over two drawings of 40 km.
const mostPlaces = 4_000_000

// span returns the outermost places that have names.
func (r Ruling) span() (lo, hi int) {
	if len(r) == 0 {
		return 0, -1
	}
	lo, hi = r[0][0], r[0][0]
	for _, s := range r {
		lo, hi = min(lo, s[0], s[1]), max(hi, s[0], s[1])
	}
	return lo, hi
}

// name returns the name of a place; 0 where it has none.
func (r Ruling) name(place int) int {
	before := 0
	for _, s := range r {
		if min(s[0], s[1]) <= place && place <= max(s[0], s[1]) {
			return before + distance(s[0], place) + 1
		}
		before += distance(s[0], s[1]) + 1
	}
	return 0
}

func distance(a, b int) int { return max(a-b, b-a) }

// reach gives names to all places from lo to hi and between them and those named already, first to those above, then to those
// below, each from the nearest outwards.
func (r Ruling) reach(lo, hi int) Ruling {
	if len(r) == 0 {
		return Ruling{{lo, hi}}
	}
	out := slices.Clone(r)
	add := func(from, to, way int) {
		last := &out[len(out)-1]
		if last[1]+way == from && (last[1]-last[0])*way >= 0 {
			last[1] = to
			return
		}
		out = append(out, [2]int{from, to})
	}
	first, last := r.span()
	if hi > last {
		add(last+1, hi, 1)
	}
	if lo < first {
		add(first-1, lo, -1)
	}
	return out
}

// check says what makes a ruling none.
func (r Ruling) check() error {
	if len(r) == 0 {
		return errors.New("have no names")
	}
	lo, hi := 0, -1
	for i, s := range r {
		if min(s[0], s[1]) < -mostPlaces || max(s[0], s[1]) > mostPlaces {
			return errors.New("are too many")
		}
		switch {
		case i == 0:
			lo, hi = min(s[0], s[1]), max(s[0], s[1])
		case s[0] == hi+1 && s[1] >= s[0]:
			hi = s[1]
		case s[0] == lo-1 && s[1] <= s[0]:
			lo = s[1]
		default:
			return errors.New("are out of order, or two of them share a name")
		}
	}
	return nil
}

// mostStretches is how many stretches words tell one by one.
const mostStretches = 8

// words says how the places from lo to hi are named, from the lowest up: `A to G`, or `J to H, A to G`.
func (r Ruling) words(lo, hi int, name func(n int) string) string {
	var kept [][2]int
	for _, s := range r {
		if a, b := max(min(s[0], s[1]), lo), min(max(s[0], s[1]), hi); a <= b {
			kept = append(kept, [2]int{a, b})
		}
	}
	slices.SortFunc(kept, func(a, b [2]int) int { return cmp.Compare(a[0], b[0]) })
	if len(kept) > mostStretches {
		return name(r.name(lo)) + " … " + name(r.name(hi))
	}
	var out []string
	for _, s := range kept {
		w := name(r.name(s[0]))
		if s[1] > s[0] {
			w += " to " + name(r.name(s[1]))
		}
		out = append(out, w)
	}
	return strings.Join(out, ", ")
}
