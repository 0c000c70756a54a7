// Package nest lays irregular outlines on sheets: none overlaps another, every one keeps its allowed turns, and there is a gap
// between pieces and to the sheet's edge. It computes and draws nothing.
//
// Work is counted in trials, never in seconds or workers, so that the same input gives the same plan on any machine;
// only a run that is stopped early may differ, and says so.
package nest

import "markout/layout/geom"

// Piece is an outline to be laid, in millimetres, in axes of its own.
type Piece struct {
	Name    string
	Outline geom.Region // holes are openings: smaller pieces may lie in them
	Count   int         // how many alike; at least 1
	Turns   []float64   // allowed turns in degrees, anticlockwise about its own 0,0; nil for any
}

// Sheet is what pieces are laid on: a rectangle from 0,0, Width along x and Height along y.
type Sheet struct {
	Name          string
	Width, Height float64 // of a roll Width is the longest that may be used, 0 for any
	Count         int     // how many there are, 0 for any number
	Roll          bool    // open along x: its used length is made least
}

// Place is where one piece lies. The piece is turned about its own 0,0, which then lies at X, Y from the sheet's lower left corner.
type Place struct {
	Piece, Copy int // index of the piece, and which of its alike, from 0
	Sheet       int // index in Plan.Sheets
	X, Y, Turn  float64
}

// Used is a sheet that carries something.
type Used struct {
	Sheet  int     // index of the kind of sheet
	Length float64 // how far along x its pieces reach, the gap to the edge counted
	Area   float64 // of the pieces on it
}

// Plan is where everything lies.
type Plan struct {
	Sheets  []Used  // in the order of use
	Places  []Place // by piece, then copy
	Trials  int     // how many were made
	Stopped bool    // ended before all trials were made
}

// Effort is how many trials are made.
type Effort int

const (
	Normal Effort = iota
	Quick
	Long
)

// Options say how to lay.
type Options struct {
	Gap      float64 // between pieces and to the edges, 0 or more
	Effort   Effort
	Trials   int     // in place of Effort's number; 0 for Effort's
	Kept     []Place // pieces that stay as they lie (their Sheet counts sheets already in use, from 0); removed ones leave a hole
	KeptUsed []Used  // the sheets that Kept refers to
	Workers  int     // 0 for all cores; the plan does not depend on it
	Progress func(done, total int)
	Stop     func() bool // asked between trials; true ends the search with what is best so far
}

// Fault says why a piece cannot be laid: it fits no sheet at any allowed turn, or there are too few sheets.
type Fault struct {
	Piece int
	Words string
}

// Faults is an error of everything that cannot be laid.
type Faults []Fault

func (f Faults) Error() string {
	if len(f) == 0 {
		return "nothing is wrong"
	}
	return f[0].Words
}
