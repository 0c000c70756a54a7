package cut

import (
	"slices"
	"sort"
)

// axis is one side of a board as places that matter. Exact places are the sums of pieces' sides (normal
// patterns, Herz 1972): any layout can be pushed together until all its edges lie on them. Where those are
// too many, the side is divided evenly and pieces are rounded down, so that what is computed on
// it is never too little.
type axis struct {
	size   int64
	exact  bool
	places []int64 // rising from 0 to the whole side, in the axis's own units
	less   []int32 // [i*n+a]: the last place not beyond places[i] - places[a]
}

const (
	mostPlaces = 200
	evenParts  = 128
)

// newAxis takes the sides that pieces may lay along it and how often each.
func newAxis(size int64, sides []int64, most []int) *axis {
	a := &axis{size: size, exact: true}
	a.places = []int64{0}
	for i, s := range sides {
		reached := a.places
		for range min(int64(most[i]), size/s) {
			var next []int64
			for _, p := range a.places {
				if p+s < size {
					next = append(next, p+s)
				}
			}
			grown := slices.Concat(reached, next)
			slices.Sort(grown)
			grown = slices.Compact(grown)
			if len(grown) == len(a.places) && slices.Equal(grown, a.places) {
				break
			}
			a.places = grown
			if len(a.places) > mostPlaces {
				a.exact = false
				break
			}
		}
		if !a.exact {
			break
		}
	}
	if a.exact {
		a.places = append(a.places, size)
	} else {
		a.places = a.places[:0]
		for i := range int64(evenParts + 1) {
			a.places = append(a.places, i)
		}
	}
	n := len(a.places)
	a.less = make([]int32, n*n)
	for i := range n {
		for k := range i + 1 {
			a.less[i*n+k] = int32(a.last(a.places[i] - a.places[k]))
		}
	}
	return a
}

// own is a length in the axis's units.
func (a *axis) own(v int64) int64 {
	if a.exact {
		return v
	}
	return v * evenParts / a.size
}

// last is the number of the last place not beyond v, in the axis's units.
func (a *axis) last(v int64) int {
	return sort.Search(len(a.places), func(i int) bool { return a.places[i] > v }) - 1
}

// first is the number of the first place not before v.
func (a *axis) first(v int64) int {
	return sort.Search(len(a.places), func(i int) bool { return a.places[i] >= v })
}

// at is the place of a length v, rounded down.
func (a *axis) at(v int64) int { return a.last(a.own(v)) }
