package rules

import (
	"slices"
	"strings"
)

// band is one published range. A bound of 0 is not set.
type band struct {
	For         string // which stairs, ramps or edges it was written for
	Least, Most float64
	Source      string
}

// miss returns how far x lies outside the band by more than hair; 0 inside. A figure on the bound is inside it.
func (b band) miss(x, hair float64) float64 {
	switch {
	case b.Most > 0 && x > b.Most+hair:
		return x - b.Most
	case b.Least > 0 && x < b.Least-hair:
		return b.Least - x
	}
	return 0
}

// limits says each band's range and what it was written for.
func limits(bands []band, show func(float64) string) string {
	var out []string
	for _, b := range bands {
		s := ""
		switch {
		case b.Least > 0 && b.Most > 0:
			s = show(b.Least) + " to " + show(b.Most)
		case b.Most > 0:
			s = "at most " + show(b.Most)
		default:
			s = "at least " + show(b.Least)
		}
		out = append(out, s+" ("+b.For+")")
	}
	return strings.Join(out, "; ")
}

// verdict says where x lies against each band.
func verdict(bands []band, x, hair float64, show func(float64) string) string {
	var out []string
	for _, b := range bands {
		s := "within what " + b.For + " allow"
		switch {
		case b.Most > 0 && x > b.Most+hair:
			s = "over the " + show(b.Most) + " of " + b.For
		case b.Least > 0 && x < b.Least-hair:
			s = "under the " + show(b.Least) + " of " + b.For
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// sources names each band's publication once.
func sources(bands []band) string {
	var out []string
	for _, b := range bands {
		if !slices.Contains(out, b.Source) {
			out = append(out, b.Source)
		}
	}
	return strings.Join(out, "; ")
}

// worst finds, among n figures, how many the band misses and which it misses most, the earliest of equals (−1 where
// none); of is how many figures there are. A figure that is not there counts for nothing.
func (b band) worst(n int, hair float64, figure func(int) (float64, bool)) (at, count, of int) {
	at = -1
	most := 0.0
	for i := range n {
		x, ok := figure(i)
		if !ok {
			continue
		}
		of++
		if m := b.miss(x, hair); m > 0 {
			count++
			if m > most+1e-9 {
				at, most = i, m
			}
		}
	}
	return at, count, of
}
