// Package cut makes cutting lists: pieces from stock lengths, rectangles from boards, step tops on stock
// boxes. It computes and draws nothing: plans say what is cut from which bar, board or box and where, how
// much is left, what is short, and what is proved about the count.
//
// Lengths are millimetres. A saw's kerf k is kept exactly by one rule: every piece is k longer and every bar
// or board side is k longer, and no kerf is counted besides; a piece that ends on the bar's end then
// costs no cut.
//
// Everything is counted in steps of work, never in seconds, so that the same input gives the same plan on
// any machine.
package cut

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
)

// Effort is how many steps a plan may take before it is given out with what is proved so far. The zero value is
// Normal.
type Effort int

const (
	Normal Effort = iota
	Quick         // about a tenth of Normal
	Long          // ten times Normal
)

// steps is the budget of one search. Normal is of the order of a second.
func (e Effort) steps() int64 {
	switch e {
	case Quick:
		return 80_000_000
	case Long:
		return 8_000_000_000
	}
	return 800_000_000
}

// Options are choices that every plan takes. The zero value serves.
type Options struct {
	Effort Effort
}

// Fault is one thing that makes a plan impossible. Piece and Stock are numbers in the lists given, -1 where
// the fault is not theirs.
type Fault struct {
	Piece, Stock int
	Text         string // what is wrong
	Hint         string // what would do, "" where nothing short does
}

// Faults is every fault of an input, as an error.
type Faults []Fault

func (f Faults) Error() string {
	var b strings.Builder
	for i, one := range f {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(one.Text)
		if one.Hint != "" {
			b.WriteString(" (" + one.Hint + ")")
		}
	}
	return b.String()
}

func (f *Faults) piece(i int, hint, format string, args ...any) {
	*f = append(*f, Fault{i, -1, fmt.Sprintf(format, args...), hint})
}

func (f *Faults) stock(i int, hint, format string, args ...any) {
	*f = append(*f, Fault{-1, i, fmt.Sprintf(format, args...), hint})
}

// err is f as an error, nil where there is none.
func (f Faults) err() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// longest is the greatest length taken: 10 km, the farthest that anything of a set may be.
const longest = 1e7

// mostPieces is the most pieces of one plan.
const mostPieces = 100_000

// measure says whether v is a length that can be cut.
func measure(v float64) bool { return v > geom.Tolerance && v <= longest }

func checkKerf(f *Faults, kerf float64) {
	if !(kerf >= 0 && kerf <= 100) {
		f.stock(-1, "from 0 to 100", "no saw takes a kerf of %v", kerf)
	}
}

// units is a length in whole nanometres, rounded down, so that three thirds of a bar always fit it; what
// is under a whole number by rounding alone counts as that number.
func units(mm float64) int64 { return int64(math.Floor(mm/geom.Tolerance + 0.01)) }

// mm writes a length for people, to a tenth of a millimetre.
func mm(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
