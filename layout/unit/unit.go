// Package unit knows the units of the trade: it reads and prints lengths, angles, slopes,
// weights and scales. Inside the program a length is millimetres, an angle degrees
// (anticlockwise), a weight kilograms, a density kilograms per cubic metre, a slope its rise
// over its run, each as float64; units exist only here, at the edge.
package unit

// Kind says what a value measures. Arithmetic keeps kinds apart.
type Kind uint8

const (
	Number  Kind = iota // a plain number or a count
	Length              // millimetres
	Angle               // degrees, anticlockwise
	Slope               // rise over run
	Weight              // kilograms
	Area                // square millimetres
	Density             // kilograms per cubic metre
	Pixels              // pixels of a picture, only after `within`
)

var kindNames = [...]string{"number", "length", "angle", "slope", "weight", "area", "density", "number of pixels"}

// String returns the kind as an error message names it.
func (k Kind) String() string { return kindNames[k] }

// Value is a quantity of one kind in that kind's inside unit.
type Value struct {
	Kind Kind
	X    float64
}

// System is the unit that a bare number becomes when a length is wanted.
type System uint8

const (
	Millimetre System = iota
	Centimetre
	Metre
	Inch
	Foot
)

var systemNames = [...]string{"mm", "cm", "m", "in", "ft"}
var systemFactors = [...]float64{1, 10, 1000, 25.4, 304.8}

// String returns the unit's word in a geometry file.
func (s System) String() string { return systemNames[s] }

// Factor returns how many millimetres one of the unit is (an inch is 25.4 mm by international agreement of 1959).
func (s System) Factor() float64 { return systemFactors[s] }

// Imperial reports whether people who work in s expect feet and inches.
func (s System) Imperial() bool { return s >= Inch }

// ParseSystem returns the unit named by word.
func ParseSystem(word string) (System, bool) {
	for i, n := range systemNames {
		if n == word {
			return System(i), true
		}
	}
	return 0, false
}
