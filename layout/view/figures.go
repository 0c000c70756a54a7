package view

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// figureStep is the step in millimetres to which heights and lengths in words are printed; feet and inches are
// printed to 1/16".
const figureStep = 0.1

// figure prints a length as the set's people read it.
func figure(s *set.Set, mm float64) string { return unit.FormatLength(mm, s.Units, figureStep) }

// level prints a height above the floor with its sign: +450.
func level(s *set.Set, z float64) string {
	switch {
	case z < -geom.Tolerance:
		return "-" + figure(s, -z)
	case z <= geom.Tolerance:
		return figure(s, 0)
	}
	return "+" + figure(s, z)
}

// slope says which way a ramp rises and how steeply.
func slope(s *set.Ramp) string {
	if s.Rise <= geom.Tolerance {
		return "LEVEL"
	}
	return "UP " + unit.FormatSlope(s.Rise/s.Length)
}

// degrees returns the direction of v, 0 along +x.
func degrees(v geom.Point) float64 { return v.Angle() * 180 / math.Pi }
