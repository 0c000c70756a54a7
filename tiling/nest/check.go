package nest

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
)

// check returns what is wrong with the pieces, the sheets (Piece −1) and the options before anything is laid.
func check(pieces []Piece, sheets []Sheet, opt Options) Faults {
	var fs Faults
	add := func(piece int, words string, args ...any) {
		fs = append(fs, Fault{piece, fmt.Sprintf(words, args...)})
	}
	if !(opt.Gap >= 0) || math.IsInf(opt.Gap, 0) {
		add(-1, "a gap of %s between pieces; it is 0 or more", num(opt.Gap))
	}
	if len(sheets) == 0 {
		add(-1, "there is no sheet to lay pieces on")
	}
	for _, s := range sheets {
		open := s.Roll && s.Width == 0
		if !(s.Width > 0 && s.Width <= geom.MostCoordinate || open) || !(s.Height > 0 && s.Height <= geom.MostCoordinate) {
			add(-1, "a sheet of %s x %s; both are more than 0", num(s.Width), num(s.Height))
		}
		if s.Count < 0 {
			add(-1, "%d sheets of %s x %s; 0 stands for any number", s.Count, num(s.Width), num(s.Height))
		}
	}
	for i, k := range opt.KeptUsed {
		if k.Sheet < 0 || k.Sheet >= len(sheets) {
			add(-1, "sheet %d that is in use is of no kind given", i+1)
		}
	}
	seen := map[[2]int]bool{}
	for _, k := range opt.Kept {
		copyOf := [2]int{k.Piece, k.Copy}
		switch {
		case k.Piece < 0 || k.Piece >= len(pieces):
			add(-1, "a piece that is kept is not among the pieces")
		case k.Copy < 0 || k.Copy >= pieces[k.Piece].Count:
			add(k.Piece, "number %d of the piece is kept; there are %d", k.Copy+1, pieces[k.Piece].Count)
		case k.Sheet < 0 || k.Sheet >= len(opt.KeptUsed):
			add(k.Piece, "the piece is kept on sheet %d; %d are in use", k.Sheet+1, len(opt.KeptUsed))
		case !(geom.Point{X: k.X, Y: k.Y}).Finite() || math.IsNaN(k.Turn) || math.IsInf(k.Turn, 0):
			add(k.Piece, "the piece is kept at a place that is not a number")
		case seen[copyOf]:
			add(k.Piece, "number %d of the piece is kept twice", k.Copy+1)
		}
		seen[copyOf] = true
	}
	for i, p := range pieces {
		if words := wrong(p); words != "" {
			add(i, "%s", words)
		}
	}
	return fs
}

// wrong says what is wrong with a piece by itself; "" where nothing is.
func wrong(p Piece) string {
	switch {
	case p.Count < 1:
		return fmt.Sprintf("the piece is wanted %d times; at least 1", p.Count)
	case p.Count > mostPieces:
		return fmt.Sprintf("the piece is wanted %d times; at most %d", p.Count, mostPieces)
	}
	for _, t := range p.Turns {
		if math.IsNaN(t) || math.Abs(t) > 1e6 {
			return "a turn of the piece is not a number of degrees"
		}
	}
	for i, path := range append([]*geom.Path{p.Outline.Outer}, p.Outline.Holes...) {
		what := "the outline"
		if i > 0 {
			what = fmt.Sprintf("opening %d", i)
		}
		if path.Empty() {
			return what + " is empty"
		}
		b := path.Bounds()
		if !b.Min.Finite() || !b.Max.Finite() || b.Min.X < -geom.MostCoordinate || b.Min.Y < -geom.MostCoordinate ||
			b.Max.X > geom.MostCoordinate || b.Max.Y > geom.MostCoordinate {
			return what + " has places that are not numbers, or too far off"
		}
		if path.Start().Dist(path.End()) > geom.Tolerance {
			return what + " is not closed"
		}
		if _, _, at, crosses := path.SelfCrossing(); crosses {
			return fmt.Sprintf("%s crosses itself at %s, %s", what, num(at.X), num(at.Y))
		}
		if !(math.Abs(path.Area()) > geom.Tolerance*(b.W()+b.H())) {
			return what + " encloses nothing"
		}
		if i > 0 && !p.Outline.Outer.Contains(path.Start()) {
			return what + " lies outside the outline"
		}
	}
	if p.Outline.Area() <= 0 {
		return "the openings leave nothing of the piece"
	}
	return ""
}

// mostPieces bounds the number of pieces alike.
const mostPieces = 100_000

// num prints a length to a tenth.
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	return strings.TrimSuffix(s, ".0")
}
