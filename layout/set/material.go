package set

import "markout/layout/diag"

// Board is a sheet material: plywood, card, foam.
type Board struct {
	Name          string
	Length, Width float64 // the longer way it was written first: 2440 x 1220
	Thick         float64 // as measured, 17.6 for a nominal 18
	Density       float64 // kg/m³, 0 where not given
	Kerf          float64 // what the saw takes
	Grain         Grain   // which way the board's grain runs: along its length, across it, or free
	Count         int     // how many there are; 0 for any number
	Span          diag.Span
}

// Length is timber or tube bought by the length.
type Length struct {
	Name          string
	Width, Depth  float64 // of its section
	Long          float64
	Density, Kerf float64
	Count         int // 0 for any number
	Span          diag.Span
}

// StockBox is a box that is there already and serves as a step block.
type StockBox struct {
	Length, Width, Height float64
	Count                 int // 0 for any number
	Span                  diag.Span
}

// Part is a piece that the set needs and no element says: a rail, a batten, a patch.
type Part struct {
	Name, Of      string
	Length, Width float64 // Width is 0 of a part cut from a length
	Count         int
	Grain         Grain
	Span          diag.Span
}

// Grain is how the grain of a material lies.
type Grain string

const (
	GrainFree   Grain = ""       // any way
	GrainAlong  Grain = "along"  // along the piece's or board's length (its own x)
	GrainAcross Grain = "across" // across it
)

// Lie says how a flat piece may be turned where it lies on a sheet. Nothing is ever laid face down unless EitherSide.
type Lie struct {
	Turns      []float64 // allowed turns in degrees; nil for any
	Grain      Grain     // in place of Turns
	EitherSide bool
}
